"""Lines of work of an answer, made from a list in the tables."""

from collections.abc import Iterator, Mapping

from firedeck.answers.answer import Work
from firedeck.tables.work import Words, lines


def listed(table: str, holding: Words, figures: Mapping[str, str]) -> Iterator[Work]:
    """Give the lines of a list that are for this engine, each with its figure where that is known."""
    for line in lines(table, holding):
        figure = figures.get(line.figure, "") if line.figure else ""
        yield Work(line.text, line.source, figure, line.caution)
