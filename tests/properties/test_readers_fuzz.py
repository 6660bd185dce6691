"""Whatever is typed, a reader gives a result or one of our own errors, each fault on one line."""

import copy
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from firedeck.cli.failing import lines_of
from firedeck.errors import BadQuantity, FiredeckError, JobError
from firedeck.fasteners.procedure_reading import parse as parse_procedure
from firedeck.job import Change, read_text
from firedeck.job.paths import split_path
from firedeck.job.reading import from_raw
from firedeck.quantity import Kind, core_unit, is_number, parse, parse_list, parse_rows, read_columns
from firedeck.sums import all_sums
from firedeck.sums.registry import Argument
from firedeck.terms import term

EXAMPLE = (Path(__file__).parents[2] / "examples" / "jobs" / "inline-four.toml").read_text(encoding="utf-8")
RAW = tomllib.loads(EXAMPLE)
JOB = read_text(EXAMPLE)
NUMBERED = [kind for kind in Kind if is_number(kind)]
FUZZ = settings(deadline=None, database=None, suppress_health_check=[HealthCheck.too_slow])

MARKS = "0123456789.,;/+-−–±×·'\"″°µμ½¼²³ \t\n()[]{}=#@:%&"
TYPED = st.text(st.one_of(st.sampled_from(MARKS), st.characters(codec="utf-8")), max_size=40)
PIECES = """
0 -1 1e9 3 2,5 1,100 1/2 .005 nan inf in " mm thou psi bar ft-lb Nm +90° pounds tenths µin then loosen repeat
from
step 1 long: after 1000 km cold wait run oiled check at least , ; / ( ) ± to M10 8.8 @x 1-8: second sequence
"""
WORDS = st.lists(st.sampled_from(PIECES.split()), max_size=8).map(" ".join)
TEXTS = TYPED | WORDS
VALUES = st.recursive(
    TEXTS | st.integers() | st.floats() | st.booleans() | st.dates(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXTS, inner, max_size=3),
    max_leaves=6,
)


def only_ours(read: Callable[[], object], *kinds: type[FiredeckError]) -> bool:
    """Run a reader: its errors are of these kinds, one line for each fault. True when it gave a result."""
    try:
        read()
    except kinds as fault:
        lines = lines_of(fault)
        assert lines
        assert all(line.strip() and len(line.splitlines()) == 1 for line in lines)
        return False
    return True


class TestTexts:
    """A text of any kind is read, or refused with BadQuantity."""

    @FUZZ
    @given(text=TEXTS, kind=st.sampled_from(Kind))
    def test_quantities(self, text, kind):
        only_ours(lambda: parse(text, kind), BadQuantity)

    @FUZZ
    @given(text=TEXTS, kind=st.sampled_from(NUMBERED))
    def test_lists(self, text, kind):
        only_ours(lambda: parse_list(text, kind), BadQuantity)

    @FUZZ
    @given(text=TEXTS, kinds=st.lists(st.sampled_from(NUMBERED), min_size=1, max_size=3))
    def test_rows(self, text, kinds):
        only_ours(lambda: parse_rows(text, kinds), BadQuantity)

    @FUZZ
    @given(head=st.sampled_from(["x,y,z\n", "x [mm], z [thou]\n", "x_mm;z_um\n", ""]), text=TEXTS)
    def test_columns(self, head, text):
        only_ours(lambda: read_columns(head + text), BadQuantity)

    @FUZZ
    @given(text=TEXTS)
    def test_procedures(self, text):
        only_ours(lambda: parse_procedure(text), JobError)

    @FUZZ
    @given(text=TEXTS)
    def test_paths_and_changes(self, text):
        only_ours(lambda: split_path(text), JobError)
        only_ours(lambda: Change.read(text), JobError)


def places(node: Any, before: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """List every place of a document: sections, items and values."""
    keys: list[str | int] = list(node) if isinstance(node, dict) else []
    keys = list(range(len(node))) if isinstance(node, list) else keys
    return [place for key in keys for place in [(*before, key), *places(node[key], (*before, key))]]


def at(place: tuple[str | int, ...]) -> Any:
    """Return what stands at a place of the example."""
    node: Any = RAW
    for key in place:
        node = node[key]
    return node


PLACES = places(RAW)
SECTIONS = [place for place in PLACES if isinstance(at(place), dict)]


def with_value(place: tuple[str | int, ...], value: Any) -> dict[str, Any]:
    """Return the example with one value replaced."""
    raw = copy.deepcopy(RAW)
    node: Any = raw
    for key in place[:-1]:
        node = node[key]
    node[place[-1]] = value
    return raw


class TestDocuments:
    """A document of any kind is read, or every fault of it is a JobError with its place."""

    @FUZZ
    @given(text=TYPED)
    def test_any_text(self, text):
        assert not only_ours(lambda: read_text(text), JobError)

    @FUZZ
    @given(place=st.sampled_from(PLACES), value=VALUES)
    def test_any_value_at_any_place(self, place, value):
        only_ours(lambda: from_raw(with_value(place, value), EXAMPLE), JobError)

    @FUZZ
    @given(place=st.sampled_from(SECTIONS), key=TEXTS, value=VALUES)
    def test_any_key_at_any_place(self, place, key, value):
        only_ours(lambda: from_raw(with_value((*place, key), value), EXAMPLE), JobError)

    @FUZZ
    @given(start=st.integers(0, len(EXAMPLE)), length=st.integers(0, 60), text=TYPED)
    def test_any_cut_and_paste(self, start, length, text):
        only_ours(lambda: read_text(EXAMPLE[:start] + text + EXAMPLE[start + length :]), JobError)

    @FUZZ
    @given(path=TEXTS | st.sampled_from([".".join(map(str, place)) for place in PLACES]), value=VALUES)
    def test_any_change(self, path, value):
        only_ours(lambda: JOB.changed({path: value}), JobError)


def figures(argument: Argument) -> st.SearchStrategy[str]:
    """Give an argument of the right sort: a figure, from nothing to absurd, or a word of its list."""
    about = term(argument.meant)
    if not is_number(about.kind) or argument.type is str:
        return st.sampled_from([*about.choices, "M10", "M8x1", "8.8", "10.9", "oil", "dry", "3 mm", "0.12"])
    unit = core_unit(about.kind)
    low, high = about.plausible or (0.0, 100.0)
    sizes = st.sampled_from([0.0, 1e-9, 1e9, -1.0, low, high, (low + high) / 2]) | st.floats(low, high)
    one = sizes.map(lambda size: f"{size:.9f} {'' if unit == '1' else unit}".strip())
    return one if argument.type is float else st.lists(one, min_size=1, max_size=4).map("; ".join)


@pytest.mark.parametrize("name", sorted(all_sums()))
@settings(FUZZ, max_examples=60)
@given(data=st.data())
def test_sums_take_any_argument(name, data):
    found = all_sums()[name]
    arguments = {
        argument.shown: data.draw(figures(argument) | figures(argument) | TEXTS)
        for argument in found.arguments.values()
        if not argument.optional or data.draw(st.booleans())
    }
    only_ours(lambda: found.run(**arguments), FiredeckError)
