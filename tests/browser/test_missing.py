"""Where everything must run, a missing Chromium is a failure, elsewhere these tests are left out."""

import pytest
from browser import conftest


@pytest.fixture(autouse=True)
def nowhere(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(conftest, "NAMES", ("no-such-browser",))


def test_it_fails_where_everything_must_run(monkeypatch):
    monkeypatch.setenv("CI", "true")
    with pytest.raises(pytest.fail.Exception, match="make test-tools"):
        conftest.chromium()


def test_it_is_left_out_elsewhere(monkeypatch):
    monkeypatch.delenv("CI", raising=False)
    with pytest.raises(pytest.skip.Exception, match="make test-tools"):
        conftest.chromium()
