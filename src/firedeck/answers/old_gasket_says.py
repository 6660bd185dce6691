"""old-gasket-says: the used gasket as a witness, read before it goes in the bin."""

from firedeck.answers.answer import Answer, Work
from firedeck.answers.counting import clip
from firedeck.answers.making import Draft, both
from firedeck.findings.finding import Findings
from firedeck.findings.old_gasket import OldGasket
from firedeck.job import Job, Joint
from firedeck.tables import rows
from firedeck.trace import COMMON_PRACTICE, DERIVED, Check, Missing, Note, Outcome

QUESTION = "old-gasket-says"


def answer(_job: Job, joint: Joint | None, found: Findings) -> Answer:
    """Read rings, prints, tracks and signs, each with what it points to and what to check for it."""
    assert joint is not None
    draft = Draft(QUESTION, joint, joint.cylinders)
    old = found.get(OldGasket)
    if isinstance(old, Missing):
        return draft.open("The used gasket has not been read yet: keep it", old)
    counted = Check("things read on the used gasket", "count", old.counted.value, Outcome.HOLDS)
    draft.add_check(counted, (old.counted,), COMMON_PRACTICE)
    _rings(draft, old)
    _signs(draft, old)
    if old.track:
        draft.work.append(
            Work(
                f"Track at {old.track}: look at both faces along it, and at the bolts beside it",
                COMMON_PRACTICE,
            )
        )
    if old.imprint:
        draft.work.append(Work(f"Print {old.imprint}: lay a short edge there on both faces", COMMON_PRACTICE))
    draft.cautions.append(
        "Old facings may hold asbestos: keep it wet, no dry scraping; burnt fluoro-rubber burns skin."
    )
    draft.notes.append(
        Note("A thin ring was pressed hard, a thick one was not: head and block show why.", COMMON_PRACTICE)
    )
    draft.anyway = (
        "Thrown away unread, its witness is gone: what spoilt this gasket is still there to spoil the next."
    )
    return draft.decided("read-as-listed", _headline(old))


def _rings(draft: Draft, old: OldGasket) -> None:
    if old.spread is None:
        return
    text = (
        f"{both(old.spread.value, 'ring_spread')}; no limit of the papers: ring against ring it tells where"
    )
    check = Check("spread of ring thickness", "ring_spread", old.spread.value, Outcome.CANNOT_TELL, text=text)
    draft.add_check(check, (old.spread,), DERIVED)
    thickest = max(old.rings, key=lambda label: old.rings[label])
    draft.work.append(
        Work(
            f"Ring {old.thinnest} is thinnest, ring {thickest} thickest: the clamp was uneven, or the faces are",
            COMMON_PRACTICE,
            both(old.spread.value, "ring_spread"),
            "Thickest ring: low liner, dip or slack bolt there; thinnest: a high place or a squeezed ring",
        )
    )
    if old.unread:
        draft.assumptions.append(f"ring not read at {', '.join(old.unread)}")


def _signs(draft: Draft, old: OldGasket) -> None:
    said = {row["sign"]: row for row in rows("old_gasket_signs")}
    for sign in old.signs:
        row = said[sign]
        draft.work.append(Work(row["reads"], row["source"], row["words"], row["look"]))
        draft.source(row["source"])


def _headline(old: OldGasket) -> str:
    said = {row["sign"]: row["words"] for row in rows("old_gasket_signs")}
    parts = [said[sign] for sign in old.signs[:2]]
    if old.spread is not None:
        parts.append(f"ring {old.thinnest} thinnest by {both(old.spread.value, 'ring_spread')}")
    if old.track:
        parts.append(f"track at {old.track}")
    parts.append(f"print {old.imprint}" if old.imprint else "")
    read = f"Only ring {', '.join(old.rings)} read: nothing to compare it with"
    words = "; ".join(part for part in parts if part) or read
    return clip(words[:1].upper() + words[1:])
