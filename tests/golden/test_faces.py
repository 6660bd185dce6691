"""Drawing, page, paper and terminal are made from the stored objects alone: no document is read, nothing is answered."""

import io
import json
import xml.etree.ElementTree as ET

import pytest
from golden.stored import EXAMPLES, read
from pypdf import PdfReader
from starlette.testclient import TestClient

from firedeck.cli.in_full import in_full
from firedeck.cli.terminal import overview
from firedeck.drawing import blank_map, face_map, plan_view
from firedeck.report import SHEETS, render
from firedeck.web.app import make_app
from firedeck.web.working import Works

UNITS = ("as-typed", "mm", "inch")


@pytest.fixture(params=EXAMPLES)
def whole(request, monkeypatch):
    """Give a stored object, while reading and answering are out of order."""
    stored = read(request.param)

    def never(*_given, **_more):
        raise AssertionError("a face asks for more than the stored object")

    monkeypatch.setattr("firedeck.job.reading.from_raw", never)
    monkeypatch.setattr("firedeck.findings.finding.Findings.__getitem__", never)
    return stored


class Stored:
    """Jobs whose assessment lies ready."""

    def __init__(self, whole):
        self.files = {"stored": "nowhere"}
        self.works = Works()
        self.whole = whole

    def plain(self, _name):
        return self.whole


def test_pictures(whole):
    drawn = []
    for joint in whole["joints"]:
        layout, faces = (whole["findings"][joint][name] for name in ("layout", "faces"))
        pictures = [plan_view(layout), blank_map(layout)]
        assert (None in pictures) == ("bores" not in layout)
        for face in faces.get("faces", ()):
            maps = [face_map(layout, face, system) for system in ("mm", "inch")]
            assert (None in maps) == (not (face["points"] or face["laid"]))
            pictures += maps
        drawn += [picture for picture in pictures if picture]
    for picture in drawn:
        assert ET.fromstring(picture.svg).tag.endswith("svg")
        assert picture.alt


def test_most_examples_have_a_plan_and_measured_faces():
    stored = [read(name) for name in EXAMPLES]
    joints = [whole["findings"][joint] for whole in stored for joint in whole["joints"]]
    assert sum("bores" in joint["layout"] for joint in joints) >= 3
    assert sum(any(face["points"] for face in joint["faces"].get("faces", ())) for joint in joints) >= 1


@pytest.mark.parametrize("units", UNITS)
def test_the_page_and_every_answer_on_it(units, whole):
    client = TestClient(make_app(Stored(whole)), base_url="http://127.0.0.1")
    page = client.get(f"/job/stored?units={units}")
    assert page.status_code == 200
    assert page.text.count("<article") == len(whole["answers"])
    for place in range(len(whole["answers"])):
        assert client.get(f"/job/stored/answer/{place}?units={units}").status_code == 200


@pytest.mark.parametrize("units", UNITS)
def test_the_terminal(units, whole):
    assert whole["job"]["title"] in overview(whole, "job.toml", units)
    for answer in whole["answers"]:
        assert answer["headline"] in in_full(answer, units)


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_sheet(sheet, whole):
    before = json.dumps(whole)
    for form in ("html", "text"):
        assert whole["revision"][:12].encode() in render(whole, sheet, form)
    pages = PdfReader(io.BytesIO(render(whole, sheet, "pdf"))).pages
    assert whole["revision"][:12] in " ".join(page.extract_text() for page in pages)
    assert json.dumps(whole) == before
