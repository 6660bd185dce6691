"""Which test comes next and how it is made, from the tables of tests."""

from collections.abc import Sequence
from dataclasses import replace

from firedeck.findings.causes import Causes
from firedeck.job import Job
from firedeck.tables import rows
from firedeck.trace import Missing


def how_to_test(book: str, name: str, joint: str = "") -> Missing:
    """Say how one test is made, with the minutes it takes."""
    trial = next(row for row in rows(f"{book}_tests") if row["test"] == name)
    paths = next(
        (row["paths"] for row in rows("test_paths") if (row["book"], row["test"]) == (book, name)), ""
    )
    words = _words_for(name) if paths.startswith("tests.shown") else ""
    how = " ".join(part for part in (trial["how"], trial["caution"], words) if part)
    places = tuple(path.replace("NAME", joint) if joint else path for path in paths.split()) or (
        "symptoms.notes",
    )
    return Missing(places, f"{trial['label']}, about {trial['minutes']} minutes", trial["tool"], how)


def _words_for(test: str) -> str:
    """Say with which words the outcome is written down."""
    signs = [
        f"{row['evidence']} ({row['label']})"
        for row in rows("leak_evidence")
        if row["test"] == test and row["sums_up"] != "yes"
    ]
    return f"Write under shown what is seen, under not_shown what is not: {'; '.join(signs)}."


def optional(one: Missing) -> Missing:
    """Mark a test that changes nothing about taking the head off."""
    return replace(one, measure=f"optional, the head comes off without it: {one.measure}")


def next_tests(causes: Causes, names: Sequence[str], job: Job, doubted: str = "") -> list[Missing]:
    """Name the next tests once each, the doubted one first and twice over."""
    wanted = list(dict.fromkeys(names))
    if doubted:
        again = Missing(
            ("tests.leak_down.into", "tests.leak_down.reference", "tests.leak_down.air_goes"),
            "leak-down again: valve seats cleaned, the suspects and their neighbours both ways at one pressure",
            "leak-down tester and compressed air",
            "Rap the valves on their seats, carbon blown off; check the tester on a sound cylinder; put air in each of "
            "the two in turn, then in both at the same pressure. Radiator cap off, crank locked.",
        )
        return [again, *(how_to_test("leak", name) for name in wanted if name != "leak-down")]
    liquid = job.document.symptoms.liquid
    tests = [how_to_test("leak", name) for name in wanted]
    inside = causes.leak_seen.signs.get("water-in-cylinder") or causes.leak_seen.signs.get("milk-in-sump")
    if inside and "coolant-pressure" not in wanted and "coolant-pressure" not in causes.leak_seen.kinds:
        tests.insert(0, how_to_test("leak", "coolant-pressure"))
    if inside and job.engine.duty == "marine" and liquid is None:
        tests.insert(
            0,
            Missing(
                ("symptoms.liquid",),
                "which liquid it is: coolant points to the jacket of head or manifold, raw water to the riser",
                "taste strip for salt, eye, nose",
                "Compare it with the coolant and with the water outside; salt or no colour is raw water. "
                "Then put pressure on the manifold by itself and on the head by itself.",
            ),
        )
    return tests
