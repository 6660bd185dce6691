"""[[joint]]: one per head; nothing is inherited from the other bank."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from firedeck.job.schema.fields import In, Labels, ListOf, Part, whole
from firedeck.job.schema.layout import Layout, Leads
from firedeck.job.schema.readings import Readings
from firedeck.quantity import Quantity

Material = Literal["aluminium", "grey-iron", "compacted-iron", "ductile-iron", "steel", "unknown"]
Construction = Literal[
    "composite",
    "graphite-metal-core",
    "multi-layer-steel",
    "steel-shim",
    "soft-copper",
    "wire-ring",
    "laminated",
    "none",
    "unknown",
]
Found = Literal["yes", "no", "not-done"]


class Section(Part):
    """[joint.head.section]: the few dimensions of the casting a garage can get."""

    overall_height: Annotated[Quantity, In("overall_height")] | None = None
    deck: Annotated[Quantity, In("deck_thickness")] | None = None
    roof: Annotated[Quantity, In("roof_thickness")] | None = None
    mass: Annotated[Quantity, In("head_mass")] | None = None
    ribs: str = ""


class Head(Part):
    """[joint.head]."""

    origin: Literal["original", "used", "new"] | None = None
    material: Material | None = None
    casting_marks: str = ""
    height_new: Annotated[Quantity, In("head_height")] | None = None
    heights_before: Annotated[tuple[Quantity, ...], ListOf("head_height")] = ()
    heights_after: Annotated[tuple[Quantity, ...], ListOf("head_height")] = ()
    hardness: Annotated[Quantity, In("hardness")] | None = None
    cam_tunnel: Literal["turns-free", "binds", "not-in-head", "not-checked"] | None = None
    pressure_test: Literal["tight", "leaks", "not-done"] | None = None
    crack_test: Literal["none-found", "found", "not-done"] | None = None
    overheated: bool | None = None
    core_plugs: Literal["good", "doubtful", "not-checked"] | None = None
    valves: Literal["good", "doubtful", "not-checked"] | None = None
    weight: Annotated[Quantity, In("head_mass")] | None = None
    groove_depth: Annotated[Quantity, In("groove_depth")] | None = None
    groove_width: Annotated[Quantity, In("groove_width")] | None = None
    section: Section | None = None
    layout: Layout | None = None


class Block(Part):
    """[joint.block]."""

    material: Material | None = None
    liners: Literal["none", "wet", "dry", "cast-in"] | None = None
    liners_clamped: Literal["as-the-book", "clamped", "not-clamped"] | None = None
    liner_rule: str = ""
    liner_step_by: Literal["means", "highest"] | None = None
    liners_seen: tuple[Literal["uneven", "sunk", "shimmed", "loose", "even"], ...] = ()
    piston_rule: Literal["highest", "highest-mean", "mean-of-all"] | None = None
    deck_clearance: dict[str, Annotated[Quantity, In("deck_clearance")]] = {}
    recess: Annotated[Quantity, In("recess")] | None = None
    height_before: Annotated[Quantity, In("deck_height")] | None = None
    seat_cut: Annotated[Quantity, In("seat_cut")] | None = None
    shim: Annotated[Quantity, In("shim")] | None = None
    base_gasket: Annotated[Quantity, In("base_gasket")] | None = None
    base_gasket_new: Annotated[Quantity, In("base_gasket")] | None = None
    groove_depth: Annotated[Quantity, In("groove_depth")] | None = None
    groove_width: Annotated[Quantity, In("groove_width")] | None = None


class Chamber(Part):
    """[joint.chamber]: volumes, the plan area of the chamber at the face, and what the valves clear."""

    volumes: dict[str, Annotated[Quantity, In("chamber_volume")]] = {}
    plan_area: Annotated[Quantity, In("plan_area")] | None = None
    width: Annotated[Quantity, In("chamber_width")] | None = None
    volume_before: Annotated[Quantity, In("chamber_volume")] | None = None
    volume_after: Annotated[Quantity, In("chamber_volume")] | None = None
    measured_cut: Annotated[Quantity, In("cut")] | None = None
    ratio_after: Annotated[Quantity, In("ratio")] | None = None
    rim_length: Annotated[Quantity, In("rim_length")] | None = None
    land: Annotated[Quantity, In("land")] | None = None
    clearance_gasket: Annotated[Quantity, In("gasket_thickness")] | None = None
    dish_volume: Annotated[Quantity, In("dish_volume")] | None = None
    dome_volume: Annotated[Quantity, In("dome_volume")] | None = None
    crevice_volume: Annotated[Quantity, In("crevice_volume")] | None = None
    intake_valve_clearance: Annotated[Quantity, In("intake_valve_clearance")] | None = None
    exhaust_valve_clearance: Annotated[Quantity, In("exhaust_valve_clearance")] | None = None
    valve_angle: Annotated[Quantity, In("valve_angle")] | None = None
    rods: Literal["steel", "aluminium"] | None = None


class ValveTrain(Part):
    """[joint.valve_train]: what hangs on the height of head and seats, measured before this cut, old gasket on."""

    intake_recession: Annotated[Quantity, In("valve_recession")] | None = None
    exhaust_recession: Annotated[Quantity, In("valve_recession")] | None = None
    pre_chamber_stand_out: Annotated[Quantity, In("chamber_stand_out")] | None = None
    injector_stand_out: Annotated[Quantity, In("injector_stand_out")] | None = None
    valve_to_valve: Annotated[Quantity, In("valve_to_valve")] | None = None
    stem_height: Annotated[Quantity, In("stem_height")] | None = None
    spring_height: Annotated[Quantity, In("spring_height")] | None = None
    lash: Annotated[Quantity, In("valve_lash")] | None = None
    plunger_range: Annotated[Quantity, In("plunger_range")] | None = None
    backlash: Annotated[Quantity, In("backlash")] | None = None
    pressure_angle: Annotated[Quantity, In("pressure_angle")] | None = None
    tensioner_left: Annotated[Quantity, In("tensioner_left")] | None = None


class Cover(Part):
    """[joint.cover]: the seal between head and a timing chest or cover that does not go down with it."""

    seal: Literal["cork", "rubber", "paper", "sealant"] | None = None
    seal_thickness: Annotated[Quantity, In("seal_thickness")] | None = None
    gap: Annotated[Quantity, In("cover_gap")] | None = None
    seen: tuple[Literal["pushed-out", "split", "leaks"], ...] = ()


class Cut(Part):
    """[joint.cut]: what is planned, and what was taken off before."""

    head: Annotated[Quantity, In("cut")] | None = None
    block: Annotated[Quantity, In("cut")] | None = None
    earlier_head: Annotated[Quantity, In("cut")] | None = None
    earlier_block: Annotated[Quantity, In("cut")] | None = None
    datum: str = ""
    done: bool = False


class OldGasket(Part):
    """[joint.gasket.old]: the used gasket as a witness."""

    construction: Construction | None = None
    thickness: Annotated[Quantity, In("gasket_thickness")] | None = None
    bore: Annotated[Quantity, In("gasket_bore")] | None = None
    ring_thickness: dict[str, Annotated[Quantity, In("ring_thickness")]] = {}
    track: str = ""
    imprint: str = ""
    signs: tuple[
        Literal[
            "burnt-between-bores",
            "burnt-at-edge",
            "water-track",
            "oil-track",
            "ring-cracked",
            "soft-and-washed",
            "ring-squeezed",
            "holes-do-not-match",
            "even-print",
            "thin-print",
            "faint-print",
            "ring-uneven",
            "edges-eaten",
            "dirt-under-it",
        ],
        ...,
    ] = ()


class Candidate(Part):
    """[[joint.gasket.candidates]]: a gasket on the bench or in the papers."""

    name: str
    construction: Construction | None = None
    thickness: Annotated[Quantity, In("gasket_thickness")] | None = None
    free_thickness: Annotated[Quantity, In("free_thickness")] | None = None
    bore: Annotated[Quantity, In("gasket_bore")] | None = None
    piston_from: Annotated[Quantity, In("piston_protrusion")] | None = None
    piston_to: Annotated[Quantity, In("piston_protrusion")] | None = None
    coated: bool | None = None
    marks: str = ""
    mark_side: Literal["head", "block", "either"] | None = None
    ways_that_fit: tuple[
        Literal["as-marked", "turned-over", "end-for-end", "turned-and-end-for-end"], ...
    ] = ()
    ring_width: Annotated[Quantity, In("ring_width")] | None = None
    ring_stand_out: Annotated[Quantity, In("ring_stand_out")] | None = None
    wire: Annotated[Quantity, In("wire_diameter")] | None = None
    bead_offset: Annotated[Quantity, In("bead_offset")] | None = None
    ring_curve: str = ""
    layout: Layout | None = None
    towards_head: Literal["steel", "copper", "aluminium"] | None = None
    towards_block: Literal["steel", "copper", "aluminium"] | None = None
    used: bool = False
    retorque: Literal["yes", "no"] | None = None
    source: str = Field(default="", alias="from")


class Gasket(Part):
    """[joint.gasket]."""

    old: OldGasket | None = None
    fitted: str = ""
    candidates: tuple[Candidate, ...] = ()


class Washer(Part):
    """[joint.fasteners.washer]."""

    outer_diameter: Annotated[Quantity, In("outer_diameter")] | None = None
    hole_diameter: Annotated[Quantity, In("hole_diameter")] | None = None
    thickness: Annotated[Quantity, In("washer_thickness")] | None = None
    hardened: bool | None = None
    sunk: bool | None = None


class Fasteners(Part):
    """[[joint.fasteners]]: one group of fasteners that are alike."""

    name: str
    labels: Labels = ()
    count: int | None = None
    kind: Literal["bolt", "stud"] | None = None
    thread: str = ""
    class_: str = Field(default="", alias="class")
    head_marks: str = ""
    waisted: bool = False
    sections: str = ""
    length_new: Annotated[Quantity, In("fastener_length")] | None = None
    engagement: Annotated[Quantity, In("engagement")] | None = None
    shortened: Annotated[Quantity, In("shortened")] | None = None
    grip_in_head: Annotated[Quantity, In("grip_in_head")] | None = None
    hole: Literal["blind", "through"] | None = None
    leads: Leads | None = None
    hole_depth: Annotated[Quantity, In("hole_depth")] | None = None
    threads_in_block: Annotated[Quantity, In("threads_in_block")] | None = None
    threads_in_nut: Annotated[Quantity, In("threads_in_nut")] | None = None
    threads_in_nut_before: Annotated[Quantity, In("threads_in_nut")] | None = None
    lubricant: Literal["dry", "oil", "moly", "thread-sealer", "maker-coated"] | None = None
    uses: Annotated[str, AfterValidator(whole)] = ""
    uses_allowed: Annotated[str, AfterValidator(whole)] = ""
    reuse: Literal["never", "by-length", "by-uses", "by-neck", "allowed"] | None = None
    replace_singly: bool | None = None
    new: bool | None = None
    bearing_diameter: Annotated[Quantity, In("bearing_diameter")] | None = None
    hole_diameter: Annotated[Quantity, In("hole_diameter")] | None = None
    boss_diameter: Annotated[Quantity, In("boss_diameter")] | None = None
    stand_out: Annotated[Quantity, In("stud_stand_out")] | None = None
    shank_stand_out: Annotated[Quantity, In("shank_stand_out")] | None = None
    thread_at_nut: Annotated[Quantity, In("thread_at_nut")] | None = None
    nut_height: Annotated[Quantity, In("nut_height")] | None = None
    cap_depth: Annotated[Quantity, In("cap_depth")] | None = None
    washer: Washer | None = None


class Procedure(Part):
    """[joint.procedure]: the tightening procedure as the papers write it."""

    text: str
    order: Labels = ()
    source: str = Field(default="", alias="from")
    yields: bool | None = None
    reached: Annotated[Quantity, In("reached_torque")] | None = None


class Strip(Part):
    """[joint.strip]: how the engine stands before the first bolt; what nobody wrote is not asked twice."""

    cold: bool | None = None
    drained: bool | None = None
    pressure_off: bool | None = None
    pistons_parked: bool | None = None
    cam_locked: bool | None = None


class Clean(Part):
    """[joint.clean]: what has touched the faces so far."""

    disc_used: bool | None = None
    plugged: bool | None = None
    asbestos: Literal["yes", "no", "not-known"] | None = None
    scraped_dry: bool | None = None


class Sealant(Part):
    """[joint.sealant]: the dabs at corners and T-joints, against the watch."""

    skin_time: Annotated[Quantity, In("skin_time")] | None = None
    time_to_torque: Annotated[Quantity, In("time_to_torque")] | None = None


class StopCard(Part):
    """[joint.stop_card]: who went through the stop card, one reading it out and one looking; initials as on the paper."""

    read_by: str = ""
    looked_by: str = ""


class LimitText(Part):
    """[[joint.limits]]: a limit of the job's papers, as written there."""

    name: str
    quantity: str
    low: str = ""
    high: str = ""
    measure: Literal["under-the-edge", "minimum-zone", "indicator-total", "single-reading", "computed"]
    rank: Literal["bulletin", "part-sheet", "manual", "published", "common-practice", "memory"]
    source: str = Field(alias="from")
    part: Literal["head", "block", "gasket", "fastener"] | None = None
    material: Material | None = None
    mating_material: Material | None = None
    construction: Construction | None = None
    direction: Literal["along", "across", "any"] | None = None
    span: Annotated[Quantity, In("span")] | None = None
    duty: str | None = None
    part_fitted: str | None = None
    fastener: str | None = None
    lubricant: str | None = None
    washer: str | None = None
    gasket: str | None = None


class Joint(Part):
    """One head, its block face and everything between."""

    name: str
    cylinders: Labels = ()
    head: Head = Head()
    block: Block = Block()
    chamber: Chamber = Chamber()
    valve_train: ValveTrain = ValveTrain()
    cut: Cut = Cut()
    cover: Cover | None = None
    layout: Layout | None = None
    gasket: Gasket = Gasket()
    fasteners: tuple[Fasteners, ...] = ()
    procedure: Procedure | None = None
    strip: Strip = Strip()
    clean: Clean = Clean()
    sealant: Sealant = Sealant()
    stop_card: StopCard = StopCard()
    readings: Readings = Readings()
    limits: tuple[LimitText, ...] = ()
