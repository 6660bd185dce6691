"""Paths name items, never positions; a change that meets nothing names the nearest path."""

from pathlib import Path

import pytest

from firedeck.errors import JobError
from firedeck.job import read_file
from firedeck.job.change import Change, apply, value_at
from firedeck.job.paths import join_path, named, split_path

EXAMPLES = Path(__file__).parents[3] / "examples" / "jobs"
RAW = {
    "joint": [
        {
            "name": "left",
            "cut": {"head": "0 mm"},
            "gasket": {"candidates": [{"name": "a.b c", "bore": "1 mm"}]},
        }
    ]
}


@pytest.mark.parametrize("text", ["joint.left.cut.head", 'joint.left.gasket.candidates."a.b c".bore', "a"])
def test_there_and_back(text):
    assert join_path(split_path(text)) == text


@pytest.mark.parametrize("text", ["", ".", "a.", "a..b", 'a."b', 'a "b"', "a b"])
def test_unreadable_paths_are_one_line(text):
    with pytest.raises(JobError) as fault:
        split_path(text)
    assert "\n" not in str(fault.value)


def test_a_change_replaces_one_value_and_leaves_the_rest():
    changed = apply(RAW, {'joint.left.gasket.candidates."a.b c".bore': "2 mm"})
    assert changed["joint"][0]["gasket"]["candidates"][0]["bore"] == "2 mm"
    assert RAW["joint"][0]["gasket"]["candidates"][0]["bore"] == "1 mm"


def test_a_change_may_state_what_was_left_out():
    assert apply(RAW, {"joint.left.chamber.plan_area": "50 cm2"})["joint"][0]["chamber"] == {
        "plan_area": "50 cm2"
    }


@pytest.mark.parametrize(
    ("path", "hint"),
    [("joint.right.cut.head", "joint.left.cut.head"), ("joints.left.cut.head", "joint.left.cut.head")],
)
def test_a_change_that_meets_nothing_names_the_nearest(path, hint):
    with pytest.raises(JobError) as fault:
        apply(RAW, {path: "1 mm"})
    assert hint in str(fault.value)


@pytest.mark.parametrize("text", ["", "a", "=1", "a="])
def test_typed_changes(text):
    with pytest.raises(JobError):
        Change.read(text)
    assert Change.read("joint.left.cut.head = 0.2 mm") == Change("joint.left.cut.head", "0.2 mm")


def test_places_become_paths_by_name():
    assert (
        named(("joint", 0, "gasket", "candidates", 0, "bore"), RAW)
        == 'joint.left.gasket.candidates."a.b c".bore'
    )
    assert named(("joint", 0, "cut"), {"joint": [{}]}) == 'joint."item 1".cut'


def test_what_is_done_now_does_not_change_how_it_left_the_factory():
    job = read_file(EXAMPLES / "inline-four.toml")
    boosted = job.what_if({"running.boost": "0.8 bar", "joint.head.cut.head": "0.3 mm"})
    assert boosted.document.running.boost.text == "0.8 bar"
    assert boosted.as_built().document.running.boost.text == "0 bar"
    assert boosted.as_built().joint("head").cut.head.text == "0 mm"
    assert job.changed({"running.boost": "0.8 bar"}).as_built().document.running.boost.text == "0.8 bar"


def test_the_factory_itself_may_be_asked_about():
    job = read_file(EXAMPLES / "inline-four.toml")
    other = job.what_if({"as_built.changes": {"running.boost": "0.2 bar"}})
    assert other.as_built().document.running.boost.text == "0.2 bar"
    assert other.document.running.boost.text == "0 bar"


def test_lists_and_truths_are_read_as_a_document_writes_them():
    assert Change.read('a.b=["1 mm", "2 mm"]').value == ["1 mm", "2 mm"]
    assert Change.read("a.b=true").value is True
    assert Change.read("a.b = {x = 1}").value == {"x": 1}
    assert Change.read("a.b=true blue").value == "true blue"


def test_the_value_at_a_path():
    raw = {"joint": [{"name": "left", "cut": {"head": "0 mm"}}]}
    assert value_at(raw, "joint.left.cut.head") == "0 mm"
    assert value_at(raw, "joint.left.cut.block") is None
    assert value_at(raw, "joint.right.cut.head") is None
