"""Sums of one group in its holes: engagement, stripping, room at the bottom, threads in the nut."""

from firedeck.fasteners import Thread, thread_strip, weakest_section
from firedeck.findings.groups import class_in, gasket_that_goes_on, metal, number, waist_in
from firedeck.job import Joint
from firedeck.job.schema.joint import Fasteners
from firedeck.trace import COMMON_PRACTICE, DERIVED, NO_UNIT, Band, Step, as_printed

SHEAR_OF_TENSILE = 0.6
"""Shear strength of a steel bolt over its tensile strength."""


def engagement_left(joint: Joint, group: Fasteners, length: float | None) -> Step | None:
    """Length of thread that carries: measured less what was cut off, and no more than reaches in with the head down."""
    if group.engagement is None:
        return None
    measured = {
        "engagement": (group.engagement.value, "mm"),
        "shortened": (number(group.shortened) or 0.0, "mm"),
    }
    reach = _reach(joint, group, length)
    formula, inputs = "engagement - shortened", measured
    if reach is not None:
        formula, inputs = f"min(engagement - shortened, {REACH})", {**measured, **reach}
    says = f"Engagement that is left, {group.name}"
    return Step.work_out(says, formula, inputs, ("engagement_left", "mm"), DERIVED)


def in_diameters(group: Fasteners, thread: Thread | None, engagement: Step | None) -> Step | None:
    """Engagement in diameters of the thread."""
    if thread is None or engagement is None:
        return None
    return Step.work_out(
        f"Engagement in diameters, {group.name}",
        "engagement_left / major_diameter",
        {**engagement.result, "major_diameter": (thread.major_diameter, "mm")},
        ("engagement_share", NO_UNIT),
        DERIVED,
    )


def strip_share(
    joint: Joint, group: Fasteners, thread: Thread | None, engagement: Step | None
) -> tuple[tuple[Step, ...], Band] | None:
    """Load at which the bolt yields over that at which the hole strips; the band is that of the casting."""
    strength = class_in(group, thread)
    casting = metal(joint.block.material)
    if thread is None or strength is None or engagement is None or engagement.value <= 0.0:
        return None
    if casting is None or casting.shear is None:
        return None
    low, high = casting.shear
    bolt = SHEAR_OF_TENSILE * strength.tensile_stress
    strip = thread_strip(thread, engagement.value, bolt, low)
    hole = next(step for step in strip.steps if "hole_strip_load" in step.result)
    yielding = Step.work_out(
        f"Load at yield, class {strength.name}",
        "stress_area * yield_stress",
        {
            "stress_area": weakest_section(thread, waist_in(group))["stress_area"],
            "yield_stress": (strength.yield_stress, "MPa"),
        },
        ("yield_load", "N"),
        strength.source,
    )
    share = Step.work_out(
        f"Bolt yield over thread strip, {group.name}, weakest {casting.says}",
        "yield_load / hole_strip_load",
        {**yielding.result, **hole.result},
        ("strip_share", NO_UNIT),
        "fed-std-h28",
    )
    best = Step.work_out(
        f"The same in the strongest {casting.says}",
        "strip_share * weak / strong",
        {**share.result, "weak": (low, "MPa"), "strong": (high, "MPa")},
        ("strip_share_low", NO_UNIT),
        casting.source,
    )
    band = Band(best.value, share.value, 0.95, f"{casting.says}, {low:g} to {high:g} MPa in shear")
    return (*strip.steps, yielding, best, share), band


REACH = "length - washer - (grip_in_head - cut_head) - gasket_thickness"
"""How far a fastener reaches into the block with the head down."""


def _reach(joint: Joint, group: Fasteners, length: float | None) -> dict[str, tuple[float, str]] | None:
    """Give the figures of REACH; None where one is not known, or a stud, whose length says nothing of its hole."""
    gasket = gasket_that_goes_on(joint)
    if length is None or group.grip_in_head is None or gasket is None or gasket.thickness is None:
        return None
    cut = not joint.cut.done
    return {
        "length": (as_printed(length), "mm"),
        "washer": (as_printed((number(group.washer.thickness) if group.washer else None) or 0.0), "mm"),
        "grip_in_head": (as_printed(group.grip_in_head.value), "mm"),
        "cut_head": (as_printed((number(joint.cut.head) or 0.0) * cut), "mm"),
        "gasket_thickness": (as_printed(gasket.thickness.value), "mm"),
    }


def room_below(joint: Joint, group: Fasteners, depth: float | None, length: float | None) -> Step | None:
    """Depth left under the end of the fastener when the head is down, both cuts taken into account."""
    reach = _reach(joint, group, length)
    if depth is None or reach is None:
        return None
    cut_block = (number(joint.cut.block) or 0.0) * (not joint.cut.done)
    return Step.work_out(
        f"Room below the fastener, {group.name}",
        f"hole_depth - cut_block - ({REACH})",
        {"hole_depth": (as_printed(depth), "mm"), "cut_block": (as_printed(cut_block), "mm"), **reach},
        ("hole_room", "mm"),
        DERIVED,
    )


def stud_rooms(joint: Joint, group: Fasteners) -> tuple[Step, ...]:
    """Room at the nut of a stud: thread below the nut, thread out of it, air in a cap nut; cuts of the head counted."""
    gasket = gasket_that_goes_on(joint)
    if group.stand_out is None or group.grip_in_head is None or gasket is None or gasket.thickness is None:
        return ()
    cut = not joint.cut.done
    above = Step.work_out(
        f"Stud above its washer, {group.name}",
        "stand_out - gasket_thickness - (grip_in_head - cut_head) - washer",
        {
            "stand_out": (as_printed(group.stand_out.value), "mm"),
            "gasket_thickness": (as_printed(gasket.thickness.value), "mm"),
            "grip_in_head": (as_printed(group.grip_in_head.value), "mm"),
            "cut_head": (as_printed((number(joint.cut.head) or 0.0) * cut), "mm"),
            "washer": (as_printed((number(group.washer.thickness) if group.washer else None) or 0.0), "mm"),
        },
        ("above_washer", "mm"),
        DERIVED,
    )
    wanted = (
        ("thread left below the nut", group.thread_at_nut, "{} - above_washer", "thread_at_nut"),
        ("thread out of the nut", group.nut_height, "above_washer - {}", "nut_height"),
        ("air in the cap nut", group.cap_depth, "{} - above_washer", "cap_depth"),
    )
    rooms = [
        Step.work_out(
            f"{says[0].upper()}{says[1:]}, {group.name}",
            formula.format(name),
            {**above.result, name: (size.value, "mm")},
            ("stud_room", "mm"),
            DERIVED,
        )
        for says, size, formula, name in wanted
        if size is not None
    ]
    return (above, *rooms) if rooms else ()


def shank_proud(joint: Joint, group: Fasteners) -> Step | None:
    """Height of the gasket less what the shank of a stud stands above the deck; below nought it reaches into the head."""
    gasket = gasket_that_goes_on(joint)
    if group.shank_stand_out is None or gasket is None or gasket.thickness is None:
        return None
    return Step.work_out(
        f"Gasket over the shank, {group.name}",
        "gasket_thickness - shank_stand_out",
        {
            "gasket_thickness": (as_printed(gasket.thickness.value), "mm"),
            "shank_stand_out": (as_printed(group.shank_stand_out.value), "mm"),
        },
        ("stud_room", "mm"),
        DERIVED,
    )


def load_per_thread(group: Fasteners) -> Step | None:
    """Load each thread of the nut carries, against the nut before or else against the thread in the block."""
    now = group.threads_in_nut
    against = group.threads_in_nut_before or group.threads_in_block
    if now is None or against is None:
        return None
    what = "the nut before" if group.threads_in_nut_before else "the thread in the block"
    return Step.work_out(
        f"Load per thread of the nut, against {what}",
        "threads_before / threads_now",
        {"threads_before": (against.value, NO_UNIT), "threads_now": (now.value, NO_UNIT)},
        ("load_per_thread", NO_UNIT),
        DERIVED,
    )


def threads_of_nut(group: Fasteners) -> Step | None:
    """Threads that carry in the nut, as counted."""
    if group.threads_in_nut is None:
        return None
    counted = {"counted": (group.threads_in_nut.value, NO_UNIT)}
    return Step.work_out(
        f"Threads in the nut, {group.name}", "counted", counted, ("threads_in_nut", NO_UNIT), COMMON_PRACTICE
    )
