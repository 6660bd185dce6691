"""What loads the fasteners more than when the engine was new: boost and compression ratio."""

from firedeck.job import Job, Joint
from firedeck.trace import DERIVED, NO_UNIT, Step


def boost_added(job: Job) -> Step | None:
    """Boost now less boost as the engine left the factory; None where one of them is not known."""
    running, charging = job.document.running, job.document.engine.charging
    if running.boost is None or (running.boost_before is None and charging != "natural"):
        return None
    before = running.boost_before.value if running.boost_before else 0.0
    figures = {"boost": (running.boost.value, "MPa"), "boost_before": (before, "MPa")}
    return Step.work_out("Boost added", "boost - boost_before", figures, ("boost_added", "MPa"), DERIVED)


def ratio_gained(job: Job, joint: Joint) -> Step | None:
    """Ratio now less the ratio of the papers; None where one of them is not known."""
    standard, now = job.document.engine.ratio, joint.chamber.ratio_after
    if standard is None or now is None:
        return None
    figures = {"ratio_after": (now.value, NO_UNIT), "ratio": (standard.value, NO_UNIT)}
    return Step.work_out("Ratio gained", "ratio_after - ratio", figures, ("ratio_gained", NO_UNIT), DERIVED)
