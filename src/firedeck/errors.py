"""Every error firedeck raises on purpose, in one look.

    FiredeckError            something a person can mend; str() is one plain line
    ├── BadQuantity          a text that is not one clear quantity
    ├── JobError             one fault in a job document or an argument
    │   └── JobErrors        all the faults of one reading, together
    ├── OutOfRange           a value outside what a calculation is valid for
    ├── DidNotConverge       an iteration that stopped without an answer
    ├── TableGap             a published table has no row for what was asked
    └── UnreadablePicture    a picture that cannot be measured

Only the faces turn these into exit codes and status codes.
"""

from collections.abc import Sequence


class FiredeckError(Exception):
    """Base of all errors that are meant to be read by a person."""


class BadQuantity(FiredeckError):
    """A text that is not one clear quantity.

    ``found`` is the text as typed, ``allowed`` says what would be clear.
    """

    def __init__(self, found: str, allowed: str) -> None:
        self.found = found
        self.allowed = allowed
        super().__init__(f"found {shorten(found)!r}; {allowed}")


class JobError(FiredeckError):
    """One fault in a job document or an argument: where, what was found, what is allowed."""

    def __init__(self, path: str, found: str, allowed: str) -> None:
        self.path = path
        self.found = found
        self.allowed = allowed
        super().__init__(f"{path}: found {found}; {allowed}")


class JobErrors(JobError):
    """All the faults of one reading, in the order of the document."""

    def __init__(self, faults: Sequence[JobError]) -> None:
        self.faults = tuple(faults)
        first = self.faults[0]
        super().__init__(first.path, first.found, first.allowed)

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)


class OutOfRange(FiredeckError):
    """A value outside the range a calculation is valid for."""

    def __init__(self, name: str, found: str, allowed: str) -> None:
        self.name = name
        self.found = found
        self.allowed = allowed
        super().__init__(f"{name}: found {found}; {allowed}")


class DidNotConverge(FiredeckError):
    """An iteration that stopped without an answer, with how far it came."""

    def __init__(self, what: str, iterations: int, residual: float) -> None:
        self.what = what
        self.iterations = iterations
        self.residual = residual
        super().__init__(f"{what} did not settle in {iterations} rounds (left over: {residual:.3g})")


class TableGap(FiredeckError):
    """A published table has no row for what was asked."""

    def __init__(self, table: str, asked: str, has: str) -> None:
        self.table = table
        self.asked = asked
        self.has = has
        super().__init__(f"{table} has no row for {asked}; it has {has}")


class UnreadablePicture(FiredeckError):
    """A picture that cannot be measured, and what would make it readable."""


def shorten(text: str, most: int = 60) -> str:
    """Cut a long text for use in a message: at most ``most`` characters on one line.

    >>> shorten("a\\nb")
    'a b'
    """
    flat = " ".join(text.split())
    return flat if len(flat) <= most else flat[: most - 1] + "…"
