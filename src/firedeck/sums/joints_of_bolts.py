"""Sums of a bolt with what it clamps: stiffness, load sharing, angle, settling, heat, pressure."""

from math import radians

from firedeck import fasteners
from firedeck.quantity import Kind
from firedeck.sums.registry import Figure, Rows, SumResult, a_sum
from firedeck.sums.written import written
from firedeck.tables.materials import material as material_of

_PER_KN = 1000.0


@a_sum("bolt-stiffness", rows={"sections": (Kind.LENGTH, Kind.LENGTH)})
def bolt_stiffness(
    *,
    modulus: float,
    sections: Rows | None = None,
    thread: str | None = None,
    shank_length: float | None = None,
    thread_length: float | None = None,
) -> SumResult:
    """Stiffness of a bolt and its stretch per kilonewton."""
    size = fasteners.thread_of(thread) if thread else None
    parts = fasteners.sections_given(sections, size, shank_length, thread_length)
    bolt = fasteners.bolt_stiffness(parts, modulus)
    return written(
        bolt,
        {
            "stiffness": Figure(bolt.stiffness, Kind.STIFFNESS),
            "stretch_per_kN": Figure(bolt.stretch_per_force * _PER_KN, unit="mm/kN"),
        },
    )


@a_sum("member-stiffness", rows={"frusta": (Kind.STRESS, Kind.LENGTH, Kind.LENGTH)})
def member_stiffness(frusta: Rows, bolt_diameter: float, cone_angle: float = radians(30.0)) -> SumResult:
    """Stiffness of clamped parts as slices of a cone under the head."""
    slices = tuple(fasteners.Frustum(*row) for row in frusta)
    parts = fasteners.member_stiffness(slices, bolt_diameter, cone_angle)
    return written(
        parts,
        {
            "stiffness": Figure(parts.stiffness, Kind.STIFFNESS),
            "each": Figure(list(parts.each), unit="N/mm"),
        },
    )


@a_sum("joint-diagram")
def joint_diagram(
    bolt_stiffness: float,
    member_stiffness: float,
    preload: float,
    external_load: float,
    proof_load: float | None = None,
) -> SumResult:
    """How an outside load is shared between a bolt and the parts it clamps."""
    loads = fasteners.joint_diagram(bolt_stiffness, member_stiffness, preload, external_load, proof_load)
    return written(
        loads,
        {
            "load_fraction": Figure(loads.load_fraction, Kind.RATIO),
            "bolt_load": Figure(loads.bolt_load, Kind.FORCE),
            "member_load": Figure(loads.member_load, Kind.FORCE),
            "separation_factor": Figure(loads.separation_factor, Kind.RATIO),
            "load_factor": Figure(loads.load_factor, Kind.RATIO),
            "proof_factor": Figure(loads.proof_factor, Kind.RATIO),
        },
    )


@a_sum("angle-tension")
def angle_tension(
    *,
    thread: str,
    angle: float,
    bolt_stiffness: float,
    member_stiffness: float,
    snug_tension: float = 0.0,
    class_: str | None = None,
    stress_area: float | None = None,
) -> SumResult:
    """Tension and stretch after turning a bolt by an angle past snug, and whether it yields."""
    size = fasteners.thread_of(thread)
    turned = fasteners.angle_tension(
        size,
        angle,
        bolt_stiffness,
        member_stiffness,
        snug_tension=snug_tension,
        strength=fasteners.class_of(class_, size) if class_ else None,
        stress_area=stress_area,
    )
    return written(
        turned,
        {
            "tension": Figure(turned.tension, Kind.FORCE),
            "stretch": Figure(turned.stretch, Kind.LENGTH),
            "plastic_stretch": Figure(turned.plastic_stretch, Kind.LENGTH),
            "reached_yield": Figure(turned.reached_yield),
        },
    )


@a_sum("embedding-loss")
def embedding_loss(
    *,
    bolt_stiffness: float,
    member_stiffness: float,
    settlement: float | None = None,
    Rz: float | None = None,
    interfaces: float | None = None,
    bearing_faces: float = 1.0,
) -> SumResult:
    """Tension lost when rough faces settle after tightening."""
    settled = fasteners.settlement_given(settlement, Rz, interfaces, bearing_faces)
    lost = fasteners.embedding_loss(bolt_stiffness, member_stiffness, settled)
    return written(lost, {"loss": Figure(lost.loss, Kind.FORCE)})


@a_sum("thermal-tension")
def thermal_tension(
    *,
    grip: str,
    bolt_material: str,
    bolt_stiffness: float,
    member_stiffness: float,
    rise: float | None = None,
    rises: tuple[float, ...] | None = None,
) -> SumResult:
    """Change of bolt tension when bolt and clamped parts warm up."""
    parts = fasteners.grip_parts(grip)
    warmer = fasteners.rises_of(len(parts), rise, rises)
    heat = fasteners.thermal_tension(
        parts, warmer, material_of(bolt_material), bolt_stiffness, member_stiffness
    )
    return written(heat, {"change": Figure(heat.change, Kind.FORCE)})


@a_sum("bearing-pressure")
def bearing_pressure(
    tension: float, outer_diameter: float, hole_diameter: float, material: str | None = None
) -> SumResult:
    """Pressure of a head, nut or washer on the casting."""
    face = material_of(material) if material else None
    pressed = fasteners.bearing_pressure(tension, outer_diameter, hole_diameter, face)
    return written(
        pressed,
        {
            "pressure": Figure(pressed.pressure, Kind.STRESS),
            "share_of_yield": Figure(pressed.share_of_yield, Kind.RATIO),
        },
    )
