"""The procedure as a finding: groups, order, wrench and what a torque means."""

import pytest
from unit.answers.fastening import group, job_of, procedure

from firedeck.assess.lists import FINDINGS
from firedeck.findings.finding import Findings
from firedeck.findings.procedure import Tightening
from firedeck.trace import Missing


def tightening(joint, **sections):
    job = job_of(joint, **sections)
    return Findings(job, job.joints[0], FINDINGS, Findings(job, None, FINDINGS)).get(Tightening)


def bolts(**others):
    return [group(thread="M10x1.5", **{"class": "10.9"}, **others)]


def test_without_a_text_it_is_missing():
    missing = tightening({})
    assert isinstance(missing, Missing)
    assert missing.paths == ("joint.head.procedure.text",)


def test_every_group_has_its_own_torque_and_turn():
    found = tightening(
        {
            "fasteners": [group("long", labels=["1"]), group("short", labels=["2"])],
            "procedure": procedure("oiled; 40 N·m; long: +90°; short: 50 N·m"),
        }
    )
    assert [(one.name, one.final.split(" (")[0], one.turn) for one in found.groups] == [
        ("long", "40 N·m", "90°"),
        ("short", "50 N·m", ""),
    ]
    assert [one.yields for one in found.groups] == [True, False]


def test_tension_of_a_torque_lies_in_its_band():
    (one,) = tightening({"fasteners": bolts(), "procedure": procedure("oiled; 50 N·m")}).groups
    assert one.tension.band.low < one.tension.tension < one.tension.band.high
    assert one.tension.tension == pytest.approx(50_000 / 1.515, rel=0.03)


def test_rougher_lubricant_gives_less_tension():
    dry, oil = (
        tightening({"fasteners": bolts(), "procedure": procedure(f"{word}; 50 N·m")})
        .groups[0]
        .tension.tension
        for word in ("dry", "oiled")
    )
    assert dry < oil


def test_no_thread_no_tension():
    (one,) = tightening({"fasteners": [group()], "procedure": procedure("oiled; 50 N·m")}).groups
    assert one.tension is None


def test_a_thread_nobody_knows_is_no_crash():
    (one,) = tightening(
        {"fasteners": [group(thread="M10x9")], "procedure": procedure("oiled; 50 N·m")}
    ).groups
    assert one.tension is None


def test_range_of_a_torque_is_held_at_both_ends():
    found = tightening({"procedure": procedure("oiled; 25-32 lb-ft")}, tools={"wrench": {"high": "200 N·m"}})
    assert [round(one.step.value / 1000) for one in found.wrench.torques] == [34, 43]


def test_adapter_makes_the_setting_smaller():
    wrench = {"high": "200 N·m", "adapter": "50 mm", "length": "450 mm"}
    found = tightening({"procedure": procedure("oiled; 100 N·m")}, tools={"wrench": wrench})
    assert found.wrench.torques[0].step.value == pytest.approx(90_000)


def test_order_of_the_papers_wins():
    joint = {
        "fasteners": [group(labels=["1", "2"])],
        "procedure": procedure("oiled; 50 N·m", order=["2", "1"]),
    }
    order = tightening(joint).order
    assert (order.labels, order.from_papers, order.left_out) == (("2", "1"), True, ())
