"""Gap between the flat of the piston and the head at top dead centre, cold and turned by hand."""

from dataclasses import dataclass

from firedeck.cylinder.bounds import positive, within
from firedeck.trace import DERIVED, GENERIC, Note, Step


@dataclass(frozen=True)
class Squish:
    """Squish gap [mm], with the written sum."""

    squish: float
    steps: tuple[Step, ...]
    assumptions: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()


def squish_gap(deck_clearance: float, gasket_thickness: float, cut: float = 0.0) -> Squish:
    """Squish gap from deck clearance, compressed gasket and a cut of the block face.

    Parameters
    ----------
    deck_clearance : float
        Flat of the piston below the block face before the cut, negative when proud [mm].
    gasket_thickness : float
        Compressed thickness of the gasket [mm].
    cut : float, optional
        Metal taken off the block face. A cut of the head face leaves the gap as it was where the
        squish pad is level with that face; count it here only where the pad lies deeper [mm].

    Returns
    -------
    Squish
        The gap, cold and still [mm].

    Raises
    ------
    OutOfRange
        If the thickness is not above nought.

    Valid for
    ---------
    A flat pad parallel to the block face; rod stretch, rock and heat are not in it.

    Source
    ------
    derived

    Examples
    --------
    >>> round(squish_gap(0.508, 1.0414, cut=0.508).squish, 4)
    1.0414
    """
    positive("gasket_thickness", gasket_thickness, "mm")
    within("deck_clearance", deck_clearance, -50.0, 50.0, "mm")
    within("cut", cut, -50.0, 50.0, "mm")
    step = Step.work_out(
        "Gap between piston and head at top dead centre",
        "deck_clearance + gasket_thickness - cut",
        {
            "deck_clearance": (deck_clearance, "mm"),
            "gasket_thickness": (gasket_thickness, "mm"),
            "cut": (cut, "mm"),
        },
        ("squish", "mm"),
        DERIVED,
    )
    notes = (
        Note("cut is metal off the block face; the pad of the head is level with the head face", GENERIC),
        Note("cold and turned by hand: rod stretch and piston rock at speed take some of it", GENERIC),
    )
    cautions: tuple[Note, ...] = ()
    if step.value <= 0.0:
        cautions = (Note("no gap is left: the piston reaches the head; do not turn it over", DERIVED),)
    return Squish(step.value, (step,), notes, cautions)
