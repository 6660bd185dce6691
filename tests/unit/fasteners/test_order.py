"""An order where the papers give none: rows, rings, odd and side bolts, two sizes."""

import math

import pytest

from firedeck.errors import OutOfRange
from firedeck.fasteners.order import NOT_THE_BOOK, FastenerPlace, tightening_order
from firedeck.trace import evaluate

Places = list[FastenerPlace]


def rows(count: int, pitch: float = 96.0, half: float = 52.0) -> Places:
    """Two rows of ``count``, named a0, a1 ... (+y) and b0, b1 ... (-y)."""
    return [
        FastenerPlace(f"{row}{at}", at * pitch, y)
        for row, y in (("a", half), ("b", -half))
        for at in range(count)
    ]


def ring(count: int, radius: float = 60.0) -> Places:
    turn = math.tau / count
    return [
        FastenerPlace(str(at), radius * math.cos(turn * at), radius * math.sin(turn * at))
        for at in range(count)
    ]


def test_two_rows_go_out_from_the_middle_crosswise() -> None:
    assert tightening_order(rows(5)).labels == ("a2", "b2", "a1", "b3", "a3", "b1", "a0", "b4", "a4", "b0")


def test_ten_as_two_rows_do_the_middle_pair_first_and_the_ends_last() -> None:
    order = tightening_order(rows(5)).labels
    assert set(order[:2]) == {"a2", "b2"}
    assert set(order[-4:]) == {"a0", "b0", "a4", "b4"}


@pytest.mark.parametrize("count", [4, 6, 8, 12])
def test_a_ring_goes_to_the_opposite_each_time(count: int) -> None:
    order = [int(label) for label in tightening_order(ring(count)).labels]
    for one, other in zip(order[::2], order[1::2], strict=True):
        assert (one - other) % count == count // 2


def test_a_ring_of_eight_quarters_first() -> None:
    order = [int(label) for label in tightening_order(ring(8)).labels]
    assert {at % 2 for at in order[:4]} == {order[0] % 2}


def test_an_odd_ring_never_takes_neighbours_after_each_other() -> None:
    order = [int(label) for label in tightening_order(ring(5)).labels]
    assert (order[0] - order[1]) % 5 in (2, 3)


def test_side_bolts_of_another_size_come_last() -> None:
    main = [FastenerPlace(p.label, p.x, p.y, 12.0) for p in rows(4)]
    side = [FastenerPlace(f"s{at}", 96.0 * at, 90.0, 8.0) for at in range(4)]
    order = tightening_order([*side, *main])
    assert set(order.labels[:8]) == {p.label for p in main}
    assert [label[0] for label in order.labels[8:]] == ["s"] * 4
    assert set(order.labels[8:10]) == {"s1", "s2"}
    assert [note.text for note in order.notes] == [NOT_THE_BOOK, "the thick ones first, then the thin ones"]


def test_an_odd_bolt_out_at_the_end_is_last() -> None:
    assert tightening_order([*rows(4), FastenerPlace("odd", 400.0, 0.0)]).labels[-1] == "odd"


def test_seventeen_screws_with_one_in_the_middle() -> None:
    order = tightening_order([*rows(8, 40.0), FastenerPlace("mid", 140.0, 0.0)])
    assert order.labels[0] == "mid"
    assert len(set(order.labels)) == 17


def test_loosening_is_the_reverse_and_sums_work_out() -> None:
    order = tightening_order(rows(3))
    assert order.loosening == order.labels[::-1]
    for step in order.steps:
        assert (
            evaluate(step.formula, {name: number for name, (number, _) in step.inputs.items()}) == step.value
        )
    assert [step.value for step in order.steps] == [52.0, 6.0]


def test_the_middle_can_be_given() -> None:
    assert tightening_order(rows(5), middle=(0.0, 52.0)).labels[0] == "a0"


def test_one_fastener() -> None:
    assert tightening_order([FastenerPlace("1", 3.0, 4.0)]).labels == ("1",)


@pytest.mark.parametrize(
    ("places", "found"),
    [
        ([], "found none"),
        ([FastenerPlace("1", 0, 0), FastenerPlace("1", 9, 0)], "label 1 twice"),
        ([FastenerPlace("1", math.nan, 0)], "no place for 1"),
    ],
)
def test_refused(places: Places, found: str) -> None:
    with pytest.raises(OutOfRange, match=found):
        tightening_order(places)
