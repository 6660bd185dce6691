"""Facts of the trade about machining and finish: common practice, no source."""

import pytest
from unit.answers.facing import ask, face, least, words_of


@pytest.mark.parametrize("material", ["aluminium", "grey-iron"])
def test_what_is_flat_and_smooth_enough_is_left_alone(material):
    finish = [{"name": which, "face": which, "Ra": "0.7 µm"} for which in ("block", "head")]
    joint = least(
        {
            "head": {"material": material},
            "gasket": {"candidates": [{"name": "new", "construction": "multi-layer-steel"}]},
            "readings": {"faces": [face("block", 0.01), face("head", 0.03)], "finish": finish},
        }
    )
    answer = ask("cut-how-much", joint)
    assert answer.action == "leave"
    assert "machining is not needed" in words_of(answer)


def finish_of(ra: str) -> dict:
    return {
        "gasket": {"candidates": [{"name": "new", "construction": "multi-layer-steel", "coated": True}]},
        "readings": {"finish": [{"name": which, "face": which, "Ra": ra} for which in ("head", "block")]},
    }


def test_layers_of_steel_want_both_figures_known():
    assert "sensitive to roughness and flatness" in words_of(ask("finish-right", finish_of("25 µin")))


@pytest.mark.parametrize(("ra", "allowed_by_some"), [("70 µin", 1), ("55 µin", 2), ("90 µin", 0)])
def test_softly_coated_steel_is_told_differently_and_every_teller_is_shown(ra, allowed_by_some):
    answer = ask("finish-right", finish_of(ra))
    rivals = answer.checks[0].rivals
    assert {round(rival.limit.high / 2.54e-5) for rival in rivals} >= {50, 60, 80}
    assert sum(rival.outcome.value == "holds" for rival in rivals) == allowed_by_some
