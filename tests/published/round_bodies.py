"""Round parts as quarters on our grid of bricks, for published cases that are round."""

from collections.abc import Callable

import numpy as np

from firedeck.fem import Body, Columns, Face, Material, face_points, solid_share, whole_piece

Floats = np.ndarray


def quarter(
    planes: Floats, z: Floats, inside: Callable[[Floats, Floats], Floats], material: Material
) -> Body:
    """A quarter of a round part; ``inside`` says from radius and height where metal is."""
    share = solid_share(planes, planes, z, lambda x, y, h: inside(np.hypot(x, y), h), 7)
    return Body(planes, planes, z, whole_piece(share), material)


def held(body: Body) -> Floats:
    """Both planes of symmetry, and one node along z: the lift comes back as an unknown of the joint."""
    places, metal = body.places(), body.touched.ravel()
    across = [np.flatnonzero(metal & (places[:, axis] == 0.0)) for axis in (0, 1)]
    lift = np.flatnonzero(metal & (places[:, 2] == body.z[-1]))[:1]
    return np.unique(np.concatenate([3 * across[0], 3 * across[1] + 1, 3 * lift + 2]))


def cells(inner: float, outer: float, rings: int, sectors: int) -> tuple[Floats, Floats, Floats]:
    """x, y, area of the cells of a quarter ring, ring by ring from the inside."""
    edge = np.linspace(inner, outer, rings + 1)
    radius = 2 / 3 * np.diff(edge**3) / np.diff(edge**2)
    turn = (np.arange(sectors) + 0.5) * np.pi / 2 / sectors
    area = np.repeat(np.pi / 4 * np.diff(edge**2) / sectors, sectors)
    return np.outer(radius, np.cos(turn)).ravel(), np.outer(radius, np.sin(turn)).ravel(), area


def spread(body: Body, face: Face, ring: tuple[Floats, Floats, Floats], whole: float) -> Columns:
    """One load along z spread evenly over a ring."""
    x, y, area = ring
    return face_points(
        body, face, x, y, groups=np.zeros(len(x), dtype=int), weights=whole * area / area.sum()
    )


def on_wall(body: Body, radius: float, low: float, high: float, outwards: bool) -> Columns:
    """A round wall loaded evenly: 1 MPa outwards, or one unit in all along z; at the nearest nodes of every plane."""
    places, metal = body.places(), body.touched.ravel()
    turn = (np.arange(24) + 0.5) * np.pi / 48
    dofs, weights = [], []
    edges = np.clip(np.concatenate([[low], (body.z[1:] + body.z[:-1]) / 2, [high]]), low, high)
    for height, tall in zip(body.z, np.diff(edges), strict=True):
        nodes = np.flatnonzero(metal & (places[:, 2] == height))
        if not len(nodes) or tall <= 0.0:
            continue
        for angle in turn:
            c, s = np.cos(angle), np.sin(angle)
            far = np.hypot(places[nodes, 0] - radius * c, places[nodes, 1] - radius * s)
            node = int(nodes[far.argmin()])
            force = radius * np.pi / 48 * tall
            dofs += [3 * node, 3 * node + 1] if outwards else [3 * node + 2]
            weights += [force * c, force * s] if outwards else [force]
    weight = np.array(weights) if outwards else np.array(weights) / np.sum(weights)
    return Columns(np.array(dofs), np.zeros(len(dofs), dtype=int), weight, 1)


def round_layer(body: Body, radius: float, layer: int) -> Columns:
    """One unit outwards, even round one layer of nodes of a round wall."""
    places, metal = body.places(), body.touched.ravel()
    nodes = np.flatnonzero(metal & (places[:, 2] == body.z[layer]))
    turn = (np.arange(24) + 0.5) * np.pi / 48
    dofs = []
    for c, s in zip(np.cos(turn), np.sin(turn), strict=True):
        far = np.hypot(places[nodes, 0] - radius * c, places[nodes, 1] - radius * s)
        node = int(nodes[far.argmin()])
        dofs += [3 * node, 3 * node + 1]
    weights = np.column_stack((np.cos(turn), np.sin(turn))).ravel() / 24
    return Columns(np.array(dofs), np.zeros(len(dofs), dtype=int), weights, 1)


def pulling(columns: Columns) -> Columns:
    """The same columns the other way."""
    return Columns(columns.dof, columns.column, -columns.weight, columns.count)
