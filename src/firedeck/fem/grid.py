"""A body as a tensor grid of bricks: planes snapped to its walls, one solid share per brick."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from firedeck.errors import OutOfRange
from firedeck.fem.brick import CORNERS, Floats, Material

Ints = NDArray[np.int64]
Inside = Callable[[Floats, Floats, Floats], NDArray[np.float64] | NDArray[np.bool_]]
LEAST_SHARE = 0.02
"""Bricks with less metal than this are left out."""


@dataclass(frozen=True)
class Body:
    """Bricks of one metal on a tensor grid.

    ``x``, ``y``, ``z``: planes, rising [mm]. ``share``: how much of each brick is metal, shape (nx, ny, nz), 0 to 1
    (a stiffer piece of another metal, such as a liner, may have more than 1: its modulus over the body's).
    """

    x: Floats
    y: Floats
    z: Floats
    share: Floats = field(repr=False)
    material: Material

    def __post_init__(self) -> None:
        for name, planes in (("x", self.x), ("y", self.y), ("z", self.z)):
            if len(planes) < 2 or not (np.diff(planes) > 0.0).all():
                raise OutOfRange(
                    f"planes along {name}", f"{len(planes)} planes", "two or more rising planes are wanted"
                )
        if self.share.shape != self.bricks:
            raise OutOfRange(
                "solid share", f"shape {self.share.shape}", f"one figure per brick, {self.bricks}"
            )
        if not (np.isfinite(self.share).all() and (self.share >= 0.0).all()):
            raise OutOfRange("solid share", "a figure below nought or no number", "0 is void, 1 is metal")

    @property
    def bricks(self) -> tuple[int, int, int]:
        """Bricks along x, y, z."""
        return len(self.x) - 1, len(self.y) - 1, len(self.z) - 1

    @property
    def nodes(self) -> tuple[int, int, int]:
        """Nodes along x, y, z."""
        return len(self.x), len(self.y), len(self.z)

    @cached_property
    def touched(self) -> NDArray[np.bool_]:
        """Nodes that belong to metal, shape (nx + 1, ny + 1, nz + 1)."""
        return corners_touched(self.share > 0.0)

    @property
    def unknowns(self) -> int:
        """Degrees of freedom that belong to metal."""
        return 3 * int(self.touched.sum())

    def places(self) -> Floats:
        """Return x, y, z of all nodes [mm], shape (nodes, 3), z fastest."""
        mesh = np.meshgrid(self.x, self.y, self.z, indexing="ij")
        return np.stack([axis.ravel() for axis in mesh], axis=1)


def corners_touched(metal: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Say which nodes belong to metal bricks.

    Parameters
    ----------
    metal : ndarray, shape (nx, ny, nz)
        Bricks of metal [1].

    Returns
    -------
    ndarray, shape (nx + 1, ny + 1, nz + 1)
        Nodes of metal [1].

    Source
    ------
    derived

    Examples
    --------
    >>> int(corners_touched(np.array([[[True]], [[False]]])).sum())
    8
    """
    nx, ny, nz = metal.shape
    found = np.zeros((nx + 1, ny + 1, nz + 1), dtype=bool)
    for i, j, k in CORNERS:
        found[i : nx + i, j : ny + j, k : nz + k] |= metal
    return found


def snapped_planes(low: float, high: float, size: float, walls: Sequence[float] = ()) -> Floats:
    """Planes from low to high, one on every wall, none farther apart than wanted.

    Parameters
    ----------
    low, high : float
        Ends [mm].
    size : float
        Wanted distance of planes; kept to within a third above [mm].
    walls : sequence of float
        Places that must lie on a plane; those outside, or nearer to another than a quarter of size, are left out [mm].

    Returns
    -------
    ndarray, shape (n,)
        Rising planes [mm].

    Raises
    ------
    OutOfRange
        If high does not lie above low, or size is not above nought.

    Source
    ------
    derived

    Examples
    --------
    >>> snapped_planes(0.0, 20.0, 8.0, walls=(12.0,)).tolist()
    [0.0, 6.0, 12.0, 20.0]
    """
    if not (high > low and size > 0.0):
        raise OutOfRange(
            "planes", f"{low:g} to {high:g} mm by {size:g} mm", "a rising range and a size above nought"
        )
    kept = [low, high]
    for wall in sorted(set(walls)):
        if low < wall < high and min(abs(wall - other) for other in kept) >= 0.25 * size:
            kept.append(wall)
    kept.sort()
    pieces = [
        np.linspace(start, end, max(1, round((end - start) / size + 0.17)) + 1)[:-1]
        for start, end in pairwise(kept)
    ]
    return np.concatenate([*pieces, [high]])


def graded_planes(first: float, last: float, sizes: Sequence[float], walls: Sequence[float] = ()) -> Floats:
    """Planes that start with given layers at one face and go on with the last of them, snapped to walls.

    Parameters
    ----------
    first, last : float
        The face with the fine layers, and the far face; last may lie below first [mm].
    sizes : sequence of float
        Layers from the face inwards; the last is used for the rest [mm].
    walls : sequence of float
        Places behind the fine layers that must lie on a plane [mm].

    Returns
    -------
    ndarray, shape (n,)
        Rising planes [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> graded_planes(0.0, -30.0, (3.0, 3.0, 8.0)).tolist()
    [-30.0, -22.0, -14.0, -6.0, -3.0, 0.0]
    """
    sign = 1.0 if last > first else -1.0
    depth = sign * (last - first)
    start = min(float(np.sum(sizes[:-1])), depth)
    fine = np.minimum(np.concatenate([[0.0], np.cumsum(sizes[:-1])]), depth)
    fine = np.unique(fine)
    inner = [sign * (wall - first) for wall in walls]
    rest = snapped_planes(start, depth, sizes[-1], inner)[1:] if depth > start else np.empty(0)
    return np.sort(first + sign * np.concatenate([fine, rest]))


def solid_share(x: Floats, y: Floats, z: Floats, inside: Inside, samples: int = 3) -> Floats:
    """How much of each brick is metal, from points sampled inside it.

    Parameters
    ----------
    x, y, z : ndarray, shape (n,)
        Planes of the grid [mm].
    inside : callable
        Takes x, y, z of points that broadcast [mm] and says where metal is, 0 or 1 (or a share) [1].
    samples : int
        Points per edge of a brick [1].

    Returns
    -------
    ndarray, shape (nx, ny, nz)
        Share of metal per brick, nought where there is less than LEAST_SHARE [1].

    Source
    ------
    derived

    Examples
    --------
    >>> planes = np.array([0.0, 1.0, 2.0])
    >>> solid_share(planes, planes, planes, lambda x, y, z: (x < 1.0) & (y > -1) & (z > -1))[:, 0, 0].tolist()
    [1.0, 0.0]
    """
    sx, sy, sz = (_sampled(planes, samples) for planes in (x, y, z))
    found = np.broadcast_to(
        np.asarray(inside(sx[:, None, None], sy[None, :, None], sz[None, None, :]), dtype=np.float64),
        (len(sx), len(sy), len(sz)),
    )
    shape = (len(x) - 1, samples, len(y) - 1, samples, len(z) - 1, samples)
    share: Floats = found.reshape(shape).mean(axis=(1, 3, 5))
    return np.where(share < LEAST_SHARE, 0.0, share)


def _sampled(planes: Floats, samples: int) -> Floats:
    places = (np.arange(samples) + 0.5) / samples
    return (planes[:-1, None] + np.diff(planes)[:, None] * places).ravel()


def whole_piece(share: Floats) -> Floats:
    """Keep the largest piece of metal that hangs together by faces; crumbs beside it are left out.

    Parameters
    ----------
    share : ndarray, shape (nx, ny, nz)
        Share of metal per brick [1].

    Returns
    -------
    ndarray, shape (nx, ny, nz)
        The same without loose pieces [1].

    Raises
    ------
    OutOfRange
        If there is no metal, or a loose piece is larger than a twentieth of the whole.

    Source
    ------
    derived

    Examples
    --------
    >>> whole_piece(np.array([[[1.0]], [[1.0]], [[1.0]]])).sum().item()
    3.0
    """
    pieces = _pieces(share > 0.0)
    if not pieces:
        raise OutOfRange("body", "no metal at all", "the outline and the sections must leave some")
    sizes = [int(piece.sum()) for piece in pieces]
    loose = sum(sizes) - max(sizes)
    if loose > 0.05 * sum(sizes):
        raise OutOfRange("body", f"{loose} of {sum(sizes)} bricks hang loose", "one piece of metal is wanted")
    return np.where(pieces[sizes.index(max(sizes))], share, 0.0)


def _pieces(metal: NDArray[np.bool_]) -> list[NDArray[np.bool_]]:
    """Pieces that hang together by faces; each grows from one brick along whole runs of metal, axis after axis."""
    runs = [_runs(np.moveaxis(metal, axis, -1)) for axis in range(3)]
    found, left = [], metal.copy()
    while left.any():
        piece = np.zeros_like(left)
        piece.flat[left.argmax()] = True
        size = 0
        while (grown := int(piece.sum())) > size:
            size = grown
            for axis, run in enumerate(runs):
                turned = np.moveaxis(piece, axis, -1)
                turned |= (np.bincount(run[turned], minlength=int(run[-1, -1, -1]) + 1) > 0)[run]
                piece &= metal
        found.append(piece)
        left &= ~piece
    return found


def _runs(metal: NDArray[np.bool_]) -> Ints:
    """Number of the unbroken run along the last axis that each brick of metal belongs to."""
    rows = np.arange(metal[..., 0].size).reshape(metal.shape[:-1])
    numbers: Ints = np.cumsum(~metal).reshape(metal.shape) + rows[..., None]
    return numbers
