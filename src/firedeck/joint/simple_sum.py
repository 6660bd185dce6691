"""Clamp against gas force as the simple sum: all the pull round a bore over the push inside its seal.

It can say that a joint is worse than as it left the factory, or that it cannot tell. It never says that
a joint holds: it knows nothing of where round the ring the load goes.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from firedeck.cylinder.gas_force import gas_force
from firedeck.errors import JobError, OutOfRange
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, Band, Note, Step

NEAREST_WITHIN = 1.2
"""A fastener also belongs to bores not more than this many times as far as its nearest one."""


@dataclass(frozen=True)
class Bore:
    """A bore: label, centre [mm] and the diameter at which its gasket seals [mm]."""

    label: str
    x: float
    y: float
    seal_diameter: float


@dataclass(frozen=True)
class Fastener:
    """A fastener: label, place [mm] and tension [N]."""

    label: str
    x: float
    y: float
    tension: float


@dataclass(frozen=True)
class Scatter:
    """Scatter of the tension as shares: common to all fasteners, and of each on its own [share]."""

    common: float = 0.0
    single: float = 0.0


@dataclass(frozen=True)
class BoreClamp:
    """One bore: pull of its fasteners and push of the gas [N], their ratio with its band [1]."""

    label: str
    clamp: float
    gas_force: float
    ratio: float
    band: Band
    share: Mapping[str, float]


@dataclass(frozen=True)
class SimpleSum:
    """Every bore of a joint by the simple sum, and the weakest of them."""

    bores: tuple[BoreClamp, ...]
    weakest: str
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()

    def of(self, label: str) -> BoreClamp:
        """Return one bore by its label."""
        for bore in self.bores:
            if bore.label == label:
                return bore
        raise JobError("bores", repr(label), f"known: {', '.join(bore.label for bore in self.bores)}")


def clamp_against_gas(
    bores: Sequence[Bore], fasteners: Sequence[Fastener], peak: float, scatter: Scatter
) -> SimpleSum:
    """Pull of the fasteners round each bore against the push of the gas.

    Parameters
    ----------
    bores : sequence of Bore
        Places and sealing diameters [mm].
    fasteners : sequence of Fastener
        Places [mm] and tensions [N].
    peak : float
        Peak gas pressure above ambient [MPa].
    scatter : Scatter
        Scatter of the tension [share].

    Returns
    -------
    SimpleSum
        Clamp and gas force [N] and their ratio [1] bore by bore.

    Raises
    ------
    JobError
        If there is no bore or no fastener, or a bore has none near it.
    OutOfRange
        If a tension or the peak is not above nought, or a scatter is outside 0 to 1.

    Valid for
    ---------
    A plain joint; pull even round the bore, the gasket's own springing left out.

    Source
    ------
    derived

    Examples
    --------
    >>> places = [(-50.0, -50.0), (50.0, -50.0), (50.0, 50.0), (-50.0, 50.0)]
    >>> bolts = [Fastener(str(n), x, y, 46150.0) for n, (x, y) in enumerate(places)]
    >>> found = clamp_against_gas([Bore("1", 0.0, 0.0, 101.6)], bolts, 7.584, Scatter())
    >>> round(found.of("1").ratio, 2)
    3.0
    """
    _check(bores, fasteners, peak, scatter)
    shares = {fastener.label: shared_out(fastener, bores) for fastener in fasteners}
    steps: list[Step] = []
    clamps = []
    for bore in bores:
        mine = [one for one in fasteners if bore.label in shares[one.label]]
        if not mine:
            raise JobError(f"bore {bore.label}", "no fastener near it", "give the fasteners round every bore")
        found, written = _one_bore(
            bore, mine, {one.label: shares[one.label][bore.label] for one in mine}, peak, scatter
        )
        clamps.append(found)
        steps.extend(written)
    weakest = min(clamps, key=lambda clamp: clamp.ratio).label
    return SimpleSum(tuple(clamps), weakest, tuple(steps), _ASSUMED)


_ASSUMED = (
    Note("a fastener's pull is shared equally among the bores it stands nearest to", GENERIC),
    Note("pull counted as a whole: where round the ring it goes is not known to this sum", GENERIC),
)


def shared_out(fastener: Fastener, bores: Sequence[Bore]) -> Mapping[str, float]:
    """Share of one fastener's pull that goes to each bore.

    Parameters
    ----------
    fastener : Fastener
        The fastener [mm].
    bores : sequence of Bore
        All bores of the joint [mm].

    Returns
    -------
    mapping of str to float
        Share by bore label, together 1 [share].

    Source
    ------
    generic-ours

    Examples
    --------
    >>> pair = [Bore("1", 0.0, 0.0, 86.0), Bore("2", 96.0, 0.0, 86.0)]
    >>> dict(shared_out(Fastener("a", 48.0, 50.0, 1.0), pair))
    {'1': 0.5, '2': 0.5}
    """
    away = {bore.label: math.hypot(fastener.x - bore.x, fastener.y - bore.y) for bore in bores}
    nearest = min(away.values())
    near = [label for label, distance in away.items() if distance <= nearest * NEAREST_WITHIN + 1e-9]
    return {label: 1.0 / len(near) for label in near}


def _check(bores: Sequence[Bore], fasteners: Sequence[Fastener], peak: float, scatter: Scatter) -> None:
    if not bores or not fasteners:
        raise JobError("clamp against gas", "no bore or no fastener", "give both with their places")
    if not peak > 0.0:
        raise OutOfRange("peak", f"{peak:g} MPa", "more than nought is wanted")
    for fastener in fasteners:
        if not fastener.tension > 0.0:
            raise OutOfRange(
                f"tension of {fastener.label}", f"{fastener.tension:g} N", "more than nought is wanted"
            )
    for name, share in (("common", scatter.common), ("single", scatter.single)):
        if not 0.0 <= share < 1.0:
            raise OutOfRange(f"{name} scatter", f"{share:g}", "from 0 to below 1")


def _one_bore(
    bore: Bore, fasteners: Sequence[Fastener], shares: Mapping[str, float], peak: float, scatter: Scatter
) -> tuple[BoreClamp, tuple[Step, ...]]:
    pulls = {f"tension_{n}": (one.tension, "N") for n, one in enumerate(fasteners, start=1)}
    parts = {f"share_{n}": (shares[one.label], NO_UNIT) for n, one in enumerate(fasteners, start=1)}
    terms = " + ".join(f"{part} * {pull}" for part, pull in zip(parts, pulls, strict=True))
    clamp = Step.work_out(
        f"Pull of the fasteners round bore {bore.label}", terms, pulls | parts, ("clamp", "N"), DERIVED
    )
    gas = gas_force(peak, bore.seal_diameter).steps[0]
    ratio = Step.work_out(
        f"Pull over push of the gas, bore {bore.label}",
        "clamp / force",
        {"clamp": clamp.figure(), "force": gas.figure()},
        ("clamp_ratio", NO_UNIT),
        DERIVED,
    )
    doubt = _doubt(fasteners, shares, clamp.value, scatter)
    band = Band(ratio.value * (1.0 - doubt), ratio.value * (1.0 + doubt), why="scatter of the tension")
    found = BoreClamp(bore.label, clamp.value, gas.value, ratio.value, band, dict(shares))
    return found, (clamp, gas, ratio)


def _doubt(
    fasteners: Sequence[Fastener], shares: Mapping[str, float], clamp: float, scatter: Scatter
) -> float:
    """Share of the pull in doubt: the common part whole, the single parts as they average out."""
    own = math.sqrt(sum((shares[one.label] * one.tension) ** 2 for one in fasteners)) / clamp
    return min(math.hypot(scatter.common, scatter.single * own), 1.0)


class Standing(StrEnum):
    """How a joint stands against as it left the factory; this sum has no third word."""

    WORSE = "worse"
    CANNOT_RANK = "cannot-rank"


@dataclass(frozen=True)
class AgainstAsBuilt:
    """Change of the clamp ratio of each bore against as built [1], and what can be said of it."""

    standing: Standing
    worst: str
    change: float
    band: Band
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()


def against_as_built(
    now: SimpleSum, as_built: SimpleSum, *, clamp_doubt: float, gas_doubt: float = 0.1
) -> AgainstAsBuilt:
    """Compare a joint with the same joint as it left the factory.

    Parameters
    ----------
    now, as_built : SimpleSum
        The two states, with the same bores [1].
    clamp_doubt : float
        Doubt of the change of pull; nought where fasteners, lubricant and procedure are unchanged [share].
    gas_doubt : float, optional
        Doubt of the change of peak pressure; counted only where the gas force changes [share].

    Returns
    -------
    AgainstAsBuilt
        Worse, or cannot be ranked; change of the ratio at the worst bore [1].

    Raises
    ------
    JobError
        If the two states do not have the same bores.
    OutOfRange
        If a doubt is outside 0 to below 1.

    Valid for
    ---------
    The same gasket and casting; a fall of the ratio means less in hand, a rise proves nothing.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> bolts = [Fastener(str(n), x, 50.0, 40000.0) for n, x in enumerate((-50.0, 50.0))]
    >>> bore = [Bore("1", 0.0, 0.0, 90.0)]
    >>> stock, boosted = (clamp_against_gas(bore, bolts, p, Scatter()) for p in (6.0, 10.0))
    >>> against_as_built(boosted, stock, clamp_doubt=0.0).standing.value
    'worse'
    >>> against_as_built(stock, boosted, clamp_doubt=0.0).standing.value
    'cannot-rank'
    """
    for name, share in (("clamp_doubt", clamp_doubt), ("gas_doubt", gas_doubt)):
        if not 0.0 <= share < 1.0:
            raise OutOfRange(name, f"{share:g}", "from 0 to below 1")
    labels = [bore.label for bore in now.bores]
    if labels != [bore.label for bore in as_built.bores]:
        raise JobError("as built", "other bores than now", f"give {', '.join(labels)}")
    changes = [_change(now.of(label), as_built.of(label)) for label in labels]
    worst = min(range(len(labels)), key=lambda place: changes[place].value)
    label, change = labels[worst], changes[worst].value
    same_gas = math.isclose(now.of(label).gas_force, as_built.of(label).gas_force, rel_tol=1e-9)
    doubt = min(math.hypot(clamp_doubt, 0.0 if same_gas else gas_doubt), 1.0)
    band = Band(change * (1.0 - doubt), change * (1.0 + doubt), why="doubt of the change, not of the whole")
    worse = band.high < 1.0 - 1e-9
    standing = Standing.WORSE if worse else Standing.CANNOT_RANK
    note = Note(
        "a ratio no lower than as built proves nothing about leaking: this sum never says it holds", GENERIC
    )
    return AgainstAsBuilt(standing, label, change, band, tuple(changes), (*now.assumptions, note))


def _change(now: BoreClamp, before: BoreClamp) -> Step:
    return Step.work_out(
        f"Pull over push now against as built, bore {now.label}",
        "ratio_now / ratio_as_built",
        {"ratio_now": (now.ratio, NO_UNIT), "ratio_as_built": (before.ratio, NO_UNIT)},
        ("change", NO_UNIT),
        DERIVED,
    )


def clamp_wanted(gas: float, clamp_ratio: float, fasteners: int) -> tuple[Step, Step]:
    """Clamp and tension per fastener that a wanted ratio over the gas force takes.

    Parameters
    ----------
    gas : float
        Gas force of one cylinder [N].
    clamp_ratio : float
        Clamp over gas force wanted [1].
    fasteners : int
        Fasteners counted to one cylinder [1].

    Returns
    -------
    tuple of Step
        Whole clamp and tension of each fastener [N].

    Raises
    ------
    OutOfRange
        If a figure is not above nought.

    Source
    ------
    derived

    Examples
    --------
    >>> round(clamp_wanted(61488.0, 3.0, 4)[1].value)
    46116
    """
    for name, value in (("gas force", gas), ("clamp ratio", clamp_ratio), ("fasteners", float(fasteners))):
        if not value > 0.0:
            raise OutOfRange(name, f"{value:g}", "more than nought is wanted")
    whole = Step.work_out(
        "Clamp round the bore",
        "force * clamp_ratio",
        {"force": (gas, "N"), "clamp_ratio": (clamp_ratio, NO_UNIT)},
        ("clamp", "N"),
        DERIVED,
    )
    each = Step.work_out(
        "Tension of each fastener",
        "clamp / fasteners",
        {"clamp": whole.figure(), "fasteners": (float(fasteners), NO_UNIT)},
        ("tension", "N"),
        DERIVED,
    )
    return whole, each
