"""The gasket the clamped joint is reckoned with: its pressing laws, its ring, how it stands at the ring."""

from dataclasses import dataclass

from firedeck.errors import TableGap
from firedeck.findings.groups import gasket_that_goes_on, number
from firedeck.findings.joint_said import Said
from firedeck.job import Joint
from firedeck.job.ring_curve import ring_curve
from firedeck.job.schema.joint import Candidate, OldGasket
from firedeck.joint.assumed import assumed
from firedeck.joint.law_table import laws_of
from firedeck.joint.laws import Law, Per
from firedeck.trace import Missing

RING_WIDTH, SEAL_OVER_BORE = assumed("ring width"), assumed("seal over bore")
"""Width of a ring nobody measured, and how far its hole stands off a bore, across [mm]."""


@dataclass(frozen=True)
class GasketGiven:
    """Laws by kind [N/mm or MPa], hole over each bore (None: stands off it) and width of the ring [mm].

    ``stands`` [mm]: how far the ring stands nearer than the body; ``retorque``: the gasket's papers ask for it.
    """

    name: str
    laws: dict[str, Law]
    hole: float | None
    width: float
    stands: float
    retorque: bool

    def gas(self, bore: float) -> float:
        """Diameter of the circle the gas fills over a bore [mm]."""
        return self.hole or bore + SEAL_OVER_BORE


def gasket_given(joint: Joint, said: Said) -> GasketGiven | Missing:
    """Take the gasket that goes on, or the old one as its like."""
    gasket = gasket_that_goes_on(joint) or joint.gasket.old
    construction = gasket.construction if gasket else None
    try:
        laws = laws_of(construction or "")
    except TableGap:
        return unknown(joint)
    ring = laws["ring"]
    said(f"gasket taken as {ring.name}: {ring.note}" if ring.note else f"gasket taken as {ring.name}")
    own = ring_curve(joint.name, gasket) if isinstance(gasket, Candidate) else None
    if own is not None:
        laws = laws | {"ring": own.law}
        said(
            f"ring of the gasket pressed as in its own curve, loads moved by up to {own.steps[0].value:.1%} to "
            "rise throughout; creep, beads and body as others of its construction"
        )
    width = _width(gasket, said)
    hole = number(gasket.bore if gasket else None)
    if hole is None:
        said(f"gasket taken to seal {SEAL_OVER_BORE:g} mm over the bore")
    along = {
        kind: law.along(width) if kind != "body" and law.per is Per.AREA else law
        for kind, law in laws.items()
    }
    retorque = isinstance(gasket, Candidate) and gasket.retorque == "yes"
    stands = _stands(joint, gasket, said)
    name = f"{construction} {width:g}" + (f", own curve of {own.law.name}" if own else "")
    return GasketGiven(name, along, hole, width, stands, retorque)


def unknown(joint: Joint) -> Missing:
    """Say how a construction is read."""
    path = f"joint.{joint.name}.gasket.fitted"
    how = "Read it off the wrapper, or look at the edge: layers of steel, graphite, copper, a wire. Then name it."
    return Missing((path,), "of what construction the gasket is that goes on", "eye", how)


def _width(gasket: Candidate | OldGasket | None, said: Said) -> float:
    width = number(getattr(gasket, "ring_width", None))
    if width is None:
        said(f"ring of the gasket taken as {RING_WIDTH:g} mm wide")
    return width or RING_WIDTH


def _stands(joint: Joint, gasket: Candidate | OldGasket | None, said: Said) -> float:
    """How far the ring stands out of its body, or a wire out of its groove, less a recess it lies in."""
    if not isinstance(gasket, Candidate):
        return 0.0
    out, wire = number(gasket.ring_stand_out), number(gasket.wire)
    groove = number(joint.block.groove_depth) or number(joint.head.groove_depth)
    recess = number(joint.block.recess)
    if out is None and wire is not None and groove is not None:
        return wire - groove
    if recess is not None and out is not None:
        return out - recess
    if recess:
        said("recess of the block taken as filled by the ring: how far the ring stands out is not said")
    return out or 0.0
