"""Where the coolant boils under its cap, at this height."""

from dataclasses import dataclass

from firedeck.diagnosis.ambient import SEA_LEVEL, ambient_pressure
from firedeck.diagnosis.steam import boiling_of_water, pressure_of_steam
from firedeck.errors import OutOfRange
from firedeck.quantity import Kind, show_both
from firedeck.tables import one, rows
from firedeck.trace import Figure, Note, Step


@dataclass(frozen=True)
class Boiling:
    """Boiling point [°C] of a coolant under its cap."""

    boiling: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]


def coolant_boiling(coolant: str, cap_pressure: float, altitude: float) -> Boiling:
    """Temperature at which the coolant boils under its cap.

    A mixture boils where its water pushes as hard as the pressure over it. The share of the push of
    plain water that is left is taken from its open boiling point at sea level and kept.

    Parameters
    ----------
    coolant : str
        Name as in tables/data/coolants.csv [text].
    cap_pressure : float
        Pressure at which the cap opens, above the air outside [MPa].
    altitude : float
        Height above the sea [mm].

    Returns
    -------
    Boiling
        The boiling point with its written sum [°C].

    Raises
    ------
    OutOfRange
        For a negative cap pressure, one above 0.5 MPa, or a height outside the table.
    TableGap
        For a coolant the table does not have.

    Valid for
    ---------
    Caps up to 0.5 MPa; glycol's own vapour is left out (it lowers the figure by less than 2 °C).

    Source
    ------
    [iapws-if97] for water; `derived` for mixtures.

    Examples
    --------
    >>> round(coolant_boiling("water", 0.0, 0.0).boiling, 2)
    99.97
    """
    if not 0.0 <= cap_pressure <= 0.5:
        raise OutOfRange("cap_pressure", show_both(cap_pressure, Kind.PRESSURE_GAUGE), "allowed: 0 to 5 bar")
    known = ", ".join(row["coolant"] for row in rows("coolants"))
    row = one("coolants", f"{coolant} (known: {known})", lambda row: row["coolant"] == coolant)
    ambient = ambient_pressure(altitude)
    over = Step.work_out(
        "Pressure over the coolant when the cap just opens",
        "ambient + cap_pressure",
        {"ambient": ambient.figure(), "cap_pressure": (cap_pressure, "MPa")},
        ("absolute", "MPa"),
        "derived",
    )
    mixing = () if not row["boiling_c"] else _mixing(float(row["boiling_c"]), over.figure(), row["source"])
    steps = (ambient, over, *mixing, *boiling_of_water((mixing or (over,))[-1].value))
    return Boiling(steps[-1].value, steps, _notes(row["coolant"], row["source"]))


def _mixing(open_boiling: float, absolute: Figure, source: str) -> tuple[Step, ...]:
    steam = pressure_of_steam(open_boiling)
    share = Step.work_out(
        f"Push of the water that the mixture keeps, from its open boiling point of {open_boiling:g} °C",
        "sea_level / steam_pressure",
        {"sea_level": (SEA_LEVEL, "MPa"), "steam_pressure": steam[-1].figure()},
        ("water_share", "1"),
        source,
    )
    same = Step.work_out(
        "Pressure at which plain water would boil at the same temperature",
        "absolute / water_share",
        {"absolute": absolute, "water_share": share.figure()},
        ("water_pressure", "MPa"),
        "derived",
    )
    return (*steam, share, same)


def _notes(coolant: str, source: str) -> tuple[Note, ...]:
    height = Note("The cap opens at its pressure above the air outside: height lowers the figure.", "derived")
    if coolant == "water":
        return (height,)
    fresh = Note(f"{coolant} by volume, well mixed; a weaker fill boils nearer to water.", source)
    return (height, fresh)
