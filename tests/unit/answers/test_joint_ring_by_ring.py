"""joint-holds where the rings were worked out: the rank of the worst ring decides, faces and damage stand before it."""

import pytest
from unit.answers.studied import DIAL, found, place
from unit.answers.test_joint_holds import ENGINE, STUDS, tightened
from unit.answers.testing import ask, check, example, four, notes

from firedeck.answers import joint_holds
from firedeck.answers.answer import State
from firedeck.answers.ring_checks import share_words
from firedeck.assess import assess_question
from firedeck.findings.finding import LongWork, When
from firedeck.findings.joint import JointFound, Rank
from firedeck.quantity import Kind, show
from firedeck.trace import Band, Missing, Outcome, evaluate

Q = "joint-holds"
BOOST = '[running]\nboost = "0.8 bar"\nboost_before = "0.8 bar"'


@pytest.fixture
def studied(monkeypatch):
    """Let the finding give what a test wants; ``faces_right`` takes the gates away."""

    def put(given, *, faces_right=True):
        monkeypatch.setattr("firedeck.findings.joint.find", lambda *_: given)
        if faces_right:
            monkeypatch.setattr(joint_holds, "GATES", {})

    return put


def asked(studied, *ranks, now="70 N·m", before="70 N·m", rest="", faces_right=True, **other):
    studied(found(*ranks, **other), faces_right=faces_right)
    return ask(tightened(now, before, rest), Q)


@pytest.mark.parametrize(
    ("ranks", "state", "action", "bore"),
    [
        ((Rank.NO_WORSE, Rank.NO_WORSE), State.DECIDED, "no-worse", "1"),
        ((Rank.NO_WORSE, Rank.WORSE), State.DECIDED, "worse", "2"),
        ((Rank.CANNOT_RANK, Rank.NO_WORSE), State.CLOSE, "cannot-rank", "1"),
        ((Rank.CANNOT_RANK, Rank.WORSE), State.DECIDED, "worse", "2"),
    ],
)
def test_the_worst_ring_decides(studied, ranks, state, action, bore):
    answer = asked(studied, *ranks)
    assert (answer.state, answer.action) == (state, action)
    assert f"at No {bore}, exhaust side" in answer.headline


def test_it_is_said_as_a_share_of_what_standard_has_left_and_in_newtons_below(studied):
    answer = asked(studied, Rank.WORSE)
    assert answer.headline == "About 70 % of what standard has left at No 1, exhaust side, band 60–80"
    ring = check(answer, "No 1, exhaust side")
    assert ring.outcome is Outcome.FAILS
    assert (ring.value, ring.limit.low) == (42.0, 59.0)
    assert (ring.band.low, ring.band.high) == (36.0, 48.0)
    assert show(ring.value, Kind.LINE_LOAD, "mm") == "42 N/mm"


def test_the_peak_at_which_it_comes_down_to_the_factorys_stands_beside(studied):
    worse = check(asked(studied, Rank.WORSE), "No 1: peak at which")
    better = check(asked(studied, Rank.NO_WORSE), "No 1: peak at which")
    assert (worse.outcome, worse.margin) == (Outcome.FAILS, pytest.approx(-1.5))
    assert better.outcome is Outcome.HOLDS
    assert "of boost" in worse.text


def test_what_failed_as_standard_is_no_better_and_worse_stays_worse(studied):
    rest = "[history]\nfailed_as_standard = true\n"
    assert asked(studied, Rank.NO_WORSE, rest=rest).action == "not-below-what-failed"
    assert asked(studied, Rank.WORSE, rest=rest).action == "worse"


def test_faces_nobody_has_seen_never_make_a_joint_no_worse(studied):
    answer = asked(studied, Rank.NO_WORSE, faces_right=False)
    assert answer.state is State.OPEN
    assert answer.headline.startswith("Face flat not known; about 105 %")
    assert any("both faces as they will be put together" in one.missing.measure for one in answer.next)


def test_a_long_bow_that_pulls_flat_turns_no_face_right(studied):
    studied(found(Rank.NO_WORSE), faces_right=False)
    answer = ask(example(), Q)
    assert answer.state is State.OPEN
    assert answer.headline.startswith("Face flat first; about")
    assert check(answer, "face flat").outcome is Outcome.FAILS
    assert "pulled flat in the model" in notes(answer)


def test_what_would_narrow_it_comes_with_its_worth(studied):
    answer = asked(studied, Rank.CANNOT_RANK)
    assert [(one.missing, one.worth) for one in answer.next if one.worth] == [(DIAL, 0.8)]
    assert not any(one.worth for one in asked(studied, Rank.WORSE).next)


def test_two_witnesses_that_disagree_are_named(studied):
    answer = asked(studied, Rank.NO_WORSE, now="50 N·m")
    assert answer.action == "no-worse"
    assert "Two witnesses disagree: the simple sum says worse" in notes(answer)
    assert check(answer, "clamp over gas force, against").outcome is Outcome.CANNOT_TELL
    agreed = asked(studied, Rank.WORSE, now="50 N·m")
    assert check(agreed, "clamp over gas force, against").outcome is Outcome.FAILS
    assert "disagree" not in notes(agreed)


def test_boost_is_without_detonation_and_says_what_a_knock_eats(studied):
    studied(found(Rank.NO_WORSE))
    answer = ask(four(BOOST, engine=ENGINE, joint=STUDS.format(torque="70 N·m")), Q)
    assert any(caution.startswith("Only without detonation") for caution in answer.cautions)
    assert "A knock of 15 bar" in notes(answer)
    assert "leaves 25 bar" in notes(answer)
    assert "A knock of" not in notes(asked(studied, Rank.NO_WORSE))


def test_without_the_factorys_joint_figures_are_orders_of_size(studied):
    studied(found(None))
    answer = ask(four(engine=ENGINE, joint=STUDS.format(torque="70 N·m")), Q)
    assert answer.state is State.OPEN
    ring = check(answer, "No 1, exhaust side")
    assert (ring.outcome, ring.limit) == (Outcome.CANNOT_TELL, None)
    assert "an order of size" in ring.text
    assert "as_built.changes" in {path for one in answer.next for path in one.missing.paths}


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (JointFound(None, uncarried="barrels"), "cannot be worked out: barrels"),
        (JointFound(None, waiting="new shape, about 20 seconds"), "not worked out yet: new shape"),
        (Missing(("a.b",), "hole pattern", "vernier", "Measure it."), "hole pattern not known"),
    ],
)
def test_where_there_are_no_rings_the_simple_sum_never_says_that_it_holds(studied, given, said):
    studied(given)
    answer = ask(tightened("80 N·m", "70 N·m"), Q)
    assert answer.state is State.OPEN
    assert said in notes(answer)
    assert ask(tightened("50 N·m", "70 N·m"), Q).action == "worse"


def test_figures_beside_the_verdict(studied):
    said = notes(asked(studied, Rank.WORSE))
    for words in (
        "No 1 opens first, at a peak of about 120 bar",
        "After one overheat: lowest 22 N/mm",
        "Most loaded: 1, 90 % of yield",
        "which friction does not carry: left out",
        "has been compared with a real engine",
    ):
        assert words in said


@pytest.mark.parametrize("width", range(40, 91, 5))
def test_a_headline_fits(width):
    long = place("10", Rank.WORSE, side="front end, exhaust side, towards the next one, by fastener 12")
    assert len(share_words(long, 90)) <= 90
    assert len(share_words(place("1", Rank.WORSE), width)) <= max(width, 56)


def test_more_than_twice_is_not_counted_out():
    ring = place("1", Rank.NO_WORSE, firing_lowest=500.0, share=8.3, share_band=Band(7.0, 9.0))
    assert share_words(ring, 90) == "More than twice what standard has left at No 1, exhaust side"


def test_every_sum_comes_out(studied):
    for working in asked(studied, Rank.CANNOT_RANK, Rank.WORSE).steps:
        figures = {name: number for name, (number, _) in working.step.inputs.items()}
        assert evaluate(working.step.formula, figures) == pytest.approx(working.step.value, rel=1e-5)


def test_bolts_or_studs_takes_its_numbers_from_the_study(studied):
    studied(found(Rank.WORSE))
    answer = ask(tightened("70 N·m", "70 N·m"), "bolts-or-studs")
    kept = check(answer, "force kept after the first heat, fastener 1")
    assert (kept.value, kept.outcome) == (pytest.approx(0.9), Outcome.CANNOT_TELL)
    assert check(answer, "evenness").value == 1.0
    assert "by -1.0 to +1.0 N/mm, 1 % of all that is not known" in notes(answer)
    assert "joint.head.fasteners.all.waisted=true" in notes(answer)


def test_bolts_or_studs_stays_open_on_them_where_there_is_none(studied):
    studied(JointFound(None, uncarried="barrels"))
    answer = ask(tightened("70 N·m", "70 N·m"), "bolts-or-studs")
    assert not [one for one in answer.checks if one.quantity in ("force_kept", "evenness")]
    assert "it is not there: barrels" in notes(answer)


def test_a_folder_that_keeps_nothing_is_said_and_the_rest_is_answered(tmp_path, monkeypatch):
    (tmp_path / "file").write_text("no folder", encoding="utf-8")
    monkeypatch.setenv("FIREDECK_CACHE", str(tmp_path / "file" / "cache"))
    job = example(joint__head__readings__faces=[])
    (answer,) = assess_question(job, Q, LongWork(When.NOW)).answers
    assert answer.state is State.OPEN
    assert "name another folder in FIREDECK_CACHE" in notes(answer)
