"""How a cut moves the timing of an overhead cam, and what it does to push-rods."""

import math
from dataclasses import dataclass

from firedeck.cylinder.bounds import positive, within
from firedeck.cylinder.routes import Route, chosen
from firedeck.trace import DERIVED, GENERIC, NO_UNIT, Note, Step

_WHEEL = Route(("sprocket_diameter",))
_TEETH = Route(("teeth", "pitch"))


@dataclass(frozen=True)
class CamShift:
    """Shift of the cam in cam and in crank angle [rad], positive late, and its direction in words."""

    cam_angle: float
    crank_angle: float
    direction: str
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


def cam_timing_shift(
    *,
    cut: float,
    sprocket_diameter: float | None = None,
    teeth: float | None = None,
    pitch: float | None = None,
    strand_angle: float = 0.0,
) -> CamShift:
    """Shift of an overhead cam when the head comes down by a cut.

    The driving strand keeps its length, so the cam wheel rolls back along it: the cam comes late.

    Parameters
    ----------
    cut : float
        By how much the cam comes nearer the crank, negative for a thicker gasket or spacer [mm].
    sprocket_diameter : float, optional
        Pitch diameter of the cam wheel [mm].
    teeth, pitch : float, optional
        Number of teeth of the cam wheel [1] and pitch of chain or belt [mm].
    strand_angle : float, optional
        Angle between the driving strand and the direction of the cut [rad].

    Returns
    -------
    CamShift
        Cam and crank angle, positive late [rad].

    Raises
    ------
    JobError
        If the ways are mixed or one is incomplete.
    OutOfRange
        If a size is not above nought.

    Valid for
    ---------
    Chain or belt with the tensioner on the slack side; small cuts against the wheel.

    Source
    ------
    derived

    Examples
    --------
    >>> import math
    >>> found = cam_timing_shift(cut=0.25, teeth=38.0, pitch=9.525)
    >>> round(math.degrees(found.cam_angle), 4), found.direction
    (0.2487, 'late')
    """
    given = {"sprocket_diameter": sprocket_diameter, "teeth": teeth, "pitch": pitch}
    route = chosen("cam-timing-shift", given, (_WHEEL, _TEETH))
    within("cut", cut, -50.0, 50.0, "mm")
    within("strand_angle", strand_angle * 180.0 / math.pi, -80.0, 80.0, "deg")
    before: tuple[Step, ...] = ()
    if route is _TEETH:
        round_about = _wheel_of_teeth(teeth or 0.0, pitch or 0.0)
        before, wheel = (round_about,), round_about.figure()
    else:
        wheel = (sprocket_diameter or 0.0, "mm")
        positive("sprocket_diameter", wheel[0], "mm")
    cam = Step.work_out(
        "Cam wheel rolls back along the driving strand",
        "2 * cut * cos(strand_angle) / sprocket_diameter",
        {"cut": (cut, "mm"), "strand_angle": (strand_angle, "rad"), "sprocket_diameter": wheel},
        ("cam_angle", "rad"),
        DERIVED,
    )
    crank = Step.work_out(
        "The same in crank angle",
        "2 * cam_angle",
        {"cam_angle": cam.figure()},
        ("crank_angle", "rad"),
        DERIVED,
    )
    return CamShift(
        cam.value, crank.value, _direction(cam.value), (*before, cam, crank), _assumed(strand_angle)
    )


def _wheel_of_teeth(teeth: float, pitch: float) -> Step:
    within("teeth", teeth, 6.0, 400.0, "")
    positive("pitch", pitch, "mm")
    return Step.work_out(
        "Pitch diameter of the cam wheel",
        "teeth * pitch / pi",
        {"teeth": (teeth, NO_UNIT), "pitch": (pitch, "mm")},
        ("sprocket_diameter", "mm"),
        DERIVED,
    )


def _direction(cam_angle: float) -> str:
    if cam_angle == 0.0:
        return "unchanged"
    return "late" if cam_angle > 0.0 else "early"


def _assumed(strand_angle: float) -> tuple[Note, ...]:
    notes = [
        Note("positive is late (retarded): cam nearer the crank, tensioner on the slack side", DERIVED),
        Note("cam degrees and crank degrees are both given; compare like with like", DERIVED),
    ]
    if strand_angle == 0.0:
        notes.append(Note("the driving strand runs along the direction of the cut", GENERIC))
    return tuple(notes)


@dataclass(frozen=True)
class PushRodChange:
    """By how much a push-rod is too long after a cut [mm]."""

    change: float
    steps: tuple[Step, ...]


def push_rod_change(cut: float, push_rod_angle: float = 0.0) -> PushRodChange:
    """By how much push-rods become too long when the head comes down.

    Parameters
    ----------
    cut : float
        Cut of head and block together, less a thicker gasket [mm].
    push_rod_angle : float, optional
        Lean of the push-rod from the bore axis [rad].

    Returns
    -------
    PushRodChange
        Length to take off, or lifter preload gained [mm].

    Raises
    ------
    OutOfRange
        If the lean is 60 degrees or more.

    Source
    ------
    derived

    Examples
    --------
    >>> push_rod_change(0.5).change
    0.5
    """
    within("push_rod_angle", push_rod_angle * 180.0 / math.pi, -60.0, 60.0, "deg")
    step = Step.work_out(
        "Push-rod too long by",
        "cut * cos(push_rod_angle)",
        {"cut": (cut, "mm"), "push_rod_angle": (push_rod_angle, "rad")},
        ("push_rod_change", "mm"),
        DERIVED,
    )
    return PushRodChange(step.value, (step,))
