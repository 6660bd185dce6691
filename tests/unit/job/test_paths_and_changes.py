"""Paths name items, never positions; a change that meets nothing names the nearest path."""

import pytest

from firedeck.errors import JobError
from firedeck.job.change import Change, apply
from firedeck.job.paths import join_path, named, split_path

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
