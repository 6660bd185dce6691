"""The sixty committed procedures: each reads, says what it must, and comes back the same."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from firedeck.fasteners.procedure import Procedure
from firedeck.fasteners.procedure_lines import Setting
from firedeck.fasteners.procedure_reading import parse
from firedeck.fasteners.procedure_settings import read_setting
from firedeck.fasteners.procedure_words import explain, write
from firedeck.quantity import Kind

FOLDER = Path(__file__).parents[2] / "procedures"
MANUALS = tomllib.loads((FOLDER / "from-manuals.toml").read_text(encoding="utf-8"))["procedure"]
INVENTED = tomllib.loads((FOLDER / "invented.toml").read_text(encoding="utf-8"))["procedure"]
CASES = [*MANUALS, *INVENTED]
ONE = pytest.mark.parametrize("case", [pytest.param(case, id=case["name"]) for case in CASES])
GROUPS = pytest.mark.parametrize(
    ("case", "group", "expected"),
    [
        pytest.param(case, group, expected, id=f"{case['name']}: {group}")
        for case in CASES
        for group, expected in case["expect"].items()
    ],
)


def same(setting: Setting | None, printed: str | None, kind: Kind) -> bool:
    if setting is None or printed is None:
        return setting is None and printed is None
    other = read_setting(printed, kind)
    return (setting.low, setting.high) == pytest.approx((other.low, other.high), rel=1e-9)


def test_sixty_are_committed() -> None:
    assert len(CASES) == 60
    assert len(MANUALS) >= 12
    assert all(case["source"].startswith("US Army TM") for case in MANUALS)
    assert len({case["text"] for case in CASES}) == 60


@ONE
def test_comes_back_the_same(case: dict[str, Any]) -> None:
    procedure = parse(case["text"])
    assert parse(write(procedure)) == procedure
    assert write(parse(write(procedure))) == write(procedure)


@ONE
def test_is_explained_line_by_line(case: dict[str, Any]) -> None:
    procedure = parse(case["text"])
    lines = explain(procedure)
    assert len(lines) == len(procedure.lines)
    assert [line.split(".")[0] for line in lines if line[0].isdigit()] == [
        str(step.number) for step in procedure.steps
    ]
    for step, line in zip(procedure.lines, lines, strict=True):
        setting = getattr(step, "setting", None)
        assert setting is None or setting.text in line


@GROUPS
def test_steps_and_rounds(case: dict[str, Any], group: str, expected: dict[str, Any]) -> None:
    procedure = parse(case["text"])
    assert len(procedure.steps_for(group)) == expected["steps"]
    assert len(procedure.rounds(group)) == expected.get("rounds", expected["steps"])


@GROUPS
def test_final_torque_turn_and_floor(case: dict[str, Any], group: str, expected: dict[str, Any]) -> None:
    procedure = parse(case["text"])
    assert same(procedure.final_torque(group), expected["torque"], Kind.TORQUE)
    assert same(procedure.total_angle(group), expected.get("angle"), Kind.ANGLE)
    assert same(procedure.floor(group), expected.get("floor"), Kind.TORQUE)
    assert procedure.is_torque_plus_angle(group) is ("angle" in expected)
    assert (procedure.into_yield(group) is not None) is ("angle" in expected)


@GROUPS
def test_retorque_and_lubrication(case: dict[str, Any], group: str, expected: dict[str, Any]) -> None:
    procedure = parse(case["text"])
    assert procedure.needs_retorque(group) is expected.get("retorque", False)
    assert [line.kind for line in procedure.lubrication(group)] == expected.get("lubrication", [])


def test_two_sequences_keep_their_number() -> None:
    procedure: Procedure = parse("first sequence 60 N·m; second sequence 129 N·m; +30°")
    assert [step.sequence for step in procedure.steps] == [1, 2, 2]
