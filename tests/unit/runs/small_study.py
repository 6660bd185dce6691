"""A small invented joint of three bores on very coarse bricks, to be studied in a second or two."""

from dataclasses import replace

from unit.runs.test_condensing import COARSE, REQUEST

from firedeck.joint.assembling import Bolt
from firedeck.joint.engine import Given
from firedeck.joint.geometry.castings import Variant, head_section
from firedeck.joint.law_table import laws_of
from firedeck.joint.model import Inputs, Scatter, Warmth
from firedeck.joint.studied import About
from firedeck.joint.tightening import TurnTo
from firedeck.runs import Castings, EngineRequest, StudyRequest

SOFT, STIFF = (head_section("aluminium-overhead-cam", 70.0, end) for end in (Variant.SOFT, Variant.STIFF))
CASTINGS = Castings(REQUEST, SOFT, STIFF, COARSE)
LABELS = tuple(one.label for one in REQUEST.plan.fasteners)


def given(tension=32e3, peak=6.0, **changed):
    """Everything of an engine but its castings."""
    inputs = Inputs(
        laws=laws_of("graphite-metal-core"),
        bolts=dict.fromkeys(LABELS, Bolt(2.5e5, 60e3)),
        actions=tuple(
            TurnTo(place, pull) for pull in (0.5 * tension, tension) for place in range(len(LABELS))
        ),
        settling=dict.fromkeys(LABELS, 0.002),
        weight=80.0,
        weight_at=(0.0, 0.0),
        peak_pressure=peak,
        warmth=Warmth(80.0, 70.0, dict.fromkeys(LABELS, 0.06), 75.0),
        scatter=Scatter(0.1, 0.1),
    )
    return replace(
        Given(
            inputs=inputs,
            peak=(0.9 * peak, 1.1 * peak),
            knock=0.2 * peak,
            bearing=dict.fromkeys(LABELS, 200.0),
            faces=0.003,
            gasket="graphite",
            fasteners="M10",
            gas="petrol",
            friction=0.2,
        ),
        **changed,
    )


ABOUT = About("head", REQUEST.plan, "coarse", "coarse bricks", 0.4, 1, joints=24, differs=("peak pressure",))


def asked(now=None, as_built=None, castings=CASTINGS, about=ABOUT):
    """A study of a peak pressure raised from 6 to 7 MPa, unless other engines are given."""
    here, then = EngineRequest(castings, now or given(peak=7.0)), EngineRequest(castings, as_built or given())
    return StudyRequest(about, here, then)
