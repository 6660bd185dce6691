"""What the printed cards must not get wrong again: narrow columns of words, an undecided tightening sheet."""

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from firedeck.assess import assess
from firedeck.assess.plain import plain
from firedeck.job import read_file
from firedeck.report import render

JOBS = Path(__file__).parents[3] / "examples" / "jobs"


@pytest.fixture(scope="module")
def vee():
    return plain(assess(read_file(JOBS / "boosted-vee.toml")))


def text_of(assessment, sheet):
    return render(assessment, sheet, "text").decode("utf-8")


def test_a_head_without_a_procedure_is_not_tightened_by_its_sheet(vee):
    text = text_of(vee, "tightening")
    left, right = text.split("right", 1)
    assert "Not by this sheet yet" in right
    assert "Not by this sheet yet" not in left


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_wordy_tables_do_not_run_over_the_pages(vee, paper):
    pdf = render(vee, "stop", "pdf", paper=paper)
    assert len(PdfReader(io.BytesIO(pdf)).pages) <= 5
