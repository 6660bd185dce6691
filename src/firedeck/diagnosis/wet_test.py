"""What a shot of oil does to a compression reading, leak or no leak."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from firedeck.diagnosis.thresholds import threshold
from firedeck.errors import OutOfRange
from firedeck.trace import Figure, Note, Step, as_printed

UPRIGHT = "Upright cylinder: in a flat or leaning engine the oil does not lie evenly."
LYING = {
    "flat": "Flat engine: the oil runs to the lower wall and seals the rings there only; no rise with oil clears no ring.",
    "vee": "Leaning cylinders: the oil lies to the low side; no rise with oil clears no ring.",
}


@dataclass(frozen=True)
class OilGain:
    """Gain of the gauge reading [1] that the volume of the oil makes by itself."""

    gain: float
    steps: tuple[Step, ...]
    notes: tuple[Note, ...]

    def notes_for(self, fuel: str | None, arrangement: str | None = None) -> tuple[Note, ...]:
        """Notes that speak of this engine: the diesel's own only where it is one, or where nobody knows; how it lies."""
        lies = LYING.get(arrangement or "", UPRIGHT)
        spoken = (Note(lies, "derived") if note.text == UPRIGHT else note for note in self.notes)
        return tuple(note for note in spoken if fuel in (None, "diesel") or note.text != DIESEL_OIL)


@dataclass(frozen=True)
class WetReading:
    """One cylinder dry against wet.

    ``gain`` is the gain of the reading [1] (None when dry is nil), ``rise`` the same as a pressure
    [MPa], ``beyond_oil`` what is left of the rise after the oil's own [MPa]; ``percent_misleads``
    where dry is too low for a percentage; ``rings`` where the rise speaks for rings or bore.
    """

    cylinder: int
    gain: float | None
    rise: float
    beyond_oil: float
    percent_misleads: bool
    rings: bool


def oil_gain(swept_volume: float, ratio: float, oil_volume: float, exponent: float | None = None) -> OilGain:
    """Gain of a wet compression reading in a cylinder that does not leak at all.

    The oil lies on the piston and takes room from the clearance volume, which raises the ratio.

    Parameters
    ----------
    swept_volume : float
        Swept volume of the cylinder [mm³].
    ratio : float
        Compression ratio [1].
    oil_volume : float
        Oil put in [mm³].
    exponent : float, optional
        Polytropic exponent of cranking; left out, that of tables/data/diagnosis_rules.csv [1].

    Returns
    -------
    OilGain
        Gain of the gauge reading, 0.13 is 13 % [1].

    Raises
    ------
    OutOfRange
        If the ratio is not above 1, a volume is not positive, or the oil fills the clearance volume.

    Valid for
    ---------
    Upright cylinders, all the oil on the piston, the same exponent dry and wet.

    Source
    ------
    [derived] polytropic compression, docs/method/diagnosis.md.

    Examples
    --------
    >>> round(oil_gain(450e3, 9.9, 5e3).gain, 2)
    0.13
    """
    n = threshold("wet_exponent") if exponent is None else exponent
    _within(swept_volume, ratio, n)
    clearance = Step.work_out(
        "Clearance volume",
        "swept_volume / (ratio - 1)",
        {"swept_volume": (swept_volume, "mm³"), "ratio": (ratio, "1")},
        ("clearance_volume", "mm³"),
        "derived",
    )
    if not 0.0 < oil_volume < clearance.value:
        raise OutOfRange(
            "oil_volume",
            f"{oil_volume / 1000:.6g} cc",
            f"allowed: above 0 and below the clearance volume, {clearance.value / 1000:.4g} cc",
        )
    wet = Step.work_out(
        "Ratio with the oil on the piston",
        "(swept_volume + clearance_volume - oil_volume) / (clearance_volume - oil_volume)",
        {
            "swept_volume": (swept_volume, "mm³"),
            "clearance_volume": clearance.figure(),
            "oil_volume": (oil_volume, "mm³"),
        },
        ("wet_ratio", "1"),
        "derived",
    )
    gain = Step.work_out(
        "Gain of the gauge reading by the oil alone",
        "(wet_ratio**exponent - 1) / (ratio**exponent - 1) - 1",
        {"wet_ratio": (as_printed(wet.value), "1"), "ratio": (as_printed(ratio), "1"), "exponent": (n, "1")},
        ("gain_without_leak", "1"),
        "derived",
    )
    return OilGain(gain.value, (clearance, wet, gain), _oil_notes())


def _within(swept_volume: float, ratio: float, exponent: float) -> None:
    if swept_volume <= 0.0:
        raise OutOfRange("swept_volume", f"{swept_volume / 1000:.6g} cc", "must be above zero")
    if ratio <= 1.0:
        raise OutOfRange("ratio", f"{ratio:.6g}", "must be above 1")
    if not 0.9 <= exponent <= 1.5:
        raise OutOfRange("exponent", f"{exponent:.6g}", "allowed: 0.9 to 1.5")


def _oil_notes() -> tuple[Note, ...]:
    return (
        Note(UPRIGHT, "derived"),
        Note(
            DIESEL_OIL,
            "common-practice",
        ),
    )


DIESEL_OIL = (
    "On a diesel the clearance is so small that little oil changes much, and too much can lock the engine or fire it: "
    "measure the oil."
)
"""Said of diesels, and where the fuel is not known."""


def oil_is_felt(dry: Sequence[float], wet: Sequence[float], oil: float) -> bool:
    """Tell whether the middle cylinder rises as if the oil lay in the clearance; with fewer than three nobody can tell.

    Parameters
    ----------
    dry, wet : sequence of float
        Readings in cylinder order [MPa].
    oil : float
        Gain by the volume of the oil alone [1].

    Returns
    -------
    bool
        Whether the gain by volume may be taken off [1].

    Source
    ------
    [generic-ours] threshold of tables/data/diagnosis_rules.csv.

    Examples
    --------
    >>> oil_is_felt((2.6, 2.7, 1.9, 2.7), (3.0, 3.1, 2.9, 3.1), 0.49)
    False
    """
    gains = [after / before - 1.0 for before, after in zip(dry, wet, strict=True) if before > 0.0]
    return len(gains) < 3 or median(gains) >= threshold("oil_felt_from") * oil


def read_wet(
    dry: Sequence[float], wet: Sequence[float], oil: float | None
) -> tuple[tuple[WetReading, ...], tuple[Step, ...]]:
    """Hold each wet reading against its dry one.

    Parameters
    ----------
    dry : sequence of float
        Dry readings in cylinder order [MPa].
    wet : sequence of float
        Wet readings in the same order [MPa].
    oil : float or None
        Gain by the volume of the oil alone; None takes the middle rise of all cylinders instead [1].

    Returns
    -------
    tuple
        One WetReading per cylinder, and the written sums [core].

    Raises
    ------
    OutOfRange
        If the two lists differ in length.

    Source
    ------
    [generic-ours] thresholds of tables/data/diagnosis_rules.csv.

    Examples
    --------
    >>> readings, steps = read_wet((0.5, 0.1), (0.57, 0.17), None)
    >>> [reading.percent_misleads for reading in readings]
    [False, True]
    """
    if len(dry) != len(wet):
        raise OutOfRange("wet", f"{len(wet)} readings", f"allowed: as many as dry, {len(dry)}")
    middle = median(after - before for before, after in zip(dry, wet, strict=True))
    readings, steps = [], []
    for cylinder, (before, after) in enumerate(zip(dry, wet, strict=True), start=1):
        figures: dict[str, Figure] = {"wet": (as_printed(after), "MPa"), "dry": (as_printed(before), "MPa")}
        rise = Step.work_out(
            f"Cylinder {cylinder}: rise with oil", "wet - dry", figures, ("rise", "MPa"), "derived"
        )
        own = _beyond(cylinder, rise, before, oil, middle)
        gain = _gain(cylinder, figures) if before > 0.0 else None
        readings.append(
            WetReading(
                cylinder,
                gain.value if gain else None,
                rise.value,
                own.value,
                before < threshold("low_dry_below") * max(dry),
                own.value > threshold("ring_gain_over_highest") * max(dry),
            )
        )
        steps += [rise, *([gain] if gain else []), own]
    return tuple(readings), tuple(steps)


def _gain(cylinder: int, figures: dict[str, Figure]) -> Step:
    return Step.work_out(
        f"Cylinder {cylinder}: gain with oil",
        "wet / dry - 1",
        figures,
        (f"wet_gain_{cylinder}", "1"),
        "derived",
    )


def _beyond(cylinder: int, rise: Step, dry: float, oil: float | None, middle: float) -> Step:
    name = (f"beyond_oil_{cylinder}", "MPa")
    if oil is None:
        return Step.work_out(
            f"Cylinder {cylinder}: rise beyond the middle one of all cylinders",
            "rise - middle_rise",
            {"rise": (as_printed(rise.value), "MPa"), "middle_rise": (as_printed(middle), "MPa")},
            name,
            "derived",
        )
    return Step.work_out(
        f"Cylinder {cylinder}: rise beyond that of the oil alone",
        "rise - oil_gain * dry",
        {
            "rise": (as_printed(rise.value), "MPa"),
            "oil_gain": (as_printed(oil), "1"),
            "dry": (as_printed(dry), "MPa"),
        },
        name,
        "derived",
    )
