"""The loads of a joint as columns: washers, threads, gas and warmth."""

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.fem.brick import CORNERS, Floats, thermal_load
from firedeck.fem.columns import CARRIES, Columns, Face, X, Y, face_points, joined
from firedeck.fem.grid import Body, Ints


def annulus(
    body: Body,
    face: Face,
    x: float,
    y: float,
    *,
    inner: float,
    outer: float,
    samples: tuple[int, int] = (4, 24),
) -> Columns:
    """Mean over a ring of a face: a washer, a bolt head, a disc of thread when inner is nought.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm].
    face : Face
        The face the ring lies on [1].
    x, y : float
        Centre [mm].
    inner, outer : float
        Radii [mm].
    samples : tuple of int
        Points across and round the ring [1].

    Returns
    -------
    Columns
        One column along z, weights summing to 1 [1].

    Raises
    ------
    OutOfRange
        If the ring does not lie on metal or its radii are not rising.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> edge = np.array([0.0, 2.0])
    >>> cube = Body(edge, edge, edge, np.ones((1, 1, 1)), Material(1.0, 0.0))
    >>> annulus(cube, Face(1, upward=False), 1.0, 1.0, inner=0.2, outer=0.6).weight.round(6).tolist()
    [0.25, 0.25, 0.25, 0.25]
    """
    if not 0.0 <= inner < outer:
        raise OutOfRange("ring", f"radii {inner:g} and {outer:g} mm", "an outer radius above the inner one")
    edges = np.sqrt(np.linspace(inner**2, outer**2, 2 * samples[0] + 1))
    radii, angles = edges[1::2], 2.0 * np.pi * (np.arange(samples[1]) + 0.5) / samples[1]
    px = (x + np.outer(radii, np.cos(angles))).ravel()
    py = (y + np.outer(radii, np.sin(angles))).ravel()
    group = np.zeros(len(px), dtype=np.int64)
    return face_points(body, face, px, py, groups=group, weights=np.full(len(px), 1.0 / len(px)))


def thread_zone(
    body: Body, x: float, y: float, *, radius: float, low: float, high: float, towards_top: bool
) -> Columns:
    """Mean movement of the metal round a screwed-in length, the first threads carrying most.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm].
    x, y : float
        Axis of the fastener [mm].
    radius : float
        Radius of the thread [mm].
    low, high : float
        Lower and upper end of the threads in the metal [mm].
    towards_top : bool
        True when the first loaded thread is the upper one [1].

    Returns
    -------
    Columns
        One column along z, weights summing to 1 [1].

    Raises
    ------
    OutOfRange
        If no plane of the body lies in the threads.

    Valid for
    ---------
    Threads whose share of the load falls evenly from the first to nought at the last.

    Source
    ------
    generic-ours

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> edge = np.array([0.0, 5.0, 10.0])
    >>> cube = Body(edge, edge, edge, np.ones((2, 2, 2)), Material(1.0, 0.0))
    >>> zone = thread_zone(cube, 5.0, 5.0, radius=3.0, low=0.0, high=10.0, towards_top=True)
    >>> round(float(zone.weight.sum()), 6)
    1.0
    """
    planes = np.flatnonzero((body.z >= low - 1e-9) & (body.z <= high + 1e-9))
    if not len(planes):
        raise OutOfRange("threads", f"{low:g} to {high:g} mm", "a length that holds a plane of the mesh")
    depth = high - body.z[planes] if towards_top else body.z[planes] - low
    share = np.maximum(1.0 - depth / (high - low), 0.0) + 1e-6
    share = share / share.sum()
    rings = []
    for plane, weight in zip(planes.tolist(), share, strict=True):
        above = plane == 0 or (plane < len(body.z) - 1 and _has_metal(body, x, y, plane))
        face = Face(plane, upward=bool(above))
        ring = annulus(body, face, x, y, inner=0.0, outer=radius)
        rings.append(Columns(ring.dof, ring.column, ring.weight * weight, 1))
    whole = joined(rings)
    return Columns(whole.dof, np.zeros_like(whole.column), whole.weight, 1)


def _has_metal(body: Body, x: float, y: float, layer: int) -> bool:
    i = int(np.clip(np.searchsorted(body.x, x, side="right") - 1, 0, body.bricks[0] - 1))
    j = int(np.clip(np.searchsorted(body.y, y, side="right") - 1, 0, body.bricks[1] - 1))
    return float(body.share[i, j, layer]) >= CARRIES


def roof_pressure(body: Body, x: float, y: float, radius: float, step: float = 1.0) -> Columns:
    """Gas on everything that covers a circle, seen from below: the chamber roof and the rim round it.

    Parameters
    ----------
    body : Body
        A head, its face at the lowest plane [mm].
    x, y : float
        Centre of the seal [mm].
    radius : float
        Radius at which the gasket seals [mm].
    step : float
        Distance of the points the circle is cut into [mm].

    Returns
    -------
    Columns
        One column: force upwards per MPa, whose weights sum to pi * radius**2 [mm²].

    Raises
    ------
    OutOfRange
        If there is no metal above a point of the circle within reach.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> edge = np.array([0.0, 5.0, 10.0])
    >>> head = Body(edge, edge, edge, np.ones((2, 2, 2)), Material(1.0, 0.0))
    >>> round(float(roof_pressure(head, 5.0, 5.0, 4.0).weight.sum()), 6)
    50.265482
    """
    rings = max(2, round(radius / step))
    r = radius * np.sqrt((np.arange(rings) + 0.5) / rings)
    turns = max(8, round(2.0 * np.pi * radius / step))
    angle = 2.0 * np.pi * (np.arange(turns) + 0.5) / turns
    px, py = (x + np.outer(r, np.cos(angle))).ravel(), (y + np.outer(r, np.sin(angle))).ravel()
    area = np.full(len(px), np.pi * radius**2 / len(px))
    planes = _lowest_metal(body, px, py)
    parts = []
    for plane in np.unique(planes):
        here = planes == plane
        group = np.zeros(int(here.sum()), dtype=np.int64)
        face = Face(int(plane), upward=True)
        parts.append(face_points(body, face, px[here], py[here], groups=group, weights=area[here]))
    whole = joined(parts)
    return Columns(whole.dof, np.zeros_like(whole.column), whole.weight, 1)


def _lowest_metal(body: Body, x: Floats, y: Floats) -> Ints:
    i = np.clip(np.searchsorted(body.x, x, side="right") - 1, 0, body.bricks[0] - 1)
    j = np.clip(np.searchsorted(body.y, y, side="right") - 1, 0, body.bricks[1] - 1)
    metal = body.share[i, j] >= CARRIES
    if not metal.any(axis=1).all():
        raise OutOfRange("chamber roof", "a place with no metal above it", "a roof over the whole bore")
    first: Ints = metal.argmax(axis=1)
    return first


def wall_pressure(
    body: Body, x: float, y: float, *, radius: float, low: float, high: float, turns: int = 48
) -> Columns:
    """Gas on the wall of a bore, outwards, between two heights.

    Parameters
    ----------
    body : Body
        A block [mm].
    x, y : float
        Axis of the bore [mm].
    radius : float
        Radius of the bore [mm].
    low, high : float
        Ends of the pressed length [mm].
    turns : int
        Points round the bore; an even number keeps the sideways forces in balance [1].

    Returns
    -------
    Columns
        One column: force per MPa, with no sum in any direction [mm²].

    Raises
    ------
    OutOfRange
        If the length is not within the body.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> edge = np.linspace(-10.0, 10.0, 11)
    >>> block = Body(edge, edge, np.array([-5.0, 0.0]), np.ones((10, 10, 1)), Material(1.0, 0.0))
    >>> gas = wall_pressure(block, 0.0, 0.0, radius=4.0, low=-2.0, high=0.0)
    >>> bool(abs(gas.weight.sum()) < 1e-9)
    True
    """
    if not body.z[0] - 1e-9 <= low < high <= body.z[-1] + 1e-9:
        raise OutOfRange("bore wall", f"{low:g} to {high:g} mm", f"{body.z[0]:g} to {body.z[-1]:g} mm")
    angle = 2.0 * np.pi * (np.arange(turns) + 0.5) / turns
    group = np.zeros(turns, dtype=np.int64)
    px, py = x + radius * np.cos(angle), y + radius * np.sin(angle)
    parts: list[Columns] = []
    for plane, length in enumerate(_lengths(body.z, low, high).tolist()):
        if length > 0.0:
            face = Face(plane, upward=plane == 0)
            area = 2.0 * np.pi * radius * length / turns
            parts += [
                face_points(body, face, px, py, direction=direction, groups=group, weights=area * outwards)
                for direction, outwards in ((X, np.cos(angle)), (Y, np.sin(angle)))
            ]
    whole = joined(parts)
    return Columns(whole.dof, np.zeros_like(whole.column), whole.weight, 1)


def _lengths(z: Floats, low: float, high: float) -> Floats:
    """Share of a length that each plane stands for, by the linear shapes between planes; they sum to high - low."""
    fine = low + (np.arange(200) + 0.5) * (high - low) / 200
    place = np.clip(np.searchsorted(z, fine, side="right") - 1, 0, len(z) - 2)
    t = (fine - z[place]) / (z[place + 1] - z[place])
    shared = np.bincount(place, 1.0 - t, len(z)) + np.bincount(place + 1, t, len(z))
    result: Floats = shared * (high - low) / 200
    return result


def warmth(body: Body, rise: Floats) -> Columns:
    """A field of temperature as one load column.

    Parameters
    ----------
    body : Body
        Bricks with an expansion [1/K].
    rise : ndarray, shape (nx + 1, ny + 1, nz + 1)
        Rise of every node's temperature for one unit of the column [K].

    Returns
    -------
    Columns
        One column; its load has no sum and no moment [N].

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> edge = np.array([0.0, 5.0, 10.0])
    >>> cube = Body(edge, edge, edge, np.ones((2, 2, 2)), Material(1e5, 0.3, 1e-5))
    >>> bool(abs(warmth(cube, np.ones((3, 3, 3))).weight.sum()) < 1e-9)
    True
    """
    terms = _thermal_terms(body)
    nx, ny, nz = body.bricks
    dx, dy, dz = np.meshgrid(np.diff(body.x), np.diff(body.y), np.diff(body.z), indexing="ij")
    metal = body.share > 0.0
    mixed = np.stack([dy * dz, dx * dz, dx * dy], axis=-1)[metal] * body.share[metal][:, None]
    warm = np.stack([rise[i : nx + i, j : ny + j, k : nz + k][metal] for i, j, k in CORNERS], axis=1)
    load = np.einsum("ep,pfn,en->ef", mixed, terms, warm, optimize=True)
    i, j, k = (place[:, None] for place in np.nonzero(metal))
    _, my, mz = body.nodes
    nodes = ((i + CORNERS[:, 0]) * my + j + CORNERS[:, 1]) * mz + k + CORNERS[:, 2]
    dofs = (3 * nodes[:, :, None] + np.arange(3)).ravel()
    total = np.bincount(dofs, weights=load.ravel(), minlength=3 * body.touched.size).astype(np.float64)
    used = np.flatnonzero(np.abs(total) > 1e-12 * max(float(np.abs(total).max()), 1e-300))
    return Columns(used, np.zeros_like(used), total[used], 1)


def _thermal_terms(body: Body) -> Floats:
    """Three fixed matrices: the thermal load of a brick is their mix with the areas of its sides."""
    edges = np.array([(1.0, 1.0, 1.0), (2.0, 1.0, 1.0), (1.0, 2.0, 1.0)])
    seen = np.stack([thermal_load((a, b, c), body.material) for a, b, c in edges.tolist()])
    sides = np.stack(
        [edges[:, 1] * edges[:, 2], edges[:, 0] * edges[:, 2], edges[:, 0] * edges[:, 1]], axis=1
    )
    terms: Floats = np.linalg.solve(sides, seen.reshape(3, -1)).reshape(seen.shape)
    return terms
