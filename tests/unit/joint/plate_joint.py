"""A stand-in for a condensed head and block: a free plate on an elastic half-space, invented data, quick to make.

The head bends as a thin plate with free edges (Ritz, products of Legendre polynomials) and both faces give way
near each point as a half-space with its peak rounded off. Everything is symmetric and never negative by making.
"""

from dataclasses import dataclass

import numpy as np
from numpy.polynomial import legendre

from firedeck.joint.clamped import ClampedJoint, Load, Places
from firedeck.joint.laws import Law, Per
from firedeck.joint.springs import Springs

OURS = "generic-ours"
RING = Law(
    "ring",
    Per.LINE,
    (0.0, 0.1, 0.2, 0.35, 0.5),
    (0.0, 40.0, 110.0, 250.0, 450.0),
    6000.0,
    1500.0,
    0.03,
    0.25,
    OURS,
)
BEAD = Law("bead", Per.LINE, (0.0, 0.15, 0.35), (0.0, 8.0, 25.0), 1500.0, 200.0, 0.02, 0.25, OURS)
BODY = Law("body", Per.AREA, (0.0, 0.1, 0.3, 0.5), (0.0, 0.5, 3.0, 9.0), 150.0, 60.0, 0.05, 0.25, OURS)
YIELD = 75e3


@dataclass(frozen=True)
class Plate:
    """The joint with its loads: gas of 1 MPa in each bore, 1 K of the head against the rest, weight."""

    joint: ClampedJoint
    gas: dict[str, Load]
    warm: Load
    weight: Load


def inline(bores=4, ring=24, rows=3, *, stiffness=2.5e5, height=45.0, law=RING) -> Plate:
    """An inline head: bores 86 mm at 96 mm, two rows of bolts."""
    length = 96.0 * bores + 66.0
    centres = 96.0 * (np.arange(bores) - (bores - 1) / 2)
    x, y, kind, place, laws, share = [], [], [], [], [], []
    turn = 2 * np.pi * (np.arange(ring) + 0.5) / ring
    for number, centre in enumerate(centres, start=1):
        x += (centre + 46.0 * np.cos(turn)).tolist()
        y += (46.0 * np.sin(turn)).tolist()
        kind, place = kind + ["ring"] * ring, place + [str(number)] * ring
        laws, share = laws + [law.name] * ring, share + [2 * np.pi * 46.0 / ring] * ring
    edge = np.linspace(-length / 2 + 10, length / 2 - 10, 3 * bores + 1)
    for side in (-75.0, 75.0):
        x, y = x + edge.tolist(), y + [side] * len(edge)
        kind, place = kind + ["half-bead"] * len(edge), place + ["front" if side < 0 else "back"] * len(edge)
        laws, share = laws + ["bead"] * len(edge), share + [edge[1] - edge[0]] * len(edge)
    for side in np.linspace(-62.0, 62.0, rows):
        for at in np.linspace(-length / 2 + 30, length / 2 - 30, 2 * bores):
            if min(np.hypot(at - centres, side)) > 50.0:
                x, y, kind, place = [*x, at], [*y, side], [*kind, "body"], [*place, "body"]
                laws, share = [*laws, "body"], [*share, 800.0]
    points = len(x)
    bolts = [(at, side) for side in (-50.0, 50.0) for at in 96.0 * (np.arange(bores + 1) - bores / 2)]
    x, y = np.array(x + [b[0] for b in bolts]), np.array(y + [b[1] for b in bolts])
    kind, place = kind + ["bolt"] * len(bolts), place + [str(n) for n in range(1, len(bolts) + 1)]
    number = {law.name: 0, "bead": 1, "body": 2}
    springs = Springs(
        laws=(law, BEAD, BODY),
        law_of=np.array([number[name] for name in laws]),
        share=np.array(share),
        stiffness=np.full(len(bolts), stiffness),
        least=np.zeros(len(bolts)),
        most=np.full(len(bolts), YIELD),
    )
    sign = np.where(np.arange(len(x)) < points, -1.0, 1.0)
    bend = _free_plate(length, 180.0, 70e3 * height**3 / 12 / (1 - 0.33**2))
    A = sign[:, None] * bend(x, y, x, y) * sign + _near(x, y, sign, points)
    A[range(points, len(x)), range(points, len(x))] += 8e-7
    R = np.stack([sign, sign * y, -sign * x], axis=1)
    joint = ClampedJoint(Places(x, y, tuple(kind), tuple(place)), springs, 0.5 * (A + A.T), R)
    gas = {str(n): _gas(bend, c, x, y, sign) for n, c in enumerate(centres, start=1)}
    warm = np.where(sign > 0, 1e-5 * 90.0, 0.0)
    none = np.zeros(3)
    return Plate(joint, gas, Load(warm, none), Load(np.zeros(len(x)), np.array([-150.0, 0.0, 0.0])))


def _near(x, y, sign, points):
    r2 = (x[:, None] - x) ** 2 + (y[:, None] - y) ** 2
    give = (1 - 0.3**2) / np.pi * (1 / 70e3 + 1 / 110e3)
    near = give / np.sqrt(r2 + 6.0**2)
    near[:points, points:] *= 0.2
    near[points:, :points] *= 0.2
    near[points:, points:] *= 0.2
    return near


def _gas(bend, centre, x, y, sign):
    """1 MPa on a bore, by 37 forces spread over it."""
    spots = [(0.0, 0.0)] + [
        (rho, t) for rho, m in ((12.0, 6), (24.0, 12), (36.0, 18)) for t in 2 * np.pi * np.arange(m) / m
    ]
    px, py = np.array([centre + a * np.cos(t) for a, t in spots]), np.array([a * np.sin(t) for a, t in spots])
    force = np.full(len(spots), np.pi * 43.0**2 / len(spots))
    lift = bend(x, y, px, py) @ force
    return Load(sign * lift, np.array([force.sum(), (force * py).sum(), -(force * px).sum()]))


def _free_plate(length, width, rigidity, orders=(9, 6), nu=0.33):
    """Compliance of a thin free plate between points, rigid motions taken out."""
    pairs = [(i, j) for i in range(orders[0]) for j in range(orders[1]) if i + j >= 2]
    g, weight = legendre.leggauss(14)
    a, b = 2 / length, 2 / width

    def shape(n, t, d):
        c = np.zeros(n + 1)
        c[n] = 1.0
        return legendre.legval(t, legendre.legder(c, d) if d else c)

    def mixed(dx, dy):
        return np.stack(
            [np.outer(shape(i, g, dx) * a**dx, shape(j, g, dy) * b**dy).ravel() for i, j in pairs]
        )

    xx, yy, xy, W = mixed(2, 0), mixed(0, 2), mixed(1, 1), np.outer(weight, weight).ravel() / (a * b)
    K = (xx * W) @ xx.T + (yy * W) @ yy.T + nu * ((xx * W) @ yy.T + (yy * W) @ xx.T)
    K = rigidity * (K + 2 * (1 - nu) * (xy * W) @ xy.T)
    flex = np.linalg.inv(K)

    def at(x, y):
        return np.stack([shape(i, a * x, 0) * shape(j, b * y, 0) for i, j in pairs])

    return lambda x, y, p, q: at(x, y).T @ flex @ at(p, q)
