"""Faces read by stepped lines, points with an error, short edges and bent ones: what each says to the limit."""

import pytest
from unit.answers.facing import ask, face, least, limit, wanted_of

from firedeck.answers.answer import Answer, State
from firedeck.errors import JobErrors

ALONG = {"name": "middle", "from": ["0 mm", "0 mm"], "to": ["400 mm", "0 mm"]}
AT = "0, 100, 200, 300, 400 mm"


def stepped(**line: object) -> dict:
    return face("head", seen="deck from above", stepped=[{**ALONG, **line}])


def ask_with(*faces: dict, tools: dict | None = None, **joint: object) -> Answer:
    given = least({**joint, "readings": {"faces": list(faces)}})
    return ask("face-flat", given, tools=tools) if tools else ask("face-flat", given)


def check_of(answer: Answer, words: str):
    return next(check for check in answer.checks if words in check.name)


def taken(answer: Answer) -> str:
    return "; ".join(answer.assumptions)


@pytest.mark.parametrize(
    ("reads", "outcome"),
    [("10, 10.02, 10.03, 10.02, 10 mm", "holds"), ("10, 10.03, 10.048, 10.03, 10 mm", "cannot-tell"),
     ("10, 10.05, 10.08, 10.05, 10 mm", "fails")],
)  # fmt: skip
def test_depths_from_a_bar(reads, outcome):
    answer = ask_with(stepped(by="depth-micrometer", at=AT, reads=reads), face("block", 0.0))
    assert check_of(answer, "middle").outcome.value == outcome


def test_an_autocollimator_has_a_band_of_its_own():
    angles = "-60, -20, 20, 60 arcsec"
    fine, coarse = (
        check_of(
            ask_with(stepped(by="autocollimator", foot="100 mm", angles=angles, angle_error=error)), "middle"
        )
        for error in ("0.5 arcsec", "5 arcsec")
    )
    assert fine.value == coarse.value == pytest.approx(100 * 80 * 4.8481e-6, rel=1e-4)
    assert coarse.band.high - coarse.band.low == pytest.approx(10 * (fine.band.high - fine.band.low))


def test_a_bridge_says_that_its_nought_counts():
    answer = ask_with(stepped(by="bridge-dial", foot="100 mm", reads="-0.003, -0.003, -0.003 mm"))
    assert "nought set wrongly" in taken(answer)


@pytest.mark.parametrize(
    "line",
    [
        {"by": "autocollimator", "angles": "1, 2 arcsec"},
        {"by": "bridge-dial", "reads": "0.01 mm"},
        {"by": "dial", "at": "0, 10 mm", "reads": "0, 0 mm"},
        {"by": "dial", "at": "0, 20, 10 mm", "reads": "0, 0, 0 mm"},
        {"by": "depth-micrometer", "at": "0, 10, 20 mm", "reads": "0, 0 mm"},
        {"by": "dial", "at": "0, 10, 20 mm", "reads": "0, 0, 0 mm", "foot": "50 mm"},
    ],
)
def test_readings_that_are_not_those_of_the_instrument_are_refused(line):
    with pytest.raises(JobErrors, match=f"with by = {line['by']}"):
        ask_with(stepped(**line))


@pytest.mark.parametrize(("error", "state"), [(None, State.DECIDED), ("0.01 mm", State.CLOSE)])
def test_the_error_of_the_instrument_is_in_the_band_of_points(error, state):
    head = face("head", 0.042, **({"error": error} if error else {}))
    answer = ask_with(head, face("block", 0.0))
    assert answer.state is state


def test_an_error_nobody_said_is_named():
    assert "how far the instrument may be out" in taken(ask_with(face("head", 0.0), face("block", 0.0)))


SPAN = {**limit("face_flatness", high="0.02 mm", measure="under-the-edge", span="100 mm"), "name": "span"}


def test_a_limit_for_a_span_is_held_against_the_worst_stretch():
    answer = ask_with(
        stepped(by="dial", at="0, 50, 100, 150, 200, 250, 300, 350, 400 mm", error="0.001 mm",
                reads="0, 0, 0, -0.03, 0, 0, 0, 0, 0 mm"),
        face("block", 0.0),
        limits=[SPAN],
    )  # fmt: skip
    assert check_of(answer, "in any 100 mm along").outcome.value == "fails"
    assert check_of(answer, "head face, middle").outcome.value == "holds"


def test_a_short_edge_over_a_bridge_speaks_of_the_span():
    line = {"name": "bridge", "from": ["0 mm", "-45 mm"], "to": ["0 mm", "45 mm"]}
    leaf = [{"at": "45 mm", "goes": "0.03 mm", "stops": "0.04 mm"}]
    head = face("head", seen="deck from above", lines=[{**line, "readings": leaf}])
    answer = ask_with(head, face("block", 0.0), limits=[SPAN])
    assert check_of(answer, "in any 100 mm across, bridge").outcome.value == "fails"
    assert check_of(answer, "head face, bridge").outcome.value == "holds"


def leaf_line(goes: str, stops: str, length: int = 400) -> dict:
    line = {
        **ALONG,
        "to": [f"{length} mm", "0 mm"],
        "readings": [{"at": "200 mm", "goes": goes, "stops": stops}],
    }
    return face("head", seen="deck from above", lines=[line])


@pytest.mark.parametrize(
    ("goes", "stops", "low", "high"),
    [
        ("0.08 mm", "0.10 mm", 0.03, 0.05),  # a hollow under an edge on leaves of 0.05 mm
        ("0.02 mm", "0.03 mm", 0.02, 0.03),  # a crown
        ("none", "0.03 mm", 0.02, 0.05),  # a crown that may touch
        ("0.04 mm", "0.06 mm", 0.0, 0.02),  # straight within both
    ],
)
def test_end_leaves_are_taken_off(goes, stops, low, high):
    head = leaf_line(goes, stops)
    head["lines"][0]["laid"] = "on end leaves of 0.05 mm"
    band = check_of(ask_with(head, face("block", 0.0)), "middle").band
    assert (band.low, band.high) == (pytest.approx(low), pytest.approx(high))


def test_an_edge_that_rocks_is_laid_on_end_leaves():
    head = leaf_line("none", "0.03 mm")
    head["lines"][0]["laid"] = "rocks"
    answer = ask_with(head, face("block", 0.0))
    assert "two equal leaves" in wanted_of(answer)
    assert "on a crown leaves show little" in taken(answer)


@pytest.mark.parametrize(
    ("edit", "says"),
    [
        ({"laid": "on end leafs"}, "on end leaves of 0.05 mm"),
        ({"readings": [{"at": "9 mm", "goes": "0.03"}]}, 'say the unit: 0.03 mm or 0.03 in\\?, or "none"'),
        (
            {"readings": [{"at": "9 mm", "goes": "0.05 mm", "stops": "0.05 mm"}]},
            "thinner than the one that stops",
        ),
    ],
)
def test_a_line_nobody_can_read_is_refused(edit, says):
    with pytest.raises(JobErrors, match=says):
        ask_with(face("head", seen="deck from above", lines=[{**ALONG, **edit}]))


@pytest.mark.parametrize("by", ["paper", "light"])
def test_paper_and_light_say_what_they_are_worth(by):
    head = leaf_line("none", "0.02 mm")
    head["lines"][0]["readings"][0]["by"] = by
    answer = ask_with(head, face("block", 0.0))
    assert f"read {'with paper' if by == 'paper' else 'by light'}" in taken(answer)
    assert by in check_of(answer, "middle").band.why


ACROSS = {"from": ["0 mm", "-45 mm"], "to": ["0 mm", "45 mm"]}
THIN = {"at": "45 mm", "goes": "none", "stops": "0.03 mm"}


def test_one_line_is_not_a_whole_face():
    """The limit asks for any direction: one line along cannot hold it."""
    answer = ask_with(leaf_line("none", "0.03 mm"), face("block", 0.0))
    assert "head face across" in wanted_of(answer)
    assert answer.state is State.OPEN
    assert check_of(answer, "head face, across").outcome.value == "cannot-tell"
    assert answer.headline.startswith("Head face: not read across; worst read: head face, 0.015 mm")
    assert "cross bow and twist is not known" in taken(answer)


def test_both_ways_read_can_hold():
    head = leaf_line("none", "0.03 mm")
    head["lines"].append({"name": "bridge", **ACROSS, "readings": [THIN]})
    assert ask_with(head, face("block", 0.0)).state is State.DECIDED


def test_a_limit_for_the_length_only_is_held_by_the_length_and_says_so():
    along = {**limit("face_flatness", high="0.05 mm", direction="along", measure="under-the-edge")}
    given = {"readings": {"faces": [leaf_line("none", "0.03 mm"), face("block", 0.0)]}, "limits": [along]}
    answer = ask("face-flat", given)
    assert answer.state is State.DECIDED
    assert "where they were read" in answer.headline
    assert "cross bow and twist is not known" in taken(answer)


def test_points_in_one_row_say_nothing_of_the_other_way():
    row = "x [mm], y [mm], z [mm]\n0, 0, 0\n100, 0, -0.01\n200, 0, 0\n"
    head = face("head", seen="deck from above", points=row)
    assert ask_with(head, face("block", 0.0)).headline.startswith("Head face: not read across")


def test_one_line_over_the_limit_is_over_it_all_the_same():
    answer = ask_with(leaf_line("0.08 mm", "0.10 mm"), face("block", 0.0))
    assert (answer.state, answer.action) == (State.DECIDED, "cut")


def test_a_sagging_edge_widens_the_band_upwards_only():
    true = check_of(ask_with(leaf_line("0.03 mm", "0.04 mm", 600), face("block", 0.0)), "middle")
    tools = {"straightedge": "checked", "straightedge_height": "25 mm"}
    sagging = check_of(
        ask_with(leaf_line("0.03 mm", "0.04 mm", 600), face("block", 0.0), tools=tools), "middle"
    )
    assert sagging.band.low == true.band.low
    assert sagging.band.high == pytest.approx(true.band.high + 0.0121, abs=1e-4)
    assert sagging.outcome.value == "cannot-tell"


def test_a_doubtful_edge_widens_the_band_both_ways():
    tools = {"straightedge_error": "0.01 mm"}
    band = check_of(ask_with(leaf_line("0.03 mm", "0.04 mm"), face("block", 0.0), tools=tools), "middle").band
    assert (band.low, band.high) == (pytest.approx(0.02), pytest.approx(0.05))


def test_an_edge_nobody_checked_is_asked_about():
    answer = ask_with(leaf_line("0.03 mm", "0.04 mm"), face("block", 0.0))
    assert "how true the straightedge is" in wanted_of(answer)
    assert "leaf that sticks" in taken(answer)


def test_a_face_cut_since_it_was_read_is_read_again():
    answer = ask_with(face("head", 0.0), face("block", 0.0), cut={"head": "0.2 mm", "done": True})
    assert answer.state is State.OPEN
    assert "once more, after its cut" in wanted_of(answer)


def test_bows_and_twist_are_said_for_information():
    assert "long bow -0.0" in taken(ask_with(face("head", 0.04), face("block", 0.0)))


def test_conditions_have_consequences():
    answer = ask_with(face("head", 0.0, conditions=["valves-in"]), face("block", 0.0))
    said = taken(answer)
    assert "still warm on one side" in said
    assert "what sticks to the face" in said
    assert "none stood out of the face" in said


CROWN = [(x, y, 0.12 * (1 - (x / 200 - 1) ** 2)) for y in (-60, 0, 60) for x in range(0, 401, 50)]


@pytest.mark.parametrize("sign", [1.0, -1.0], ids=["crown", "hollow"])
def test_a_crown_is_no_flatter_than_a_hollow(sign: float):
    """On its high points an edge shows no crown; at rest it stands off at both ends."""
    rows = "\n".join(f"{x}, {y}, {sign * z:.4f}" for x, y, z in CROWN)
    deck = face("block", seen="deck from above", points=f"x [mm], y [mm], z [mm]\n{rows}")
    head = stepped(by="dial", at=AT, reads=f"0, {0.09 * sign}, {0.12 * sign}, {0.09 * sign}, 0 mm")
    answer = ask_with(head, deck)
    for words in ("block face, along", "head face, middle"):
        bad = check_of(answer, words)
        assert bad.outcome.value == "fails"
        assert bad.value == pytest.approx(0.12)
    assert answer.action == "cut"


def test_an_edge_that_rocked_on_a_burr_is_asked_for_once():
    on_burr = {**ALONG, "laid": "rocks", "stands_on": "burr", "readings": [{"at": "50 mm", "goes": "0.1 mm"}]}
    answer = ask_with(face("head", 0.0), face("block", seen="deck from above", lines=[on_burr]))
    assert "middle once more: the edge stood on something" in wanted_of(answer)
    assert "two equal leaves" not in wanted_of(answer)


def only_goes(**leaves: str) -> dict:
    """Give a head of one line on which only leaves that go were written down."""
    readings = [{"at": "100 mm", "goes": goes} for goes in leaves.values()]
    return face("head", seen="deck from above", lines=[{**ALONG, "readings": readings}])


@pytest.mark.parametrize(("goes", "outcome"), [
    ("0.04 mm", "cannot-tell"), ("0.05 mm", "cannot-tell"), ("0.06 mm", "fails"), ("0.0024 in", "fails"),
])  # fmt: skip
def test_where_nothing_stopped_the_gap_is_at_least_what_went(goes, outcome):
    """Half the readings make no gap of a metre and no head without metal."""
    check = check_of(ask_with(only_goes(one=goes), face("block", 0.0)), "middle")
    assert check.outcome.value == outcome
    assert check.value == pytest.approx(0.061 if "in" in goes else float(goes.split()[0]), abs=1e-4)
    assert check.text.startswith("at least 0.0")
    assert check.band is None


def test_a_line_without_a_leaf_that_stops_may_be_the_worst():
    shut = {**ALONG, "name": "shut", "readings": [{"at": "200 mm", "goes": "0.03 mm", "stops": "0.04 mm"}]}
    head = only_goes(one="0.02 mm")
    answer = ask_with({**head, "lines": [shut, *head["lines"]]}, face("block", 0.0))
    assert check_of(answer, "shut").outcome.value == "holds"
    assert check_of(answer, "middle").outcome.value == "cannot-tell"
    assert answer.state is State.CLOSE or answer.state is State.OPEN


def test_what_cleans_is_at_least_so_much_and_the_leaf_that_stops_is_asked_for():
    low = limit("head_height", "head", low="99.7 mm")
    given = least(
        {
            "head": {"heights_before": ["100 mm"] * 4},
            "readings": {"faces": [only_goes(one="0.12 mm"), face("block", 0.0)]},
            "limits": [low],
        }
    )
    answer = ask("cut-how-much", given)
    assert (answer.action, answer.headline) == ("cut", "Head: at least 0.170 mm (0.0067 in) cleans it")
    assert "the thinnest leaf that stops on middle" in wanted_of(answer)
    ordered = ask("shop-order", given)
    assert any("more to be agreed on the telephone" in work.figure for work in ordered.work)


def test_nothing_is_cut_on_half_a_reading():
    given = least({"readings": {"faces": [only_goes(one="0.04 mm"), face("block", 0.0)]}})
    answer = ask("cut-how-much", given)
    assert answer.state is State.OPEN
    assert "no leaf stopped" in answer.headline
    along = limit("face_flatness", "head", high="0.10 mm", direction="along", measure="under-the-edge")
    across = {**along, "name": "across", "high": "0.05 mm", "direction": "across"}
    either = {"faces": [face("head", largest_gap="0.075 mm"), face("block", 0.0)]}
    answer = ask("cut-how-much", {"limits": [along, across], "readings": either})
    assert answer.state is State.OPEN
    assert "along or across?" in answer.headline
