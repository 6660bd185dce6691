"""Sums of torque and tension."""

from firedeck import fasteners
from firedeck.quantity import Kind
from firedeck.sums.registry import Figure, SumResult, a_sum
from firedeck.sums.written import written


@a_sum("assembly-tension")
def assembly_tension(
    *,
    thread: str,
    thread_friction: float,
    head_friction: float,
    class_: str | None = None,
    yield_stress: float | None = None,
    utilisation: float = 0.9,
    bearing_diameter: float | None = None,
    hole_diameter: float | None = None,
) -> SumResult:
    """Tension and torque at which a bolt uses a share of its yield, torsion counted."""
    size = fasteners.thread_of(thread)
    strength = fasteners.class_of(class_, size) if class_ else None
    work = fasteners.assembly_tension(
        size,
        fasteners.yield_stress_of(strength, yield_stress),
        thread_friction=thread_friction,
        head_friction=head_friction,
        utilisation=utilisation,
        bearing=fasteners.bearing_of(size, bearing_diameter, hole_diameter),
    )
    return written(
        work, {"tension": Figure(work.tension, Kind.FORCE), "torque": Figure(work.torque, Kind.TORQUE)}
    )


@a_sum("bolt-tension")
def bolt_tension(
    *,
    thread: str,
    torque: float,
    thread_friction: float,
    head_friction: float,
    class_: str | None = None,
    bearing_diameter: float | None = None,
    hole_diameter: float | None = None,
    friction_band: str | None = None,
) -> SumResult:
    """Tension a torque leaves in a bolt, its band, and the share of yield."""
    size = fasteners.thread_of(thread)
    work = fasteners.bolt_tension(
        size,
        torque,
        thread_friction=thread_friction,
        head_friction=head_friction,
        strength=fasteners.class_of(class_, size) if class_ else None,
        bearing=fasteners.bearing_of(size, bearing_diameter, hole_diameter),
        friction_band=fasteners.friction_band_of(friction_band) if friction_band else None,
    )
    return written(
        work,
        {
            "tension": Figure(work.tension, Kind.FORCE),
            "tension_low": Figure(work.tension_low, Kind.FORCE),
            "tension_high": Figure(work.tension_high, Kind.FORCE),
            "torsion_stress": Figure(work.torsion_stress, Kind.STRESS),
            "equivalent_stress": Figure(work.equivalent_stress, Kind.STRESS),
            "yield_fraction": Figure(work.yield_fraction, Kind.RATIO),
        },
    )


@a_sum("bolt-torque")
def bolt_torque(
    *,
    thread: str,
    tension: float,
    thread_friction: float,
    head_friction: float,
    class_: str | None = None,
    bearing_diameter: float | None = None,
    hole_diameter: float | None = None,
    friction_band: str | None = None,
) -> SumResult:
    """Torque that pulls a bolt to a tension, with its band where a band of friction is given."""
    size = fasteners.thread_of(thread)
    work = fasteners.bolt_torque(
        size,
        tension,
        thread_friction=thread_friction,
        head_friction=head_friction,
        strength=fasteners.class_of(class_, size) if class_ else None,
        bearing=fasteners.bearing_of(size, bearing_diameter, hole_diameter),
        friction_band=fasteners.friction_band_of(friction_band) if friction_band else None,
    )
    return written(
        work,
        {
            "torque": Figure(work.torque, Kind.TORQUE),
            "torque_low": Figure(work.torque_low, Kind.TORQUE),
            "torque_high": Figure(work.torque_high, Kind.TORQUE),
            "yield_fraction": Figure(work.yield_fraction, Kind.RATIO),
        },
    )


@a_sum("nut-factor-tension")
def nut_factor_tension(diameter: float, torque: float, nut_factor: float) -> SumResult:
    """Tension from torque by a nut factor."""
    work = fasteners.nut_factor_tension(diameter, torque, nut_factor)
    return written(work, {"tension": Figure(work.tension, Kind.FORCE)})


@a_sum("nut-factor-torque")
def nut_factor_torque(diameter: float, tension: float, nut_factor: float) -> SumResult:
    """Torque for a tension by a nut factor."""
    work = fasteners.nut_factor_torque(diameter, tension, nut_factor)
    return written(work, {"torque": Figure(work.torque, Kind.TORQUE)})


@a_sum("proof-torque")
def proof_torque(thread: str, class_: str, nut_factor: float, fraction: float = 0.75) -> SumResult:
    """Torque that takes a bolt to a share of its proof load."""
    size = fasteners.thread_of(thread)
    bears = fasteners.bolt_strength(size, fasteners.class_of(class_, size))
    work = fasteners.proof_torque(size, bears, nut_factor, fraction)
    return written(
        work, {"tension": Figure(work.tension, Kind.FORCE), "torque": Figure(work.torque, Kind.TORQUE)}
    )


@a_sum("same-tension-torque")
def same_tension_torque(thread: str, torque: float, from_lubricant: str, to_lubricant: str) -> SumResult:
    """Torque that gives the same tension with another lubricant, as a band."""
    work = fasteners.same_tension_torque(
        fasteners.thread_of(thread),
        torque,
        fasteners.friction_of(from_lubricant),
        fasteners.friction_of(to_lubricant),
    )
    return written(
        work,
        {
            "torque": Figure(work.torque, Kind.TORQUE),
            "torque_low": Figure(work.torque_low, Kind.TORQUE),
            "torque_high": Figure(work.torque_high, Kind.TORQUE),
            "tension": Figure(work.tension, Kind.FORCE),
        },
    )


@a_sum("torque-scatter")
def torque_scatter(method: str) -> SumResult:
    """How far bolt tension scatters, by the way of tightening; low and high as shares of the middle."""
    scatter = fasteners.scatter_of(method)
    return written(
        scatter,
        {
            "low": Figure(scatter.low, Kind.RATIO),
            "high": Figure(scatter.high, Kind.RATIO),
            "high_over_low": Figure(scatter.high_over_low, Kind.RATIO),
        },
    )


@a_sum("break-away-tension")
def break_away_tension(
    *,
    thread: str,
    torque: float,
    lubricant: str,
    way: str = "loosening",
    bearing_diameter: float | None = None,
    hole_diameter: float | None = None,
) -> SumResult:
    """Tension behind the torque at which a bolt gives way, loosening or moving on, as a band."""
    size = fasteners.thread_of(thread)
    work = fasteners.break_away_tension(
        size,
        torque,
        fasteners.friction_of(lubricant),
        way=way,
        bearing=fasteners.bearing_of(size, bearing_diameter, hole_diameter),
    )
    return written(
        work,
        {
            "tension": Figure(work.tension, Kind.FORCE),
            "tension_low": Figure(work.tension_low, Kind.FORCE),
            "tension_high": Figure(work.tension_high, Kind.FORCE),
        },
    )
