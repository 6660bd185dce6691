"""Another way to do a job beside the job as written, for the terminal; nothing is worked out here."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest
from typing import Any

from firedeck.cli.printing import WIDE, wrapped
from firedeck.drawing.marks import STATE_MARKS

Plain = Mapping[str, Any]

COLUMN = (WIDE - 4) // 2
LONGEST_VALUE = 40


def announcement(ways: Sequence[Plain]) -> list[str]:
    """Say every way and how soon each of its changes is answered, before anything starts."""
    lines = []
    for way in ways:
        lines.append(f"What if: {way['way']}")
        for change in way["changes"]:
            there, then = (_value(change[key]) for key in ("as_written", "value"))
            lines += wrapped(f"{change['path']}: {there} → {then}: {change['answered']}", "  ", "    ")
    return lines


def _value(value: object) -> str:
    if value is None:
        return "nothing"
    text = " ".join(str(value).split())
    return text if len(text) <= LONGEST_VALUE else f"{text[: LONGEST_VALUE - 1]}…"


def one_way(found: Plain) -> Iterator[str]:
    """Set one way beside the job as written: the answers that change, then every ring."""
    yield f"== {found['way']} =="
    same = found["answers_the_same"]
    if not found["answers"]:
        yield f"No answer changes; {same} stay as they are."
    else:
        yield f"{'As written':<{COLUMN + 2}}Changed"
        for answer in found["answers"]:
            where = f", {answer['joint']}" if answer["joint"] and len(found["joints"]) > 1 else ""
            yield f"{answer['asks']}  [{answer['question']}{where}]"
            yield from _columns(_said(answer["as_written"]), _said(answer["changed"]))
        yield f"Answers that stay as they are: {same}"
    for joint in found["joints"]:
        yield ""
        yield from _rings(joint)


def _said(answer: Plain) -> list[str]:
    mark, choice = STATE_MARKS[answer["state"]], answer["choice"]
    action = (
        f" → {answer['action_words'].upper()}{f': {choice}' if choice else ''}" if answer["action"] else ""
    )
    return [*_narrow(f"{mark} {answer['headline']}"), *_narrow(f"  {answer['state_words']}{action}")]


def _narrow(text: str) -> list[str]:
    first = "  " if text.startswith("  ") else ""
    return wrapped(text.strip(), first, "  ", COLUMN)


def _columns(left: Sequence[str], right: Sequence[str]) -> Iterator[str]:
    for one, other in zip_longest(left, right, fillvalue=""):
        yield f"  {one:<{COLUMN}}{other}".rstrip()


def _rings(joint: Plain) -> Iterator[str]:
    if not joint["places"]:
        yield from wrapped(f"Rings of {joint['joint']}: {joint['says']}", "", "  ")
        return
    yield f"Rings of {joint['joint']}: lowest place, its own cylinder firing, N/mm ({joint['mesh']} bricks)"
    wide = max(len("side"), *(len(place["side"]) for place in joint["places"]))
    yield f"  {'No':<4}{'side':<{wide}}  factory  as written  changed  change  band"
    for place in joint["places"]:
        yield (
            f"  {place['bore']:<4}{place['side']:<{wide}}  {_load(place['as_built']):>7}  "
            f"{_load(place['as_written']):>10}  {_load(place['changed']):>7}  {place['change']:>+6.0f}  "
            f"{_band(place['band'])}"
        )
        if place["share_says"]:
            yield f"      of what standard has left {place['share_says']}: {place['rank']}"
    for text in (joint["mesh_says"], joint["says"]):
        if text:
            yield from wrapped(text, "  ", "  ")


def _load(load: float | None) -> str:
    return "–" if load is None else f"{load:.0f}"


def _band(band: Sequence[float] | None) -> str:
    return "–" if band is None else f"{band[0]:+.0f} to {band[1]:+.0f}"
