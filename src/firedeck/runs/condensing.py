"""Head and block of a joint, each from the cache or from a child process of one thread."""

import json
import os
import pickle
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable
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
LOOK = 0.03
"""How often children are looked at [s]."""
Told = Callable[[str, float], None]
"""Told the part and the share of it that is done."""


class Stopped(FiredeckError):
    """The work was ended on demand before it was done."""


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
    kept = cache or Cache(cache_folder())
    tell = told or (lambda _part, _share: None)

    def stopped() -> None:
        if stop is not None and stop.is_set():
            raise Stopped("condensing was ended before it was done")

    points = request.points()
    found = {part: kept.read(request.key(part)) for part in PARTS}
    with ExitStack() as held:
        lacking = [part for part in PARTS if found[part] is None]
        for part in lacking:
            held.enter_context(kept.writing(request.key(part), stopped))
            found[part] = kept.read(request.key(part))
        lacking = [part for part in PARTS if found[part] is None]
        if lacking:
            for part, body in _condensed(request, lacking, tell, stopped).items():
                kept.write(request.key(part), body)
                found[part] = body
    for part in PARTS:
        tell(part, 1.0)
    head, block = (body for body in found.values() if body is not None)
    return put_together(request.plan, points, head, block)


def _condensed(
    request: JointRequest, parts: list[Part], tell: Told, stopped: Callable[[], None]
) -> dict[Part, CondensedBody]:
    with tempfile.TemporaryDirectory(prefix="firedeck-") as folder:
        children = {part: _Child(request, part, Path(folder) / f"{part}.npz") for part in parts}
        try:
            while any(child.running() for child in children.values()):
                stopped()
                for part, child in children.items():
                    if not child.running() and child.process.returncode != 0:
                        child.result()  # raises its fault without waiting for the other
                    tell(part, child.share)
                time.sleep(LOOK)
            return {part: child.result() for part, child in children.items()}
        finally:
            for child in children.values():
                child.end()


@dataclass
class _Child:
    """One process that condenses one body."""

    request: JointRequest
    part: Part
    file: Path
    share: float = 0.0
    said: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.key = self.request.key(self.part)
        command = [sys.executable, "-m", "firedeck.runs.child", self.key, self.part, str(self.file)]
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
            self.process.stdin.write(pickle.dumps(self.request))
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
            raise Stopped(f"the process that condenses the {self.part} ended early: {last}")
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
