"""Holes and fasteners as findings: what was read, and nothing that was not."""

import pytest
from unit.answers.fastening import group, job_of

from firedeck.assess.lists import FINDINGS
from firedeck.findings.changed import boost_added, ratio_gained
from firedeck.findings.fasteners import FastenersFound
from firedeck.findings.finding import Findings
from firedeck.findings.threads import Threads
from firedeck.trace import Missing


def found(kind, joint, **sections):
    job = job_of(joint, **sections)
    return Findings(job, job.joints[0], FINDINGS, Findings(job, None, FINDINGS)).get(kind)


def hole(label, **others):
    return {"label": label, "x": "0 mm", "y": f"{10 * int(label)} mm", **others}


def test_nothing_read_is_missing():
    assert isinstance(found(Threads, {}), Missing)
    assert isinstance(found(FastenersFound, {}), Missing)


def test_readings_go_before_the_plan():
    joint = {
        "layout": {
            "seen": "deck from above",
            "fasteners": [hole("1", thread="good"), hole("2", thread="good")],
        },
        "readings": {"holes": {"pulled": ["2"], "liquid": ["1"]}},
    }
    threads = found(Threads, joint)
    assert [one.thread for one in threads.holes] == ["good", "pulled"]
    assert [one.liquid for one in threads.holes] == [True, None]


def test_group_says_where_holes_lead_that_nobody_drew():
    joint = {"fasteners": [group(labels=["1"], leads="water", hole="through"), group("b", labels=["2"])]}
    threads = found(Threads, joint)
    assert threads.leading_to("water") == ("1",)
    assert [one.hole for one in threads.holes] == ["through", None]


def test_not_checked_is_not_a_state():
    joint = {
        "layout": {"seen": "deck from above", "fasteners": [hole("1", hole="blind", thread="not-checked")]}
    }
    assert found(Threads, joint).holes[0].thread is None


def test_longest_and_thinnest_are_of_their_own_group():
    readings = {
        "lengths": {"1": "100 mm", "2": "90 mm", "3": "4 in"},
        "neck_diameters": {"1": "9.5 mm", "2": "9.7 mm"},
    }
    joint = {
        "fasteners": [group("a", labels=["1", "3"]), group("b", labels=["2"])],
        "readings": {"fasteners": readings},
    }
    first, second = found(FastenersFound, joint).groups
    assert (first.longest_label, round(first.longest.value, 1), len(first.lengths)) == ("3", 101.6, 2)
    assert (second.longest.value, second.thinnest_label) == (90.0, "2")


def test_readings_without_a_group_are_one_group():
    groups = found(FastenersFound, {"readings": {"fasteners": {"broken": ["x"]}}}).groups
    assert [(one.name, one.faults.broken) for one in groups] == [("all", ("x",))]


def test_lowest_crack_off_torque_names_its_bolt():
    torques = {"1": "80 N·m", "2": "40 N·m", "3": "100 N·m"}
    fasteners = found(FastenersFound, {"readings": {"fasteners": {"break_away": torques}}})
    assert (fasteners.slackest_label, fasteners.slackest.value) == ("2", pytest.approx(0.4))


@pytest.mark.parametrize(
    ("running", "engine", "expected"),
    [
        ({"boost": "1 bar", "boost_before": "0.4 bar"}, {}, 0.06),
        ({"boost": "1 bar"}, {"charging": "natural"}, 0.1),
        ({"boost": "1 bar"}, {}, None),
        ({}, {"charging": "natural"}, None),
    ],
)
def test_boost_added(running, engine, expected):
    step = boost_added(job_of(engine=engine, running=running))
    assert (step.value if step else None) == (pytest.approx(expected) if expected else None)


def test_ratio_gained_needs_both():
    job = job_of({"chamber": {"ratio_after": "10:1"}}, engine={"ratio": "9:1"})
    assert ratio_gained(job, job.joints[0]).value == pytest.approx(1.0)
    bare = job_of(engine={"ratio": "9:1"})
    assert ratio_gained(bare, bare.joints[0]) is None
