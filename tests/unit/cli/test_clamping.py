"""``firedeck joint`` before any long work: a pattern without bolts is a fault, one that is not there is asked for."""

import pytest

JOB = """format = 0
[job]
title = "made for a test"
[engine]
arrangement = "single"
cylinders = ["1"]
[[joint]]
name = "head"
"""
BORE = """[joint.layout]
seen = "deck from above"
bores = [{ label = "1", x = "0 mm", y = "0 mm", diameter = "80 mm" }]
"""


@pytest.mark.parametrize("more", [(), ("--json",), ("--picture",)])
def test_a_pattern_without_bolts_is_one_line_and_bad_input(firedeck, tmp_path, more):
    file = tmp_path / "job.toml"
    file.write_text(JOB + BORE, "utf-8")
    said = firedeck("joint", file, *more)
    assert (said.code, said.out) == (2, "")
    (line,) = said.err.splitlines()
    assert line.startswith(f"{file}: joint.head.layout.fasteners: found no bolt or stud;")


def test_no_pattern_at_all_is_asked_for(firedeck, tmp_path):
    file = tmp_path / "job.toml"
    file.write_text(JOB, "utf-8")
    said = firedeck("joint", file)
    assert said.code == 0
    assert "joint.head.layout" in said.out
