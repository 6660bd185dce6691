"""The finish as it comes: Ra, Rz alone, a trace of the tester, eye and nail; and what the shop is told."""

import numpy as np
import pytest
from unit.answers.facing import ask, face, least, limit, wanted_of, words_of

from firedeck.answers.answer import Answer, State


def trace(ra: float, length: float = 6.0) -> str:
    """Write an even wave down as a tester saves it [µm over mm]."""
    x = np.arange(0.0, length, 0.005)
    z = ra * np.pi / 2 * np.sin(2 * np.pi * x / 0.1)
    return "x [mm], z [um]\n" + "\n".join(f"{one:.4f}, {other:.5f}" for one, other in zip(x, z, strict=True))


def ask_with(
    *readings: dict, construction: str = "multi-layer-steel", head: str = "aluminium", **joint: object
) -> Answer:
    given = {
        "head": {"material": head},
        "gasket": {"candidates": [{"name": "g", "construction": construction}]},
        "readings": {"finish": [{"name": which["face"], **which} for which in readings]},
        **joint,
    }
    return ask("finish-right", given)


def both_faces(**reading: object) -> tuple[dict, dict]:
    return {"face": "head", **reading}, {"face": "block", **reading}


@pytest.mark.parametrize(("ra", "action"), [(0.6, "leave"), (3.0, "cut")])
def test_a_trace_is_judged_by_its_own_ra(ra, action):
    answer = ask_with(*both_faces(trace=trace(ra), cutoff="0.8 mm"))
    assert answer.checks[0].value == pytest.approx(ra / 1000, rel=0.01)
    assert (answer.state, answer.action) == (State.DECIDED, action)
    assert any("cut-off 0.8 mm" in said for said in answer.assumptions)
    assert {"Rq", "Rsk", "RSm"} <= {name for step in answer.steps for name in step.step.result}


def test_a_trace_too_short_is_asked_for_again():
    answer = ask_with(*both_faces(trace=trace(0.6, 1.0), cutoff="0.8 mm"))
    assert answer.state is State.OPEN
    assert "at least 4.8 mm" in wanted_of(answer)


@pytest.mark.parametrize(("rz", "state", "action"), [
    ("2.5 µm", State.DECIDED, "leave"), ("7 µm", State.CLOSE, "leave"), ("30 µm", State.DECIDED, "cut"),
])  # fmt: skip
def test_rz_alone_gives_a_band_of_ra(rz, state, action):
    answer = ask_with(*both_faces(Rz=rz))
    assert (answer.state, answer.action) == (state, action)
    assert answer.checks[0].band is not None


def test_a_paper_that_limits_rz_is_held_against_rz():
    sheet = {**limit("Rz", high="10 µm"), "rank": "part-sheet", "part_fitted": "g"}
    answer = ask_with(*both_faces(Ra="0.6 µm", Rz="12 µm"), limits=[sheet])
    assert answer.action == "cut"
    assert "Rz 12" in answer.headline


def test_too_smooth_for_a_soft_face():
    answer = ask_with(*both_faces(Ra="0.3 µm"), construction="graphite-metal-core")
    assert answer.action == "cut"
    assert "too smooth" in answer.headline


def test_sources_that_disagree_are_too_close_to_call():
    answer = ask_with(*both_faces(Ra="45 µin"))
    assert answer.state is State.CLOSE
    assert not any(check.outcome.value == "fails" for check in answer.checks)


def test_one_face_that_is_out_by_every_source_is_no_matter_of_dispute():
    smooth, between = {"face": "block", "Ra": "0.2 µm"}, {"face": "head", "Ra": "1.3 µm"}
    answer = ask_with(between, smooth, construction="composite")
    assert answer.action == "cut"
    assert "Block face" in answer.headline
    assert "too smooth" in answer.headline
    assert "sources of one rank disagree" in wanted_of(answer)


@pytest.mark.parametrize("flaw", ["step", "spiral", "chatter", "dishing", "scratches"])
def test_what_the_nail_finds_has_a_cause(flaw):
    answer = ask_with(*both_faces(Ra="0.6 µm", seen=[flaw]))
    assert answer.action == "cut"
    assert flaw.rstrip("s") in words_of(answer).lower().replace("dished", "dishing")


def test_the_shop_is_told_a_feed():
    given = least({
        "gasket": {"candidates": [{"name": "g", "construction": "multi-layer-steel"}]},
        "head": {"heights_before": ["100 mm"] * 4},
        "readings": {"faces": [face("head", 0.2), face("block", 0.0)]},
    })  # fmt: skip
    finish = next(line for line in ask("shop-order", given).work if line.text.startswith("Finish"))
    # 30 µin as a real cut: half of it for the ideal one, f = sqrt(32 r Ra) = 0.099 mm
    assert "feed about 0.099 mm" in finish.figure
