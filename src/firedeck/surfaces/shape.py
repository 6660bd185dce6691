"""The long shapes of a face: bow along, bow across and twist, by least squares."""

from dataclasses import dataclass

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.surfaces.points import Array, PointsLike, as_points
from firedeck.trace import DERIVED, RUN, Step

DIGITS = 9
"""Decimals of a millimetre kept of a fitted shape: nothing is read as fine, what lies below is left by adding up."""

_NAMES = ("level", "tilt along", "tilt across", "bow along", "bow across", "twist")


@dataclass(frozen=True)
class Shape:
    """Long shapes over the box round the points; lengths in mm.

    ``long_bow`` is the height of the middle over the ends along the length, ``cross_bow`` the same
    across: positive on a crown, negative on a hollow. ``twist`` is the height of the corners at
    (least x, least y) and (most x, most y) over the middle, the other two lie as much below.
    ``left_over`` is the largest height, up or down, that these shapes do not explain; ``left`` (n,).
    """

    long_bow: float
    cross_bow: float
    twist: float
    left_over: float
    left: Array
    steps: tuple[Step, ...]


def long_shapes(points: PointsLike) -> Shape:
    """Fit level, tilt, bow along, bow across and twist together.

    Parameters
    ----------
    points : array_like, shape (n, 3)
        x, y and height z, positive out of the metal [mm].

    Returns
    -------
    Shape
        The three shapes, what they leave over, and the written sums [mm].

    Raises
    ------
    OutOfRange
        If the points cannot tell the six shapes apart (at least three rows of three).

    Valid for
    ---------
    Shapes as long as the face; a short dip shows in what is left over.

    Source
    ------
    derived

    Examples
    --------
    >>> face = [(x, y, 0.1 - 0.1 * (x / 200 - 1) ** 2) for x in (0, 100, 200, 300, 400) for y in (0, 70, 140)]
    >>> found = long_shapes(face)
    >>> round(found.long_bow, 9), round(abs(found.cross_bow), 9), round(abs(found.twist), 9)
    (0.1, 0.0, 0.0)
    """
    array = as_points(points, fewest=6)
    u, v = _scaled(array)
    terms = np.column_stack((np.ones(len(array)), u, v, u * u, v * v, u * v))
    sizes = np.linalg.svd(terms, compute_uv=False)
    if sizes[-1] < 1e-6 * sizes[0]:
        allowed = "points on at least three places along, three across and at the corners"
        found = f"{len(array)} points that do not tell bow, cross bow and twist apart"
        raise OutOfRange("points", found, allowed)
    factors = np.asarray(np.linalg.lstsq(terms, array[:, 2], rcond=None)[0], dtype=np.float64)
    left = array[:, 2] - terms @ factors
    steps = (*_bow_steps(factors), *_rest_steps(terms, left))
    return Shape(
        long_bow=steps[0].value,
        cross_bow=steps[1].value,
        twist=steps[2].value,
        left_over=float(np.abs(left).max()),
        left=left,
        steps=steps,
    )


def _scaled(points: Array) -> tuple[Array, Array]:
    """Places from -1 to 1 along and across the box round the points."""
    low, high = points[:, :2].min(axis=0), points[:, :2].max(axis=0)
    if not (high > low).all():
        raise OutOfRange("points", "points on one line", "points spread over the face")
    scaled = (2.0 * points[:, :2] - low - high) / (high - low)
    return scaled[:, 0], scaled[:, 1]


def _bow_steps(factors: Array) -> tuple[Step, Step, Step]:
    source = f"{RUN}shape-fit"
    along, across, twist = (round(float(factor), DIGITS) + 0.0 for factor in factors[3:])
    says = "Least-squares height of the middle over the ends, {}; u, v run from -1 to 1"
    return (
        Step.work_out(
            says.format("along"), "0 - factor_u_u", {"factor_u_u": (along, "mm")}, ("long_bow", "mm"), source
        ),
        Step.work_out(
            says.format("across"),
            "0 - factor_v_v",
            {"factor_v_v": (across, "mm")},
            ("cross_bow", "mm"),
            source,
        ),
        Step.work_out(
            "Least-squares height of the corners over the middle by twist",
            "factor_u_v",
            {"factor_u_v": (twist, "mm")},
            ("twist", "mm"),
            source,
        ),
    )


def _rest_steps(terms: Array, left: Array) -> tuple[Step, ...]:
    """A least-squares fit leaves heights that balance against every shape; here is the worst of them."""
    balance = terms.T @ left / len(left)
    worst = int(np.abs(balance).argmax())
    return (
        Step.work_out(
            f"What is left over, weighted with {_NAMES[worst]}, must balance (within 1e-09 mm)",
            "sum_of_products / points",
            {"sum_of_products": (float(balance[worst]) * len(left), "mm"), "points": (float(len(left)), "1")},
            ("balance", "mm"),
            f"{RUN}shape-fit",
        ),
        Step.work_out(
            "Largest height the long shapes do not explain",
            "max(highest, -lowest)",
            {"highest": (float(left.max()), "mm"), "lowest": (float(left.min()), "mm")},
            ("left_over", "mm"),
            DERIVED,
        ),
    )
