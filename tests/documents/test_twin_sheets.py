"""The tightening sheet of one job in both unit families: the same order, the same lines, the same torques."""

import re
from pathlib import Path

import pytest

from firedeck.assess import assess
from firedeck.assess.plain import plain
from firedeck.job import read_file, read_text
from firedeck.report import render

HERE = Path(__file__).parent
EXAMPLES = HERE.parents[1] / "examples" / "jobs"
OTHER = {"30 N·m": "22.126862 lbf·ft", "20 Nm": "14.751241 lbf·ft", "200 Nm": "147.51241 lbf·ft"}
FIGURE = re.compile(r"[\d.]+ (?:N·m|lbf·ft)")


def sheet(job):
    text = render(plain(assess(job, "tighten")), "tightening", "text").decode("utf-8")
    return [line.rstrip() for line in text.splitlines() if "revision" not in line]


def written(file, **changes):
    text = file.read_text(encoding="utf-8")
    for old, new in changes.get("replace", {}).items():
        assert old in text
        text = text.replace(old, new)
    return read_text(text)


@pytest.mark.parametrize("twin", ["mm", "mirrored"])
def test_a_twin_gets_the_very_same_sheet(twin):
    theirs = sheet(read_file(HERE / "twins" / f"inline-four-{twin}.toml"))
    ours = sheet(read_file(EXAMPLES / "inline-four.toml"))
    assert len(ours) > 15
    assert theirs == ours


def test_torques_in_the_other_family_are_the_same_lines_with_both_figures():
    ours = sheet(read_file(EXAMPLES / "inline-four.toml"))
    inch = sheet(written(EXAMPLES / "inline-four.toml", replace=OTHER))
    ours_said, inch_said = (" ".join(" ".join(lines).split()) for lines in (ours, inch))
    assert bare(ours_said) == bare(inch_said)
    assert "30 N·m (22.1 lbf·ft)" in ours_said
    assert "lbf·ft (30 N·m)" in inch_said


def bare(said):
    """Take figures and signs away: what is left is the order and what is done."""
    return re.sub(r"\W+", " ", FIGURE.sub("#", said))
