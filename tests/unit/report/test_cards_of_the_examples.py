"""The cards of every example on both papers: pages, size of figures, no colour, an at-a-glance list that points right."""

import io
import json
import re
from functools import cache
from pathlib import Path

import pytest
from pypdf import PdfReader

from firedeck.report import PAPERS, render

STORED = Path(__file__).parents[2] / "golden" / "assessments"
EXAMPLES = {file.stem: json.loads(file.read_text("utf-8")) for file in sorted(STORED.glob("*.json"))}
LEAST = 13.99
"""Fourteen points, less what is lost on the way through a PDF."""

cases = pytest.mark.parametrize("paper", PAPERS)
examples = pytest.mark.parametrize("name", EXAMPLES)


@cache
def pdf(name, sheet, paper):
    return PdfReader(io.BytesIO(render(EXAMPLES[name], sheet, "pdf", paper=paper)))


def sizes(page):
    """Give every piece of text of a page with its size on paper [pt]."""
    found = []

    def seen(text, transform, place, _font, size):
        if text.strip():
            found.append((text.strip(), size * abs(place[3] or place[0]) * abs(transform[3] or transform[0])))

    page.extract_text(visitor_text=seen)
    return found


def test_the_examples_are_there():
    assert len(EXAMPLES) >= 4


@cases
@examples
@pytest.mark.parametrize("sheet", ["tightening", "stop"])
def test_a_sheet_worked_by_is_one_page_for_each_joint(sheet, name, paper):
    assert len(pdf(name, sheet, paper).pages) == len(EXAMPLES[name]["joints"])


@examples
def test_the_strip_card_begins_with_the_order_of_loosening(name):
    text = render(EXAMPLES[name], "strip", "text").decode("utf-8")
    assert text.index("How does the head come off?") < text.index("Where does it leak")


@cases
@examples
def test_figures_to_tighten_by_are_fourteen_point_at_least(name, paper):
    page = pdf(name, "tightening", paper).pages[0]
    work = next(one for one in EXAMPLES[name]["answers"] if one["question"] == "tighten-how" and one["work"])[
        "work"
    ]
    steps = [line["figure"] for line in work if line["figure"] and line["text"].startswith("Step")]
    assert steps
    written = sizes(page)
    for figure in steps:
        word = figure.split()[0]
        largest = max(size for text, size in written if word in text)
        assert largest >= LEAST, (figure, largest)


@examples
def test_numbers_on_the_plan_are_fourteen_point_at_least(name):
    plain = EXAMPLES[name]
    joint = plain["joints"][0]
    holes = plain["findings"][joint]["layout"]["fasteners"]
    single = [
        (text, size)
        for text, size in sizes(pdf(name, "tightening", "letter").pages[0])
        if len(text) == 1 and text.isdigit() and size >= LEAST
    ]
    assert sorted(text for text, _ in single) == sorted("".join(str(hole["order"]) for hole in holes))


COLOURED = re.compile(rb"([\d.]+) ([\d.]+) ([\d.]+) (?:rg|RG|scn|SCN|sc|SC)\b")


@pytest.mark.parametrize("sheet", ["strip", "stop", "tightening", "measuring"])
@examples
def test_no_card_hangs_on_colour(name, sheet):
    for page in pdf(name, sheet, "a4").pages:
        tones = COLOURED.findall(page.get_contents().get_data())
        assert [tone for tone in tones if len({round(float(part), 3) for part in tone}) > 1] == []


@cases
@examples
def test_the_record_begins_with_every_answer_and_the_page_it_stands_on(name, paper):
    reader = pdf(name, "record", paper)
    pages = [" ".join(page.extract_text().split()) for page in reader.pages]
    listed = next(place for place, page in enumerate(pages) if "Before a bolt is slackened" in page)
    assert listed == 0
    glance = " ".join(pages[:3])
    for answer in EXAMPLES[name]["answers"]:
        assert answer["headline"] in glance
    last = next(place for place, page in enumerate(pages) if "seen looking down on the deck" in page)
    assert last <= 2
    links = [
        annotation.get_object()
        for page in reader.pages[: last + 1]
        for annotation in page.get("/Annots") or ()
        if annotation.get_object().get("/Subtype") == "/Link"
    ]
    assert len(links) == len(EXAMPLES[name]["answers"])


@examples
def test_a_page_number_at_a_glance_is_that_of_the_answer(name):
    reader = pdf(name, "record", "a4")
    pages = [" ".join(page.extract_text().split()) for page in reader.pages]
    for answer in EXAMPLES[name]["answers"]:
        if answer["joint"] not in (None, EXAMPLES[name]["joints"][0]):
            continue
        at = re.search(re.escape(answer["headline"]) + r" (\d+)", " ".join(pages[:3]))
        assert at, answer["question"]
        assert answer["headline"] in pages[int(at.group(1)) - 1]


@examples
def test_the_stop_card_begins_with_whether_the_head_may_go_on(name):
    text = render(EXAMPLES[name], "stop", "text").decode("utf-8")
    order = [
        text.index(words)
        for words in ("May the head go on?", "looked at by", "May the fasteners be used again?")
    ]
    assert order == sorted(order)


@examples
def test_what_does_not_apply_stands_in_the_record_alone(name):
    out = [
        one
        for one in EXAMPLES[name]["answers"]
        if one["state"] == "not-applicable" and one["stage"] == "follow-up"
    ]
    card, record = (
        render(EXAMPLES[name], sheet, "text").decode("utf-8") for sheet in ("follow-up", "record")
    )
    for one in out:
        assert one["headline"] not in card
        assert one["headline"] in record


@examples
def test_every_sum_is_written_out_once_and_named_where_it_comes_again(name):
    """No sum is lost: formula and figures once, the result each time an answer leans on it."""
    text = " ".join(render(EXAMPLES[name], "record", "text").decode("utf-8").split())
    for answer in EXAMPLES[name]["answers"]:
        for step in answer["steps"]:
            ((result, _),) = step["result"].items()
            assert " ".join(f"{result} = {step['formula']}".split()) in text


def test_one_source_of_a_list_is_said_once():
    """The strip card of this engine has two lists: what tells the causes apart, and how the head comes off."""
    stored = EXAMPLES["inline-four"]
    lists = [
        one for one in stored["answers"] if one["question"] in ("leak-where", "strip-how") and one["work"]
    ]
    text = " ".join(render(stored, "strip", "text").decode("utf-8").split())
    assert text.count("Where a line names no source: common practice.") == len(lists) == 2
    assert "(common practice)" not in text


def test_a_long_table_for_the_pencil_holds_every_bolt():
    page = " ".join(page.extract_text() for page in pdf("wet-liner-six", "strip", "a4").pages)
    for label in (f"{row}{place}" for row in "ab" for place in range(1, 8)):
        assert label in page.split("Crack-off torque, one line")[1]
