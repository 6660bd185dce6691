"""What stands on a sheet, whatever it is printed as: the blocks that PDF, page and text are all made of."""

from dataclasses import dataclass

from firedeck.drawing import Picture

Row = tuple[str, ...]


@dataclass(frozen=True)
class Heading:
    """A heading below the title; level 2 or 3."""

    text: str
    level: int = 2


@dataclass(frozen=True)
class Words:
    """A paragraph. ``style``: plain, strong, caution, small or banner."""

    text: str
    style: str = "plain"


@dataclass(frozen=True)
class Points:
    """A short list under a few words."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Verdict:
    """The state of one answer in three seconds: a mark, its words, the headline, what to do.

    ``anchor`` names it for a list that points to its page.
    """

    mark: str
    state: str
    headline: str
    action: str
    asks: str
    anchor: str = ""


@dataclass(frozen=True)
class Table:
    """A table; an empty cell is a box for a pencil where ``deep``; a long one may stand in two halves where ``fold``."""

    title: str
    columns: Row
    rows: tuple[Row, ...]
    deep: bool = False
    fold: bool = False


@dataclass(frozen=True)
class Tick:
    """One line to tick off."""

    text: str
    figure: str = ""
    caution: str = ""
    source: str = ""


@dataclass(frozen=True)
class Ticks:
    """Lines with a box before each; ``foot`` says who says so where a line does not; ``large`` ones have large figures."""

    title: str
    lines: tuple[Tick, ...]
    foot: str = ""
    large: bool = False


@dataclass(frozen=True)
class Boxes:
    """Boxes with a label, to write in; ``tall`` ones are for initials."""

    title: str
    labels: tuple[str, ...]
    tall: bool = False


@dataclass(frozen=True)
class Drawn:
    """A picture with its caption; ``instead`` is what is filled in where there are no pictures."""

    picture: Picture
    caption: str
    instead: Table | None = None


@dataclass(frozen=True)
class Turn:
    """One step of the tightening: what, its figure, and the turn drawn where there is one."""

    number: int
    text: str
    figure: str
    caution: str
    source: str
    picture: Picture | None = None


@dataclass(frozen=True)
class Turns:
    """The tightening, step by step; ``foot`` says who says so where a step does not."""

    turns: tuple[Turn, ...]
    foot: str = ""


@dataclass(frozen=True)
class Sum:
    """A written sum: what it is, the formula, what went in, what came out, and who says so.

    Without a formula it stands in full further up.
    """

    says: str
    formula: str
    inputs: str
    result: str
    source: str


@dataclass(frozen=True)
class Sums:
    """Written sums, one after the other."""

    title: str
    sums: tuple[Sum, ...]


@dataclass(frozen=True)
class Glimpse:
    """One answer in one line: stage, mark and words of its state, question, headline, and where it stands in full."""

    stage: str
    mark: str
    state: str
    asks: str
    headline: str
    anchor: str


@dataclass(frozen=True)
class Glance:
    """Every answer in one line, with the page it stands on in full."""

    title: str
    lines: tuple[Glimpse, ...]


@dataclass(frozen=True)
class Beside:
    """Blocks in two columns of small print: what is looked up beside a list, not read from an arm's length."""

    columns: tuple[tuple["Block", ...], ...]


Block = Heading | Words | Points | Verdict | Table | Ticks | Boxes | Drawn | Turns | Sums | Glance | Beside


@dataclass(frozen=True)
class Page:
    """The blocks of one joint, or of the whole job."""

    joint: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class Sheet:
    """A sheet ready to be printed."""

    title: str
    says: str
    job: str
    short: str
    facts: tuple[tuple[str, str], ...]
    invented: str
    revision: str
    pages: tuple[Page, ...]
    paper: str
    size: float
    press: int
