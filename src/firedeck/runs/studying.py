"""The study of a joint: from what is kept, or worked out and kept.

A finished study is kept as text under a key of everything that went in and of the source that worked it out, with a
checksum. A torn, altered or old file is never used. What comes from the cache is word for word what was worked out.
"""

import hashlib
import json
import threading
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from firedeck.joint.engine import Engine, Given
from firedeck.joint.studied import About, studied
from firedeck.joint.study import JointStudy
from firedeck.runs.cache import Cache, cache_folder
from firedeck.runs.castings import Castings, all_wanted
from firedeck.runs.condensing import Stopped, Told, bodies
from firedeck.runs.plain_results import as_plain, from_plain

FORMAT = 1
STUDYING = "pressing every ring"
"""How the study itself is spoken of while it is worked out."""
MAKERS = ("fem", "joint", "runs", "trace", "fasteners")
"""Rooms whose source is part of the key of a kept study."""


@dataclass(frozen=True)
class EngineRequest:
    """One engine to study: its castings and everything else of it."""

    castings: Castings
    given: Given


@dataclass(frozen=True)
class StudyRequest:
    """A joint to study, and the same as it left the factory; the same object where nothing of the model differs."""

    about: About
    now: EngineRequest
    as_built: EngineRequest | None

    @property
    def engines(self) -> tuple[EngineRequest, ...]:
        """One or two engines."""
        return (self.now,) if self.as_built is None else (self.now, self.as_built)

    @property
    def key(self) -> str:
        """Name under which the study is kept."""
        text = json.dumps([FORMAT, as_plain(self), maker_hash()], sort_keys=True, allow_nan=False)
        return hashlib.sha256(text.encode()).hexdigest()[:40]


def kept_study(request: StudyRequest, cache: Cache | None = None) -> JointStudy | None:
    """Return the study if it lies ready, and sound."""
    return _read(cache or Cache(cache_folder()), request.key)


def condensed_already(request: StudyRequest, cache: Cache | None = None) -> bool:
    """Tell whether every body it needs lies ready, so that it takes seconds at most."""
    return not still_to_condense(request, cache)


def still_to_condense(request: StudyRequest, cache: Cache | None = None) -> frozenset[str]:
    """Return the keys of the bodies it needs that do not lie ready; none where the study itself does."""
    kept = cache or Cache(cache_folder())
    if kept.text(request.key).is_file():
        return frozenset()
    wanted = all_wanted([one.castings for one in request.engines])
    return frozenset(one.key for one in wanted if not kept.file(one.key).is_file())


def study(
    request: StudyRequest,
    cache: Cache | None = None,
    told: Told | None = None,
    stop: threading.Event | None = None,
) -> JointStudy:
    """Take the study from the cache, or condense what is lacking, work it out and keep it.

    ``told`` hears how far each body is, then the study; setting ``stop`` ends either with :class:`Stopped`. Two
    processes that want the same study do it once.
    """
    kept = cache or Cache(cache_folder())
    key = request.key
    found = _read(kept, key)
    if found is not None:
        return found

    def stopped() -> None:
        if stop is not None and stop.is_set():
            raise Stopped("the study of the joint was ended before it was done")

    with kept.writing(f"study-{key}", stopped):
        found = _read(kept, key)
        if found is None:
            kept.write_text(key, _text(key, _worked_out(request, kept, told, stop, stopped)))
            found = _read(kept, key)
    if found is None:
        raise Stopped("the study of the joint could not be kept: is the folder of the cache full?")
    return found


def _worked_out(
    request: StudyRequest,
    kept: Cache,
    told: Told | None,
    stop: threading.Event | None,
    stopped: Callable[[], None],
) -> JointStudy:
    wanted = all_wanted([one.castings for one in request.engines])
    by_key = dict(zip((one.key for one in wanted), bodies(wanted, kept, told, stop), strict=True))

    def engine(one: EngineRequest) -> Engine:
        named = {name: by_key[body.key] for name, body in one.castings.wanted().items()}
        return one.castings.engine(named, one.given)

    now = engine(request.now)
    then = None
    if request.as_built is not None:
        same = as_plain(request.as_built) == as_plain(request.now)
        then = now if same else engine(request.as_built)

    def heard(share: float) -> None:
        stopped()
        if told is not None:
            told(STUDYING, share)

    heard(0.0)
    found = studied(request.about, now, then, heard)
    heard(1.0)
    return found


def _read(kept: Cache, key: str) -> JointStudy | None:
    """Read a kept study; take away what is not sound."""
    text = kept.read_text(key)
    if text is None:
        return None
    try:
        whole = json.loads(text)
        sound = whole["key"] == key and whole["check"] == _check(key, whole["study"])
        found: JointStudy | None = from_plain(JointStudy, json.loads(whole["study"])) if sound else None
    except (ValueError, KeyError, TypeError, AttributeError):
        found = None
    if found is None:
        with suppress(OSError):
            kept.text(key).unlink()
    return found


def _text(key: str, found: JointStudy) -> str:
    plain = json.dumps(as_plain(found), allow_nan=False, ensure_ascii=False)
    return json.dumps({"key": key, "check": _check(key, plain), "study": plain}, ensure_ascii=False)


def _check(key: str, text: str) -> str:
    return hashlib.sha256(f"{key}\0{text}".encode()).hexdigest()


@cache
def maker_hash() -> str:
    """Hash of the source that works a study out: another version finds nothing of this one in the cache."""
    whole = hashlib.sha256()
    for room in MAKERS:
        for name, text in sorted(_sources(files("firedeck") / room)):
            whole.update(f"{room}/{name}\0".encode() + text + b"\0")
    return whole.hexdigest()[:16]


def _sources(folder: Traversable) -> list[tuple[str, bytes]]:
    found = []
    for one in folder.iterdir():
        if one.is_dir() and one.name != "__pycache__":
            found += [(f"{one.name}/{name}", text) for name, text in _sources(one)]
        elif one.name.endswith(".py"):
            found.append((one.name, one.read_bytes()))
    return found
