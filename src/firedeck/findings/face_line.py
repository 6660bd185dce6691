"""One line over a face, however it was read: its largest gap under an edge, and what the readings allow."""

from dataclasses import dataclass

from firedeck.job.frame import Place
from firedeck.quantity import Kind, parse
from firedeck.tables import one
from firedeck.trace import Band, Step

ANY = "any"
"""Direction of a largest gap found with the edge laid every way."""


@dataclass(frozen=True)
class FaceLine:
    """The largest gap under the edge on one line; ``band`` is what leaves or instrument allow.

    ``more`` are sums the band was made with. ``span`` is set where the line speaks of a limit per span [mm].
    ``by`` is leaves, points or the instrument of a stepped line; blank for a single figure. Where no leaf stopped
    the line is ``open_above``: its gap is at least so much.
    """

    name: str
    direction: str
    gap: float
    band: Band | None
    place: Place
    step: Step
    more: tuple[Step, ...] = ()
    span: float | None = None
    by: str = ""
    open_above: bool = False


def way_of(start: Place, end: Place) -> str:
    """Say which way a line runs: along, across or diagonal."""
    along, across = abs(end[0] - start[0]), abs(end[1] - start[1])
    if across <= 0.1 * along:
        return "along"
    return "across" if along <= 0.5 * across else "diagonal"


def usual_error(by: str, kind: Kind) -> tuple[float, str]:
    """Return how far one reading of an instrument may be out where nothing is said [core], and who says so."""
    row = one("instrument_errors", by, lambda row: row["by"] == by)
    return parse(row["error"], kind).value, row["source"]
