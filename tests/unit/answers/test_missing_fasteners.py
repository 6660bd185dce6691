"""Taking readings out of the example never turns an answer about fasteners into a yes."""

import tomllib
from pathlib import Path

import pytest

from firedeck.assess.assess import assess_question
from firedeck.job.reading import from_raw

EXAMPLE = Path(__file__).parents[3] / "examples" / "jobs" / "inline-four.toml"


def without(*path):
    """Read the example with one section of its joint taken out."""
    raw = tomllib.loads(EXAMPLE.read_text(encoding="utf-8"))
    for name in ("as_built", "variant"):
        raw.pop(name, None)
    node = raw["joint"][0]
    for key in path[:-1]:
        node = node[key]
    del node[path[-1]]
    return from_raw(raw, repr(raw))


def one(job, question):
    (answer,) = assess_question(job, question).answers
    return answer


@pytest.mark.parametrize(
    ("question", "path"),
    [
        ("fasteners-reuse", ("readings", "fasteners")),
        ("fasteners-reuse", ("readings", "fasteners", "lengths")),
        ("fasteners-reuse", ("readings", "fasteners", "threads")),
        ("fasteners-reuse", ("limits",)),
        ("threads-hold", ("layout",)),
        ("tighten-how", ("procedure",)),
        ("clean-how", ("head", "material")),
        ("dry-or-coated", ("gasket",)),
    ],
)
def test_less_known_is_open(question, path):
    answer = one(without(*path), question)
    assert (answer.state, answer.action) == ("open", None)
    assert answer.next


@pytest.mark.parametrize("path", [("readings",), ("layout",), ("procedure",), ("fasteners",), ("gasket",)])
def test_stop_card_says_what_is_unknown(path):
    answer = one(without(*path), "goes-on")
    assert answer.action == "stop" or "unknown" in answer.headline
