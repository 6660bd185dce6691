"""A face read by enough lines is judged by what all leaves together allow; with few lines each line stands alone."""

import pytest
from unit.answers.facing import ask, face, job_of, least, wanted_of

from firedeck.answers.answer import Answer, State
from firedeck.assess.lists import FINDINGS
from firedeck.findings.cut import Cut
from firedeck.findings.face_lines import TRUEST_EDGE, read_with
from firedeck.findings.faces import FaceFound, Faces
from firedeck.findings.finding import Findings
from firedeck.job.schema.readings import FaceReadings
from firedeck.surfaces.face_model import EDGE_TRUE_TO
from firedeck.trace import Outcome

WIDE, LONG = 140.0, 400.0
LEAVES = (0.03, 0.04, 0.05, 0.06, 0.08, 0.10, 0.15)


def tried(gap: float) -> dict[str, str]:
    """Leaves round a gap: the thickest that goes and the thinnest that stops."""
    goes = [leaf for leaf in LEAVES if leaf <= gap]
    stops = [leaf for leaf in LEAVES if leaf > gap]
    return {"goes": f"{goes[-1]} mm" if goes else "none", "stops": f"{stops[0]} mm" if stops else "none"}


def line(
    name: str, start: tuple[float, float], end: tuple[float, float], hollow: float, step: float = 20.0
) -> dict:
    """A line on end leaves of 0.05 mm over a face that is hollow by so much along its length."""
    length = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5

    def height(share: float) -> float:
        u = 2 * (start[0] + share * (end[0] - start[0])) / LONG - 1
        return hollow * u**2

    readings = []
    at = step / 2
    while at < length:
        share = at / length
        chord = height(0.0) + share * (height(1.0) - height(0.0))
        readings.append({"at": f"{at} mm", **tried(0.05 + chord - height(share))})
        at += step
    ends = {"from": [f"{start[0]} mm", f"{start[1]} mm"], "to": [f"{end[0]} mm", f"{end[1]} mm"]}
    return {"name": name, **ends, "laid": "on end leaves of 0.05 mm", "readings": readings}


def lines(hollow: float) -> list[dict]:
    near, far, left, right = 8.0, WIDE - 8.0, 8.0, LONG - 8.0
    return [
        line("front edge", (left, near), (right, near), hollow),
        line("middle", (left, WIDE / 2), (right, WIDE / 2), hollow),
        line("rear edge", (left, far), (right, far), hollow),
        line("diagonal", (left, near), (right, far), hollow),
        line("first end", (left, near), (left, far), hollow, 10.0),
        line("last end", (right, near), (right, far), hollow, 10.0),
    ]


def asked(deck: list[dict]) -> Answer:
    block = {"name": "deck", "face": "block", "seen": "deck from above", "lines": deck}
    return ask("face-flat", least({"readings": {"faces": [face("head", 0.0), block]}}))


def test_the_band_decides():
    answer = asked(lines(0.12))
    along = next(check for check in answer.checks if check.name.startswith("block"))
    assert (answer.state, answer.action, along.outcome) == (State.DECIDED, "cut", Outcome.FAILS)
    assert along.band is not None
    assert along.band.low <= 0.12 <= along.band.high
    assert along.value == pytest.approx(0.12, abs=0.02)
    assert any("away from every leaf" in text for text in answer.assumptions)


def test_while_the_band_holds_the_limit_the_next_laying_is_named():
    answer = asked(lines(0.05))
    assert answer.state is State.CLOSE
    assert "the edge laid from" in wanted_of(answer)


def test_few_lines_stand_each_for_itself():
    answer = asked(lines(0.12)[:2])
    assert not any("away from every leaf" in text for text in answer.assumptions)
    assert answer.action == "cut"


def test_a_line_that_does_not_fit_is_asked_for_again():
    deck = lines(0.05)
    for number, reading in enumerate(deck[1]["readings"]):
        raised = 0.045 * (1 - number / len(deck[1]["readings"]))
        goes = 0.0 if reading["goes"] == "none" else float(reading["goes"].removesuffix(" mm"))
        reading.update(tried(goes + 0.003 + raised))
    assert "clean and lay again" in wanted_of(asked(deck))


SPAN = {
    "name": "span", "quantity": "face_flatness", "high": "0.02 mm", "span": "100 mm", "measure": "under-the-edge",
    "rank": "manual", "from": "manual p. 3",
}  # fmt: skip


def spans(hollow: float) -> list:
    block = {"name": "deck", "face": "block", "seen": "deck from above", "lines": lines(hollow)}
    answer = ask("face-flat", least({"readings": {"faces": [face("head", 0.0), block]}, "limits": [SPAN]}))
    return [check for check in answer.checks if check.name.startswith("block face, in any 100 mm")]


def test_a_limit_per_span_is_judged_by_the_faces_the_leaves_allow():
    """A bow of 0.12 mm over 400 mm is 0.0075 mm in any 100 mm; a dip between the leaves may be more, so none can tell."""
    along = next(check for check in spans(0.12) if "mm along" in check.name)
    assert along.band is not None
    assert along.band.low <= 0.0075 <= along.band.high
    assert along.outcome is Outcome.CANNOT_TELL
    assert along.band.high < 0.15


def deck_of(deck: list[dict], tools: dict | None = None, **others: object) -> FaceFound:
    block = {"name": "deck", "face": "block", "seen": "deck from above", "lines": deck, **others}
    job = job_of({"readings": {"faces": [block]}}, tools=tools or {})
    found = Findings(job, job.joints[0], FINDINGS, Findings(job, None, FINDINGS)).get(Faces)
    assert isinstance(found, Faces)
    return found.faces[0]


def at_least(found: FaceFound) -> float:
    assert found.allowed is not None
    return found.allowed.flatness.low


def test_a_set_says_how_true_its_edge_is():
    """A bow of the face that the edge may have itself is not certain; the upper end is that of dips no leaf was near."""
    unsaid, true, rough = (
        deck_of(lines(0.12)),
        deck_of(lines(0.12), edge_true_to="0.001 mm"),
        deck_of(lines(0.12), edge_true_to="0.0016 in"),
    )
    assert (unsaid.edge_true_to, unsaid.taken_true_to) == (None, EDGE_TRUE_TO)
    assert rough.taken_true_to == pytest.approx(0.0016 * 25.4)
    assert at_least(true) > at_least(unsaid) > at_least(rough) + 0.02


def test_else_the_error_of_the_set_or_of_the_tools_counts():
    garage, few = {"straightedge_error": "0.04 mm"}, lines(0.12)[:1]
    by_tools, by_set = deck_of(few, garage), deck_of(few, garage, error="0.02 mm")
    said = deck_of(few, garage, error="0.02 mm", edge_true_to="0.004 mm")
    assert [one.edge_true_to for one in (by_tools, by_set, said)] == pytest.approx([0.04, 0.02, 0.004])
    assert read_with(job_of({}), FaceReadings(name="deck", face="block"), 0.0).edge_true_to == TRUEST_EDGE


def test_the_answer_says_how_true_the_edge_was_taken():
    block = {"name": "deck", "face": "block", "seen": "deck from above", "lines": lines(0.12)}
    unsaid = ask("face-flat", least({"readings": {"faces": [block]}}))
    said = ask("face-flat", least({"readings": {"faces": [block | {"edge_true_to": "0.004 mm"}]}}))
    assert "edge taken as true to 0.010 mm" in " ".join(unsaid.assumptions)
    assert "edge_true_to" in " ".join(path for one in unsaid.next for path in one.missing.paths)
    assert "edge true to 0.0040 mm" in " ".join(said.assumptions)
    assert not any("how true the straightedge is" in one.missing.measure for one in said.next)


def test_a_few_lines_are_widened_by_it_too():
    (first,) = (line for line in deck_of(lines(0.12)[:1]).lines)
    (wider,) = (line for line in deck_of(lines(0.12)[:1], edge_true_to="0.01 mm").lines)
    assert first.band is not None
    assert wider.band is not None
    assert wider.band.high == pytest.approx(first.band.high + 0.01)


def test_leaves_and_their_width_are_those_of_the_garage():
    garage = {"leaves": "0.02, 0.05, 0.10 mm", "leaf_width": "5 mm"}
    job = job_of({"readings": {"faces": []}}, tools=garage)
    readings = FaceReadings(name="deck", face="block")
    with_these = read_with(job, readings, None)
    assert with_these.leaves == pytest.approx((0.02, 0.05, 0.10))
    assert with_these.leaf_width == pytest.approx(5.0)


def test_what_cleans_a_face_from_lines_is_its_smallest_zone():
    """A line shows half of a twist: what has to come off is the upper end of the zone, not of a gap."""
    block = {"name": "deck", "face": "block", "seen": "deck from above", "lines": lines(0.12)}
    job = job_of({"readings": {"faces": [block]}})
    found = Findings(job, job.joints[0], FINDINGS, Findings(job, None, FINDINGS))
    faces, cut = found.get(Faces), found.get(Cut)
    assert isinstance(faces, Faces)
    assert isinstance(cut, Cut)
    allowed, stock = faces.faces[0].allowed, cut.face("block")
    assert allowed is not None
    assert stock is not None
    assert stock.out_of_flat.value == pytest.approx(allowed.flatness.high)
