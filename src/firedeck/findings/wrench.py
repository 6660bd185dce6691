"""The torque wrench: the torques it must show, its scale, and its setting with an adapter on the end."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.fasteners.procedure_lines import Setting
from firedeck.fasteners.procedure_words import both_units
from firedeck.job.schema.engine import Wrench
from firedeck.quantity import Kind, in_unit, show
from firedeck.tables import rows
from firedeck.trace import COMMON_PRACTICE, DERIVED, NO_UNIT, Limit, Measure, Rank, Step
from firedeck.trace.limit import Context

LEAST_OF_SCALE = 0.2
"""A wrench is read from a fifth of its scale upwards."""
FINE = 100.0
"""Below this a setting is written to a tenth."""


@dataclass(frozen=True)
class Torque:
    """One torque of the papers [N·mm] in both units and as typed, and what the wrench is set to where that differs."""

    text: str
    typed: str
    step: Step
    setting: str


@dataclass(frozen=True)
class WrenchError:
    """How far the wrench may be out, as a share of the torque, alike for every fastener of the job."""

    share: float
    says: str
    source: str


@dataclass(frozen=True)
class WrenchFound:
    """Torques of the papers, least first, and the scale as a limit; None where no wrench is written down.

    ``unit`` is that of the scale where the papers use another one. ``lowest`` is the share of the scale the smallest setting
    uses; ``length_wanted`` when an adapter changes the setting and nobody has written how long the wrench is.
    """

    torques: tuple[Torque, ...]
    scale: Limit | None
    checked: str | None
    kind: str | None
    unit: str = ""
    division: Step | None = None
    square: bool = False
    lowest: Step | None = None
    length_wanted: bool = False
    lengthened: bool = False
    mixes_up: bool = False
    error: WrenchError | None = None


def wrench_found(wrench: Wrench | None, settings: Sequence[Setting]) -> WrenchFound:
    """Put the torques of a procedure beside the scale of the wrench."""
    each = {(one.low, one.high): one for one in settings}
    ends = [(end, one) for one in each.values() for end in dict.fromkeys((one.low, one.high))]
    unit = _other_unit(wrench, settings) if wrench else ""
    torques = tuple(_torque(end, one, wrench, unit) for end, one in sorted(ends, key=lambda pair: pair[0]))
    if wrench is None:
        return WrenchFound(torques, None, None, None)
    return WrenchFound(
        torques,
        _scale(wrench),
        wrench.checked,
        wrench.kind,
        unit,
        _division(wrench, torques),
        wrench.adapter is not None and wrench.adapter_set == "square",
        _lowest(wrench, torques),
        wrench.adapter is not None and wrench.adapter_set != "square" and wrench.length is None,
        _lengthened(wrench),
        bool(unit) and {unit, *(one.unit for one in settings)} <= {"N·m", "lbf·ft"},
        _error(wrench),
    )


def _error(wrench: Wrench) -> WrenchError | None:
    """Look up how far out a wrench may be by its last check; None where nothing is said of one."""
    known = [row for row in rows("wrench_errors") if row["checked"] == wrench.checked]
    return WrenchError(float(known[0]["share"]), known[0]["says"], known[0]["source"]) if known else None


def _lengthened(wrench: Wrench | None) -> bool:
    """Tell whether an adapter straight out changes the setting, and by how much is known."""
    return bool(wrench and wrench.adapter and wrench.length and wrench.adapter_set != "square")


def _other_unit(wrench: Wrench, settings: Sequence[Setting]) -> str:
    """Return the unit of the scale, as its ends were typed, where a torque of the papers is in another."""
    end = wrench.high or wrench.low
    return end.unit if end and any(one.unit != end.unit for one in settings) else ""


def _division(wrench: Wrench, torques: Sequence[Torque]) -> Step | None:
    """Hold one mark of the scale against the smallest torque."""
    if wrench.division is None or not torques:
        return None
    figures = {
        "scale_division": (wrench.division.value, "N·mm"),
        "smallest_torque": (torques[0].step.value, "N·mm"),
    }
    says = "One mark of the scale over the smallest torque"
    return Step.work_out(
        says, "scale_division / smallest_torque", figures, ("division_share", NO_UNIT), DERIVED
    )


def _lowest(wrench: Wrench, torques: Sequence[Torque]) -> Step | None:
    """Hold the smallest setting against the end of the scale: low down a wrench is least true."""
    if wrench.high is None or not torques:
        return None
    figures = {
        "smallest_torque": (torques[0].step.value, "N·mm"),
        "end_of_scale": (wrench.high.value, "N·mm"),
    }
    says = "Smallest setting over the end of the scale"
    return Step.work_out(says, "smallest_torque / end_of_scale", figures, ("scale_share", NO_UNIT), DERIVED)


def _scale(wrench: Wrench) -> Limit | None:
    if wrench.low is None and wrench.high is None:
        return None
    high = wrench.high.value if wrench.high else None
    low = wrench.low.value if wrench.low else LEAST_OF_SCALE * high if high else None
    text = " to ".join(show(end, Kind.TORQUE, "mm") for end in (low, high) if end is not None)
    source = "the wrench" if wrench.low else COMMON_PRACTICE
    return Limit(
        "torque",
        low,
        high,
        Measure.SINGLE_READING,
        Context(),
        Rank.COMMON_PRACTICE,
        source,
        "tools.wrench",
        text,
    )


def _torque(torque: float, setting: Setting, wrench: Wrench | None, unit: str) -> Torque:
    if wrench is None or wrench.adapter is None or wrench.length is None or not _lengthened(wrench):
        step = Step.work_out(
            "Torque of the papers",
            "torque",
            {"torque": (torque, "N·mm")},
            ("wrench_setting", "N·mm"),
            DERIVED,
        )
        return Torque(both_units(setting), setting.text, step, _in(torque, unit) if unit else "")
    step = Step.work_out(
        "Setting of the wrench with the adapter straight out",
        "torque * wrench_length / (wrench_length + adapter_length)",
        {
            "torque": (torque, "N·mm"),
            "wrench_length": (wrench.length.value, "mm"),
            "adapter_length": (wrench.adapter.value, "mm"),
        },
        ("wrench_setting", "N·mm"),
        DERIVED,
    )
    end = wrench.high or wrench.low
    shown = [_in(step.value, one) for one in ([end.unit] if end else ["N·m", "lbf·ft"])]
    return Torque(both_units(setting), setting.text, step, " or ".join(shown))


def _in(torque: float, unit: str) -> str:
    """Write a setting as it is read off a scale: to a tenth below a hundred."""
    figure = in_unit(torque, Kind.TORQUE, unit)
    return f"{figure:.{int(figure < FINE)}f}".removesuffix(".0") + f" {unit}"
