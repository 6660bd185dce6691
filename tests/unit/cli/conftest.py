"""The command line run in this process, and what it said."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from firedeck.cli import main

ROOT = Path(__file__).parents[3]
EXAMPLE = ROOT / "examples" / "jobs" / "inline-four.toml"


@dataclass(frozen=True)
class Said:
    """Exit code and both streams."""

    code: int
    out: str
    err: str


Firedeck = Callable[..., Said]


@pytest.fixture
def firedeck(capsys: pytest.CaptureFixture[str]) -> Firedeck:
    """Run one command."""

    def run(*arguments: object) -> Said:
        code = main([str(argument) for argument in arguments])
        streams = capsys.readouterr()
        return Said(code, streams.out, streams.err)

    return run


@pytest.fixture
def example() -> Path:
    """The invented inline four."""
    return EXAMPLE
