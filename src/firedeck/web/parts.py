"""The pieces of a page: one answer short, one answer in full, pictures, the unit switch."""

from collections.abc import Iterator
from typing import Any

import htpy as h
from markupsafe import Markup

from firedeck.drawing import OUTCOME_MARKS, STATE_MARKS, Picture, face_map, plan_view
from firedeck.quantity import System
from firedeck.report.figures import Units, limit_words, sum_of, value_of, where_from

Plain = dict[str, Any]
SWITCH = {"as-typed": "as typed", "mm": "millimetres", "inch": "inches"}


def unit_switch(address: str, units: Units) -> h.Node:
    """Return the links between the families of units; the text of the job is never touched."""
    links = (
        h.a(href=f"{address}?units={name}", aria_current="true" if name == units else None)[words]
        for name, words in SWITCH.items()
    )
    return h.nav(".units", aria_label="Units")["Units: ", links]


def answer_card(job: str, place: int, answer: Plain, units: Units, several: bool) -> h.Node:
    """Return one answer as a card: what to do, the worst check, and the rest on demand."""
    joint = f" · {answer['joint']}" if several and answer["joint"] else ""
    address = f"/job/{job}/answer/{place}?units={units}"
    return h.article(f".answer.{answer['state']}")[
        h.p(".asks")[f"{answer['asks']}{joint}"],
        h.h3[answer["headline"]],
        h.p(".state")[_mark(STATE_MARKS, answer["state"]), answer["state_words"], _do(answer)],
        h.details(hx_get=address, hx_trigger="toggle once", hx_target="find .full")[
            h.summary["Sums, limits and what next"],
            h.div(".full")[h.p[h.a(href=address)["Show"]]],
        ],
    ]


def full_answer(answer: Plain, units: Units) -> h.Renderable:
    """Return one answer in full."""
    return h.div[
        _checks(answer, units),
        _listed("To do", (_work(line) for line in answer["work"])),
        _listed("Care", answer["cautions"]),
        _listed(
            "Measure next", (f"{step['measure']} — {step['tool']}. {step['how']}" for step in answer["next"])
        ),
        h.p[h.strong["If it is done anyway: "], answer["anyway"]] if answer["anyway"] else None,
        _sums(answer),
        _listed("Taken for granted", answer["assumptions"]),
        _listed("Worth knowing", (f"{note['text']} ({note['source']})" for note in answer["notes"])),
        h.p[answer["reason"]] if answer["reason"] else None,
        h.p(".sources")[f"Sources: {'; '.join(answer['sources'])}"] if answer["sources"] else None,
    ]


def picture(joint: str, findings: Plain, several: bool, system: System) -> h.Node:
    """Return the plan of a joint and the maps of its faces, where they are known."""
    drawn = list(_drawn(joint, findings, system))
    if not drawn:
        return None
    title = f"Seen from above: {joint}" if several else "Seen from above"
    figures = (h.figure[Markup(one.svg), h.figcaption[one.alt]] for one in drawn)
    return h.section(".pictures")[h.h2[title], figures]


def _drawn(joint: str, findings: Plain, system: System) -> Iterator[Picture]:
    layout = findings.get("layout") or {}
    plan = plan_view(layout)
    if plan:
        yield plan
    for face in (findings.get("faces") or {}).get("faces", ()):
        drawn = face_map(layout, face, system, name=f"{joint}-{face['face']}")
        if drawn:
            yield drawn


def _mark(marks: Any, name: str) -> h.Node:
    return h.span(".mark", aria_hidden="true")[f"{marks[name]} "]


def _do(answer: Plain) -> str:
    if not answer["action"]:
        return ""
    choice = f" {answer['choice']}" if answer["choice"] else ""
    return f": {answer['action_words']}{choice}"


def _checks(answer: Plain, units: Units) -> h.Node:
    if not answer["checks"]:
        return None
    rows = (
        h.tr[
            h.th(scope="row")[check["name"]],
            h.td[value_of(check, units)],
            h.td[limit_words(check["limit"], units), h.br, h.small[where_from(check["limit"])]],
            h.td[_mark(OUTCOME_MARKS, check["outcome"]), check["outcome_words"], _rivals(check, units)],
        ]
        for check in answer["checks"]
    )
    head = h.tr[(h.th(scope="col")[word] for word in ("Check", "Found", "Limit", "Outcome"))]
    return h.div(".wide")[h.table[h.thead[head], h.tbody[rows]]]


def _rivals(check: Plain, units: Units) -> Iterator[h.Node]:
    for rival in check["rivals"]:
        words = f"{limit_words(rival, units)} ({where_from(rival)}) would say: {rival['outcome_words']}"
        yield h.fragment[h.br, h.small[words]]


def _work(line: Plain) -> h.Node:
    figure = h.strong[f" {line['figure']}"] if line["figure"] else None
    care = h.em[f" Care: {line['caution']}"] if line["caution"] else None
    return h.fragment[line["text"], figure, care, h.small[f" ({line['source']})"]]


def _listed(title: str, lines: Any) -> h.Node:
    items = [h.li[line] for line in lines]
    return h.fragment[h.h4[title], h.ul[items]] if items else None


def _sums(answer: Plain) -> h.Node:
    if not answer["steps"]:
        return None
    sums = (sum_of(step) for step in answer["steps"])
    lines = (
        h.li[one.says, h.br, h.code[one.formula], h.br, h.small[f"{one.inputs} → {one.result}"]]
        for one in sums
    )
    return h.details[h.summary["The sums, written out"], h.ol[lines]]
