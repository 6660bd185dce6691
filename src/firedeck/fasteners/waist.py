"""The weakest section of a bolt: its thread, or a waist turned thinner than it."""

from math import pi

from firedeck.fasteners.guards import above_nought
from firedeck.fasteners.threads import Thread


def weakest_section(thread: Thread, waist: float | None = None) -> dict[str, tuple[float, str]]:
    """The section that yields first: the thread, or a waist thinner than its stress area.

    Parameters
    ----------
    thread : Thread
        The thread [core].
    waist : float or None
        Thinnest diameter of the shank, None for one no thinner than the thread [mm].

    Returns
    -------
    dict of str to (float, str)
        ``stress_diameter`` and ``stress_area`` as figures of a step [mm and mm²].

    Raises
    ------
    OutOfRange
        If the waist is not above nought.

    Source
    ------
    [vdi-2230] reduced-shank bolts are judged by the section of the waist.

    Examples
    --------
    >>> from firedeck.fasteners.threads import thread_of
    >>> round(weakest_section(thread_of("M10"), 7.0)["stress_area"][0], 2)
    38.48
    >>> round(weakest_section(thread_of("M10"), 10.0)["stress_area"][0], 2)
    57.99
    """
    if waist is not None:
        above_nought("waist", waist, "mm")
    if waist is None or waist >= thread.stress_diameter:
        return {"stress_diameter": (thread.stress_diameter, "mm"), "stress_area": (thread.stress_area, "mm²")}
    return {"stress_diameter": (waist, "mm"), "stress_area": (pi / 4 * waist**2, "mm²")}
