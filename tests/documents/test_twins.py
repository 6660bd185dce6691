"""Twins: one invented engine written down in other units, and seen from the other side, gets the same answers.

``inline-four-mm`` has every inch of the example in exact millimetres, and what was measured of its bolts in inches;
``inline-four-mirrored`` has the hole pattern and the readings of both faces as they look from the other side or with the
front to the right. One reading of each lies exactly on its limit.
"""

from pathlib import Path

import numpy as np
import pytest

from firedeck.assess import assess
from firedeck.findings.faces import find
from firedeck.job import read_file, read_text
from firedeck.quantity import Outcome as Meets
from firedeck.quantity import meets
from firedeck.surfaces.both import gap_field
from firedeck.trace import Outcome

HERE = Path(__file__).parent
EXAMPLE = HERE.parents[1] / "examples" / "jobs" / "inline-four.toml"
TWINS = {name: HERE / "twins" / f"inline-four-{name}.toml" for name in ("mm", "mirrored")}


def decided(job):
    """Return what a mechanic acts on: state, action and choice for every question and joint, and how each check came out."""
    return {
        (answer.question, answer.joint): (
            answer.state,
            answer.action,
            answer.choice,
            sorted((check.name, check.outcome) for check in answer.checks),
        )
        for answer in assess(job).answers
    }


@pytest.fixture(scope="module")
def example():
    return decided(read_file(EXAMPLE))


@pytest.mark.parametrize("twin", TWINS)
def test_a_twin_has_the_same_states_actions_and_outcomes(twin, example):
    assert len(example) >= 29
    assert decided(read_file(TWINS[twin])) == example


def gap_between(file):
    """Return the gap between both faces at every place, as the readings of this document have it."""
    job = read_file(file)
    faces = {face.face: face.points for face in find(job, job.joints[0], {}).faces}
    found = gap_field(faces["block"], faces["head"])
    order = np.lexsort(found.places.round(6).T)
    return np.column_stack((found.places, found.gap))[order]


@pytest.mark.parametrize("twin", TWINS)
def test_a_twin_has_the_same_gap_field(twin):
    field = gap_between(EXAMPLE)
    assert np.ptp(field[:, 2]) > 0.02
    assert gap_between(TWINS[twin]) == pytest.approx(field, abs=1e-9)


@pytest.mark.parametrize("file", [EXAMPLE, *TWINS.values()], ids=lambda file: file.stem)
def test_a_reading_lies_exactly_on_its_limit_in_each(file):
    """In inch and in mm alike; the error of the dial then makes it one that cannot be told."""
    (answer,) = [one for one in assess(read_file(file), "measure").answers if one.question == "face-flat"]
    held = [check for check in answer.checks if check.limit and check.value is not None]
    on_it = [one for one in held if meets(one.value, one.limit.low, one.limit.high) is Meets.AT_LIMIT]
    assert [check.outcome for check in on_it] == [Outcome.CANNOT_TELL]
    assert [check.value for check in on_it] == [pytest.approx(0.0508, abs=1e-12)]


@pytest.mark.parametrize("twin", TWINS)
def test_a_twin_says_nothing_else_than_the_example(twin):
    """Only lengths in other units and places seen otherwise differ: every other line is the same."""
    theirs, ours = (file.read_text(encoding="utf-8").splitlines() for file in (EXAMPLE, TWINS[twin]))
    theirs, ours = ([line for line in lines if not line.startswith("#")] for lines in (theirs, ours))
    assert len(theirs) == len(ours)
    unlike = [(old, new) for old, new in zip(theirs, ours, strict=True) if old != new]
    assert len(unlike) > 20
    keys = {old.split("=")[0].strip() for old, _ in unlike if "=" in old and not old.startswith("  {")}
    of_fasteners = {"sections", "grip_in_head", "engagement", "boss_diameter", "neck_diameters"}
    assert keys <= {
        "head",
        "error",
        "Ra",
        "high",
        "seen",
        "front",
        "zero",
        "zero_at",
        "outline",
        "y",
        *of_fasteners,
    }


LOPSIDED = [
    # where on the deck, from above and from bore 1: the row of the example, its place there, the row seen otherwise
    ("head", "248, -60, -2", "98, -112, -2", -9.0),
    ("head", "-60, 60, 0", "406, 8, 0", 3.0),
    ("head", "348, 0, 0", "-2, -52, 0", 1.5),
    ("block", "40, 60, -0.5", "317, 15, -0.5", -4.0),
    ("block", "348, -60, 0", "9, 135, 0", 1.0),
]


def with_reading(file, face, row, height):
    """Return the job of a file with one reading of a face changed."""
    text = file.read_text(encoding="utf-8")
    before, after = text.split(f'[[joint.readings.faces]]\nname = "{face}"', 1)
    assert after.count(f"\n{row}\n") >= 1
    other = row.rsplit(",", 1)[0] + f", {height}"
    return read_text(f'{before}[[joint.readings.faces]]\nname = "{face}"{after.replace(row, other, 1)}')


def flatness(job):
    (answer,) = [one for one in assess(job, "measure").answers if one.question == "face-flat"]
    return (
        answer.state,
        answer.action,
        answer.headline,
        {check.name: (pytest.approx(check.value, abs=1e-9), check.outcome) for check in answer.checks},
    )


@pytest.mark.parametrize(("face", "row", "seen_otherwise", "height"), LOPSIDED)
def test_one_odd_reading_falls_on_the_same_place(face, row, seen_otherwise, height):
    """The readings of the example look the same from both sides; with one of them odd they do not."""
    ours = flatness(with_reading(EXAMPLE, face, row, height))
    assert flatness(with_reading(TWINS["mirrored"], face, seen_otherwise, height)) == ours
    assert ours != flatness(read_file(EXAMPLE))
