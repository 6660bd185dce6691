"""The one element of firedeck: a rectangular brick of eight nodes with nine incompatible modes condensed out.

A plain brick of eight nodes bends like a row of chairs: it answers bending with shear and is a fifth too stiff on a
thick plate of one layer. Three bubbles 1 - t**2 per direction of movement give it the bending it lacks; they live
inside the element and are condensed out, so the element keeps its 24 degrees of freedom.

Nodes are numbered with z fastest: node = 4 * i + 2 * j + k for the corner (i, j, k) of the unit cube; the degree of
freedom of a node in direction d is 3 * node + d.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firedeck.errors import OutOfRange

Floats = NDArray[np.float64]

CORNERS = np.array([(i, j, k) for i in (0, 1) for j in (0, 1) for k in (0, 1)])
"""Corner (i, j, k) of each node of a brick, shape (8, 3)."""
_SIGNS = 2.0 * CORNERS - 1.0
_GAUSS = _SIGNS / np.sqrt(3.0)


@dataclass(frozen=True)
class Material:
    """An elastic metal: modulus [MPa], Poisson's ratio [1], expansion [1/K]."""

    modulus: float
    poisson: float
    expansion: float = 0.0

    def __post_init__(self) -> None:
        if not self.modulus > 0.0:
            raise OutOfRange("modulus", f"{self.modulus:g} MPa", "more than nought is wanted")
        if not 0.0 <= self.poisson < 0.49:
            raise OutOfRange("Poisson's ratio", f"{self.poisson:g}", "0 to 0.49 can be carried")


def elasticity(material: Material) -> Floats:
    """Stress from strain of an isotropic metal.

    Parameters
    ----------
    material : Material
        Modulus [MPa], Poisson's ratio [1].

    Returns
    -------
    ndarray, shape (6, 6)
        Stress per strain, order xx yy zz xy yz zx, shears as engineering strains [MPa].

    Source
    ------
    derived

    Examples
    --------
    >>> float(elasticity(Material(100.0, 0.0))[0, 0])
    100.0
    """
    nu = material.poisson
    scale = material.modulus / ((1.0 + nu) * (1.0 - 2.0 * nu))
    D = np.zeros((6, 6))
    D[:3, :3] = nu
    D[range(3), range(3)] = 1.0 - nu
    D[range(3, 6), range(3, 6)] = 0.5 - nu
    return scale * D


def stiffness(size: tuple[float, float, float], material: Material) -> Floats:
    """Stiffness of one brick, incompatible modes condensed out.

    Parameters
    ----------
    size : tuple of float
        Edges along x, y, z [mm].
    material : Material
        The metal of the brick [MPa].

    Returns
    -------
    ndarray, shape (24, 24)
        Nodal force per nodal movement, symmetric, six rigid motions free [N/mm].

    Raises
    ------
    OutOfRange
        If an edge is not above nought.

    Valid for
    ---------
    Small strains, rectangular bricks, where the element passes the patch test as it stands.

    Source
    ------
    derived

    Examples
    --------
    >>> K = stiffness((1.0, 1.0, 1.0), Material(210e3, 0.3))
    >>> bool(abs(K.sum()) < 1e-6)
    True
    """
    K, L, M = _parts(size, material)
    condensed = K - L @ np.linalg.solve(M, L.T)
    result: Floats = 0.5 * (condensed + condensed.T)
    return result


def stiffness_terms(material: Material) -> Floats:
    """Six fixed matrices from which the stiffness of every rectangular brick is mixed.

    Because shapes and bubbles are products, every entry of the condensed stiffness is
    volume / (edge p * edge q) times a number, p and q being directions; see docs/method/fem.md.

    Parameters
    ----------
    material : Material
        The metal of the bricks [MPa].

    Returns
    -------
    ndarray, shape (6, 24, 24)
        Terms in the order xx, yy, zz, xy, yz, zx of :func:`mixing` [MPa].

    Source
    ------
    derived

    Examples
    --------
    >>> metal, size = Material(70e3, 0.33), (3.0, 5.0, 2.0)
    >>> mixed = np.tensordot(mixing(*(np.array([edge]) for edge in size))[0], stiffness_terms(metal), axes=1)
    >>> bool(np.allclose(mixed, stiffness(size, metal), rtol=1e-12, atol=1e-6))
    True
    """
    edges = np.array([(1, 1, 1), (2, 1, 1), (1, 2, 1), (1, 1, 2), (2, 2, 1), (1, 2, 2)], dtype=np.float64)
    seen = np.stack([stiffness((a, b, c), material) for a, b, c in edges.tolist()])
    mixed = np.linalg.solve(mixing(*edges.T), seen.reshape(6, 576))
    return np.asarray(mixed, dtype=np.float64).reshape(6, 24, 24)


def mixing(x: Floats, y: Floats, z: Floats) -> Floats:
    """Weights of the six terms of :func:`stiffness_terms` for bricks of given edges.

    Parameters
    ----------
    x, y, z : ndarray, shape (n,)
        Edges of the bricks [mm].

    Returns
    -------
    ndarray, shape (n, 6)
        Volume / (edge * edge) for xx, yy, zz, xy, yz, zx [mm].

    Source
    ------
    derived

    Examples
    --------
    >>> mixing(np.array([2.0]), np.array([1.0]), np.array([1.0])).tolist()
    [[0.5, 2.0, 2.0, 1.0, 2.0, 1.0]]
    """
    return np.stack([y * z / x, x * z / y, x * y / z, z, x, y], axis=1)


def thermal_load(size: tuple[float, float, float], material: Material) -> Floats:
    """Nodal forces with which a brick pushes when its nodes are warm and held.

    Parameters
    ----------
    size : tuple of float
        Edges along x, y, z [mm].
    material : Material
        The metal of the brick [MPa], [1/K].

    Returns
    -------
    ndarray, shape (24, 8)
        Nodal force per rise of each node's temperature, incompatible modes condensed out [N/K].

    Source
    ------
    derived

    Examples
    --------
    >>> f = thermal_load((1.0, 1.0, 1.0), Material(100e3, 0.0, 1e-5))
    >>> round(float(f.sum(axis=1)[23]), 6)
    0.25
    """
    _, L, M = _parts(size, material)
    stress = elasticity(material) @ np.array([1.0, 1.0, 1.0, 0.0, 0.0, 0.0]) * material.expansion
    volume = float(np.prod(size)) / 8.0
    nodes, inside = np.zeros((24, 8)), np.zeros((9, 8))
    for point in _GAUSS:
        warmth = np.prod(1.0 + _SIGNS * point, axis=1) / 8.0
        nodes += volume * np.outer(_strain(_gradients(point, size)).T @ stress, warmth)
        inside += volume * np.outer(_strain(_bubble_gradients(point, size)).T @ stress, warmth)
    result: Floats = nodes - L @ np.linalg.solve(M, inside)
    return result


def _parts(size: tuple[float, float, float], material: Material) -> tuple[Floats, Floats, Floats]:
    """Return node-node, node-bubble and bubble-bubble stiffness."""
    if not min(size) > 0.0:
        raise OutOfRange(
            "brick", " × ".join(f"{edge:g}" for edge in size) + " mm", "edges above nought are wanted"
        )
    D = elasticity(material)
    volume = float(np.prod(size)) / 8.0
    K, L, M = np.zeros((24, 24)), np.zeros((24, 9)), np.zeros((9, 9))
    for point in _GAUSS:
        B = _strain(_gradients(point, size))
        H = _strain(_bubble_gradients(point, size))
        K += volume * B.T @ D @ B
        L += volume * B.T @ D @ H
        M += volume * H.T @ D @ H
    return K, L, M


def _gradients(point: Floats, size: tuple[float, float, float]) -> Floats:
    """Slopes of the eight corner shapes at a point of the cube -1..1, shape (8, 3)."""
    terms = 1.0 + _SIGNS * point
    slopes = np.empty((8, 3))
    for axis in range(3):
        one, two = (other for other in range(3) if other != axis)
        slopes[:, axis] = _SIGNS[:, axis] * terms[:, one] * terms[:, two] / 8.0 * 2.0 / size[axis]
    return slopes


def _bubble_gradients(point: Floats, size: tuple[float, float, float]) -> Floats:
    """Slopes of the three bubbles 1 - t**2, shape (3, 3)."""
    return np.diag(-2.0 * point * 2.0 / np.asarray(size))


def _strain(slopes: Floats) -> Floats:
    """Strain of unit movements of shapes with these slopes, shape (6, 3 * shapes)."""
    B = np.zeros((6, 3 * len(slopes)))
    sx, sy, sz = slopes.T
    B[0, 0::3] = sx
    B[1, 1::3] = sy
    B[2, 2::3] = sz
    B[3, 0::3], B[3, 1::3] = sy, sx
    B[4, 1::3], B[4, 2::3] = sz, sy
    B[5, 0::3], B[5, 2::3] = sz, sx
    return B
