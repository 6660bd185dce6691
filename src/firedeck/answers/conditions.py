"""What of the engine decides which lines of work are listed, as words of the tables of work."""

from firedeck.findings.cooling import cooled_by
from firedeck.findings.groups import gasket_that_goes_on
from firedeck.findings.threads import Threads
from firedeck.findings.valve_gear import sealed_by
from firedeck.job import Job, Joint
from firedeck.tables.work import Words
from firedeck.trace import Missing

METALS = {"aluminium": "alloy", "steel": "iron"}


def conditions(job: Job, joint: Joint, threads: Threads | Missing) -> Words:
    """Return the words that hold for a joint: "head-alloy", "liners-wet", "cam-belt" ..."""
    words = {*_of_engine(job), *_of_castings(joint), *_of_gasket(joint), *_of_fasteners(joint)}
    if isinstance(threads, Threads):
        words |= {f"hole-{hole.leads}" for hole in threads.holes if hole.leads}
        words |= {"hole-wet"} if any(hole.wet for hole in threads.holes) else set()
        words |= {"hole-blind"} if any(hole.hole == "blind" for hole in threads.holes) else set()
    return frozenset(words)


def _of_engine(job: Job) -> set[str]:
    engine = job.document.engine
    words = {engine.arrangement, engine.cycle, cooled_by(job), sealed_by(job)}
    words |= {one for one in (engine.fuel, engine.valve_gear, engine.charging) if one}
    words |= {f"cam-{engine.cam_drive}"} if engine.cam_drive else set()
    words |= {"several-heads"} if len(job.joints) > 1 else set()
    words |= {"lifters-hydraulic"} if engine.lifters == "hydraulic" else set()
    in_head = engine.valve_gear in ("overhead-cam", "twin-cam")
    return words | ({"cam-in-head"} if in_head else set())


def _of_castings(joint: Joint) -> set[str]:
    head, block = joint.head.material, joint.block.material
    words = {f"head-{_metal(head)}", f"block-{_metal(block)}"}
    words |= {f"liners-{joint.block.liners}"} if joint.block.liners else set()
    words |= {"cover"} if joint.cover else set()
    words |= {"cut-done"} if joint.cut.done else set()
    words |= (
        {"weight-known"} if joint.head.weight or (joint.head.section and joint.head.section.mass) else set()
    )
    return words


def _metal(name: str | None) -> str:
    if name in (None, "unknown"):
        return "unknown"
    return METALS.get(name, "iron")


def _of_gasket(joint: Joint) -> set[str]:
    words = set()
    old = joint.gasket.old
    if old is None or old.construction in (None, "unknown", "composite", "laminated"):
        words.add("old-may-be-asbestos")
    new = gasket_that_goes_on(joint)
    if new is not None:
        words.add(f"gasket-{new.construction or 'unknown'}")
        words.add("gasket-coated" if new.coated else "gasket-bare")
    return words


def _of_fasteners(joint: Joint) -> set[str]:
    words: set[str] = {group.kind for group in joint.fasteners if group.kind}
    readings = joint.readings.fasteners
    words |= {"broken"} if readings.broken else set()
    words |= {"corroded"} if readings.corroded else set()
    return words
