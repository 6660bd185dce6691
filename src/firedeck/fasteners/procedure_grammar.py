"""What one part of a procedure says: its words on the front, then one of a few forms."""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from firedeck.errors import BadQuantity
from firedeck.fasteners.procedure_lines import Act, Lubrication, Place, Setting
from firedeck.fasteners.procedure_settings import read_setting
from firedeck.quantity import Kind

ALLOWED = (
    "a step is TORQUE, +ANGLE, loosen ANGLE or loosen fully, repeat from step N, wait TIME, run COND, "
    "after DISTANCE or TIME cold|hot, check at least TORQUE, oiled, dry or sealer"
)
MOST_TURN = 2 * math.tau


@dataclass(frozen=True)
class Front:
    """What stands before a step: its sequence (0: as before), its re-torque, cold or hot, one fastener at a time."""

    sequence: int = 0
    after: tuple[Setting, ...] = ()
    heat: str = ""
    again: bool = False
    singly: bool = False


@dataclass(frozen=True)
class Says:
    """One thing a part says; ``act`` None is a lubricant, a total or a limit of the turns."""

    act: Act | None = None
    setting: Setting | None = None
    condition: str = ""
    first: int = 0
    last: int = 0
    total: Setting | None = None
    at_most: Setting | None = None
    lubricant: tuple[Lubrication, Place] | None = None
    text: str = ""


@dataclass(frozen=True)
class Reading:
    """A part read: its front and what it says; nothing when the front waits for the next part."""

    front: Front
    says: tuple[Says, ...] = field(default_factory=tuple)


_I = re.IGNORECASE
_ORDINALS = {"first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4}
_SEQUENCE = re.compile(
    rf"^(?:(?:in\s+)?(?:the\s+)?({'|'.join(_ORDINALS)})\s+sequence|sequence\s+([1-9]))\b\s*:?\s*", _I
)
_COUNT = r"(?:\d+(?:[.,]\d+)?|an?|one|two|three|four|five|six|ten)"
_INTERVAL = rf"{_COUNT}\s*[a-z]+"
_AFTER = re.compile(
    rf"^(?P<again>re-?torque\s+|re-?tighten\s+|again\s+)?after\s+(?P<all>{_INTERVAL}(?:\s+or\s+{_INTERVAL})*)"
    r"(?:\s+(?:of\s+)?(?:running|service|use|work))?(?=[\s:]|$)\s*:?\s*",
    _I,
)
_HEAT = re.compile(r"^(?:with\s+)?(?:the\s+)?(?:engine\s+)?(cold|hot|warm)(?=[\s:]|$)\s*:?\s*", _I)
_RETORQUE = re.compile(r"^(?:re-?torque|re-?tighten)\s*:?\s*(?=(?:after|cold|hot|warm)\b|$)", _I)
_ONE = r"(?:one\s+(?:\w+\s+)?at\s+a\s+time|one\s+by\s+one|each\s+in\s+turn|bolt\s+by\s+bolt|singly)"
_SINGLY = re.compile(rf"^{_ONE}(?=[\s:,]|$)\s*[:,]?\s*", _I)
_SINGLY_LAST = re.compile(rf"\s+{_ONE}$", _I)
_HEAT_LAST = re.compile(r"\s+(cold|hot|warm)$", _I)
_THEN = re.compile(r"^(?:and\s+)?(?:then|first(?!\s+sequence)|next|finally|lastly)\s+", _I)


def read_part(text: str) -> Reading:
    """Read one part.

    Parameters
    ----------
    text : str
        Such as ``after 1000 km cold +30°`` [text].

    Returns
    -------
    Reading
        Its front and what it says [core].

    Raises
    ------
    BadQuantity
        If it is none of the allowed forms.

    Source
    ------
    [generic-ours] the grammar of a procedure.

    Examples
    --------
    >>> [says.act.value for says in read_part("30 N·m +90° +90°").says]
    ['torque', 'turn', 'turn']
    """
    front, rest = _front(text)
    if not rest:
        return Reading(front)
    lubricant, rest = _lubricant(rest)
    said = [lubricant] if lubricant else []
    if not rest:
        return Reading(front, tuple(said))
    for form in _FORMS:
        if found := form(rest):
            return Reading(front, (*said, *found))
    if match := _HEAT_LAST.search(rest):
        front, rest = replace(front, heat=_heat(match[1])), rest[: match.start()]
    return Reading(front, (*said, *_tightening(rest)))


def _front(text: str) -> tuple[Front, str]:
    """Take the words before the step off, in whatever order they stand."""
    front, rest, before = Front(), text, None
    while rest != before:
        before = rest
        if match := _THEN.match(rest):
            rest = rest[match.end() :]
        if match := _SEQUENCE.match(rest):
            number = int(match[2]) if match[2] else _ORDINALS[match[1].lower()]
            front, rest = replace(front, sequence=number), rest[match.end() :]
        if match := _AFTER.match(rest):
            after = tuple(_interval(one) for one in re.split(r"\s+or\s+", match["all"]))
            front = replace(front, after=after, again=front.again or bool(match["again"]))
            rest = rest[match.end() :]
        if match := _HEAT.match(rest):
            front, rest = replace(front, heat=_heat(match[1])), rest[match.end() :]
        if match := _RETORQUE.match(rest):
            front, rest = replace(front, again=True), rest[match.end() :]
        if match := _SINGLY.match(rest) or _SINGLY_LAST.search(rest):
            front, rest = replace(front, singly=True), rest[: match.start()] + rest[match.end() :]
    return front, rest


def _heat(word: str) -> str:
    return "cold" if word.lower() == "cold" else "hot"


def _interval(text: str) -> Setting:
    """A distance or a time of use."""
    try:
        return read_setting(text, Kind.DISTANCE)
    except BadQuantity:
        try:
            return read_setting(text, Kind.TIME)
        except BadQuantity as fault:
            raise BadQuantity(text, "after DISTANCE or TIME, such as after 1000 km or after 50 h") from fault


_LUBRICANTS = {
    "oiled": Lubrication.OILED,
    "oil": Lubrication.OILED,
    "dry": Lubrication.DRY,
    "sealer": Lubrication.SEALER,
    "sealed": Lubrication.SEALER,
    "sealant": Lubrication.SEALER,
    "moly": Lubrication.MOLY,
    "molybdenum": Lubrication.MOLY,
    "coated": Lubrication.COATED,
    "maker-coated": Lubrication.COATED,
}
_THREADS = ("thread", "threads")
_UNDER = ("head", "heads", "underhead", "underheads", "washer", "washers", "seat", "seats", "nut", "nuts")
_FILL: tuple[str, ...] = (
    "and",
    "the",
    "under",
    "on",
    "with",
    "in",
    "lightly",
    "light",
    "clean",
    "engine",
    "paste",
)
_FILL += ("all", "of", "faces", "both", "as", "supplied")


def _lubricant(text: str) -> tuple[Says | None, str]:
    """A lubricant at the front or at the end of a part, and what is left."""
    words = text.split()
    plain = [word.lower().strip(",:.") for word in words]
    known = [word in _LUBRICANTS or word in (*_THREADS, *_UNDER, *_FILL) for word in plain]
    run = next((at for at, good in enumerate(known) if not good), len(words))
    if any(word in _LUBRICANTS for word in plain[:run]):
        return _lubrication(plain[:run], text), " ".join(words[run:])
    back = next((at for at, good in enumerate(reversed(known)) if not good), len(words))
    start = len(words) - back
    if back and plain[0] not in ("wait", "run") and any(word in _LUBRICANTS for word in plain[start:]):
        return _lubrication(plain[start:], text), " ".join(words[:start])
    return None, text


def _lubrication(words: list[str], text: str) -> Says:
    kinds = {_LUBRICANTS[word] for word in words if word in _LUBRICANTS}
    if len(kinds) > 1:
        raise BadQuantity(text, "one lubricant to a part, such as threads sealer, heads oiled")
    threads, under = any(word in _THREADS for word in words), any(word in _UNDER for word in words)
    place = Place.BOTH if threads == under else Place.THREADS if threads else Place.HEADS
    (kind,) = kinds
    return Says(lubricant=(kind, place), text=" ".join(words))


_LOOSEN = re.compile(
    r"^(?:loosen|slacken|back\s+off|slack\s+off|undo|release)(?:\s+(?:all|them))?\b\s*(.*)$", _I
)
_FULLY = re.compile(
    r"^(?:fully|completely|off|right off|(?:to\s+)?(?:0|zero|nought)(?:\s*\((?:zero|0)\))?)$", _I
)
_REPEAT = re.compile(
    r"^(?:repeat|do\s+again)\s+(?P<from>from\s+)?(?:steps?|stages?)\s+(?P<first>\d{1,3})"
    r"(?:\s*(?:to|-|–|and|through)\s*(?P<last>\d{1,3}))?(?:\s+onwards?)?$",
    _I,
)
_WAIT = re.compile(r"^(?:wait|rest|leave|let\s+settle)(?:\s+for)?\s+(.+)$|^(let\s+(?:it\s+)?cool.*)$", _I)
_RUN = re.compile(r"^(?:run(?:\s+the\s+engine)*|warm\s+up)(?:\s+(.+))?$", _I)
_FLOOR = re.compile(
    r"^(?:(?:check\s+(?:that\s+it\s+is\s+|for\s+)?)?(?:at\s+least|not\s+(?:below|under|less\s+than))|floor|minimum|check)"
    r"\s+(.+?)(?:\s+(?:after|past)\s+the\s+(?:last\s+)?turn)?$",
    _I,
)
_TOTAL = re.compile(r"^(?:=|total|in\s+all|sum)\s*:?\s*(.+?)(?:\s+in\s+(?:all|total))?$", _I)
_AT_MOST = re.compile(
    r"^(?:at\s+most|not\s+(?:over|above|more\s+than)|no\s+more\s+than)\s+(.+?)(?:\s+in\s+(?:all|total))?$",
    _I,
)
_HAND = re.compile(r"^(?:(?:screw\s+in\s+|run\s+down\s+)?(?:finger|hand)[\s-]+tight(?:en)?|snug)$", _I)


def _loosen(text: str) -> tuple[Says, ...]:
    match = _LOOSEN.match(text)
    if match is None:
        return ()
    how = match[1].removeprefix("by ").strip()
    if _FULLY.match(how):
        return (Says(Act.LOOSEN),)
    if not how:
        raise BadQuantity(text, "say how far: loosen fully, or loosen ANGLE such as loosen 180° or one turn")
    return (Says(Act.LOOSEN, read_setting(how, Kind.ANGLE)),)


def _repeat(text: str) -> tuple[Says, ...]:
    if match := _REPEAT.match(text):
        first = int(match["first"])
        last = int(match["last"]) if match["last"] else 0 if match["from"] else first
        return (Says(Act.REPEAT, first=first, last=last),)
    if text.lower().startswith(("repeat", "do again")):
        raise BadQuantity(text, "repeat from step N, repeat step N, or repeat steps N to M")
    return ()


def _wait(text: str) -> tuple[Says, ...]:
    match = _WAIT.match(text)
    if match is None:
        return ()
    if match[2] or match[1].lower().startswith("until"):
        return (Says(Act.WAIT, condition=match[1] or "until cold"),)
    return (Says(Act.WAIT, read_setting(match[1], Kind.TIME)),)


def _run(text: str) -> tuple[Says, ...]:
    match = _RUN.match(text)
    if match is None:
        return ()
    condition = match[1] or ("until warm" if text.lower().startswith("warm") else "")
    if not condition:
        raise BadQuantity(text, "say how long or until what: run 15 min, run to working heat")
    return (Says(Act.RUN, condition=condition),)


def _bounds(text: str) -> tuple[Says, ...]:
    if match := _FLOOR.match(text):
        return (Says(Act.FLOOR, read_setting(match[1], Kind.TORQUE)),)
    if match := _AT_MOST.match(text):
        return (Says(at_most=read_setting(match[1], Kind.ANGLE)),)
    if match := _TOTAL.match(text):
        return (Says(total=read_setting(match[1], Kind.ANGLE)),)
    return ()


def _by_hand(text: str) -> tuple[Says, ...]:
    return (Says(Act.HAND),) if _HAND.match(text) else ()


_FORMS: tuple[Callable[[str], tuple[Says, ...]], ...] = (_loosen, _repeat, _wait, _run, _bounds, _by_hand)

_LEAD = re.compile(
    r"^(?:re-?torque|torque|re-?tighten|tighten|set|bring|pull|advance|preload|increase|recheck|raise)\b"
    r"(?:\s+(?:all|each|them|down|up|again))*(?:\s+to)?\s*:?\s*|^to\s+",
    _I,
)
_TURN_LEAD = re.compile(
    r"^(?:(?:turn|tighten|rotate|angle)\s+)?(?:(?:by|through|all|each|again)\s+)*(?:an?\s+)?"
    r"(?:(?:further|additional|another|extra|more)\s+)?",
    _I,
)
_TIMES = re.compile(r"^(?P<count>[2-6]|two|three|four)\s*(?:[x×*]|times)\s*(?P<one>\S.*)$", _I)
_CLOSE_COMMA = re.compile(r",[^\d\s]|[^\d\s],\S")
_MANY = {"two": 2, "three": 3, "four": 4}
_ANGULAR = re.compile(r"°|º|\bdeg|\bturns?\b|\drad\b|\brad\b|revolution", _I)


def _tightening(text: str) -> tuple[Says, ...]:
    """``TORQUE``, ``+ANGLE``, or one with any number of the others behind it, and ``= TOTAL``."""
    if ":" in text:
        raise BadQuantity(text, "a group such as long: begins a line or stands behind a semicolon")
    if _CLOSE_COMMA.search(text):
        raise BadQuantity(text, "a comma parts two steps only with a blank behind it")
    body, equals, total = text.replace("+/-", "±").replace("+-", "±").partition("=")
    chunks = [chunk.strip() for chunk in re.split(r"\+|\bplus\b", body, flags=_I)]
    said: list[Says] = []
    if chunks[0]:
        said += _turns(chunks[0]) if _ANGULAR.search(chunks[0]) else [_torque(chunks[0], text)]
    for chunk in chunks[1:]:
        said += _turns(chunk)
    if equals:
        said.append(Says(total=read_setting(total.removesuffix("in all").strip(), Kind.ANGLE)))
    return tuple(said)


def _torque(chunk: str, text: str) -> Says:
    figure = _LEAD.sub("", chunk)
    if not re.search(r"\d", figure):
        raise BadQuantity(text, ALLOWED)
    return Says(Act.TORQUE, read_setting(figure, Kind.TORQUE))


def _turns(chunk: str) -> list[Says]:
    match = _TIMES.match(chunk)
    count = (_MANY.get(match["count"].lower()) or int(match["count"])) if match else 1
    figure = match["one"] if match else chunk
    try:
        setting = read_setting(figure, Kind.ANGLE)
    except BadQuantity:
        setting = read_setting(_TURN_LEAD.sub("", figure) or figure, Kind.ANGLE)
    if setting.high > MOST_TURN:
        raise BadQuantity(chunk, "a tightening turn of at most two turns")
    return [Says(Act.TURN, setting)] * count
