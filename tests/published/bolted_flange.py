"""A weld-neck flange on a sheet gasket by our own bricks, condensation and Newton; a quarter, both flanges alike.

What the paper does not print had to be chosen: outer edge of the gasket (the raised face's), its bore (from the force
balance of the first printed profile, so that profile's mean is no check), its thickness (5 mm: with it the rim moves by
0.304 mm where the paper prints 0.313 mm as largest movement). Nothing was chosen by the shape of a profile.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np
from round_bodies import cells, held, on_wall, pulling, quarter, spread

from firedeck.fem import Face, Material, annulus, condense, face_points, joined, rigid_motions
from firedeck.joint.clamped import Case, ClampedJoint, Load, Places
from firedeck.joint.laws import Law, Per
from firedeck.joint.newton import settle
from firedeck.joint.springs import Springs

STEEL = Material(200e3, 0.3)
LOADING, UNLOADING = 300.0, 6000.0
"""Slopes of the sheet on the way in and out [MPa]."""
BORE, PIPE, HUB, RAISED, RIM = 51.15, 57.15, 67.5, 78.5, 114.5
"""Radii [mm]."""
STEP, THICK, LONG = 1.6, 23.9, 76.2
"""Heights of raised face, flange, hub [mm]."""
CIRCLE, NUT, ROOT, PULL = 95.25, 13.5, 6.5, 13e3
"""Bolts: radius of their circle, of the nut, of the thread's root [mm]; each is tightened to PULL [N]."""
MEAN = 13.48
"""Mean of the first printed profile over the area [MPa]."""
GASKET_BORE = float(np.sqrt(RAISED**2 - 8 * PULL / MEAN / np.pi))
RINGS, SECTORS = 16, 16


@dataclass(frozen=True)
class Flange:
    """Gasket stress at 0, 0.1 … 1 of the width [MPa], of the whole ring or between and through bolts; rim movement [mm]."""

    bolted: np.ndarray
    pressurised: np.ndarray
    between_bolts: np.ndarray
    through_bolts: np.ndarray
    rim: float


def inside(radius, height):
    hub = np.where(height < LONG, HUB + (PIPE - HUB) * (height - THICK) / (LONG - THICK), PIPE)
    outside = np.where(height < STEP, RAISED, np.where(height < THICK, RIM, hub))
    return (radius > BORE) & (radius < outside)


@cache
def flange(sheet: float = 5.0, ring_of_bolts: bool = True) -> Flange:
    """Bolt it up, then 1 MPa inside; ``ring_of_bolts``: the bolts smeared to a ring, as an axisymmetric model has them."""
    G, lift = condensed(ring_of_bolts)
    return _settled(sheet, G, lift, cells(GASKET_BORE, RAISED, RINGS, SECTORS), 1 if ring_of_bolts else 2)


@cache
def condensed(ring_of_bolts: bool, edge: float = 4.0) -> tuple[np.ndarray, np.ndarray]:
    """G and lift of the columns: gasket, bolts, three loads of the pressure, reading of the rim."""
    layers = [np.linspace(STEP, THICK, 5), np.linspace(THICK, LONG, 8)]
    body = quarter(
        np.linspace(0.0, RIM, round(RIM / edge) + 1),
        np.unique(np.concatenate([[0.0], *layers])),
        inside,
        STEEL,
    )
    back = Face(int(np.abs(body.z - THICK).argmin()), upward=False)
    x, y, _ = cells(GASKET_BORE, RAISED, RINGS, SECTORS)
    if ring_of_bolts:
        bolts = [pulling(spread(body, back, cells(CIRCLE - NUT, CIRCLE + NUT, 6, 32), 1.0))]
    else:
        turn = np.pi * np.array([1.0, 3.0]) / 8
        places = CIRCLE * np.stack([np.cos(turn), np.sin(turn)], axis=1)
        bolts = [pulling(annulus(body, back, *place, inner=ROOT, outer=NUT)) for place in places]
    end = Face(len(body.z) - 1, upward=False)
    gas = [
        spread(body, end, cells(BORE, PIPE, 2, 32), np.pi * BORE**2 / 4),
        spread(body, Face(0, upward=True), ring := cells(BORE, GASKET_BORE, 5, 32), ring[2].sum()),
        on_wall(body, BORE, 0.0, LONG, outwards=True),
    ]
    rim = spread(body, back, cells(RIM - 0.2, RIM - 0.1, 1, 32), 1.0)
    columns = joined([face_points(body, Face(0, upward=True), x, y), *bolts, *gas, rim])
    return condense(body, columns, held(body)), rigid_motions(body, columns)[:, 2]


def _settled(sheet, G, lift, gasket, bolts):
    x, y, area = gasket
    n = len(x) + bolts
    law = Law(
        "sheet",
        Per.AREA,
        (0.0, 0.1),
        (0.0, 0.1 * LOADING / sheet),
        UNLOADING / sheet,
        LOADING / sheet,
        0.0,
        0.0,
        "shoji-nagata-2000",
    )
    stiffness = 2 / bolts * STEEL.modulus * np.pi * ROOT**2 / (2 * THICK + sheet)
    springs = Springs(
        (law,),
        np.zeros(len(x), dtype=int),
        area,
        np.full(bolts, stiffness),
        np.zeros(bolts),
        np.full(bolts, 1e9),
    )
    nought = np.zeros(bolts)
    places = Places(
        np.r_[x, nought], np.r_[y, nought], ("body",) * len(x) + ("bolt",) * bolts, ("sheet",) * n
    )
    joint = ClampedJoint(places, springs, G[:n, :n] + G[:n, :n].T, -lift[:n, None])
    pressure = Load(-2 * G[:n, n : n + 3].sum(axis=1), np.array([lift[n : n + 3].sum()]))
    wrench = springs.turned_to(springs.fresh(), range(bolts), np.full(bolts, 2 / bolts * PULL))
    up = settle(joint, Case(wrench, joint.nothing()))
    kept = springs.let_go(up.w, springs.remembered(up.w, wrench))
    under = settle(joint, Case(kept, pressure), up.w)
    quarter_turn = np.arange(SECTORS)
    return Flange(
        profile(up.forces, area, quarter_turn),
        profile(under.forces, area, quarter_turn),
        profile(up.forces, area, [0, 7, 8, 15]),
        profile(up.forces, area, [3, 4, 11, 12]),
        float(abs(2 * G[n + 3, :n] @ up.forces + lift[n + 3] * up.q[0])),
    )


def profile(forces, area, sectors):
    """Stress at eleven places of the width, straight between rings and on to the edges."""
    stress = (forces[: len(area)] / area).reshape(RINGS, SECTORS)[:, sectors].mean(axis=1)
    middle = (np.arange(RINGS) + 0.5) / RINGS
    first, last = 1.5 * stress[0] - 0.5 * stress[1], 1.5 * stress[-1] - 0.5 * stress[-2]
    return np.interp(np.linspace(0, 1, 11), np.r_[0, middle, 1], np.r_[first, stress, last])
