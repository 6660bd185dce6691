"""[joint.readings]: what was measured on this joint, each set with how it was taken."""

from itertools import pairwise
from typing import Annotated, Literal, Self

from pydantic import Field, field_validator, model_validator

from firedeck.errors import BadQuantity
from firedeck.job.schema.fields import In, Labels, ListOf, OrNone, Part, Point, refusal
from firedeck.job.schema.layout import Placed
from firedeck.quantity import Kind, Quantity, parse

Face = Literal["head", "block"]
Condition = Literal[
    "cold",
    "clean",
    "supported-level",
    "valves-in",
    "valves-out",
    "main-caps-torqued",
    "just-machined",
    "on-the-engine",
]


class LeafReading(Part):
    """One place under the edge: the thickest that goes and the thinnest that stops, or "none".

    ``by`` is a leaf, a foil or strip of paper of that thickness, or light held against slits of known width.
    """

    at: Annotated[Quantity, In("along_line")]
    by: Literal["leaf", "foil", "paper", "light"] = "leaf"
    goes: Annotated[str, OrNone("leaf")] = "none"
    stops: Annotated[str, OrNone("leaf")] = "none"

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        """Refuse a leaf that goes where a thinner one stops."""
        if "none" not in (self.goes, self.stops):
            goes, stops = (parse(text, Kind.LENGTH).value for text in (self.goes, self.stops))
            if not goes < stops:
                raise refusal("the leaf that goes is thinner than the one that stops")
        return self


ON_LEAVES = "on end leaves of"
LAID = f'"rests", "rocks" or "{ON_LEAVES} 0.05 mm"'


class Line(Part):
    """One laying of the straightedge."""

    name: str
    start: Point = Field(alias="from")
    end: Point = Field(alias="to")
    direction: Literal["along", "across", "diagonal"] | None = None
    laid: str = "rests"

    @field_validator("laid")
    @classmethod
    def _known(cls, laid: str) -> str:
        """Refuse a way of laying nobody knows."""
        given = laid.strip()
        if given not in ("rests", "rocks"):
            try:
                if not given.startswith(ON_LEAVES):
                    raise refusal(LAID)
                parse(given.removeprefix(ON_LEAVES).strip(), Kind.LENGTH)
            except BadQuantity:
                raise refusal(LAID) from None
        return given

    stands_on: Literal["face", "thread-mouth", "liner", "insert", "burr", "dowel"] = "face"
    readings: tuple[LeafReading, ...] = ()


PointInstrument = Literal["dial", "bridge-dial", "depth-micrometer", "coordinate-machine"]


class SteppedLine(Part):
    """One line read by steps: angles of a stepped foot, or heights by a dial or depth micrometer.

    ``autocollimator`` and ``level`` give ``angles``, one a ``foot`` apart. ``bridge-dial`` gives ``reads`` of the
    middle over two feet ``foot`` apart, half a foot on each time. ``dial`` and ``depth-micrometer`` give
    ``reads`` at the places ``at``.
    """

    name: str
    start: Point = Field(alias="from")
    end: Point = Field(alias="to")
    direction: Literal["along", "across", "diagonal"] | None = None
    by: Literal["autocollimator", "level", "bridge-dial", "dial", "depth-micrometer"]
    foot: Annotated[Quantity, In("foot")] | None = None
    angles: Annotated[tuple[Quantity, ...], ListOf("step_angle")] = ()
    at: Annotated[tuple[Quantity, ...], ListOf("along_line")] = ()
    reads: Annotated[tuple[Quantity, ...], ListOf("line_reading")] = ()
    error: Annotated[Quantity, In("instrument_error")] | None = None
    angle_error: Annotated[Quantity, In("step_angle")] | None = None

    @model_validator(mode="after")
    def _what_it_takes(self) -> Self:
        """Refuse a line whose readings are not those of its instrument."""
        if self.by in ("autocollimator", "level"):
            good = self.foot is not None and len(self.angles) >= 2 and not (self.at or self.reads)
            allowed = "foot, and two angles or more: one for each step"
        elif self.by == "bridge-dial":
            good = self.foot is not None and len(self.reads) >= 1 and not (self.at or self.angles)
            allowed = "foot, and reads half a foot apart from the start on"
        else:
            places = [place.value for place in self.at]
            rising = all(one < other for one, other in pairwise(places))
            good = len(places) == len(self.reads) >= 3 and rising and not (self.angles or self.foot)
            allowed = "at (three rising places or more) and a read for each"
        if not good:
            raise refusal(f"with by = {self.by}: {allowed}")
        return self


class Touched(Part):
    """[joint.readings.faces.touched]: marking blue on a plate or long edge of known truth, and where the face took it.

    ``rings`` says of each cylinder whether the blue takes along its ring; ``takes`` and ``bare`` are single places.
    """

    against: Literal["plate", "edge"] = "plate"
    film: Annotated[Quantity, In("blue_film")] | None = None
    error: Annotated[Quantity, In("instrument_error")] | None = None
    rings: dict[str, Literal["all-round", "parts", "nowhere"]] = {}
    takes: tuple[Point, ...] = ()
    bare: tuple[Point, ...] = ()


class FaceReadings(Placed):
    """[[joint.readings.faces]]: one face read once, by points, by lines of an edge with leaves, or by stepped lines."""

    name: str
    face: Face
    when: Literal["before", "after-cleaning", "after-machining"] = "before"
    instrument: str = ""
    error: Annotated[Quantity, In("instrument_error")] | None = None
    temperature: Annotated[Quantity, In("room_temperature")] | None = None
    conditions: tuple[Condition, ...] = ()
    leaf_width: Annotated[Quantity, In("leaf_width")] | None = None
    edge_true_to: Annotated[Quantity, In("edge_true_to")] | None = None
    points: str = ""
    points_by: PointInstrument | None = None
    lines: tuple[Line, ...] = ()
    stepped: tuple[SteppedLine, ...] = ()
    light: Literal["none-seen", "seen"] | None = None
    blue: Literal["even", "middle-bare", "ends-bare", "patches"] | None = None
    touched: Touched | None = None
    largest_gap: Annotated[Quantity, In("face_flatness")] | None = None
    largest_gap_along: Annotated[Quantity, In("face_flatness")] | None = None
    largest_gap_across: Annotated[Quantity, In("face_flatness")] | None = None
    largest_gap_at_bridges: Annotated[Quantity, In("face_flatness")] | None = None
    found_by_shop: Literal["within-limit", "over-limit"] | None = None


class Finish(Part):
    """[[joint.readings.finish]]: roughness of a face, a trace of the tester (CSV of x and z), or what eye and nail say."""

    name: str
    face: Face
    when: Literal["before", "after-machining"] = "before"
    Ra: Annotated[Quantity, In("Ra")] | None = None
    Rz: Annotated[Quantity, In("Rz")] | None = None
    trace: str = ""
    cutoff: Annotated[Quantity, In("cutoff")] | None = None
    how: Literal["comparator", "tester", "eye", "shop-sheet"] | None = None
    lay: Literal["ground", "milled", "fly-cut", "turned-spiral", "filed", "as-run"] | None = None
    seen: tuple[Literal["step", "spiral", "chatter", "dishing", "scratches", "even"], ...] = ()


class LinerReadings(Part):
    """[[joint.readings.liners]]: three or four stands round one liner."""

    name: str
    stands: Annotated[tuple[Quantity, ...], ListOf("liner_protrusion")]


class PistonReadings(Part):
    """[[joint.readings.pistons]]: stand of one piston at two places."""

    name: str
    stands: Annotated[tuple[Quantity, ...], ListOf("piston_protrusion")]


class FastenerReadings(Part):
    """[joint.readings.fasteners]: lengths, threads and looks of the used fasteners."""

    lengths: dict[str, Annotated[Quantity, In("fastener_length")]] = {}
    neck_diameters: dict[str, Annotated[Quantity, In("neck_diameter")]] = {}
    threads: Literal["clean-and-even", "damaged", "not-checked"] | None = None
    necked: Labels = ()
    doubtful: Labels = ()
    corroded: Labels = ()
    broken: Labels = ()
    missing: Labels = ()
    break_away: dict[str, Annotated[Quantity, In("torque")]] = {}
    moves_on: dict[str, Annotated[Quantity, In("torque")]] = {}
    loose: Labels = ()
    mixed: bool | None = None


class HoleReadings(Part):
    """[joint.readings.holes]: bolt holes by label, or "all", where the plan of the deck does not say it."""

    checked: Literal["chaser", "tap", "bolt-by-hand", "not-checked"] | None = None
    good: Labels = ()
    raised: Labels = ()
    pulled: Labels = ()
    dirty: Labels = ()
    cracked: Labels = ()
    liquid: Labels = ()


Lies = Literal[
    "in-ring-band",
    "across-ring",
    "bore-edge",
    "between-bores",
    "outside-ring",
    "inside-ring",
    "in-chamber",
    "between-valves",
    "at-water-hole",
    "at-bolt-hole",
    "elsewhere",
]


class Damage(Placed):
    """[[joint.readings.damage]]: one pit, crack, scratch, imprint or track, by place and size.

    Without ``seen`` its x and y are those of the layout.
    """

    name: str
    face: Face
    when: Literal["before", "after-machining"] = "before"
    kind: Literal["pit", "crack", "scratch", "imprint", "track", "eroded-passage", "burnt"]
    x: Annotated[Quantity, In("x")] | None = None
    y: Annotated[Quantity, In("y")] | None = None
    size: Annotated[Quantity, In("damage_size")] | None = None
    depth: Annotated[Quantity, In("damage_depth")] | None = None
    to_ring: Annotated[Quantity, In("distance_to_ring")] | None = None
    lies: Lies | None = None
    cylinders: Labels = ()
    reaches_water: Literal["yes", "no", "not-tested"] | None = None
    maker_says: Literal["allowed", "not-allowed", "not-found"] | None = None
    maker_source: str = Field(default="", alias="maker_from")
    where: str = ""


class After(Part):
    """[joint.readings.after]: what came back from the shop, measured on the bench."""

    washed: bool | None = None
    plugs_in: bool | None = None
    pressure_tested: bool | None = None
    cut_head: Annotated[Quantity, In("cut")] | None = None


class Readings(Part):
    """[joint.readings]."""

    faces: tuple[FaceReadings, ...] = ()
    finish: tuple[Finish, ...] = ()
    liners: tuple[LinerReadings, ...] = ()
    pistons: tuple[PistonReadings, ...] = ()
    fasteners: FastenerReadings = FastenerReadings()
    holes: HoleReadings = HoleReadings()
    damage: tuple[Damage, ...] = ()
    looked_over: tuple[Face, ...] = ()
    after: After = After()
