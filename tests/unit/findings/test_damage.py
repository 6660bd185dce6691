"""Damage placed against the ring: any picture, any gasket, sums that come out as printed."""

import math

import pytest
from unit.answers.facing import bores, damage, job_of

from firedeck.errors import JobErrors
from firedeck.findings.damage import Damage, find
from firedeck.findings.finding import Findings
from firedeck.trace import Missing, Step, as_printed, evaluate

RING = {"name": "new", "bore": "82 mm", "ring_width": "4 mm"}


def damage_of(*marks: dict, **joint: object) -> Damage:
    job = job_of(
        {"layout": bores(), "gasket": {"candidates": [RING]}, **joint, "readings": {"damage": list(marks)}}
    )
    one = job.joint("head")
    found = find(job, one, Findings(job, one, ()))
    assert isinstance(found, Damage)
    return found


def distance_of(mark: dict, **joint: object) -> float:
    off = damage_of(mark, **joint).marks[0].off
    assert off is not None
    return off.distance.value


@pytest.mark.parametrize(
    ("x", "y", "distance"),
    [("0 mm", "60 mm", 14.0), ("0 mm", "46 mm", 0.0), ("0 mm", "44 mm", -2.0), ("0 mm", "40 mm", 0.0),
     ("0 mm", "0 mm", 40.0), ("45 mm", "0 mm", -1.0), ("90 mm", "-60 mm", 14.0)],
)  # fmt: skip
def test_distance_from_the_nearest_ring(x, y, distance):
    assert distance_of(damage(x=x, y=y, size="2 mm")) == pytest.approx(distance)


@pytest.mark.parametrize("turn", [30, 135, 260])
def test_all_round_the_ring_it_is_the_same(turn):
    x, y = 50 * math.cos(math.radians(turn)), 50 * math.sin(math.radians(turn))
    layout = {**bores(), "bores": bores()["bores"][:1]}
    mark = damage(x=f"{x:.6f} mm", y=f"{y:.6f} mm", size="2 mm")
    assert distance_of(mark, layout=layout) == pytest.approx(4.0, abs=1e-3)


def test_the_worst_gasket_counts_while_none_is_chosen():
    wide = {"name": "wide", "bore": "88 mm", "ring_width": "6 mm"}
    mark = damage(x="0 mm", y="52 mm", size="2 mm")
    assert distance_of(mark, gasket={"candidates": [RING, wide]}) == pytest.approx(1.0)
    assert distance_of(mark, gasket={"candidates": [RING, wide], "fitted": "new"}) == pytest.approx(6.0)


def test_the_old_gasket_stands_in():
    mark = damage(x="0 mm", y="60 mm", size="2 mm")
    assert distance_of(mark, gasket={"old": {"bore": "82 mm"}}) == pytest.approx(59 - 41 - 5)


@pytest.mark.parametrize("gone", ["x", "y", "size"])
def test_half_a_place_is_none(gone):
    whole = {"x": "0 mm", "y": "50 mm", "size": "2 mm"}
    mark = damage(**{name: text for name, text in whole.items() if name != gone})
    assert damage_of(mark).marks[0].off is None


def test_nothing_written_is_missing():
    job = job_of({})
    one = job.joint("head")
    assert isinstance(find(job, one, Findings(job, one, ())), Missing)


def test_sums_come_out_as_printed():
    marks = damage_of(
        damage(x="1.2345 in", y="1.3579 in", size="0.0789 in", depth="0.0123 in"), cut={"block": "0.00456 in"}
    )
    (mark,) = marks.marks
    assert mark.off is not None
    assert mark.left is not None
    for step in (*mark.off.steps, mark.off.distance, mark.off.share_left, mark.left):
        assert again(step) == pytest.approx(step.value, rel=1e-5, abs=1e-12)


def again(step: Step) -> float:
    return evaluate(step.formula, {name: as_printed(number) for name, (number, _) in step.inputs.items()})


@pytest.mark.parametrize(
    ("mark", "path"),
    [
        (
            damage(x="0 mm", y="0 mm", size="1 mm", seen="deck from above", zero="bore 9"),
            "readings.damage.mark.zero",
        ),
        (damage(cylinders=["9"]), "readings.damage.mark.cylinders"),
        (damage(size="2"), "size"),
        (damage(kind="dent"), "kind"),
        (damage(lies="somewhere"), "lies"),
    ],
)
def test_faults_name_their_place(mark, path):
    with pytest.raises(JobErrors) as raised:
        damage_of(mark)
    assert path in str(raised.value)


def test_a_name_stands_once():
    with pytest.raises(JobErrors, match="twice"):
        damage_of(damage(), damage())
