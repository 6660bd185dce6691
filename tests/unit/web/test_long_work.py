"""What takes long is offered on the page, done beside it on demand, told how far it is, and ended on demand."""

import threading
import time

import pytest

from firedeck.web import working

FROM_THE_PAGE = {"HX-Request": "true"}
WAITING = {"study": None, "uncarried": "", "waiting": "new shape, about 20 seconds"}


@pytest.fixture
def waiting(stored):
    """Let the rings of the stored job wait; give the address of its long work."""
    for joint in stored.whole["joints"]:
        stored.whole["findings"].setdefault(joint, {})["joint"] = dict(WAITING)
    stored.work = lambda name: stored.works.start(name, None, lambda _job, said: stored.whole.update(said))
    return "/job/sample/rings"


@pytest.fixture
def slow(monkeypatch):
    """Stand in for the work: it goes on until it is let go, or stopped."""
    go_on = threading.Event()

    def assess(_job, long_work):
        long_work.told("head", 0.4)
        while not go_on.wait(0.01):
            if long_work.stop.is_set():
                raise RuntimeError("stopped")
        return {}

    monkeypatch.setattr(working, "assess", assess)
    monkeypatch.setattr(working, "plain", lambda said: said)
    yield go_on
    go_on.set()


def ended(stored):
    until = time.monotonic() + 10
    while stored.works.of("sample").running:
        assert time.monotonic() < until
        time.sleep(0.01)


def test_what_waits_is_offered_and_nothing_else_is(client, stored, waiting):
    page = client.get("/job/sample").text
    assert "new shape, about 20 seconds" in page
    assert f'hx-post="{waiting}"' in page
    for joint in stored.whole["joints"]:
        stored.whole["findings"][joint]["joint"]["waiting"] = ""
    assert waiting not in client.get("/job/sample").text


def test_it_is_begun_told_and_shown_when_done(client, stored, waiting, slow):
    assert "Stop" in client.post(waiting, headers=FROM_THE_PAGE).text
    part = client.get(waiting, headers=FROM_THE_PAGE).text
    while "head" not in part:
        part = client.get(waiting, headers=FROM_THE_PAGE).text
    assert "Working: head, 40 %" in part
    assert "Working: head" in client.get("/job/sample").text
    slow.set()
    ended(stored)
    assert client.get(waiting, headers=FROM_THE_PAGE).headers["HX-Refresh"] == "true"


def test_it_is_not_begun_twice(client, stored, waiting, slow):
    client.post(waiting, headers=FROM_THE_PAGE)
    first = stored.works.of("sample")
    client.post(waiting, headers=FROM_THE_PAGE)
    assert stored.works.of("sample") is first


def test_it_ends_on_demand_and_may_begin_again(client, stored, waiting, slow):
    client.post(waiting, headers=FROM_THE_PAGE)
    first = stored.works.of("sample")
    part = client.post(f"{waiting}/stop", headers=FROM_THE_PAGE).text
    assert "Work it out now" in part
    ended(stored)
    assert first.fault == ""
    client.post(waiting, headers=FROM_THE_PAGE)
    assert stored.works.of("sample") is not first


def test_a_fault_is_said_in_one_line(client, stored, waiting, monkeypatch):
    def fails(*_given, **_more):
        raise ValueError("no head on it")

    monkeypatch.setattr(working, "assess", fails)
    client.post(waiting, headers=FROM_THE_PAGE)
    ended(stored)
    assert (
        "It could not be worked out: ValueError: no head on it"
        in client.get(waiting, headers=FROM_THE_PAGE).text
    )


@pytest.mark.parametrize("end", ["", "/stop"])
def test_a_page_from_elsewhere_starts_and_stops_nothing(client, stored, waiting, end):
    assert client.post(f"{waiting}{end}").status_code == 404
    assert stored.works.of("sample") is None


def test_an_unknown_job_has_no_work(client, waiting):
    assert client.post("/job/none/rings", headers=FROM_THE_PAGE).status_code == 404
