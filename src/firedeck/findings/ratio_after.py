"""The ratio after a cut and another gasket, from measured volumes, a stated ratio, or a known pair."""

from collections.abc import Iterator
from dataclasses import dataclass

from firedeck.cylinder.volumes import ratio_of_volumes
from firedeck.errors import OutOfRange
from firedeck.findings.amounts import Amounts
from firedeck.findings.volumes import Gasket, Volumes, clearance_of
from firedeck.job import Job, Joint
from firedeck.tables import rows
from firedeck.trace import DERIVED, NO_UNIT, Band, Figure, Missing, Step


@dataclass(frozen=True)
class RatioAfter:
    """Ratio of one cylinder (or of the engine as the papers have it) before and after.

    ``after`` is None where only a bracket can be given; then ``band`` is the bracket.
    """

    label: str
    before: float
    after: float | None
    steps: tuple[Step, ...]
    band: Band | None = None


def ratios_after(
    job: Job, joint: Joint, volumes: Volumes, cuts: Amounts, gasket: Gasket | None
) -> Iterator[RatioAfter]:
    """Work out the ratio of every measured cylinder, or that of the papers."""
    bore = job.engine.bore.value if job.engine.bore else None
    before = volumes.gasket
    if volumes.swept and bore and (volumes.area or not cuts.head):
        for label, now in volumes.measured.items():
            figures = _figures(volumes, (cuts.head, cuts.block), (before, gasket), bore)
            both = (volumes.swept, (now.clearance_volume, "mm³"))
            yield _after(label, now.ratio, both, figures, now.steps)
    if volumes.measured or volumes.stated is None:
        return
    in_all = (cuts.head_in_all.value, cuts.block_in_all.value)
    if volumes.swept and bore and (volumes.area or not in_all[0]):
        clearance = clearance_of(volumes.stated, volumes.swept)
        figures = _figures(volumes, in_all, (before, gasket), bore)
        first = (volumes.swept, clearance)
        yield _after("", volumes.stated, (volumes.swept, clearance.figure()), figures, first)
        return
    known = joint.chamber
    if known.ratio_after and known.measured_cut and not in_all[1]:
        yield _by_pair(volumes.stated, known.ratio_after.value, known.measured_cut.value, cuts)
    elif volumes.swept and bore and in_all[0]:
        yield from _bracket(job, volumes, in_all[0], bore)


def area_missing(volumes: Volumes, found: tuple[RatioAfter, ...]) -> tuple[Missing, ...]:
    """Say what a cut's volume hangs on, where it is not known."""
    settled = any(ratio.after is not None for ratio in found)
    return () if settled or volumes.area else (volumes.area_missing,)


def _figures(
    volumes: Volumes, cuts: tuple[float, float], gaskets: tuple[Gasket | None, Gasket | None], bore: float
) -> dict[str, tuple[float, str]]:
    figures = {"bore": (bore, "mm"), "block_cut": (cuts[1], "mm")}
    if volumes.area and cuts[0]:
        figures |= {"plan_area": (volumes.area.value, "mm²"), "head_cut": (cuts[0], "mm")}
    old, new = gaskets
    if old and new and (old.thickness, old.bore) != (new.thickness, new.bore):
        figures |= {
            "thickness_before": (old.thickness, "mm"),
            "thickness_after": (new.thickness, "mm"),
            "ring_before": (old.bore or new.bore or bore, "mm"),
            "ring_after": (new.bore or old.bore or bore, "mm"),
        }
    return figures


def _after(
    label: str,
    before: float,
    volumes: tuple[Step, Figure],
    figures: dict[str, tuple[float, str]],
    first: tuple[Step, ...],
) -> RatioAfter:
    swept, clearance = volumes
    formula = "clearance_volume - pi / 4 * bore**2 * block_cut"
    if "head_cut" in figures:
        formula += " - plan_area * head_cut"
    if "ring_after" in figures:
        formula += " + pi / 4 * (ring_after**2 * thickness_after - ring_before**2 * thickness_before)"
    left = Step.work_out(
        "Volume left at top dead centre after the work",
        formula,
        {"clearance_volume": clearance, **figures},
        ("clearance_volume", "mm³"),
        DERIVED,
    )
    if left.value <= 0.0:
        raise OutOfRange(
            "cut", f"{left.value:g} mm³ left at top dead centre", "a cut that leaves room for gas"
        )
    after = ratio_of_volumes(swept.value, left.value)
    return RatioAfter(label, before, after.ratio, (*first, left, *after.steps))


def _by_pair(stated: float, known: float, measured_cut: float, cuts: Amounts) -> RatioAfter:
    """One known cut with its ratio gives every other: volume falls evenly with depth."""
    step = Step.work_out(
        "Ratio after the cut, from one known cut and its ratio",
        "1 + 1 / (1 / (ratio - 1) - (1 / (ratio - 1) - 1 / (known_ratio - 1)) * cut / known_cut)",
        {
            "ratio": (stated, NO_UNIT),
            "known_ratio": (known, NO_UNIT),
            "known_cut": (measured_cut, "mm"),
            "cut": cuts.head_in_all.figure(),
        },
        ("ratio_after", NO_UNIT),
        DERIVED,
    )
    return RatioAfter("", stated, step.value, (cuts.head_in_all, step))


def _bracket(job: Job, volumes: Volumes, cut: float, bore: float) -> Iterator[RatioAfter]:
    """Bracket the ratio where the chamber outline is not known; the bore is not it."""
    row = next((row for row in rows("chamber_shares") if row["valve_gear"] == job.engine.valve_gear), None)
    if row is None or volumes.swept is None or volumes.stated is None:
        return
    clearance = clearance_of(volumes.stated, volumes.swept)
    ends = [_with_share(float(row[end]), (clearance, volumes.swept), cut, bore) for end in ("low", "high")]
    if min(left.value for left, _ in ends) <= 0.0:
        return
    (_, low), (_, high) = ends
    why = f"chamber outline not known: {row['low']} to {row['high']} of the bore area"
    steps = (volumes.swept, clearance, *ends[0], *ends[1])
    yield RatioAfter("", volumes.stated, None, steps, Band(low.value, high.value, 0.95, why))


def _with_share(share: float, volumes: tuple[Step, Step], cut: float, bore: float) -> tuple[Step, Step]:
    clearance, swept = volumes
    left = Step.work_out(
        f"Volume left if the chamber outline were {share:g} of the bore area",
        "clearance_volume - share * pi / 4 * bore**2 * head_cut",
        {
            "clearance_volume": clearance.figure(),
            "share": (share, NO_UNIT),
            "bore": (bore, "mm"),
            "head_cut": (cut, "mm"),
        },
        ("clearance_volume", "mm³"),
        DERIVED,
    )
    ratio = Step.work_out(
        "Compression ratio then",
        "(swept_volume + clearance_volume) / clearance_volume",
        {"swept_volume": swept.figure(), "clearance_volume": left.figure()},
        ("ratio", NO_UNIT),
        DERIVED,
    )
    return left, ratio
