"""Input of the general solver for one case: the same bricks, supports, load columns, and a table for every spring.

The general solver has no memory of crush, so every spring is a rising table of its own: the lower of its curve and its
unloading line. Its rounds have no search along the step, and a joint that is tightened by the tables alone gives it
hundreds of cut increments. So outside forces at the springs, which are gone at the end of the step, lead it there: they are
such that the way is straight from where the head is drawn to where we say it ends. If that is not the end, it must go on
from there by itself: what is left at the end is its own balance, whatever the way (``astray`` leads it wrong on purpose).
"""

from dataclasses import dataclass

import numpy as np

from calculix.joints import Asked
from firedeck.fem import Body
from firedeck.fem.brick import CORNERS
from firedeck.joint.assembling import Assembled
from firedeck.joint.exporting import Export
from firedeck.joint.geometry.loading import LoadedBody
from firedeck.joint.laws import Floats

ROUND = [0, 4, 6, 2, 1, 5, 7, 3]
"""Our corners in the order of the general solver: round the lower face, then round the upper."""
FAR = 2.0
"""Ends of the tables either way [mm]."""


@dataclass(frozen=True)
class Deck:
    """Text of the input, first node of the springs, and how far each is drawn from its own nought [mm]."""

    text: str
    first: int
    shift: Floats


def table(export: Export, number: int) -> list[tuple[float, float]]:
    """Closure and force of one spring: what it remembers as one rising line."""
    _, kind, _, _, _, share, name = export.points[number]
    law = export.laws[name]
    if kind == "bolt":
        k, most, short = law["stiffness"], law["yield"], law["shortening"]
        return [(-FAR - short, 0.0), (-short, 0.0), (most / k - short, most), (most / k + FAR, most)]
    x, y = np.array(law["closure"]), np.array(law["load"])
    largest = float(export.largest_closure[number])
    top = float(np.interp(largest, x, y)) + max(0.0, largest - x[-1]) * law["last_slope"]
    empty = largest - top / law["unloading_slope"]
    rows = [(empty - FAR, 0.0), (empty, 0.0)]
    if top > 0.0:
        rows.append((largest, top * share))
    rows += [(a, b * share) for a, b in zip(x, y, strict=True) if a > largest + 1e-9]
    end, last = max(largest, float(x[-1])), max(top, float(y[-1]))
    return [*rows, (end + FAR, (last + FAR * law["last_slope"]) * share)]


def force(rows: list[tuple[float, float]], closure: float) -> float:
    """Force of a table at a closure."""
    return float(np.interp(closure, *zip(*rows, strict=True)))


def leading(
    rows: list[tuple[float, float]], begin: float, end: float, load: float
) -> list[tuple[float, float]]:
    """Outside force on one spring by time: what the straight way asks beyond its share of ``load``; then none."""
    times = {0.0, 1.0}
    if end != begin:
        times |= {t for t in ((w - begin) / (end - begin) for w, _ in rows) if 1e-6 < t < 1.0 - 1e-6}
    way = [(t, force(rows, begin + t * (end - begin)) - t * load) for t in sorted(times)]
    return [*way[:-1], (1.0, 0.0)]


def written(loaded: tuple[LoadedBody, LoadedBody], made: Assembled, case: Asked, astray: float = 1.0) -> Deck:
    """Write the input of one case; the head is drawn where its springs are about as closed as they will be, a rigid shift.

    ``astray``: times the loads we found, on the way there; anything but 1 leads the general solver wrong.
    """
    export = case.export
    R = made.joint.R
    shift: Floats = R @ np.linalg.lstsq(R, export.w[case.at], rcond=None)[0]
    lines: list[str] = []
    offsets, start = [], 0
    for one in loaded:
        offsets.append(start)
        lines += bricks(one.body, start)
        start += one.body.touched.size
    terms = spread(loaded, offsets)
    first = start + 1
    away = []
    for at, column in enumerate(made.kept):
        rows = table(export, at)
        lines += spring(first, at, terms[int(column)], [(w - shift[at], f) for w, f in rows])
        begin, end = float(shift[at]), float(export.w[case.at, at])
        end = begin + astray * (end - begin)
        away.append((first + 2 * at, leading(rows, begin, end, astray * float(export.psi[case.at, at]))))
    flat = [dof for dof in loaded[0].held if dof % 3 != 2]
    held = [*flat, *(3 * offsets[1] + dof for dof in loaded[1].held)]
    lines += ["*BOUNDARY", *(f"{dof // 3 + 1},{dof % 3 + 1},{dof % 3 + 1}" for dof in held)]
    behind = loaded[0].counts.springs
    loads: dict[tuple[int, int], float] = {}
    for column, amount in case.columns.items():
        for node, direction, weight in terms.get(behind + column, []):
            loads[node, direction] = loads.get((node, direction), 0.0) + amount * weight
    lines += steps(away, [(*place, amount) for place, amount in loads.items()])
    return Deck("\n".join(lines) + "\n", first, shift)


def spread(
    loaded: tuple[LoadedBody, LoadedBody], offsets: list[int]
) -> dict[int, list[tuple[int, int, float]]]:
    """Node, direction and weight of every column, over both bodies."""
    terms: dict[int, list[tuple[int, int, float]]] = {}
    for one, offset in zip(loaded, offsets, strict=True):
        for dof, column, weight in zip(one.columns.dof, one.columns.column, one.columns.weight, strict=True):
            place = (offset + int(dof) // 3 + 1, int(dof) % 3 + 1, float(weight))
            terms.setdefault(int(column), []).append(place)
    return terms


def spring(
    first: int, at: int, terms: list[tuple[int, int, float]], rows: list[tuple[float, float]]
) -> list[str]:
    """A node that moves by the closure of one spring, and the spring from it to earth."""
    node, earth = first + 2 * at, first + 2 * at + 1
    places = [(node, 1, 1.0), *terms]
    return [
        *("*NODE, NSET=SPRINGS", f"{node},1000.,{at}.,0.", "*NODE", f"{earth},0.,{at}.,0."),
        *("*EQUATION", f"{len(places)}", *(f"{n},{d},{c:.14g}" for n, d, c in places)),
        *(f"*ELEMENT, TYPE=SPRINGA, ELSET=S{at}", f"{first + at},{earth},{node}"),
        *(f"*SPRING, ELSET=S{at}, NONLINEAR", *(f"{f:.10e},{w:.10e}" for w, f in rows)),
        *("*BOUNDARY", f"{node},2,3", f"{earth},1,3"),
    ]


def steps(
    away: list[tuple[int, list[tuple[float, float]]]], loads: list[tuple[int, int, float]]
) -> list[str]:
    """One step of a few increments: the leading forces come and go, the loads come evenly."""
    lines = []
    for node, way in away:
        lines += [f"*AMPLITUDE, NAME=N{node}", *(f"{t:.12g},{f:.12g}" for t, f in way)]
    lines += ["*STEP, INC=500", "*STATIC, SOLVER=SPOOLES", "0.02,1.,1e-6,1."]
    lines += ["*CONTROLS, PARAMETERS=FIELD", "1e-6,1e-6"]
    lines += ["*CONTROLS, PARAMETERS=TIME INCREMENTATION", "4,8,9,16,10,4,,5", ".25,.5,.75,.85,,,50."]
    for node, _ in away:
        lines += [f"*CLOAD, AMPLITUDE=N{node}", f"{node},1,1."]
    if loads:
        lines += ["*CLOAD", *(f"{n},{d},{f:.12g}" for n, d, f in loads if f)]
    return [*lines, "*NODE PRINT, NSET=SPRINGS, FREQUENCY=500", "U", "*END STEP"]


def bricks(body: Body, start: int) -> list[str]:
    """Nodes, elements and metals of one body; the plastic card, never reached, makes the solver go round at all."""
    metal = np.flatnonzero(body.touched)
    lines = ["*NODE"]
    lines += [
        f"{start + n + 1},{x:.9g},{y:.9g},{z:.9g}"
        for n, (x, y, z) in zip(metal, body.places()[metal], strict=True)
    ]
    _, my, mz = body.nodes
    groups: dict[float, list[str]] = {}
    for number, (i, j, k) in enumerate(np.argwhere(body.share > 0.0), start=start + 1):
        corner = (np.array([i, j, k]) + CORNERS)[ROUND]
        nodes = start + (corner[:, 0] * my + corner[:, 1]) * mz + corner[:, 2] + 1
        groups.setdefault(float(body.share[i, j, k]), []).append(",".join(map(str, [number, *nodes])))
    for at, (share, rows) in enumerate(groups.items()):
        name = f"B{start}N{at}"
        lines += [f"*ELEMENT, TYPE=C3D8I, ELSET={name}", *rows, f"*MATERIAL, NAME={name}", "*ELASTIC"]
        lines += [f"{body.material.modulus * share:.12g},{body.material.poisson}", "*PLASTIC", "1e12,0."]
        lines += [f"*SOLID SECTION, ELSET={name}, MATERIAL={name}"]
    return lines
