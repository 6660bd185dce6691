"""What firedeck says about every example is what is stored: numbers to a millionth, words exactly.

A difference that is meant is stored with ``make golden``; its lines are read before they are committed.
"""

import copy
import json
import math

import pytest
from golden.stored import DIGITS, EXAMPLES, STORED, assessed, differences, normal, read, write, written

MOST = 20


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_is_answered_as_stored(name):
    found = list(differences(read(name), assessed(name)))
    assert not found, "\n".join([f"{len(found)} differences; meant so? make golden", *found[:MOST]])


def test_there_is_one_stored_object_for_each_example_and_no_other():
    assert {file.stem for file in STORED.glob("*.json")} == set(EXAMPLES)


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_stored_object_is_written_as_make_golden_writes_it(name):
    text = (STORED / f"{name}.json").read_text(encoding="utf-8")
    assert text == written(json.loads(text)) + "\n"


SAMPLE = {"a": [1.0, 2, None, True], "b": {"word": "holds", "far": 123456.789}}


def changed(**change):
    other = copy.deepcopy(SAMPLE)
    other["b"].update(change)
    return list(differences(SAMPLE, other))


def test_what_is_the_same_has_no_differences():
    assert list(differences(SAMPLE, copy.deepcopy(SAMPLE))) == []
    assert changed(far=123456.789 * (1 + 0.9e-6)) == []
    assert list(differences(0.0, 1e-12)) == []
    assert list(differences(1, 1.0)) == []


def test_a_number_off_by_more_than_a_millionth_is_told():
    (line,) = changed(far=123456.789 * (1 + 1.2e-6))
    assert line.startswith("b.far: 123456.789 before, ")
    assert len(list(differences(0.001, 0.0010001))) == 1


@pytest.mark.parametrize(
    ("before", "now"),
    [("holds", "fails"), ("a", "a "), (1, True), (0, False), (None, 0), ("1", 1), (1, [1]), ({}, [])],
)
def test_words_and_kinds_are_compared_exactly(before, now):
    assert list(differences([before], [now])) == [f"[0]: {before!r} before, {now!r} now"]


def test_what_comes_from_rounds_may_end_a_little_elsewhere_and_nothing_else_may():
    def whole(load, text, limit=10.0):
        answer = {"question": "joint-holds", "headline": text, "checks": [{"value": load}]}
        return {"findings": {"head": {"joint": {"load": load}, "gas": {"peak": limit}}}, "answers": [answer]}

    before = whole(20.3043, "about 95 % at No 3, 20.3 N/mm, a word")
    assert list(differences(before, whole(20.3051, "about 95 % at No 3, 20.4 N/mm, a word"))) == []
    assert len(list(differences(before, whole(20.40, "about 95 % at No 3, 20.3 N/mm, a word")))) == 2
    assert len(list(differences(before, whole(20.3043, "about 85 % at No 3, 20.3 N/mm, a word")))) == 1
    assert len(list(differences(before, whole(20.3043, "about 95 % at No 3, 20.3 N/mm, a sword")))) == 1
    assert len(list(differences(before, whole(20.3043, before["answers"][0]["headline"], limit=10.001)))) == 1


def test_what_is_new_or_gone_is_told():
    assert list(differences({"a": 1}, {"b": 1})) == ["a: gone", "b: new"]
    assert list(differences({"a": [1, 2]}, {"a": [1]})) == ["a: 2 before, 1 now"]


def test_late_digits_are_not_stored():
    assert normal({"a": (1 / 3, -0.0, 1e-17, 5, True, "x")}) == {"a": [0.333333333, 0.0, 0.0, 5, True, "x"]}
    assert math.copysign(1, normal(-0.0)) == 1
    assert 10.0 ** (1 - DIGITS) < 1e-7


def test_what_is_written_reads_back():
    whole = {**SAMPLE, "long": ["x" * 80, {"y": "z" * 80}], "many": list(range(100)), "none": [], "ö": "ü"}
    assert json.loads(written(whole)) == whole
    assert max(len(line) for line in written({"long": ["x" * 80, "y" * 80]}).splitlines()) <= 110


def test_writing_says_what_changed(tmp_path, monkeypatch):
    monkeypatch.setattr("golden.stored.EXAMPLES", {"one": EXAMPLES["side-valve-single"]})
    (tmp_path / "old.json").write_text("{}", encoding="utf-8")
    assert write(tmp_path) == {
        "one": ["stored for the first time"],
        "old": ["taken away: there is no such example"],
    }
    assert write(tmp_path) == {"one": []}
    stored = read("one", tmp_path)
    stored["job"]["title"] = "another"
    (tmp_path / "one.json").write_text(json.dumps(stored), encoding="utf-8")
    ((line,),) = write(tmp_path).values()
    assert line.startswith("job.title: 'another' before, ")


def test_nothing_stored_says_how_to_store_it(tmp_path):
    with pytest.raises(AssertionError, match="nothing is stored for one yet: make golden"):
        read("one", tmp_path)
