"""[job], [engine], [tools], [running]: what engine it is, and with what it is measured."""

from typing import Annotated, Literal

from firedeck.job.schema.fields import In, Labels, ListOf, Part
from firedeck.quantity import Quantity


class About(Part):
    """[job]: the title of the record and what a person wants to remember."""

    title: str
    date: str = ""
    notes: str = ""
    mechanic: str = ""


class Engine(Part):
    """[engine]: what the papers say about the engine as a whole."""

    arrangement: Literal["inline", "vee", "flat", "single", "barrels"]
    cylinders: Labels
    fuel: Literal["petrol", "diesel", "gas", "paraffin", "alcohol"] | None = None
    cycle: Literal["four-stroke", "two-stroke"] = "four-stroke"
    duty: Literal["road", "race", "marine", "farm", "stationary", "small"] | None = None
    charging: Literal["natural", "turbocharged", "supercharged"] | None = None
    valve_gear: Literal["overhead-cam", "twin-cam", "push-rod", "side-valve", "ports", "sleeve"] | None = None
    cam_drive: Literal["belt", "chain", "gears", "shaft", "none"] | None = None
    sprocket_teeth: int | None = None
    sprocket_pitch: Annotated[Quantity, In("pitch")] | None = None
    sprocket_diameter: Annotated[Quantity, In("sprocket_diameter")] | None = None
    lifters: Literal["solid", "hydraulic"] | None = None
    bore: Annotated[Quantity, In("bore")] | None = None
    stroke: Annotated[Quantity, In("stroke")] | None = None
    rod: Annotated[Quantity, In("rod")] | None = None
    ratio: Annotated[Quantity, In("ratio")] | None = None
    valve_closing: Annotated[Quantity, In("valve_closing")] | None = None
    vee_angle: Annotated[Quantity, In("vee_angle")] | None = None
    flange_lean: Annotated[Quantity, In("flange_lean")] | None = None
    pre_chamber: bool = False
    firing_order: Labels = ()


class Wrench(Part):
    """[tools.wrench]: range, last check and kind of the torque wrench."""

    low: Annotated[Quantity, In("torque")] | None = None
    high: Annotated[Quantity, In("torque")] | None = None
    checked: Literal["this-year", "long-ago", "never", "against-a-beam"] | None = None
    kind: Literal["click", "beam", "dial", "electronic"] | None = None
    division: Annotated[Quantity, In("scale_division")] | None = None
    adapter: Annotated[Quantity, In("adapter_length")] | None = None
    adapter_set: Literal["straight-out", "square"] | None = None
    length: Annotated[Quantity, In("wrench_length")] | None = None


class Tools(Part):
    """[tools]: what the garage measures with."""

    straightedge: Literal["checked", "not-checked"] | None = None
    straightedge_error: Annotated[Quantity, In("instrument_error")] | None = None
    straightedge_height: Annotated[Quantity, In("edge_height")] | None = None
    leaves: Annotated[tuple[Quantity, ...], ListOf("leaf")] = ()
    leaf_width: Annotated[Quantity, In("leaf_width")] | None = None
    wrench: Wrench | None = None


class Running(Part):
    """[running]: how the engine is used."""

    altitude: Annotated[Quantity, In("altitude")] | None = None
    cap_pressure: Annotated[Quantity, In("cap_pressure")] | None = None
    coolant: Literal["water", "ethylene 50 %", "propylene 50 %", "air"] | None = None
    boost: Annotated[Quantity, In("boost")] | None = None
    boost_before: Annotated[Quantity, In("boost")] | None = None
    peak_pressure: Annotated[Quantity, In("peak")] | None = None
    charge_temperature: Annotated[Quantity, In("charge_temperature")] | None = None
    detonation: Literal["heard", "not-heard"] | None = None


class Event(Part):
    """[[history.events]]: one repair or mishap."""

    name: str
    what: str
    date: str = ""
    distance: Annotated[Quantity, In("distance_run")] | None = None


class History(Part):
    """[history]: what was done before, and whether the standard joint was known to be weak."""

    standard_record: Literal["good", "weak", "unknown"] | None = None
    failed_as_standard: bool = False
    same_place_before: bool | None = None
    failures: int | None = None
    deck_measured_before: bool | None = None
    since_work: Annotated[Quantity, In("distance_run")] | None = None
    retightening: Literal["done", "missed", "not-due"] | None = None
    coolant: Literal["changed", "neglected"] | None = None
    cooling_parts: Literal["failed", "good"] | None = None
    coolant_low_first: bool | None = None
    first_gasket: bool | None = None
    events: tuple[Event, ...] = ()
