"""What the record says of a joint that leaked again: inside, a weep at the edge, or oil at the edge."""

from dataclasses import dataclass
from typing import ClassVar

from firedeck.fasteners.procedure_reading import parse
from firedeck.findings.cooling import cooled_by
from firedeck.findings.due import no_retorque
from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.tables.work import Words
from firedeck.trace import Missing

WEEPS = {"outside-seep", "seep-at-joint"}
INSIDE = {
    "coolant-in-cylinder",
    "coolant-in-oil",
    "oil-in-coolant",
    "bubbles-in-radiator",
    "white-smoke",
    "misfire",
    "misfire-neighbours",
    "noise-at-edge",
    "overheated",
    "hose-hard-when-cold",
    "power-lost",
    "coolant-lost",
}
EATEN = {"water-track"}


@dataclass(frozen=True)
class Comeback:
    """A joint that leaked again; ``kind`` is inside, weep, oil or unknown."""

    id: ClassVar[str] = "came_back"
    kind: str
    failures: int
    same_place: bool
    deck_measured: bool | None
    may_retorque: bool
    refusal: str
    liners: bool
    signs: tuple[str, ...]
    words: Words


def find(job: Job, _joint: Joint | None, _found: Findings) -> Comeback | Missing:
    """Sort the record of a comeback; a joint that only weeps asks the same. Anything else has none."""
    history = job.document.history
    seen: set[str] = set(job.document.symptoms.seen)
    failures = history.failures or 0
    weeps = bool(seen & WEEPS or "oil-seep" in seen) and not seen & INSIDE
    if not (failures or history.same_place_before or "came-back" in seen or weeps):
        return Missing(
            ("history.failures", "symptoms.seen"),
            "whether it leaked again",
            "ears",
            "Say how often and where it went.",
        )
    refusal = next((why for joint in job.joints if (why := refused(joint))), "")
    return Comeback(
        kind=_kind(job, failures, seen),
        failures=max(failures, 1),
        same_place=bool(history.same_place_before),
        deck_measured=history.deck_measured_before
        or (True if _block_read(job) else history.deck_measured_before),
        may_retorque=not refusal,
        refusal=refusal,
        liners=any(joint.block.liners in ("wet", "dry") for joint in job.joints),
        signs=tuple(sorted(word.replace("-", " ") for word in seen - {"came-back"})),
        words=frozenset(_words(job, failures, seen, refusal)),
    )


def _kind(job: Job, failures: int, seen: set[str]) -> str:
    """What came out at the edge only is no proof of a burnt joint; what is inside, or burnt, is."""
    signs = {sign for joint in job.joints if joint.gasket.old for sign in joint.gasket.old.signs}
    if seen & INSIDE or signs or job.document.tests.coolant.gas_in_coolant == "yes":
        return "inside"
    if seen & WEEPS:
        return "weep"
    if "oil-seep" in seen:
        return "oil"
    return "inside" if failures > 1 or job.document.history.same_place_before else "unknown"


def refused(joint: Joint) -> str:
    """Say why a joint may not be tightened again; nothing when nothing forbids it."""
    if no_retorque(joint):
        return "the gasket is not tightened again"
    if joint.procedure is None:
        return "no torque of the papers is known"
    procedure = parse(joint.procedure.text, f"joint.{joint.name}.procedure.text")
    names = [group.name for group in joint.fasteners] or ["all"]
    if joint.procedure.yields is not False and any(procedure.is_torque_plus_angle(name) for name in names):
        return "the fasteners were turned into stretch"
    return ""


def _block_read(job: Job) -> bool:
    return all(any(face.face == "block" for face in joint.readings.faces) for joint in job.joints)


def _words(job: Job, failures: int, seen: set[str], refusal: str) -> set[str]:
    words = {f"liners-{joint.block.liners or 'unknown'}" for joint in job.joints}
    words |= {group.kind for joint in job.joints for group in joint.fasteners if group.kind}
    signs = {sign for joint in job.joints if joint.gasket.old for sign in joint.gasket.old.signs}
    facts = {
        "deck-unmeasured": not job.document.history.deck_measured_before and not _block_read(job),
        "several": failures > 1,
        "several-bores": len(job.engine.cylinders) > 1,
        "water-eaten": bool(signs & EATEN),
        "bridge": bool(signs & {"burnt-between-bores", "burnt-at-edge"}),
        "stretched": "stretch" in refusal,
        "torque-only": "stretch" not in refusal,
        "no-retorque": "gasket" in refusal,
        "weep": bool(seen & WEEPS),
        "oil-weep": "oil-seep" in seen,
    }
    return words | {cooled_by(job)} | {word for word, holds in facts.items() if holds}
