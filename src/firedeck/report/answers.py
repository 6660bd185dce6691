"""One answer as blocks: the state and headline first, then the parts a card asks for."""

import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from firedeck.drawing import OUTCOME_MARKS, STATE_MARKS
from firedeck.report.blocks import Block, Glimpse, Points, Sums, Table, Tick, Ticks, Verdict, Words
from firedeck.report.figures import (
    Plain,
    Units,
    figure,
    limit_words,
    outcome_words,
    sum_of,
    value_of,
    where_from,
    worst_first,
)

CHECK_COLUMNS = ("outcome", "what", "value", "limit", "room", "limit from")
NEXT_COLUMNS = ("measure", "with", "how")


def answer_blocks(answer: Plain, parts: Sequence[str], units: Units) -> Iterator[Block]:
    """Give the verdict of an answer, then its parts in the order asked for; empty parts give nothing."""
    yield verdict(answer)
    if answer.get("reason"):
        yield Words(answer["reason"])
    for part in parts:
        make = PARTS.get(part)
        if make:
            yield from make(answer, units)


def verdict(answer: Plain) -> Verdict:
    """Return the state, headline and action of an answer."""
    action = answer.get("action_words") or ""
    choice = answer.get("choice") or ""
    return Verdict(
        mark=STATE_MARKS.get(answer["state"], ""),
        state=answer["state_words"],
        headline=answer["headline"],
        action=f"{action}: {choice}" if action and choice else action or choice,
        asks=answer["asks"],
        anchor=anchor(answer),
    )


def anchor(answer: Plain) -> str:
    """Return the name by which a list points to an answer."""
    return re.sub(r"[^a-z0-9-]+", "-", f"{answer['question']} {answer['joint'] or 'engine'}".lower())


def glimpse(answer: Plain, *, with_joint: bool) -> Glimpse:
    """Return an answer in one line."""
    where = f", {answer['joint'] or 'the whole engine'}" if with_joint else ""
    return Glimpse(
        stage=answer["stage_words"],
        mark=STANDING_MARKS[answer["standing"]] or STATE_MARKS.get(answer["state"], ""),
        state=STANDING_WORDS[answer["standing"]],
        asks=f"{answer['asks']}{where}",
        headline=answer["headline"],
        anchor=anchor(answer),
    )


STANDING_WORDS = {
    "fails": "fails a limit",
    "close": "too close to call",
    "settled": "settled",
    "open": "not yet",
    "not-applicable": "does not apply",
}
STANDING_MARKS = {
    "fails": OUTCOME_MARKS["fails"],
    "close": "",
    "settled": "",
    "open": "",
    "not-applicable": "",
}


def _checks(answer: Plain, units: Units) -> Iterator[Block]:
    rows = tuple(
        (
            outcome_words(check),
            check["name"],
            value_of(check, units),
            limit_words(check.get("limit"), units),
            figure(check.get("margin_shown"), units),
            where_from(check.get("limit")),
        )
        for check in worst_first(answer.get("checks") or [])
    )
    if rows:
        yield Table("", CHECK_COLUMNS, rows)


def _rivals(answer: Plain, units: Units) -> Iterator[Block]:
    lines = tuple(
        f"{check['name']}: {where_from(rival)} says {limit_words(rival, units)}: {outcome_words(rival)}"
        for check in answer.get("checks") or []
        for rival in check.get("rivals") or []
    )
    if lines:
        yield Points("Other limits, and what each would say", lines)


def _sums(answer: Plain, _units: Units) -> Iterator[Block]:
    steps = answer.get("steps") or []
    if steps:
        yield Sums("Sums", tuple(dict.fromkeys(sum_of(step) for step in steps)))


def ticks_of(answer: Plain) -> tuple[tuple[Tick, ...], str]:
    """Return the work of an answer, line by line, and who says so where a line does not say it."""
    work = answer.get("work") or []
    shared = shared_source([line.get("source", "") for line in work])
    lines = tuple(
        Tick(line["text"], line.get("figure", ""), line.get("caution", ""), own_source(line, shared))
        for line in work
    )
    return lines, foot_of(shared)


def shared_source(sources: Sequence[str]) -> str:
    """Return the source that most lines of a list have, so that it is said once; nothing where there is none."""
    counted = Counter(source for source in sources if source).most_common(1)
    return counted[0][0] if counted and counted[0][1] > 1 else ""


def own_source(line: Plain, shared: str) -> str:
    """Return the source of a line, nothing where it is that of most lines."""
    source = str(line.get("source", ""))
    return "" if source == shared else source


def foot_of(shared: str) -> str:
    """Say once whose lines they are."""
    return f"Where a line names no source: {shared}." if shared else ""


def _work(answer: Plain, _units: Units) -> Iterator[Block]:
    if answer.get("work"):
        yield Ticks("", *ticks_of(answer))


def _cautions(answer: Plain, _units: Units) -> Iterator[Block]:
    for caution in answer.get("cautions") or []:
        yield Words(caution, "caution")


def _next(answer: Plain, _units: Units) -> Iterator[Block]:
    rows = needed([answer])
    if rows:
        yield Table("Measure next", NEXT_COLUMNS, rows)


def needed(answers: Sequence[Plain]) -> tuple[tuple[str, str, str], ...]:
    """Return what is still to be measured, each thing once, the one worth most first."""
    wanted = [step for answer in answers for step in answer.get("next") or []]
    ranked = sorted(wanted, key=lambda step: -(step.get("worth") or 0.0))
    return tuple(dict.fromkeys((step["measure"], step["tool"], step["how"]) for step in ranked))


def _anyway(answer: Plain, _units: Units) -> Iterator[Block]:
    if answer.get("anyway"):
        yield Points("If it is done anyway", (answer["anyway"],))


def _sources(answer: Plain, _units: Units) -> Iterator[Block]:
    if answer.get("sources"):
        yield Words(f"Sources: {'; '.join(answer['sources'])}", "small")


def _listed(key: str, title: str) -> Callable[[Plain, Units], Iterator[Block]]:
    def make(answer: Plain, _units: Units) -> Iterator[Block]:
        lines = tuple(_line(item) for item in answer.get(key) or [])
        if lines:
            yield Points(title, lines)

    return make


def _line(item: Any) -> str:
    return item if isinstance(item, str) else f"{item['text']} ({item['source']})"


PARTS: Mapping[str, Callable[[Plain, Units], Iterator[Block]]] = {
    "checks": _checks,
    "rivals": _rivals,
    "sums": _sums,
    "work": _work,
    "assumptions": _listed("assumptions", "Taken as given"),
    "cautions": _cautions,
    "next": _next,
    "anyway": _anyway,
    "notes": _listed("notes", "Notes"),
    "sources": _sources,
}
