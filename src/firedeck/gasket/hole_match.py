"""Does the gasket fit, and which way round: four ways laid, cleared and looked through."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from firedeck.gasket.laying import Laid, Way, lay, put_on
from firedeck.gasket.pattern import Opening, Pattern, check_pattern, places
from firedeck.gasket.through import Passage, Seen, look_alike, passages_through
from firedeck.trace import Step

SIDE_MARKS = {"top", "up", "oben", "haut", "head", "this side up", "head side"}
END_MARKS = {"front": -1.0, "rear": 1.0}
"""Words that name an end, and on which side of the middle that end lies."""
OFF_THE_MIDDLE = 0.1
"""A mark this share of the length off the middle shows by its place which end it means."""
NEVER_BLOCKED = ("oil",)
"""A feed of these is never meant to be covered; water often is."""


class Verdict(StrEnum):
    """How a gasket goes on."""

    ONE_WAY = "only one way fits"
    ANY_WAY = "several ways fit and it does not matter"
    BY_PASSAGE = "several ways fit and a passage tells them apart"
    NONE = "none fits"


@dataclass(frozen=True)
class LaidWay:
    """One way of laying: how it clears, and what is seen through it."""

    laid: Laid
    passages: tuple[Passage, ...]

    @property
    def blocked(self) -> tuple[str, ...]:
        """Labels of the feeds it covers."""
        return tuple(
            one.label for one in self.passages if one.seen is Seen.COVERED and one.leads in NEVER_BLOCKED
        )


@dataclass(frozen=True)
class HoleMatch:
    """The verdict, the ways that fit, the passages that tell them apart, and why the others do not fit."""

    verdict: Verdict
    ways: tuple[LaidWay, ...]
    fitting: tuple[Way, ...]
    deciding: tuple[str, ...]
    why: str
    steps: tuple[Step, ...]


def hole_match(gasket: Pattern, block: Pattern, head: Pattern | None = None) -> HoleMatch:
    """Lay a gasket all four ways and say which of them fit and what tells them apart.

    Parameters
    ----------
    gasket, block : Pattern
        Hole patterns, seen looking down on the deck [mm].
    head : Pattern, optional
        The head face, seen looking down on the deck [mm].

    Returns
    -------
    HoleMatch
        Verdict, ways, deciding passages [mm].

    Raises
    ------
    JobError
        If a pattern is not one: nothing in it, holes in each other, bores outside the outline.

    Valid for
    ---------
    Flat parts. A mark such as TOP or FRONT outranks the geometry.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.gasket.pattern import Opening
    >>> held = tuple(Opening("fastener", f"{x}{y}", x, y, 10.0) for x in (0.0, 90.0) for y in (-50.0, 50.0))
    >>> bore = Opening("bore", "1", 45.0, 0.0, 80.0)
    >>> part = Pattern("block", (bore, *held))
    >>> hole_match(part, part).verdict.value
    'several ways fit and it does not matter'
    """
    for pattern in (gasket, block, *([head] if head else [])):
        check_pattern(pattern)
    laid = [lay(gasket, block, way) for way in Way]
    above = put_on(head, block) if head else None
    ways = tuple(
        LaidWay(one, passages_through(one.pattern, block, above) if one.fits else ()) for one in laid
    )
    forbidden = forbidden_ways(gasket)
    able = [way for way in ways if way.laid.fits]
    clear = [way for way in able if way.laid.way not in forbidden]
    steps = tuple(way.laid.step for way in ways if way.laid.step)
    if able and not clear:
        only = able[0].laid.way.value
        return HoleMatch(
            Verdict.NONE, ways, (), (), f"mirror image: it fits only {only}, which its mark forbids", steps
        )
    if not clear:
        closest = max(ways, key=lambda way: way.laid.clears)
        short = (
            f" short by {-closest.laid.clears:.2f} mm"
            if closest.laid.step and closest.laid.clears < 0
            else ""
        )
        why = f"closest {closest.laid.way.value}: {closest.laid.tightest}{short}"
        return HoleMatch(Verdict.NONE, ways, (), (), why, steps)
    return _judged(ways, able, clear, steps)


def forbidden_ways(gasket: Pattern) -> frozenset[Way]:
    """Ways of laying that the marks on a gasket forbid.

    Parameters
    ----------
    gasket : Pattern
        The gasket with its marks: TOP or UP names the side up, FRONT the end that points to the front [mm].

    Returns
    -------
    frozenset of Way
        The ways that would put a mark where it must not be [text].

    Source
    ------
    common-practice

    Examples
    --------
    >>> from firedeck.gasket.pattern import Opening
    >>> sorted(way.value for way in forbidden_ways(Pattern("gasket", (Opening("mark", "m", 0.0, 0.0, text="TOP"),))))
    ['turned over', 'turned over and end for end']
    """
    forbidden: set[Way] = set()
    for mark in gasket.of("mark"):
        words = {mark.text.strip().lower(), *mark.text.lower().replace("-", " ").split()}
        if words & SIDE_MARKS:
            forbidden |= {Way.TURNED_OVER, Way.BOTH}
        for word in words & set(END_MARKS):
            forbidden |= _wrong_end(gasket, mark, END_MARKS[word])
    return frozenset(forbidden)


def _wrong_end(gasket: Pattern, mark: Opening, side: float) -> set[Way]:
    """Return the ways that bring the mark of an end to the other end; a mark in the middle goes by how it was drawn."""
    xs = places(gasket.of("bore", "fastener", "outline"))[:, 0] if gasket.of("bore") else np.array([0.0])
    off = mark.x - float(xs.mean())
    clear = abs(off) > OFF_THE_MIDDLE * float(np.ptp(xs))
    wants = off * side > 0.0 if clear else True
    turned = {Way.END_FOR_END, Way.BOTH}
    return turned if wants else set(Way) - turned


def _judged(
    ways: tuple[LaidWay, ...], able: Sequence[LaidWay], clear: Sequence[LaidWay], steps: tuple[Step, ...]
) -> HoleMatch:
    """Judge the ways that clear; what tells them apart is looked for in the ways a mark forbids as well."""
    fed = [way for way in clear if not way.blocked]
    if not fed:
        blocked = ", ".join(clear[0].blocked)
        return HoleMatch(
            Verdict.NONE, ways, (), clear[0].blocked, f"{blocked} is covered whichever way it lies", steps
        )
    deciding = tuple(
        dict.fromkeys(label for way in able for label in look_alike(clear[0].passages, way.passages))
    )
    fitting = tuple(way.laid.way for way in fed)
    if len(clear) == 1:
        return HoleMatch(Verdict.ONE_WAY, ways, fitting, deciding, _only(able, fitting[0]), steps)
    if not deciding:
        return HoleMatch(Verdict.ANY_WAY, ways, fitting, (), "every passage is seen alike", steps)
    return HoleMatch(Verdict.BY_PASSAGE, ways, fitting, deciding, f"look at {', '.join(deciding)}", steps)


def _only(able: Sequence[LaidWay], way: Way) -> str:
    return f"only {way.value} clears" if len(able) == 1 else f"its mark leaves only {way.value}"
