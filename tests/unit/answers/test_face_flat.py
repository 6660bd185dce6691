"""Flatness of both faces: by points, leaves, a shop's word; light and a single face are not enough."""

import pytest
from unit.answers.facing import ask, face, least, limit, wanted_of, words_of

from firedeck.answers.answer import Answer, State


def ask_with(*faces: dict, **joint: object) -> Answer:
    return ask("face-flat", least({**joint, "readings": {"faces": list(faces)}}))


@pytest.mark.parametrize(
    ("hollow", "state", "action"),
    [(0.02, State.DECIDED, "leave"), (0.05, State.CLOSE, "leave"), (0.08, State.DECIDED, "cut")],
)
def test_both_faces_read(hollow, state, action):
    answer = ask_with(face("head", hollow), face("block", 0.0))
    assert (answer.state, answer.action) == (state, action)


def test_one_face_is_half_an_answer():
    answer = ask_with(face("head", 0.0))
    assert answer.state is State.OPEN
    assert "flatness of the block face" in wanted_of(answer)


def test_bent_with_a_cam_that_binds():
    assert (
        ask_with(face("head", 0.2), face("block", 0.0), head={"cam_tunnel": "binds"}).action
        == "straighten-first"
    )


def test_light_is_no_reading():
    answer = ask_with(face("head", light="none-seen"))
    assert answer.state is State.OPEN
    assert "sum of both faces" in words_of(answer)
    assert "flatness of the block face" in wanted_of(answer)


@pytest.mark.parametrize("pattern", ["even", "middle-bare"])
def test_blue_is_no_reading(pattern):
    answer = ask_with(face("head", blue=pattern))
    assert answer.state is State.OPEN
    assert "not how deep" in words_of(answer)


def test_foil_under_a_short_edge_is_a_leaf_as_thin_as_it_is():
    ends = {"from": ["0 mm", "-50 mm"], "to": ["0 mm", "50 mm"]}
    foil = {"at": "50 mm", "goes": "none", "stops": "0.015 mm", "by": "foil"}
    line = {"name": "bridge", **ends, "readings": [foil]}
    answer = ask_with(face("head", seen="deck from above", lines=[line]), face("block", 0.0))
    checked = next(check for check in answer.checks if check.name == "head face, bridge")
    assert checked.band is not None
    assert checked.band.high == pytest.approx(0.015)


class TestShopsWord:
    """A shop that measured is taken at its word, and asked for the figure."""

    def test_over(self):
        answer = ask_with(face("block", found_by_shop="over-limit"))
        assert answer.action == "cut"
        assert answer.checks[0].limit is not None
        assert "flatness of the block face" in wanted_of(answer)

    def test_within_needs_the_other_face(self):
        assert ask_with(face("head", found_by_shop="within-limit")).state is State.OPEN

    def test_within_on_both(self):
        answer = ask_with(
            face("head", found_by_shop="within-limit"), face("block", found_by_shop="within-limit")
        )
        assert answer.action == "leave"
        assert "word" in answer.headline

    def test_readings_beat_the_word(self):
        answer = ask_with(face("head", 0.2, found_by_shop="within-limit"), face("block", 0.0))
        assert answer.action == "cut"


def test_no_book_limit():
    answer = ask("face-flat", {"readings": {"faces": [face("head", 0.1), face("block", 0.1)]}})
    assert answer.state is State.OPEN
    assert "no book limit known" in wanted_of(answer)


def finish_of(candidates: list[dict], ra: str, fitted: str = "", limits: list[dict] | None = None) -> Answer:
    readings = {"finish": [{"name": which, "face": which, "Ra": ra} for which in ("head", "block")]}
    gasket = {"candidates": candidates, "fitted": fitted}
    return ask("finish-right", {"gasket": gasket, "readings": readings, "limits": limits or []})


SHEETS = [
    {**limit("surface_finish", high="1.0 µm"), "rank": "part-sheet", "part_fitted": "fine", "name": "fine"},
    {
        **limit("surface_finish", low="2.0 µm"),
        "rank": "part-sheet",
        "part_fitted": "coarse",
        "name": "coarse",
    },
]
BOTH = [{"name": "fine", "construction": "unknown"}, {"name": "coarse", "construction": "unknown"}]


@pytest.mark.parametrize(
    ("ra", "fitted", "action"),
    [("0.8 µm", "", "leave"), ("2.5 µm", "", "leave"), ("1.5 µm", "", "cut"), ("0.8 µm", "coarse", "cut"),
     ("2.5 µm", "fine", "cut"), ("2.5 µm", "coarse", "leave")],
)  # fmt: skip
def test_finish_is_judged_for_the_gasket_it_suits(ra, fitted, action):
    answer = finish_of(BOTH, ra, fitted, SHEETS)
    assert answer.action == action


def test_what_the_other_gasket_wants_is_said():
    answer = finish_of(BOTH, "0.8 µm", limits=SHEETS)
    assert "For gasket coarse" in words_of(answer)
    assert "judged for gasket fine, which these faces suit best" in answer.assumptions


ALONG_AND_ACROSS = [
    limit("face_flatness", high="0.10 mm", part="head", direction="along", measure="under-the-edge"),
    limit("face_flatness", high="0.05 mm", part="head", direction="across", measure="under-the-edge"),
]


def whichever(gap: str) -> Answer:
    single = {"name": "head", "face": "head", "largest_gap": gap}
    limits = [{**one, "name": one["direction"]} for one in ALONG_AND_ACROSS]
    return ask("face-flat", {"readings": {"faces": [single, face("block", 0.0)]}, "limits": limits})


@pytest.mark.parametrize(
    ("gap", "state", "words"),
    [
        ("0.04 mm", State.DECIDED, "Both faces are in"),
        ("0.08 mm", State.OPEN, "along or across?"),
        ("0.12 mm", State.DECIDED, "over the limit"),
    ],
)
def test_one_figure_whichever_way_is_held_against_both_limits(gap, state, words):
    answer = whichever(gap)
    assert answer.state is state
    assert words in f"{answer.headline} {[check.text for check in answer.checks]}"
    assert ("which way the edge lay" in wanted_of(answer)) == (state is State.OPEN)
    assert "not read across" not in words_of(answer)


def test_one_figure_over_the_limit_is_cut():
    single = {"name": "head", "face": "head", "largest_gap": "0.2 mm"}
    assert ask("cut-how-much", least({"readings": {"faces": [single]}})).action == "cut"


def test_what_an_unread_face_will_be_held_against():
    """Whoever asks which limit, before anything is read, is told it with its source and what others print."""
    along = limit("face_flatness", "head", high="0.10 mm", direction="along", measure="under-the-edge")
    rival = {**along, "name": "rival", "high": "0.05 mm", "rank": "published", "from": "a guide"}
    answer = ask("face-flat", {"limits": [along, rival]})
    said = [note for note in answer.notes if "will be held against" in note.text]
    assert [note.source for note in said if note.text.startswith("Head face, along")] == ["manual p. 3"]
    assert "at most 0.100 mm (0.0039 in); others print at most 0.050 mm (0.0020 in) (a guide)" in said[0].text
    assert not any(note.text.startswith("Block face") for note in said)
    one = least({"readings": {"faces": [face("head", 0.0)]}})
    (block,) = [note for note in ask("face-flat", one).notes if "will be held against" in note.text]
    assert block.text.startswith("Block face, along and across: ")


def test_a_gap_without_a_limit_is_said_all_the_same():
    answer = ask(
        "face-flat", {"readings": {"faces": [face("head", 0.12), face("block", 0.03, error="0.005 mm")]}}
    )
    assert answer.state is State.OPEN
    assert answer.headline == "Head face: 0.120 mm (0.0047 in) under the edge; no book limit known, find it"
    said = [text for text in answer.assumptions if "no limit for it" in text]
    assert any("block face" in text and "the readings allow 0.024 mm" in text for text in said)


def test_a_second_set_of_the_same_face_is_not_passed_over_in_silence():
    again = {**face("head", 0.2), "name": "head by dial"}
    answer = ask_with(face("head", 0.0), face("block", 0.0), again)
    assert any("head by dial of the same face and time is not in it" in text for text in answer.assumptions)
    later = {**again, "when": "after-cleaning"}
    answer = ask_with(face("head", 0.0), face("block", 0.0), later)
    assert not any("is not in it" in text for text in answer.assumptions)
