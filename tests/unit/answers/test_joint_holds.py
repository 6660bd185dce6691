"""joint-holds: worse, too near to tell, no better than what failed, or what to measure; it never says holds."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from unit.answers.testing import ask, check, example, found, four, notes, wanted

from firedeck.answers.answer import State
from firedeck.findings.clamp import Clamp
from firedeck.findings.holding import Holding
from firedeck.trace import Missing, Outcome, evaluate

Q = "joint-holds"
STUDS = """
[[joint.fasteners]]
name = "all"
count = 10
thread = "M10x1.5"
class = "10.9"
lubricant = "oil"
[joint.procedure]
text = "{torque}"
from = "manual p. 3"
"""
ENGINE = 'fuel = "petrol"\nratio = "9:1"\nbore = "80 mm"\ncharging = "natural"'


def tightened(now: str, before: str, rest: str = "", engine: str = ENGINE):
    built = f'[as_built.changes]\n"joint.head.procedure.text" = "{before}"\n'
    return four(built + rest, engine=engine, joint=STUDS.format(torque=now))


def test_less_torque_is_worse():
    answer = ask(tightened("50 N·m", "70 N·m"), Q)
    assert (answer.state, answer.action) == (State.DECIDED, "worse")
    assert check(answer, "clamp against").value == pytest.approx(5 / 7, rel=1e-4)
    assert answer.headline == "Clamp over gas force 0.71 of as it left the factory"


def test_more_torque_is_open_and_never_holds():
    answer = ask(tightened("80 N·m", "70 N·m"), Q)
    assert answer.state is State.OPEN
    assert "proves nothing" in answer.headline
    assert "straightedge" in wanted(answer)
    assert "never says" in notes(answer)


def test_more_boost_is_worse():
    rest = '[running]\nboost = "0.8 bar"\nboost_before = "0 bar"'
    answer = ask(four(rest, engine=ENGINE, joint=STUDS.format(torque="70 N·m")), Q)
    assert answer.action == "worse"
    assert check(answer, "gas force against").value > 1.5
    assert "boost is without knock" in notes(answer)


def test_a_larger_ring_is_worse():
    answer = ask(example(as_built__changes={"joint.head.gasket.candidates.soft.bore": "87.5 mm"}), Q)
    assert answer.state is State.OPEN
    small = example(joint__head__gasket__fitted="soft").changed(
        {"as_built.changes": {"joint.head.gasket.candidates.soft.bore": "80 mm"}}
    )
    assert ask(small, Q).action == "worse"


def test_what_is_unchanged_is_no_better_than_what_failed():
    rest = "[history]\nfailed_as_standard = true\n"
    answer = ask(tightened("70 N·m", "70 N·m", rest), Q)
    assert answer.action == "not-below-what-failed"
    weak = ask(tightened("70 N·m", "70 N·m", '[history]\nstandard_record = "weak"\n'), Q)
    assert weak.action == "not-below-what-failed"
    assert ask(tightened("70 N·m", "70 N·m"), Q).state is State.OPEN


def test_clamp_lost_by_the_torque_they_move_on_at():
    joint = (
        STUDS.format(torque="70 N·m")
        + '[joint.readings.fasteners]\nmoves_on = { a = "56 N·m", b = "49 N·m" }'
    )
    answer = ask(four(engine=ENGINE, joint=joint), Q)
    lost = check(answer, "clamp lost")
    assert (lost.band.low, lost.band.high) == pytest.approx((0.2, 0.3), rel=1e-4)
    assert answer.action == "worse"


def test_one_that_moves_on_above_its_torque_is_no_loss():
    joint = STUDS.format(torque="70 N·m") + '[joint.readings.fasteners]\nmoves_on = { a = "75 N·m" }'
    answer = ask(four(engine=ENGINE, joint=joint), Q)
    assert answer.state is State.OPEN
    assert check(answer, "clamp lost").outcome is Outcome.CANNOT_TELL


def test_a_range_that_holds_the_old_torque_is_too_near_to_tell():
    answer = ask(tightened("65-75 N·m", "70 N·m"), Q)
    assert (answer.state, answer.action) == (State.CLOSE, "cannot-rank")


def test_nothing_to_compare_with_is_open():
    answer = ask(four(engine=ENGINE, joint=STUDS.format(torque="70 N·m")), Q)
    assert answer.state is State.OPEN
    assert "as_built.changes" in {path for one in answer.next for path in one.missing.paths}


def test_no_procedure_is_open():
    answer = ask(four(), Q)
    assert answer.state is State.OPEN
    assert "procedure" in answer.headline


def test_a_bad_face_comes_first():
    answer = ask(example(), Q)
    assert answer.headline.startswith("Face flat first")
    assert check(answer, "face flat").outcome is Outcome.FAILS
    assert "no torque mends it" in " ".join(answer.cautions)


def test_unlike_fasteners_are_compared_by_tension_with_a_wide_band():
    built = '[as_built.changes]\n"joint.head.fasteners.all.thread" = "M12x1.5"\n'
    job = four(built, engine=ENGINE, joint=STUDS.format(torque="70 N·m"))
    share = found(job, "head").get(Holding).clamp_share
    assert share.step.value == pytest.approx(1.2, rel=0.05)
    assert share.band.high / share.band.low > 1.5


def test_turned_past_torque_is_bounded_by_yield():
    clamp = found(example(), "head").get(Clamp)
    (group,) = clamp.groups
    assert group.turned
    assert 50e3 < group.tension < 100e3
    assert group.band.low < group.tension < group.band.high


def test_the_weakest_bore_is_shown_without_a_limit():
    one = check(ask(example(), Q), "bore 2: clamp over gas force")
    assert one.outcome is Outcome.CANNOT_TELL
    assert one.limit is None


def test_every_sum_comes_out():
    for working in ask(tightened("50 N·m", "70 N·m"), Q).steps:
        figures = {name: number for name, (number, _) in working.step.inputs.items()}
        assert evaluate(working.step.formula, figures) == pytest.approx(working.step.value, rel=1e-5)


def test_clamp_without_thread_says_what_is_missing():
    clamp = found(four(joint='[joint.procedure]\ntext = "50 N·m"'), "head").get(Clamp)
    assert not isinstance(clamp, Missing)
    assert clamp.whole is None
    assert "thread" in clamp.missing[0].measure


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 25), st.integers(0, 25))
def test_more_boost_never_improves_the_answer(less, more):
    less, more = sorted((less, more))
    ranks = []
    for boost in (less, more):
        rest = f'[running]\nboost = "{boost / 10} bar"\nboost_before = "0.5 bar"'
        answer = ask(four(rest, engine=ENGINE, joint=STUDS.format(torque="70 N·m")), Q)
        ranks.append(("worse", "cannot-rank", None).index(answer.action))
        assert answer.action != "no-worse"
    assert ranks[1] <= ranks[0]
