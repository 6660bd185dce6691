"""Two processes of one thread each that condense bodies: several in turn, one or two shared out between them."""

import json
import os
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from queue import Empty, Queue

import firedeck
from firedeck import errors
from firedeck.errors import FiredeckError
from firedeck.joint.geometry.condensed import CondensedBody
from firedeck.runs.tasks import Tasks, Wanted

ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS", "VECLIB_MAXIMUM_THREADS")
KEEPS_ITS_MEMORY = {"MALLOC_MMAP_THRESHOLD_": str(2**25), "MALLOC_TRIM_THRESHOLD_": str(2**30)}
"""What makes the C library of Linux use the room of one front for the next, not fetch it anew; others do not know it."""
HANDS = 2
"""Processes side by side: more would fight for memory."""
LOOK = 0.03
"""How often it is looked whether the work is to be ended [s]."""
Told = Callable[[str, float], None]
"""Told the part and the share of it that is done."""


class Stopped(FiredeckError):
    """The work was ended on demand before it was done."""


def condensed_by_hands(
    wanted: Sequence[Wanted], tell: Told, stopped: Callable[[], None]
) -> Iterator[tuple[Wanted, CondensedBody]]:
    """Condense bodies; each is handed out as soon as it is done. ``stopped`` may raise to end it all."""
    if not wanted:
        return
    by_key = {one.key: one for one in wanted}
    shares = dict.fromkeys(by_key, 0.0)
    said: Queue[tuple[_Hand, str]] = Queue()
    hands = [_Hand(said) for _ in range(HANDS)]  # they start while the first body is put together
    try:
        with tempfile.TemporaryDirectory(prefix="firedeck-") as folder:
            tasks = Tasks(by_key, HANDS, Path(folder))
            for hand in hands:
                hand.give(tasks.next())
            while by_key:
                stopped()
                try:
                    hand, line = said.get(timeout=LOOK)
                except Empty:
                    tasks.look_ahead()
                    continue
                match line.split():
                    case ["share", key, part]:
                        shares[key] = min(0.99, shares[key] + float(part))
                        if key in by_key:
                            tell(by_key[key].says, shares[key])
                    case ["ready", key]:
                        yield by_key.pop(key), tasks.done(key)
                    case ["free"]:
                        hand.give(tasks.next())
                    case _:
                        raise hand.fault(line)
    finally:
        for hand in hands:
            hand.end()


class _Hand:
    """One process; what it says goes into a queue with its name, an empty word when it is gone."""

    def __init__(self, said: "Queue[tuple[_Hand, str]]") -> None:
        pipe = subprocess.PIPE
        command = [sys.executable, "-m", "firedeck.runs.child"]
        self._process = subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=pipe, env=_environment())
        self._listener = threading.Thread(target=self._listen, args=(said,), daemon=True)
        self._listener.start()

    def _listen(self, said: "Queue[tuple[_Hand, str]]") -> None:
        assert self._process.stdout is not None
        for line in self._process.stdout:
            said.put((self, line.decode()))
        said.put((self, ""))

    def give(self, task: bytes | None) -> None:
        """Hand a task over, if there is one; a process that is gone says so by its silence."""
        assert self._process.stdin is not None
        if task is None:
            return
        with suppress(OSError):
            self._process.stdin.write(task)
            self._process.stdin.flush()

    def fault(self, line: str) -> FiredeckError:
        """The fault it named in its last line, or that it ended without a word."""
        if line.startswith("{"):
            named = json.loads(line)
            return _again(named["fault"], named["says"])
        self._process.wait()
        assert self._process.stderr is not None
        words = self._process.stderr.read().decode(errors="replace").strip().splitlines() or ["no word"]
        return Stopped(f"a process that condenses ended early: {words[-1]}")

    def end(self) -> None:
        """End it if it still runs, and close what was open."""
        self._process.kill()
        self._process.wait()
        self._listener.join()
        for pipe in (self._process.stdin, self._process.stdout, self._process.stderr):
            if pipe is not None:
                with suppress(OSError):
                    pipe.close()


def _environment() -> dict[str, str]:
    """Environment of a child: one thread, memory it keeps, and this same firedeck."""
    here = str(Path(firedeck.__file__).parent.parent)
    paths = [here, *filter(None, os.environ.get("PYTHONPATH", "").split(os.pathsep))]
    own = dict.fromkeys(ONE_THREAD, "1") | KEEPS_ITS_MEMORY | {"PYTHONPATH": os.pathsep.join(paths)}
    return os.environ | own


def _again(name: str, says: str) -> FiredeckError:
    """Make the child's error once more, with its own words."""
    kind = getattr(errors, name, FiredeckError)
    fault: FiredeckError = kind.__new__(kind)
    Exception.__init__(fault, says)
    return fault
