"""The counter must not give points for what is not there: faked command lines, and the rows themselves."""

import csv
import json
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest
import score as counter
from question_marks import UNITS, fits, number, same_action
from question_rows import HERE, Ask, Row, Want, read_ask, read_row, read_rows, spread
from score import Replies

DOCUMENT = "job.toml"
KINDS = {"A": 12, "B": 7, "C": 6, "D": 7, "E": 8, "F": 5, "G": 2, "H": 8, "I": 5, "J": 12, "K": 7, "L": 6}
KINDS |= {"M": 5, "N": 5}
ACTIONS = {
    "face-flat finish-right": "leave clean cut straighten-first send-out",
    "cut-how-much": "leave cut straighten-first send-out scrap",
    "casting-worth": "go-on test-first straighten line-bore scrap",
    "damage-near-seal": "leave cut-removes-it repair test-first scrap",
    "liners-stand pistons-stand": "leave shim cut-seat change-class send-out",
    "cut-does-what": "fine restore-first too-much",
    "combination": "choose none-works",
    "old-gasket-says": "read-as-listed",
    "gasket-which": "use ask-the-maker none-fits",
    "gasket-fits": "one-way any-way by-this-passage wrong-part",
    "joint-holds": "no-worse worse cannot-rank not-below-what-failed",
    "bolts-or-studs": "keep studs ask-the-maker",
    "fasteners-reuse": "reuse replace-one replace-all",
    "threads-hold": "use chase insert send-out stop",
    "dry-or-coated strip-how clean-how tighten-how": "do-as-listed stop",
    "buy-what shop-order goes-on follow-up": "do-as-listed stop",
    "work-accepted": "accept send-back",
    "leak-where": "strip test-next not-the-joint",
    "died-of": "cause-known cause-likely unknown",
    "proved": "run stop watch",
    "came-back": "strip retorque-as-the-book test-next",
}
"""The questions firedeck answers, and the actions each may end in."""

LENGTH = {
    "id": "X1", "kind": "X", "ask": f"doc:{DOCUMENT}#liners-stand", "key": "liner_protrusion",
    "expected": "0.100", "unit": "mm", "tolerance": "5 %", "decision": "shim",
    "next": "liner|protrusion", "evidence": "R/N",
}  # fmt: skip
ACTION = LENGTH | {"key": "action", "expected": "shim", "unit": "", "tolerance": "exact", "evidence": "R/D"}
SUM = LENGTH | {"ask": "sum:squish cut='1 mm'", "key": "squish", "next": "", "decision": "a rule"}


def check(value: float | None, **more: object) -> dict[str, object]:
    """Make a check as the command line prints it."""
    return {"name": "liner protrusion", "value": value, "unit": "mm", "limit": None, "band": None, **more}


def answer(state: str = "decided", action: str | None = "shim", **more: object) -> dict[str, object]:
    """Make an answer as the command line prints it."""
    plain = {"question": "liners-stand", "joint": "head", "cylinders": [], "headline": "shim it"}
    lists: dict[str, object] = {"checks": [], "work": [], "next": [], "sources": ["a-book"]}
    return plain | lists | {"state": state, "action": action, **more}


def points(cells: dict[str, str], *answers: dict[str, object], code: int = 0) -> int:
    """Score one document row against these answers."""
    row = read_row(cells)
    replies = Replies(jobs={DOCUMENT: {"answers": list(answers)} if code == 0 else None})
    return counter.score(row, replies).points


def sum_points(cells: dict[str, str], results: object, code: int = 0) -> int:
    """Score one row of sums against this reply."""
    return counter.score(read_row(cells), Replies(lambda _: (code, json.dumps({"results": results})))).points


# ---- nothing for missing things


def test_no_command_line_no_points(capsys: pytest.CaptureFixture[str]) -> None:
    assert counter.main(["--json"], lambda _: (1, "")) == 0
    said = json.loads(capsys.readouterr().out)
    assert set(said) == {"points", "possible", "by_kind"}
    assert (said["points"], said["possible"]) == (0, 190)
    assert {kind: part["possible"] for kind, part in said["by_kind"].items()} == {
        kind: 2 * rows for kind, rows in KINDS.items()
    }


def test_what_is_missing_is_listed(capsys: pytest.CaptureFixture[str]) -> None:
    counter.main([], lambda _: (2, ""))
    listed = capsys.readouterr().out.split("missing:")[1]
    assert "sum gas-force" in listed
    assert "H4.toml#gasket-fits" in listed


@pytest.mark.parametrize(
    "stdout", ["", "no such sum", "[]", "{}", '{"results": {}}', '{"results": {"squish": 0.1}}']
)
def test_a_reply_without_the_result_earns_nothing(stdout: str) -> None:
    assert counter.score(read_row(SUM), Replies(lambda _: (0, stdout))).points == 0


def test_a_right_number_with_a_failed_exit_earns_nothing() -> None:
    right = {"squish": {"value": 0.1, "unit": "mm"}}
    assert sum_points(SUM, right) == 2
    assert sum_points(SUM, right, code=1) == 0
    assert sum_points(SUM, right, code=2) == 0


def test_no_document_no_answer_no_question() -> None:
    assert points(LENGTH, code=2) == 0
    assert points(LENGTH) == 0
    assert points(LENGTH, answer(question="face-flat", checks=[check(0.1)])) == 0


def test_every_key_must_be_right() -> None:
    two = SUM | {"key": "squish;cut", "expected": "0.1;2", "unit": "mm"}
    squish = {"value": 0.1, "unit": "mm"}
    assert sum_points(two, {"squish": squish}) == 0
    assert sum_points(two, {"squish": squish, "cut": {"value": 3, "unit": "mm"}}) == 0
    assert sum_points(two, {"squish": squish, "cut": {"value": 2, "unit": "mm"}}) == 2


def test_every_ask_must_be_answered() -> None:
    mixed = LENGTH | {"ask": f"doc:{DOCUMENT}#liners-stand && sum:squish", "key": "liner_protrusion;squish"}
    row = read_row(mixed | {"expected": "0.1;0.9"})
    jobs = {DOCUMENT: {"answers": [answer(checks=[check(0.1)])]}}
    assert counter.score(row, Replies(lambda _: (2, ""), jobs=dict(jobs))).missing == "sum squish"
    good = json.dumps({"results": {"squish": {"value": 0.9, "unit": "mm"}}})
    assert counter.score(row, Replies(lambda _: (0, good), jobs=dict(jobs))).points == 2


# ---- numbers


@pytest.mark.parametrize(
    ("value", "earned"), [(0.095, 2), (0.105, 2), (0.0949, 0), (0.1051, 0), (-0.1, 0), (None, 0), (True, 0)]
)
def test_the_edge_of_the_tolerance_is_inside(value: float | None, earned: int) -> None:
    wrong_action = answer(action="leave", checks=[check(value)])
    assert points(LENGTH, wrong_action) == earned


def test_tolerance_as_a_number_and_exact() -> None:
    assert fits(Want("k", "8.0", "1", "0.05"), 8.05)
    assert not fits(Want("k", "8.0", "1", "0.05"), 8.0501)
    assert fits(Want("k", "1.0..1.2", "mm", "exact"), 1.2)
    assert not fits(Want("k", "1.0..1.2", "mm", "exact"), 1.21)
    assert fits(Want("k", "0.7|-0.7", "mm", "5 %"), -0.72)
    assert not fits(Want("k", "0.7|-0.7", "mm", "5 %"), 0.0)


def test_a_band_counts_when_it_holds_the_number_itself() -> None:
    def banded(low: float | None, high: float | None) -> int:
        return points(LENGTH, answer(action="leave", checks=[check(0.2, band={"low": low, "high": high})]))

    assert banded(0.1, 0.3) == 2
    assert banded(0.101, 0.3) == 0
    assert banded(None, 0.3) == 0
    assert banded(None, None) == 0


def test_a_sum_may_give_its_band_beside_the_value() -> None:
    def banded(low: float, high: float) -> int:
        ends = {"squish_low": {"value": low, "unit": "mm"}, "squish_high": {"value": high, "unit": "mm"}}
        return sum_points(SUM, {"squish": {"value": 0.2, "unit": "mm"}, **ends})

    assert banded(0.09, 0.3) == 2
    assert banded(0.11, 0.3) == 0


def test_units_are_turned_and_never_guessed() -> None:
    assert number(0.00076, "mm", "µm") == pytest.approx(0.76)
    assert number({"value": 2, "unit": "in"}, None, "mm") == pytest.approx(50.8)
    assert number(50, "N", "N·mm") is None
    assert number(50, "furlong", "mm") is None
    assert number(float("nan"), "mm", "mm") is None
    assert points(LENGTH, answer(action="leave", checks=[check(0.1, unit="MPa")])) == 0


def test_another_check_with_the_same_number_earns_nothing() -> None:
    assert points(LENGTH, answer(action="leave", checks=[check(0.1, name="deck clearance")])) == 0
    by_term = check(0.1, name="how far they stand", quantity="liner_protrusion")
    assert points(LENGTH, answer(action="leave", checks=[by_term])) == 2
    second = LENGTH | {"key": "liner_protrusion 2"}
    assert points(second, answer(action="leave", checks=[check(0.1, name="liner protrusion, No 1")])) == 0
    assert points(second, answer(action="leave", checks=[check(0.1, name="liner protrusion, No 2")])) == 2


def test_limits_and_margins_are_read_where_the_key_says_so() -> None:
    limited = check(0.3, limit={"low": None, "high": 0.1}, margin=-0.2)
    wrong = answer(action="leave", checks=[limited])
    assert points(LENGTH, wrong) == 0
    assert points(LENGTH | {"key": "low:liner_protrusion"}, wrong) == 0
    assert points(LENGTH | {"key": "high:liner_protrusion"}, wrong) == 2
    assert points(LENGTH | {"key": "low:liner_protrusion|high:liner_protrusion"}, wrong) == 2
    assert points(LENGTH | {"key": "margin:liner_protrusion", "expected": "-0.2"}, wrong) == 2
    still_open = answer(state="open", action=None, checks=[limited])
    assert points(LENGTH | {"key": "high:liner_protrusion"}, still_open) == 0


def test_labels_must_be_the_same_set() -> None:
    suspects = SUM | {"key": "suspects", "expected": "3", "unit": "", "tolerance": "exact"}
    assert sum_points(suspects, {"suspects": {"value": ["3"], "unit": None}}) == 2
    assert sum_points(suspects, {"suspects": {"value": ["1", "2", "3", "4"], "unit": None}}) == 0
    assert sum_points(suspects, {"suspects": {"value": [], "unit": None}}) == 0
    spoken = ACTION | {"key": "cylinders", "expected": "5+7|3+5+7"}
    assert points(spoken, answer(cylinders=["7", "5"])) == 2
    assert points(spoken, answer(cylinders=["5"])) == 0
    assert points(spoken, answer(action="leave", cylinders=["7", "5"])) == 0


# ---- decisions


@pytest.mark.parametrize("state", ["decided", "close"])
def test_the_right_action_with_a_source(state: str) -> None:
    assert points(ACTION, answer(state=state)) == 2
    assert points(ACTION, answer(state=state, action="leave")) == 0


@pytest.mark.parametrize("state", ["open", "not-applicable", None])
def test_no_action_counts_in_another_state(state: str) -> None:
    assert points(ACTION, answer(state=state)) == 0


@pytest.mark.parametrize(
    "sources", [[], ["memory"], ["generic-ours"], ["memory", "generic-ours"], [""], [None]]
)
def test_an_action_without_a_rule_earns_nothing(sources: list[str | None]) -> None:
    assert points(ACTION, answer(sources=sources)) == 0


def test_common_practice_is_a_rule_only_where_no_number_settles_it() -> None:
    assert points(ACTION, answer(sources=["common-practice"])) == 2
    assert points(ACTION | {"evidence": "R/N"}, answer(sources=["common-practice"])) == 0
    assert points(LENGTH | {"evidence": "R/D"}, answer(sources=["common-practice"])) == 0
    assert points(LENGTH, answer(sources=["common-practice", {"key": "a-book"}])) == 2


def test_a_list_of_work_must_hold_the_words() -> None:
    oiled = ACTION | {"key": "action;work", "expected": "do-as-listed;oil|again", "decision": "do-as-listed"}

    def worked(text: str, action: str = "do-as-listed") -> int:
        return points(oiled, answer(action=action, work=[{"text": text, "figure": "50 N·m", "caution": ""}]))

    assert worked("thread and head oiled") == 2
    assert worked("boil it against the clock") == 0
    assert worked("thread and head oiled", action="stop") == 0
    assert points(oiled, answer(action="do-as-listed")) == 0


def test_the_name_after_use_may_stand_in_the_headline() -> None:
    assert same_action("use composite", {"action": "use composite"})
    assert same_action("use composite", {"action": "use: composite"})
    assert same_action("use composite", {"action": "use", "headline": "the composite one fits"})
    assert not same_action("use composite", {"action": "use", "headline": "the copper one fits"})
    assert not same_action("use composite", {"action": "use copper", "headline": "not the composite"})
    assert not same_action("leave", {"action": None})


# ---- open


def test_open_with_the_right_next_earns_one() -> None:
    def following(measure: str, tool: str = "dial gauge", state: str = "open") -> int:
        step = {"measure": measure, "tool": tool, "how": "liner protrusion", "paths": []}
        return points(ACTION, answer(state=state, action=None, next=[step]))

    assert following("protrusion at four places") == 1
    assert following("how far they stand", "gauge over the liners") == 1
    assert following("compression") == 0
    assert following("underlinered") == 0
    assert following("protrusion", state="not-applicable") == 0
    assert points(ACTION, answer(state="open", action=None)) == 0


# ---- heads, batches


def test_two_heads_and_none_named_earn_nothing() -> None:
    left, right = answer(joint="left"), answer(joint="right", action="leave")
    assert points(ACTION, left, right) == 0
    assert points(ACTION | {"ask": f"doc:{DOCUMENT}#liners-stand@left"}, left, right) == 2
    assert points(ACTION | {"ask": f"doc:{DOCUMENT}#liners-stand@right"}, left, right) == 0
    assert points(ACTION | {"ask": f"doc:{DOCUMENT}#liners-stand@left"}, answer(joint=None)) == 2


def test_one_bad_document_does_not_spoil_the_others(tmp_path: Path) -> None:
    for name in ("a.toml", "b.toml"):
        (tmp_path / name).write_text("", encoding="utf-8")
    calls: list[Sequence[str]] = []

    def run(arguments: Sequence[str]) -> tuple[int, str]:
        calls.append(arguments)
        return (0, json.dumps({"job": "b"})) if arguments == ["check", "b.toml", "--json"] else (2, "")

    replies = Replies(run, root=tmp_path)
    replies.check_all(["a.toml", "b.toml", "gone.toml", "a.toml"])
    assert replies.jobs == {"a.toml": None, "b.toml": {"job": "b"}}
    assert calls[0] == ["check", "a.toml", "b.toml", "--json"]


def test_all_good_documents_are_checked_in_one_call(tmp_path: Path) -> None:
    for name in ("a.toml", "b.toml"):
        (tmp_path / name).write_text("", encoding="utf-8")
    calls: list[Sequence[str]] = []

    def run(arguments: Sequence[str]) -> tuple[int, str]:
        calls.append(arguments)
        return 0, json.dumps({"jobs": [{"job": "a"}, {"job": "b"}]})

    replies = Replies(run, root=tmp_path)
    replies.check_all(["a.toml", "b.toml"])
    assert replies.jobs == {"a.toml": {"job": "a"}, "b.toml": {"job": "b"}}
    assert len(calls) == 1


# ---- the rows


def test_ninety_five_rows_in_their_kinds() -> None:
    rows = read_rows()
    assert len({row.id for row in rows}) == len(rows) == 95
    assert Counter(row.kind for row in rows) == KINDS
    assert all(row.id.startswith(row.kind) for row in rows)


def test_every_row_can_earn_points_and_only_as_it_should() -> None:
    for row in read_rows():
        assert len(row.asks) in (1, len(row.wants)), row.id
        assert row.asks[0].document or not any(ask.document for ask in row.asks), row.id
        assert not row.is_work or (row.decision and row.next), row.id
        assert not row.asks[0].document or row.asks[0].document.endswith(f"/{row.id}.toml"), row.id
        for want in row.wants:
            assert (want.unit in UNITS or want.unit == "cc/mm") if want.is_number else True, row.id
            assert not want.is_number or all(low <= high for low, high in want.ranges()), row.id
            assert want.is_number or want.tolerance == "exact", row.id
            assert want.key != "action" or set(want.expected.split("|")) == set(row.decision), row.id


def test_every_expected_action_can_be_given() -> None:
    allowed = {question: set(ACTIONS[some].split()) for some in ACTIONS for question in some.split()}
    assert len(allowed) == 29
    for row in read_rows():
        assert all(ask.name in allowed for ask in row.asks if ask.document), row.id
        if row.is_work:
            assert {one.split()[0] for one in row.decision} <= allowed[row.asks[0].name], row.id


def test_six_words_each() -> None:
    with (HERE / "questions.csv").open(encoding="utf-8", newline="") as file:
        assert all(len(cells["about"].split()) == 6 for cells in csv.DictReader(file))


def test_a_cell_with_the_wrong_count_is_refused() -> None:
    assert spread("5 %", 3) == ["5 %", "5 %", "5 %"]
    with pytest.raises(ValueError, match="2 entries for 3 keys"):
        spread("1;2", 3)
    with pytest.raises(ValueError, match="neither sum: nor doc:"):
        read_ask("job.toml")


def test_keys_find_their_own_ask() -> None:
    row: Row = read_row(SUM | {"ask": "sum:a && sum:b", "key": "x;y", "expected": "1;2"})
    assert [row.ask_of(place) for place in (0, 1)] == [Ask("a"), Ask("b")]
    assert replace(row, asks=row.asks[:1]).ask_of(1) == Ask("a")


def test_firedeck_does_not_know_the_questions() -> None:
    ids = {row.id for row in read_rows()} - {"M5", "M6", "M8"}  # sizes of threads
    for path in sorted((counter.ROOT / "src").rglob("*.py")):
        quoted = set(re.findall(r"""["']([A-N]\d{1,2})["']""", path.read_text(encoding="utf-8")))
        assert not quoted & ids, path.name
        assert "tests/questions" not in path.read_text(encoding="utf-8"), path.name
