"""What is announced as a new shape is what has to be condensed again, and nothing else is."""

from pathlib import Path

import pytest

from firedeck.assess.what_if import AT_ONCE, NEW_SHAPE, WITH_THE_OTHERS, Way, announced, ways
from firedeck.errors import JobError
from firedeck.job import read_text

EXAMPLE = Path(__file__).parents[3] / "examples" / "jobs" / "inline-four.toml"
SHAPES = {
    "joint.head.layout.bores.2.x": "95 mm",
    'joint.head.layout.passages."water 1".diameter': "12 mm",
    "joint.head.gasket.candidates.steel.bore": "88 mm",
    "joint.head.head.material": "grey-iron",
    "joint.head.head.section.deck": "9 mm",
    "joint.head.block.liners": "wet",
    "joint.head.cut.block": "0.1 mm",
    "joint.head.fasteners.all.washer.outer_diameter": "24 mm",
}
QUICK = {
    "joint.head.procedure.text": "90 N·m",
    "joint.head.fasteners.all.waisted": True,
    "joint.head.fasteners.all.lubricant": "dry",
    "joint.head.gasket.candidates.steel.construction": "composite",
    "joint.head.head.section.mass": "12 kg",
    "joint.head.cut.head": "0.3 mm",
    "running.boost": "0.5 bar",
    "job.notes": "nothing to do with the joint",
}


@pytest.fixture(scope="module")
def job():
    """The invented inline four with a gasket chosen and without its faces, which take longest."""
    before, _, rest = EXAMPLE.read_text(encoding="utf-8").partition("[[joint.readings.faces]]")
    text = before + "[[joint.readings.finish]]" + rest.partition("[[joint.readings.finish]]")[2]
    return read_text(text).changed({"joint.head.gasket.fitted": "steel"})


@pytest.fixture
def nothing_kept(tmp_path, monkeypatch):
    monkeypatch.setenv("FIREDECK_CACHE", str(tmp_path))


def test_new_shapes_and_what_is_answered_at_once(job, nothing_kept):
    said = announced(job, Way("all", SHAPES | QUICK))
    assert {path for path, soon in said.items() if soon == NEW_SHAPE} == set(SHAPES)
    assert {path for path, soon in said.items() if soon == AT_ONCE} == set(QUICK)


def test_what_only_makes_sense_with_other_changes_is_said_so(job, nothing_kept):
    alone = {"engine.cylinders": ["1", "2", "3"]}
    assert announced(job, Way("half", alone)) == {next(iter(alone)): WITH_THE_OTHERS}


def test_typed_changes_go_on_top_of_every_way(job):
    change = {"running.boost": "0.5 bar"}
    found = ways(job, change, ["soft gasket, no cut"], candidates=True)
    assert [way.name for way in found] == ["soft gasket, no cut", "gasket soft"]
    assert all(way.changes["running.boost"] == "0.5 bar" for way in found)
    assert [way.name for way in ways(job, change, [], candidates=False)] == ["as typed"]


@pytest.mark.parametrize(("variants", "says"), [(["sofd"], "soft gasket, no cut"), ([], "--candidates")])
def test_no_way_or_an_unknown_one_says_what_there_is(job, variants, says):
    with pytest.raises(JobError, match=says):
        ways(job, {}, variants, candidates=False)
