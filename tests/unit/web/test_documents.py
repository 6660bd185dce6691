"""Documents read from disk: an edit is seen, a broken one says its lines, names are kept apart."""

import threading

import pytest

from firedeck.errors import JobError
from firedeck.web import jobs as room
from firedeck.web.jobs import Jobs
from firedeck.web.serving import serve


def test_a_real_document_is_answered(look, document):
    page = look(document).get("/")
    assert page.status_code == 200
    assert str(page.url).endswith("/job/my%20engine")
    assert "Overheated inline four" in page.text
    assert page.text.count("<article") > 1


def test_an_edit_of_the_file_is_seen(look, document):
    client = look(document)
    before = client.get("/").text
    text = document.read_text("utf-8")
    document.write_text(text.replace("Overheated inline four", "Cooled inline four"), encoding="utf-8")
    after = client.get("/").text
    assert "Overheated inline four" in before
    assert "Cooled inline four" in after
    assert "Overheated" not in after.split("</h1>")[0]


def test_a_document_that_breaks_says_its_lines_and_comes_back_when_mended(look, document):
    client = look(document)
    good = document.read_text("utf-8")
    broken = good.replace('bore = "86.0 mm"', "bore = 86").replace('rod = "143 mm"', 'rod = "-143 mm"')
    document.write_text(broken, encoding="utf-8")
    page = client.get("/")
    assert page.status_code == 422
    assert "engine.bore: found 86; say the unit: 86 mm or 86 in?" in page.text
    assert "engine.rod: found" in page.text
    document.write_text(good, encoding="utf-8")
    assert client.get("/").status_code == 200


def test_a_document_that_goes_away_says_so(look, document):
    client = look(document)
    document.unlink()
    page = client.get("/")
    assert page.status_code == 422
    assert "no such file" in page.text


@pytest.fixture
def counted(monkeypatch):
    """Count how often a job is answered; the answers themselves are left out."""
    asked = []

    def assess(job, long_work):
        asked.append(job.revision)
        return job

    monkeypatch.setattr(room, "assess", assess)
    monkeypatch.setattr(room, "plain", lambda job: {"revision": job.revision, "answers": []})
    return asked


def test_an_unchanged_document_is_answered_once(counted, document):
    jobs = Jobs.found([document])
    first, second = jobs.plain("my engine"), jobs.plain("my engine")
    assert first is second
    document.write_text(document.read_text("utf-8").replace("98 HB", "97 HB"), encoding="utf-8")
    assert jobs.plain("my engine")["revision"] != first["revision"]
    assert len(counted) == 2


def test_two_that_look_at_once_have_it_answered_once(counted, document):
    jobs = Jobs.found([document])
    looks = [threading.Thread(target=jobs.plain, args=("my engine",)) for _ in range(4)]
    for look in looks:
        look.start()
    for look in looks:
        look.join(timeout=30)
    assert len(counted) == 1


def test_a_file_of_points_beside_the_document_counts_as_an_edit(counted, document):
    head, points = document.read_text("utf-8").split('points = """', 1)
    table, rest = points.split('"""', 1)
    (document.parent / "head.csv").write_text(table, encoding="utf-8")
    document.write_text(f'{head}points = "@head.csv"{rest}', encoding="utf-8")
    jobs = Jobs.found([document])
    jobs.plain("my engine")
    (document.parent / "head.csv").write_text(table.replace("-6", "-7"), encoding="utf-8")
    jobs.plain("my engine")
    assert len(counted) == 2


def test_two_files_of_one_name_are_both_shown(document, tmp_path):
    other = tmp_path / "other" / document.name
    other.parent.mkdir()
    other.write_bytes(document.read_bytes())
    jobs = Jobs.found([document, other, document])
    assert dict(jobs.files) == {"my engine": document, "my engine 2": other}


def test_without_names_the_jobs_of_the_folder_are_taken(document, tmp_path, monkeypatch):
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "x"\n', encoding="utf-8")
    (tmp_path / "old.toml").write_bytes(b"format = \xff")
    (tmp_path / "notes.txt").write_text("format = 0", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert list(Jobs.found([]).files) == ["my engine"]


def test_a_port_in_use_is_one_line():
    import socket

    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(JobError, match=f"--port: found {port}, which something else uses"):
            serve(port=port)
