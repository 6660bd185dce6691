"""The invented layouts of examples/layouts: gasket, block and head face of the inline four."""

from pathlib import Path

import pytest

from firedeck.gasket.hole_match import Verdict, hole_match
from firedeck.gasket.laying import Way
from firedeck.gasket.pattern_text import pattern_of
from firedeck.gasket.through import Seen
from firedeck.job import read_file

LAYOUTS = Path(__file__).parents[2] / "examples" / "layouts"
JOB = LAYOUTS.parent / "jobs" / "inline-four.toml"


def test_the_example_gasket_goes_on_one_way_and_meters_the_water():
    gasket, block, head = (
        pattern_of((LAYOUTS / f"{part}.csv").read_text(), part) for part in ("gasket", "block", "head")
    )
    found = hole_match(gasket, block, head)
    assert found.verdict is Verdict.ONE_WAY
    assert found.fitting == (Way.AS_DRAWN,)
    water = [one for one in found.ways[0].passages if one.leads == "water"]
    assert {one.seen for one in water} == {Seen.METERED}
    assert water[0].share == pytest.approx(0.36, abs=0.002)


def test_the_example_layouts_go_into_the_example_job():
    texts = {part: (LAYOUTS / f"{part}.csv").read_text() for part in ("gasket", "block", "head")}
    job = read_file(JOB).changed(
        {
            "joint.head.layout": texts["block"],
            "joint.head.head.layout": texts["head"],
            "joint.head.gasket.candidates.steel.layout": texts["gasket"],
        }
    )
    layout = job.joints[0].layout
    assert layout is not None
    assert len(layout.fasteners) == 10
