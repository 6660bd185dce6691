"""A bolt head on a ring of flange pulled at its outer wall, by our own bricks, condensation and Newton; a quarter of it.

The article prints proportions only: head radius about 2, head height about 1, flange thickness about 1 shank radius;
preload held as fixed stretch. The outer radius of the flange, 3, follows from the load factor of its table: ring over
shank are 8 areas, C = 1/9. The thickness of the flange decides how early the bolt takes up load, and "about 1" is not
enough to know it.
"""

from functools import cache

import numpy as np
from round_bodies import Floats, cells, held, on_wall, pulling, quarter, spread

from firedeck.fem import Face, Material, condense, face_points, joined, rigid_motions
from firedeck.joint.clamped import Case, ClampedJoint, Load, Places
from firedeck.joint.laws import Law, Per
from firedeck.joint.newton import settle
from firedeck.joint.springs import Springs

STEEL = Material(206843.0, 0.3)
SHANK = 6.35
"""Radius of the shank [mm]; only proportions count."""
CONTACT, THIN = 60.0, 3.0
"""Stiffness of the face under the head, and of the thin gasket: modulus over shank radius, times this."""
PRELOAD, LBF = 15000.0, 4.4482216
FINE = 4
"""Bricks to a shank radius."""
STRETCH = 1e9
"""Stiffness of the end the stretch is imposed at [N/mm]."""


@cache
def bolt_loads(pulls: tuple[float, ...], thickness: float = 1.0) -> Floats:
    """Bolt load [lbf] under each pull [lbf], the stretch held; thickness of the flange in shank radii."""
    a = SHANK
    head, seat = _head(a, thickness)
    flange = quarter(
        np.linspace(0.0, 3 * a, 3 * FINE + 1),
        np.linspace(0.0, thickness * a, max(2, round(thickness * FINE)) + 1),
        lambda r, _: (r > a) & (r < 3 * a),
        STEEL,
    )
    under, sheet = cells(a, 2 * a, 2 * FINE, 3 * FINE), cells(a, 3 * a, 3 * FINE, 4 * FINE)
    top = Face(len(flange.z) - 1, upward=False)
    on_head = joined(
        [
            face_points(head, seat, *under[:2]),
            pulling(spread(head, Face(0, upward=True), cells(0.0, a, 2 * FINE, 3 * FINE), 1.0)),
        ]
    )
    on_flange = joined(
        [
            pulling(face_points(flange, top, *under[:2])),
            face_points(flange, Face(0, upward=True), *sheet[:2]),
            on_wall(flange, 3 * a, 0.0, thickness * a, outwards=False),
        ]
    )
    joint, pull = _joint((head, on_head), (flange, on_flange), (under, sheet))
    return _pulled(joint, pull, pulls)


def _head(a, thickness):
    """Head and shank: the shank stands in the flange with a hair of play."""
    z = np.concatenate(
        [
            np.linspace(0.0, thickness * a, max(2, round(thickness * FINE)) + 1)[:-1],
            np.linspace(thickness * a, (thickness + 1) * a, FINE + 1),
        ]
    )
    planes = np.linspace(0.0, 2 * a, 2 * FINE + 1)
    body = quarter(planes, z, lambda r, h: (r < 2 * a) & ((h > thickness * a) | (r < 0.999 * a)), STEEL)
    return body, Face(int(np.abs(z - thickness * a).argmin()), upward=True)


def _joint(head, flange, rings):
    """Springs: face under the head, thin gasket, bolt end; two lifts, of the head and of the flange."""
    (under, sheet) = rings
    faces, gasket = len(under[0]), len(sheet[0])
    n = faces + gasket + 1
    of_head, of_flange = np.r_[np.arange(faces), n - 1], np.arange(n - 1)
    A, R = np.zeros((n, n)), np.zeros((n, 2))
    given = []
    for motion, ((body, columns), rows) in enumerate(zip((head, flange), (of_head, of_flange), strict=True)):
        G, lift = condense(body, columns, held(body)), rigid_motions(body, columns)[:, 2]
        A[np.ix_(rows, rows)] += G[: len(rows), : len(rows)]
        R[rows, motion] = -lift[: len(rows)]
        given.append((G, lift))
    w = np.zeros(n)
    w[of_flange] = -given[1][0][: n - 1, n - 1]
    pull = Load(w, np.array([0.0, given[1][1][n - 1]]))
    laws = tuple(
        Law(name, Per.AREA, (0.0, 1.0), (0.0, slope), slope, slope, 0.0, 0.0, "crawford-2003")
        for name, slope in (
            ("face", CONTACT * STEEL.modulus / SHANK),
            ("sheet", THIN * STEEL.modulus / SHANK),
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
