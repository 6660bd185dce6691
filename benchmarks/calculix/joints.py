"""The joints put to the general solver, all invented, and what each case of their life asks of it."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

import numpy as np

from firedeck.fem import Material
from firedeck.joint.assembling import Assembled, Bodies, Bolt, assembled
from firedeck.joint.chord import fast_operator, safe_operator
from firedeck.joint.clamped import Load
from firedeck.joint.exporting import Export, exported
from firedeck.joint.geometry.castings import block_section, head_section
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.geometry.loading import LoadedBody, loaded_block, loaded_head
from firedeck.joint.geometry.mesh import Recipe, block_body, head_body
from firedeck.joint.geometry.plan import Bore, Fastener, JointPlan, Opening
from firedeck.joint.geometry.points import GasketPoints, Sampling, gasket_points
from firedeck.joint.law_table import laws_of
from firedeck.joint.states import Service, bedded_in, firing_name, shaken_down
from firedeck.joint.tightening import TurnTo, tighten

ALLOY, IRON = Material(71e3, 0.33, 21e-6), Material(110e3, 0.26, 10.7e-6)


@dataclass(frozen=True)
class Subject:
    """One joint: hole pattern, castings, mesh, gasket, and what it is put through [mm, N, MPa, K]."""

    says: str
    plan: JointPlan
    recipe: Recipe
    sampling: Sampling
    head: str = "aluminium-overhead-cam"
    block: str = "closed-deck"
    metals: tuple[Material, Material] = (ALLOY, IRON)
    ring: str = "multi-layer-steel"
    tension: float = 38e3
    bolt: Bolt = field(default_factory=lambda: Bolt(2.0e5, 60e3))
    rise: float = 70.0
    pressure: float = 6.0
    fires: str = "2"


@dataclass(frozen=True)
class Asked:
    """One case for the general solver: our answer, which case of it, and the amounts of the load columns.

    ``columns``: amount by column behind the springs (gas of each bore per MPa, then warmth of head and block per K).
    """

    name: str
    export: Export
    at: int
    columns: dict[int, float]


def bodies(subject: Subject) -> tuple[GasketPoints, tuple[LoadedBody, LoadedBody]]:
    """Points of the gasket, and head and block with their columns."""
    plan, bore = subject.plan, subject.plan.mean_bore
    head, block = head_section(subject.head, bore), block_section(subject.block, bore)
    points = gasket_points(plan, head, block, subject.sampling)
    alloy, iron = subject.metals
    return points, (
        loaded_head(plan, head, head_body(plan, head, alloy, subject.recipe), points),
        loaded_block(plan, block_body(plan, block, iron, subject.recipe), points),
    )


def put(subject: Subject, points: GasketPoints, loaded: tuple[LoadedBody, ...]) -> tuple[Assembled, Service]:
    """Condense, put gasket and bolts between, and say what the loads are."""
    flexible = put_together(subject.plan, points, *(condensed(body) for body in loaded))
    return joint_of(
        subject,
        Bodies(flexible.places, points.share, flexible.A, flexible.R, flexible.gas, flexible.warm),
    )


def joint_of(subject: Subject, between: Bodies) -> tuple[Assembled, Service]:
    """The joint of two condensed bodies."""
    laws = dict(laws_of("multi-layer-steel")) | {"body": laws_of("composite")["body"]} | laws_of(subject.ring)
    made = assembled(between, laws, {one.label: subject.bolt for one in subject.plan.fasteners})
    warm = subject.rise * (made.warm["head-even"] + made.warm["block-even"])
    fires = {bore: subject.pressure * gas for bore, gas in made.gas.items()}
    return made, Service(made.joint.nothing(), warm, fires)


def asked(subject: Subject, made: Assembled, service: Service) -> Iterator[Asked]:
    """Take the joint through its life; every case with what gasket and bolts remember then."""
    joint, rest = made.joint, service.rest
    bolts = len(joint.springs.stiffness)
    safe = safe_operator(joint)
    order = np.argsort(np.hypot(joint.places.x, joint.places.y)[-bolts:])
    passes = (0.4 * subject.tension, subject.tension)
    turns = [TurnTo(int(bolt), target) for target in passes for bolt in order]
    tight = tighten(joint, [safe], turns, rest)
    operators = [fast_operator(joint, tight.w, tight.state), safe]
    begun = bedded_in(joint, operators, (tight.state, tight.w), rest, np.full(bolts, 0.004))
    life = shaken_down(joint, operators, begun, service)
    bore = [one.label for one in subject.plan.bores].index(subject.fires)
    warmth = {len(subject.plan.bores): subject.rise, len(subject.plan.bores) + 2: subject.rise}
    loads: list[tuple[str, Load, dict[int, float]]] = [
        ("cold", rest, {}),
        ("hot", service.hot, warmth),
        (firing_name(subject.fires), service.firing(subject.fires), warmth | {bore: subject.pressure}),
    ]
    new = exported(joint, begun.state, [("assembled", rest), ("first heat", service.hot)])
    yield Asked("assembled", new, 0, {})
    yield Asked("first heat", new, 1, warmth)
    old = exported(joint, life.state, [(name, load) for name, load, _ in loads])
    for at, (name, _, columns) in enumerate(loads):
        yield Asked(f"shaken down, {name}", old, at, columns)


def _bolts(rows: list[tuple[str, float, list[float]]], size: float = 10.0) -> tuple[Fastener, ...]:
    sizes = (size, size - 1.0, size, 1.9 * size, 0.8 * size, 3.6 * size)
    return tuple(
        Fastener(f"{side}{n}", x, y, *sizes) for side, y, places in rows for n, x in enumerate(places)
    )


def _box(left: float, right: float, low: float, high: float) -> tuple[tuple[float, float], ...]:
    return (left, low), (right, low), (right, high), (left, high)


TWO = JointPlan(
    outline=_box(-82.0, 92.0, -70.0, 66.0),
    bores=(Bore("1", -38.0, 0.0, 66.0, 69.0, 67.0), Bore("2", 42.0, 0.0, 70.0, 73.0, 71.0)),
    fasteners=_bolts([("i", -56.0, [-72.0, 0.0, 80.0]), ("e", 54.0, [-72.0, 0.0, 80.0])]),
    openings=(Opening("water", -38.0, 52.0, 9.0),),
)
BANK = JointPlan(
    outline=_box(-122.0, 132.0, -70.0, 88.0),
    bores=tuple(Bore(str(n + 1), x, 0.0, 74.0, 77.0, 75.0) for n, x in enumerate((-78.0, 4.0, 86.0))),
    fasteners=_bolts(
        [
            ("i", -56.0, [-114.0, -37.0, 45.0, 123.0]),
            ("e", 54.0, [-114.0, -37.0, 45.0, 123.0]),
            ("side", 80.0, [-78.0, 4.0, 86.0]),
        ]
    ),
    openings=(Opening("water", -78.0, -54.0, 9.0), Opening("drain", 4.0, -58.0, 9.0, 24.0, 0.0)),
)
WET = JointPlan(
    outline=_box(-92.0, 180.0, -88.0, 92.0),
    bores=(Bore("1", 0.0, 0.0, 104.0, 108.0, 106.0), Bore("2", 124.0, 0.0, 104.0, 108.0, 106.0)),
    fasteners=_bolts([("i", -70.0, [-64.0, 62.0, 168.0]), ("e", 74.0, [-76.0, 62.0, 168.0])], 14.0),
)
FOUR = JointPlan(
    outline=_box(-225.0, 225.0, -90.0, 90.0),
    bores=tuple(
        Bore(str(n + 1), x, 0.0, 86.0, 89.0, 87.0) for n, x in enumerate((-144.0, -48.0, 48.0, 144.0))
    ),
    fasteners=_bolts(
        [(side, y, [-192.0, -96.0, 0.0, 96.0, 192.0]) for side, y in (("i", -68.0), ("e", 68.0))], 12.0
    ),
    openings=(Opening("water", -144.0, -62.0, 10.0), Opening("drain", 48.0, 62.0, 10.0)),
)
FEW = Sampling(ring=24, half_bead=16.0, body=20.0)
EIGHT, TWELVE = Recipe("8 mm", 8.0, 16.0, 0.0, 16.0), Recipe("12 mm", 12.0, 16.0, 0.0, 16.0)

LEAST = Subject("inline two; 16 mm, to see that it runs", TWO, Recipe("16 mm", 16.0, 24.0, 0.0, 24.0), FEW)
SUBJECTS = {
    "two": Subject("inline two, bores unlike, bolts uneven; 8 mm", TWO, EIGHT, FEW),
    "bank": Subject(
        "bank of a vee, a row of side bolts on one side, alloy open deck, bolts that yield at the first heat; 12 mm",
        BANK,
        TWELVE,
        FEW,
        block="open-deck",
        metals=(ALLOY, replace(ALLOY, modulus=73e3)),
        ring="multi-layer-steel-plain",
        bolt=Bolt(2.0e5, 40e3),
    ),
    "wet": Subject(
        "iron two with wet liners, corner bolts out of line; 12 mm",
        WET,
        TWELVE,
        replace(FEW, ring=32),
        head="iron-diesel",
        block="wet-liner",
        metals=(replace(IRON, modulus=120e3), IRON),
        ring="graphite-metal-core",
        tension=90e3,
        bolt=Bolt(4.0e5, 130e3),
        pressure=10.0,
    ),
    "wire": Subject(
        "inline two with a ring of steel wire, bolts that yield at the first heat; 12 mm",
        TWO,
        TWELVE,
        FEW,
        ring="wire-ring",
        bolt=Bolt(2.0e5, 39.5e3),
    ),
    "four": Subject(
        "inline four; 8 mm", FOUR, EIGHT, FEW, tension=50e3, bolt=Bolt(2.5e5, 75e3), pressure=8.0
    ),
}
"""By name; the first is small enough for every day."""
