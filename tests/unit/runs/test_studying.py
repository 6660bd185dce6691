"""Studies that are kept: the same again, never a broken one, two at once, ended in the middle; faults by their type."""

import json
import shutil
import subprocess
import sys
import threading
import time
from dataclasses import replace

import numpy as np
import pytest
from unit.runs.small_study import ABOUT, CASTINGS, LABELS, asked, given

from firedeck.errors import DidNotConverge, JobError, OutOfRange
from firedeck.joint.assembling import Bolt
from firedeck.joint.laws import Law, Per
from firedeck.joint.study import JointStudy
from firedeck.joint.tightening import TurnTo
from firedeck.runs import Cache, Stopped, StudyRequest, condensed_already, kept_study, study
from firedeck.runs.plain_results import as_plain, from_plain
from firedeck.runs.studying import STUDYING

ASKED = asked()


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    return Cache(tmp_path_factory.mktemp("studies"))


@pytest.fixture(scope="module")
def found(cache):
    return study(ASKED, cache)


def test_what_lies_ready_is_told(found, condensed, tmp_path_factory):
    assert not condensed_already(ASKED, Cache(tmp_path_factory.mktemp("empty")))
    assert condensed_already(ASKED, condensed)


def test_a_second_look_is_word_for_word_the_same(found, cache, monkeypatch):
    monkeypatch.setattr("firedeck.runs.studying._worked_out", None)
    assert study(ASKED, cache) == found == kept_study(ASKED, cache)


def test_a_torn_one_is_worked_out_again_and_is_the_same(found, cache):
    cache.text(ASKED.key).write_text("{", encoding="utf-8")
    again = study(ASKED, cache)
    assert as_plain(again.places[0]) == as_plain(found.places[0])
    assert again == found


def test_plain_data_and_back(found):
    assert from_plain(JointStudy, json.loads(json.dumps(as_plain(found)))) == found
    plain = as_plain(found)
    del plain["mesh"]
    with pytest.raises(ValueError, match="other fields"):
        from_plain(JointStudy, plain)
    with pytest.raises(TypeError):
        from_plain(JointStudy, as_plain(found) | {"mesh": 3})


@pytest.mark.parametrize("damage", ["torn", "altered", "text", "another's", "no study"])
def test_a_broken_study_is_taken_away(found, cache, damage):
    file = cache.text(ASKED.key)
    whole = file.read_text(encoding="utf-8")
    if damage == "torn":
        file.write_text(whole[: len(whole) // 2], encoding="utf-8")
    elif damage == "altered":
        file.write_text(whole.replace("no worse", "worse").replace("worse", "no worse"), encoding="utf-8")
        assert file.read_text(encoding="utf-8") != whole
    elif damage == "text":
        file.write_text("[]", encoding="utf-8")
    elif damage == "another's":
        kept = json.loads(whole)
        file.write_text(json.dumps(kept | {"key": "0" * 40}), encoding="utf-8")
    else:
        file.write_text(json.dumps({"key": ASKED.key, "check": "", "study": "{}"}), encoding="utf-8")
    assert kept_study(ASKED, cache) is None
    assert not file.exists()
    file.write_text(whole, encoding="utf-8")
    assert kept_study(ASKED, cache) == found


def test_whatever_goes_in_is_in_the_key(monkeypatch):
    others = [
        asked(now=given(peak=7.001)),
        asked(as_built=given(tension=32.1e3)),
        asked(now=given(peak=7.0, faces=0.004)),
        asked(castings=replace(CASTINGS, cut_head=0.1)),
        asked(about=replace(ABOUT, joints=25)),
        StudyRequest(ABOUT, ASKED.now, None),
    ]
    keys = [ASKED.key, *(one.key for one in others)]
    monkeypatch.setattr("firedeck.runs.studying.maker_hash", lambda: "another source")
    assert len({*keys, ASKED.key}) == len(others) + 2


SCRIPT = """
import sys; from pathlib import Path
sys.path.insert(0, {tests!r})
from firedeck.runs import Cache, study
from unit.runs.test_studying import ASKED
print(study(ASKED, Cache(Path({folder!r}))).places[0].change)
"""


def another(cache):
    tests = next(path for path in sys.path if path.endswith("tests"))
    text = SCRIPT.format(tests=tests, folder=str(cache.folder))
    return subprocess.Popen([sys.executable, "-c", text], stdout=subprocess.PIPE, text=True)


@pytest.fixture
def condensed(found, cache, tmp_path):
    """A cache of its own in which every body lies ready."""
    for file in cache.folder.glob("*.npz"):
        shutil.copy2(file, tmp_path)
    return Cache(tmp_path)


def test_two_processes_at_once_find_the_same_and_one_is_kept(found, condensed):
    changes = [float(one.communicate(timeout=300)[0]) for one in [another(condensed), another(condensed)]]
    assert changes == pytest.approx([found.places[0].change] * 2, rel=1e-6)
    assert len(list(condensed.folder.glob("*.json"))) == 1
    assert not list(condensed.folder.glob("aside-*"))


def test_killed_in_the_middle_leaves_nothing_wrong_and_no_lock(found, condensed):
    one = another(condensed)
    while not list(condensed.folder.glob("study-*.lock")):
        assert one.poll() is None
        time.sleep(0.01)
    one.kill()
    one.communicate()
    assert kept_study(ASKED, condensed) is None
    assert study(ASKED, condensed).places[0].change == pytest.approx(found.places[0].change, rel=1e-6)


def test_ended_on_demand(tmp_path):
    stop = threading.Event()
    stop.set()
    with pytest.raises(Stopped):
        study(ASKED, Cache(tmp_path), stop=stop)
    assert not list(tmp_path.glob("*.json"))


def test_ended_half_way_through_the_study(found, condensed):
    """Everything is condensed; the page's stop, or Ctrl-C, is heard between the stages of the study itself."""
    stop, said = threading.Event(), []

    def told(part, share):
        said.append(share if part == STUDYING else -1.0)
        if said[-1] > 0.4:
            stop.set()

    with pytest.raises(Stopped):
        study(ASKED, condensed, told=told, stop=stop)
    assert 0.4 < said[-1] < 0.8
    assert kept_study(ASKED, condensed) is None
    assert study(ASKED, condensed).places[0].change == pytest.approx(found.places[0].change, rel=1e-6)


def test_how_far_the_study_is_rises_to_the_end(found, condensed):
    said = []

    def told(part, share):
        if part == STUDYING:
            said.append(share)

    study(ASKED, condensed, told=told)
    assert said == sorted(said)
    assert (said[0], said[-1]) == (0.0, 1.0)
    assert len(said) >= 5


def test_old_studies_go_first(found, cache, tmp_path, monkeypatch):
    monkeypatch.setattr("firedeck.runs.cache.MOST_TEXTS", 3)
    small = Cache(tmp_path)
    for number in range(5):
        small.write_text(f"key{number}", "{}")
        time.sleep(0.01)
    assert sorted(file.stem for file in tmp_path.glob("*.json")) == ["key2", "key3", "key4"]


def test_gas_that_parts_the_joint_is_named(cache):
    with pytest.raises(DidNotConverge):
        study(asked(now=given(peak=300.0)), cache)


def test_a_torque_no_bolt_holds_is_named(cache):
    loose = given()
    far = replace(loose.inputs, actions=tuple(TurnTo(place, 65e3) for place in range(len(LABELS))))
    with pytest.raises(OutOfRange, match="yields at"):
        study(asked(now=replace(loose, inputs=far)), cache)


def test_a_missing_bolt_is_named(cache):
    one = given()
    fewer = replace(one.inputs, bolts={label: Bolt(2.5e5, 60e3) for label in LABELS[1:]})
    with pytest.raises(JobError, match="no bolt for"):
        study(asked(now=replace(one, inputs=fewer)), cache)


def test_a_law_that_falls_is_never_made():
    with pytest.raises(OutOfRange, match="falls"):
        Law("falling", Per.LINE, (0.0, 0.1, 0.2), (0.0, 80.0, 60.0), 4e3, 1e3, 0.0, 0.2, "generic-ours")


@pytest.mark.parametrize("fault", ["overlap", "bolt in a bore", "no bolts"])
def test_faults_of_the_hole_pattern_are_named(fault):
    plan = CASTINGS.request.plan
    first, second, *rest = plan.bores
    bolt = plan.fasteners[0]
    changed = {
        "overlap": {"bores": (replace(first, x=second.x - 40.0, y=second.y), second, *rest)},
        "bolt in a bore": {"fasteners": (replace(bolt, x=first.x, y=first.y), *plan.fasteners[1:])},
        "no bolts": {"fasteners": ()},
    }
    with pytest.raises(JobError) as raised:
        replace(plan, **changed[fault])
    assert raised.value.path.startswith("layout.")


def test_every_part_of_the_band_is_there_and_scaled_laws_rise(found):
    names = {one.name for one in found.influences}
    assert {"tension", "section", "gasket curve", "peak pressure", "faces"} <= names
    assert sum(one.share for one in found.influences) == pytest.approx(1.0)
    assert all(one.band.low <= 0.0 <= one.band.high for one in found.influences)
    for place in found.places:
        low, high = (
            place.change + sign * np.sqrt(sum(x**2 for name, (x, _) in step_parts(place, end).items()))
            for sign, end in ((-1, "Lower"), (1, "Upper"))
        )
        assert (low, high) == pytest.approx((place.change_band.low, place.change_band.high))


def step_parts(place, end):
    (step,) = [one for one in place.steps if one.says.startswith(end)]
    return {name: figure for name, figure in step.inputs.items() if name != "change"}
