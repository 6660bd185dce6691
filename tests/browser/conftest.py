"""The page in the system's own Chromium, served by a real server on a free port of this machine."""

import os
import shutil
import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from playwright.sync_api import Browser, Page, sync_playwright
from unit.web.conftest import EXAMPLE, Stored

from firedeck.web.app import make_app
from firedeck.web.jobs import Jobs

NAMES = ("chromium", "chromium-browser")
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PATIENCE = 20_000
"""Milliseconds a page may take on a slow machine."""


def chromium() -> str:
    """Return where Chromium is; without it the tests fail where everything must run, and are left out elsewhere."""
    found = next((path for path in map(shutil.which, NAMES) if path), None)
    if found:
        return found
    if os.environ.get("CI", "").lower() == "true":
        pytest.fail("Chromium is missing: make test-tools", pytrace=False)
    pytest.skip("Chromium is missing: make test-tools")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start Chromium once, with a fresh profile."""
    place = chromium()
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=place, args=list(FLAGS))
        yield started
        started.close()


@contextmanager
def served(jobs: Any) -> Iterator[str]:
    """Serve jobs on a free port; give the address."""
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        server = uvicorn.Server(uvicorn.Config(make_app(jobs), log_level="warning"))
        run = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        run.start()
        until = time.monotonic() + 20
        while not server.started:
            assert time.monotonic() < until, "the server did not start"
            time.sleep(0.02)
        yield f"http://127.0.0.1:{listening.getsockname()[1]}"
        server.should_exit = True
        run.join(timeout=20)


@pytest.fixture(scope="session")
def stored() -> Iterator[str]:
    """Serve the invented assessment that holds every state, and a file name that is hard on addresses."""
    with served(Stored("sample", "b & c? #d%2e")) as address:
        yield address


@pytest.fixture
def document(tmp_path: Path) -> Path:
    """Copy the invented inline four."""
    copy = tmp_path / "engine.toml"
    copy.write_bytes(EXAMPLE.read_bytes())
    return copy


@pytest.fixture
def real(document: Path) -> Iterator[str]:
    """Serve a document that is read from disk."""
    with served(Jobs.found([document])) as address:
        yield address


Opened = Callable[..., Page]


@pytest.fixture
def opened(browser: Browser) -> Iterator[Opened]:
    """Open pages; what they load from elsewhere, or complain of, fails the test."""
    pages: list[Page] = []
    complaints: list[str] = []

    def open_page(address: str, width: int = 1200, **more: Any) -> Page:
        page = browser.new_page(viewport={"width": width, "height": 900}, **more)
        pages.append(page)
        page.set_default_timeout(PATIENCE)
        page.on(
            "console",
            lambda said: complaints.append(said.text) if said.type in ("error", "warning") else None,
        )
        page.on("pageerror", lambda fault: complaints.append(str(fault)))
        page.on(
            "request",
            lambda asked: (
                None if asked.url.startswith(("http://127.0.0.1:", "data:")) else complaints.append(asked.url)
            ),
        )
        page.goto(address)
        return page

    yield open_page
    for page in pages:
        page.close()
    assert complaints == []
