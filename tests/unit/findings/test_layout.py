"""The hole pattern comes out the same however it was seen."""

import math
from pathlib import Path

import pytest

from firedeck.findings.finding import Findings
from firedeck.findings.layout import Layout, find
from firedeck.job import Job, read_text
from firedeck.trace import Missing

EXAMPLE = Path(__file__).parents[3] / "examples" / "jobs" / "inline-four.toml"

ONE_HOLE = """
format = 0
[job]
title = "invented"
[engine]
arrangement = "single"
cylinders = ["1"]
[[joint]]
name = "head"
cylinders = ["1"]
[joint.layout]
seen = "{seen}"
front = "{front}"
bores = [{{ label = "1", x = "10 mm", y = "5 mm", diameter = "70 mm" }}]
fasteners = [{{ label = "A", x = "50 mm", y = "35 mm" }}]
passages = [
  {{ label = "slot", x = "10 mm", y = "5 mm", shape = "slot", length = "20 mm", angle = "30°" }},
]
"""


def layout_of(job: Job, name: str) -> Layout:
    joint = job.joint(name)
    found = find(job, joint, Findings(job, joint, ()))
    assert isinstance(found, Layout)
    return found


@pytest.mark.parametrize(
    ("seen", "front", "place", "degrees"),
    [
        ("deck from above", "left", (40.0, 30.0), 30),
        ("deck from above", "right", (-40.0, -30.0), 30),
        ("head face up on the bench", "left", (40.0, -30.0), 150),
        ("head face up on the bench", "right", (-40.0, 30.0), 150),
        ("gasket, this side up", "left", (40.0, 30.0), 30),
    ],
)
def test_the_pattern_is_turned_into_the_frame(
    seen: str, front: str, place: tuple[float, float], degrees: int
) -> None:
    layout = layout_of(read_text(ONE_HOLE.format(seen=seen, front=front)), "head")
    assert (layout.fasteners[0].x, layout.fasteners[0].y) == pytest.approx(place)
    assert (layout.bores[0].x, layout.bores[0].y) == pytest.approx((0.0, 0.0))
    assert layout.passages[0].angle == pytest.approx(math.radians(degrees))


def test_the_order_of_the_papers_numbers_the_fasteners() -> None:
    layout = layout_of(read_text(EXAMPLE.read_text("utf-8")), "head")
    assert [fastener.order for fastener in layout.fasteners] == list(range(1, 11))
    assert layout.order_from == "manual p. 12-31"
    assert sum(bore.x for bore in layout.bores) == pytest.approx(0.0)


def test_where_the_papers_give_no_order_it_goes_from_the_middle_outwards() -> None:
    text = EXAMPLE.read_text("utf-8").replace(
        'order = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10"]', ""
    )
    layout = layout_of(read_text(text), "head")
    turns = {fastener.order: abs(fastener.x) for fastener in layout.fasteners}
    assert sorted(turns) == list(range(1, 11))
    assert turns[1] == min(turns.values())
    assert turns[10] == max(turns.values())
    assert layout.order_from.endswith("common practice, not the book")


def test_a_thread_nobody_can_read_does_not_stop_the_order() -> None:
    text = ONE_HOLE.format(seen="deck from above", front="left")
    layout = layout_of(read_text(text + '[[joint.fasteners]]\nname = "all"\nlabels = ["A"]\n'), "head")
    assert layout.fasteners[0].order == 1


def test_no_pattern_says_what_to_measure() -> None:
    text = ONE_HOLE.format(seen="deck from above", front="left").split("[joint.layout]")[0]
    job = read_text(text)
    found = find(job, job.joint("head"), Findings(job, job.joint("head"), ()))
    assert isinstance(found, Missing)
    assert found.paths == ("joint.head.layout",)
