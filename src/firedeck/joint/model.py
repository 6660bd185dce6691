"""A whole joint from plain inputs: tightened, bedded in, run until steady, judged, read off.

    put together → tighten → bed in → shake down → judge cold, hot, each cylinder firing → readings

Nothing here knows where the inputs come from; every assumption was made by whoever gave them.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.joint.assembling import Assembled, Bodies, Bolt, assembled, bolt_growth, gap_load
from firedeck.joint.chord import Operator, fast_operator, safe_operator
from firedeck.joint.clamped import Load
from firedeck.joint.geometry.condensed import UPRIGHT, Flexibility
from firedeck.joint.laws import Floats, Law
from firedeck.joint.line_loads import Reading, read_off
from firedeck.joint.states import Judged, Life, Service, bedded_in, firing_name, judged, shaken_down
from firedeck.joint.tightening import Action, Tightened, tighten


@dataclass(frozen=True)
class Scatter:
    """Half widths of the scatter of tension, common to all bolts and of each on its own [share]."""

    common: float
    individual: float


@dataclass(frozen=True)
class Warmth:
    """How much warmer head, block and fasteners run than they were put together [K]; growth of each by label [mm]."""

    head: float
    block: float
    growth: Mapping[str, float] = field(default_factory=dict)
    fasteners: float = 75.0

    def all_at(self, rise: float) -> "Warmth":
        """Everything as warm as everything else.

        Parameters
        ----------
        rise : float
            How much warmer than put together, less than nought in the frost [K].

        Returns
        -------
        Warmth
            The same joint at that temperature [K], [mm].

        Source
        ------
        derived
        """
        growth = {label: longer * rise / self.fasteners for label, longer in self.growth.items()}
        return Warmth(rise, rise, growth, rise)


@dataclass(frozen=True)
class Inputs:
    """All that goes between and round two condensed bodies.

    ``laws`` by kind, or by kind and place [N/mm or MPa]; ``bolts`` by label; ``actions`` of the wrench;
    ``settling`` of each bolt by label [mm]; ``weight`` of the head [N] at ``weight_at`` [mm]; ``peak_pressure`` [MPa];
    ``gap`` at each gasket point, bearing or not, None for flat faces [mm].
    """

    laws: Mapping[str, Law]
    bolts: Mapping[str, Bolt]
    actions: tuple[Action, ...]
    settling: Mapping[str, float]
    weight: float
    weight_at: tuple[float, float]
    peak_pressure: float
    warmth: Warmth
    scatter: Scatter
    gap: Floats | None = None


@dataclass(frozen=True)
class Whole:
    """A joint with its life behind it: what it is made of, how it was tightened, its memory, the judged cases read off."""

    made: Assembled
    operators: tuple[Operator, ...] = field(repr=False)
    service: Service
    tightened: Tightened
    bedded: Life
    life: Life
    judged: Judged
    readings: Mapping[str, Reading]

    @property
    def bores(self) -> tuple[str, ...]:
        """Names of the rings."""
        return self.made.joint.places.names("ring")

    def firing(self, bore: str, warm: bool = True) -> Reading:
        """Read a firing case."""
        return self.readings[firing_name(bore, warm)]


def lived(flexible: Flexibility, share: Floats, inputs: Inputs) -> Whole:
    """Take a joint from the wrench to the road and judge it.

    Parameters
    ----------
    flexible : Flexibility
        Head and block, condensed [mm/N].
    share : ndarray, shape (g,)
        Share of each gasket point [mm or mm²].
    inputs : Inputs
        Gasket, bolts, wrench, gas, warmth [core].

    Returns
    -------
    Whole
        Everything that was worked out [mm], [N], [N/mm].

    Raises
    ------
    OutOfRange
        If the peak pressure or the weight is below nought, or a torque asks for more than a bolt bears.
    DidNotConverge
        If a state does not settle.

    Valid for
    ---------
    See docs/method/joint.md: never compared with a real engine.

    Source
    ------
    derived
    """
    if not (inputs.peak_pressure >= 0.0 and inputs.weight >= 0.0):
        found = f"{inputs.peak_pressure:g} MPa, {inputs.weight:g} N"
        raise OutOfRange("peak pressure and weight", found, "nought or more")
    bodies = Bodies(flexible.places, share, flexible.A, flexible.R, flexible.gas, flexible.warm)
    made = assembled(bodies, inputs.laws, inputs.bolts)
    joint, service = made.joint, service_of(made, inputs)
    safe = safe_operator(joint)
    tight = tighten(joint, [safe], inputs.actions, service.rest)
    operators = (fast_operator(joint, tight.w, tight.state), safe)
    settling = np.array([inputs.settling.get(label, 0.0) for label in joint.places.names("bolt")])
    bedded = bedded_in(joint, operators, (tight.state, tight.w), service.rest, settling)
    life = shaken_down(joint, operators, bedded, service)
    cases = judged(joint, operators, life, service)
    readings = {name: read_off(joint, cases.forces[:, at]) for at, name in enumerate(cases.names)}
    return Whole(made, operators, service, tight, bedded, life, cases, readings)


def service_of(made: Assembled, inputs: Inputs) -> Service:
    """Loads of use of a joint.

    Parameters
    ----------
    made : Assembled
        The joint [mm/N].
    inputs : Inputs
        Weight, gap, gas and warmth [core].

    Returns
    -------
    Service
        At rest, warm, firing [mm], [N].

    Source
    ------
    derived
    """
    joint = made.joint
    x, y = inputs.weight_at
    motions = [1.0, y, -x] if joint.motions == len(UPRIGHT) else [0.0, 0.0, 1.0, y, -x, 0.0]
    rest = Load(joint.nothing().w, -inputs.weight * np.array(motions))
    if inputs.gap is not None:
        rest = rest + gap_load(joint, inputs.gap[made.kept[: joint.springs.points]])
    warm = made.warm["head-even"] * inputs.warmth.head + made.warm["block-even"] * inputs.warmth.block
    fires = {bore: gas * inputs.peak_pressure for bore, gas in made.gas.items()}
    return Service(rest, warm + bolt_growth(joint, inputs.warmth.growth), fires)
