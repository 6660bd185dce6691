"""The clamped joint from a document to words, to files, and to a stranger's own solution; a small invented single."""

import csv
import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from firedeck.assess.clamped import NOT_COMPARED, as_arrays, clamped
from firedeck.cli import main
from firedeck.errors import OutOfRange
from firedeck.findings.clamped_joint import model_inputs
from firedeck.job.reading import read_file
from firedeck.joint.geometry.mesh import PREVIEW
from firedeck.joint.model import against, lived
from firedeck.runs import Cache, flexibility
from firedeck.trace import Missing

HERE = Path(__file__).parent
SINGLE = HERE / "small_single.toml"
EXAMPLES = HERE.parents[1] / "examples"


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        folder = tmp_path_factory.mktemp("cache")
        patch.setenv("FIREDECK_CACHE", str(folder))
        yield folder


@pytest.fixture(scope="module")
def job():
    return read_file(SINGLE)


@pytest.fixture(scope="module")
def result(job, cache):
    return clamped(job, job.joint("head"), PREVIEW)


@pytest.fixture(scope="module")
def folder(cache, tmp_path_factory):
    place = tmp_path_factory.mktemp("given") / "out"
    assert main(["joint", str(SINGLE), "--mesh", "preview", "--export", str(place)]) == 0
    return place


def test_more_pressure_than_as_built_is_worse(result):
    (change,) = result.changes
    assert change.place == "1"
    assert change.here < change.anchor
    assert change.rank.value == "worse"
    assert change.band.low <= change.change <= change.band.high


def test_the_torque_makes_the_tension_of_the_papers(result):
    lever = 28e3 / result.now.tightened.tensions[-1, [one.bolt for one in result.given.inputs.actions][-1]]
    assert 1.0 < lever < 2.5
    assert result.now.life.steps[0].value < 1e-9


def test_nothing_changed_is_no_change(result):
    given = result.given.inputs
    (same,) = against((result.now, given), (result.now, given), 20)
    assert (same.change, same.band.low, same.band.high, same.rank.value) == (0.0, 0.0, 0.0, "no worse")


def test_a_looser_joint_presses_less(result, job, cache):
    loose = job.changed({"joint.head.procedure.text": "oiled\n15 N·m\n22 N·m\n"})
    given = model_inputs(loose, loose.joint("head"), PREVIEW)
    flexible = flexibility(given.request, Cache(cache))
    whole = lived(flexible, given.request.points().share, given.inputs)
    assert whole.readings["cold"].ring("1").mean < result.now.readings["cold"].ring("1").mean


def test_words_say_what_is_known_and_what_is_not(cache, capsys):
    assert main(["joint", str(SINGLE), "--mesh", "preview"]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert "of what standard has left, band" in text
    assert "worse" in text
    assert NOT_COMPARED in text
    assert "too high" in text


def test_json_holds_the_same(cache, capsys, result):
    assert main(["joint", str(SINGLE), "--mesh", "preview", "--json"]) == 0
    (joint,) = json.loads(capsys.readouterr().out)["joints"]
    (bore,) = joint["bores"]
    assert bore["as_built"]["rank"] == "worse"
    assert bore["firing_lowest"] == pytest.approx(result.changes[0].here, abs=0.006)
    assert joint["says"] == NOT_COMPARED


def test_files_are_the_joint(folder, result):
    export = as_arrays(result)
    assert np.load(folder / "A.npy", allow_pickle=False) == pytest.approx(export.A)
    rows = list(csv.DictReader((folder / "points.csv").open(encoding="utf-8")))
    assert [row["kind"] for row in rows].count("bolt") == 4
    laws = json.loads((folder / "laws.json").read_text(encoding="utf-8"))
    assert {row["law"] for row in rows} == set(laws)
    with np.load(folder / "cases.npz", allow_pickle=False) as cases:
        assert cases["w_load"].shape == (len(cases["names"]), len(rows))


def test_a_stranger_finds_the_same(folder):
    command = [sys.executable, str(EXAMPLES / "solve_it_yourself.py"), str(folder)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.count("difference") == 4


def test_what_is_missing_is_asked_for(job):
    bare = job.changed({"joint.head.gasket.fitted": "", "joint.head.gasket.candidates": []})
    found = model_inputs(bare, bare.joint("head"))
    assert isinstance(found, Missing)
    assert "construction" in found.measure


def test_a_shape_the_bricks_cannot_carry_is_refused():
    job = read_file(EXAMPLES / "jobs" / "side-valve-single.toml")
    with pytest.raises(OutOfRange, match="simple sum"):
        model_inputs(job, job.joints[0])
