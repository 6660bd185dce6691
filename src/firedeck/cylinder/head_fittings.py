"""What a head that comes down, or is cut, does to what is fitted in it: seats, chambers, gears, chain."""

from firedeck.cylinder.bounds import within
from firedeck.trace import DERIVED, Step


def depth_after_cut(depth: float, cut: float) -> Step:
    """How deep a valve stands below the fire face when the face is cut and the seat is not.

    Parameters
    ----------
    depth : float
        Before the cut, below the face positive [mm].
    cut : float
        Taken off the fire face [mm].

    Returns
    -------
    Step
        The sum; below zero the valve stands proud [mm].

    Source
    ------
    [derived] the face comes nearer the valve.

    Examples
    --------
    >>> round(depth_after_cut(1.1, 0.3).value, 3)
    0.8
    """
    inputs = {"valve_recession": (depth, "mm"), "cut": (cut, "mm")}
    return Step.work_out(
        "Valve below the face after the cut",
        "valve_recession - cut",
        inputs,
        ("recession_after", "mm"),
        DERIVED,
    )


def stand_out_after_cut(stand_out: float, cut: float, says: str) -> Step:
    """How far an insert, pre-chamber or injector tip stands out when the face is cut and it is not.

    Parameters
    ----------
    stand_out : float
        Before the cut, out of the face positive [mm].
    cut : float
        Taken off the fire face [mm].
    says : str
        What stands out [text].

    Returns
    -------
    Step
        The sum [mm].

    Source
    ------
    [derived] the face goes down, the part stays.

    Examples
    --------
    >>> round(stand_out_after_cut(0.02, 0.25, "Pre-chamber").value, 3)
    0.27
    """
    inputs = {"stand_out": (stand_out, "mm"), "cut": (cut, "mm")}
    return Step.work_out(
        f"{says} out of the face after the cut",
        "stand_out + cut",
        inputs,
        ("stand_out_after", "mm"),
        DERIVED,
    )


def backlash_after(backlash: float, drop: float, pressure_angle: float) -> Step:
    """Backlash of two gears whose centres come nearer to one another.

    Parameters
    ----------
    backlash : float
        Before, at the pitch circle [mm].
    drop : float
        By which the centres come together, negative when they part [mm].
    pressure_angle : float
        Of the teeth, 20° on most [rad].

    Returns
    -------
    Step
        The sum; below zero the teeth bind [mm].

    Raises
    ------
    OutOfRange
        For a pressure angle that no gear has.

    Valid for
    ---------
    Involute teeth and centres that move along the line between them.

    Source
    ------
    [derived] both flanks come nearer by the sine of the pressure angle over its cosine at the pitch circle.

    Examples
    --------
    >>> from math import radians
    >>> round(backlash_after(0.20, 0.10, radians(20.0)).value, 4)
    0.1272
    """
    within("pressure_angle", pressure_angle, 0.17, 0.62, "rad")
    inputs = {
        "backlash": (backlash, "mm"),
        "pressure_angle": (pressure_angle, "rad"),
        "drop": (drop, "mm"),
    }
    return Step.work_out(
        "Backlash with the centres so much nearer",
        "backlash - 2 * tan(pressure_angle) * drop",
        inputs,
        ("backlash_after", "mm"),
        DERIVED,
    )


def slack_made(drop: float) -> Step:
    """Length of chain or belt that becomes slack when the upper wheel comes nearer.

    Parameters
    ----------
    drop : float
        By which the upper wheel comes nearer the crank [mm].

    Returns
    -------
    Step
        The sum: both strands together; the tensioner has to take it up [mm].

    Valid for
    ---------
    Strands that run nearly along the drop; leaning ones give less.

    Source
    ------
    [derived] each strand becomes shorter by the drop.

    Examples
    --------
    >>> slack_made(0.5).value
    1.0
    """
    return Step.work_out(
        "Chain or belt that becomes slack, both strands",
        "2 * drop",
        {"drop": (drop, "mm")},
        ("slack_made", "mm"),
        DERIVED,
    )
