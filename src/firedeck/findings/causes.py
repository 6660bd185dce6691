"""Where it leaks and what killed it: all signs of the document weighed by our tables."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from firedeck.diagnosis import DiedOf, LeakCauses, died_of, leak_causes
from firedeck.diagnosis.case_book import case_book
from firedeck.findings.finding import Findings
from firedeck.findings.leak_signs import known_to_have, leak_signs, ruled_out, words_of
from firedeck.findings.root_signs import root_signs
from firedeck.findings.tests import TestsRead
from firedeck.job import Job, Joint
from firedeck.trace import GENERIC, NO_UNIT, Missing, Step

HEAD_TESTS = {"wet-compression": "dry-compression", "bores-looked-at": "bores-looked-at"}
"""Tests that are witnesses of one kind: the wet readings only repeat the dry ones."""


@dataclass(frozen=True)
class Seen:
    """Signs that went in, causes this engine cannot have, and how many kinds of test speak of it."""

    signs: Mapping[str, bool]
    absent: Mapping[str, str]
    kinds: tuple[str, ...]
    counted: Step


@dataclass(frozen=True)
class Causes:
    """Causes of the leak and of the failure; ``leak`` is None where nothing was seen or tested."""

    id: ClassVar[str] = "causes"
    leak: LeakCauses | None
    leak_seen: Seen
    root: DiedOf | None
    root_seen: Seen


def find(job: Job, _joint: Joint | None, found: Findings) -> Causes | Missing:
    """Weigh what the document tells."""
    words = words_of(job)
    leak = _seen("leak", leak_signs(job, found.get(TestsRead)), ruled_out("leak", words))
    root = _seen("root", root_signs(job, found), ruled_out("root", words))
    return Causes(
        leak_causes(leak.signs, tuple(leak.absent), known_to_have("leak", words)) if leak.signs else None,
        leak,
        died_of(root.signs, tuple(root.absent)) if any(root.signs.values()) else None,
        root,
    )


def _seen(book: str, signs: Mapping[str, bool], absent: Mapping[str, str]) -> Seen:
    """Count the kinds of test that showed something."""
    cases = case_book(book)
    shown = [cases.sign(name).test for name, there in signs.items() if there and name != "compression-even"]
    kinds = tuple(dict.fromkeys(HEAD_TESTS.get(test, test) for test in shown))
    counted = Step.work_out(
        "Kinds of test and telling that show something",
        "kinds",
        {"kinds": (float(len(kinds)), NO_UNIT)},
        ("kinds", NO_UNIT),
        GENERIC,
    )
    return Seen(dict(signs), dict(absent), kinds, counted)
