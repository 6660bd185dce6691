"""What the torque at which a bolt gives way says of its tension."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange
from firedeck.fasteners.friction import Friction
from firedeck.fasteners.guards import above_nought
from firedeck.fasteners.levers import SOURCE, Bearing, Levers, bearing_of, levers_of
from firedeck.fasteners.threads import Thread
from firedeck.trace import Note, Step

WAYS = ("loosening", "tightening")


@dataclass(frozen=True)
class BreakAwayTension:
    """Tension by the usual friction, and its ends by the band of friction [N]."""

    tension: float
    tension_low: float
    tension_high: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def break_away_tension(
    thread: Thread,
    torque: float,
    friction: Friction,
    *,
    way: str = "loosening",
    bearing: Bearing | None = None,
) -> BreakAwayTension:
    """Tension behind the torque at which a bolt gives way, backwards or further on.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    torque : float
        Torque at which it moves [N·mm].
    friction : Friction
        What is on thread and head, with its band [1].
    way : str
        loosening or tightening [text].
    bearing : Bearing or None
        Ring under the head, standard where None [mm].

    Returns
    -------
    BreakAwayTension
        Tension and its ends [N].

    Raises
    ------
    OutOfRange
        If the torque is not above nought or the way is neither of the two.

    Valid for
    ---------
    A thread that turns freely: rust, set sealer and a seized head add torque and no tension, so that
    the figure is the most there can have been.

    Source
    ------
    [vdi-2230] torque and tension, the rise of the thread helping backwards; bands as in the notes.

    Examples
    --------
    >>> from firedeck.fasteners.friction import friction_of
    >>> from firedeck.fasteners.threads import thread_of
    >>> found = break_away_tension(thread_of("M10"), 50000.0, friction_of("oil"))
    >>> found.tension_low < found.tension < found.tension_high
    True
    """
    above_nought("torque", torque, "N·mm")
    if way not in WAYS:
        raise OutOfRange("way", repr(way), "loosening, tightening")
    ring = bearing or bearing_of(thread)

    def behind(value: float, word: str, name: str) -> tuple[Step, ...]:
        lever = _lever(thread, levers_of(thread, value, value, ring), way, word)
        tension = Step.work_out(
            f"Tension behind that torque, {word} friction",
            "torque / lever",
            {"torque": (torque, "N·mm"), "lever": lever[-1].figure()},
            (name, "N"),
            SOURCE,
        )
        return (*lever, tension)

    usual = behind(friction.usual, "usual", "tension")
    low = behind(friction.high, "highest", "tension_low")
    high = behind(friction.low, "lowest", "tension_high")
    most = Note("rust and set sealer raise the reading: the most it can have been", "common-practice")
    return BreakAwayTension(
        usual[-1].value,
        low[-1].value,
        high[-1].value,
        (*usual, *low[-2:], *high[-2:]),
        (*ring.notes, friction.note, most),
    )


def _lever(thread: Thread, levers: Levers, way: str, word: str) -> tuple[Step, ...]:
    """Torque per tension when it moves: backwards the rise of the thread helps."""
    backwards = "pitch_diameter / 2 * (flank_friction - rise) / (1 + rise * flank_friction)"
    onwards = "pitch_diameter / 2 * (rise + flank_friction) / (1 - rise * flank_friction)"
    lever = Step.work_out(
        f"Torque per tension, {way}, {word} friction",
        f"{backwards if way == 'loosening' else onwards} + head_lever",
        {
            "pitch_diameter": (thread.pitch_diameter, "mm"),
            "rise": levers.steps[1].figure(),
            "flank_friction": levers.steps[2].figure(),
            "head_lever": (levers.head_lever, "mm"),
        },
        ("lever", "mm"),
        SOURCE,
    )
    return (*levers.steps, lever)
