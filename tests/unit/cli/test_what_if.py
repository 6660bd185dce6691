"""``what-if``: said before it starts, answers side by side, rings place by place, a picture, and faults of one line."""

import json
import xml.etree.ElementTree as ET

import pytest
from unit.answers.studied import found

from firedeck.assess import what_if as room
from firedeck.findings.joint import Rank
from firedeck.trace import Missing

TORQUE = "joint.head.procedure.text=20 N·m"
BORE = "joint.head.gasket.candidates.steel.bore=88 mm"


@pytest.fixture
def example(example, tmp_path):
    """The invented inline four without its faces, which take longest."""
    before, _, rest = example.read_text(encoding="utf-8").partition("[[joint.readings.faces]]")
    file = tmp_path / "engine.toml"
    file.write_text(
        before + "[[joint.readings.finish]]" + rest.partition("[[joint.readings.finish]]")[2], "utf-8"
    )
    return file


@pytest.fixture
def studied(monkeypatch):
    """Stand studies in for the long work: worse with the low torque of ``TORQUE``, no worse else."""

    def rank_of(job):
        return Rank.WORSE if job.joint("head").procedure.text == "20 N·m" else Rank.NO_WORSE

    def to_condense(job, _before, name, *, factory=True):
        bores = [one.bore.text for one in job.joint(name).gasket.candidates]
        return frozenset() if "87.0 mm" in bores else frozenset({"ring"})

    def study(job, *_rest, **_more):
        return found(*4 * (rank_of(job),))

    monkeypatch.setattr("firedeck.findings.joint.find", study)
    monkeypatch.setattr(room, "worked_out", study)
    monkeypatch.setattr(room, "to_condense", to_condense)


def asked(firedeck, example, *more):
    return json.loads(firedeck("what-if", example, "--json", *more).out)


def test_it_says_before_it_starts_what_is_at_once_and_what_is_a_new_shape(firedeck, example, studied):
    said = firedeck("what-if", example, "--change", TORQUE, BORE).out.splitlines()
    start = said.index("== as typed ==")
    before = "\n".join(said[:start])
    assert "joint.head.procedure.text: oiled 30 N·m +90° +90° → 20 N·m: at once" in before
    assert "candidates.steel.bore: 87.0 mm → 88 mm: new shape, about 20 seconds" in before


def test_answers_that_change_stand_side_by_side(firedeck, example, studied):
    (way,) = asked(firedeck, example, "--change", TORQUE)["ways"]
    changed = {one["question"]: one for one in way["answers"]}
    assert changed["joint-holds"]["as_written"]["state"] == "open"
    assert changed["joint-holds"]["changed"]["action"] == "worse"
    assert way["answers_the_same"] + len(way["answers"]) == 29
    text = firedeck("what-if", example, "--change", TORQUE).out
    assert "As written" in text
    assert max(map(len, text.splitlines())) <= 96


def test_every_ring_with_the_factory_now_changed_and_the_change(firedeck, example, studied):
    (way,) = asked(firedeck, example, "--change", TORQUE)["ways"]
    (joint,) = way["joints"]
    assert [place["bore"] for place in joint["places"]] == ["1", "2", "3", "4"]
    first = joint["places"][0]
    assert (first["as_built"], first["as_written"], first["changed"], first["change"]) == (
        60.0,
        64.0,
        42.0,
        -22.0,
    )
    assert (first["band"], first["rank"]) == ([-24.0, -12.0], "worse")
    assert first["share_says"] == "about 70 %, band 60–80"
    text = firedeck("what-if", example, "--change", TORQUE).out
    lines = text.splitlines()
    place = next(number for number, line in enumerate(lines) if line.startswith("  1 "))
    assert lines[place].split() == [*["1", "exhaust", "side", "60", "64", "42", "-22", "-24", "to", "-12"]]
    assert lines[place + 1].strip() == "of what standard has left about 70 %, band 60–80: worse"


def test_what_changes_nothing_says_so(firedeck, example, studied):
    out = firedeck("what-if", example, "--change", "job.notes=something else").out
    assert "No answer changes; 29 stay as they are." in out


def test_variants_and_candidates_are_ways_of_their_own(firedeck, example, studied):
    found = asked(firedeck, example, "--variant", "soft gasket, no cut", "--candidates")
    assert [way["way"] for way in found["ways"]] == [
        "soft gasket, no cut",
        "gasket soft",
    ]  # steel is what is written
    assert [change["path"] for change in found["ways"][1]["changes"]] == ["joint.head.gasket.fitted"]
    both = asked(firedeck, example, "--variant", "soft gasket, no cut", "--change", TORQUE)
    assert len(both["ways"][0]["changes"]) == 3


def test_rings_are_drawn_into_a_file(firedeck, example, studied, tmp_path):
    file = tmp_path / "rings.svg"
    said = firedeck("what-if", example, "--change", TORQUE, "--picture", file)
    assert said.code == 0
    words = [one.text for one in ET.parse(file).iter() if one.text and "stroke-width" not in one.attrib]
    assert {"as it left the factory", "as written", "changed", "as typed"} <= set(words)
    assert words.count("42") == 4


def test_a_joint_without_rings_says_why_and_nothing_can_be_drawn(firedeck, example, monkeypatch, tmp_path):
    missing = Missing(("joint.head.layout",), "the hole pattern", "vernier", "Measure it.")
    monkeypatch.setattr("firedeck.findings.joint.find", lambda *_: missing)
    monkeypatch.setattr(room, "to_condense", lambda *_a, **_k: frozenset())
    said = firedeck("what-if", example, "--change", TORQUE)
    assert "Rings of head: not yet: measure the hole pattern" in said.out
    drawn = firedeck("what-if", example, "--change", TORQUE, "--picture", tmp_path / "a.svg")
    assert (drawn.code, drawn.err.count("\n")) == (2, 1)


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["--change", "joint.head.cut.hed=0.2 mm"], "nearest known: head"),
        (["--change", "joint.hed.cut.head=0.2 mm"], "nearest known: joint.head.cut.head"),
        (["--change", "joint.head.cut.head=0.2 parsec"], "no unit of a length"),
        (["--change", "joint.head.gasket.fitted=stel"], "nearest known: steel"),
        (["--change", "running.boost"], "write it as PATH=VALUE"),
        (["--change", "joint.head.head.heights_before=[1,"], "as a document writes it"),
        (["--variant", "soft"], "known here: soft gasket, no cut"),
        ([], "--change PATH=VALUE, --variant NAME or --candidates"),
        (["--change", "job.notes=x", "--picture", "rings.png"], "a name that ends in .svg"),
        (["--chang", "a=b"], "nearest known: --change"),
    ],
)
def test_a_fault_is_one_line_that_names_the_nearest(firedeck, example, arguments, says):
    said = firedeck("what-if", example, *arguments)
    assert (said.code, said.out) == (2, "")
    assert says in said.err
    assert said.err.count("\n") == 1
