"""``sum``: JSON as promised, arguments from files, every bad argument one line."""

import json

import pytest

from firedeck.sums import all_sums
from firedeck.terms import term

LEAK = ("sum", "leak-down", "supply=50 psi", "restrictor=1 mm", "reading=40 psi")


def test_json_is_one_object_with_the_promised_keys(firedeck):
    said = firedeck(*LEAK, "--json")
    assert (said.code, said.err) == (0, "")
    found = json.loads(said.out)
    assert list(found) == ["sum", "results", "steps", "sources", "assumptions", "cautions"]
    assert found["sum"] == "leak-down"
    assert found["results"]["leak_percent"] == {"value": pytest.approx(20), "unit": "%"}
    assert all(set(figure) == {"value", "unit"} for figure in found["results"].values())
    assert found["steps"]
    assert all(step["formula"] and step["source"] for step in found["steps"])


def test_text_has_result_sum_and_source(firedeck):
    out = firedeck(*LEAK).out
    assert "  leak_percent = 20 %\n" in out
    assert "  reading = 0.27579 MPa (2.76 bar, 40 psi)\n" in out
    assert "    leak_percent = 1 - reading / supply\n" in out
    assert "\nSources\n" in out


def test_alone_it_lists_every_sum(firedeck):
    out = firedeck("sum").out
    assert all(f"\n  {name} " in out for name in all_sums())


def test_help_of_a_sum_comes_from_the_terms(firedeck):
    out = firedeck("sum", "leak-down", "--help").out
    for argument in all_sums()["leak-down"].arguments.values():
        assert f"  {argument.shown}=  {term(argument.meant).label}\n" in out
    assert (
        out.index("\nNeeded\n")
        < out.index("  supply=")
        < out.index("\nMay be left out\n")
        < out.index("  altitude=")
    )


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("leak-dwn",), "sum: found 'leak-dwn'; nearest known: leak-down"),
        (("leak-down",), "leak-down supply: found nothing; needed: First gauge of a leak-down tester."),
        (("leak-down", "50"), "sum leak-down: found '50'; write it as supply=value; it has: supply, "),
        (
            ("leak-down", "suply=50 psi"),
            "leak-down suply: found an argument this sum does not have; nearest known: supply",
        ),
        (
            ("leak-down", "supply=1 bar", "supply=2 bar"),
            "leak-down supply: found the same argument twice; once",
        ),
        (("leak-down", "supply=50"), "leak-down supply: found '50'; say the unit: "),
        (
            ("leak-down", "supply=1,100 psi"),
            "leak-down supply: found '1,100 psi'; the comma can part thousands ",
        ),
        (("leak-down", "supply="), "leak-down supply: found ''; nothing is written"),
        (("leak-down", "supply=@none.csv"), "leak-down supply: none.csv: found no such file; "),
    ],
)
def test_a_bad_argument_is_one_line(firedeck, words, line):
    said = firedeck("sum", *words)
    assert (said.code, said.out) == (2, "")
    assert said.err.startswith(line)
    assert said.err.count("\n") == 1


def test_an_argument_may_lie_in_a_file(firedeck, tmp_path):
    file = tmp_path / "readings.txt"
    file.write_bytes(b"\xef\xbb\xbf160, 128, 168 psi")
    said = firedeck("sum", "compression-spread", f"readings=@{file}", "--json")
    assert json.loads(said.out)["results"]["lowest_over_highest"]["value"] == pytest.approx(128 / 168)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"\xff\xfe1\x002\x00", "found text that is not UTF-8 at byte 1; save it as UTF-8 text"),
        (b"1\x002\x00", "found a file that is not text; give a text file such as points.csv"),
        (b"1" * 5_000_001, "found 5 MB; a text file of at most 5 MB"),
    ],
)
def test_files_that_cannot_be_read_are_one_line(firedeck, tmp_path, content, says):
    file = tmp_path / "readings.csv"
    file.write_bytes(content)
    said = firedeck("sum", "compression-spread", f"readings=@{file}")
    assert (said.code, said.out, said.err) == (2, "", f"compression-spread readings: {file}: {says}\n")


def test_a_missing_file_names_its_neighbour(firedeck, tmp_path):
    (tmp_path / "readings.csv").write_text("1 bar")
    said = firedeck("sum", "compression-spread", f"readings=@{tmp_path / 'reading.csv'}")
    assert said.err.endswith("reading.csv: found no such file; nearest known: readings.csv\n")


def test_a_folder_is_no_file(firedeck, tmp_path):
    said = firedeck("sum", "compression-spread", f"readings=@{tmp_path}")
    assert (said.code, said.err.count("\n")) == (2, 1)
    assert "found a folder" in said.err
