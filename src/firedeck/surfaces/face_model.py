"""What is known before a face is read: its plan, the shapes faces take, how likely dips are and where.

Heights inside the rooms of the posterior are in µm, places in mm; heights count positive out of the metal.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from firedeck.errors import OutOfRange
from firedeck.surfaces.lines import Place
from firedeck.surfaces.points import Array

POWERS = (
    ((2, 0), 80.0),
    ((0, 2), 45.0),
    ((1, 1), 55.0),
    *(((power, 3 - power), 18.0) for power in (3, 2, 1, 0)),
    *(((power, 4 - power), 11.0) for power in (4, 3, 2, 1, 0)),
)
"""Shapes u^i v^j over the box of the face, u and v from -1 to 1, and the scatter of each [µm]."""

EDGE_TRUE_TO = 0.010
"""How true the edge is taken to be over the longest line where nobody says: no more hollow or crowned than this [mm]."""

DIPS = 1.5
"""Dips on a face, on average [count]."""

MOST_DIPS = 8
DIP_DEPTH = 40.0
"""Likeliest depth of a dip; its mean is twice that [µm]."""

DIP_SIZE = (6.0, 30.0)
"""Smallest and largest size of a dip: where its depth has fallen to 61 % [mm]."""

NEAR_BORE = 18.0
AT_BORES = 0.6
"""Share of the dips within 18 mm of the edge of a bore."""

CELL = 4.0


@dataclass(frozen=True)
class Bore:
    """A hole the face does not have: nothing is touched or read inside it [mm]."""

    label: str
    x: float
    y: float
    diameter: float


@dataclass(frozen=True)
class Plan:
    """The face: its box from ``low`` to ``high`` and its bores, all in mm."""

    low: Place
    high: Place
    bores: tuple[Bore, ...] = ()

    def __post_init__(self) -> None:
        if not (self.high[0] > self.low[0] and self.high[1] > self.low[1]):
            raise OutOfRange("face", f"{self.low} to {self.high}", "a length and a width")

    @property
    def size(self) -> tuple[float, float]:
        """Length and width [mm]."""
        return self.high[0] - self.low[0], self.high[1] - self.low[1]

    @property
    def middle(self) -> Place:
        """Middle of the box [mm]."""
        return 0.5 * (self.low[0] + self.high[0]), 0.5 * (self.low[1] + self.high[1])

    def on_face(self, x: Array, y: Array, margin: float = 0.0) -> npt.NDArray[np.bool_]:
        """Say which places are face: in the box and not in a bore.

        Parameters
        ----------
        x, y : ndarray
            Places [mm].
        margin : float
            How far beyond the box a place may lie [mm].

        Returns
        -------
        ndarray of bool
            True on the face [1].

        Source
        ------
        derived
        """
        inside = (x >= self.low[0] - margin) & (x <= self.high[0] + margin)
        inside &= (y >= self.low[1] - margin) & (y <= self.high[1] + margin)
        for bore in self.bores:
            inside &= np.hypot(x - bore.x, y - bore.y) > 0.5 * bore.diameter - 0.5
        return np.asarray(inside)


def shape_terms(plan: Plan, x: Array, y: Array) -> Array:
    """Values of the smooth shapes at places.

    Parameters
    ----------
    plan : Plan
        The face [mm].
    x, y : ndarray, shape (p,)
        Places [mm].

    Returns
    -------
    ndarray, shape (p, 12)
        One column for each shape of :data:`POWERS`, 1 where it is at its largest [1].

    Source
    ------
    derived

    Examples
    --------
    >>> plan = Plan((0.0, 0.0), (400.0, 160.0))
    >>> shape_terms(plan, np.array([400.0]), np.array([80.0]))[0, :3].tolist()
    [1.0, 0.0, 0.0]
    """
    middle, size = plan.middle, plan.size
    u, v = (x - middle[0]) / (0.5 * size[0]), (y - middle[1]) / (0.5 * size[1])
    return np.stack([u**i * v**j for (i, j), _ in POWERS], axis=1)


def shape_scatter(plan: Plan) -> Array:
    """Scatter of each shape before anything is read, larger for a face longer than 420 mm.

    Parameters
    ----------
    plan : Plan
        The face [mm].

    Returns
    -------
    ndarray, shape (12,)
        Standard deviation of each shape [µm].

    Source
    ------
    generic-ours

    Examples
    --------
    >>> shape_scatter(Plan((0.0, 0.0), (400.0, 160.0)))[:3].tolist()
    [80.0, 45.0, 55.0]
    """
    return np.array([scatter for _, scatter in POWERS]) * max(1.0, plan.size[0] / 420.0)


@dataclass(frozen=True)
class DipPlaces:
    """Where dips may lie: middles of the cells ``x``, ``y`` (c,) and the odds ``share`` (c,) of each."""

    plan: Plan
    columns: int
    rows: int
    share: Array

    def cell(self, x: npt.NDArray[Any], y: npt.NDArray[Any]) -> npt.NDArray[np.intp]:
        """Number of the cell of each place, or the one past the last off the face [count].

        Parameters
        ----------
        x, y : ndarray
            Places [mm].

        Returns
        -------
        ndarray of int
            Cell numbers [count].

        Source
        ------
        derived
        """
        column = np.floor((x - self.plan.low[0]) / CELL)
        row = np.floor((y - self.plan.low[1]) / CELL)
        off = (column < 0) | (column >= self.columns) | (row < 0) | (row >= self.rows)
        return np.where(off, self.rows * self.columns, row * self.columns + column).astype(np.intp)


def dip_places(plan: Plan) -> DipPlaces:
    """Lay cells over the face and share the odds of a dip out among them.

    Parameters
    ----------
    plan : Plan
        The face [mm].

    Returns
    -------
    DipPlaces
        Cells of 4 mm; 60 % of the odds within 18 mm of a bore's edge [1].

    Source
    ------
    generic-ours

    Examples
    --------
    >>> places = dip_places(Plan((0.0, 0.0), (40.0, 20.0)))
    >>> places.columns, places.rows, round(float(places.share.sum()), 9)
    (10, 5, 1.0)
    """
    columns, rows = (int(np.ceil(size / CELL)) for size in plan.size)
    x, y = np.meshgrid(
        plan.low[0] + CELL * (np.arange(columns) + 0.5), plan.low[1] + CELL * (np.arange(rows) + 0.5)
    )
    face = plan.on_face(x, y).ravel()
    beside = np.zeros_like(face)
    for bore in plan.bores:
        beside |= np.hypot(x - bore.x, y - bore.y).ravel() < 0.5 * bore.diameter + NEAR_BORE
    beside &= face
    share = face / face.sum()
    if beside.any():
        share = (1.0 - AT_BORES) * share + AT_BORES * beside / beside.sum()
    return DipPlaces(plan, columns, rows, np.append(share, 0.0))
