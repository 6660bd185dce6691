"""died-of: each verdict reachable, the warning where the cause is unknown, what to look after while it is open."""

import pytest
from unit.answers.testing import ask, check, example, found, four, notes, wanted

from firedeck.answers.answer import State
from firedeck.findings.causes import Causes
from firedeck.tables import rows

Q = "died-of"
LINERS = '[joint.block]\nliners = "wet"\nliners_seen = ["uneven"]\n'


def test_nothing_known_is_open_and_asks_the_witnesses():
    answer = ask(four(), Q)
    assert answer.state is State.OPEN
    assert "old gasket" in wanted(answer)
    assert "come back" in notes(answer)
    assert any("joint.head.gasket.old" in one.missing.paths for one in answer.next)


def test_uneven_liners_and_the_same_place_are_likely():
    answer = ask(four("[history]\nfailures = 3\nsame_place_before = true", joint=LINERS), Q)
    assert (answer.state, answer.action) == (State.DECIDED, "cause-likely")
    assert answer.headline.startswith("Liner sunk or standing unequal")
    assert "liner stand at three or four places" in notes(answer)


def test_many_witnesses_make_the_cause_known():
    joint = '[joint.gasket.old]\nsigns = ["ring-cracked"]\n'
    rest = '[running]\nboost = "1 bar"\nboost_before = "0 bar"\ndetonation = "heard"\n[history]\nfirst_gasket = true'
    answer = ask(four(rest, joint=joint), Q)
    assert answer.action == "cause-known"
    assert "knock" in answer.headline.lower()


def test_overheated_and_nothing_else_is_likely_and_why_is_open():
    answer = ask(four('[symptoms]\nseen = ["overheated"]'), Q)
    assert (answer.state, answer.action) == (State.DECIDED, "cause-likely")
    assert answer.headline.startswith("Overheated is the likely cause")
    assert "why is open" in answer.headline
    assert "come back" in " ".join(answer.cautions)


def test_one_weak_sign_leaves_it_unknown_and_warns():
    answer = ask(four("[history]\nfirst_gasket = true"), Q)
    assert (answer.state, answer.action) == (State.DECIDED, "unknown")
    assert "likely come back" in answer.headline
    assert "likely come back" in " ".join(answer.cautions)


def test_faces_are_held_to_the_papers_for_the_witness():
    signs = found(example()).get(Causes).root_seen.signs
    assert signs["head-out-of-flat"] is True
    assert signs["deck-out-of-flat"] is False


def test_slack_ones_by_crack_off_torque():
    torques = '[joint.readings.fasteners]\nbreak_away = { a = "90 N·m", b = "40 N·m" }'
    assert found(four(joint=torques)).get(Causes).root_seen.signs["one-fastener-slack"] is True
    alike = torques.replace("40", "85")
    assert found(four(joint=alike)).get(Causes).root_seen.signs["one-fastener-slack"] is False


def test_no_liners_no_sunk_liner():
    answer = ask(example(), Q)
    assert "liner sunk left out" in notes(answer)
    assert check(answer, "odds of the likeliest").value > 0.3


OLD = "[joint.gasket.old]\nsigns = [{}]\n"
BOLTS = '[[joint.fasteners]]\nname = "all"\nlabels = ["a", "b", "c", "d"]\n'
BOWED = (
    '[[joint.limits]]\nname = "f"\nquantity = "face_flatness"\nhigh = "2 thou"\npart = "head"\n'
    'measure = "under-the-edge"\nrank = "manual"\nfrom = "book"\n[[joint.readings.faces]]\nname = "head"\nface = "head"\n'
    'seen = "head face up on the bench"\nfront = "left"\nzero = "outline corner"\nconditions = ["cold", "clean"]\n'
    '[[joint.readings.faces.lines]]\nname = "edge"\nfrom = ["10 mm", "10 mm"]\nto = ["400 mm", "10 mm"]\n'
    'direction = "along"\nreadings = [{ at = "200 mm", goes = "0.10 mm", stops = "0.15 mm" }]\n'
)
HOT = '[symptoms]\nseen = ["overheated"]\n[history]\n'
AGAIN = "[history]\nfailures = 1"
PLAUSIBLE = {
    "overheated-no-coolant": (HOT + "coolant_low_first = true", ""),
    "overheated-no-flow": (HOT + 'coolant_low_first = false\ncooling_parts = "failed"', ""),
    "detonation": ('[tests]\nbores_seen = ["pitted"]\n[running]\ndetonation = "heard"', ""),
    "fasteners-loose": ('[history]\nretightening = "missed"', OLD.format('"faint-print"')),
    "fasteners-stretched": ("", BOLTS + '[joint.readings.fasteners]\nnecked = ["a"]\n'),
    "seat-sunk": (
        "",
        BOLTS + '[joint.fasteners.washer]\nsunk = true\n[joint.readings.fasteners]\nloose = ["a"]\n',
    ),
    "liner-sunk": (
        "",
        OLD.format('"thin-print"') + '[joint.block]\nliners = "wet"\nliners_seen = ["sunk"]\n',
    ),
    "deck-dip": (
        "[history]\nfailures = 2\nsame_place_before = true",
        OLD.format('"thin-print", "burnt-between-bores"'),
    ),
    "head-bowed": ("", OLD.format('"ring-uneven"') + BOWED),
    "corrosion": ('[tests.coolant]\nchemistry = "sour"', OLD.format('"edges-eaten"')),
    "wrong-part": (AGAIN, OLD.format('"holes-do-not-match"')),
    "bad-cleaning": (AGAIN, OLD.format('"dirt-under-it"')),
    "poor-machining": (
        AGAIN,
        '[[joint.readings.finish]]\nname = "head"\nface = "head"\nseen = ["chatter"]\n',
    ),
    "cracked-casting": ("", '[joint.head]\ncrack_test = "found"\n'),
    "age": ("[history]\nfirst_gasket = true", OLD.format('"soft-and-washed"')),
}


def test_every_cause_has_plausible_signs_here():
    assert set(PLAUSIBLE) == {row["cause"] for row in rows("root_causes")} - {"something-else"}


@pytest.mark.parametrize("cause", PLAUSIBLE)
def test_each_cause_comes_first_by_its_plausible_signs(cause):
    rest, joint = PLAUSIBLE[cause]
    job = four(rest, joint=joint)
    assert found(job).get(Causes).root.leader.cause.id == cause
    answer = ask(job, Q)
    assert any(line.text.startswith("While it is open") for line in answer.work)
    assert answer.action != "unknown" or "likely come back" in answer.headline
