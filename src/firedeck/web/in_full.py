"""One answer with everything it rests on: checks, work, what next, sums and sources."""

from collections.abc import Iterable, Iterator
from itertools import groupby

import htpy as h

from firedeck.drawing import OUTCOME_MARKS
from firedeck.report.figures import (
    Plain,
    Units,
    figure,
    limit_words,
    sum_of,
    value_of,
    where_from,
    worst_first,
)
from firedeck.web.parts import mark, scrolled

COLUMNS = ("Outcome", "Check", "Found", "Limit", "Room left")


def in_full(answer: Plain, units: Units) -> h.Renderable:
    """Return one answer in full."""
    return h.div[
        h.p[answer["reason"]] if answer["reason"] else None,
        h.p[h.strong["Locked: "], answer.get("locked")] if answer.get("locked") else None,
        _checks(answer["checks"], units),
        _listed("To do", (_work(line) for line in answer["work"]), in_order=True),
        _listed("Mind", answer["cautions"]),
        _listed("Measure next", (_next(step) for step in answer["next"])),
        _listed("If it is done anyway", [answer["anyway"]] if answer["anyway"] else []),
        _sums(answer["steps"]),
        _listed("Taken as given", answer["assumptions"]),
        _listed("Notes", (f"{note['text']} ({note['source']})" for note in answer["notes"])),
        h.p(".sources")[f"Sources: {'; '.join(answer['sources'])}"] if answer["sources"] else None,
    ]


def _checks(checks: list[Plain], units: Units) -> h.Node:
    if not checks:
        return None
    head = h.tr[(h.th(scope="col")[word] for word in COLUMNS)]
    rows = (_check(check, units) for check in worst_first(checks))
    return scrolled("Checks", h.table(".checks")[h.thead[head], h.tbody[rows]])


def _check(check: Plain, units: Units) -> h.Node:
    why = (check["band"] or {}).get("why", "")
    return h.tr[
        h.td[mark(OUTCOME_MARKS, check["outcome"]), check["outcome_words"]],
        h.th(scope="row")[check["name"]],
        h.td(data_says="Found: ")[value_of(check, units), h.fragment[h.br, h.small[why]] if why else None],
        h.td(data_says="Limit: ")[
            limit_words(check["limit"], units),
            h.br,
            h.small[where_from(check["limit"])],
            _rivals(check["rivals"], units),
        ],
        h.td(data_says="Room left: ")[figure(check["margin_shown"], units)],
    ]


def _rivals(rivals: Iterable[Plain], units: Units) -> Iterator[h.Node]:
    for rival in rivals:
        limit = limit_words(rival, units)
        says = f"another limit, {limit}, would say: {rival['outcome_words']} ({where_from(rival)})"
        yield h.fragment[h.br, h.small[says]]


def _work(line: Plain) -> h.Node:
    return h.fragment[
        line["text"],
        h.strong[f" {line['figure']}"] if line["figure"] else None,
        h.small[f" ({line['source']})"] if line["source"] else None,
        h.fragment[h.br, h.em[f"Mind: {line['caution']}"]] if line["caution"] else None,
    ]


def _next(step: Plain) -> h.Node:
    places = ", ".join(step["paths"])
    worth = step["worth"]
    return h.fragment[
        h.strong[step["measure"]],
        f", with {step['tool']}. {step['how']}",
        h.small[f" Takes away {worth:.0%} of what the readings leave open."] if worth is not None else None,
        h.fragment[h.br, "Goes in: ", h.code[places]] if places else None,
    ]


def _listed(title: str, lines: Iterable[h.Node], *, in_order: bool = False) -> h.Node:
    items = [h.li[line] for line in lines]
    list_of = h.ol if in_order else h.ul
    return h.fragment[h.h4[title], list_of[items]] if items else None


def _sums(steps: list[Plain]) -> h.Node:
    if not steps:
        return None
    return h.details(".sums")[
        h.summary["The sums, written out"],
        (
            h.fragment[h.p[f"For {check}"], h.ol[(_sum(step) for step in under)]]
            for check, under in groupby(steps, key=lambda step: step["check"])
        ),
    ]


def _sum(step: Plain) -> h.Node:
    one = sum_of(step)
    return h.li[
        one.says,
        h.small[f" ({one.source})"],
        h.br,
        h.code[one.formula],
        h.br,
        h.small[f"{one.inputs} → {one.result}"],
    ]
