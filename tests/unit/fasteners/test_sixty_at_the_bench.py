"""The sixty procedures at the terminal and on the sheet: read, told as JSON, every turn drawn."""

import json
import math
import re
from typing import Any

import pytest
from unit.fasteners.test_procedure_sixty import CASES, ONE, same

from firedeck.cli import main
from firedeck.fasteners.procedure_lines import Act
from firedeck.fasteners.procedure_reading import parse
from firedeck.fasteners.procedure_settings import read_setting
from firedeck.findings.procedure_work import work_lines
from firedeck.quantity import Kind
from firedeck.report.bodies import turn_of


@ONE
def test_the_terminal_gives_it_back_as_json(case: dict[str, Any], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["procedure", case["text"], "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    assert parse(said["text"]) == parse(case["text"])
    assert len(said["explained"]) == len(parse(case["text"]).lines)
    told = {one["group"]: one for one in said["groups"]}
    for group, expected in case["expect"].items():
        if group in told:
            assert same_text(told[group]["final_torque"], expected["torque"])
            assert told[group]["retorque"] is expected.get("retorque", False)


def same_text(told: str | None, printed: str | None) -> bool:
    return same(read_setting(told, Kind.TORQUE) if told else None, printed, Kind.TORQUE)


@ONE
def test_every_turn_is_drawn_as_wide_as_it_is_and_the_right_way(case: dict[str, Any]) -> None:
    procedure = parse(case["text"])
    steps = [line for line in procedure.lines if not hasattr(line, "place")]
    work = [line for line in work_lines(procedure) if line.text.startswith("Step")]
    assert len(work) == len(steps)
    for step, line in zip(steps, work, strict=True):
        drawn = turn_of(1, {"text": line.text, "figure": line.figure, "source": ""}, "")
        turns = step.act in (Act.TURN, Act.LOOSEN) and step.setting is not None
        assert (drawn.picture is not None) is turns, line
        if drawn.picture is not None and step.setting is not None:
            way, degrees = re.fullmatch(r"(Turn on|Loosen) by (\S+) degrees", drawn.picture.alt).groups()
            assert (way == "Loosen") is (step.act is Act.LOOSEN)
            assert step.setting.low - 1e-9 <= math.radians(float(degrees)) <= step.setting.high + 1e-9


def test_some_turn_and_some_loosen() -> None:
    acts = [line.act for case in CASES for line in parse(case["text"]).lines if not hasattr(line, "place")]
    assert acts.count(Act.TURN) > 20
    assert acts.count(Act.LOOSEN) > 5
