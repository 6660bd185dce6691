"""Which ways a gasket goes on: by its marks, by its holes, and by what is seen through each passage."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.findings.fits import CandidateFit, PassageSeen
from firedeck.tables import Row, rows

NEEDED = ("oil", "drain", "port", "air")
"""Passages that must not be closed; a closed water hole may be meant so."""


@dataclass(frozen=True)
class Way:
    """How one gasket goes on; ``passages`` are those that decide, ``why`` says it in words."""

    action: str | None
    why: str
    passages: tuple[str, ...] = ()
    look: str = ""


def mark_decides(fit: CandidateFit) -> bool:
    """Tell whether a mark says which side or end is which; a mere print does not."""
    if fit.mark_side in ("head", "block"):
        return True
    words = {word.strip(".,:;!").lower() for word in fit.marks.replace("-", " ").split()}
    return bool(words & {row["word"] for row in rows("gasket_marks")})


def wrong_side(fit: CandidateFit, head: str | None) -> Row | None:
    """Return the row that forbids the metal which comes to lie on the head, if one does."""
    return wrong_metal(fit.towards_head, head)


def wrong_metal(towards_head: str | None, head: str | None) -> Row | None:
    """Return the row that forbids a metal on the head, if one does."""
    sides = (
        row for row in rows("gasket_sides") if row["towards_head"] == towards_head and row["head"] == head
    )
    return next(sides, None)


def no_groove(fit: CandidateFit) -> Row | None:
    """Return the row that forbids a construction over a grooved deck, if one does."""
    if not fit.grooved:
        return None
    forbidden = (
        row for row in rows("groove_fits") if row["goes"] == "no" and row["construction"] == fit.construction
    )
    return next(forbidden, None)


def way_of(fit: CandidateFit, passages: Sequence[PassageSeen]) -> Way:
    """Say which way a gasket goes on; action None while it has not been looked at."""
    marked = mark_decides(fit)
    if marked and fit.ways and "as-marked" not in fit.ways:
        return Way("wrong-part", "it does not lie as it is marked: mirrored or of another engine")
    closed = [one for one in passages if one.seen == "covered"]
    needed = tuple(one.label for one in closed if one.leads in NEEDED)
    if needed and len(fit.ways) == 1:
        return Way("wrong-part", "the only way it fits closes a passage that must be open", needed)
    if needed and all(one.turned == "covered" for one in closed if one.leads in NEEDED):
        return Way("wrong-part", "a passage that must be open is closed either way", needed)
    if needed:
        return Way("by-this-passage", "closed this way: turn the gasket and look again", needed)
    if marked:
        return Way("one-way", f"the mark {fit.marks or fit.mark_side} decides", look="geometry")
    return _by_holes(fit, passages, closed)


def _by_holes(fit: CandidateFit, passages: Sequence[PassageSeen], closed: Sequence[PassageSeen]) -> Way:
    differ = tuple(one.label for one in passages if one.seen and one.turned and one.seen != one.turned)
    if differ:
        return Way("by-this-passage", "it looks different the other way round", differ)
    if len(fit.ways) == 1:
        return Way("one-way", f"it fits {fit.ways[0].replace('-', ' ')} only")
    untried = tuple(one.label for one in closed if one.turned is None)
    if untried:
        return Way(
            "by-this-passage", "closed this way: see which way leaves it open, and never punch it", untried
        )
    seen = [one for one in passages if one.seen]
    if len(fit.ways) > 1 and len(seen) == len(passages):
        return Way("any-way", "no mark, and it lies alike both ways")
    return Way(None, "not looked through yet", look="passages")
