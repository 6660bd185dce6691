"""The short way: torque = nut factor × diameter × tension."""

from dataclasses import dataclass

from firedeck.fasteners.guards import above_nought, within
from firedeck.fasteners.strength import BoltStrength
from firedeck.fasteners.threads import Thread
from firedeck.trace import NO_UNIT, Note, Step

SOURCE = "shigley-9"
LEAST, MOST = 0.03, 0.6
REUSABLE = 0.75
"""Share of the proof load for a fastener that will be used again."""


@dataclass(frozen=True)
class NutFactorWork:
    """Tension [N] and torque [N·mm] that belong together by a nut factor."""

    tension: float
    torque: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


_ROUGH = Note(
    "one nut factor stands for thread, head and lubricant together: a quarter either way is usual", SOURCE
)


def nut_factor_tension(diameter: float, torque: float, nut_factor: float) -> NutFactorWork:
    """Tension from torque by a nut factor.

    Parameters
    ----------
    diameter : float
        Nominal diameter of the thread [mm].
    torque : float
        Torque at the head [N·mm].
    nut_factor : float
        Nut factor, about 0.20 dry and 0.15 lubricated [1].

    Returns
    -------
    NutFactorWork
        The tension [N].

    Raises
    ------
    OutOfRange
        If a figure is not above nought, or the nut factor is none of steel threads.

    Valid for
    ---------
    Below yield.

    Source
    ------
    [shigley-9] eq. 8-27.

    Examples
    --------
    >>> round(nut_factor_tension(9.525, 61012.0, 0.20).tension)
    32027
    """
    _check(diameter, nut_factor)
    above_nought("torque", torque, "N·mm")
    inputs = {"torque": (torque, "N·mm"), "nut_factor": (nut_factor, NO_UNIT), "diameter": (diameter, "mm")}
    step = Step.work_out(
        "Tension by nut factor", "torque / (nut_factor * diameter)", inputs, ("tension", "N"), SOURCE
    )
    return NutFactorWork(step.value, torque, (step,), (_ROUGH,))


def nut_factor_torque(diameter: float, tension: float, nut_factor: float) -> NutFactorWork:
    """Torque for a tension by a nut factor.

    Parameters
    ----------
    diameter : float
        Nominal diameter of the thread [mm].
    tension : float
        Wanted tension [N].
    nut_factor : float
        Nut factor, about 0.20 dry and 0.15 lubricated [1].

    Returns
    -------
    NutFactorWork
        The torque [N·mm].

    Raises
    ------
    OutOfRange
        If a figure is not above nought, or the nut factor is none of steel threads.

    Valid for
    ---------
    Below yield.

    Source
    ------
    [shigley-9] eq. 8-27.

    Examples
    --------
    >>> round(nut_factor_torque(19.05, 111206.0, 0.2).torque)
    423695
    """
    _check(diameter, nut_factor)
    above_nought("tension", tension, "N")
    step = _torque_step(diameter, (tension, "N"), nut_factor)
    return NutFactorWork(tension, step.value, (step,), (_ROUGH,))


def proof_torque(
    thread: Thread, strength: BoltStrength, nut_factor: float, fraction: float = REUSABLE
) -> NutFactorWork:
    """Torque that takes a bolt to a share of its proof load.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    strength : BoltStrength
        What the bolt bears, see ``bolt_strength`` [core].
    nut_factor : float
        Nut factor, about 0.20 dry and 0.15 lubricated [1].
    fraction : float
        Share of the proof load, 0.75 for a fastener that is used again [1].

    Returns
    -------
    NutFactorWork
        Tension and torque [N and N·mm].

    Raises
    ------
    OutOfRange
        If the share or the nut factor cannot be.

    Valid for
    ---------
    Torque-only tightening, not torque and angle.

    Source
    ------
    [shigley-9] eq. 8-27 and 8-31; [sae-torque-chart] gives the same torques.

    Examples
    --------
    >>> from firedeck.fasteners.strength import bolt_strength, class_of
    >>> from firedeck.fasteners.threads import thread_of
    >>> thread = thread_of("3/8-16")
    >>> strength = bolt_strength(thread, class_of("sae-5", thread))
    >>> round(proof_torque(thread, strength, 0.20).torque, -3)
    42000.0
    """
    _check(thread.major_diameter, nut_factor)
    within("fraction", fraction, 0.05, 1.0)
    tension = Step.work_out(
        "Share of the proof load",
        "fraction * proof_load",
        {"fraction": (fraction, NO_UNIT), "proof_load": (strength.proof_load, "N")},
        ("tension", "N"),
        SOURCE,
    )
    torque = _torque_step(thread.major_diameter, tension.figure(), nut_factor)
    return NutFactorWork(tension.value, torque.value, (*strength.steps[:3], tension, torque), (_ROUGH,))


def _check(diameter: float, nut_factor: float) -> None:
    above_nought("diameter", diameter, "mm")
    within("nut_factor", nut_factor, LEAST, MOST)


def _torque_step(diameter: float, tension: tuple[float, str], nut_factor: float) -> Step:
    return Step.work_out(
        "Torque by nut factor",
        "nut_factor * diameter * tension",
        {"nut_factor": (nut_factor, NO_UNIT), "diameter": (diameter, "mm"), "tension": tension},
        ("torque", "N·mm"),
        SOURCE,
    )
