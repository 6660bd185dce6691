"""Complete sets side by side: choose the one nearest to standard, none works, or what is missing."""

import pytest
from unit.answers.cutting import answered, ask, check, measures, small

from firedeck.answers.answer import State

Q = "combination"
HEAD = "joint.head."


def only(candidates: list) -> dict:
    """Changes that leave these gaskets to choose among, none of them chosen."""
    return {HEAD + "gasket.candidates": candidates, HEAD + "gasket.fitted": ""}


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
    one = [{"name": "one", "thickness": "1.25 mm"}]
    answer = ask(Q, {**only(one), HEAD + "chamber": {}})
    assert answer.state is State.OPEN


def test_at_most_three_sets_and_the_rest_named():
    many = [{"name": f"g{n}", "thickness": f"1.{n} mm", "bore": "87 mm"} for n in range(1, 6)]
    answer = ask(Q, only(many))
    assert len(answer.work) == 3
    left = next(line for line in answer.assumptions if "not shown" in line)
    assert sum(f"g{n}" in left for n in range(1, 6)) == 2


PISTONS = {"readings.pistons": [{"name": str(n), "stands": ["0.70 mm", "0.71 mm"]} for n in range(1, 5)]}
CLASSES = [
    {"name": "thin", "thickness": "1.4 mm", "piston_from": "0.55 mm", "piston_to": "0.65 mm"},
    {"name": "thick", "thickness": "1.5 mm", "piston_from": "0.66 mm", "piston_to": "0.75 mm"},
]


def _classed(**more: object) -> dict:
    return {
        **only(CLASSES),
        HEAD + "block.deck_clearance": {},
        **{HEAD + path: value for path, value in PISTONS.items()},
        **{HEAD + path.replace("__", "."): value for path, value in more.items()},
    }


def test_a_gasket_of_the_wrong_piston_class_is_no_set():
    checks = {one.name: one.outcome for one in ask(Q, _classed()).checks if "class of its gasket" in one.name}
    assert checks
    assert {out for name, out in checks.items() if name.startswith("thin")} == {"fails"}
    assert {out for name, out in checks.items() if name.startswith("thick")} == {"holds"}


def test_a_cut_of_the_block_moves_the_pistons_out_of_every_class():
    answer = ask(Q, _classed(cut={"block": "0.10 mm"}))
    stands = [one for one in answer.checks if "class of its gasket" in one.name]
    assert stands
    assert all(one.value is not None and abs(one.value - 0.81) < 1e-9 for one in stands)
    assert all(one.outcome == "fails" for one in stands)


def test_rules_of_books_that_choose_differently_are_asked_for():
    spread = {"readings.pistons": [{"name": str(n), "stands": ["0.60 mm", "0.67 mm"]} for n in range(1, 5)]}
    changes = _classed() | {HEAD + path: value for path, value in spread.items()}
    assert "rule of the book" in measures(ask(Q, changes))


def test_every_set_says_what_it_costs_in_trouble():
    assert all("costs" in line.figure for line in ask(Q).work)


def test_a_set_that_leaves_a_face_out_of_flat_is_no_set():
    answer = ask(Q)
    assert "no cut" not in " ".join(line.text for line in answer.work)
    left_out = [note.text for note in answer.notes if note.text.startswith("Left out")]
    assert any("no cut" in text and "out of flat" in text for text in left_out)
    assert any("with the cut" in text and "0.172 mm" in text for text in left_out)
    assert answer.choice == "steel, head cut until clean"


def test_without_a_planned_cut_the_least_that_cleans_is_taken():
    answer = ask(Q, {HEAD + "cut.head": "0 mm"})
    assert answer.choice.endswith("head cut until clean")
    assert all("0.222 mm" in line.figure for line in answer.work)


def test_a_planned_cut_that_cleans_stays_as_planned():
    answer = ask(Q, {HEAD + "cut.head": "0.20 mm"})
    assert answer.choice == "steel, with the cut"
    assert all(line.text.split(":")[0].endswith("with the cut") for line in answer.work)


def test_sound_faces_may_stay_uncut():
    sound = ask(Q, {HEAD + "limits.head-along.high": "0.20 mm", HEAD + "limits.head-across.high": "0.20 mm"})
    assert sound.choice.endswith("no cut")
    assert not any(note.text.startswith("Left out") for note in sound.notes)


def test_faces_nobody_read_are_taken_as_sound_and_it_says_so():
    answer = ask(Q, {HEAD + "readings.faces": [], HEAD + "readings.finish": [], HEAD + "readings.damage": []})
    assert any("taken as sound" in line for line in answer.assumptions)


def test_the_gasket_that_belongs_goes_before_the_ratio():
    answer = ask(Q, {HEAD + "gasket.fitted": ""})
    assert answer.choice.startswith("steel")
    assert any("goes first" in line for line in answer.assumptions)
    assert ask(Q, {HEAD + "gasket.fitted": "soft"}).choice.startswith("soft")


def test_finish_alone_asks_for_a_cut_of_unknown_depth():
    rough = {
        HEAD + "readings.faces": [],
        HEAD + "readings.damage": [],
        HEAD + "readings.finish": [{"name": "head", "face": "head", "Ra": "6.3 µm", "lay": "milled"}],
        HEAD + "cut.head": "0 mm",
    }
    answer = ask(Q, rough)
    assert answer.state is State.OPEN
    assert "flatness of the head face" in measures(answer)


WET = """
[joint.block]
liners = "wet"
{}
piston_rule = "highest"
[joint.gasket.old]
thickness = "1.4 mm"
[[joint.gasket.candidates]]
name = "thin"
thickness = "1.4 mm"
[[joint.gasket.candidates]]
name = "thick"
thickness = "0.059 in"
[joint.cut]
head = "6 thou"
[[joint.limits]]
name = "stand"
quantity = "liner_protrusion"
low = "0.08 mm"
high = "0.15 mm"
measure = "indicator-total"
rank = "manual"
from = "manual"
[[joint.readings.liners]]
name = "1"
stands = "0.10, 0.11, 0.10 mm"
[[joint.readings.liners]]
name = "2"
stands = "{}"
"""


def wet(block: str = 'liners_clamped = "clamped"', second: str = "0.06, 0.07, 0.06 mm"):
    return answered(Q, small("", WET.format(block, second)))


def test_liners_that_stand_right_are_left_in_every_set():
    answer = wet(second="0.12, 0.12, 0.13 mm")
    assert check(answer, "lowest stand").value == pytest.approx(0.10)
    assert not any("liner" in line.figure for line in answer.work)


def test_a_low_liner_is_set_to_the_middle_of_the_book_as_part_of_the_set():
    answer = wet()
    assert check(answer, "lowest stand").value == pytest.approx(0.115 - 0.005)
    assert check(answer, "highest stand").value == pytest.approx(0.115 + 0.005)
    assert all("liners set to 0.115 mm" in line.figure for line in answer.work)
    assert all("every liner out" in line.figure for line in answer.work)


def test_a_planned_shim_counts_in_the_set():
    answer = wet('liners_clamped = "clamped"\nshim = "0.03 mm"')
    assert check(answer, "lowest stand").value == pytest.approx(0.09)
    assert all("set as planned" in line.figure for line in answer.work)


@pytest.mark.parametrize("said", ["", 'liners_clamped = "not-clamped"'])
def test_liners_read_without_clamps_complete_no_set(said):
    answer = wet(said)
    assert answer.state is State.OPEN
    assert "held down" in measures(answer)
    assert not any("liners" in one.name for one in answer.checks)


def test_a_set_says_whether_a_thicker_gasket_is_left():
    lines = {line.text.split(",")[0]: line.caution for line in wet().work}
    assert "a thicker gasket is left for it: thick" in lines["thin"]
    assert "no thicker gasket" in lines["thick"]
    assert any("least height of the papers wanted" in line.caution for line in wet().work)
