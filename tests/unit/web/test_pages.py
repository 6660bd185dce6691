"""What stands on the pages: everything of the assessment, escaped, in the units asked for."""

import re
from html import unescape
from html.parser import HTMLParser

import pytest
from unit.web.conftest import AWKWARD

from firedeck.report import SHEETS

UNITS = ("as-typed", "mm", "inch")
AS_A_PIECE = {"HX-Request": "true"}


class Seen(HTMLParser):
    """The words of a page, its links, and what its links point to."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.words: list[str] = []
        self.links: list[str] = []
        self.places: list[str] = []
        self.feed(page)

    def handle_starttag(self, _tag, attributes):
        given = dict(attributes)
        self.links += [given[name] for name in ("href", "src", "hx-get") if name in given]
        self.places += [given["id"]] if "id" in given else []

    def handle_data(self, data):
        self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join("".join(self.words).split())


def seen(response) -> Seen:
    assert response.status_code == 200
    return Seen(response.text)


def test_several_jobs_are_listed(client):
    page = seen(client.get("/"))
    assert "sample" in page.text
    assert AWKWARD in page.text


def test_a_single_job_is_shown_at_once(client, stored):
    stored.files.pop("sample")
    answer = client.get("/")
    assert answer.status_code == 303
    assert client.get(answer.headers["location"]).status_code == 200


def test_no_job_says_how_to_start_one(client, stored):
    stored.files.clear()
    assert "firedeck new my-engine.toml" in seen(client.get("/")).text


def test_every_answer_stands_on_the_page_of_its_job(client, stored):
    page = seen(client.get("/job/sample"))
    for answer in stored.whole["answers"]:
        for words in (answer["asks"], answer["headline"], answer["state_words"], answer["stage_words"]):
            assert words in page.text
        assert not answer["action"] or f"→ {answer['action_words']}" in page.text


def test_no_name_of_a_question_is_on_the_page(client, stored):
    text = client.get("/job/sample").text
    own = {answer["question"] for answer in stored.whole["answers"]} - set(SHEETS)
    assert own
    assert not [name for name in own - {a["stage"] for a in stored.whole["answers"]} if name in text]


def test_what_fails_stands_on_top_and_leads_to_its_card(client):
    page = client.get("/job/sample").text
    top = re.search(r'<section class="first">.*?</section>', page, re.DOTALL)
    assert top
    text = Seen(top[0])
    assert "fails its limit: 2 · settled: 6 · not yet: measure this: 2 · does not apply here: 1" in text.text
    assert text.links == ["#answer-0", "#answer-3"]
    assert {"answer-0", "answer-3"} <= set(Seen(page).places)
    assert page.index('class="first"') < page.index('id="measure"')


def test_a_job_without_faults_has_no_list_of_faults(client, stored):
    stored.whole["answers"] = [a for a in stored.whole["answers"] if a["state"] == "open"]
    page = client.get("/job/sample").text
    assert 'class="first"' not in page
    assert "not yet: measure this: 2" in Seen(page).text


def test_a_card_shows_the_worst_check_first(client, stored):
    page = seen(client.get("/job/sample")).text
    checks = stored.whole["answers"][3]["checks"]
    assert [check["outcome"] for check in checks] == ["fails", "at-limit", "holds"]
    stored.whole["answers"][3]["checks"] = checks[::-1]
    assert seen(client.get("/job/sample")).text == page
    assert "× fails · head, along · 0.102 mm · limit at most 0.100 mm (manual, p. 12-18)" in page


def test_a_value_in_words_is_shown_in_words(client, stored):
    check = stored.whole["answers"][3]["checks"][0]
    check["text"] = "seen by eye"
    part = seen(client.get("/job/sample/answer/3", headers=AS_A_PIECE)).text
    assert "seen by eye" in part
    assert check["shown"]["as_typed"] not in part
    assert "head, along · seen by eye" in seen(client.get("/job/sample")).text


def test_doubts_say_where_and_what(client, stored):
    (doubt,) = stored.whole["job"]["doubts"]
    assert f"{doubt['path']} {doubt['text']}" in seen(client.get("/job/sample")).text
    stored.whole["job"]["doubts"] = []
    assert "readings again" not in seen(client.get("/job/sample")).text


def test_all_of_an_answer_is_in_its_part(client, stored):
    for place, answer in enumerate(stored.whole["answers"]):
        part = seen(client.get(f"/job/sample/answer/{place}", headers=AS_A_PIECE)).text
        for check in answer["checks"]:
            for words in (check["name"], check["outcome_words"]):
                assert words in part
            for rival in check["rivals"]:
                assert rival["outcome_words"] in part
        for step in answer["steps"]:
            assert step["says"] in part
            assert step["formula"] in part
        for line in answer["work"]:
            assert f"{line['text']} {line['figure']}".strip() in part
            assert line["caution"] in part
        for step in answer["next"]:
            for words in (step["measure"], step["tool"], step["how"], *step["paths"]):
                assert words in part
        for words in (*answer["cautions"], *answer["assumptions"], answer["anyway"], answer["reason"]):
            assert words in part
        for words in (*(note["text"] for note in answer["notes"]), *answer["sources"]):
            assert words in part


def test_a_part_is_a_piece_of_a_page_and_alone_a_page_with_a_way_back(client):
    piece = client.get("/job/sample/answer/3", headers=AS_A_PIECE).text
    assert "<html" not in piece
    assert "<script" not in piece
    alone = seen(client.get("/job/sample/answer/3?units=inch"))
    assert "Are both faces flat enough?" in alone.text
    assert "/job/sample?units=inch#answer-3" in alone.links


def test_a_part_asked_for_by_an_old_page_says_so(client, stored):
    links = [link for link in seen(client.get("/job/sample")).links if "/answer/3" in link]
    assert len(set(links)) == 1
    assert "gap = rest - dip" in client.get(links[0], headers=AS_A_PIECE).text
    stored.whole["revision"] = "another"
    old = client.get(links[0], headers=AS_A_PIECE)
    assert "gap = rest - dip" not in old.text
    assert "The document has changed" in seen(old).text


@pytest.mark.parametrize("units", UNITS)
def test_units_choose_the_figures(units, client, stored):
    check = stored.whole["answers"][3]["checks"][0]
    part = seen(client.get(f"/job/sample/answer/3?units={units}", headers=AS_A_PIECE)).text
    page = seen(client.get(f"/job/sample?units={units}"))
    wanted = check["shown"][units.replace("-", "_")]
    assert wanted in part
    assert wanted in page.text
    others = {check["shown"][name.replace("-", "_")] for name in UNITS} - {wanted}
    assert not [other for other in others if other in part]
    assert [link for link in page.links if f"/answer/3?units={units}" in link]


def test_the_switch_marks_the_units_on_show(client):
    for units in UNITS:
        page = client.get(f"/job/sample?units={units}").text
        assert re.findall(r'href="([^"]*)" aria-current="true"', page) == [f"/job/sample?units={units}"]


def test_unknown_units_are_those_typed(client):
    typed, unknown = (client.get(f"/job/sample?units={units}").text for units in ("as-typed", "furlongs"))
    assert unknown == typed


def test_what_a_person_types_is_never_markup(client, stored):
    nasty = "<script>alert(1)</script> & \" ' <b>"
    stored.whole["job"]["title"] = nasty
    stored.whole["answers"][3]["headline"] = nasty
    stored.whole["findings"]["head"]["layout"]["bores"][0]["label"] = nasty
    page = client.get("/job/sample").text
    assert "<script>alert" not in page
    assert "<b>" not in page
    assert nasty in unescape(page)


def test_a_job_without_title_is_called_by_its_file(client, stored):
    stored.whole["job"]["title"] = ""
    assert "<h1>sample</h1>" in client.get("/job/sample").text


def test_every_picture_has_words(client):
    page = client.get("/job/sample").text
    assert page.count("<svg") == page.count("</svg>") == page.count("<figcaption>") == 3
    assert page.count('role="img"') == 3


def test_two_heads_are_told_apart(client, stored):
    stored.whole["joints"] = ["left", "right"]
    stored.whole["findings"] = {"": {}, "left": stored.whole["findings"]["head"], "right": {}}
    ours = [answer for answer in stored.whole["answers"] if answer["joint"]]
    stored.whole["answers"] = [{**answer, "joint": joint} for joint in ("left", "right") for answer in ours]
    text = seen(client.get("/job/sample")).text
    assert "Are both faces flat enough? · left" in text
    assert "Are both faces flat enough? · right" in text
    assert "Seen from above: left" in text
    assert "Seen from above: right" not in text


def test_every_link_of_every_job_leads_somewhere(client):
    starts = [link for link in seen(client.get("/")).links if link.startswith("/job/")]
    assert len(starts) == len(client.app.state.jobs.files) == 2
    for start in starts:
        page = seen(client.get(start))
        links = {link for link in page.links if link.startswith("/") and ".pdf" not in link} - {
            "/static/htmx.min.js"
        }
        assert len(links) > len(SHEETS)
        assert {client.get(link).status_code for link in links} == {200}
        inside = {link[1:] for link in page.links if link.startswith("#")}
        assert inside <= set(page.places)
        assert len(page.places) == len(set(page.places))
