"""Invented faces, and a mechanic who reads them with a straightedge and leaves: nothing of this is firedeck.

All heights in µm, all places in mm. A face is 420 x 160 mm with four 84 mm bores. The edge is a rigid body of some
bow, the face has texture, a leaf sticks and feels the smallest gap over its width.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

LENGTH, WIDTH, BORE = 420.0, 160.0, 84.0
BORES = tuple((60.0 + 100.0 * number, 80.0) for number in range(4))
LEAVES = (30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 150.0, 200.0)
LEAF_WIDTH = 10.0
GRIT = 40.0
TEXTURE = 3.0
SEED = 77

Place = tuple[float, float]
Read = list[tuple[float, float | None, float | None]]


def on_face(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Say where there is face."""
    inside = (x >= 0) & (x <= LENGTH) & (y >= 0) & (y <= WIDTH)
    for bore_x, bore_y in BORES:
        inside &= np.hypot(x - bore_x, y - bore_y) > BORE / 2
    return inside


@dataclass
class Face:
    """One face: its heights, its dips (x, y, depth, size), the bow of the edge used on it, and its chance.

    ``round`` tells whether all its dips are round ones; only then is a dip claimed elsewhere wrong.
    """

    height: Callable[[np.ndarray, np.ndarray], np.ndarray]
    dips: list[tuple[float, float, float, float]]
    edge_bow: float
    chance: np.random.Generator
    round: bool = True


def usual(number: int, seed: int = SEED) -> Face:
    """A face of the usual kind: bows, a twist and up to three round dips."""
    chance = np.random.default_rng([seed, number])
    bow, cross, twist = chance.uniform(-120, 120), chance.uniform(-60, 60), chance.uniform(-50, 50)
    dips = [_dip(chance) for _ in range(chance.integers(0, 4))]

    def height(x: np.ndarray, y: np.ndarray) -> np.ndarray:
        u, v = 2 * x / LENGTH - 1, 2 * y / WIDTH - 1
        return bow * u**2 + cross * v**2 + twist * u * v - _dug(dips, x, y)

    return Face(height, dips, chance.uniform(-10, 10), chance)


def _dip(chance: np.random.Generator) -> tuple[float, float, float, float]:
    while True:
        if chance.random() < 0.6:
            bore = BORES[chance.integers(4)]
            turn, far = chance.uniform(0, 2 * np.pi), BORE / 2 + chance.uniform(0, 18)
            x, y = bore[0] + far * np.cos(turn), bore[1] + far * np.sin(turn)
        else:
            x, y = chance.uniform(0, LENGTH), chance.uniform(0, WIDTH)
        if on_face(np.array(x), np.array(y)):
            return float(x), float(y), chance.uniform(20, 100), chance.uniform(6, 30)


def _dug(dips: list[tuple[float, float, float, float]], x: np.ndarray, y: np.ndarray) -> np.ndarray:
    return sum(
        (d * np.exp(-((x - a) ** 2 + (y - b) ** 2) / (2 * s * s)) for a, b, d, s in dips),
        np.zeros(np.shape(x)),
    )


def other(number: int, seed: int = SEED) -> Face:
    """A face of another kind: waves, a kink, a drooping end, or long troughs between the bores."""
    chance = np.random.default_rng([seed + 1, number])
    bow, twist, size = chance.uniform(-80, 80), chance.uniform(-40, 40), chance.uniform(15, 60)
    phase, kind, at = chance.uniform(0, 2 * np.pi), number % 4, chance.uniform(100, 320)

    def height(x: np.ndarray, y: np.ndarray) -> np.ndarray:
        u, v = 2 * x / LENGTH - 1, 2 * y / WIDTH - 1
        z = bow * u**2 + twist * u * v
        if kind == 0:
            return z + 0.4 * size * np.sin(2 * np.pi * x / 260 + phase)
        if kind == 1:
            return z + size * np.abs(x - at) / 210
        if kind == 2:
            return z - size * np.exp(-x / 60) - 0.5 * size * np.exp(-(WIDTH - y) / 25)
        troughs = [np.exp(-(((x - 110 - 100 * n) / 9) ** 2) / 2 - ((y - 80) / 35) ** 2 / 2) for n in range(3)]
        return z - size * sum(troughs)

    return Face(height, [], chance.uniform(-10, 10), chance, round=False)


def lay(at: np.ndarray, top: np.ndarray, weight: float) -> np.ndarray:
    """Height of a rigid edge at rest on the highest points left and right of its weight."""
    hull: list[int] = []
    for new in range(len(at)):
        while len(hull) > 1:
            a, b = hull[-2], hull[-1]
            if (top[b] - top[a]) * (at[new] - at[a]) > (at[b] - at[a]) * (top[new] - top[a]):
                break
            hull.pop()
        hull.append(new)
    first = int(np.clip(np.searchsorted(at[hull], weight) - 1, 0, len(hull) - 2))
    a, b = hull[first], hull[first + 1]
    return top[a] + (top[b] - top[a]) * (at - at[a]) / (at[b] - at[a])


def read(
    face: Face, ends: tuple[Place, Place], leaf: float | str, step: float, grit: bool = False
) -> tuple[float, Read]:
    """Lay the edge and try leaves every ``step``; "thinnest" end leaves are those that leave 0.03 mm all along.

    Grit lies where the edge stands: under one of its contacts, or under one of the end leaves.
    """
    start, end = ends
    length = float(np.hypot(end[0] - start[0], end[1] - start[1]))
    at = np.arange(0.0, length + 0.5, 1.0)
    x, y = (start[i] + at / length * (end[i] - start[i]) for i in (0, 1))
    solid = on_face(x, y)
    skin = face.height(x, y) + face.chance.normal(0, TEXTURE, len(at))
    skin += face.edge_bow * ((at - length / 2) / (LENGTH / 2)) ** 2
    skin[~solid] = -1e5
    weight = length / 2 + face.chance.uniform(-1, 1) * min(20.0, 0.1 * length)
    side = int(face.chance.integers(2))

    def gap_on(thick: float) -> np.ndarray:
        top = skin.copy()
        if thick:
            top[:5] += thick
            top[-5:] += thick
        edge = lay(at, top, weight)
        if grit:
            stands = np.flatnonzero(edge - top < 1e-6)[-side]
            top[stands] += GRIT
            edge = lay(at, top, weight)
        return edge - skin

    if leaf == "thinnest":
        able = [one for one in LEAVES if gap_on(one)[solid].min() >= LEAVES[0]]
        leaf = able[0] if able else LEAVES[-1]
    gap = gap_on(float(leaf))
    found: Read = []
    for middle in np.arange(step / 2, length, step):
        under = np.abs(at - middle) <= LEAF_WIDTH / 2
        if solid[under].all():
            felt = gap[under].min()
            enters = [one for one in LEAVES if one + face.chance.uniform(0, 5) <= felt]
            stops = [one for one in LEAVES if not enters or one > max(enters)]
            found.append(
                (float(middle), max(enters) / 1000 if enters else None, min(stops) / 1000 if stops else None)
            )
    return float(leaf) / 1000, found


def smallest_zone(face: Face) -> float:
    """Smallest out-of-flat by any tilt, by linear programming over a fine grid [µm]."""
    from scipy.optimize import linprog

    x, y = (one.ravel() for one in np.meshgrid(np.linspace(0, LENGTH, 85), np.linspace(0, WIDTH, 33)))
    on = on_face(x, y)
    x, y = x[on], y[on]
    z, one = face.height(x, y), np.ones(len(x))
    plane = np.column_stack((one, x, y))
    over = np.vstack((np.column_stack((-plane, -one)), np.column_stack((plane, -one))))
    found = linprog([0, 0, 0, 2], over, np.concatenate((-z, z)), bounds=[(None, None)] * 3 + [(0, None)])
    return float(found.fun)


def gap_under(face: Face, start: Place, end: Place) -> float:
    """Largest gap a leaf feels under a true edge at rest on the face without its texture [µm]."""
    length = float(np.hypot(end[0] - start[0], end[1] - start[1]))
    at = np.arange(0.0, length + 0.5, 1.0)
    x, y = (start[i] + at / length * (end[i] - start[i]) for i in (0, 1))
    solid = on_face(x, y)
    skin = np.where(solid, face.height(x, y), -1e5)
    gap = lay(at, skin, length / 2) - skin
    windows = np.lib.stride_tricks.sliding_window_view(np.where(solid, gap, -1.0), 11)
    return float(windows.min(axis=1).max())
