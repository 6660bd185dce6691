"""Commands that write or print something of their own: new, report, demo, schema, procedure, order, serve."""

import json
import sys
import tomllib
from types import SimpleNamespace

import jsonschema
import pytest

from firedeck.job import read_file
from firedeck.report import SHEETS


def test_new_writes_a_document_that_can_be_checked(firedeck, tmp_path):
    file = tmp_path / "my job.toml"
    said = firedeck("new", file)
    assert said.code == 0
    assert f'firedeck check "{file}"' in said.out
    assert read_file(file).doubts == ()
    assert firedeck("check", file).code == 0


def test_every_line_of_the_starter_can_be_uncommented(firedeck, tmp_path):
    file = tmp_path / "job.toml"
    firedeck("new", file)
    lines = file.read_text(encoding="utf-8").splitlines()
    opened = [line[2:] if is_value(line) else line for line in lines]
    file.write_text("\n".join(opened), encoding="utf-8")
    assert read_file(file).engine.fuel == "petrol"
    assert firedeck("check", file).code == 0


def is_value(line):
    text = line.removeprefix("# ")
    return line.startswith("# ") and (" = " in text or text.startswith(("[", '"""', "30 N", "+90")))


def test_new_never_overwrites(firedeck, tmp_path):
    file = tmp_path / "job.toml"
    file.write_text("mine")
    said = firedeck("new", file)
    assert said.code == 2
    assert (
        said.err
        == f"{file}: found a file or folder that is there already; a new name; nothing is overwritten\n"
    )
    assert file.read_text() == "mine"


def test_new_into_no_folder_is_one_line(firedeck, tmp_path):
    said = firedeck("new", tmp_path / "none" / "job.toml")
    assert (said.code, said.err.count("\n")) == (2, 1)


@pytest.mark.parametrize(("name", "start"), [("a.pdf", b"%PDF-"), ("a.html", b"<!"), ("a.txt", b"STOP")])
def test_report_goes_by_the_ending(firedeck, example, tmp_path, name, start):
    said = firedeck("report", example, "--sheet", "stop", "-o", tmp_path / name)
    assert (said.code, said.err) == (0, "")
    assert (tmp_path / name).read_bytes()[:20].lower().startswith(start.lower())


def test_report_format_may_be_said(firedeck, example, tmp_path):
    said = firedeck(
        "report",
        example,
        "--sheet",
        "stop",
        "--format",
        "text",
        "--paper",
        "letter",
        "--units",
        "inch",
        "-o",
        tmp_path / "x",
    )
    assert said.code == 0
    assert (tmp_path / "x").read_text(encoding="utf-8")


def test_an_unknown_sheet_lists_them(firedeck, example, tmp_path):
    said = firedeck("report", example, "--sheet", "stopp", "-o", tmp_path / "x.pdf")
    assert (said.code, said.err) == (2, f"--sheet: found 'stopp'; allowed: {', '.join(SHEETS)}\n")


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (("-o", "x"), "-o: found 'x'; a name that ends in .pdf, .html or .txt, or say --format\n"),
        (("--paper", "a3", "-o", "x.pdf"), "--paper: found 'a3'; allowed: a4, letter\n"),
        (("--format", "doc", "-o", "x.pdf"), "--format: found 'doc'; allowed: pdf, html, text\n"),
        ((), "firedeck report: found the following arguments are required: -o/--output; "),
    ],
)
def test_report_says_what_is_allowed(firedeck, example, typed, says):
    said = firedeck("report", example, "--sheet", "stop", *typed)
    assert said.code == 2
    assert said.err.startswith(says)


def test_report_never_writes_over_the_job(firedeck, example):
    before = example.read_bytes()
    said = firedeck("report", example, "--sheet", "stop", "--format", "text", "-o", example)
    assert (said.code, said.err) == (2, "-o: found the job document itself; another file\n")
    assert example.read_bytes() == before


def test_report_into_no_folder_is_one_line(firedeck, example, tmp_path):
    said = firedeck("report", example, "--sheet", "stop", "-o", tmp_path / "none" / "x.txt")
    assert (said.code, said.err.count("\n")) == (2, 1)
    assert "found no such file or directory" in said.err


def test_demo_goes_from_document_to_paper(firedeck, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    said = firedeck("demo")
    assert (said.code, said.err) == (0, "")
    folder = tmp_path / "firedeck-demo"
    assert (folder / "record.pdf").read_bytes().startswith(b"%PDF-")
    assert (folder / "record.html").resolve().as_uri() in said.out
    assert "Fails its limit" in said.out


def test_demo_keeps_what_was_changed_in_its_document(firedeck, example, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "firedeck-demo").mkdir()
    mine = tmp_path / "firedeck-demo" / "inline-four.toml"
    mine.write_text(
        example.read_text(encoding="utf-8").replace("Overheated inline four", "Mine"), encoding="utf-8"
    )
    assert firedeck("demo").out.startswith("Mine, ")


def test_schema_takes_the_example_and_refuses_an_unknown_key(firedeck, example):
    schema = json.loads(firedeck("schema").out)
    job = tomllib.loads(example.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(job, schema)
    job["engine"]["bor"] = "86 mm"
    with pytest.raises(jsonschema.ValidationError, match="bor"):
        jsonschema.validate(job, schema)


def test_procedure_in_plain_words(firedeck):
    out = firedeck("procedure", "oiled; 30 N·m; +90°; after 1000 km cold +30°").out
    assert "2. All, in order: turn each a further 90°." in out
    assert "all: last torque 30 N·m, then turned 90° past it" in out
    assert "tightened again after running: yes" in out


def test_procedure_json(firedeck):
    said = json.loads(firedeck("procedure", "long: 40 N·m; +90°; side: 10 N·m", "--json").out)
    assert list(said) == ["text", "explained", "groups"]
    assert [(group["group"], group["final_torque"], group["turn_past_it"]) for group in said["groups"]] == [
        ("long", "40 N·m", "90°"),
        ("side", "10 N·m", None),
    ]


def test_a_procedure_that_says_no_unit_is_a_line_a_step(firedeck):
    said = firedeck("procedure", "30\n+ninety")
    assert (said.code, said.out) == (2, "")
    assert [line.split(":")[0] for line in said.err.splitlines()] == ["procedure step 1", "procedure step 2"]


def test_order_of_the_papers_wins(firedeck, example):
    out = firedeck("order", example).out
    assert out.splitlines() == [
        "head  (manual p. 12-31)",
        "  tighten  1 · 2 · 3 · 4 · 5 · 6 · 7 · 8 · 9 · 10",
        "  loosen   10 · 9 · 8 · 7 · 6 · 5 · 4 · 3 · 2 · 1",
    ]


def test_order_without_papers_is_common_practice(firedeck, example, tmp_path):
    file = tmp_path / "job.toml"
    text = example.read_text(encoding="utf-8")
    file.write_text(
        "\n".join(line for line in text.splitlines() if not line.startswith("order = ")), encoding="utf-8"
    )
    (order,) = json.loads(firedeck("order", file, "--json").out)["joints"]
    assert order["source"] == "common practice"
    assert set(order["tightening"][:2]) == {"1", "2"}
    assert order["loosening"] == order["tightening"][::-1]
    assert sorted(order["tightening"], key=int) == [str(number) for number in range(1, 11)]


def test_order_without_a_hole_pattern_says_what_to_write(firedeck, tmp_path):
    firedeck("new", tmp_path / "job.toml")
    said = firedeck("order", tmp_path / "job.toml")
    assert said.code == 0
    assert "layout.fasteners" in said.out


@pytest.mark.parametrize("port", ["80", "x", "70000", "-1", "٣٠٠٠"])
def test_a_bad_port_is_one_line(firedeck, port):
    said = firedeck("serve", f"--port={port}")
    assert (said.code, said.err) == (
        2,
        f"--port: found '{port}'; allowed: a whole number from 1024 to 65535\n",
    )


def test_serve_is_for_this_machine_unless_told(firedeck, example, monkeypatch):
    asked = []
    monkeypatch.setitem(
        sys.modules,
        "firedeck.web",
        SimpleNamespace(serve=lambda files, **how: asked.append({"files": files, **how})),
    )
    firedeck("serve", "--port", "9000")
    firedeck("serve", "--open-network", example)
    assert [how["open_network"] for how in asked] == [False, True]
    assert asked[0]["port"] == 9000
    assert [how["files"] for how in asked] == [[], [example]]


def test_serve_does_not_start_on_a_broken_job(firedeck, tmp_path, monkeypatch):
    monkeypatch.setitem(sys.modules, "firedeck.web", SimpleNamespace(serve=None))
    said = firedeck("serve", tmp_path / "none.toml")
    assert (said.code, said.err.count("\n")) == (2, 1)
