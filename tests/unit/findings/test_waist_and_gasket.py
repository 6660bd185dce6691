"""Waisted bolts by their sections, and the gasket's own spring in what a bolt loses and gains."""

from math import pi, radians, sqrt

import pytest
from unit.answers.fastening import ask, group, job_of, procedure, wanted_of, words_of

from firedeck.errors import JobErrors
from firedeck.fasteners import bearing_of, levers_of, thread_of
from firedeck.findings.clamp import clamp_of
from firedeck.findings.gasket_spring import gasket_bearing
from firedeck.findings.stretch import stretch_found
from firedeck.findings.tension import tension_found

BOLT = {"thread": "M11x1.5", "class": "10.9", "grip_in_head": "100 mm", "bearing_diameter": "18 mm"}
WAIST = {"waisted": True, "sections": "8.5 mm/80 mm, 9.8 mm/20 mm"}
STEEL = {"name": "g", "construction": "multi-layer-steel", "bore": "87 mm"}
LAYOUT = {
    "seen": "deck from above",
    "outline": [["-69 mm", "-75 mm"], ["165 mm", "-75 mm"], ["165 mm", "75 mm"], ["-69 mm", "75 mm"]],
    "bores": [
        {"label": "1", "x": "0 mm", "y": "0 mm", "diameter": "86 mm"},
        {"label": "2", "x": "96 mm", "y": "0 mm", "diameter": "86 mm"},
    ],
}


def joint_of(text, *, gasket=None, **bolt):
    job = job_of(
        {
            "fasteners": [group(**{**BOLT, **bolt})],
            "head": {"material": "aluminium"},
            "cylinders": ["1", "2"],
            "procedure": procedure(text),
            "gasket": {"candidates": [gasket] if gasket else []},
            "layout": LAYOUT,
        }
    )
    return job, job.joints[0]


def clamped(text, **more):
    return clamp_of(*joint_of(text, **more)).groups[0]


def test_a_waisted_bolt_is_pulled_to_the_yield_of_its_waist():
    """By hand: von Mises over the waist alone, torsion section pi d³ / 12, oil at its usual friction."""
    thread = thread_of("M11x1.5")
    found = clamped("oiled; 30 N·m; +180°", **WAIST)
    oil = next(
        one for step in found.steps for name, (one, _) in step.inputs.items() if name == "thread_friction"
    )
    lever = levers_of(thread, oil, oil, bearing_of(thread, 18.0, None)).thread_lever
    area = pi / 4 * 8.5**2
    by_hand = 940.0 * area / sqrt(1 + 3 * (lever * area / (pi * 8.5**3 / 12)) ** 2)
    assert found.tension == pytest.approx(by_hand, rel=1e-6)
    assert "waist of 8.5 mm" in " ".join(note.text for note in found.notes)


def test_sections_thicker_than_the_thread_leave_the_thread_the_weakest():
    plain = clamped("oiled; 30 N·m; +180°")
    thick = clamped("oiled; 30 N·m; +180°", sections="11 mm/80 mm, 10.5 mm/20 mm")
    assert thick.tension == plain.tension


def test_a_small_turn_is_taken_by_springs_and_not_as_yield():
    small, full = clamped("oiled; 20 N·m; +20°", **WAIST), clamped("oiled; 20 N·m; +180°", **WAIST)
    assert small.tension < 0.8 * full.tension
    assert "stays below yield" in " ".join(note.text for note in small.notes)


def test_a_softer_waist_gives_less_tension_for_the_same_small_turn():
    thin = clamped("oiled; 20 N·m; +20°", waisted=True, sections="8 mm/100 mm")
    thick = clamped("oiled; 20 N·m; +20°", sections="11 mm/100 mm")
    assert thin.tension < thick.tension


def test_a_waist_nobody_measured_is_asked_for():
    clamp = clamp_of(*joint_of("oiled; 30 N·m; +90°", waisted=True))
    assert clamp.groups[0].tension is None
    assert any("sections" in path for one in clamp.missing for path in one.paths)
    answer = ask(
        "tighten-how", {"fasteners": [group(**BOLT, waisted=True)], "procedure": procedure("oiled; 60 N·m")}
    )
    assert "sections of the waisted fasteners" in wanted_of(answer)
    assert not any("yield" in check.name for check in answer.checks)


def test_share_of_yield_of_a_torque_is_that_of_the_waist():
    _, plain = joint_of("oiled; 40 N·m")
    _, waisted = joint_of("oiled; 40 N·m", **WAIST)
    shares = [tension_found(one.fasteners[0], 40e3, "oil").share.value for one in (plain, waisted)]
    assert shares[1] > shares[0] * thread_of("M11x1.5").stress_area / (pi / 4 * 8.5**2)
    tensions = [tension_found(one.fasteners[0], 40e3, "oil").tension for one in (plain, waisted)]
    assert tensions[0] == tensions[1]


@pytest.mark.parametrize("sections", ["8.5 mm", "8.5/80", "8.5 mm/80 mm/3 mm", "0 mm/80 mm", "thin"])
def test_sections_that_are_none_are_refused_in_one_line(sections):
    with pytest.raises(JobErrors) as refused:
        joint_of("oiled; 30 N·m", sections=sections)
    assert "fasteners.all.sections" in str(refused.value)


def test_the_gasket_softens_what_heat_does_and_says_so():
    alone = stretch_found(
        joint_of("oiled; 60 N·m")[1], joint_of("oiled; 60 N·m")[1].fasteners[0], None, None, 3e4
    )
    _, joint = joint_of("oiled; 60 N·m", gasket=STEEL)
    soft = stretch_found(joint, joint.fasteners[0], None, None, 3e4)
    assert not alone.with_gasket
    assert soft.with_gasket
    assert alone.warm.low == alone.warm.high
    assert soft.warm.low < soft.warm.high < alone.warm.low
    assert "curve of our own" in " ".join(note.text for note in soft.notes)
    assert "metal alone" in " ".join(note.text for note in alone.notes)


def test_springs_in_series_by_hand():
    """Loss and heat worked out again from the stiffness of bolt, head and gasket."""
    _, joint = joint_of("oiled; 60 N·m", gasket=STEEL)
    found = stretch_found(joint, joint.fasteners[0], None, None, 3e4)
    gasket = gasket_bearing(joint).under(3e4)
    results = {name: value for step in found.loss_steps for name, (value, _) in step.result.items()}
    bolt, head = results["bolt_stiffness"], results["member_stiffness"]
    give = 1 / bolt + 1 / head + 1 / gasket.springing
    lost = results["settlement"] / give + gasket.creep * 3e4 / (1 + gasket.springing * (1 / bolt + 1 / head))
    assert found.loss.value == pytest.approx(lost / 3e4)
    ends = [
        value for step in found.heat_steps for name, (value, _) in step.result.items() if name == "change"
    ]
    grown = next(v for step in found.heat_steps for n, (v, _) in step.result.items() if n == "parts_growth")
    assert max(ends) == pytest.approx(grown / give)


def test_a_composite_beds_in_more_than_steel_layers():
    def lost(construction):
        _, joint = joint_of("oiled; 60 N·m", gasket={**STEEL, "construction": construction})
        return stretch_found(joint, joint.fasteners[0], None, None, 3e4).loss.value

    assert lost("composite") > 1.3 * lost("multi-layer-steel")


def test_the_gasket_takes_part_of_the_turn():
    _, joint = joint_of("oiled; 20 N·m; +20°", gasket=STEEL)
    _, bare = joint_of("oiled; 20 N·m; +20°")
    turned = [
        stretch_found(one, one.fasteners[0], 1e4, radians(20.0), None).turned.tension for one in (joint, bare)
    ]
    assert 1e4 < turned[0] < turned[1]


def test_a_soft_body_without_an_outline_leaves_the_gasket_out():
    _, joint = joint_of("oiled; 60 N·m", gasket={**STEEL, "construction": "composite"})
    assert gasket_bearing(joint) is not None
    assert gasket_bearing(joint.model_copy(update={"layout": None})) is None


def test_the_sheet_says_which_springs_were_used():
    answer = ask(
        "tighten-how",
        {
            "fasteners": [group(**BOLT)],
            "head": {"material": "aluminium"},
            "cylinders": ["1", "2"],
            "procedure": procedure("oiled; 30 N·m; +90°; +90°"),
            "gasket": {"candidates": [STEEL]},
            "layout": LAYOUT,
        },
    )
    assert "bolt, head and gasket as springs" in words_of(answer)
    assert "gasket in the sum" in words_of(answer)
