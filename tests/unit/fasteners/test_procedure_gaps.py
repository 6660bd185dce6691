"""What the papers must still say for the fasteners of a joint."""

import pytest

from firedeck.fasteners.procedure_gaps import what_is_missing
from firedeck.fasteners.procedure_lines import FastenerGroup
from firedeck.fasteners.procedure_reading import parse

LONG = FastenerGroup("long bolts", ("1", "2", "3"))
SHORT = FastenerGroup("short", ("4",))


def measures(text: str | None, *groups: FastenerGroup) -> list[str]:
    procedure = None if text is None else parse(text)
    return [gap.measure for gap in what_is_missing(procedure, groups, "joint.left.procedure.text")]


@pytest.mark.parametrize(
    ("text", "missing"),
    [
        (None, ["the tightening procedure"]),
        ("oiled; 60 N·m", []),
        ("60 N·m", ["the lubrication of group long bolts", "the lubrication of group short"]),
        ("oiled; long: 60 N·m", ["the tightening of group short"]),
        ("oiled; LONG studs: 60 N·m; short: 20 N·m", []),
        ("1-3: oiled, 60 N·m; 4: dry, 20 N·m", []),
        ("oiled; 1-4: 60 N·m", []),
        ("oiled; 1-2: 60 N·m; 3, 4: 20 N·m", ["one way of tightening for group long bolts"]),
        ("oiled; 60 N·m; side: 20 N·m", ["which fasteners are group side"]),
    ],
)
def test_gaps(text: str | None, missing: list[str]) -> None:
    assert measures(text, LONG, SHORT) == missing


def test_a_gap_says_where_and_with_what() -> None:
    (gap,) = what_is_missing(None, (LONG,), "joint.left.procedure.text")
    assert gap.paths == ("joint.left.procedure.text",)
    assert (gap.tool, gap.how[:6]) == ("papers", "Torque")
