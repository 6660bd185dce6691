"""A bolt head on a ring of flange pulled at its outer wall, by our own bricks, condensation and Newton; a quarter of it.

The article prints proportions only: head radius about 2, head height about 1, flange thickness about 1 shank radius, a
thin gasket below; preload held as fixed stretch. The outer radius of the flange, 3, follows from the load factor of its
table: ring over shank are 8 areas, C = 1/9. Whether the outer wall may lean when it is pulled, and how soft the gasket is,
it does not say. Nothing is chosen by the table: what is not said is an argument here, and the check goes over all of it.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np
from round_bodies import Floats, cells, held, on_wall, pulling, quarter, round_layer, spread

from firedeck.fem import Face, Material, condense, face_points, joined, rigid_motions
from firedeck.joint.clamped import Case, ClampedJoint, Load, Places
from firedeck.joint.laws import Law, Per
from firedeck.joint.newton import settle
from firedeck.joint.springs import Springs

STEEL = Material(206843.0, 0.3)
SHANK = 6.35
"""Radius of the shank [mm]; only proportions count."""
CONTACT = 60.0
"""Stiffness of the face under the head: modulus over shank radius, times this."""
PRELOAD, LBF = 15000.0, 4.4482216
FINE = 5
"""Bricks to a shank radius; with 8 the largest miss is 17 points for 19, wall free, and 2.7 either way, wall upright."""
STRETCH = 1e9
"""Stiffness of the end the stretch is imposed at [N/mm]."""


@dataclass(frozen=True)
class Shape:
    """Thickness of the flange, height and radius of the head in shank radii; stiffness of the gasket as of the face.

    ``upright``: the outer wall moves along the bolt only, as where the flange goes on beyond it; else it may lean.
    """

    thickness: float = 1.0
    height: float = 1.0
    head: float = 2.0
    sheet: float = 3.0
    upright: bool = False


@cache
def bolt_loads(pulls: tuple[float, ...], shape: Shape) -> Floats:
    """Bolt load [lbf] under each pull [lbf], the stretch held."""
    a = SHANK
    under, sheet = cells(a, shape.head * a, 2 * FINE, 3 * FINE), cells(a, 3 * a, 3 * FINE, 4 * FINE)
    joint, pull = _joint(_head(a, shape, under), _flange(a, shape, under, sheet), (under, sheet), shape.sheet)
    return _pulled(joint, pull, pulls)


def _head(a, shape, under):
    """Head and shank, condensed: the shank stands in the flange with a hair of play."""
    t, h = shape.thickness, shape.height
    z = np.concatenate(
        [
            np.linspace(0.0, t * a, max(2, round(t * FINE)) + 1)[:-1],
            np.linspace(t * a, (t + h) * a, max(2, round(h * FINE)) + 1),
        ]
    )
    r_head = shape.head * a
    planes = np.linspace(0.0, r_head, round(shape.head * FINE) + 1)
    body = quarter(planes, z, lambda r, at: (r < r_head) & ((at > t * a) | (r < 0.999 * a)), STEEL)
    seat = Face(int(np.abs(z - t * a).argmin()), upward=True)
    columns = joined(
        [
            face_points(body, seat, *under[:2]),
            pulling(spread(body, Face(0, upward=True), cells(0.0, a, 2 * FINE, 3 * FINE), 1.0)),
        ]
    )
    return condense(body, columns, held(body)), rigid_motions(body, columns)[:, 2]


def _flange(a, shape, under, sheet):
    """Ring of flange, condensed; its wall kept upright by radial forces that nobody sees, layer by layer."""
    t = shape.thickness * a
    body = quarter(
        np.linspace(0.0, 3 * a, 3 * FINE + 1),
        np.linspace(0.0, t, max(2, round(shape.thickness * FINE)) + 1),
        lambda r, _: (r > a) & (r < 3 * a),
        STEEL,
    )
    columns = [
        pulling(face_points(body, Face(len(body.z) - 1, upward=False), *under[:2])),
        face_points(body, Face(0, upward=True), *sheet[:2]),
        on_wall(body, 3 * a, 0.0, t, outwards=False),
    ]
    layers = [round_layer(body, 3 * a, at) for at in range(len(body.z))] if shape.upright else []
    every = joined([*columns, *layers])
    G, lift = condense(body, every, held(body)), rigid_motions(body, every)[:, 2]
    seen = len(lift) - len(layers)
    if layers:
        back = np.linalg.solve(G[seen:, seen:], G[seen:, :seen])
        G = G[:seen, :seen] - G[:seen, seen:] @ back
    return G, lift[:seen]


def _joint(head, flange, rings, sheet_slope):
    """Springs: face under the head, thin gasket, bolt end; two lifts, of the head and of the flange."""
    (under, sheet) = rings
    faces, gasket = len(under[0]), len(sheet[0])
    n = faces + gasket + 1
    of_head, of_flange = np.r_[np.arange(faces), n - 1], np.arange(n - 1)
    A, R = np.zeros((n, n)), np.zeros((n, 2))
    for motion, ((G, lift), rows) in enumerate(zip((head, flange), (of_head, of_flange), strict=True)):
        A[np.ix_(rows, rows)] += G[: len(rows), : len(rows)]
        R[rows, motion] = -lift[: len(rows)]
    w = np.zeros(n)
    w[of_flange] = -flange[0][: n - 1, n - 1]
    pull = Load(w, np.array([0.0, flange[1][n - 1]]))
    laws = tuple(
        Law(name, Per.AREA, (0.0, 1.0), (0.0, slope), slope, slope, 0.0, 0.0, "crawford-2003")
        for name, slope in (
            ("face", CONTACT * STEEL.modulus / SHANK),
            ("sheet", sheet_slope * STEEL.modulus / SHANK),
        )
    )
    law_of = np.r_[np.zeros(faces, dtype=int), np.ones(gasket, dtype=int)]
    springs = Springs(
        laws, law_of, np.r_[under[2], sheet[2]], np.array([STRETCH]), np.zeros(1), np.full(1, 1e12)
    )
    kinds = ("ring",) * faces + ("body",) * gasket + ("bolt",)
    places = Places(np.r_[under[0], sheet[0], 0.0], np.r_[under[1], sheet[1], 0.0], kinds, kinds)
    return ClampedJoint(places, springs, 0.5 * (A + A.T), R), pull


def _pulled(joint, pull, pulls):
    springs = joint.springs
    wrench = springs.turned_to(springs.fresh(), [0], PRELOAD * LBF / 4)
    up = settle(joint, Case(wrench, joint.nothing()))
    kept, w = springs.let_go(up.w, springs.remembered(up.w, wrench)), up.w
    found = []
    for amount in pulls:
        balance = settle(joint, Case(kept, amount * LBF / 4 * pull), w)
        w = balance.w
        found.append(4 / LBF * balance.forces[-1])
    return np.array(found)
