"""How flat a surface plate of a grade has to be, for the plate a face or an edge is checked on."""

from dataclasses import dataclass

from firedeck.errors import OutOfRange
from firedeck.quantity import Kind, parse
from firedeck.tables import one
from firedeck.trace import Step


@dataclass(frozen=True)
class PlateTolerance:
    """Largest flatness deviation of a plate; mm."""

    tolerance: float
    steps: tuple[Step, ...]


def plate_tolerance(length: float, width: float, grade: str = "AA") -> PlateTolerance:
    """Flatness a surface plate keeps by its grade.

    Parameters
    ----------
    length : float
        Longer side of the plate [mm].
    width : float
        Shorter side of the plate [mm].
    grade : str
        AA, A or B [text].

    Returns
    -------
    PlateTolerance
        Largest deviation over the working area [mm].

    Raises
    ------
    OutOfRange
        If a side is not positive.
    TableGap
        If there is no such grade.

    Valid for
    ---------
    The plate without an edge zone of 25 to 38 mm by its size.

    Source
    ------
    ggg-p-463c

    Examples
    --------
    >>> round(plate_tolerance(304.8, 304.8).tolerance / 25.4e-6, 2)
    51.52
    """
    if not (length > 0.0 and width > 0.0):
        raise OutOfRange("surface plate", f"{length:g} by {width:g} mm", "sides longer than nothing")
    row = one("surface_plates", f"grade {grade}", lambda row: row["grade"] == grade)
    least, per_square_inch = (parse(row[name], Kind.LENGTH).value for name in ("least", "per_square_inch"))
    step = Step.work_out(
        f"Flatness of a plate of grade {grade}, from the square of its diagonal in inches",
        "times * (least + per_square_inch * (length**2 + width**2) / inch**2)",
        {
            "times": (float(row["times"]), "1"),
            "least": (least, "mm"),
            "per_square_inch": (per_square_inch, "mm"),
            "length": (length, "mm"),
            "width": (width, "mm"),
            "inch": (parse("1 in", Kind.LENGTH).value, "mm"),
        },
        ("tolerance", "mm"),
        row["source"],
    )
    return PlateTolerance(step.value, (step,))
