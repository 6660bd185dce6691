"""Condensing in processes of their own: from the cache, past a broken cache, two at once, ended in the middle."""

import subprocess
import sys
import threading
import time
from dataclasses import replace

import numpy as np
import pytest
from unit.joint.geometry.invented import ALLOY, IRON, three

from firedeck.errors import OutOfRange
from firedeck.fem import Front
from firedeck.joint.geometry.castings import block_section, head_section
from firedeck.joint.geometry.condensed import condensed, put_together
from firedeck.joint.geometry.mesh import Recipe
from firedeck.joint.geometry.points import Sampling
from firedeck.runs import Cache, JointRequest, Stopped, Wanted, bodies, cache_folder, flexibility
from firedeck.runs.child import fetch, leave

COARSE = Recipe("coarse", 14.0, 20.0, 0.0, 20.0)
REQUEST = JointRequest(
    plan=three(),
    head=head_section("aluminium-overhead-cam", 70.0),
    block=block_section("closed-deck", 70.0),
    head_metal=ALLOY,
    block_metal=IRON,
    recipe=COARSE,
    sampling=Sampling(ring=16, half_bead=30.0, body=30.0),
)
FINER = replace(REQUEST, recipe=Recipe("finer", 5.0, 8.0, 0.0, 8.0))


@pytest.fixture
def cache(tmp_path):
    return Cache(tmp_path / "cache")


@pytest.fixture(scope="module")
def here():
    """The same joint condensed in this process."""
    bodies = (condensed(REQUEST.loaded(part)) for part in ("head", "block"))
    return put_together(REQUEST.plan, REQUEST.points(), *bodies)


def test_children_find_what_this_process_finds(cache, here):
    told = []
    found = flexibility(REQUEST, cache, lambda part, share: told.append((part, share)))
    assert pytest.approx(here.A, rel=1e-9, abs=1e-18) == found.A
    assert {("head", 1.0), ("block", 1.0)} <= set(told)
    assert all(0.0 <= share <= 1.0 for _, share in told)


def test_several_bodies_are_done_in_turn(cache, here):
    soft = replace(REQUEST, head=replace(REQUEST.head, roof=REQUEST.head.roof - 1.0), head_like=REQUEST.head)
    wanted = [Wanted(REQUEST, "head"), Wanted(soft, "head"), Wanted(REQUEST, "block")]
    head, other, block = bodies(wanted, cache)
    found = put_together(REQUEST.plan, REQUEST.points(), head, block)
    assert pytest.approx(here.A, rel=1e-9, abs=1e-18) == found.A
    assert other.G.shape == head.G.shape
    assert abs(other.G - head.G).max() > 1e-3 * abs(head.G).max()


def test_a_piece_left_for_the_other_hand_is_the_piece(tmp_path):
    rng = np.random.default_rng(0)
    front = Front(np.arange(4), np.array([2, 5]), np.asfortranarray(rng.normal(size=(14, 14))))
    leave(tmp_path / "piece", front)
    found = fetch(tmp_path / "piece")
    assert (found.border == front.border).all()
    assert (found.columns == front.columns).all()
    assert (found.rest == front.rest).all()


def test_a_process_that_ends_early_is_said(cache, monkeypatch):
    monkeypatch.setattr("firedeck.runs.hands.sys.executable", "/bin/false")
    with pytest.raises(Stopped, match="ended early"):
        flexibility(REQUEST, cache)
    assert not list(cache.folder.glob("*.npz"))


def test_the_second_time_nothing_is_condensed(cache, here, monkeypatch):
    flexibility(REQUEST, cache)
    monkeypatch.setattr("firedeck.runs.condensing.condensed_by_hands", None)
    assert pytest.approx(here.A, rel=1e-9, abs=1e-18) == flexibility(REQUEST, cache).A


@pytest.mark.parametrize("damage", ["torn", "altered", "text", "other key"])
def test_a_broken_file_is_taken_away_and_condensed_again(cache, here, damage):
    flexibility(REQUEST, cache)
    file = cache.file(REQUEST.key("head"))
    whole = file.read_bytes()
    middle = len(whole) // 2
    if damage == "torn":
        file.write_bytes(whole[:middle])
    elif damage == "altered":
        file.write_bytes(whole[:middle] + bytes([whole[middle] ^ 1]) + whole[middle + 1 :])
    elif damage == "text":
        file.write_text("not an archive")
    else:
        file.write_bytes(cache.file(REQUEST.key("block")).read_bytes())
    assert cache.read(REQUEST.key("head")) is None
    assert not file.exists()
    assert pytest.approx(here.A, rel=1e-9, abs=1e-18) == flexibility(REQUEST, cache).A
    assert cache.read(REQUEST.key("head")) is not None


def test_another_source_or_geometry_has_another_key(monkeypatch):
    before = REQUEST.key("head")
    bore = REQUEST.plan.bores[0]
    plan = replace(REQUEST.plan, bores=(replace(bore, x=bore.x + 0.002), *REQUEST.plan.bores[1:]))
    assert replace(REQUEST, plan=plan).key("head") != before
    near = replace(REQUEST.plan, bores=(replace(bore, x=bore.x + 0.0002), *REQUEST.plan.bores[1:]))
    assert replace(REQUEST, plan=near).key("head") == before
    assert replace(REQUEST, head_metal=IRON).key("head") != before
    assert replace(REQUEST, recipe=FINER.recipe).key("head") != before
    monkeypatch.setattr("firedeck.runs.request.source_hash", lambda: "another")
    assert REQUEST.key("head") != before


def test_the_order_in_which_parts_are_listed_does_not_matter():
    plan = REQUEST.plan
    other = replace(plan, bores=plan.bores[::-1], fasteners=plan.fasteners[::-1])
    assert replace(REQUEST, plan=other).key("block") == REQUEST.key("block")
    assert replace(REQUEST, plan=other).plan == plan


SCRIPT = """
import sys; from pathlib import Path
from firedeck.runs import Cache, flexibility
sys.path.insert(0, {tests!r})
from unit.runs.test_condensing import {request}
print(float(flexibility({request}, Cache(Path({folder!r}))).A.sum()))
"""


def another(cache, request="REQUEST"):
    tests = next(path for path in sys.path if path.endswith("tests"))
    text = SCRIPT.format(tests=tests, folder=str(cache.folder), request=request)
    return subprocess.Popen([sys.executable, "-c", text], stdout=subprocess.PIPE, text=True)


def test_two_processes_at_once_find_the_same_and_write_once(cache, here):
    both = [another(cache), another(cache)]
    sums = [float(one.communicate(timeout=60)[0]) for one in both]
    assert sums == pytest.approx([here.A.sum()] * 2, rel=1e-9)
    assert len(list(cache.folder.glob("*.npz"))) == 2


def test_killed_while_condensing_leaves_nothing_wrong_and_no_lock(cache, here):
    one = another(cache)
    while not list(cache.folder.glob("*.lock")):
        time.sleep(0.01)
    one.kill()
    one.communicate()
    assert not list(cache.folder.glob("*.npz"))
    assert pytest.approx(here.A, rel=1e-9, abs=1e-18) == flexibility(REQUEST, cache).A


def test_ended_on_demand(cache):
    stop = threading.Event()
    threading.Timer(0.3, stop.set).start()
    with pytest.raises(Stopped):
        flexibility(FINER, cache, stop=stop)
    assert not list(cache.folder.glob("*.npz"))


def test_a_fault_of_the_geometry_is_raised_as_it_was_named(cache):
    shallow = replace(REQUEST, block=replace(REQUEST.block, cut_depth=REQUEST.block.jacket + 1.0))
    deep = tuple(replace(one, thread_bottom=300.0) for one in shallow.plan.fasteners)
    with pytest.raises(OutOfRange, match="threads of"):
        flexibility(replace(shallow, plan=replace(shallow.plan, fasteners=deep)), cache)


def test_the_cache_stays_within_its_size(cache):
    body = condensed(REQUEST.loaded("block"))
    small = Cache(cache.folder, most_bytes=int(2.5 * (body.G.nbytes + body.rigid.nbytes)))
    for number in range(5):
        small.write(f"key{number}", body)
    kept = sorted(file.stem for file in small.folder.glob("*.npz"))
    assert 1 <= len(kept) <= 2
    assert "key4" in kept
    assert np.array_equal(small.read("key4").G, body.G)


def test_the_folder_is_the_one_that_was_named(tmp_path, monkeypatch):
    monkeypatch.setenv("FIREDECK_CACHE", str(tmp_path))
    assert cache_folder() == tmp_path
