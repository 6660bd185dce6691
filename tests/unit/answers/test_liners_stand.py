"""Liners and barrels: the book's limits, clamps, plans, and what is never final."""

import pytest
from unit.answers.cutting import answered, ask, check, measures, small

from firedeck.job import read_text
from firedeck.trace import Outcome

LIMIT = """
[[joint.limits]]
name = "stand"
quantity = "liner_protrusion"
low = "0.05 mm"
high = "0.12 mm"
measure = "indicator-total"
rank = "manual"
from = "manual"
[[joint.limits]]
name = "step"
quantity = "liner_step"
high = "0.03 mm"
measure = "indicator-total"
rank = "manual"
from = "manual"
"""


def job(one: str, two: str, block: str = 'liners_clamped = "clamped"', limits: str = LIMIT):
    return small(
        "",
        f'[joint.block]\nliners = "wet"\n{block}\n'
        f'[[joint.readings.liners]]\nname = "1"\nstands = "{one}"\n'
        f'[[joint.readings.liners]]\nname = "2"\nstands = "{two}"\n{limits}',
    )


def said(*args, **kwargs):
    return answered("liners-stand", job(*args, **kwargs))


@pytest.mark.parametrize(
    ("one", "two", "state", "action"),
    [
        ("0.08, 0.08, 0.09 mm", "0.08, 0.09, 0.09 mm", "decided", "leave"),
        ("0.05, 0.06, 0.06 mm", "0.07, 0.07, 0.07 mm", "close", "leave"),
        ("0.03, 0.04, 0.04 mm", "0.05, 0.06, 0.06 mm", "decided", "shim"),
        ("0.14, 0.14, 0.14 mm", "0.12, 0.12, 0.12 mm", "decided", "cut-seat"),
        ("0.06, 0.06, 0.06 mm", "0.10, 0.10, 0.10 mm", "decided", "shim"),
        ("2 thou", "3 thou", "open", None),
    ],
)
def test_by_the_book(one, two, state, action):
    answer = said(one, two)
    assert (answer.state, answer.action) == (state, action), answer.headline


def test_without_clamps_nothing_is_final():
    answer = said("0.02, 0.02, 0.02 mm", "0.02, 0.02, 0.02 mm", 'liners_clamped = "not-clamped"')
    assert answer.state == "open"
    assert "held down" in measures(answer)
    assert check(answer, "lowest").outcome is Outcome.FAILS


def test_clamps_not_said_never_gives_yes_but_too_low_is_too_low():
    good = said("0.08, 0.08, 0.08 mm", "0.08, 0.08, 0.08 mm", "")
    assert good.state == "open"
    assert said("0.01, 0.01, 0.01 mm", "0.01, 0.01, 0.01 mm", "").action == "shim"
    assert said("0.20, 0.20, 0.20 mm", "0.20, 0.20, 0.20 mm", "").state == "open"


def test_no_limit_is_asked_for_and_has_no_default():
    answer = said("0.08, 0.08, 0.08 mm", "0.08, 0.08, 0.08 mm", limits="")
    assert answer.state == "open"
    assert "limits of the book" in answer.headline
    assert "highest or mean readings" in str(answer.next)
    assert "protrusion" in measures(answer)


@pytest.mark.parametrize(
    ("plan", "after", "action"),
    [
        ('seat_cut = "0.30 mm"\nshim = "0.38 mm"', 0.10, "cut-seat"),
        ('shim = "0.06 mm"', 0.08, "shim"),
        ('base_gasket = "0.40 mm"\nbase_gasket_new = "0.47 mm"', 0.09, "change-class"),
        ('shim = "0.30 mm"', 0.32, "send-out"),
    ],
)
def test_a_plan_is_held_against_the_same_limits(plan, after, action):
    answer = said("0.02, 0.02, 0.02 mm", "0.02, 0.02, 0.02 mm", f'liners_clamped = "clamped"\n{plan}')
    assert check(answer, "lowest protrusion after").value == pytest.approx(after)
    assert (answer.state, answer.action) == ("decided", action)


def test_inch_and_metric_decide_alike():
    metric = said(
        "0.0508, 0.0762, 0.0762 mm", "0.0762, 0.0762, 0.0762 mm", limits=LIMIT.replace("0.05 mm", "0.0508 mm")
    )
    inch = said("2, 3, 3 thou", "3, 3, 3 thou", limits=LIMIT.replace("0.05 mm", "2 thou"))
    assert (metric.state, metric.action) == (inch.state, inch.action) == ("close", "leave")


def test_cast_in_liners_go_to_the_shop():
    answer = said("0.02, 0.02, 0.02 mm", "0.02, 0.02, 0.02 mm", 'liners_clamped = "clamped"')
    assert answer.action == "shim"
    cast = small(
        "",
        '[joint.block]\nliners = "cast-in"\n[[joint.readings.liners]]\nname = "1"\nstands = "0, 0, 0 mm"\n'
        + LIMIT,
    )
    assert answered("liners-stand", cast).action == "send-out"


def test_cast_in_liners_nobody_read_are_not_asked_for():
    answer = answered("liners-stand", small("", '[joint.block]\nliners = "cast-in"'))
    assert answer.state == "not-applicable"
    assert "cast in" in answer.reason


def test_no_liners_no_question():
    assert ask("liners-stand").state == "not-applicable"
    assert ask("liners-stand", {"joint.head.block.liners": "wet"}).state == "open"


def test_the_step_between_neighbours_is_found_in_a_whole_six():
    answer = ask("liners-stand", of="wet-liner-six")
    assert answer.action == "shim"
    assert "step" in answer.headline
    assert answer.work


def flush(what: str, stands: str):
    liner = f'[[joint.readings.liners]]\nname = "1"\nstands = "{stands}"\n'
    return answered("liners-stand", small("", f'[joint.block]\nliners = "{what}"\n{liner}'))


@pytest.mark.parametrize(
    ("what", "stands", "action", "says"),
    [
        ("cast-in", "0.002 in, 0.05 mm, 2 thou", "send-out", "the alloy beside it has sunk"),
        ("cast-in", "0.01, 0.02, 0.01 mm", "leave", "all in"),
        ("dry", "-0.04, -0.05, -0.05 mm", "send-out", "sunk below the deck"),
        ("dry", "0.003 in, 0.08 mm, 3 thou", "send-out", "stands proud"),
    ],
)
def test_liners_cut_with_the_deck_are_flush_without_any_book(what, stands, action, says):
    answer = flush(what, stands)
    assert (answer.state, answer.action) == ("decided", action)
    assert says in answer.headline
    assert "gas goes to water" not in answer.anyway


def test_a_sunk_dry_liner_is_not_decked_over():
    assert any("pressed home" in line.text for line in flush("dry", "-0.05, -0.05, -0.05 mm").work)


def test_barrels_under_one_head_are_told_of_the_head_and_not_of_water():
    text = (
        'format = 0\n[job]\ntitle = "Invented"\n[engine]\narrangement = "barrels"\ncylinders = ["1", "2"]\n'
        '[[joint]]\nname = "head"\n[[joint.readings.liners]]\nname = "1"\nstands = "90.02 mm"\n'
        '[[joint.readings.liners]]\nname = "2"\nstands = "3.540 in"\n'
    )
    answer = answered("liners-stand", read_text(text))
    assert answer.action == "shim"
    assert "water" not in answer.anyway
    assert "bent" in answer.anyway


@pytest.mark.parametrize(("rule", "action"), [("", None), ("means", "leave"), ("highest", "shim")])
def test_the_step_goes_by_the_rule_of_the_book(rule, action):
    block = 'liners_clamped = "clamped"' + (f'\nliner_step_by = "{rule}"' if rule else "")
    answer = said("0.06, 0.06, 0.06 mm", "0.06, 0.06, 0.10 mm", block)
    assert answer.action == action, answer.headline
    assert ("liner_step_by" in str(answer.next)) is (rule == "")
