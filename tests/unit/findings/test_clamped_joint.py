"""What the study of a clamped joint is fed with: faces, liners, cuts, sections, rings of every gasket, re-torque, knock."""

from pathlib import Path

import numpy as np
import pytest

from firedeck.findings.clamped_joint import model_inputs
from firedeck.findings.joint import factory_of, study_request
from firedeck.findings.joint_castings import sections_given
from firedeck.findings.joint_said import Said
from firedeck.job.reading import read_file
from firedeck.joint.tightening import TurnTo
from firedeck.trace import Missing

JOBS = Path(__file__).parents[3] / "examples" / "jobs"


@pytest.fixture(scope="module")
def job():
    return read_file(JOBS / "inline-four.toml")


def given(job, **how):
    found = model_inputs(job, job.joints[0], **how)
    assert not isinstance(found, Missing)
    return found


def texts(found):
    return " | ".join(note.text for note in found.assumptions)


def test_the_block_face_as_read_is_the_gap_and_a_head_to_be_cut_is_flat(job):
    found = given(job)
    points, gap = found.engine.castings.points(), found.inputs.gap
    assert "head face taken as flat after its cut" in texts(found)
    assert "block face as read, 15 places" in texts(found)
    near = int(np.hypot(points.x, points.y).argmin())
    ends = int(points.x.argmax())
    assert gap[near] - gap[ends] == pytest.approx(0.001 * 25.4, rel=0.3)
    assert found.engine.given.faces == pytest.approx(0.0002 * 25.4)


def test_without_a_cut_both_faces_count(job):
    uncut = job.changed({"joint.head.cut.head": "0 mm"})
    both, one = given(uncut), given(job)
    assert "head face as read" in texts(both)
    assert np.ptp(both.inputs.gap) > 2.0 * np.ptp(one.inputs.gap)
    assert both.engine.given.faces > one.engine.given.faces


def test_the_factorys_faces_are_flat(job):
    found = given(factory_of(job), factory=True)
    assert not found.inputs.gap.any()
    assert found.engine.given.faces == 0.0


def test_liners_stand_as_read_and_the_factorys_as_the_mean_or_the_book():
    job = read_file(JOBS / "wet-liner-six.toml")
    joint = job.joints[0]
    plain = job.changed({f"joint.{joint.name}.readings.faces": []})
    found = given(plain)
    points = found.engine.castings.points()
    for liner in joint.readings.liners:
        ring = [k == "ring" and p == liner.name for k, p in zip(points.kind, points.place, strict=True)]
        stand = np.mean([stand.value for stand in liner.stands])
        assert found.inputs.gap[ring] == pytest.approx(-stand)
    factory = given(plain, factory=True)
    rings = [kind == "ring" for kind in points.kind]
    assert np.ptp(factory.inputs.gap[rings]) == pytest.approx(0.0, abs=1e-12)
    assert factory.inputs.gap[rings][0] < 0.0
    assert found.engine.given.knock == 0.0


def test_one_casting_two_cuts(job):
    request, _ = study_request(job, factory_of(job), "head")
    now, then = request.now.castings, request.as_built.castings
    assert (now.request, now.soft, now.stiff) == (then.request, then.soft, then.stiff)
    assert then.cut_head == 0.0
    assert now.cut_head == pytest.approx(0.006 * 25.4, abs=1e-6)
    assert request.about.cuts_differ
    assert "head cut" in request.about.differs


def test_gaskets_of_the_document_are_condensed_together(job):
    chosen = {name: given(job.changed({"joint.head.gasket.fitted": name})) for name in ("steel", "soft")}
    requests = [one.request for one in chosen.values()]
    assert requests[0] == requests[1]
    assert requests[0].key("head") == requests[1].key("head")
    rings = {name: one.engine.castings.plan.bores[0].ring for name, one in chosen.items()}
    assert rings["soft"] - rings["steel"] == pytest.approx(0.5)
    for one in chosen.values():
        points = one.engine.castings.points()
        ring = one.engine.castings.plan.bores[0].ring
        assert points.share[0] == pytest.approx(np.pi * ring / one.request.sampling.ring)


def test_what_was_measured_of_the_head_narrows_its_ends(job):
    path = "joint.head.head.section"
    bare = {f"{path}.ribs": "", f"{path}.deck": None, f"{path}.roof": None, f"{path}.mass": None}
    ribs = bare | {f"{path}.ribs": "one between each pair"}
    widths = {}
    for name, changes in (("all", {}), ("ribs", ribs), ("nothing", bare)):
        changed = job.changed(changes) if changes else job
        found = sections_given(changed, changed.joints[0], Said())
        widths[name] = (found.stiff.rib - found.soft.rib, found.stiff.deck - found.soft.deck)
    assert widths["all"][0] == pytest.approx(0.5 * widths["nothing"][0])
    assert widths["ribs"][0] == pytest.approx(0.7 * widths["nothing"][0])
    assert widths["all"][1] == pytest.approx(1.4)


def test_no_ribs_means_none(job):
    bare = job.changed({"joint.head.head.section.ribs": "none"})
    found = sections_given(bare, bare.joints[0], Said())
    assert found.head.rib == found.soft.rib == found.stiff.rib == 0.0


def test_a_waisted_bolt_is_softer_and_yields_sooner(job):
    plain, waisted = (
        given(job.changed({"joint.head.fasteners.all.sections": text}) if text else job)
        for text in ("", "8 mm/70 mm")
    )
    assert waisted.inputs.bolts["1"].stiffness < 0.8 * plain.inputs.bolts["1"].stiffness
    assert waisted.inputs.bolts["1"].yield_load < plain.inputs.bolts["1"].yield_load


def test_retorque_by_the_papers_and_by_the_gasket(job):
    text = "oiled\n60 N·m\n90 N·m\nafter 1000 km cold: loosen 30°\n95 N·m\n"
    assert not given(job).engine.given.retorque
    papers = given(job.changed({"joint.head.procedure.text": text})).engine.given.retorque
    assert len(papers) == 20
    plain = {"joint.head.procedure.text": "oiled\n60 N·m\n90 N·m\n", "joint.head.gasket.fitted": "soft"}
    asked = plain | {"joint.head.gasket.candidates.soft.retorque": "yes"}
    assert not given(job.changed(plain)).engine.given.retorque
    again = given(job.changed(asked)).engine.given.retorque
    assert len(again) == 10
    assert all(isinstance(one, TurnTo) for one in again)


def test_the_exhaust_side_follows_the_picture(job):
    assert given(job).exhaust == 0
    assert given(job.changed({"joint.head.layout.exhaust": "above"})).exhaust == 1
    turned = {"joint.head.layout.exhaust": "above", "joint.head.layout.seen": "head face up on the bench"}
    assert given(job.changed(turned)).exhaust == -1


def test_knock_is_named_and_stays_out_of_the_band(job):
    found = given(job)
    assert found.engine.given.knock == 2.0
    assert found.engine.given.peak[0] < found.inputs.peak_pressure < found.engine.given.peak[1]
    assert "knock is not in the band" in texts(found)
