"""The pages: the list of jobs, one job by the stages of the work, one answer in full, and what went wrong."""

from collections.abc import Iterator, Sequence
from itertools import groupby

import htpy as h

from firedeck.report import titles
from firedeck.report.figures import Plain, Units
from firedeck.web import addresses
from firedeck.web.in_full import in_full
from firedeck.web.parts import answer_card, first_looks, picture, unit_switch
from firedeck.web.waiting import waiting_part
from firedeck.web.working import Work

MORE = {"pictures": "Pictures", "paper": "Paper"}
NO_STYLES_OF_ITS_OWN = '{"includeIndicatorStyles": false, "allowEval": false}'


def _page(title: str, *content: h.Node) -> h.Element:
    return h.html(lang="en")[
        h.head[
            h.meta(charset="utf-8"),
            h.meta(name="viewport", content="width=device-width, initial-scale=1"),
            h.meta(name="htmx-config", content=NO_STYLES_OF_ITS_OWN),
            h.title[f"{title} · firedeck"],
            h.link(rel="icon", href="data:,"),
            h.link(rel="stylesheet", href="/static/page.css"),
            h.script(src="/static/htmx.min.js", defer=True),
        ],
        h.body[
            h.header(".top")[
                h.a(".skip", href="#content")["Skip to the content"],
                h.a(href="/")["firedeck"],
            ],
            h.main(id="content")[content],
        ],
    ]


def jobs_page(names: Sequence[str]) -> h.Element:
    """Return the list of jobs."""
    listed = h.ul(".jobs")[(h.li[h.a(href=addresses.of_job(name))[name]] for name in names)]
    nothing = h.p["No job document here. Start one with: ", h.code["firedeck new my-engine.toml"]]
    return _page("Jobs", h.h1["Jobs on the bench"], listed if names else nothing)


def job_page(name: str, whole: Plain, units: Units, work: Work | None = None) -> h.Element:
    """Return one job: what needs a look first, its doubts, and every answer by the stages of the work."""
    job = whole["job"]
    title = job["title"] or name
    return _page(
        title,
        h.h1[title],
        _about(job),
        first_looks(whole["answers"], len(whole["joints"]) > 1),
        waiting_part(name, whole, work),
        _doubts(job["doubts"]),
        unit_switch(addresses.of_job(name), units),
        _stages_list(whole),
        _stages(name, whole, units),
        h.div(id="pictures")[_pictures(whole, units)],
        _sheets(name, units),
        h.footer[
            h.p[
                f"Revision {whole['revision'][:12]}. "
                "The maker's manual, local rules and licensed practice come first."
            ]
        ],
    )


def answer_page(name: str, place: int, answer: Plain, units: Units) -> h.Element:
    """Return one answer in full as a page of its own, for a browser that runs no script."""
    back = f"{addresses.of_job(name, units)}#{addresses.on_page(place)}"
    return _page(
        answer["asks"],
        h.p[h.a(href=back)["Back to the job"]],
        h.h1[answer["asks"]],
        h.h2[answer["headline"]],
        h.h3[answer["state_words"]],
        in_full(answer, units),
    )


def answer_part(answer: Plain, units: Units) -> h.Renderable:
    """Return one answer in full, to be put into the page."""
    return in_full(answer, units)


def stale_part(name: str, units: Units) -> h.Renderable:
    """Return what stands in place of an answer when the document is no longer the one the page shows."""
    return h.p[
        "The document has changed since this page was made. ",
        h.a(href=addresses.of_job(name, units))["Show it as it is now"],
        ".",
    ]


def fault_page(title: str, lines: Sequence[str]) -> h.Element:
    """Return what went wrong, one line each."""
    return _page(title, h.h1[title], h.ul(".faults")[(h.li[line] for line in lines)])


def _about(job: Plain) -> Iterator[h.Node]:
    known = " · ".join(text for text in (job["date"], job["mechanic"]) if text)
    for text in (job["notes"], known):
        if text:
            yield h.p(".notes")[text]


def _doubts(doubts: Sequence[Plain]) -> h.Node:
    if not doubts:
        return None
    lines = (h.li[h.code[doubt["path"]], " ", doubt["text"]] for doubt in doubts)
    return h.section(".doubts")[h.h2["Look at these readings again"], h.ul[lines]]


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
        cards = (
            answer_card(
                answer,
                addresses.of_answer(name, place, units, whole["revision"]),
                addresses.on_page(place),
                units,
                several,
            )
            for place, answer in answers
        )
        yield h.section(id=stage)[h.h2[words], cards]


def _pictures(whole: Plain, units: Units) -> Iterator[h.Node]:
    for joint in whole["joints"]:
        yield picture(joint, whole, units)


def _sheets(name: str, units: Units) -> h.Node:
    lines = (
        h.li[
            h.span(title=says)[title],
            " ",
            _sheet_link(name, card, "pdf", units),
            " ",
            _sheet_link(name, card, "html", units),
        ]
        for card, title, says in titles()
    )
    return h.section(id="paper")[h.h2["Paper"], h.ul(".sheets")[lines]]


def _sheet_link(name: str, card: str, form: str, units: Units) -> h.Node:
    shown = form.upper()
    return h.a(href=addresses.of_sheet(name, card, form, units), aria_label=f"{card} as {shown}")[shown]
