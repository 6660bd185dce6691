"""The pages: the list of jobs, one job by the stages of the work, one answer in full, and what went wrong."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

import htpy as h

from firedeck.quantity import System
from firedeck.report import SHEETS
from firedeck.report.figures import Units
from firedeck.web.parts import answer_card, full_answer, picture, unit_switch

Plain = dict[str, Any]
MORE = {"pictures": "Pictures", "paper": "Paper"}


def _page(title: str, *content: h.Node) -> h.Element:
    return h.html(lang="en")[
        h.head[
            h.meta(charset="utf-8"),
            h.meta(name="viewport", content="width=device-width, initial-scale=1"),
            h.title[f"{title} · firedeck"],
            h.link(rel="stylesheet", href="/static/page.css"),
            h.script(src="/static/htmx.min.js", defer=True),
        ],
        h.body[h.header(".top")[h.a(href="/")["firedeck"]], h.main[content]],
    ]


def jobs_page(names: Sequence[str]) -> h.Element:
    """Return the list of jobs."""
    listed = h.ul(".jobs")[(h.li[h.a(href=f"/job/{name}")[name]] for name in names)]
    nothing = h.p["No job document here. Start one with: ", h.code["firedeck new my-engine.toml"]]
    return _page("Jobs", h.h1["Jobs on the bench"], listed if names else nothing)


def job_page(name: str, whole: Plain, units: Units) -> h.Element:
    """Return one job: its doubts, its plan, and every answer by the stages of the work."""
    job = whole["job"]
    return _page(
        job["title"],
        h.h1[job["title"]],
        h.p(".notes")[job["notes"]] if job["notes"] else None,
        unit_switch(f"/job/{name}", units),
        _doubts(job["doubts"]),
        _stages_list(whole),
        _stages(name, whole, units),
        h.div(id="pictures")[_pictures(whole, units)],
        _sheets(name, units),
        h.footer[
            h.p[
                f"Revision {whole['revision'][:12]}. The maker's manual, local rules and licensed practice come first."
            ]
        ],
    )


def answer_part(answer: Plain, units: Units) -> h.Renderable:
    """Return one answer in full, to be put into the page."""
    return full_answer(answer, units)


def fault_page(title: str, lines: Sequence[str]) -> h.Element:
    """Return what went wrong, one line each."""
    return _page(title, h.h1[title], h.ul(".faults")[(h.li[line] for line in lines)])


def _doubts(doubts: Sequence[Plain]) -> h.Node:
    if not doubts:
        return None
    lines = (h.li[h.code[doubt["path"]], " ", doubt["text"]] for doubt in doubts)
    return h.section(".doubts")[h.h2["Is this a slip?"], h.ul[lines]]


def _by_stage(whole: Plain) -> Iterator[tuple[str, str, list[tuple[int, Plain]]]]:
    placed = list(enumerate(whole["answers"]))
    for (stage, words), answers in groupby(
        placed, key=lambda pair: (pair[1]["stage"], pair[1]["stage_words"])
    ):
        yield stage, words, list(answers)


def _stages_list(whole: Plain) -> h.Node:
    links = (h.li[h.a(href=f"#{stage}")[words]] for stage, words, _ in _by_stage(whole))
    more = (h.li[h.a(href=f"#{place}")[words]] for place, words in MORE.items())
    return h.nav(aria_label="Stages of the work")[h.ol(".stages")[links, more]]


def _stages(name: str, whole: Plain, units: Units) -> Iterator[h.Node]:
    several = len(whole["joints"]) > 1
    for stage, words, answers in _by_stage(whole):
        cards = (answer_card(name, place, answer, units, several) for place, answer in answers)
        yield h.section(id=stage)[h.h2[words], cards]


def _pictures(whole: Plain, units: Units) -> Iterator[h.Node]:
    system: System = whole["job"]["units"] if units == "as-typed" else units
    for joint in whole["joints"]:
        yield picture(joint, whole["findings"].get(joint, {}), len(whole["joints"]) > 1, system)


def _sheets(name: str, units: Units) -> h.Node:
    links = (
        h.li[
            h.span[card],
            " ",
            h.a(href=f"/job/{name}/sheet/{card}.pdf?units={units}", aria_label=f"{card} as PDF")["PDF"],
            " ",
            h.a(href=f"/job/{name}/sheet/{card}.html?units={units}", aria_label=f"{card} as HTML")["HTML"],
        ]
        for card in SHEETS
    )
    return h.section(id="paper")[h.h2["Paper"], h.ul(".sheets")[links]]
