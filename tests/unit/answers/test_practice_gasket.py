"""Facts of the trade about gaskets: common practice, no source. Each as a job of our own and what it must lead to."""

from unit.answers.cutting import answered, small
from unit.answers.test_gasket_fits import BOTH, OPEN, RING, hole
from unit.answers.test_gasket_fits import said as laid
from unit.answers.test_gasket_which import ALLOY, SOFT, STEEL, g
from unit.answers.test_gasket_which import said as chosen


def notes(answer) -> str:
    return " ".join(
        [*(note.text for note in answer.notes), *(f"{line.text} {line.caution}" for line in answer.work)]
    )


def test_steel_layers_before_bonded_facing_where_alloy_meets_iron():
    answer = chosen(SOFT, STEEL, joint=ALLOY)
    assert (answer.action, answer.choice) == ("use", "layers")
    assert "slides" in notes(answer)
    assert "common-practice" in answer.sources


def test_a_gasket_once_tightened_is_replaced():
    answer = chosen(g("pulled once", "multi-layer-steel", "used = true"))
    assert answer.action == "none-fits"
    assert "stays flat" in answer.checks[0].text
    assert any("second time" in line for line in laid(RING + BOTH + "\nused = true", OPEN).cautions)


def test_first_boost_on_an_engine_has_no_catalogue_answer():
    answer = chosen(STEEL, engine='charging = "natural"', rest='[running]\nboost = "6 psi"')
    assert answer.action == "ask-the-maker"
    assert "ratio" in notes(answer)
    assert "lamp load" in notes(answer)


def test_graphite_marked_so_is_left_alone_after_running():
    answer = chosen(g("grey", "graphite-metal-core", 'retorque = "no"'))
    assert answer.action == "use"
    assert "no re-torque" in notes(answer)


def test_what_printed_beads_are_for_is_said():
    assert "press harder round oil and water" in notes(chosen(g("faced", "composite")))


def test_full_and_half_beads_and_the_stopper_are_explained():
    said = notes(chosen(STEEL))
    assert "half beads" in said
    assert "keeps the beads from going flat" in said


def test_no_mark_and_even_holes_either_way_will_do():
    assert laid(RING + BOTH, OPEN).action == "any-way"


def test_a_mark_decides_and_the_holes_must_agree():
    assert laid(RING + BOTH + '\nmarks = "THIS SIDE UP"', OPEN).action == "one-way"
    against = laid(RING + 'marks = "LEFT"\nways_that_fit = ["end-for-end"]', OPEN)
    assert against.action == "wrong-part"


def test_two_alike_on_a_vee_one_print_down():
    answer = laid(RING + BOTH + '\nmarks = "part number"\nmark_side = "either"', OPEN)
    assert answer.action == "any-way"
    assert "print down" in notes(answer)
    assert laid(RING + BOTH + '\nmark_side = "head"', OPEN).action == "one-way"


def test_a_smaller_hole_is_never_opened():
    answer = laid(RING + BOTH, hole("water 3", "water", "smaller", "smaller"))
    assert answer.action == "any-way"
    assert "no punch" in notes(answer)
    assert "Never open" in answer.anyway


def test_the_retorque_rule_goes_by_the_sheet():
    again = answered(
        "gasket-which",
        small("", "[[joint.gasket.candidates]]\n" + g("red", "soft-copper", 'retorque = "yes"')),
    )
    assert "after the first heat" in notes(again)
