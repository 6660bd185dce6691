"""died-of: each verdict reachable, the warning where the cause is unknown, what to look after while it is open."""

from unit.answers.testing import ask, check, example, found, four, notes, wanted

from firedeck.answers.answer import State
from firedeck.findings.causes import Causes

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
