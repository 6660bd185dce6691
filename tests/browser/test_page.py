"""The page as people use it: on a phone and on a desk, by keyboard, on paper, without script."""

import io
import unicodedata

import pytest
from axe_playwright_python.sync_playwright import Axe
from browser.conftest import Opened
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from firedeck.report import SHEETS

pytestmark = pytest.mark.browser

WIDTHS = (390, 1200)
SLOW = 60_000
"""Milliseconds: all sums of a job are fetched one by one, on a machine that may be busy."""
FINGER = 44
"""Pixels: the least height of what is pressed."""


def open_all(page: Page) -> None:
    """Open every answer and the sums in it."""
    for summary in page.locator(".answer > details > summary").all():
        summary.click()
    expect(page.get_by_role("link", name="Show", exact=True)).to_have_count(0, timeout=SLOW)
    for summary in page.locator(".sums > summary").all():
        summary.click()


def wider_than_the_window(page: Page) -> int:
    return int(page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth"))


def faults_for_readers(page: Page) -> list[str]:
    found = Axe().run(page).response["violations"]
    return [f"{fault['id']}: {fault['nodes'][0]['html'][:150]}" for fault in found]


@pytest.mark.parametrize("width", WIDTHS)
def test_a_job_fits_the_window_and_everybody_can_read_it(width: int, stored: str, opened: Opened) -> None:
    page = opened(f"{stored}/job/sample", width)
    assert wider_than_the_window(page) == 0
    open_all(page)
    assert page.get_by_text("gap = rest - dip").count() > 1
    assert wider_than_the_window(page) == 0
    assert faults_for_readers(page) == []


def test_a_real_job_fits_the_window_and_everybody_can_read_it(real: str, opened: Opened) -> None:
    page = opened(real)
    title = "Overheated inline four, alloy head on iron block"
    expect(page.get_by_role("heading", level=1)).to_have_text(title)
    open_all(page)
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        assert wider_than_the_window(page) == 0
    assert faults_for_readers(page) == []


@pytest.mark.parametrize("place", ["/", "/job/sample/answer/3", "/job/sample/sheet/record.html"])
def test_other_pages_fit_and_can_be_read(place: str, stored: str, opened: Opened) -> None:
    page = opened(f"{stored}{place}", WIDTHS[0])
    assert page.get_by_role("heading").count() > 0
    assert wider_than_the_window(page) == 0
    assert faults_for_readers(page) == []


def test_every_sheet_of_a_real_job_fits_a_phone(real: str, opened: Opened) -> None:
    page = opened(real, WIDTHS[0])
    for sheet in SHEETS:
        page.goto(f"{real}/job/engine/sheet/{sheet}.html")
        assert page.get_by_role("heading").count() > 0
        assert wider_than_the_window(page) == 0, sheet


def test_the_sums_are_reached_by_keyboard(stored: str, opened: Opened) -> None:
    page = opened(f"{stored}/job/sample")
    focused = page.locator(":focus")
    press_until(page, "Sums, limits and what next")
    page.keyboard.press("Enter")
    card = page.locator(".answer").first
    expect(card.get_by_role("table")).to_be_visible()
    sums = card.locator(".sums code").first
    expect(sums).to_be_hidden()
    press_until(page, "The sums, written out")
    page.keyboard.press("Space")
    expect(sums).to_be_visible()
    assert " = " in sums.inner_text()
    page.keyboard.press("Space")
    expect(sums).to_be_hidden()
    assert focused.evaluate("thing => getComputedStyle(thing).outlineStyle") == "solid"


def press_until(page: Page, name: str) -> None:
    """Go on with the tabulator until something of this name has the focus."""
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.locator(":focus").inner_text() == name:
            return
    raise AssertionError(f"{name} is not reached by keyboard")


def test_the_first_stop_skips_to_the_content(stored: str, opened: Opened) -> None:
    page = opened(f"{stored}/job/sample")
    page.keyboard.press("Tab")
    expect(page.locator(":focus")).to_have_text("Skip to the content")
    expect(page.locator(":focus")).to_be_in_viewport()
    page.keyboard.press("Enter")
    assert page.url.endswith("#content")


def test_units_are_switched(stored: str, opened: Opened) -> None:
    page = opened(f"{stored}/job/sample")
    worst = page.locator(".answer.close .worst")
    seen = {}
    for words in ("millimetres", "inches", "as typed"):
        page.get_by_role("navigation", name="Units").get_by_role("link", name=words).click()
        expect(page.locator(".units [aria-current]")).to_have_text(words)
        seen[words] = worst.inner_text()
    assert " mm " in seen["millimetres"]
    assert " mm " not in seen["inches"]
    assert " in " in seen["inches"]
    page.get_by_role("navigation", name="Units").get_by_role("link", name="inches").click()
    page.locator(".answer.close summary").click()
    expect(page.locator(".answer.close table")).to_contain_text(" in")


def test_what_is_pressed_is_as_large_as_a_finger(stored: str, opened: Opened) -> None:
    page = opened(f"{stored}/job/sample", WIDTHS[0])
    pressed = page.locator("summary, .units a, .stages a, .sheets a").all()
    assert len(pressed) > 20
    assert min(one.bounding_box()["height"] for one in pressed) >= FINGER


def test_a_fault_on_top_leads_to_its_card(stored: str, opened: Opened) -> None:
    page = opened(f"{stored}/job/sample", WIDTHS[0])
    link = page.locator(".first a").last
    said = link.inner_text()
    expect(link).to_be_in_viewport()
    link.click()
    card = page.locator(".answer:target")
    expect(card).to_be_in_viewport()
    expect(card.get_by_role("heading")).to_have_text(said)


def test_on_paper_the_answers_stand_without_the_ways_about(stored: str, opened: Opened) -> None:
    page = opened(f"{stored}/job/sample")
    page.locator(".answer.close summary").click()
    expect(page.locator(".answer.close table")).to_be_visible()
    page.emulate_media(media="print")
    for gone in (".top", ".units", ".stages", "#paper", ".answer.close summary", ".answer.open details"):
        assert not [one for one in page.locator(gone).all() if one.is_visible()]
    expect(page.locator(".answer.close table")).to_be_visible()
    headlines = [one.inner_text() for one in page.locator(".answer h3").all()]
    printed = letters("".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(page.pdf())).pages))
    assert len(headlines) > 5
    assert [text for text in headlines if letters(text) not in printed] == []


def letters(text: str) -> str:
    """Return the letters of a printed text, joined ones parted, without blanks and line ends."""
    return "".join(unicodedata.normalize("NFKC", text).split())


def test_without_script_every_answer_is_a_page(browser, stored: str, opened: Opened) -> None:
    page = opened(f"{stored}/job/sample", java_script_enabled=False)
    card = page.locator(".answer.close")
    card.locator("summary").click()
    card.get_by_role("link", name="Show").click()
    expect(page.get_by_role("table")).to_be_visible()
    page.get_by_role("link", name="Back to the job").click()
    assert page.locator(".answer").count() > 5


def test_an_edit_while_the_page_is_open_is_told(real: str, document, opened: Opened) -> None:
    page = opened(real)
    text = document.read_text("utf-8")
    document.write_text(text.replace("Overheated inline four", "Cooled inline four"), encoding="utf-8")
    page.locator(".answer summary").first.click()
    expect(page.locator(".full").first).to_contain_text("The document has changed")
    page.get_by_role("link", name="Show it as it is now").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Cooled inline four")


def test_a_file_name_hard_on_addresses_leads_to_its_job(stored: str, opened: Opened) -> None:
    page = opened(stored)
    page.get_by_role("link", name="b & c? #d%2e").click()
    page.locator(".answer summary").first.click()
    expect(page.locator(".answer table").first).to_be_visible()
    page.get_by_role("navigation", name="Units").get_by_role("link", name="inches").click()
    expect(page.locator(".units [aria-current]")).to_have_text("inches")
