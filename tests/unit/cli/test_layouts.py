"""firedeck layout: made, checked, written, drawn back; and the sum that reads it."""

import json

import pytest

NUMBERS = ("bores=2", "pitch=96 mm", "bore=86 mm", "bolt=11 mm", "across=104 mm", "edge=15 mm")
FEED = "passage=feed: oil, 6 mm, 150 mm, 20 mm"
WATER = "passage=w: water, 10 mm, 0 mm, 58 mm, along, mirrored"


def test_from_a_few_numbers_to_the_verdict(firedeck, tmp_path):
    block, gasket, drawing = (str(tmp_path / name) for name in ("block.csv", "gasket.csv", "block.svg"))
    said = firedeck("layout", "numbers", *NUMBERS, FEED, WATER, "-o", block, "--svg", drawing)
    assert (said.code, said.err) == (0, "")
    assert "2 bores, 6 fasteners, 5 passages" in said.out
    assert said.out.count("+") >= 6
    assert (tmp_path / "block.svg").read_text().startswith("<svg")
    firedeck("layout", "numbers", *NUMBERS, "room=.02 in", FEED, WATER, "-o", gasket)
    found = firedeck("sum", "hole-match", f"gasket=@{gasket}", f"block=@{block}", f"head=@{block}", "--json")
    results = json.loads(found.out)["results"]
    assert results["ways_that_fit"]["value"] == ["as drawn"]
    assert results["deciding_passages"]["value"] == ["feed"]
    assert results["ways"]["value"][0]["clears_mm"] == pytest.approx(0.508)


def test_inch_and_millimetre_headers_say_the_same(firedeck, tmp_path):
    block = tmp_path / "block.csv"
    firedeck("layout", "numbers", *NUMBERS, FEED, "-o", str(block))
    lines = block.read_text().splitlines()
    inch = [lines[0], lines[1].replace("[mm]", "[in]")]
    for line in lines[2:]:
        cells = line.split(",")
        for place in (2, 3, 5):
            cells[place] = f"{float(cells[place]) / 25.4:.9f}" if cells[place] else ""
        inch.append(",".join(cells))
    (tmp_path / "inch.csv").write_text("\n".join(inch))
    found = [
        json.loads(
            firedeck("sum", "hole-match", f"gasket=@{tmp_path / name}", f"block=@{block}", "--json").out
        )["results"]
        for name in ("block.csv", "inch.csv")
    ]
    assert found[0]["verdict"] == found[1]["verdict"]
    assert found[0]["ways_that_fit"] == found[1]["ways_that_fit"]


def test_traced_points(firedeck, tmp_path):
    (tmp_path / "trace.csv").write_text(
        "kind,label,x,y,diameter [mm]\nbore,1,10,10,86\nbore,2,130,10,86\nfastener,a,-50,75,11\n"
    )
    out = tmp_path / "out.csv"
    said = firedeck(
        "layout", "trace", str(tmp_path / "trace.csv"), "ends=bore 1, bore 2", "length=96 mm", "-o", str(out)
    )
    assert said.code == 0
    assert "fastener,a,-40,60,,11" in out.read_text()
    assert firedeck("layout", "show", str(out)).code == 0


@pytest.mark.parametrize(
    ("typed", "line"),
    [
        (("numbers", "bores=2"), "no pitch"),
        (("numbers", *NUMBERS[1:], "bores=two"), "bores"),
        (("numbers", *NUMBERS, "pich=9 mm"), "nearest known: pitch"),
        (("numbers", *NUMBERS, "passage=w, 10 mm"), "passage"),
        (("numbers", *NUMBERS[:1], "pitch=80 mm", *NUMBERS[2:]), "lie in each other"),
        (("trace", "nothing.csv"), "no such file"),
        (("show",), "0 files"),
        (("numbers", *NUMBERS, "-o", "no/such/folder.csv"), "no such folder"),
    ],
)
def test_slips_are_one_line(firedeck, typed, line):
    said = firedeck("layout", *typed)
    assert (said.code, said.out) == (2, "")
    assert line in said.err
    assert said.err.count("\n") == 1
