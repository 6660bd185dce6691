"""Answers as text for the terminal: the worst on top, a state as a word and a mark of our own.

Everything printed stands in the plain object of an assessment; nothing is worked out here.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from firedeck.cli.printing import quoted, wrapped
from firedeck.drawing.marks import OUTCOME_MARKS, STATE_MARKS

Plain = Mapping[str, Any]

BLOCKS = ("Fails its limit", "Too close to call", "Settled", "Not yet: measure this", "Does not apply here")


def overview(job: Plain, file: str, units: str) -> str:
    """Return every answer of a job in short, the worst first."""
    lines = [job["job"]["title"], _counted(job["answers"])]
    answers: Sequence[Plain] = job["answers"]
    many = len(job["joints"]) > 1
    for place, block in enumerate(BLOCKS):
        inside = [answer for answer in answers if _block(answer) == place]
        if inside:
            lines += ["", block]
            lines += [line for answer in inside for line in _short(answer, units, many)]
    lines += list(_doubts(job["job"]["doubts"]))
    lines += [
        "",
        f"One answer in full: firedeck explain {quoted(file)} QUESTION   (its name stands in brackets)",
    ]
    return "\n".join(lines)


def _counted(answers: Sequence[Plain]) -> str:
    counts = {block: sum(_block(answer) == place for answer in answers) for place, block in enumerate(BLOCKS)}
    return ", ".join(f"{block[0].lower()}{block[1:]}: {count}" for block, count in counts.items() if count)


def _block(answer: Plain) -> int:
    """Tell in which block an answer stands."""
    return ("fails", "close", "settled", "open", "not-applicable").index(answer["standing"])


def _short(answer: Plain, units: str, many: bool) -> Iterator[str]:
    mark = STATE_MARKS[answer["state"]]
    where = f", {answer['joint']}" if many and answer["joint"] else ""
    if answer["state"] == "not-applicable":
        said = f"{mark} {answer['asks']} [{answer['question']}{where}] {answer['reason']}"
        yield from wrapped(said, "  ", "    ")
        return
    action = f"  → {answer['action_words'].upper()}{named(answer)}" if answer["action"] else ""
    yield from wrapped(f"{mark} {answer['headline']}{action}", "  ", "    ")
    yield f"      {answer['asks']} {answer['state_words']} [{answer['question']}{where}]"
    if answer["checks"]:
        yield from _wrapped(check_line(answer["checks"][0], units), "      ")
    for step in answer["next"][:1] if answer["state"] in ("open", "close") else ():
        yield from _wrapped(f"measure: {step['measure']}, with {step['tool']}", "      ")


def named(answer: Plain) -> str:
    """Return what was chosen, when the action chooses something."""
    return f": {answer['choice']}" if answer["choice"] else ""


def check_line(check: Plain, units: str) -> str:
    """Return a check on one line: mark, how it came out, name, value, limit and who says so."""
    parts = [check["text"] or in_units(check["shown"], units)]
    if check["limit"]:
        parts.append(f"limit {limit_of(check['limit'], units)} ({check['limit']['source']})")
    said = f"{OUTCOME_MARKS[check['outcome']]} {check['outcome_words']} · {check['name']}"
    return " · ".join([said, *(part for part in parts if part)])


def limit_of(limit: Plain, units: str) -> str:
    """Return both ends of a limit, as far as it has them."""
    low, high = in_units(limit["low_shown"], units), in_units(limit["high_shown"], units)
    if low and high:
        return f"{low} to {high}"
    return f"at most {high}" if high else f"at least {low}"


def in_units(shown: Plain | None, units: str) -> str:
    """Return a figure in the units asked for, or nothing."""
    return str(shown[units.replace("-", "_")]) if shown else ""


def _doubts(doubts: Iterable[Plain]) -> Iterator[str]:
    for place, doubt in enumerate(doubts):
        if place == 0:
            yield from ("", "Look at these readings again")
        yield from _wrapped(f"? {doubt['path']}: {doubt['text']}", "  ")


def _wrapped(text: str, indent: str) -> list[str]:
    return wrapped(text, indent, indent + "  ")
