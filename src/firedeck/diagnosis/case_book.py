"""Causes, the signs they leave and the tests that find the signs, from their tables."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from firedeck.errors import TableGap
from firedeck.tables import Row, one, rows

ONE_OF, ANY_OF, ASK = "one-of", "any-of", "ask"
UNLISTED = "something-else"


@dataclass(frozen=True)
class Cause:
    """Something that may be wrong: ``weight`` is how often it is met per 1000, by our own guess.

    ``carried_by``: share of engines that have the part it sits in. ``family``: what it has in common with others.
    """

    id: str
    label: str
    place: str
    weight: float
    means: str
    head_off: bool
    impostor: bool
    while_open: str
    source: str
    carried_by: float = 1.0
    family: str = ""


@dataclass(frozen=True)
class Way:
    """One way in which a cause shows itself, and its ``share`` of that cause: within it signs hardly depend.

    Its ``id`` is that of the cause where there is one way only, else the cause and the way parted by a stroke.
    """

    id: str
    cause: str
    share: float
    says: str


@dataclass(frozen=True)
class Sign:
    """Something that can be seen: how likely it is under a cause, ``otherwise`` where none is named.

    ``likely`` goes by the id of a way, or of a cause for all its ways. ``sums_up``: it only says in short what
    other signs of its test say with the place, for those who wrote no place. ``fact``: what it is a witness of,
    where several signs witness the same thing. ``look``: the look round it belongs to, where one leak shows at one
    place. ``follows``: the sign without which it cannot be there.
    """

    id: str
    test: str
    label: str
    otherwise: float
    likely: Mapping[str, float]
    source: str
    sums_up: bool = False
    fact: str = ""
    look: str = ""
    follows: str = ""

    def under(self, way: Way) -> float:
        """How likely it is under one way."""
        return self.likely.get(way.id, self.likely.get(way.cause, self.otherwise))


@dataclass(frozen=True)
class Trial:
    """A test that shows signs: minutes of work, what it costs put as minutes, and the signs it goes on from."""

    id: str
    label: str
    form: str
    minutes: float
    cost_minutes: float
    needs: str
    tool: str
    how: str
    caution: str
    source: str
    after: tuple[str, ...] = ()


@dataclass(frozen=True, eq=False)
class CaseBook:
    """One set of causes, signs and tests, each by its id."""

    name: str
    causes: Mapping[str, Cause]
    ways: Mapping[str, Way]
    signs: Mapping[str, Sign]
    trials: Mapping[str, Trial]

    def sign(self, wanted: str) -> Sign:
        """Give one sign, or say which exist."""
        if wanted not in self.signs:
            raise TableGap(f"{self.name}_evidence", wanted, ", ".join(self.signs))
        return self.signs[wanted]

    def ways_of(self, cause: str) -> tuple[Way, ...]:
        """Give the ways of one cause."""
        return tuple(way for way in self.ways.values() if way.cause == cause)

    def signs_of(self, trial: str) -> tuple[Sign, ...]:
        """Give the signs a test can show, in the order of the table."""
        return tuple(sign for sign in self.signs.values() if sign.test == trial)


@cache
def case_book(name: str) -> CaseBook:
    """Return the causes, signs and tests of one kind of question.

    Parameters
    ----------
    name : str
        "leak" for where it leaks, "root" for what killed it [text].

    Returns
    -------
    CaseBook
        Read from tables/data/<name>_causes.csv, _evidence.csv and _tests.csv, and from cause_ways.csv [1].

    Raises
    ------
    TableGap
        If there are no such tables, or a sign names a cause, way or test that is not there.

    Source
    ------
    [generic-ours] the tables say of each row where it comes from.

    Examples
    --------
    >>> case_book("leak").sign("gas-in-coolant").likely["gasket-to-water"]
    0.85
    """
    causes = {row["cause"]: _cause(row) for row in rows(f"{name}_causes")}
    ways = {way.id: way for cause in causes for way in _ways(name, cause)}
    trials = {row["test"]: _trial(row) for row in rows(f"{name}_tests")}
    signs = {row["evidence"]: _sign(row) for row in rows(f"{name}_evidence")}
    for sign in signs.values():
        strangers = [cause for cause in sign.likely if cause not in causes and cause not in ways]
        strangers += [sign.follows] if sign.follows and sign.follows not in signs else []
        if strangers or sign.test not in trials:
            raise TableGap(
                f"{name}_evidence", f"{sign.id}: {strangers or sign.test}", "only what the others name"
            )
    for trial in trials.values():
        if strangers := [sign for sign in trial.after if sign not in signs]:
            raise TableGap(f"{name}_tests", f"{trial.id}: {strangers}", "only signs of the evidence table")
    return CaseBook(name, causes, ways, signs, trials)


def _cause(row: Row) -> Cause:
    return Cause(
        id=row["cause"],
        label=row["label"],
        place=row["place"],
        weight=float(row["weight"]),
        means=row["means"],
        head_off=row.get("head_off", "yes") == "yes",
        impostor=row.get("impostor", "no") == "yes",
        while_open=row.get("while_open", ""),
        source=row["source"],
        carried_by=float(row.get("carried_by") or 1.0),
        family=row.get("family", ""),
    )


def _ways(book: str, cause: str) -> list[Way]:
    found = [row for row in rows("cause_ways") if (row["book"], row["cause"]) == (book, cause)]
    if not found:
        return [Way(cause, cause, 1.0, "")]
    return [Way(f"{cause}/{row['way']}", cause, float(row["share"]), row["says"]) for row in found]


@cache
def _often(word: str) -> float:
    """Read a likelihood: a word of frequency_words.csv, or a figure."""
    if word[0].isdigit():
        return float(word)
    return float(one("frequency_words", word, lambda row: row["word"] == word)["share"])


def _sign(row: Row) -> Sign:
    pairs = (pair.split("=") for pair in row["likely"].split())
    likely = {cause: _often(share) for cause, share in pairs}
    return Sign(
        id=row["evidence"],
        test=row["test"],
        label=row["label"],
        otherwise=_often(row["otherwise"]),
        likely=likely,
        source=row["source"],
        sums_up=row.get("sums_up", "no") == "yes",
        fact=row.get("fact", ""),
        look=row.get("look", ""),
        follows=row.get("follows", ""),
    )


def _trial(row: Row) -> Trial:
    return Trial(
        id=row["test"],
        label=row["label"],
        form=row["form"],
        minutes=float(row["minutes"]),
        cost_minutes=float(row["cost_minutes"]),
        needs=row["needs"],
        tool=row["tool"],
        how=row["how"],
        caution=row["caution"],
        source=row["source"],
        after=tuple(row.get("after", "").split()),
    )
