"""The clamped joint from a document to words, to files, and to a stranger's own solution; a small invented single."""

import csv
import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from firedeck.assess.clamped import as_arrays, clamped
from firedeck.cli import main
from firedeck.errors import OutOfRange
from firedeck.findings.clamped_joint import model_inputs
from firedeck.findings.finding import LongWork, When
from firedeck.findings.joint import NOT_COMPARED, at_once, factory_of, worked_out
from firedeck.job.reading import read_file
from firedeck.joint.geometry.mesh import PREVIEW
from firedeck.trace import Missing

HERE = Path(__file__).parent
SINGLE = HERE / "small_single.toml"
EXAMPLES = HERE.parents[1] / "examples"
NOW = LongWork(When.NOW)


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
def study(job, cache):
    return clamped(job, job.joint("head"), PREVIEW).study


@pytest.fixture(scope="module")
def folder(study, tmp_path_factory):
    place = tmp_path_factory.mktemp("given") / "out"
    assert main(["joint", str(SINGLE), "--mesh", "preview", "--export", str(place)]) == 0
    return place


def studied(job, before):
    return worked_out(job, before, "head", NOW, recipe=PREVIEW).study


def test_more_pressure_than_as_built_is_worse(study):
    (place,) = study.places
    assert study.compared
    assert study.differs == ("peak pressure",)
    assert place.firing_lowest < place.as_built_lowest
    assert place.rank.value == study.rank.value == "worse"
    assert place.change_band.low <= place.change <= place.change_band.high
    assert place.share_band.low <= place.share <= place.share_band.high


def test_the_written_sums_are_the_result(study):
    (place,) = study.places
    says = {step.says: step.value for step in place.steps}
    assert says["Change of the lowest line load"] == place.change
    assert says["Lower end of its band"] == place.change_band.low
    assert says["Of what standard has left"] == place.share
    left_over = [step.value for step in study.steps if "left_over" in step.result]
    assert len(left_over) >= 3
    assert max(left_over) < 1e-6


def test_it_matches_as_built_at_the_pressure_as_built(study, job):
    then = factory_of(job).document.running.peak_pressure.value
    assert study.matches_anchor_at.pressure == pytest.approx(then, rel=0.03)


def test_nothing_changed_is_no_change(job, cache):
    same = studied(job, job)
    (place,) = same.places
    assert same.differs == ()
    assert (place.change, place.share, place.rank.value) == (0.0, 1.0, "no worse")
    assert (place.change_band.low, place.change_band.high) == (0.0, 0.0)


def test_without_the_factory_nothing_is_ranked(job, cache, study):
    alone = studied(job, None)
    (place,) = alone.places
    assert (alone.rank, place.rank, place.change, place.share) == (None, None, None, None)
    assert place.firing_lowest == study.places[0].firing_lowest
    assert alone.matches_anchor_at is None


def test_a_looser_joint_is_worse_and_presses_less(job, study, cache):
    loose = job.changed({"joint.head.procedure.text": "oiled\n15 N·m\n22 N·m\n"})
    found = studied(loose, job)
    assert found.differs == ("tightening",)
    assert found.rank.value == "worse"
    assert found.places[0].cold_mean < study.places[0].cold_mean


def test_a_second_look_is_from_the_cache_and_the_same(job, study, cache):
    kept = worked_out(job, factory_of(job), "head", LongWork(When.KEPT), recipe=PREVIEW)
    assert kept.study == study
    assert worked_out(job, factory_of(job), "head", LongWork(When.NEVER)).waiting


def test_what_lies_ready_is_told_from_what_has_to_be_condensed(job, study, cache):
    more = job.changed({"running.peak_pressure": "7 MPa"})
    assert at_once(more, job, "head", recipe=PREVIEW)
    thinner = job.changed({"joint.head.head.section.deck": "9 mm"})
    assert not at_once(thinner, job, "head", recipe=PREVIEW)


def test_words_say_what_is_known_and_what_is_not(study, capsys):
    assert main(["joint", str(SINGLE), "--mesh", "preview"]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert text.startswith("head: worse than as built at No 1")
    assert "of what standard has left, band" in text
    assert NOT_COMPARED in text
    assert "too high" in text


def test_the_ring_is_drawn_here_or_into_a_file(study, capsys, tmp_path):
    assert main(["joint", str(SINGLE), "--mesh", "preview", "--picture"]) == 0
    said = capsys.readouterr().out
    assert "round every ring" in said
    assert f"No 1: lowest {study.places[0].firing_lowest:.0f} N/mm" in said
    file = tmp_path / "rings.svg"
    assert main(["joint", str(SINGLE), "--mesh", "preview", "--picture", str(file)]) == 0
    assert file.read_text("utf-8").startswith("<svg")
    assert main(["joint", str(SINGLE), "--picture", str(tmp_path / "rings.txt")]) == 2


def test_json_holds_the_same(capsys, study):
    assert main(["joint", str(SINGLE), "--mesh", "preview", "--json"]) == 0
    (joint,) = json.loads(capsys.readouterr().out)["joints"]
    (bore,) = joint["bores"]
    assert bore["as_built"]["rank"] == joint["rank"] == "worse"
    assert bore["firing_lowest"] == pytest.approx(study.places[0].firing_lowest, abs=0.006)
    assert joint["says"] == NOT_COMPARED


def test_files_are_the_joint(folder, job):
    export = as_arrays(job, job.joint("head"), PREVIEW)
    names = {
        "points.csv",
        "A.npy",
        "R.npy",
        "laws.json",
        "cases.npz",
        "start.npz",
        "result.npz",
        "README.txt",
    }
    assert {file.name for file in folder.iterdir()} == names
    A, R = (np.load(folder / f"{name}.npy", allow_pickle=False) for name in "AR")
    assert pytest.approx(export.A) == A
    n, k = R.shape
    assert A.shape == (n, n)
    rows = list(csv.DictReader((folder / "points.csv").open(encoding="utf-8")))
    assert list(rows[0]) == ["index", "kind", "place", "x", "y", "share", "law"]
    assert [int(row["index"]) for row in rows] == list(range(n))
    assert [row["kind"] for row in rows].count("bolt") == 4
    with np.load(folder / "cases.npz", allow_pickle=False) as cases:
        count = len(cases["names"])
        assert (cases["w_load"].shape, cases["r"].shape) == ((count, n), (count, k))
    with np.load(folder / "start.npz", allow_pickle=False) as start:
        assert start["largest_closure"].shape == (n,)
    with np.load(folder / "result.npz", allow_pickle=False) as found:
        assert (found["w"].shape, found["psi"].shape, found["q"].shape) == (
            (count, n),
            (count, n),
            (count, k),
        )


def test_laws_and_words_say_what_the_arrays_mean(folder):
    rows = list(csv.DictReader((folder / "points.csv").open(encoding="utf-8")))
    laws = json.loads((folder / "laws.json").read_text(encoding="utf-8"))
    assert {row["law"] for row in rows} == set(laws)
    for row in rows:
        bolt = {"stiffness", "yield", "shortening"}
        gasket = {"closure", "load", "unloading_slope", "last_slope"}
        assert set(laws[row["law"]]) == (bolt if row["kind"] == "bolt" else gasket)
    assert {len(law["shortening"]) for law in laws.values() if "stiffness" in law} == {4}
    words = (folder / "README.txt").read_text(encoding="utf-8")
    assert "w + A psi(w) = R q + w_load" in words
    assert "R^T psi = r" in words


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
    for when in When:
        found = worked_out(job, factory_of(job), job.joints[0].name, LongWork(when))
        assert found.study is None
        assert "simple sum" in found.uncarried
