"""Who may look, what a page may load, and what happens when something is wrong."""

import pytest
from starlette.testclient import TestClient

from firedeck.errors import DidNotConverge, JobError, JobErrors, OutOfRange, TableGap
from firedeck.report import SHEETS
from firedeck.web.app import make_app

PAGES = ("/", "/job/sample", "/job/sample/answer/0", "/job/none", "/static/page.css", "/nothing")
TOKEN = "a-token"


@pytest.mark.parametrize("page", PAGES)
def test_every_answer_carries_the_headers(page, client):
    headers = client.get(page).headers
    assert headers["content-security-policy"].startswith(
        "default-src 'none'; script-src 'self'; style-src 'self'"
    )
    assert "unsafe" not in headers["content-security-policy"]
    assert "frame-ancestors 'none'" in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["cache-control"] == "no-store"


def test_a_page_loads_its_own_files_only_and_writes_no_script_or_style_into_itself(client):
    page = client.get("/job/sample").text
    assert "://" not in page.replace("http://www.w3.org/2000/svg", "")
    assert " style=" not in page
    assert "<style" not in page
    assert page.count("<script") == page.count('<script src="/static/')


@pytest.mark.parametrize("host", ["127.0.0.1", "127.0.0.1:8577", "localhost", "localhost:9000"])
def test_this_machine_is_let_in(host, client):
    assert client.get("/job/sample", headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "host", ["garage.example", "127.0.0.1.example", "10.0.0.7", "localhost.example:8577", ""]
)
def test_a_foreign_name_is_turned_away(host, client):
    answer = client.get("/job/sample", headers={"host": host})
    assert answer.status_code == 400
    assert "Overheated" not in answer.text


@pytest.mark.parametrize("method", ["post", "put", "delete", "patch"])
def test_the_page_is_for_reading(method, client):
    for page in ("/", "/job/sample", "/job/sample/answer/0"):
        assert getattr(client, method)(page).status_code == 405


@pytest.fixture
def open_network(stored):
    """Look from another machine, at a page that wants its token."""
    app = make_app(stored, TOKEN)
    return TestClient(app, base_url="http://garage.example", follow_redirects=False)


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("given", ["", "?token=", "?token=wrong", "?token=ä"])
def test_without_the_token_nothing_is_shown(page, given, open_network):
    answer = open_network.get(f"{page}{given}")
    assert answer.status_code == 403
    assert answer.text == "Open the link firedeck printed."
    assert "default-src 'none'" in answer.headers["content-security-policy"]


def test_the_token_goes_into_a_cookie_and_out_of_the_address(open_network):
    answer = open_network.get(f"/job/sample?units=inch&token={TOKEN}")
    assert answer.status_code == 303
    assert answer.headers["location"] == "/job/sample?units=inch"
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    shown = open_network.get("/job/sample")
    assert shown.status_code == 200
    assert TOKEN not in shown.text


def test_a_wrong_cookie_is_turned_away(open_network):
    open_network.cookies.set("token", "wrong")
    assert open_network.get("/job/sample").status_code == 403


@pytest.mark.parametrize(
    "page",
    [
        "/nothing",
        "/job/none",
        "/job/none/answer/0",
        "/job/sample/answer/999",
        "/job/sample/answer/-1",
        "/job/sample/answer/first",
        "/job/sample/sheet/poster.pdf",
        "/job/sample/sheet/record.docx",
        "/job/none/sheet/record.pdf",
        "/static/none.css",
        "/static/../app.py",
        "/static/%2e%2e/app.py",
        "/job/..%2f..%2fetc%2fpasswd",
    ],
)
def test_an_unknown_name_is_404(page, client):
    answer = client.get(page)
    assert answer.status_code == 404
    assert "There is no such page" in answer.text


@pytest.mark.parametrize(
    ("fault", "lines"),
    [
        (JobError("engine.bore", "'86'", "say the unit: 86 mm or 86 in?"), 1),
        (JobErrors([JobError("a", "'1'", "no"), JobError("b <i>", "'2'", "no")]), 2),
        (OutOfRange("pressure", "-3 MPa", "nought or more"), 1),
        (TableGap("threads", "M11x9", "M11x1.5"), 1),
    ],
)
@pytest.mark.parametrize("page", ["/job/sample", "/job/sample/answer/0", "/job/sample/sheet/record.pdf"])
def test_a_broken_job_gives_422_with_its_lines(fault, lines, page, client, stored):
    stored.fault = fault
    answer = client.get(page)
    assert answer.status_code == 422
    assert "This job cannot be read yet" in answer.text
    assert answer.text.count("<li>") == lines
    assert "<i>" not in answer.text
    assert "default-src 'none'" in answer.headers["content-security-policy"]


@pytest.mark.parametrize("fault", [ZeroDivisionError("division by zero"), DidNotConverge("tension", 9, 0.5)])
def test_a_fault_of_ours_is_one_line_and_no_traceback(fault, client, stored, capsys, monkeypatch):
    monkeypatch.delenv("FIREDECK_DEBUG", raising=False)
    stored.fault = fault
    answer = client.get("/job/sample")
    assert answer.status_code == 500
    assert str(fault) in answer.text
    assert "our own fault" in answer.text.lower()
    assert "Traceback" not in answer.text
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert str(fault) in said


def test_who_looks_for_the_fault_sees_it_all(client, stored, monkeypatch):
    monkeypatch.setenv("FIREDECK_DEBUG", "1")
    stored.fault = ZeroDivisionError("division by zero")
    with pytest.raises(ZeroDivisionError):
        client.get("/job/sample")


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize(
    ("form", "kind", "begins"),
    [
        ("html", "text/html", b"<!doctype html>"),
        ("text", "text/plain", b""),
        ("pdf", "application/pdf", b"%PDF-"),
    ],
)
def test_every_sheet_in_every_form(sheet, form, kind, begins, client):
    answer = client.get(f"/job/sample/sheet/{sheet}.{form}?units=inch")
    assert answer.status_code == 200
    assert answer.headers["content-type"].startswith(kind)
    assert answer.content.startswith(begins)
    assert len(answer.content) > 200
    assert "script-src" not in answer.headers["content-security-policy"]
    assert answer.headers["content-security-policy"].startswith("default-src 'none'")


def test_a_sheet_comes_in_the_units_and_on_the_paper_asked_for(client, stored):
    shown = stored.whole["answers"][3]["checks"][0]["shown"]
    sheet = "/job/sample/sheet/record.html"
    assert shown["inch"] in client.get(f"{sheet}?units=inch").text
    assert shown["inch"] not in client.get(f"{sheet}?units=mm").text
    assert "size: letter" in client.get(f"{sheet}?paper=letter").text
    assert "size: A4" in client.get(f"{sheet}?paper=a3").text


def test_the_page_is_served_with_its_script(client):
    script = client.get("/static/htmx.min.js")
    assert script.status_code == 200
    assert "javascript" in script.headers["content-type"]
    assert len(script.content) > 10_000
