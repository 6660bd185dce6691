"""The dabs at corners and T-joints: whether the head is torqued down before they skin."""

from dataclasses import dataclass
from typing import ClassVar

from firedeck.findings.finding import Findings
from firedeck.job import Job, Joint
from firedeck.trace import DERIVED, NO_UNIT, Missing, Step


@dataclass(frozen=True)
class SealantTime:
    """Time to torque over skin time, written out."""

    id: ClassVar[str] = "sealant"
    share: Step


def find(_job: Job, joint: Joint | None, _found: Findings) -> SealantTime | Missing:
    """Put both times together; either missing is read off tube and watch."""
    assert joint is not None
    skin, work = joint.sealant.skin_time, joint.sealant.time_to_torque
    if skin is None or work is None or skin.value <= 0.0:
        return _untimed(joint)
    times = {"time_to_torque": (work.value, "s"), "skin_time": (skin.value, "s")}
    says = "Time from the first dab to the last torque, over the time until it skins"
    step = Step.work_out(says, "time_to_torque / skin_time", times, ("sealant_share", NO_UNIT), DERIVED)
    return SealantTime(step)


def _untimed(joint: Joint) -> Missing:
    return Missing(
        paths=(f"joint.{joint.name}.sealant.skin_time", f"joint.{joint.name}.sealant.time_to_torque"),
        measure="skin time of the sealant, and the time from the first dab to the last torque",
        tool="the tube, a watch",
        how="Read the tube. Go through lowering and tightening once dry with the watch running, nothing tightened.",
    )
