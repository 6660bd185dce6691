"""Findings of volumes, cuts, liners, pistons and gaskets: figures by hand, and every written sum done again."""

import math

import pytest
from unit.answers.cutting import example, small

from firedeck.assess.lists import FINDINGS
from firedeck.findings.amounts import amounts, drop
from firedeck.findings.effects import Effects
from firedeck.findings.finding import Findings
from firedeck.findings.fits import Fits
from firedeck.findings.liners import Liners
from firedeck.findings.pistons import Pistons
from firedeck.findings.volumes import Volumes
from firedeck.trace import Missing, Step, evaluate

HEAD = "joint.head."


def found(kind, job, joint=""):
    one = job.joint(joint) if joint else job.joints[0]
    return Findings(job, one, FINDINGS, Findings(job, None, FINDINGS)).get(kind)


def steps_of(thing, seen=None):
    """Collect every written sum inside a finding."""
    seen = set() if seen is None else seen
    if isinstance(thing, Step):
        return [thing]
    if id(thing) in seen or isinstance(thing, str | float | int | bool | type(None)):
        return []
    seen.add(id(thing))
    if hasattr(thing, "__dataclass_fields__"):
        return [step for name in thing.__dataclass_fields__ for step in steps_of(getattr(thing, name), seen)]
    if hasattr(thing, "values"):
        thing = thing.values()
    return [step for one in thing for step in steps_of(one, seen)]


@pytest.mark.parametrize("name", ["inline-four", "wet-liner-six", "boosted-vee", "side-valve-single"])
def test_every_sum_can_be_done_again(name):
    job = example(name)
    done = 0
    for joint in job.joints:
        findings = Findings(job, joint, FINDINGS, Findings(job, None, FINDINGS))
        for one in ("old_gasket", "liners", "pistons", "fits", "volumes", "effects", "combination"):
            for step in steps_of(findings[one]):
                again = evaluate(step.formula, {key: value for key, (value, _) in step.inputs.items()})
                assert again == pytest.approx(step.value, rel=1e-5, abs=1e-12)
                done += 1
    assert done > 3


def test_ratio_of_the_example_by_hand():
    volumes = found(Volumes, example("inline-four"))
    swept = math.pi / 4 * 86**2 * 86
    clearance = 45000 + 3000 + math.pi / 4 * (87.5**2 * 1.25 + 86**2 * 0.30)
    assert volumes.measured["1"].ratio == pytest.approx((swept + clearance) / clearance)


def test_the_cut_takes_the_chamber_not_the_bore():
    job = example("inline-four").changed({HEAD + "gasket.fitted": "soft"})
    effects = found(Effects, job)
    ratio = effects.ratios[0]
    swept = math.pi / 4 * 86**2 * 86
    before = 45000 + 3000 + math.pi / 4 * (87.5**2 * 1.25 + 86**2 * 0.30)
    after = before - 5000 * 0.006 * 25.4
    assert ratio.after == pytest.approx((swept + after) / after)
    assert effects.mistake.value == pytest.approx(math.pi / 4 * 86**2 / 5000 - 1)


def test_filled_before_and_after_gives_the_area():
    volumes = found(Volumes, example("boosted-vee"), "left")
    assert volumes.area.value == pytest.approx(1700 / 0.254)
    rim = example("boosted-vee").changed({"joint.left.chamber": {"rim_length": "300 mm"}})
    assert found(Volumes, rim, "left").area.upper_bound


def test_neither_chamber_nor_ratio_is_missing():
    missing = found(Volumes, small('bore = "80 mm"', ""))
    assert isinstance(missing, Missing)
    assert "chamber" in missing.measure


@pytest.mark.parametrize(
    ("cut", "heights", "head", "in_all", "stated"),
    [
        ('head = "0.2 mm"', "", 0.2, 0.2, True),
        ('head = "0.2 mm"\nearlier_head = "0.1 mm"', "", 0.2, 0.3, True),
        ('head = "0.2 mm"\ndone = true', "", 0.0, 0.2, True),
        ('head = "0.2 mm"', 'height_new = "100 mm"\nheights_before = ["99.5 mm", "99.7 mm"]', 0.2, 0.6, True),
        ("", "", 0.0, 0.0, False),
    ],
)
def test_amounts(cut, heights, head, in_all, stated):
    joint = small("", f"[joint.cut]\n{cut}\n[joint.head]\n{heights}").joints[0]
    cuts = amounts(joint)
    assert cuts.head == pytest.approx(head)
    assert cuts.head_in_all.value == pytest.approx(in_all)
    assert cuts.stated is stated
    assert drop(cuts, 0.05).value == pytest.approx(in_all - 0.05)


def test_squish_takes_the_piston_that_stands_highest():
    label, gap = found(
        Effects,
        example("inline-four").changed({HEAD + "block.deck_clearance": {"1": "0.3 mm", "2": "0.1 mm"}}),
    ).squish
    assert label == "2"
    assert gap.value == pytest.approx(1.3)


def test_a_head_cut_leaves_the_squish_and_a_block_cut_takes_it():
    job = example("inline-four")
    plain = found(Effects, job).squish[1].value
    assert found(Effects, job.changed({HEAD + "cut.head": "0.5 mm"})).squish[1].value == pytest.approx(plain)
    assert found(Effects, job.changed({HEAD + "cut.block": "0.2 mm"})).squish[1].value == pytest.approx(
        plain - 0.2
    )


def test_liners_and_pistons_of_the_six():
    liners, pistons = found(Liners, example("wet-liner-six")), found(Pistons, example("wet-liner-six"))
    assert liners.stand.highest.value == pytest.approx(0.09)
    assert liners.stand.lowest.value == pytest.approx(0.02)
    assert pistons.by_rule["highest"].value == pytest.approx(0.51)
    assert [one.name for one in pistons.classes] == ["thin", "thick"]


def test_depth_below_the_deck_is_a_negative_stand():
    pistons = found(Pistons, example("inline-four"))
    assert pistons.from_deck
    assert pistons.by_rule["highest"].value == pytest.approx(-0.30)


def test_a_ring_over_the_largest_bore():
    fits = found(Fits, example("inline-four"))
    assert fits.of("steel").ring.overhang == pytest.approx(0.5)
    assert fits.of("nothing") is None
