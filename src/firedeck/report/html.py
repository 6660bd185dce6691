"""One page that stands alone: style and pictures inside, no address of anything outside, prints well."""

from collections.abc import Iterator
from importlib.resources import files

import htpy as h
from markupsafe import Markup

from firedeck.drawing import Picture
from firedeck.report.blocks import (
    Beside,
    Block,
    Boxes,
    Drawn,
    Glance,
    Heading,
    Points,
    Sheet,
    Sum,
    Sums,
    Table,
    Tick,
    Ticks,
    Turn,
    Turns,
    Verdict,
    Words,
)

NAMESPACE = ' xmlns="http://www.w3.org/2000/svg"'


def to_html(sheet: Sheet) -> bytes:
    """Write a sheet as one HTML page."""
    style = files(__package__).joinpath("templates", "sheet.css").read_text("utf-8")
    size = "letter" if sheet.paper == "letter" else "A4"
    page = h.html(lang="en")[
        h.head[
            h.meta(charset="utf-8"),
            h.meta(name="viewport", content="width=device-width, initial-scale=1"),
            h.title[f"{sheet.title}: {sheet.job}"],
            h.style[Markup(f"@page {{ size: {size}; margin: 13mm 15mm; }}\n{style}")],
        ],
        h.body[h.main[_head(sheet), _pages(sheet), _foot(sheet)]],
    ]
    return str(page).encode()


def _head(sheet: Sheet) -> h.Node:
    return h.header[
        h.h1[sheet.title],
        h.p(".job")[sheet.job],
        h.p[sheet.says],
        h.p(".invented")[sheet.invented] if sheet.invented else None,
        h.dl[((h.dt[label], h.dd[value]) for label, value in sheet.facts)] if sheet.facts else None,
    ]


def _pages(sheet: Sheet) -> Iterator[h.Node]:
    for page in sheet.pages:
        named = page.joint and len(sheet.pages) > 1
        yield h.section(".page")[
            h.h2[f"Joint {page.joint}"] if named else None, (_block(block) for block in page.blocks)
        ]


def _foot(sheet: Sheet) -> h.Node:
    return h.footer["revision ", h.code[sheet.revision]] if sheet.revision else None


def _block(block: Block) -> h.Node:
    match block:
        case Heading(text, level):
            return h.h2[text] if level == 2 else h.h3[text]
        case Words(text, style):
            return h.p(f".{style}")[h.strong["Take care. "] if style == "caution" else None, text]
        case Points(title, lines):
            return h.div(".points")[h.p(".strong")[title], h.ul[(h.li[line] for line in lines)]]
        case Verdict():
            return _verdict(block)
        case Table():
            return _table(block)
        case Ticks(title, ticks, foot, large):
            return h.div[
                _title(title),
                h.ul(".ticks.large" if large else ".ticks")[(h.li[_tick(tick)] for tick in ticks)],
                _foot_line(foot),
            ]
        case Boxes(title, labels, tall):
            kind = ".boxes.tall" if tall else ".boxes"
            return h.div[_title(title), h.div(kind)[(h.div[label] for label in labels)]]
        case Drawn(picture, caption):
            return h.figure[_picture(picture), h.figcaption[caption]]
        case Turns(turns, foot):
            return h.div[h.ol(".turns")[(h.li[_turn(turn)] for turn in turns)], _foot_line(foot)]
        case Sums(title, sums):
            return h.div[_title(title), (_sum(one) for one in sums)]
        case Glance():
            return _glance(block)
        case Beside(columns):
            return h.div(".beside")[(h.div[(_block(one) for one in column)] for column in columns)]


def _title(title: str) -> h.Node:
    return h.p(".strong")[title] if title else None


def _foot_line(text: str) -> h.Node:
    return h.p(".small")[text] if text else None


def _glance(glance: Glance) -> h.Node:
    rows = (
        h.tr[
            h.td[h.span(".mark", aria_hidden="true")[line.mark], f" {line.state}"],
            h.td[line.asks],
            h.td[h.a(href=f"#{line.anchor}")[line.headline]],
        ]
        for line in glance.lines
    )
    columns = ("state", "question", "answer")
    return h.table(".read")[
        h.caption[glance.title],
        h.thead[h.tr[(h.th(scope="col")[name] for name in columns)]],
        h.tbody[rows],
    ]


def _picture(picture: Picture) -> Markup:
    """Put an SVG in; it was written by the drawing room, with every text of a user escaped there."""
    return Markup(picture.svg.replace(NAMESPACE, "", 1))


def _verdict(verdict: Verdict) -> h.Node:
    return h.div(".verdict", id=verdict.anchor or None)[
        h.p(".asks")[verdict.asks],
        h.p(".headline")[verdict.headline],
        h.p(".state")[
            h.span(".mark", aria_hidden="true")[verdict.mark],
            f" {verdict.state}",
            (" · ", h.strong[verdict.action]) if verdict.action else None,
        ],
    ]


def _table(table: Table) -> h.Node:
    return h.table(".deep" if table.deep else ".read")[
        h.caption[table.title] if table.title else None,
        h.thead[h.tr[(h.th(scope="col")[name] for name in table.columns)]],
        h.tbody[(h.tr[(h.td[cell] for cell in row)] for row in table.rows)],
    ]


def _tick(tick: Tick) -> h.Node:
    return (
        h.span(".box"),
        h.span[
            tick.text,
            h.b(".figure")[tick.figure] if tick.figure else None,
            h.span(".care")[h.strong["Take care. "], tick.caution] if tick.caution else None,
            h.span(".source")[f"({tick.source})"] if tick.source else None,
        ],
    )


def _turn(turn: Turn) -> h.Node:
    return (
        h.span(".number")[f"{turn.number}."],
        h.span(".what")[
            turn.text,
            h.b(".figure")[turn.figure] if turn.figure else None,
            h.span(".care")[h.strong["Take care. "], turn.caution] if turn.caution else None,
            h.span(".source")[f"({turn.source})"] if turn.source else None,
        ],
        h.span(".turn")[_picture(turn.picture)] if turn.picture else None,
        h.span(".box"),
    )


def _sum(written: Sum) -> h.Node:
    return h.div(".sum")[
        h.p[written.says, h.span(".source")[f"({written.source})"]],
        h.code[written.formula] if written.formula else None,
        h.code[written.inputs] if written.inputs else None,
        h.code(".result")[written.result],
    ]
