"""An assessment as plain data: what ``--json`` prints and all that terminal, page and paper are made of.

Core units everywhere, with the texts people read beside the numbers, so that a face calculates nothing.
"""

import math
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any, TypedDict

from firedeck.answers.answer import Answer, Next, State, Working
from firedeck.answers.questions import questions, stages
from firedeck.assess.assessment import Assessment
from firedeck.job import Job
from firedeck.quantity import Kind, Quantity, System, core_unit, show
from firedeck.terms import term
from firedeck.trace import Check, Limit, Missing, Outcome, Step, spoken

STATE_WORDS = {
    State.DECIDED: "decided",
    State.CLOSE: "too close to call",
    State.OPEN: "not yet: measure this",
    State.NOT_APPLICABLE: "does not apply here",
}
OUTCOME_WORDS = {
    Outcome.HOLDS: "holds",
    Outcome.AT_LIMIT: "at the limit",
    Outcome.FAILS: "fails",
    Outcome.CANNOT_TELL: "cannot tell yet",
}


class Shown(TypedDict):
    """One figure in words: in the family the job is written in, in millimetres, in inches."""

    as_typed: str
    mm: str
    inch: str


def plain(assessment: Assessment) -> dict[str, Any]:
    """Return the whole assessment as one object that JSON can hold."""
    job = assessment.job
    system = written_in(job)
    return {
        "format": job.document.format,
        "job": {
            "title": job.document.job.title,
            "date": job.document.job.date,
            "notes": job.document.job.notes,
            "mechanic": job.document.job.mechanic,
            "units": system,
            "doubts": [{"path": doubt.path, "text": doubt.text} for doubt in job.doubts],
        },
        "revision": job.revision,
        "joints": [joint.name for joint in job.joints],
        "findings": {
            scope: {name: plain_finding(found) for name, found in findings.items()}
            for scope, findings in assessment.findings.items()
        },
        "answers": [plain_answer(answer, system) for answer in assessment.answers],
    }


def written_in(job: Job) -> System:
    """Tell which family of units most lengths and torques of the job are typed in."""
    typed = [quantity.unit for _, quantity, _ in job.readings()]
    inches = sum(
        unit in ("in", "thou", "ft·lbf", "lbf·ft", "lbf·in", "psi", "µin", "°F", "cu in") for unit in typed
    )
    return "inch" if 2 * inches > len(typed) else "mm"


def plain_answer(answer: Answer, system: System) -> dict[str, Any]:
    """Return one answer; ``question`` comes first."""
    question = questions()[answer.question]
    return {
        "question": answer.question,
        "asks": question.asks,
        "stage": question.stage,
        "stage_words": stages()[question.stage],
        "joint": answer.joint,
        "cylinders": list(answer.cylinders),
        "state": answer.state.value,
        "state_words": STATE_WORDS[answer.state],
        "standing": standing(answer),
        "action": answer.action,
        "action_words": question.actions[answer.action] if answer.action else "",
        "choice": answer.choice,
        "headline": answer.headline,
        "locked": answer.locked,
        "checks": [_check(check, system) for check in answer.checks],
        "steps": [_working(working) for working in answer.steps],
        "work": [
            {"text": work.text, "figure": work.figure, "caution": work.caution, "source": spoken(work.source)}
            for work in answer.work
        ],
        "assumptions": list(answer.assumptions),
        "cautions": list(answer.cautions),
        "next": [_next(step) for step in answer.next],
        "anyway": answer.anyway,
        "sources": [spoken(source) for source in answer.sources],
        "source_keys": list(answer.sources),
        "notes": [{"text": note.text, "source": spoken(note.source)} for note in answer.notes],
        "reason": answer.reason,
    }


def standing(answer: Answer) -> str:
    """Tell how an answer stands: a failed check of what is decided outranks every state."""
    decided = answer.state in (State.DECIDED, State.CLOSE)
    if decided and any(check.outcome is Outcome.FAILS and check.counts for check in answer.checks):
        return "fails"
    return {State.CLOSE: "close", State.DECIDED: "settled", State.OPEN: "open"}.get(
        answer.state, "not-applicable"
    )


def shown(value: float | None, kind: Kind, system: System) -> Shown | None:
    """Return a core number in words, for each family of units."""
    if value is None:
        return None
    mm, inch = show(value, kind, "mm"), show(value, kind, "inch")
    return {"as_typed": mm if system == "mm" else inch, "mm": mm, "inch": inch}


def _check(check: Check, system: System) -> dict[str, Any]:
    about = term(check.quantity)
    band = check.band
    return {
        "name": check.name,
        "quantity": check.quantity,
        "label": about.label,
        "value": check.value,
        "unit": core_unit(about.kind),
        "shown": shown(check.value, about.kind, system),
        "text": check.text,
        "limit": _limit(check.limit, system) if check.limit else None,
        "margin": check.margin,
        "margin_shown": shown(check.margin, about.kind, system),
        "band": {"low": band.low, "high": band.high, "share": band.share, "why": band.why} if band else None,
        "band_shown": [shown(band.low, about.kind, system), shown(band.high, about.kind, system)]
        if band
        else None,
        "outcome": check.outcome.value,
        "outcome_words": OUTCOME_WORDS[check.outcome],
        "counts": check.counts,
        "rivals": [
            {
                **_limit(rival.limit, system),
                "outcome": rival.outcome.value,
                "outcome_words": OUTCOME_WORDS[rival.outcome],
            }
            for rival in check.rivals
        ],
    }


def _limit(limit: Limit, system: System) -> dict[str, Any]:
    kind = term(limit.quantity).kind
    return {
        "low": limit.low,
        "high": limit.high,
        "text": limit.text,
        "low_shown": shown(limit.low, kind, system),
        "high_shown": shown(limit.high, kind, system),
        "measure": limit.measure.value,
        "rank": limit.rank.value,
        "source": spoken(limit.source),
        "where": limit.where,
    }


def _working(working: Working) -> dict[str, Any]:
    return {"check": working.check, **plain_step(working.step)}


def plain_step(step: Step) -> dict[str, Any]:
    """Return a written sum, its figures with six significant digits."""
    return {
        "says": step.says,
        "formula": step.formula,
        "inputs": {name: [six(number), unit] for name, (number, unit) in step.inputs.items()},
        "result": {name: [six(number), unit] for name, (number, unit) in step.result.items()},
        "source": spoken(step.source),
    }


def six(number: float) -> float:
    """Round to six significant digits."""
    return float(f"{number:.6g}") if math.isfinite(number) else number


def _next(step: Next) -> dict[str, Any]:
    missing = step.missing
    return {
        "measure": missing.measure,
        "tool": missing.tool,
        "how": missing.how,
        "paths": list(missing.paths),
        "worth": step.worth,
    }


def plain_finding(found: object) -> Any:
    """Return a finding, or what is missing for it, as plain data."""
    if isinstance(found, Missing):
        return {"missing": _fields(found)}
    return _plain(found)


def _fields(thing: Any) -> dict[str, Any]:
    return {field.name: _plain(getattr(thing, field.name)) for field in fields(thing)}


def _plain(value: object) -> Any:
    if isinstance(value, Step):
        return plain_step(value)
    if isinstance(value, Quantity):
        return {"text": value.text, "value": value.value}
    if isinstance(value, Enum):
        return value.value
    if is_dataclass(value) and not isinstance(value, type):
        return _fields(value)
    if isinstance(value, Mapping):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, str | bool | int | None):
        return value
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if hasattr(value, "tolist"):
        return _plain(value.tolist())
    if isinstance(value, set | frozenset):
        return sorted((_plain(item) for item in value), key=str)
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    return str(value)
