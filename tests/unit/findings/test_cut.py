"""What a face needs, what is planned, what came off: sums that come out as printed, from any unit."""

import pytest
from unit.answers.facing import damage, face, job_of

from firedeck.assess.lists import FINDINGS
from firedeck.findings.cut import Cut
from firedeck.findings.finding import Findings
from firedeck.findings.stock import practice
from firedeck.job import Job
from firedeck.trace import Step, as_printed, evaluate


def cut_of(job: Job) -> Cut:
    engine = Findings(job, None, FINDINGS)
    found = Findings(job, job.joints[0], FINDINGS, engine).get(Cut)
    assert isinstance(found, Cut)
    return found


def test_nothing_read_needs_nothing():
    cut = cut_of(job_of({}))
    assert (cut.faces, cut.height_now, cut.taken, cut.bow) == ((), None, None, None)


def test_damage_deeper_than_the_hollow_counts_only_under_the_ring():
    marks = [
        damage(face="head", lies="outside-ring", depth="0.5 mm"),
        damage(name="two", face="block", lies="in-ring-band", depth="0.4 mm"),
    ]
    cut = cut_of(job_of({"readings": {"faces": [face("head", 0.1), face("block", 0.1)], "damage": marks}}))
    head, block = cut.face("head"), cut.face("block")
    assert head is not None
    assert block is not None
    assert head.stock.value == pytest.approx(0.1)
    assert block.stock.value == pytest.approx(0.4)


def test_with_the_pass_of_the_table():
    stock = cut_of(job_of({"readings": {"faces": [face("head", 0.1)]}})).face("head")
    assert stock is not None
    assert stock.with_pass.value == pytest.approx(0.1 + practice("finish_pass")[0])
    assert stock.with_pass.source == "common-practice"


@pytest.mark.parametrize("done", [True, False])
def test_what_is_off_in_all(done):
    joint = {
        "readings": {"faces": [face("head", 0.1, when="after-machining" if done else "before")]},
        "cut": {"head": "0.2 mm", "earlier_head": "0.3 mm", "done": done},
    }
    stock = cut_of(job_of(joint)).face("head")
    assert stock is not None
    assert stock.in_all.value == pytest.approx(0.6 if done else 0.4)


def test_a_chamber_without_outline_has_no_price():
    head = {"heights_before": ["100 mm", "100 mm", "100.1 mm", "100 mm"]}
    stock = cut_of(
        job_of(
            {
                "head": head,
                "readings": {"faces": [face("head", 0.1)]},
            }
        )
    ).face("head")
    assert stock is not None
    assert stock.spread is not None
    assert stock.tilt_price is None


def test_heights_after_count_once_it_is_cut():
    head = {"heights_before": ["100 mm"] * 4, "heights_after": ["99.8 mm", "99.7 mm", "99.8 mm", "99.8 mm"]}
    cut = cut_of(job_of({"head": head, "cut": {"head": "0.2 mm", "done": True}}))
    assert cut.height_now is not None
    assert cut.taken is not None
    assert cut.height_now.value == pytest.approx(99.7)
    assert (cut.taken.least.value, cut.taken.most.value) == (pytest.approx(0.2), pytest.approx(0.3))
    assert cut.taken.allowed is not None
    assert cut.taken.allowed.value == pytest.approx(0.22)


def test_measured_by_the_shop_alone():
    cut = cut_of(job_of({"readings": {"after": {"cut_head": "0.008 in"}}}))
    assert cut.taken is not None
    assert cut.taken.most.value == pytest.approx(0.2032)
    assert cut.taken.evenness is None


def test_sums_come_out_as_printed():
    head = {
        "heights_before": ["4.3281 in", "4.3278 in", "4.3280 in", "4.3279 in"],
        "heights_after": ["4.3219 in", "4.3217 in", "4.3217 in", "4.3218 in"],
    }
    joint = {"head": head, "readings": {"faces": [face("head", 0.12345)]}, "cut": {"head": "0.0061 in"}}
    cut = cut_of(job_of(joint))
    assert cut.taken is not None
    taken = (cut.taken.least, cut.taken.most, cut.taken.evenness, cut.taken.allowed)
    steps = [*cut.faces[0].steps, cut.faces[0].height_bare, cut.faces[0].height_after, *taken, cut.together]
    for step in steps:
        assert isinstance(step, Step)
        again = evaluate(
            step.formula, {name: as_printed(number) for name, (number, _) in step.inputs.items()}
        )
        assert again == pytest.approx(step.value, rel=1e-5, abs=1e-9), step.says


def test_corners_are_paired_in_the_order_written():
    before, after = ["100.00 mm", "100.02 mm", "3.937 in"], ["99.80 mm", "99.81 mm"]
    corners = cut_of(job_of({"head": {"heights_before": before, "heights_after": after}})).corners
    assert [corner.before.text for corner in corners if corner.before] == before
    assert [corner.off and round(corner.off.value, 6) for corner in corners] == [0.2, 0.21, None]
    assert cut_of(job_of({})).corners == ()
