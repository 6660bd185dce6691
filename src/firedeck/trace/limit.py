"""Limits, bands and checks: what a value is held against, and how that came out."""

from collections.abc import Sequence
from dataclasses import dataclass, field, fields
from enum import StrEnum


class Measure(StrEnum):
    """How a value must be taken for a limit to speak about it."""

    UNDER_THE_EDGE = "under-the-edge"
    MINIMUM_ZONE = "minimum-zone"
    INDICATOR_TOTAL = "indicator-total"
    SINGLE_READING = "single-reading"
    COMPUTED = "computed"


class Rank(StrEnum):
    """Whose limit wins, best first; a row from memory never wins."""

    BULLETIN = "bulletin"
    PART_SHEET = "part-sheet"
    MANUAL = "manual"
    PUBLISHED = "published"
    COMMON_PRACTICE = "common-practice"
    MEMORY = "memory"

    @property
    def order(self) -> int:
        """Place in the order of precedence, 0 is strongest."""
        return list(Rank).index(self)


class Outcome(StrEnum):
    """How a check came out."""

    HOLDS = "holds"
    AT_LIMIT = "at-limit"
    FAILS = "fails"
    CANNOT_TELL = "cannot-tell"


@dataclass(frozen=True)
class Context:
    """What a limit speaks about; a field left out speaks about everything."""

    part: str | None = None
    material: str | None = None
    mating_material: str | None = None
    construction: str | None = None
    direction: str | None = None
    span: float | None = None
    duty: str | None = None
    part_fitted: str | None = None
    fastener: str | None = None
    lubricant: str | None = None
    washer: str | None = None
    gasket: str | None = None

    def covers(self, asked: "Context") -> bool:
        """Tell whether every field stated here equals the one asked for; "any" direction covers all."""
        return all(
            stated is None or stated == wanted or (name == "direction" and "any" in (stated, wanted))
            for name, stated, wanted in (
                (f.name, getattr(self, f.name), getattr(asked, f.name)) for f in fields(self)
            )
        )


@dataclass(frozen=True)
class Limit:
    """One limit of one source. Inclusive; low or high is None when one-sided. Core units."""

    quantity: str
    low: float | None
    high: float | None
    measure: Measure
    applies: Context
    rank: Rank
    source: str
    where: str = ""
    text: str = ""

    def __post_init__(self) -> None:
        if self.low is None and self.high is None:
            raise ValueError(f"limit of {self.quantity} from {self.source} has neither low nor high")


@dataclass(frozen=True)
class Band:
    """What the readings allow: low to high with this share of certainty, and why it is so wide."""

    low: float
    high: float
    share: float = 0.95
    why: str = ""

    def __post_init__(self) -> None:
        if not self.low <= self.high:
            raise ValueError(f"band from {self.low} to {self.high} is upside down")

    def straddles(self, limit: Limit) -> bool:
        """Tell whether one end of the band lies on each side of a bound of the limit."""
        return any(bound is not None and self.low <= bound <= self.high for bound in (limit.low, limit.high))


@dataclass(frozen=True)
class Rival:
    """A limit that did not win, and what it would have said."""

    limit: Limit
    outcome: Outcome


@dataclass(frozen=True)
class Check:
    """A value held against a limit.

    ``name`` is what people read, ``quantity`` the term (its kind and unit come from there),
    ``margin`` is in the unit of value and positive when there is room. ``text`` says a value
    that is not a number; ``of`` names the one of several alternatives it speaks of, blank where it
    speaks of all; ``counts`` is False for a check of one that was looked at and not chosen.
    """

    name: str
    quantity: str
    value: float | None
    outcome: Outcome
    limit: Limit | None = None
    margin: float | None = None
    band: Band | None = None
    rivals: Sequence[Rival] = field(default_factory=tuple)
    text: str = ""
    of: str = ""
    counts: bool = True
