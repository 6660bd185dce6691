"""The same bolt tension with another lubricant: the torque that gives it, as a band."""

from dataclasses import dataclass

from firedeck.fasteners.friction import Friction
from firedeck.fasteners.guards import above_nought
from firedeck.fasteners.levers import SOURCE, Levers, bearing_of, levers_of
from firedeck.fasteners.threads import Thread
from firedeck.trace import Note, Step


@dataclass(frozen=True)
class SameTension:
    """Torque with the new lubricant and its band [N·mm], and the tension both give [N]."""

    torque: float
    torque_low: float
    torque_high: float
    tension: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def same_tension_torque(thread: Thread, torque: float, before: Friction, after: Friction) -> SameTension:
    """Torque that gives with another lubricant the tension the first torque was meant to give.

    The usual figure compares the usual frictions. The lowest torque goes with the slipperiest new
    and the roughest old state, the highest with the opposite.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    torque : float
        Torque as given for the first lubricant [N·mm].
    before : Friction
        Lubricant the torque was given for [1].
    after : Friction
        Lubricant that will be used [1].

    Returns
    -------
    SameTension
        The torque and its band, and the tension [N·mm and N].

    Raises
    ------
    OutOfRange
        If the torque is not above nought.

    Valid for
    ---------
    Torque-only tightening; an angle sets the stretch whatever the lubricant.

    Source
    ------
    [vdi-2230] torque and tension; friction bands as named in the notes.

    Examples
    --------
    >>> from firedeck.fasteners.friction import friction_of
    >>> from firedeck.fasteners.threads import thread_of
    >>> work = same_tension_torque(thread_of("1/2-13"), 122000.0, friction_of("dry"), friction_of("oil"))
    >>> work.torque_low < work.torque < 122000.0
    True
    """
    above_nought("torque", torque, "N·mm")
    bearing = bearing_of(thread)

    def levers(friction: float) -> Levers:
        return levers_of(thread, friction, friction, bearing)

    old, new = levers(before.usual), levers(after.usual)
    tension = Step.work_out(
        f"Tension the torque was meant to give ({before.name})",
        "torque / old_lever",
        {"torque": (torque, "N·mm"), "old_lever": (old.lever, "mm")},
        ("tension", "N"),
        SOURCE,
    )
    usual = Step.work_out(
        f"Torque that gives it now ({after.name})",
        "tension * new_lever",
        {"tension": tension.figure(), "new_lever": (new.lever, "mm")},
        ("torque", "N·mm"),
        SOURCE,
    )
    same = before == after
    low = _end(
        "Lowest", torque, old if same else levers(before.high), new if same else levers(after.low), "low"
    )
    high = _end(
        "Highest", torque, old if same else levers(before.low), new if same else levers(after.high), "high"
    )
    steps = (*_lever_step(old, "old"), tension, *_lever_step(new, "new"), usual, low, high)
    notes = (*bearing.notes, before.note, after.note)
    return SameTension(usual.value, low.value, high.value, tension.value, steps, notes)


def _lever_step(levers: Levers, which: str) -> tuple[Step, ...]:
    step = Step.work_out(
        f"Torque per tension, {which} lubricant",
        "thread_lever + head_lever",
        {"thread_lever": (levers.thread_lever, "mm"), "head_lever": (levers.head_lever, "mm")},
        (f"{which}_lever", "mm"),
        SOURCE,
    )
    return (*levers.steps, step)


def _end(word: str, torque: float, old: Levers, new: Levers, which: str) -> Step:
    return Step.work_out(
        f"{word} torque the two bands of friction allow",
        "torque * new_lever / old_lever",
        {"torque": (torque, "N·mm"), "new_lever": (new.lever, "mm"), "old_lever": (old.lever, "mm")},
        (f"torque_{which}", "N·mm"),
        SOURCE,
    )
