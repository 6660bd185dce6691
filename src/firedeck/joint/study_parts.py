"""One thing after another to both ends of what it may be, for both engines alike: the parts of the band."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from firedeck.joint.assumed import assumed
from firedeck.joint.clamped import ClampedJoint
from firedeck.joint.engine import MIDDLE, SOFT, STIFF, Engine, Ready, dipped, doubt_of_curve, ready
from firedeck.joint.laws import Floats
from firedeck.joint.run_in import RunIn, run_in
from firedeck.joint.scatter import course_of, draws, scattered
from firedeck.joint.slipping import Held
from firedeck.joint.states import firing_name
from firedeck.joint.study_band import Pair, Part
from firedeck.joint.tightening import Action, TurnTo

DRAWS = 120
"""Joints drawn for what the wrench does."""
SHORT_OF_YIELD = 0.995
"""A tension beyond yield is taken as this share of it: a turning bolt cannot pull more."""
CHANGE_OF_PEAK = assumed("change of peak")
"""Doubt of a change of peak pressure that was worked out, as a share; our own assumption."""


@dataclass(frozen=True)
class Both:
    """An engine now and as it left the factory (alone where nobody said how that was), each put together and run in."""

    engines: tuple[Engine, ...]
    made: tuple[Ready, ...]
    runs: tuple[RunIn, ...]

    @property
    def middle(self) -> Pair:
        """Lowest firing line loads of both as they are meant to be."""
        return paired([run.firing for run in self.runs])

    def alike(self, what: str) -> bool:
        """Whether both have the same gasket, fasteners or gas, and so the same doubt of it."""
        return len({getattr(engine.given, what) for engine in self.engines}) == 1


def both_of(engines: Sequence[Engine], made: Sequence[Ready]) -> Both:
    """Run one or two engines in the short way.

    Parameters
    ----------
    engines : sequence of Engine
        Now, and as built where that is known [core].
    made : sequence of Ready
        Each put together as it is meant to be [mm/N].

    Returns
    -------
    Both
        Ready for one thing after another [N/mm].

    Raises
    ------
    DidNotConverge
        If a joint does not settle.

    Source
    ------
    derived
    """
    return Both(tuple(engines), tuple(made), tuple(run_in(one) for one in made))


def paired(found: Sequence[Mapping[str, float]]) -> Pair:
    """Make a pair of one or two joints.

    Parameters
    ----------
    found : sequence of mapping of str to float
        Loads by bore, now first [N/mm].

    Returns
    -------
    Pair
        The pair [N/mm].

    Source
    ------
    derived
    """
    return Pair(found[0], found[1] if len(found) > 1 else None)


def parts_of(both: Both, held: Sequence[Held | None], joints: int = DRAWS) -> tuple[Part, ...]:
    """Work out all parts of the band.

    Parameters
    ----------
    both : Both
        The engines as they are meant to be [N/mm].
    held : sequence of Held or None
        The stuck case of each engine [N/mm].
    joints : int
        Joints drawn for the tension [1].

    Returns
    -------
    tuple of Part
        Tension, section, gasket curve, peak pressure and, where there is one, change of peak, slip, faces, friction.

    Raises
    ------
    DidNotConverge
        If a joint does not settle.

    Source
    ------
    derived
    """
    return (
        _tension(both, joints),
        *_castings(both),
        *_curves(both),
        *_pressures(both),
        *_slip(both, held),
        *_faces(both),
        *_friction(both),
    )


def _castings(both: Both) -> Iterator[Part]:
    ends = [one for one in (SOFT, STIFF) if all(one in engine.flexible for engine in both.engines)]
    pairs = [paired([run_in(ready(engine, end)).firing for engine in both.engines]) for end in ends]
    if pairs:
        yield Part("section", "inside of the head, soft to stiff", both.middle, tuple(pairs))


def _curves(both: Both) -> Iterator[Part]:
    """Both gaskets alike where they are the same, else one after the other."""
    every = tuple(range(len(both.engines)))
    for places in (every,) if both.alike("gasket") else tuple((place,) for place in every):
        pairs = []
        for end in (-1.0, 1.0):
            firing = [run.firing for run in both.runs]
            for place in places:
                engine = both.engines[place]
                factor = 1.0 + end * doubt_of_curve(engine.given.inputs.laws)
                firing[place] = run_in(ready(engine, MIDDLE, factor)).firing
            pairs.append(paired(firing))
        whose = " as built" if places == (1,) else ""
        says = f"how hard the gasket{whose} presses back"
        yield Part(f"gasket curve{whose}", says, both.middle, tuple(pairs))


def _pressures(both: Both) -> Iterator[Part]:
    """Peak pressure of both alike, and the change of it where the gas is not the same."""
    ends = [
        paired(
            [_at_pressure(both, place, engine.given.peak[end]) for place, engine in enumerate(both.engines)]
        )
        for end in (0, 1)
    ]
    yield Part("peak pressure", "peak pressure of the gas", both.middle, tuple(ends))
    if not both.alike("gas"):
        meant = both.engines[0].given.inputs.peak_pressure
        factors = (1.0 - CHANGE_OF_PEAK, 1.0 + CHANGE_OF_PEAK)
        ends = [paired([_at_pressure(both, 0, meant * one), both.runs[1].firing]) for one in factors]
        yield Part("change of peak", "change of the peak pressure", both.middle, tuple(ends))


def _at_pressure(both: Both, place: int, pressure: float) -> Mapping[str, float]:
    inputs = both.made[place].inputs
    if pressure == inputs.peak_pressure:
        return both.runs[place].firing
    return run_in(both.made[place], replace(inputs, peak_pressure=pressure)).firing


def _slip(both: Both, held: Sequence[Held | None]) -> Iterator[Part]:
    """Stuck against free, both on coarse bricks; left out where friction could not hold the faces."""
    held_up = [one for one in held if one is not None and one.slip.believable]
    if len(held_up) == len(both.engines):
        free, stuck = paired([one.free for one in held_up]), paired([one.firing for one in held_up])
        yield Part("slip", "hot faces that stick instead of slipping", free, (stuck,))


def _faces(both: Both) -> Iterator[Part]:
    """Readings off by a dip, or a hump, at the lowest place of every ring at once; both alike where they share them."""
    doubt = both.engines[0].given.faces
    if doubt <= 0.0:
        return
    gaps = [
        np.zeros(len(one.share)) if one.given.inputs.gap is None else one.given.inputs.gap
        for one in both.engines
    ]
    same = len(gaps) > 1 and np.array_equal(gaps[0], gaps[1]) and both.alike("faces")
    pairs = []
    for depth in (doubt, -doubt):
        firing: list[Mapping[str, float]] = [run.firing for run in both.runs]
        for place in range(len(gaps)) if same else (0,):
            firing[place] = _dipped(both, place, gaps[place], depth)
        pairs.append(paired(firing))
    yield Part("faces", "what the readings of the faces may be off", both.middle, tuple(pairs))


def _dipped(both: Both, place: int, gap: Floats, depth: float) -> Mapping[str, float]:
    made = both.made[place]
    for bore in both.runs[0].firing:
        at = _lowest_at(both.made[0].made.joint, both.runs[0], bore)
        gap = dipped(both.engines[place], gap, at, depth)
    return run_in(made, replace(made.inputs, gap=gap)).firing


def _lowest_at(joint: ClampedJoint, run: RunIn, bore: str) -> tuple[float, float]:
    """Where the ring of a bore is lowest while its cylinder fires hot."""
    forces = run.cases.case(firing_name(bore))[1]
    ring = np.flatnonzero(joint.places.of("ring", bore))
    at = int(ring[(forces[ring] / joint.springs.share[ring]).argmin()])
    return float(joint.places.x[at]), float(joint.places.y[at])


def _friction(both: Both) -> Iterator[Part]:
    """Fasteners or lubricant that are not the same: friction does not cancel any more."""
    doubt, made = both.engines[0].given.friction, both.made[0]
    if not both.alike("fasteners") and doubt > 0.0:
        most = made.made.joint.springs.most
        pairs = []
        for end in (-doubt, doubt):
            actions = tuple(_pulled(one, 1.0 + end, most) for one in made.inputs.actions)
            firing = run_in(made, replace(made.inputs, actions=actions)).firing
            pairs.append(paired([firing, both.runs[1].firing]))
        says = "friction of fasteners that are not those of the factory"
        yield Part("friction", says, both.middle, tuple(pairs))


def _pulled(action: Action, factor: float, most: Floats) -> Action:
    if not isinstance(action, TurnTo):
        return action
    return replace(action, tension=min(action.tension * factor, SHORT_OF_YIELD * float(most[action.bolt])))


def _tension(both: Both, joints: int) -> Part:
    """Drawn joints, both engines with the same luck; the first of each is as it was meant."""
    lows = [_drawn(made, run, joints) for made, run in zip(both.made, both.runs, strict=True)]
    pairs = tuple(
        paired([{bore: float(low[bore][n]) for bore in low} for low in lows]) for n in range(joints)
    )
    return Part("tension", "what wrench and friction make of the torque", pairs[0], pairs[1:], drawn=True)


def _drawn(made: Ready, run: RunIn, joints: int) -> dict[str, Floats]:
    """Lowest firing line load of every ring of every drawn joint."""
    joint, scatter = made.made.joint, made.inputs.scatter
    most = SHORT_OF_YIELD * joint.springs.most
    meant = np.minimum(run.tensions, most)
    factors = draws(len(meant), joints, scatter.common, scatter.individual)
    factors[:, 0] = 1.0
    tensions: Floats = np.minimum(meant[:, None] * factors, most[:, None])
    found = scattered(joint, course_of(joint, meant, run.service), tensions)
    return {bore: found.lowest[place, found.cases.index(bore)] for place, bore in enumerate(found.bores)}
