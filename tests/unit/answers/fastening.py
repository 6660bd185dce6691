"""Small jobs made for one test: an inline two-cylinder nobody built, with what the test wants to say."""

from firedeck.answers.answer import Answer
from firedeck.assess.assess import assess_question
from firedeck.job import Job
from firedeck.job.reading import from_raw


def job_of(*joints: dict, engine: dict | None = None, **sections: object) -> Job:
    """Make a job of one or more joints; every other section as given."""
    named = [{"name": f"head{place or ''}", **joint} for place, joint in enumerate(joints or ({},))]
    raw = {
        "format": 0,
        "job": {"title": "made for a test"},
        "engine": {"arrangement": "inline", "cylinders": ["1", "2"], **(engine or {})},
        "joint": named,
        **sections,
    }
    return from_raw(raw, repr(raw))


def ask(question: str, *joints: dict, engine: dict | None = None, **sections: object) -> Answer:
    """Answer one question of such a job; of the first joint where there are several."""
    return assess_question(job_of(*joints, engine=engine, **sections), question).answers[0]


def group(name: str = "all", count: int = 8, **others: object) -> dict:
    """Make a group of fasteners."""
    return {"name": name, "count": count, "kind": "bolt", **others}


def procedure(text: str, **others: object) -> dict:
    """Make a procedure of a book that does not exist."""
    return {"text": text, "from": "manual p. 1", **others}


def limit(quantity: str, **bounds: str) -> dict:
    """Make a limit of the same book."""
    return {
        "name": quantity,
        "quantity": quantity,
        "part": "fastener",
        "measure": "single-reading",
        "rank": "manual",
        "from": "manual p. 2",
        **bounds,
    }


def words_of(answer: Answer) -> str:
    """Join everything an answer asks somebody to do, with its cautions and notes."""
    lines = [f"{work.text} {work.figure} {work.caution}" for work in answer.work]
    return "\n".join([*lines, *answer.cautions, *(note.text for note in answer.notes)])


def wanted_of(answer: Answer) -> str:
    """Join what an answer wants to be measured next."""
    return "\n".join(f"{one.missing.measure} {one.missing.tool} {one.missing.how}" for one in answer.next)


def outcomes(answer: Answer) -> dict[str, str]:
    """Give the outcome of each check by its name."""
    return {check.name: check.outcome.value for check in answer.checks}
