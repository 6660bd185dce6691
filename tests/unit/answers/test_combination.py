"""Complete sets side by side: choose the one nearest to standard, none works, or what is missing."""

from unit.answers.cutting import ask, measures

from firedeck.answers.answer import State

Q = "combination"
HEAD = "joint.head."


def test_the_set_nearest_to_standard_is_chosen_by_name():
    answer = ask(Q)
    assert (answer.state, answer.action) == ("decided", "choose")
    assert answer.choice in {line.text.split(":")[0] for line in answer.work}
    assert answer.choice in answer.headline
    assert 2 <= len(answer.work) <= 3


def test_each_set_says_what_it_leaves_for_the_next_repair():
    assert any("next repair" in line.caution for line in ask(Q).work)


def test_none_works_when_every_set_fails():
    tight = {
        HEAD + "block.deck_clearance": {"1": "-0.6 mm"},
        HEAD + "gasket.old": {"thickness": "1.5 mm", "bore": "87 mm"},
    }
    answer = ask(Q, tight)
    assert (answer.state, answer.action) == ("decided", "none-works")
    assert all("out" in line.text for line in answer.work)
    assert "nearest" in answer.headline


def test_a_gasket_that_fails_is_not_chosen():
    changes = {
        HEAD + "gasket.old": {"thickness": "1.25 mm", "bore": "87.5 mm"},
        HEAD + "gasket.candidates.steel.thickness": "0.60 mm",
        HEAD + "block.deck_clearance": {"1": "0.20 mm"},
    }
    answer = ask(Q, changes)
    assert answer.choice.startswith("soft")


def test_open_without_what_every_set_needs():
    answer = ask(Q, {HEAD + "chamber": {"plan_area": "50 cm2"}})
    assert answer.state is State.OPEN
    assert "valve-to-piston" in measures(answer)
    assert len({one.missing.measure for one in answer.next}) == len(answer.next)
    assert ask(Q, {HEAD + "gasket.candidates": []}).state is State.OPEN


def test_standing_still_is_no_choice_while_the_cut_is_not_known():
    answer = ask(
        Q, {HEAD + "gasket.candidates": [{"name": "one", "thickness": "1.25 mm"}], HEAD + "chamber": {}}
    )
    assert answer.state is State.OPEN


def test_at_most_three_sets_and_the_rest_named():
    many = [{"name": f"g{n}", "thickness": f"1.{n} mm", "bore": "87 mm"} for n in range(1, 6)]
    answer = ask(Q, {HEAD + "gasket.candidates": many})
    assert len(answer.work) == 3
    assert any("g4" in line for line in answer.assumptions)
