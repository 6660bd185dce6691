"""A job with anything left out is refused with a line, or every question asked of it has an answer."""

import copy
import tomllib
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from firedeck.assess import assess, plain
from firedeck.errors import JobError
from firedeck.job.reading import from_raw

EXAMPLE = (Path(__file__).parents[2] / "examples" / "jobs" / "inline-four.toml").read_text(encoding="utf-8")
RAW = tomllib.loads(EXAMPLE)
FUZZ = settings(deadline=None, database=None, max_examples=40)
Place = tuple[str | int, ...]


def places(node: Any, before: Place = ()) -> list[Place]:
    """List every section and value of a document, but no single entry of a list of figures."""
    if isinstance(node, list):
        named = [(number, item) for number, item in enumerate(node) if isinstance(item, dict)]
        return [
            place for number, item in named for place in [(*before, number), *places(item, (*before, number))]
        ]
    if isinstance(node, dict):
        return [place for key in node for place in [(*before, key), *places(node[key], (*before, key))]]
    return []


def without(gaps: list[Place]) -> dict[str, Any]:
    """Return the example without these places; later ones first, so that numbers stay right."""
    raw = copy.deepcopy(RAW)
    for *way, last in sorted(gaps, key=lambda place: [str(key).zfill(6) for key in place], reverse=True):
        node: Any = raw
        for key in way:
            node = node.get(key) if isinstance(node, dict) else node[key] if key < len(node) else None
            if node is None:
                break
        if isinstance(node, dict):
            node.pop(last, None)
        elif isinstance(node, list) and last < len(node):
            del node[last]
    return raw


WHOLE = [(answer.question, answer.joint) for answer in assess(from_raw(copy.deepcopy(RAW), EXAMPLE)).answers]


class TestAnyGap:
    """Missing data is an answer, never an exception."""

    @FUZZ
    @given(gaps=st.lists(st.sampled_from(places(RAW)), min_size=1, max_size=12))
    def test_what_is_left_out_is_asked_for(self, gaps):
        try:
            job = from_raw(without(gaps), EXAMPLE)
        except JobError:
            return
        said = plain(assess(job))
        assert [(answer["question"], answer["joint"]) for answer in said["answers"]] == WHOLE
