"""``check`` and ``explain``: one object on stdout, exit 0 whatever the answers say."""

import json

import pytest

TOP = ["format", "job", "revision", "joints", "findings", "answers"]


def test_check_json_is_one_object_and_nothing_else(firedeck, example):
    said = firedeck("check", example, "--json")
    assert (said.code, said.err) == (0, "")
    job = json.loads(said.out)
    assert list(job) == TOP
    assert job["answers"]
    assert all(next(iter(answer)) == "question" for answer in job["answers"])


def test_exit_is_0_though_a_face_fails_its_limit(firedeck, example):
    said = firedeck("check", example, "--stage", "measure", "--json")
    outcomes = {check["outcome"] for answer in json.loads(said.out)["answers"] for check in answer["checks"]}
    assert "fails" in outcomes
    assert said.code == 0


def test_several_files_give_jobs_in_their_order(firedeck, example, tmp_path):
    other = tmp_path / "other.toml"
    firedeck("new", other)
    said = firedeck("check", example, other, "--stage", "measure", "--json")
    found = json.loads(said.out)
    assert list(found) == ["jobs"]
    assert [job["job"]["title"] for job in found["jobs"]] == [
        "Overheated inline four, alloy head on iron block",
        "My engine",
    ]


def test_a_stage_shows_its_own_questions_only(firedeck, example):
    said = firedeck("check", example, "--stage", "measure", "--json")
    assert {answer["stage"] for answer in json.loads(said.out)["answers"]} == {"measure"}


def test_an_unknown_stage_lists_the_stages(firedeck, example):
    said = firedeck("check", example, "--stage", "mesure")
    assert said.code == 2
    assert said.err.startswith("--stage: found 'mesure'; allowed: before-strip, strip, ")
    assert said.err.count("\n") == 1


def test_the_worst_answer_stands_first(firedeck, example):
    out = firedeck("check", example).out
    heads = [line for line in out.splitlines() if line and not line.startswith(" ")]
    assert heads[0] == "Overheated inline four, alloy head on iron block"
    assert heads[2] == "Fails its limit"
    assert "HAVE IT CUT" in out


@pytest.mark.parametrize(
    ("units", "figure"), [("mm", "0.152 mm"), ("inch", "0.0060 in"), ("as-typed", "0.152 mm")]
)
def test_units_choose_the_printed_figure(firedeck, example, units, figure):
    out = firedeck("check", example, "--stage", "measure", "--units", units).out
    assert f"head face, along y 0 mm · {figure} ·" in out


def test_faults_of_every_file_are_told_and_nothing_is_printed(firedeck, example, tmp_path):
    broken = tmp_path / "broken.toml"
    broken.write_text(
        example.read_text(encoding="utf-8").replace('"86.0 mm"\nstroke', '"86.0"\nstroke'), encoding="utf-8"
    )
    said = firedeck("check", example, broken, tmp_path / "none.toml", "--json")
    assert (said.code, said.out) == (2, "")
    assert said.err.splitlines() == [
        f"{broken}: engine.bore: found '86.0'; say the unit: 86.0 mm or 86.0 in?",
        f"{tmp_path / 'none.toml'}: found no such file; give the name of a file that is there",
    ]


def question_of(firedeck, example):
    """A question of the measuring stage, whichever comes first."""
    said = firedeck("check", example, "--stage", "measure", "--json")
    return json.loads(said.out)["answers"][0]


def test_explain_says_one_answer_in_full(firedeck, example):
    answer = question_of(firedeck, example)
    said = firedeck("explain", example, answer["question"])
    assert (said.code, said.err) == (0, "")
    assert answer["asks"] in said.out
    assert answer["headline"] in said.out
    for title in ("Checks", "The sums", "If it is done anyway", "Sources"):
        assert f"\n{title}\n" in said.out
    for step in answer["steps"]:
        ((name, _),) = step["result"].items()
        assert f"    {name} = " in said.out


def test_explain_json_is_the_same_answer(firedeck, example):
    answer = question_of(firedeck, example)
    said = json.loads(firedeck("explain", example, answer["question"], "--json").out)
    assert list(said) == ["format", "job", "revision", "answers"]
    assert said["answers"] == [answer]


def test_explain_of_one_head(firedeck, example):
    answer = question_of(firedeck, example)
    assert firedeck("explain", example, answer["question"], "--joint", "head").code == 0
    said = firedeck("explain", example, answer["question"], "--joint", "haed")
    assert (said.code, said.err) == (2, "--joint: found 'haed'; nearest known: head\n")


def test_an_unknown_question_names_the_nearest(firedeck, example):
    known = question_of(firedeck, example)["question"]
    said = firedeck("explain", example, f"{known}x")
    assert (said.code, said.err) == (2, f"explain: found '{known}x'; nearest known: {known}\n")
