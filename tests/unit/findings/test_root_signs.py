"""Every sign of a root cause can be written into a job: none of the evidence table is out of reach."""

import pytest
from unit.answers.testing import found, four

from firedeck.findings.causes import Causes
from firedeck.tables import rows

OLD = "[joint.gasket.old]\nsigns = [{}]\n"
LIMIT = (
    '[[joint.limits]]\nname = "one"\nquantity = "{}"\n{} = "{}"\npart = "{}"\nmeasure = "{}"\n'
    'rank = "manual"\nfrom = "book"\n'
)
LINE = (
    '[[joint.readings.faces]]\nname = "{0}"\nface = "{0}"\nseen = "{1}"\nfront = "left"\nzero = "outline corner"\n'
    'conditions = ["cold", "clean"]\n[[joint.readings.faces.lines]]\nname = "edge"\nfrom = ["10 mm", "10 mm"]\n'
    'to = ["400 mm", "10 mm"]\ndirection = "along"\nreadings = [{{ at = "200 mm", goes = "0.10 mm", stops = "0.15 mm" }}]\n'
)
FLAT = LIMIT.format("face_flatness", "high", "0.05 mm", "{}", "under-the-edge")
BOLTS = '[[joint.fasteners]]\nname = "all"\ncount = 2\nlabels = ["a", "b"]\n'

SAID = {
    "overheated": ('[symptoms]\nseen = ["overheated"]', ""),
    "coolant-lost-first": ("[history]\ncoolant_low_first = true", ""),
    "recent-head-job": ("[history]\nfailures = 1", ""),
    "same-place-before": ("[history]\nsame_place_before = true", ""),
    "failed-repeatedly": ("[history]\nfailures = 2", ""),
    "retightening-missed": ('[history]\nretightening = "missed"', ""),
    "fasteners-used-again": ("", BOLTS + 'uses = "1"\n[joint.procedure]\ntext = """\n40 N·m\n+90°\n"""\nyields = true\n'),
    "boost-or-timing-raised": ('[running]\nboost = "1 bar"\nboost_before = "7 psi"', ""),
    "knock-heard": ('[running]\ndetonation = "heard"', ""),
    "coolant-neglected": ('[history]\ncoolant = "neglected"', ""),
    "high-mileage": ("[history]\nfirst_gasket = true", ""),
    "ring-crushed-one-side": ("", OLD.format('"ring-uneven"')),
    "ring-cracked-or-hammered": ("", OLD.format('"ring-cracked"')),
    "track-between-bores": ("", OLD.format('"burnt-between-bores"')),
    "print-faint": ("", OLD.format('"faint-print"')),
    "print-faint-one-bore": ("", OLD.format('"thin-print"')),
    "edges-eaten": ("", OLD.format('"edges-eaten"')),
    "facing-gone-soft": ("", OLD.format('"soft-and-washed"')),
    "holes-do-not-match": ("", OLD.format('"holes-do-not-match"')),
    "dirt-under-gasket": ("", OLD.format('"dirt-under-it"')),
    "one-fastener-slack": ("", '[joint.readings.fasteners]\nbreak_away = { a = "60 lb-ft", b = "20 N·m" }\n'),
    "all-fasteners-slack": ("", BOLTS + '[joint.readings.fasteners]\nloose = ["a", "b"]\n'),
    "fastener-too-long": ("", '[joint.readings.fasteners]\nnecked = ["a"]\n'),
    "washer-or-seat-dished": ("", BOLTS + "[joint.fasteners.washer]\nsunk = true\n"),
    "head-out-of-flat": ("", FLAT.format("head") + LINE.format("head", "head face up on the bench")),
    "deck-out-of-flat": ("", FLAT.format("block") + LINE.format("block", "deck from above")),
    "face-too-rough": ("", '[[joint.readings.finish]]\nname = "head"\nface = "head"\nseen = ["scratches"]\n'),
    "liner-low": ("", '[joint.block]\nliners = "wet"\nliners_seen = ["sunk"]\n'),
    "pistons-pitted": ('[tests]\nbores_seen = ["pitted"]', ""),
    "cooling-part-failed": ('[history]\ncooling_parts = "failed"', ""),
    "head-soft": ("", '[joint.head]\nmaterial = "aluminium"\nhardness = "55 HB"\n'
                  + LIMIT.format("hardness", "low", "80 HB", "head", "single-reading")),
    "coolant-sour-or-live": ('[tests.coolant]\nstray_voltage = "found"', ""),
    "casting-leaks": ("", '[joint.head]\ncrack_test = "found"\n'),
}  # fmt: skip


def signs(rest: str, joint: str) -> dict[str, bool]:
    causes = found(four(rest, joint=joint)).get(Causes)
    return dict(causes.root_seen.signs)


def test_the_list_here_is_the_whole_table():
    assert set(SAID) == {row["evidence"] for row in rows("root_evidence")}


@pytest.mark.parametrize("sign", SAID)
def test_each_sign_is_reached_by_a_job(sign):
    rest, joint = SAID[sign]
    assert signs(rest, joint).get(sign) is True


def test_a_thin_print_in_one_place_is_no_faint_print_all_round():
    seen = signs("", OLD.format('"thin-print"'))
    assert seen.get("print-faint") is None


@pytest.mark.parametrize(
    ("said", "sign"),
    [('chemistry = "good"\nstray_voltage = "none"', False), ('chemistry = "good"', None), ('chemistry = "sour"', True)],
)  # fmt: skip
def test_good_coolant_clears_only_with_the_voltmeter_too(said, sign):
    assert (
        signs(f"[tests.coolant]\n{said}\n[history]\nfirst_gasket = true", "").get("coolant-sour-or-live")
        is sign
    )


def test_a_head_above_its_least_hardness_is_not_soft():
    rest, joint = SAID["head-soft"]
    assert signs(rest, joint.replace("55 HB", "95 HB")).get("head-soft") is False
