"""The pieces of a page: what needs a look first, one answer as a card, pictures, the unit switch."""

from collections.abc import Iterator, Mapping, Sequence

import htpy as h
from markupsafe import Markup

from firedeck.drawing import OUTCOME_MARKS, STATE_MARKS, Picture, face_map, plan_view, ring_picture
from firedeck.quantity import System
from firedeck.report.figures import (
    Plain,
    Units,
    judged_words,
    limit_words,
    value_of,
    where_from,
    worst_first,
)
from firedeck.web.addresses import on_page

SWITCH: Mapping[Units, str] = {"as-typed": "as typed", "mm": "millimetres", "inch": "inches"}
FAILS = "fails its limit"
COUNTED = (FAILS, "too close to call", "settled", "not yet: measure this", "does not apply here")
LOOK_FIRST = COUNTED[:2]
STANDINGS = ("fails", "close", "settled", "open", "not-applicable")


def unit_switch(job: str, units: Units) -> h.Node:
    """Return the links between the families of units; the text of the job is never touched."""
    links = (
        h.a(href=f"{job}?units={name}", aria_current="true" if name == units else None)[words]
        for name, words in SWITCH.items()
    )
    return h.nav(".units", aria_label="Units")["Units: ", links]


def first_looks(answers: Sequence[Plain], several: bool) -> h.Node:
    """Return how the answers stand, and those that fail a limit or lie on one, the worst first."""
    counts = {words: sum(counted_as(answer) == words for answer in answers) for words in COUNTED}
    said = " · ".join(f"{words}: {count}" for words, count in counts.items() if count)
    lines = [
        h.li[h.a(href=f"#{on_page(place)}")[answer["headline"]], h.span[_do(answer), _where(answer, several)]]
        for wanted in LOOK_FIRST
        for place, answer in enumerate(answers)
        if counted_as(answer) == wanted
    ]
    return h.section(".first")[h.h2["Look at these first"], h.p[said], h.ul[lines]] if lines else h.p[said]


def counted_as(answer: Plain) -> str:
    """Tell how an answer stands in a few words."""
    return COUNTED[STANDINGS.index(answer["standing"])]


def answer_card(answer: Plain, address: str, place: str, units: Units, several: bool) -> h.Node:
    """Return one answer as a card: the headline, what to do, the worst check, and the rest on demand."""
    return h.article(f".answer.{answer['state']}", id=place)[
        h.p(".asks")[answer["asks"], _where(answer, several)],
        h.h3[answer["headline"]],
        h.p(".state")[mark(STATE_MARKS, answer["state"]), answer["state_words"], _do(answer)],
        _worst(answer["checks"], units),
        h.p(".reason")[answer["reason"]] if answer["reason"] else None,
        h.p[f"Measure: {answer['next'][0]['measure']}, with {answer['next'][0]['tool']}"]
        if answer["next"]
        else None,
        h.details(hx_get=address, hx_trigger="toggle once", hx_target="find .full")[
            h.summary["Sums, limits and what next"],
            h.div(".full", aria_live="polite")[h.p[h.a(href=address)["Show"]]],
        ],
    ]


def picture(joint: str, whole: Plain, units: Units) -> h.Node:
    """Return the plan of a joint and the maps of its faces with what they were held against, where they are known."""
    drawn = list(_drawn(joint, whole, units))
    if not drawn:
        return None
    title = f"Seen from above: {joint}" if len(whole["joints"]) > 1 else "Seen from above"
    figures = (
        h.figure[
            scrolled(one.alt.split(".")[0], Markup(one.svg)),
            h.p(".slide")["Slide the picture sideways, or turn the telephone."],
            h.figcaption[h.strong[judged, " "] if judged else None, one.alt],
        ]
        for one, judged in drawn
    )
    return h.section(".pictures")[h.h2[title], figures]


def scrolled(name: str, *content: h.Node) -> h.Node:
    """Return something wide in a box that scrolls by itself, by keyboard too."""
    return h.div(".wide", tabindex="0", role="group", aria_label=name)[content]


def mark(marks: Mapping[str, str], name: str) -> h.Node:
    """Return our mark beside a word; the word says it all, so the mark is silent."""
    return h.span(".mark", aria_hidden="true")[f"{marks[name]} "]


def _drawn(joint: str, whole: Plain, units: Units) -> Iterator[tuple[Picture, str]]:
    findings: Plain = whole["findings"].get(joint, {})
    system: System = whole["job"]["units"] if units == "as-typed" else units
    layout = findings.get("layout") or {}
    for plain in (plan_view(layout), ring_picture(layout, (findings.get("joint") or {}).get("study"))):
        if plain:
            yield plain, ""
    for face in (findings.get("faces") or {}).get("faces", ()):
        dips = (findings.get("rings") or {}).get("dips", ())
        drawn = face_map(layout, face, system, name=f"{joint}-{face['face']}", dips=dips)
        if drawn:
            yield drawn, judged_words(whole["answers"], joint, "face_flatness", face["face"], units)


def _where(answer: Plain, several: bool) -> str:
    return f" · {answer['joint']}" if several and answer["joint"] else ""


def _do(answer: Plain) -> h.Node:
    if not answer["action"]:
        return None
    choice = f": {answer['choice']}" if answer["choice"] else ""
    return h.fragment[" → ", h.strong(".action")[f"{answer['action_words']}{choice}"]]


def _worst(checks: list[Plain], units: Units) -> h.Node:
    if not checks:
        return None
    check = worst_first(checks)[0]
    limit = (
        f" · limit {limit_words(check['limit'], units)} ({where_from(check['limit'])})"
        if check["limit"]
        else ""
    )
    said = f"{check['outcome_words']} · {check['name']} · {value_of(check, units)}{limit}"
    return h.p(".worst")[mark(OUTCOME_MARKS, check["outcome"]), said]
