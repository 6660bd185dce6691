"""Heads and blocks, each from the cache or from a child process of one thread."""

import json
import os
import pickle
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path

import firedeck
from firedeck import errors
from firedeck.errors import FiredeckError
from firedeck.joint.geometry.condensed import CondensedBody, Flexibility, put_together
from firedeck.runs.cache import Cache, cache_folder, read_body
from firedeck.runs.child import FAULT
from firedeck.runs.request import PARTS, JointRequest, Part

ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS", "VECLIB_MAXIMUM_THREADS")
AT_ONCE = 2
"""Bodies condensed side by side: more would fight for memory."""
LOOK = 0.03
"""How often children are looked at [s]."""
Told = Callable[[str, float], None]
"""Told the part and the share of it that is done."""


class Stopped(FiredeckError):
    """The work was ended on demand before it was done."""


@dataclass(frozen=True)
class Wanted:
    """One body to condense, and how it is spoken of while it is."""

    request: JointRequest
    part: Part
    says: str = ""

    @property
    def key(self) -> str:
        """Name under which it is kept."""
        return self.request.key(self.part)


def flexibility(
    request: JointRequest,
    cache: Cache | None = None,
    told: Told | None = None,
    stop: threading.Event | None = None,
) -> Flexibility:
    """Condense head and block, or take them from the cache, and put them together.

    ``told`` hears how far each is; setting ``stop`` ends the children and raises :class:`Stopped`. Faults of the
    geometry are raised as they were named in the child.
    """
    head, block = bodies([Wanted(request, part, part) for part in PARTS], cache, told, stop)
    return put_together(request.plan, request.points(), head, block)


def bodies(
    wanted: Sequence[Wanted],
    cache: Cache | None = None,
    told: Told | None = None,
    stop: threading.Event | None = None,
) -> tuple[CondensedBody, ...]:
    """Condense bodies, two at a time in the order given, or take them from the cache; in the order they were asked for.

    Two processes that want the same body do it once: the other waits.
    """
    kept = cache or Cache(cache_folder())
    tell = told or (lambda _part, _share: None)

    def stopped() -> None:
        if stop is not None and stop.is_set():
            raise Stopped("condensing was ended before it was done")

    asked = {one.key: one for one in wanted}
    found = {key: body for key in asked if (body := kept.read(key)) is not None}
    with ExitStack() as held:
        for key in sorted(asked.keys() - found.keys()):  # in one order, so that no two wait for each other
            held.enter_context(kept.writing(key, stopped))
            body = kept.read(key)
            if body is not None:
                found[key] = body
        lacking = [one for key, one in asked.items() if key not in found]
        for one, body in _condensed(lacking, tell, stopped) if lacking else ():
            kept.write(one.key, body)
            found[one.key] = body
    for one in asked.values():
        tell(one.says, 1.0)
    return tuple(found[one.key] for one in wanted)


def _condensed(
    lacking: list[Wanted], tell: Told, stopped: Callable[[], None]
) -> Iterator[tuple[Wanted, CondensedBody]]:
    with tempfile.TemporaryDirectory(prefix="firedeck-") as folder:
        waiting, children = list(lacking), list[_Child]()
        try:
            while waiting or children:
                while waiting and len(children) < AT_ONCE:
                    one = waiting.pop(0)
                    children.append(_Child(one, Path(folder) / f"{one.key}.npz"))
                stopped()
                for child in [child for child in children if not child.running()]:
                    body = child.result()
                    child.end()
                    children.remove(child)
                    yield child.wanted, body
                for child in children:
                    tell(child.wanted.says, child.share)
                time.sleep(LOOK)
        finally:
            for child in children:
                child.end()


@dataclass
class _Child:
    """One process that condenses one body."""

    wanted: Wanted
    file: Path
    share: float = 0.0
    said: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.key = self.wanted.key
        command = [sys.executable, "-m", "firedeck.runs.child", self.key, self.wanted.part, str(self.file)]
        pipe = subprocess.PIPE
        self.process = subprocess.Popen(
            command, stdin=pipe, stdout=pipe, stderr=pipe, env=_environment(), text=False
        )
        self.listeners = [threading.Thread(target=one, daemon=True) for one in (self._speak, self._listen)]
        for listener in self.listeners:
            listener.start()

    def _speak(self) -> None:
        """Hand the request over; a child that is gone says so by its exit code."""
        assert self.process.stdin is not None
        try:
            self.process.stdin.write(pickle.dumps(self.wanted.request))
            self.process.stdin.close()
        except OSError:
            pass

    def _listen(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            word, _, rest = line.decode().partition(" ")
            if word == "share":
                self.share = max(self.share, min(0.99, float(rest)))
            else:
                self.said.append(line.decode())

    def running(self) -> bool:
        """Whether it still works."""
        return self.process.poll() is None

    def result(self) -> CondensedBody:
        """What it left, or its fault."""
        for listener in self.listeners:
            listener.join()
        if self.process.returncode == FAULT and self.said:
            named = json.loads(self.said[-1])
            raise _again(named["fault"], named["says"])
        if self.process.returncode != 0:
            assert self.process.stderr is not None
            last = (self.process.stderr.read().decode(errors="replace").strip().splitlines() or ["no word"])[
                -1
            ]
            raise Stopped(f"the process that condenses the {self.wanted.part} ended early: {last}")
        return read_body(self.file, self.key)

    def end(self) -> None:
        """End it if it still runs, and close what was open."""
        if self.running():
            self.process.kill()
        self.process.wait()
        for listener in self.listeners:
            listener.join()
        for pipe in (self.process.stdout, self.process.stderr):
            if pipe is not None:
                pipe.close()


def _environment() -> dict[str, str]:
    """Environment of a child: one thread, and this same firedeck."""
    here = str(Path(firedeck.__file__).parent.parent)
    paths = [here, *filter(None, os.environ.get("PYTHONPATH", "").split(os.pathsep))]
    return os.environ | dict.fromkeys(ONE_THREAD, "1") | {"PYTHONPATH": os.pathsep.join(paths)}


def _again(name: str, says: str) -> FiredeckError:
    """Make the child's error once more, with its own words."""
    kind = getattr(errors, name, FiredeckError)
    fault: FiredeckError = kind.__new__(kind)
    Exception.__init__(fault, says)
    return fault
