"""The page over an invented assessment that is stored, and over documents that are read."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from firedeck.web.app import make_app
from firedeck.web.jobs import Jobs
from firedeck.web.working import Works

ROOT = Path(__file__).parents[3]
EXAMPLE = ROOT / "examples" / "jobs" / "inline-four.toml"
SAMPLE = ROOT / "tests" / "unit" / "report" / "sample.json"
HERE = "http://127.0.0.1"
AWKWARD = "b & c? #d"


class Stored:
    """Jobs whose assessment lies ready; ``plain`` may be put out of order by a test."""

    def __init__(self, *names: str) -> None:
        self.files = dict.fromkeys(names, Path("none.toml"))
        self.whole: dict[str, Any] = json.loads(SAMPLE.read_text("utf-8"))
        self.fault: Exception | None = None
        self.works = Works()

    def plain(self, _name: str) -> dict[str, Any]:
        if self.fault:
            raise self.fault
        return self.whole


@pytest.fixture
def stored() -> Stored:
    return Stored("sample", AWKWARD)


@pytest.fixture
def client(stored: Stored) -> TestClient:
    """Look at the stored jobs; redirects are not followed."""
    return TestClient(make_app(stored), base_url=HERE, follow_redirects=False)  # type: ignore[arg-type]


Look = Callable[[Path], TestClient]


@pytest.fixture
def look() -> Look:
    """Look at documents that are read from disk."""
    return lambda *files: TestClient(make_app(Jobs.found(files)), base_url=HERE)


@pytest.fixture
def document(tmp_path: Path) -> Path:
    """Copy the invented inline four."""
    copy = tmp_path / "my engine.toml"
    copy.write_bytes(EXAMPLE.read_bytes())
    return copy
