"""Whether a gasket fits, and which way round."""

from firedeck.gasket.hole_match import HoleMatch, LaidWay, hole_match
from firedeck.gasket.pattern_text import pattern_of
from firedeck.gasket.through import Seen
from firedeck.sums.registry import Figure, SumResult, a_sum
from firedeck.trace import DERIVED


@a_sum("hole-match")
def hole_match_(gasket: str, block: str, head: str | None = None) -> SumResult:
    """Lay a gasket all four ways over block and head: which ways fit, and what tells them apart."""
    found = hole_match(
        pattern_of(gasket, "gasket"), pattern_of(block, "block"), pattern_of(head, "head") if head else None
    )
    return SumResult(
        {
            "verdict": Figure(found.verdict.value),
            "ways_that_fit": Figure([way.value for way in found.fitting]),
            "deciding_passages": Figure(list(found.deciding)),
            "why": Figure(found.why),
            "ways": Figure([_way(way) for way in found.ways]),
            "covered": Figure(_labels(found, Seen.COVERED)),
            "uncovered": Figure(_labels(found, Seen.OPEN)),
            "metered": Figure(_metered(found)),
            "without_partner": Figure(_labels(found, Seen.NO_PARTNER)),
        },
        found.steps,
        (DERIVED,),
        cautions=(
            "Smaller holes usually meter flow: leave them. A mark on the gasket comes before its geometry.",
        ),
    )


def _way(way: LaidWay) -> dict[str, object]:
    laid = way.laid
    clears = round(laid.clears, 4) if laid.step else None
    off = round(max((one.off for one in laid.residuals), default=0.0), 4) if laid.step else None
    return {
        "way": laid.way.value,
        "fits": laid.fits,
        "clears_mm": clears,
        "tightest": laid.tightest,
        "largest_residual_mm": off,
    }


def _labels(found: HoleMatch, seen: Seen) -> dict[str, list[str]]:
    return {
        way.laid.way.value: [one.label for one in way.passages if one.seen is seen]
        for way in found.ways
        if way.passages
    }


def _metered(found: HoleMatch) -> dict[str, dict[str, float]]:
    return {
        way.laid.way.value: {
            one.label: round(one.share, 4) for one in way.passages if one.seen is Seen.METERED
        }
        for way in found.ways
        if way.passages
    }
