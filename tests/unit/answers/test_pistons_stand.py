"""Piston stand: classes by the book's rule, and no default for the rule."""

import pytest
from unit.answers.cutting import answered, ask, check, measures, small

CLASSES = [
    ("thin", "0.40 mm", "0.50 mm", "1.15 mm"),
    ("mid", "0.51 mm", "0.60 mm", "1.25 mm"),
    ("thick", "0.61 mm", "0.70 mm", "1.35 mm"),
]


def said(stands, rule="highest", classes=CLASSES, more=""):
    gaskets = "".join(
        f'[[joint.gasket.candidates]]\nname = "{n}"\npiston_from = "{a}"\npiston_to = "{b}"\nthickness = "{t}"\n'
        for n, a, b, t in classes
    )
    read = "".join(
        f'[[joint.readings.pistons]]\nname = "{n}"\nstands = "{s}"\n' for n, s in enumerate(stands, 1)
    )
    block = f'[joint.block]\npiston_rule = "{rule}"\n' if rule else ""
    return answered("pistons-stand", small('fuel = "diesel"', block + gaskets + read + more))


@pytest.mark.parametrize(
    ("rule", "choice"), [("highest", "mid"), ("highest-mean", "thin"), ("mean-of-all", "thin")]
)
def test_books_differ(rule, choice):
    answer = said(["0.46, 0.52 mm", "0.44, 0.44 mm"], rule)
    assert (answer.state, answer.action, answer.choice) == ("decided", "change-class", choice)


def test_without_the_rule_it_is_asked_only_where_it_matters():
    answer = said(["0.46, 0.52 mm", "0.44, 0.44 mm"], "")
    assert answer.state == "open"
    assert "rule" in measures(answer)
    alike = said(["0.45, 0.46 mm", "0.44, 0.44 mm"], "")
    assert (alike.state, alike.choice) == ("decided", "thin")
    assert any("choose alike" in line for line in alike.assumptions)


def test_below_every_class_takes_the_thinnest():
    answer = said(["0.25 mm", "0.25 mm"])
    assert (answer.action, answer.choice) == ("leave", "thin")
    assert check(answer, "deciding").margin == pytest.approx(-0.15)


def test_above_every_class_none_fits_and_nobody_turns_it():
    answer = said(["0.75 mm", "0.70 mm"])
    assert answer.action == "send-out"
    assert answer.cautions


def test_on_a_bound_is_close_and_in_a_gap_is_read_again():
    assert said(["0.60 mm", "0.55 mm"]).state == "close"
    assert said(["0.505 mm", "0.45 mm"]).state == "open"


def test_every_piston_is_read():
    answer = said(["0.55 mm"])
    assert answer.state == "open"
    assert "other pistons: 2" in measures(answer)


def test_the_gasket_it_had_is_left():
    old = '[joint.gasket.old]\nthickness = "1.25 mm"\n'
    assert said(["0.55 mm", "0.54 mm"], more=old).action == "leave"


def test_a_limit_of_the_book_without_classes():
    limit = (
        '[[joint.limits]]\nname = "p"\nquantity = "piston_protrusion"\nlow = "0.4 mm"\nhigh = "0.6 mm"\n'
        'measure = "indicator-total"\nrank = "manual"\nfrom = "manual"\n'
    )
    assert said(["0.5 mm", "0.5 mm"], classes=[], more=limit).action == "leave"
    assert said(["0.7 mm", "0.5 mm"], classes=[], more=limit).action == "send-out"
    assert said(["0.6 mm", "0.5 mm"], classes=[], more=limit).state == "close"


def test_states_that_are_not_decisions():
    assert ask("pistons-stand").state == "not-applicable"
    assert said([]).state == "open"
    assert "classes" in measures(said(["0.5 mm", "0.5 mm"], classes=[]))
