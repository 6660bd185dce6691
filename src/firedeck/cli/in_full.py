"""One answer in full: what to do, the checks, the sums with their figures, rivals, sources, what next."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from firedeck.cli.printing import wrapped
from firedeck.cli.terminal import check_line, in_units, limit_of, named
from firedeck.drawing.marks import OUTCOME_MARKS, STATE_MARKS

Plain = Mapping[str, Any]


def in_full(answer: Plain, units: str) -> str:
    """Return one answer with everything it rests on."""
    lines = [*_head(answer)]
    for title, block in (
        ("Checks", _checks(answer["checks"], units)),
        ("To do", _work(answer["work"])),
        ("Mind", _plain_lines(answer["cautions"])),
        ("Measure next", _next(answer["next"])),
        ("If it is done anyway", _plain_lines([answer["anyway"]] if answer["anyway"] else [])),
        ("The sums", sums_written_out(answer["steps"])),
        ("Taken as given", _plain_lines(answer["assumptions"])),
        ("Notes", _plain_lines(f"{note['text']} ({note['source']})" for note in answer["notes"])),
        ("Sources", _plain_lines(answer["sources"])),
    ):
        inside = list(block)
        if inside:
            lines += ["", title, *inside]
    return "\n".join(lines)


def _head(answer: Plain) -> Iterator[str]:
    about = [answer["stage_words"], answer["joint"] and f"head: {answer['joint']}"]
    if answer["cylinders"]:
        about.append(f"cylinders {', '.join(answer['cylinders'])}")
    yield f"{answer['asks']}  ({'; '.join(part for part in about if part)})"
    yield f"{STATE_MARKS[answer['state']]} {answer['headline']}"
    if answer["action"]:
        yield f"→ {answer['action_words'].upper()}{named(answer)}  ({answer['state_words']})"
    else:
        yield f"→ {answer['state_words']}"
    if answer.get("locked"):
        yield from wrapped(f"Locked: {answer['locked']}", "  ", "  ")
    if answer["reason"]:
        yield from wrapped(answer["reason"], "  ", "  ")


def _checks(checks: Iterable[Plain], units: str) -> Iterator[str]:
    for check in checks:
        yield from wrapped(check_line(check, units), "  ", "      ")
        if check["band_shown"]:
            low, high = (in_units(end, units) for end in check["band_shown"])
            why = f": {check['band']['why']}" if check["band"]["why"] else ""
            yield from wrapped(f"what the readings allow: {low} to {high}{why}", "      ", "        ")
        if check["margin_shown"] and check["outcome"] != "at-limit":
            yield f"      room left: {in_units(check['margin_shown'], units)}"
        for rival in check["rivals"]:
            said = f"{limit_of(rival, units)} ({rival['source']}), would say: {rival['outcome_words']}"
            yield from wrapped(
                f"{OUTCOME_MARKS[rival['outcome']]} another limit, {said}", "      ", "          "
            )


def _work(work: Iterable[Plain]) -> Iterator[str]:
    for place, line in enumerate(work, start=1):
        figure = f": {line['figure']}" if line["figure"] else ""
        source = f" ({line['source']})" if line["source"] else ""
        yield from wrapped(f"{place}. {line['text']}{figure}{source}", "  ", "     ")
        if line["caution"]:
            yield from wrapped(f"mind: {line['caution']}", "     ", "       ")


def _next(steps: Iterable[Plain]) -> Iterator[str]:
    for step in steps:
        yield from wrapped(f"- {step['measure']}, with {step['tool']}", "  ", "    ")
        yield from wrapped(step["how"], "    ", "    ")
        if step["worth"] is not None:
            yield f"    worth: takes away {step['worth']:.0%} of what the readings leave open"
        if step["paths"]:
            yield from wrapped(f"goes in: {', '.join(step['paths'])}", "    ", "      ")


def sums_written_out(steps: Iterable[Plain]) -> Iterator[str]:
    """Write every sum out: which check it is for, the formula, each figure with its unit, what comes out."""
    before = ""
    for step in steps:
        if step.get("check", "") != before:
            before = step["check"]
            yield from wrapped(f"For {before}", "  ", "    ")
        yield from wrapped(f"{step['says']} ({step['source']})", "  ", "    ")
        ((name, (number, unit)),) = step["result"].items()
        yield from wrapped(f"{name} = {step['formula']}", "    ", "      ")
        given = ", ".join(f"{key} = {_figure(*figure)}" for key, figure in step["inputs"].items())
        if given:
            yield from wrapped(f"with {given}", "    ", "      ")
        yield f"    {name} = {_figure(number, unit)}"


def _figure(number: float, unit: str) -> str:
    return f"{number:.6g}" if unit in ("1", "") else f"{number:.6g} {unit}"


def _plain_lines(texts: Iterable[str]) -> Iterator[str]:
    for text in texts:
        yield from wrapped(f"- {text}", "  ", "    ")
