"""Every sheet in every format: opens, holds its words, its size and its tags."""

import copy
import io
import json
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from firedeck.errors import JobError
from firedeck.report import FORMATS, SHEETS, render

SAMPLE = json.loads((Path(__file__).parent / "sample.json").read_text("utf-8"))
AWKWARD = r"""A title with # $ @ " \ *stars* _under_ <tag> & `tick` #let x = 1 and [brackets]"""
MOST_ON_A_LINE = 47
"""Capital W: 46 of the title fill the 180 mm between the margins, 47 stand in small type at the foot."""

SIZES = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}


def sample() -> dict[str, Any]:
    """Return a fresh copy of the invented sample."""
    copied: dict[str, Any] = copy.deepcopy(SAMPLE)
    return copied


def pdf(plain: dict[str, Any], sheet: str, paper: str = "a4", units: str = "as-typed") -> PdfReader:
    return PdfReader(io.BytesIO(render(plain, sheet, "pdf", paper, units)))


def words(reader: PdfReader) -> str:
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


def in_stage(plain: dict[str, Any], stage: str) -> list[dict[str, Any]]:
    return [answer for answer in plain["answers"] if answer["stage"] == stage]


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("paper", SIZES)
def test_a_pdf_opens_tagged_on_its_paper(sheet: str, paper: str) -> None:
    reader = pdf(sample(), sheet, paper)
    root = reader.root_object
    assert "/StructTreeRoot" in root
    assert root["/MarkInfo"]["/Marked"].value
    assert root["/Lang"] == "en"
    assert SAMPLE["job"]["title"] in reader.metadata.title
    for page in reader.pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
            SIZES[paper], abs=0.1
        )


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("form", FORMATS)
def test_every_sheet_says_whose_job_it_is_and_that_it_is_invented(sheet: str, form: str) -> None:
    made = render(sample(), sheet, form)
    said = words(PdfReader(io.BytesIO(made))) if form == "pdf" else " ".join(made.decode("utf-8").split())
    assert SAMPLE["job"]["title"] in said
    assert "Invented data" in said
    assert SAMPLE["revision"][:12] in said


@pytest.mark.parametrize("form", FORMATS)
def test_measured_data_is_not_called_invented(form: str) -> None:
    plain = sample()
    plain["job"]["notes"] = "Read on the bench."
    made = render(plain, "stop", form)
    said = words(PdfReader(io.BytesIO(made))) if form == "pdf" else made.decode("utf-8")
    assert "Invented data" not in said


@pytest.mark.parametrize("form", FORMATS)
def test_what_a_user_types_is_never_code(form: str) -> None:
    plain = sample()
    plain["job"]["title"] = AWKWARD
    in_stage(plain, "tighten")[0]["work"][0]["text"] = "Oil #thin $a$ @here \\n"
    made = render(plain, "tightening", form)
    if form == "html":
        assert b"<tag>" not in made
        assert b"&lt;tag&gt; &amp; `tick`" in made
        return
    said = words(PdfReader(io.BytesIO(made))) if form == "pdf" else " ".join(made.decode("utf-8").split())
    assert AWKWARD in said
    assert "Oil #thin $a$ @here \\n" in said


@pytest.mark.parametrize(
    "letters", ["中文 title", "gauge \U0001f527", "bell \x07", "private \ue123", "a\u200bb"]
)
def test_letters_the_fonts_lack_never_stop_a_sheet(letters: str) -> None:
    plain = sample()
    plain["job"]["title"] = f"Before {letters} after"
    reader = pdf(plain, "stop")
    said = words(reader)
    assert "Before" in said
    assert "after" in said
    assert "/StructTreeRoot" in reader.root_object


def test_a_very_long_title_stays_on_the_paper() -> None:
    plain = sample()
    plain["job"]["title"] = "W" * 400
    reader = pdf(plain, "stop")
    lines = reader.pages[0].extract_text().replace("\u200b", "").splitlines()
    assert max(line.count("W") for line in lines) <= MOST_ON_A_LINE
    assert words(reader).replace("\u200b", "").replace(" ", "").count("W") >= 400


@pytest.mark.parametrize("paper", SIZES)
@pytest.mark.parametrize("steps", [3, 8, 14])
def test_the_tightening_holds_on_one_page_for_each_joint(steps: int, paper: str) -> None:
    plain = many_bolts(steps)
    reader = pdf(plain, "tightening", paper)
    assert len(reader.pages) == 1
    said = words(reader)
    for step in range(1, steps + 1):
        assert f"Round {step} on every screw" in said
    assert "129 N·m (95 lbf·ft)" in said


@pytest.mark.parametrize("steps", [3, 14])
def test_figures_of_the_tightening_are_fourteen_point_at_least(steps: int) -> None:
    sizes: dict[str, float] = {}

    def seen(text: str, _user: Any, place: list[float], _font: Any, size: float) -> None:
        scale = abs(place[3]) or abs(place[0])
        for wanted in ("129 N·m", "Round 1 "):
            if wanted in text:
                sizes[wanted] = size * scale

    pdf(many_bolts(steps), "tightening").pages[0].extract_text(visitor_text=seen)
    assert sizes["129 N·m"] >= 13.99


def many_bolts(steps: int) -> dict[str, Any]:
    """Return an invented six with 28 screws and a long procedure."""
    plain = sample()
    plain["findings"]["head"]["layout"] = {
        "outline": [[-360, -95], [360, -95], [360, 95], [-360, 95]],
        "bores": [{"label": str(i + 1), "x": 120 * i - 300, "y": 0, "diameter": 102} for i in range(6)],
        "fasteners": [
            {
                "label": f"{'ABCD'[row]}{i}",
                "x": 115 * i - 345,
                "y": y,
                "order": 7 * row + i + 1,
                "leads": None,
            }
            for row, y in enumerate((-80, -58, 58, 80))
            for i in range(7)
        ],
        "dowels": [],
        "passages": [],
        "order_from": "invented",
    }
    in_stage(plain, "tighten")[0]["work"] = [
        {
            "text": f"Round {i} on every screw",
            "figure": "129 N·m (95 lbf·ft)",
            "caution": "",
            "source": "invented",
        }
        if i % 2
        else {"text": f"Round {i} on every screw", "figure": "+90°", "caution": "", "source": "invented"}
        for i in range(1, steps + 1)
    ]
    return plain


def test_two_heads_have_a_page_each() -> None:
    plain = sample()
    plain["joints"] = ["left", "right"]
    plain["findings"] = {"": {}, "left": plain["findings"]["head"], "right": {}}
    ours = [answer for answer in plain["answers"] if answer["joint"]]
    plain["answers"] = [{**answer, "joint": joint} for joint in ("left", "right") for answer in ours]
    reader = pdf(plain, "tightening")
    assert len(reader.pages) == 2
    assert "joint left" in reader.pages[0].extract_text()
    assert "joint right" in reader.pages[1].extract_text()


def test_units_choose_the_figures() -> None:
    metric, inch = (words(pdf(sample(), "record", units=units)) for units in ("mm", "inch"))
    check = in_stage(SAMPLE, "measure")[0]["checks"][0]
    assert check["shown"]["mm"] in metric
    assert check["shown"]["inch"] in inch
    assert check["shown"]["inch"] not in metric
    assert "thou" in inch


def test_as_typed_keeps_the_limit_as_the_papers_write_it() -> None:
    assert "at most 0.002 in" in words(pdf(sample(), "record"))
    assert "at most 0.002 in" not in words(pdf(sample(), "record", units="mm"))


def test_the_record_holds_every_answer_with_its_sums_and_sources() -> None:
    said = words(pdf(sample(), "record"))
    text = " ".join(render(sample(), "record", "text").decode("utf-8").split())
    for answer in SAMPLE["answers"]:
        for place in (said, text):
            assert answer["headline"] in place
            assert answer["state_words"] in place
    assert "gap = rest - dip" in said
    assert "dip = -0.0508 mm" in said
    assert "manual p. 12-18" in said
    assert SAMPLE["job"]["doubts"][0]["text"] in said


def test_the_worst_check_comes_first() -> None:
    text = render(sample(), "record", "text").decode("utf-8")
    part = text[text.index(in_stage(SAMPLE, "measure")[0]["headline"]) :]
    assert part.index("× fails") < part.index("◐ at the limit") < part.index("● holds")


def test_a_card_shows_the_answers_of_its_stages_only() -> None:
    said = words(pdf(sample(), "stop"))
    for answer in SAMPLE["answers"]:
        assert (answer["headline"] in said) == (answer["stage"] == "dry-fit")


def test_shop_order_and_receiving_card_part_the_answers() -> None:
    order, back = (words(pdf(sample(), sheet)) for sheet in ("shop-order", "receiving"))
    to_do, to_check = in_stage(SAMPLE, "out-and-back")
    assert to_do["headline"] in order
    assert to_check["headline"] not in order
    assert to_check["headline"] in back
    assert "front, left" in order
    assert "rear, right" in back


def corners(after: float | None = None, count: int = 4) -> dict:
    """Give the sample with heights of the head at so many corners."""
    known = {"before": {"text": "4.3283 in", "value": 109.94}, "after": None, "off": None}
    if after is not None:
        off = {"result": {"cut": [109.94 - after, "mm"]}}
        known = {**known, "after": {"text": f"{after} mm", "value": after}, "off": off}
    plain = sample()
    plain["findings"]["head"]["cut"] = {"corners": [known] * count}
    return plain


def lines_of(plain: dict, sheet: str, **how: str) -> list[str]:
    """Give the lines of a sheet in text."""
    return [line.strip() for line in render(plain, sheet, "text", **how).decode("utf-8").splitlines()]


def test_heights_that_are_known_stand_at_their_corners() -> None:
    order = lines_of(corners(), "shop-order")
    assert "front, left | 4.3283 in | ________ | ________" in order
    assert "front, left | 109.94 mm | ________ | ________" in lines_of(corners(), "shop-order", units="mm")
    back = lines_of(corners(109.74), "receiving", units="mm")
    assert "rear, right | 109.94 mm | 109.74 mm | 0.200 mm" in back
    assert "place 2 | 4.3283 in | ________ | ________" in lines_of(corners(count=2), "receiving")
    assert "rear, left | ________ | ________ | ________" in lines_of(sample(), "receiving")


@pytest.mark.parametrize("sheet", SHEETS)
def test_an_almost_empty_job_still_prints(sheet: str) -> None:
    plain = {
        **sample(),
        "findings": {
            "": {},
            "head": {"layout": {"missing": {"paths": []}}, "faces": {"missing": {"paths": []}}},
        },
        "answers": [],
    }
    for form in FORMATS:
        assert len(render(plain, sheet, form)) > 200


def test_the_strip_card_has_a_line_for_each_bolt() -> None:
    text = render(sample(), "strip", "text").decode("utf-8")
    assert "crack-off torque" in text
    for fastener in SAMPLE["findings"]["head"]["layout"]["fasteners"]:
        assert f"\n  {fastener['label']} | ____" in text


def test_a_page_stands_alone() -> None:
    page = render(sample(), "measuring", "html").decode("utf-8")
    assert page.startswith("<!doctype html>")
    assert "://" not in page
    assert "<script" not in page
    assert "<link" not in page
    assert page.count("<svg") == page.count("</svg>") == 2
    assert "@page { size: A4" in page
    assert "@page { size: letter" in render(sample(), "measuring", "html", "letter").decode("utf-8")


@pytest.mark.parametrize(
    ("sheet", "form", "paper", "units", "where"),
    [
        ("poster", "pdf", "a4", "mm", "sheet"),
        ("stop", "docx", "a4", "mm", "format"),
        ("stop", "pdf", "a3", "mm", "paper"),
        ("stop", "pdf", "a4", "furlongs", "units"),
    ],
)
def test_a_wrong_word_is_refused_in_one_line(
    sheet: str, form: str, paper: str, units: str, where: str
) -> None:
    with pytest.raises(JobError, match="allowed: ") as refused:
        render(sample(), sheet, form, paper, units)
    assert refused.value.path == where
    assert "\n" not in str(refused.value)


def test_the_same_job_gives_the_same_bytes() -> None:
    assert render(sample(), "stop", "html") == render(sample(), "stop", "html")
    assert render(sample(), "stop", "text") == render(sample(), "stop", "text")
