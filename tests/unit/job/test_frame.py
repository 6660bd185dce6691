"""The frame: the same face entered any way it can be seen lies in the same place."""

from firedeck.job.frame import layout_frame, point, set_frame, turned
from firedeck.job.schema.layout import Layout, Placed


def layout(seen="deck from above", front="left", flip_x=1, flip_y=1, shift=(0, 0)):
    """Two bores, a dowel off the middle, as they stand in the picture of that view."""

    def at(x, y):
        return {"x": f"{flip_x * x + shift[0]} mm", "y": f"{flip_y * y + shift[1]} mm"}

    return Layout.model_validate(
        {
            "seen": seen,
            "front": front,
            "bores": [
                {"label": "1", "diameter": "80 mm", **at(0, 0)},
                {"label": "2", "diameter": "80 mm", **at(100, 0)},
            ],
            "dowels": [{"label": "a", **at(-50, 30)}],
            "outline": [
                [at(x, y)["x"], at(x, y)["y"]] for x, y in ((-60, -50), (160, -50), (160, 50), (-60, 50))
            ],
        }
    )


def dowel_in_frame(pattern):
    dowel = pattern.dowels[0]
    return layout_frame(pattern).place(dowel.x.value, dowel.y.value)


def test_deck_from_above_front_left_is_the_frame_itself():
    assert dowel_in_frame(layout()) == (-100.0, 30.0)


def test_every_view_of_one_pattern_gives_one_place():
    views = [
        layout("deck from above", "left", 1, 1),
        layout("deck from above", "right", -1, -1),
        layout("head face up on the bench", "left", 1, -1),
        layout("head face up on the bench", "right", -1, 1),
        layout("gasket, this side up", "left", 1, 1, shift=(7, -3)),
    ]
    assert {dowel_in_frame(view) for view in views} == {(-100.0, 30.0)}


def test_turning_over_keeps_x_and_turns_y():
    assert turned(Placed(seen="head face up on the bench")) == (1.0, -1.0)
    assert turned(Placed(seen="head face up on the bench", front="right")) == (-1.0, 1.0)
    assert turned(Placed(seen="deck from above", front="right")) == (-1.0, -1.0)


def test_a_set_hangs_on_its_zero():
    pattern = layout()
    placed = Placed.model_validate(
        {"seen": "deck from above", "zero": "dowel a", "zero_at": ["10 mm", "20 mm"]}
    )
    frame = set_frame(placed, pattern, "here")
    assert frame.place(10.0, 20.0) == (-100.0, 30.0)
    assert frame.back(*frame.place(3.0, 4.0)) == (3.0, 4.0)


def test_outline_corner_is_the_lower_left_of_the_picture():
    pattern = layout()
    from_above = set_frame(Placed(seen="deck from above", zero="outline corner"), pattern, "here")
    turned_over = set_frame(Placed(seen="head face up on the bench", zero="outline corner"), pattern, "here")
    assert from_above.place(0.0, 0.0) == (-110.0, -50.0)
    assert turned_over.place(0.0, 0.0) == (-110.0, 50.0)


def test_a_point_keeps_its_typed_units():
    pair = Layout.model_validate({"outline": [["1 in", "2 mm"]]}).outline[0]
    assert point(pair) == (25.4, 2.0)
    assert pair[0].text == "1 in"


def test_a_set_without_a_zero_has_that_of_the_hole_pattern():
    pattern = layout(shift=(20, 5))
    placed = Placed.model_validate({"seen": "deck from above"})
    assert set_frame(placed, pattern, "here").place(-30.0, 35.0) == dowel_in_frame(pattern)
    over = Placed.model_validate({"seen": "head face up on the bench"})
    assert set_frame(over, pattern, "here").place(-30.0, -35.0) == dowel_in_frame(pattern)
    assert set_frame(placed, None, "here").place(1.0, 2.0) == (1.0, 2.0)
