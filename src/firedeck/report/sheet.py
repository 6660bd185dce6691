"""A sheet from an assessment and a card: who, what, and the blocks of every page."""

from dataclasses import dataclass

from firedeck.errors import shorten
from firedeck.report.blocks import Page, Sheet
from firedeck.report.bodies import Scope, body_blocks
from firedeck.report.cards import Card
from firedeck.report.figures import Plain, Units

WIDTHS = {"a4": 180.0, "letter": 186.0}
"""Room across between the margins of each paper [mm]."""

INVENTED = "Invented data: nothing on this sheet was measured on a real engine."


@dataclass(frozen=True)
class Fit:
    """How hard a sheet is pressed to hold on its page: smaller plan views, closer lines (press up to 2)."""

    shrink: float = 1.0
    press: int = 0


AS_IT_IS = Fit()


def sheet_of(plain: Plain, card: Card, paper: str, units: Units, fit: Fit = AS_IT_IS) -> Sheet:
    """Lay out a card for a job."""
    job = plain["job"]
    joints = tuple(plain.get("joints") or ())
    runs = [(joint,) for joint in joints] if card.pages == "joint" else [joints]
    scopes = [
        Scope(plain, run, _answers(plain, card, run), units, WIDTHS[paper], fit.shrink)
        for run in runs or [()]
    ]
    return Sheet(
        title=card.title,
        says=card.says,
        job=job["title"],
        short=shorten(job["title"], 48),
        facts=_facts(job),
        invented=INVENTED if "invented" in job.get("notes", "").lower() else "",
        revision=plain.get("revision", ""),
        pages=tuple(_page(card, scope) for scope in scopes),
        paper=paper,
        size=card.size,
        press=fit.press,
    )


def _facts(job: Plain) -> tuple[tuple[str, str], ...]:
    rows = (("date", job.get("date")), ("mechanic", job.get("mechanic")), ("notes", job.get("notes")))
    return tuple((label, value) for label, value in rows if value)


def _page(card: Card, scope: Scope) -> Page:
    blocks = tuple(block for body in card.body for block in body_blocks(body, scope))
    return Page(joint=", ".join(scope.joints), blocks=blocks)


def _answers(plain: Plain, card: Card, joints: tuple[str, ...]) -> tuple[Plain, ...]:
    """Choose the answers of a card's stages; those of the whole engine stand on the first page."""
    first = joints[:1] == tuple(plain.get("joints") or ())[:1]
    return tuple(
        answer
        for answer in plain["answers"]
        if answer["stage"] in card.stages
        and (answer["joint"] in joints or (answer["joint"] is None and first))
    )
