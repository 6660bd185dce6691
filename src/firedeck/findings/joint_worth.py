"""What would narrow the band of a clamped joint: what to measure for each thing that makes it, and how it is got."""

from dataclasses import replace

from firedeck.findings.faces import unread
from firedeck.findings.gas import unknown_peak
from firedeck.job import Joint
from firedeck.joint.study import JointStudy
from firedeck.trace import Missing


def with_worth(joint: Joint, study: JointStudy) -> JointStudy:
    """Put beside each influence what to measure, where a garage can narrow it at all."""
    asked = {
        "tension": _stretch(joint),
        "friction": _stretch(joint),
        "section": _section(joint),
        "peak pressure": _peak(study),
        "change of peak": _peak(study),
        "faces": _faces(joint),
        "gasket curve": _sheet(joint),
    }
    influences = tuple(replace(one, missing=asked.get(one.name)) for one in study.influences)
    return replace(study, influences=influences)


def _stretch(joint: Joint) -> Missing:
    return Missing(
        tuple(f"joint.{joint.name}.readings.fasteners.lengths.{label}" for label in _labels(joint)[:1]),
        "how much the fasteners stretch when they are tightened: length before and after",
        "micrometer over the whole fastener, or ultrasound",
        "Measure two or three before they go in and again when tight; the stretch tells the pull far better than a torque.",
    )


def _labels(joint: Joint) -> tuple[str, ...]:
    return tuple(hole.label for hole in joint.layout.fasteners) if joint.layout else ("1",)


def _section(joint: Joint) -> Missing | None:
    """What of ribs, deck, roof and weight is not known yet."""
    section, path = joint.head.section, f"joint.{joint.name}.head.section"
    lacks = {
        "ribs": "a sketch of the ribs between the cylinders, seen through the water passages",
        "deck": "thickness of the fire deck at a passage, with a hooked gauge",
        "roof": "thickness of the chamber roof, through the plug seat",
        "mass": "weight of the bare head, on a scale",
    }
    if section is not None:
        known = {"ribs": section.ribs, "deck": section.deck, "roof": section.roof}
        known["mass"] = section.mass or joint.head.weight
        lacks = {name: what for name, what in lacks.items() if not known[name]}
    if not lacks:
        return None
    return Missing(
        tuple(f"{path}.{name}" for name in lacks),
        "; ".join(lacks.values()),
        "torch, hooked gauge, depth gauge, scale",
        "All four together about halve what the unseen inside of the head makes of the band; one alone does little.",
    )


def _peak(study: JointStudy) -> Missing | None:
    """None where the papers gave it."""
    band = study.peak.band
    return unknown_peak() if band.low < band.high else None


def _faces(joint: Joint) -> Missing:
    whole = unread(joint, "head")
    return replace(
        whole,
        paths=(f"joint.{joint.name}.readings.faces",),
        measure="both faces close round every bore: short dips at the rings decide, long bow and twist hardly count",
        how="Clean and cold; lay the edge across each ring and between bores, try the thinnest leaf every 15 mm, or run "
        "a dial in a bridge foot round each ring.",
    )


def _sheet(joint: Joint) -> Missing:
    return Missing(
        (f"joint.{joint.name}.gasket.fitted",),
        "how hard this gasket presses back: its measured curve, from its maker",
        "the maker's sheet, or a press with a load cell and a dial",
        "Load against closure for a piece of the ring, pressed once and let go; without it the band of its kind is carried.",
    )
