"""The torque wrench: the torques it must show, its scale, and its setting with an adapter on the end."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.fasteners.procedure_lines import Setting
from firedeck.fasteners.procedure_words import both_units
from firedeck.job.schema.engine import Wrench
from firedeck.quantity import Kind, show
from firedeck.trace import COMMON_PRACTICE, DERIVED, NO_UNIT, Limit, Measure, Rank, Step
from firedeck.trace.limit import Context

LEAST_OF_SCALE = 0.2
"""A wrench is read from a fifth of its scale upwards."""


@dataclass(frozen=True)
class Torque:
    """One torque of the papers [N·mm] in both units, and the setting of the wrench with its adapter."""

    text: str
    step: Step
    setting: str


@dataclass(frozen=True)
class WrenchFound:
    """Torques of the papers, least first, and the scale as a limit; None where no wrench is written down.

    ``lowest`` is the share of the scale the smallest setting uses; ``length_wanted`` when an adapter changes the setting
    and nobody has written how long the wrench is.
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


def wrench_found(wrench: Wrench | None, settings: Sequence[Setting]) -> WrenchFound:
    """Put the torques of a procedure beside the scale of the wrench."""
    each = {(one.low, one.high): one for one in settings}
    ends = [(end, one) for one in each.values() for end in dict.fromkeys((one.low, one.high))]
    torques = tuple(_torque(end, one, wrench) for end, one in sorted(ends, key=lambda pair: pair[0]))
    if wrench is None:
        return WrenchFound(torques, None, None, None)
    return WrenchFound(
        torques,
        _scale(wrench),
        wrench.checked,
        wrench.kind,
        _other_unit(wrench, settings),
        _division(wrench, torques),
        wrench.adapter is not None and wrench.adapter_set == "square",
        _lowest(wrench, torques),
        wrench.adapter is not None and wrench.adapter_set != "square" and wrench.length is None,
    )


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


def _torque(torque: float, setting: Setting, wrench: Wrench | None) -> Torque:
    adapter, length = (wrench.adapter, wrench.length) if wrench else (None, None)
    if adapter is None or length is None or (wrench and wrench.adapter_set == "square"):
        step = Step.work_out(
            "Torque of the papers",
            "torque",
            {"torque": (torque, "N·mm")},
            ("wrench_setting", "N·mm"),
            DERIVED,
        )
        return Torque(both_units(setting), step, "")
    step = Step.work_out(
        "Setting of the wrench with the adapter straight out",
        "torque * wrench_length / (wrench_length + adapter_length)",
        {
            "torque": (torque, "N·mm"),
            "wrench_length": (length.value, "mm"),
            "adapter_length": (adapter.value, "mm"),
        },
        ("wrench_setting", "N·mm"),
        DERIVED,
    )
    shown = [show(step.value, Kind.TORQUE, family) for family in ("mm", "inch")]
    return Torque(both_units(setting), step, f"{shown[0]} ({shown[1]})")
