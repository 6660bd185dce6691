"""Castings of the clamped joint: an invented family for what nobody measured, what was measured put in, cuts apart."""

from dataclasses import dataclass, replace

from firedeck.fem import Material as Metal
from firedeck.findings.amounts import amounts
from firedeck.findings.groups import metal, number
from firedeck.findings.joint_said import Said
from firedeck.job import Job, Joint
from firedeck.job.schema.joint import Section
from firedeck.joint.assumed import assumed
from firedeck.joint.geometry.castings import BlockSection, HeadSection, Variant, block_section, head_section
from firedeck.joint.geometry.variants import towards
from firedeck.tables.materials import material

GAUGE = assumed("gauge")
"""How far a hooked gauge through a passage may be off a wall [mm]."""
STILL_OPEN = {what: assumed(f"open {what} known") for what in ("all", "ribs", "one")} | {"none": 1.0}
"""Share of the way to the soft and the stiff end that is open where ribs, deck, roof and weight are all known, the ribs
alone, the weight or deck and roof, nothing (240 drawn castings; half is claimed where a quarter was found)."""
DENSITY = {"aluminium": 2.7e-6, "iron": 7.2e-6}
"""Mass of a cubic millimetre [kg]; only for a head nobody weighed."""
USUAL_BORE = 86.0


@dataclass(frozen=True)
class Sections:
    """Castings before any cut: the middle head, both ends of it, the block; metals; what is off each in all [mm].

    ``written``: what the document says of the head, to tell whether two engines have the same castings.
    """

    head: HeadSection
    soft: HeadSection
    stiff: HeadSection
    block: BlockSection
    head_metal: Metal
    block_metal: Metal
    cut_head: float
    cut_block: float
    written: Section | None


def sections_given(job: Job, joint: Joint, said: Said) -> Sections:
    """Take the family, put in what was measured, and put back what has come off since."""
    bore = job.engine.bore.value if job.engine.bore else USUAL_BORE
    name = _family_of_head(job, joint)
    cuts = amounts(joint)
    off = cuts.head_in_all.value - cuts.head
    usual = head_section(name, bore)
    known = _measured(joint, usual, off)
    middle = head_section(name, bore, measured=known)
    share, what = _still_open(joint)
    if _no_ribs(joint):
        middle, known = replace(middle, rib=0.0), known | {"rib": 0.0}
    soft, stiff = (
        towards(middle, head_section(name, bore, end, known), share, known, reading)
        for end, reading in ((Variant.SOFT, -GAUGE), (Variant.STIFF, GAUGE))
    )
    said(
        f"head: inside of the invented family {name}, soft to stiff as a band; "
        + (f"measured: {what}" if what else "nothing of it was measured")
    )
    wet = joint.block.liners == "wet"
    said(f"block: inside of the invented family {'wet-liner' if wet else 'closed-deck'}")
    block = block_section("wet-liner" if wet else "closed-deck", bore)
    return Sections(
        middle,
        soft,
        stiff,
        block,
        *_metals(joint, said),
        cut_head=max(0.0, cuts.head_in_all.value),
        cut_block=max(0.0, cuts.block_in_all.value),
        written=joint.head.section,
    )


def with_cuts_of(other: Sections, mine: Sections) -> Sections:
    """The castings of another engine with the cuts of this one, where both are the same castings; else its own."""
    same = (other.written, other.head_metal, other.block_metal) == (
        mine.written,
        mine.head_metal,
        mine.block_metal,
    )
    return replace(other, cut_head=mine.cut_head, cut_block=mine.cut_block) if same else mine


def _family_of_head(job: Job, joint: Joint) -> str:
    diesel = job.engine.fuel == "diesel"
    if family(joint) == "iron":
        return "iron-diesel" if diesel else "iron-overhead-valve"
    if diesel:
        return "aluminium-diesel"
    return "aluminium-push-rod" if job.engine.valve_gear == "push-rod" else "aluminium-overhead-cam"


def family(joint: Joint) -> str:
    """Aluminium or iron."""
    found = metal(joint.head.material)
    return "aluminium" if found is None or found.family == "aluminium" else "iron"


def _measured(joint: Joint, usual: HeadSection, off: float) -> dict[str, float]:
    """Dimensions that were measured, as they were before anything came off the face."""
    section = joint.head.section
    if section is None:
        return {}
    given = {"deck": section.deck, "roof": section.roof, "height": section.overall_height}
    known = {name: one.value for name, one in given.items() if one is not None}
    if "deck" in known:
        known["deck"] += off
    if "height" in known:
        known["seat"] = usual.seat * known["height"] / usual.height
    if usual.chamber_depth == 0.0 and ("deck" in known or "roof" in known):
        known["deck"] = known["roof"] = known.get("deck", known.get("roof", 0.0))
    return known


def _no_ribs(joint: Joint) -> bool:
    section = joint.head.section
    return bool(section and section.ribs.strip().lower() == "none")


def _still_open(joint: Joint) -> tuple[float, str]:
    """How much of the band is open, and what was measured, in words."""
    section = joint.head.section
    walls = bool(section and section.deck and section.roof)
    known = {
        "ribs": bool(section and section.ribs),
        "deck and roof": walls,
        "weight": weight_of(joint) is not None,
        "height": bool(section and section.overall_height),
    }
    what = ", ".join(name for name, there in known.items() if there)
    if known["ribs"] and walls and known["weight"]:
        return STILL_OPEN["all"], what
    if known["ribs"]:
        return STILL_OPEN["ribs"], what
    return STILL_OPEN["one" if walls or known["weight"] else "none"], what


def weight_of(joint: Joint) -> float | None:
    """Mass of the head, where somebody put it on a scale [kg]."""
    section = joint.head.section
    return number(joint.head.weight) or number(section.mass if section else None)


def mass_of(joint: Joint, box: tuple[float, float, float, float], height: float) -> float:
    """Mass of the head: weighed, or its box half full [kg]."""
    low_x, high_x, low_y, high_y = box
    half_full = 0.5 * (high_x - low_x) * (high_y - low_y) * height
    return weight_of(joint) or DENSITY[family(joint)] * half_full


def _metals(joint: Joint, said: Said) -> tuple[Metal, Metal]:
    metals = []
    for part, written, usual in (
        ("head", joint.head.material, "aluminium"),
        ("block", joint.block.material, "grey-iron"),
    ):
        found = metal(written)
        if found is None:
            said(f"{part} taken as {usual}: not said")
            found = material(usual)
        metals.append(Metal(found.usual_modulus, found.poisson, found.usual_expansion))
    return metals[0], metals[1]
