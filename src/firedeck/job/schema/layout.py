"""[joint.layout]: where things are on the face, in the set's own axes."""

from typing import Annotated, Literal

from firedeck.job.schema.fields import In, Part, Point
from firedeck.quantity import Quantity

SEEN = ("deck from above", "head face up on the bench", "gasket, this side up")
Seen = Literal["deck from above", "head face up on the bench", "gasket, this side up"]
Leads = Literal["water", "oil", "port", "air", "drain", "nowhere"]


class Placed(Part):
    """How a set of places was seen: from which side, where the front is, and what its zero is."""

    seen: Seen | None = None
    front: Literal["left", "right"] = "left"
    zero: str = ""
    zero_at: Point | None = None


class Bore(Part):
    """A cylinder opening."""

    label: str
    x: Annotated[Quantity, In("x")]
    y: Annotated[Quantity, In("y")]
    diameter: Annotated[Quantity, In("bore")]


class Hole(Part):
    """A fastener and the hole it screws into."""

    label: str
    x: Annotated[Quantity, In("x")]
    y: Annotated[Quantity, In("y")]
    hole: Literal["blind", "through"] | None = None
    leads: Leads | None = None
    depth: Annotated[Quantity, In("hole_depth")] | None = None
    diameter: Annotated[Quantity, In("hole_diameter")] | None = None
    group: str = ""
    thread: Literal["good", "raised", "pulled", "insert", "dirty", "cracked", "not-checked"] | None = None
    liquid: bool | None = None


class Dowel(Part):
    """A dowel and, when read, how far it stands out and how deep its other hole is."""

    label: str
    x: Annotated[Quantity, In("x")]
    y: Annotated[Quantity, In("y")]
    diameter: Annotated[Quantity, In("hole_diameter")] | None = None
    hollow: bool | None = None
    state: Literal["good", "missing", "worn-hole", "loose", "burred", "not-checked"] | None = None
    stand_out: Annotated[Quantity, In("dowel_stand_out")] | None = None
    hole_depth: Annotated[Quantity, In("hole_depth")] | None = None


class Passage(Part):
    """An opening for water, oil or air."""

    label: str
    x: Annotated[Quantity, In("x")]
    y: Annotated[Quantity, In("y")]
    shape: Literal["round", "slot", "point"] = "round"
    diameter: Annotated[Quantity, In("hole_diameter")] | None = None
    length: Annotated[Quantity, In("slot_length")] | None = None
    angle: Annotated[Quantity, In("angle")] | None = None
    leads: Leads | None = None
    gasket_diameter: Annotated[Quantity, In("hole_diameter")] | None = None
    seen_through: Literal["open", "smaller", "covered"] | None = None
    seen_turned: Literal["open", "smaller", "covered"] | None = None
    only_in: Literal["head", "block", "gasket"] | None = None


class Mark(Part):
    """Words or a sign on a gasket: the side they are read on is the side the layout is seen from."""

    label: str
    x: Annotated[Quantity, In("x")]
    y: Annotated[Quantity, In("y")]
    text: str = ""


class Layout(Placed):
    """The hole pattern of one joint, head face or gasket; in its place may stand "@file.csv" or the rows of such a file.

    ``exhaust`` says on which side of this picture the exhaust ports are.
    """

    exhaust: Literal["above", "below"] | None = None
    outline: tuple[Point, ...] = ()
    bores: tuple[Bore, ...] = ()
    fasteners: tuple[Hole, ...] = ()
    dowels: tuple[Dowel, ...] = ()
    passages: tuple[Passage, ...] = ()
    marks: tuple[Mark, ...] = ()
