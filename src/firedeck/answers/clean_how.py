"""clean-how: what may touch which metal, what to plug, and that it is measured again."""

from firedeck.answers.answer import Answer
from firedeck.answers.conditions import conditions
from firedeck.answers.counting import clip, count
from firedeck.answers.listing import listed
from firedeck.answers.making import Draft
from firedeck.findings.finding import Findings
from firedeck.findings.threads import Threads
from firedeck.job import Job, Joint
from firedeck.trace import Missing, Outcome

QUESTION = "clean-how"
WORDS = {
    "aluminium": "alloy",
    "grey-iron": "iron",
    "compacted-iron": "iron",
    "ductile-iron": "iron",
    "steel": "iron",
}


def answer(job: Job, joint: Joint | None, found: Findings) -> Answer:
    """List the work for both metals; without knowing them nobody can say what may touch which."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    metals = {"head": _metal(joint.head.material), "block": _metal(joint.block.material)}
    figures = {metal: _parts(metals, metal) for metal in ("alloy", "iron")} | {"rags": "count them: in = out"}
    draft.work.extend(listed("clean_work", conditions(job, joint, found.get(Threads)), figures))
    for part, metal in metals.items():
        outcome = Outcome.HOLDS if metal else Outcome.CANNOT_TELL
        count(draft, f"metal of the {part} known", int(bool(metal)), outcome, metal or "not known")
    draft.cautions.append("No abrasive disc: it dishes a face in seconds and its grit ends in the bearings")
    draft.anyway = "A dished spot under the ring leaks at the first heat; grit takes the bearings weeks later. Undoing it "
    draft.anyway += "is a cut of both faces, or a bottom end."
    stops = _stops(joint)
    for name, _ in stops:
        count(draft, name, 1, Outcome.FAILS, "written down so")
    if stops:
        return draft.decided("stop", clip(f"Stop: {stops[0][1]}"))
    unknown = [part for part, metal in metals.items() if not metal]
    if unknown:
        draft.need(*(_magnet(joint, part) for part in unknown))
        return draft.open(
            f"What may touch the {' and the '.join(unknown)} hangs on its metal: hold a magnet to it"
        )
    return draft.decided("do-as-listed", _headline(metals))


def _stops(joint: Joint) -> list[tuple[str, str]]:
    """Give what has already gone wrong with cleaning; it is put right before anything else."""
    clean = joint.clean
    asked = (
        (
            "old gasket scraped dry",
            clean.scraped_dry is True and clean.asbestos != "no",
            "the old gasket may hold asbestos, wet it, no dry scraping",
        ),
        (
            "abrasive disc on a face",
            clean.disc_used is True,
            "a disc was on it, read the face again and flush every gallery of its grit",
        ),
        (
            "bores and galleries open",
            clean.plugged is False,
            "bores and galleries are open, plug them before a scraper moves",
        ),
    )
    return [(name, why) for name, wrong, why in asked if wrong]


def _metal(name: str | None) -> str:
    return WORDS.get(name or "", "")


def _parts(metals: dict[str, str], metal: str) -> str:
    return " and ".join(part for part, one in metals.items() if one == metal)


def _headline(metals: dict[str, str]) -> str:
    alloy = _parts(metals, "alloy")
    steel = "" if not alloy else f", no steel or caustic on the {alloy}"
    return clip(f"By hand, no abrasive disc{steel}; then measure again")


def _magnet(joint: Joint, part: str) -> Missing:
    return Missing(
        (f"joint.{joint.name}.{part}.material",),
        f"what the {part} is made of",
        "magnet",
        "It holds on iron, it falls off alloy. An iron liner or seat in an alloy casting holds it too: try the edge.",
    )
