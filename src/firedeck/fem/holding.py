"""How a body is held, and how it moves when it is not."""

import numpy as np

from firedeck.errors import OutOfRange
from firedeck.fem.brick import Floats
from firedeck.fem.columns import Columns
from firedeck.fem.grid import Body, Ints


def held_at_three_nodes(body: Body, plane: int) -> Ints:
    """Six supports that carry nothing when the loads are in balance.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm].
    plane : int
        Number of the z plane whose nodes are used [1].

    Returns
    -------
    ndarray, shape (6,)
        Degrees of freedom: x y z at one node, y z at one far along x, z at one far off that line [1].

    Raises
    ------
    OutOfRange
        If the plane has no three nodes off one line.

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> edge = np.array([0.0, 1.0])
    >>> held_at_three_nodes(Body(edge, edge, edge, np.ones((1, 1, 1)), Material(1.0, 0.0)), 0).tolist()
    [0, 1, 2, 8, 13, 14]
    """
    nodes, x, y = _on_plane(body, plane)
    a = int(np.lexsort((y, x))[0])
    b = int(np.lexsort((np.abs(y - y[a]), -x))[0])
    away = np.abs((x - x[a]) * (y[b] - y[a]) - (y - y[a]) * (x[b] - x[a]))
    c = int(away.argmax())
    if not away[c] > 0.0 or a == b:
        raise OutOfRange("plane to hold", "nodes on one line only", "three nodes off one line")
    first, second, third = (3 * int(nodes[place]) for place in (a, b, c))
    return np.sort(np.array([first, first + 1, first + 2, second + 1, second + 2, third + 2]))


def held_on_plane(body: Body, plane: int) -> Ints:
    """A cut face held along z, and just enough held in the plane.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm].
    plane : int
        Number of the z plane of the cut [1].

    Returns
    -------
    ndarray, shape (n + 3,)
        Degrees of freedom: z of every node of the plane, x y of one, y of one far along x [1].

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> edge = np.array([0.0, 1.0])
    >>> held_on_plane(Body(edge, edge, edge, np.ones((1, 1, 1)), Material(1.0, 0.0)), 0).tolist()
    [0, 1, 2, 8, 13, 14, 20]
    """
    nodes, x, y = _on_plane(body, plane)
    a = 3 * int(nodes[np.lexsort((y, x))[0]])
    b = 3 * int(nodes[np.lexsort((y, -x))[0]])
    return np.unique(np.concatenate([3 * nodes + 2, [a, a + 1, b + 1]]))


def _on_plane(body: Body, plane: int) -> tuple[Ints, Floats, Floats]:
    i, j = np.nonzero(body.touched[:, :, plane])
    if not len(i):
        raise OutOfRange("plane to hold", "no metal on it", "a plane that cuts metal")
    nodes = (i * body.nodes[1] + j) * body.nodes[2] + plane
    return nodes, body.x[i], body.y[j]


def rigid_motions(body: Body, columns: Columns) -> Floats:
    """What every column reads when the whole body moves without bending.

    Parameters
    ----------
    body : Body
        Bricks on a grid [mm].
    columns : Columns
        m loads that are also observations [1].

    Returns
    -------
    ndarray, shape (m, 6)
        Reading per unit of: shift along x, y, z [mm/mm], turn about the x, y, z axis [mm/rad]. By the same numbers,
        the force and moment of each unit load [N, N·mm].

    Source
    ------
    derived

    Examples
    --------
    >>> from firedeck.fem.brick import Material
    >>> from firedeck.fem.columns import node_columns
    >>> edge = np.array([0.0, 2.0])
    >>> cube = Body(edge, edge, edge, np.ones((1, 1, 1)), Material(1.0, 0.0))
    >>> rigid_motions(cube, node_columns(cube, np.array([7]), 2)).tolist()
    [[0.0, 0.0, 1.0, 2.0, -2.0, 0.0]]
    """
    place = body.places()[columns.dof // 3]
    direction = columns.dof % 3
    moved = np.zeros((len(direction), 6))
    rows = np.arange(len(direction))
    moved[rows, direction] = 1.0
    turning = ((1, 2, -1.0), (2, 1, 1.0)), ((0, 2, 1.0), (2, 0, -1.0)), ((0, 1, -1.0), (1, 0, 1.0))
    for axis, pairs in enumerate(turning):
        for along, arm, sign in pairs:
            here = direction == along
            moved[here, 3 + axis] = sign * place[here, arm]
    result = np.zeros((columns.count, 6))
    np.add.at(result, columns.column, columns.weight[:, None] * moved)
    return result
