"""Signs of what killed the joint, as the document tells them, in the words of the evidence table."""

from collections.abc import Iterator

from firedeck.cylinder.liners import liner_stand
from firedeck.findings.faces import Faces
from firedeck.findings.finding import Findings
from firedeck.findings.finish import FLAWS
from firedeck.findings.leak_signs import Signs, told
from firedeck.findings.paper_bounds import least, most
from firedeck.job import Job, Joint
from firedeck.quantity import Outcome, meets
from firedeck.trace import Missing

SLACK_SHARE = 0.6
"""One that starts below this share of the highest crack-off torque had let go; our own assumption."""


def root_signs(job: Job, found: Findings) -> Signs:
    """Return every sign of a root cause; a thing seen at one head is seen."""
    document = job.document
    signs = told("symptom", document.symptoms.seen, "root") | told("bore", document.tests.bores_seen, "root")
    signs |= _of_history(job) | _of_running(job) | _of_coolant(job)
    for joint in job.joints:
        for name, seen in _of_joint(joint, found):
            signs[name] = signs.get(name, False) or seen
    return signs


def _of_history(job: Job) -> Signs:
    history = job.document.history
    signs: Signs = {}
    failures = history.failures
    if history.first_gasket is not None or failures is not None or "came-back" in job.document.symptoms.seen:
        first = history.first_gasket is True or failures == 0
        signs["recent-head-job"] = not first
    if failures is not None:
        signs["failed-repeatedly"] = failures > 1
    if history.same_place_before is not None:
        signs["same-place-before"] = history.same_place_before
    if history.retightening is not None:
        signs["retightening-missed"] = history.retightening == "missed"
    if history.coolant is not None:
        signs["coolant-neglected"] = history.coolant == "neglected"
    if history.coolant_low_first is not None:
        signs["coolant-lost-first"] = history.coolant_low_first
    if history.cooling_parts is not None:
        signs["cooling-part-failed"] = history.cooling_parts == "failed"
    if history.first_gasket:
        signs["high-mileage"] = True
    return signs


def _of_running(job: Job) -> Signs:
    running = job.document.running
    signs: Signs = {}
    if running.detonation is not None:
        signs["knock-heard"] = running.detonation == "heard"
    if running.boost is not None and running.boost_before is not None:
        signs["boost-or-timing-raised"] = running.boost.value > running.boost_before.value
    return signs


def _of_coolant(job: Job) -> Signs:
    """Either of the two speaks for corrosion; both have to be looked for before nothing is said to be there."""
    coolant = job.document.tests.coolant
    if coolant.chemistry == "sour" or coolant.stray_voltage == "found":
        return {"coolant-sour-or-live": True}
    looked_for = coolant.chemistry == "good" and coolant.stray_voltage == "none"
    return {"coolant-sour-or-live": False} if looked_for else {}


def _of_joint(joint: Joint, found: Findings) -> Iterator[tuple[str, bool]]:
    old = joint.gasket.old
    yield from told("old-gasket", old.signs if old else (), "root").items()
    yield from told("liners", joint.block.liners_seen, "root").items()
    yield from _of_castings(joint)
    yield from _of_fasteners(joint)
    yield from _of_faces(joint, found)
    yield from _of_liners(joint)


def _of_castings(joint: Joint) -> Iterator[tuple[str, bool]]:
    head = joint.head
    tests = (head.pressure_test in ("leaks", "tight"), head.crack_test in ("found", "none-found"))
    cracked = any(mark.kind == "crack" for mark in joint.readings.damage)
    if any(tests) or cracked:
        yield "casting-leaks", head.pressure_test == "leaks" or head.crack_test == "found" or cracked
    if any(mark.kind == "eroded-passage" for mark in joint.readings.damage):
        yield "edges-eaten", True
    bound = least(joint, "hardness", "head")
    if head.hardness is not None and bound is not None:
        yield "head-soft", meets(head.hardness.value, low=bound) is Outcome.FAILS


def _of_fasteners(joint: Joint) -> Iterator[tuple[str, bool]]:
    read = joint.readings.fasteners
    known = sum(len(group.labels) or group.count or 0 for group in joint.fasteners)
    torques = [torque.value for torque in read.break_away.values()]
    if read.loose:
        yield ("all-fasteners-slack" if known and 2 * len(read.loose) > known else "one-fastener-slack"), True
    elif len(torques) > 1:
        yield "one-fastener-slack", min(torques) < SLACK_SHARE * max(torques)
    limit = most(joint, "fastener_length", "fastener")
    lengths = [length.value for length in read.lengths.values()]
    if read.necked or (lengths and limit is not None):
        yield "fastener-too-long", bool(read.necked) or (limit is not None and _beyond(max(lengths), limit))
    for group in joint.fasteners:
        if group.washer is not None and group.washer.sunk is not None:
            yield "washer-or-seat-dished", group.washer.sunk
        if joint.procedure and joint.procedure.yields and group.uses.strip().isdigit():
            yield "fasteners-used-again", int(group.uses) > 0


def _of_faces(joint: Joint, found: Findings) -> Iterator[tuple[str, bool]]:
    read = found.of(joint).get(Faces)
    for which, sign in (("head", "head-out-of-flat"), ("block", "deck-out-of-flat")):
        limit = most(joint, "face_flatness", which)
        face = None if isinstance(read, Missing) else read.face(which)
        if face and face.lines and limit is not None:
            yield sign, _beyond(max(line.gap for line in face.lines), limit)
    for one in joint.readings.finish:
        if one.seen:
            yield "face-too-rough", any(flaw in FLAWS for flaw in one.seen)


def _of_liners(joint: Joint) -> Iterator[tuple[str, bool]]:
    """Hold the steps between liners against the papers; without a limit nothing is said."""
    limit = most(joint, "liner_step", "block") or most(joint, "liner_spread", "block")
    read = [tuple(one.value for one in liner.stands) for liner in joint.readings.liners]
    if limit is None or len(read) < 2 or not all(read):
        return
    stand = liner_stand(read)
    yield "liner-low", _beyond(stand.highest.value - stand.lowest.value, limit)


def _beyond(value: float, limit: float) -> bool:
    return meets(value, high=limit) is Outcome.FAILS
