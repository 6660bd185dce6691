"""The dip along each ring and both faces together: extra figures, never the first one."""

import pytest
from unit.answers.facing import ask, face, job_of, least

from firedeck.assess import assess_question
from firedeck.findings.rings import Rings

GRID = [(x, y) for x in range(-60, 151, 15) for y in range(-60, 61, 15)]


def hollow(depth: float, at: tuple[float, float]) -> str:
    """Give a face with one dip."""
    rows = [
        f"{x},{y},{-depth * 2.718281828 ** (-((x - at[0]) ** 2 + (y - at[1]) ** 2) / 200):.6f}"
        for x, y in GRID
    ]
    return "x [mm],y [mm],z [mm]\n" + "\n".join(rows)


def joint(head: str, deck: str) -> dict:
    places = [("1", "0 mm"), ("2", "90 mm")]
    layout = {
        "seen": "deck from above",
        "bores": [{"label": label, "x": x, "y": "0 mm", "diameter": "80 mm"} for label, x in places],
    }
    faces = [
        {**face(which), "seen": "deck from above", "zero": "bore 1", "points": text}
        for which, text in (("head", head), ("block", deck))
    ]
    return least({"layout": layout, "readings": {"faces": faces}})


@pytest.fixture
def answered():
    given = joint(hollow(0.0, (0, 0)), hollow(0.06, (45, 0)))
    return assess_question(job_of(given), "face-flat")


def test_the_dip_between_two_bores_is_found_on_both_rings(answered):
    rings = next(found for found in answered.findings["head"].values() if isinstance(found, Rings))
    assert {ring.cylinder for ring in rings.dips if ring.face == "block" and ring.dip.value > 0.02} == {
        "1",
        "2",
    }
    assert rings.worst("head") is None
    assert rings.together is not None
    assert rings.together.value == pytest.approx(0.06, abs=0.002)
    assert rings.together_at == pytest.approx((0.0, 0.0), abs=1e-6)


def test_it_is_said_and_is_not_the_first_figure(answered):
    answer = answered.answers[0]
    assert any("ring of cylinder" in text for text in answer.assumptions)
    assert any("both bare faces together" in text for text in answer.assumptions)
    assert not any("ring" in check.name or "together" in check.name for check in answer.checks)


def test_without_points_or_lines_it_says_what_to_measure():
    found = ask("face-flat", least({"readings": {"faces": [face("head", largest_gap_along="0.02 mm")]}}))
    assert not any("ring of cylinder" in text for text in found.assumptions)
