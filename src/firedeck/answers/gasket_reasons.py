"""What of a joint speaks for or against a construction of gasket, as words and reasons of the tables."""

from firedeck.findings.allowance import words_from
from firedeck.findings.damage import Damage, Mark
from firedeck.findings.faces import Faces
from firedeck.findings.finding import Findings
from firedeck.findings.finish import Finish
from firedeck.findings.liners import Liners
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome, meets
from firedeck.tables.work import Line, lines
from firedeck.trace import DERIVED, Missing, Step

IRON = ("grey-iron", "compacted-iron", "ductile-iron", "steel")


def words_of_joint(job: Job, joint: Joint, found: Findings) -> frozenset[str]:
    """Return the words that hold: alloy-on-iron, boosted, finish-unknown ..."""
    engine, running = job.engine, job.document.running
    words: set[str] = {one for one in (engine.duty, engine.fuel, engine.arrangement) if one}
    words |= {"alloy-on-iron"} if _unlike(joint) else set()
    charged = engine.charging in ("turbocharged", "supercharged") or bool(
        running.boost and running.boost.value
    )
    words |= {"boosted"} if charged else set()
    words |= {"recess"} if joint.block.recess and joint.block.recess.value else set()
    parts = (joint.block, joint.head)
    words |= {"grooved"} if any(part.groove_depth or part.groove_width for part in parts) else set()
    words |= {"dip"} if _dips(found) else set()
    words |= words_from({"peak": running.peak_pressure.value} if running.peak_pressure else {})
    return frozenset(words | _unknown(joint, found))


def _dips(found: Findings) -> bool:
    """Tell whether damage under the ring stays once the planned cut is made."""
    damage = found.get(Damage)
    marks = () if isinstance(damage, Missing) else damage.marks
    return any(_under(mark) and not _gone(mark) for mark in marks if mark.kind != "crack")


def _under(mark: Mark) -> bool:
    distance = mark.to_ring or (mark.off.distance if mark.off else None)
    if distance is not None:
        return meets(distance.value, low=0.0) is not Outcome.HOLDS
    return bool(mark.said)


def _gone(mark: Mark) -> bool:
    return mark.left is not None and meets(mark.left.value, high=0.0) is not Outcome.FAILS


def _unlike(joint: Joint) -> bool:
    head, block = joint.head.material, joint.block.material
    return (head == "aluminium" and block in IRON) or (head in IRON and block == "aluminium")


def _unknown(joint: Joint, found: Findings) -> set[str]:
    finish, faces, liners = found.get(Finish), found.get(Faces), found.get(Liners)
    words = set()
    if isinstance(finish, Missing) or finish.missing or any(face.Ra is None for face in finish.faces):
        words.add("finish-unknown")
    if isinstance(faces, Missing) or faces.missing:
        words.add("flat-unknown")
    if joint.block.liners in ("wet", "dry") and isinstance(liners, Missing):
        words.add("liners-unread")
    return words


def reasons_against(construction: str | None, words: frozenset[str]) -> tuple[Line, ...]:
    """Return what speaks against a construction; the figure of a line is how much."""
    return tuple(line for line in lines("gasket_choice", words) if line.key == construction)


def boost_rise(job: Job) -> Step | None:
    """Work out how much boost was added to what the engine was built for; None where none was."""
    boost = job.document.running.boost
    before = _before(job)
    if boost is None or before is None or boost.value <= before:
        return None
    return Step.work_out(
        "Boost added",
        "boost - boost_before",
        {"boost": (boost.value, "MPa"), "boost_before": (before, "MPa")},
        ("boost_added", "MPa"),
        DERIVED,
    )


def _before(job: Job) -> float | None:
    """Return the boost as built: as said, by the as-built changes, or none where the engine breathes freely."""
    before = job.document.running.boost_before
    if before is not None:
        return before.value
    built = job.as_built()
    if built is not None and built.document.running.boost is not None:
        return built.document.running.boost.value
    return 0.0 if job.engine.charging == "natural" else None
