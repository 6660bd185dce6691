"""From a file of readings to what the physics of surfaces takes."""

import numpy as np
import numpy.typing as npt

from firedeck.errors import BadQuantity, JobError
from firedeck.quantity import Columns, Kind
from firedeck.surfaces.union_jack import FootStep

Array = npt.NDArray[np.float64]


def lengths(where: str, columns: Columns, names: tuple[str, ...]) -> Array:
    """Columns of lengths side by side, (n, number of names) in mm; one line of fault if one is missing."""
    return np.array([_column(where, columns, name, Kind.LENGTH) for name in names]).T


def _column(where: str, columns: Columns, name: str, kind: Kind) -> tuple[float, ...]:
    try:
        numbers = columns.column(name)
    except BadQuantity as fault:
        raise JobError(where, fault.found, fault.allowed) from fault
    if columns.kinds.get(name) is not kind:
        raise JobError(where, f"column {name} as {columns.kinds.get(name)}", f"a column of {kind}")
    return numbers


def foot_steps(where: str, columns: Columns) -> list[FootStep]:
    """Steps of a foot from a file with line, places and angles."""
    if "line" not in columns.labels:
        raise JobError(where, "no column line", "line, x_from_mm, y_from_mm, x_to_mm, y_to_mm, angle_arcsec")
    places = lengths(where, columns, ("x_from", "y_from", "x_to", "y_to"))
    angles = _column(where, columns, "angle", Kind.ANGLE)
    return [
        FootStep(line, (float(x), float(y)), (float(to_x), float(to_y)), angle)
        for line, (x, y, to_x, to_y), angle in zip(columns.labels["line"], places, angles, strict=True)
    ]


def xyz(point: tuple[float, ...]) -> dict[str, float]:
    """A point as an object whose keys carry the unit."""
    return dict(zip(("x_mm", "y_mm", "z_mm"), point, strict=False))
