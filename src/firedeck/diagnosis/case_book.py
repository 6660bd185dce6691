"""Causes, the signs they leave and the tests that find the signs, from their tables."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from firedeck.errors import TableGap
from firedeck.tables import Row, rows

ONE_OF, ANY_OF, ASK = "one-of", "any-of", "ask"
UNLISTED = "something-else"


@dataclass(frozen=True)
class Cause:
    """Something that may be wrong: ``weight`` is how often it is met per 1000, by our own guess."""

    id: str
    label: str
    place: str
    weight: float
    means: str
    head_off: bool
    impostor: bool
    while_open: str
    source: str


@dataclass(frozen=True)
class Sign:
    """Something that can be seen: how likely it is under a cause, ``otherwise`` where none is named.

    ``sums_up``: it only says in short what other signs of its test say with the place, for those who wrote no place.
    """

    id: str
    test: str
    label: str
    otherwise: float
    likely: Mapping[str, float]
    source: str
    sums_up: bool = False


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
    signs: Mapping[str, Sign]
    trials: Mapping[str, Trial]

    def sign(self, wanted: str) -> Sign:
        """Give one sign, or say which exist."""
        if wanted not in self.signs:
            raise TableGap(f"{self.name}_evidence", wanted, ", ".join(self.signs))
        return self.signs[wanted]

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
        Read from tables/data/<name>_causes.csv, _evidence.csv and _tests.csv [1].

    Raises
    ------
    TableGap
        If there are no such tables, or a sign names a cause or test that is not there.

    Source
    ------
    [generic-ours] the tables say of each row where it comes from.

    Examples
    --------
    >>> case_book("leak").sign("gas-in-coolant").likely["gasket-to-water"]
    0.92
    """
    causes = {row["cause"]: _cause(row) for row in rows(f"{name}_causes")}
    trials = {row["test"]: _trial(row) for row in rows(f"{name}_tests")}
    signs = {row["evidence"]: _sign(row) for row in rows(f"{name}_evidence")}
    for sign in signs.values():
        strangers = [cause for cause in sign.likely if cause not in causes]
        if strangers or sign.test not in trials:
            raise TableGap(
                f"{name}_evidence", f"{sign.id}: {strangers or sign.test}", "only what the others name"
            )
    for trial in trials.values():
        if strangers := [sign for sign in trial.after if sign not in signs]:
            raise TableGap(f"{name}_tests", f"{trial.id}: {strangers}", "only signs of the evidence table")
    return CaseBook(name, causes, signs, trials)


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
    )


def _sign(row: Row) -> Sign:
    pairs = (pair.split("=") for pair in row["likely"].split())
    likely = {cause: float(share) for cause, share in pairs}
    return Sign(
        id=row["evidence"],
        test=row["test"],
        label=row["label"],
        otherwise=float(row["otherwise"]),
        likely=likely,
        source=row["source"],
        sums_up=row.get("sums_up", "no") == "yes",
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
