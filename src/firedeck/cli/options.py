"""Options of a command: argparse, with every fault as one line that names the nearest known word."""

import argparse
import difflib
from collections.abc import Callable, Sequence
from typing import NoReturn

from firedeck.errors import JobError

UNITS = ("as-typed", "mm", "inch")


class Options(argparse.ArgumentParser):
    """A parser that raises instead of printing its usage and leaving."""

    def __init__(self, name: str, says: str, more: str = "") -> None:
        super().__init__(
            prog=f"firedeck {name}",
            description=says,
            epilog=more or None,
            allow_abbrev=False,
            conflict_handler="resolve",
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )

    def error(self, message: str) -> NoReturn:
        """Turn what argparse says into one line."""
        raise JobError(self.prog, message, f"allowed: see {self.prog} --help")

    def read(self, arguments: Sequence[str]) -> argparse.Namespace:
        """Read the arguments; an option that is not known is named with the nearest one."""
        options, left = self.parse_known_args(arguments)
        if left:
            raise self._unknown(left[0])
        return options

    def _unknown(self, given: str) -> JobError:
        if not given.startswith("-"):
            return JobError(self.prog, f"{given!r}, one word too many", f"allowed: see {self.prog} --help")
        known = [text for action in self._actions for text in action.option_strings]
        option, _, _ = given.partition("=")
        return JobError(self.prog, f"{option!r}, an unknown option", nearest(option, known))


def one_of(name: str, allowed: Callable[[], Sequence[str]]) -> Callable[[str], str]:
    """Make a reader of an option that takes one word of a list."""

    def read(given: str) -> str:
        words = allowed()
        if given not in words:
            raise JobError(name, repr(given), f"allowed: {', '.join(words)}")
        return given

    return read


def add_units(options: Options) -> None:
    """Add ``--units``: which of the figures already in the answers are printed."""
    options.add_argument(
        "--units",
        metavar="|".join(UNITS),
        default="as-typed",
        type=one_of("--units", lambda: UNITS),
        help="show figures as the job is written, in millimetres or in inches",
    )


def add_json(options: Options) -> None:
    """Add ``--json``."""
    options.add_argument("--json", action="store_true", help="print one JSON object and nothing else")


def nearest(given: str, known: Sequence[str]) -> str:
    """Say which known word is nearest, or list them all."""
    close = difflib.get_close_matches(given, known, n=1, cutoff=0.5)
    return f"nearest known: {close[0]}" if close else f"known: {', '.join(known)}"
