"""Sums of threads and their strength."""

from firedeck import fasteners
from firedeck.quantity import Kind
from firedeck.sums.registry import Figure, SumResult, a_sum
from firedeck.sums.written import written
from firedeck.tables.materials import material as material_of

_LENGTHS = (
    "major_diameter",
    "pitch",
    "pitch_diameter",
    "minor_diameter",
    "internal_minor_diameter",
)


@a_sum("thread-geometry")
def thread_geometry(thread: str) -> SumResult:
    """Diameters and stress area of a thread."""
    sizes = fasteners.thread_of(thread)
    lengths = {name: Figure(getattr(sizes, name), Kind.LENGTH) for name in _LENGTHS}
    return written(sizes, {**lengths, "stress_area": Figure(sizes.stress_area, Kind.AREA)})


@a_sum("bolt-strength")
def bolt_strength(thread: str, class_: str) -> SumResult:
    """Loads at which a bolt is proved, yields and breaks."""
    size = fasteners.thread_of(thread)
    bears = fasteners.bolt_strength(size, fasteners.class_of(class_, size))
    return written(
        bears,
        {
            "stress_area": Figure(bears.stress_area, Kind.AREA),
            "proof_load": Figure(bears.proof_load, Kind.FORCE),
            "yield_load": Figure(bears.yield_load, Kind.FORCE),
            "tensile_load": Figure(bears.tensile_load, Kind.FORCE),
            "proof_stress": Figure(bears.strength.proof_stress, Kind.STRESS),
            "yield_stress": Figure(bears.strength.yield_stress, Kind.STRESS),
            "tensile_stress": Figure(bears.strength.tensile_stress, Kind.STRESS),
        },
    )


@a_sum("thread-strip")
def thread_strip(
    *,
    thread: str,
    engagement: float,
    bolt_shear_strength: float | None = None,
    hole_shear_strength: float | None = None,
    external_major_minimum: float | None = None,
    external_pitch_minimum: float | None = None,
    internal_pitch_maximum: float | None = None,
    internal_minor_maximum: float | None = None,
) -> SumResult:
    """Metal that strips when a thread is pulled out, and the engagement that breaks the bolt first."""
    size = fasteners.thread_of(thread)
    limits = fasteners.limits_with(
        size,
        external_major_minimum,
        external_pitch_minimum,
        internal_pitch_maximum,
        internal_minor_maximum,
    )
    strips = fasteners.thread_strip(size, engagement, bolt_shear_strength, hole_shear_strength, limits)
    return written(
        strips,
        {
            "external_area": Figure(strips.external_area, Kind.AREA),
            "internal_area": Figure(strips.internal_area, Kind.AREA),
            "bolt_strip_load": Figure(strips.bolt_strip_load, Kind.FORCE),
            "hole_strip_load": Figure(strips.hole_strip_load, Kind.FORCE),
            "engagement_for_full_strength": Figure(strips.engagement_for_full_strength, Kind.LENGTH),
        },
    )


@a_sum("trapped-liquid")
def trapped_liquid(
    *, thread: str, tension: float, boss_diameter: float | None = None, material: str | None = None
) -> SumResult:
    """Pressure a bolt makes in liquid shut in below it, and the pull that splits the boss."""
    shut_in = fasteners.trapped_liquid(
        fasteners.thread_of(thread), tension, boss_diameter, material_of(material) if material else None
    )
    figures = {"pressure": Figure(shut_in.pressure, Kind.STRESS)}
    if shut_in.hoop_stress is not None:
        figures["hoop_stress"] = Figure(shut_in.hoop_stress, Kind.STRESS)
    if shut_in.hoop_share is not None:
        figures["hoop_share"] = Figure(shut_in.hoop_share, Kind.RATIO)
    return written(shut_in, figures)


@a_sum("head-marks")
def head_marks(thread: str, marks: str) -> SumResult:
    """Least strength a bolt has by the marks on its head."""
    size = fasteners.thread_of(thread)
    bears = fasteners.bolt_strength(size, fasteners.class_by_marks(marks, size))
    return written(
        bears,
        {
            "class": Figure(bears.strength.name),
            "proof_load": Figure(bears.proof_load, Kind.FORCE),
            "yield_load": Figure(bears.yield_load, Kind.FORCE),
        },
    )
