"""What takes long, done beside the page: started by hand, told how far it is, ended on demand."""

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from firedeck.assess import assess, plain
from firedeck.errors import FiredeckError, shorten
from firedeck.findings.finding import LongWork, When
from firedeck.job import Job

Done = Callable[[Job, dict[str, Any]], None]


@dataclass
class Work:
    """One job being answered in full, in a thread of its own; ``done`` hears the answers."""

    job: Job
    done: Done
    part: str = ""
    share: float = 0.0
    fault: str = ""
    stop: threading.Event = field(default_factory=threading.Event)
    thread: threading.Thread | None = None

    def start(self) -> "Work":
        """Begin."""
        self.thread = threading.Thread(target=self._run, daemon=True)
        self.thread.start()
        return self

    @property
    def running(self) -> bool:
        """Whether it still works."""
        return self.thread is not None and self.thread.is_alive()

    def _told(self, part: str, share: float) -> None:
        self.part, self.share = part, share

    def _run(self) -> None:
        try:
            answered = plain(assess(self.job, long_work=LongWork(When.NOW, self._told, self.stop)))
        except Exception as fault:  # whatever it is, the page says it in one line
            if not self.stop.is_set():
                kind = "" if isinstance(fault, FiredeckError) else f"{type(fault).__name__}: "
                self.fault = shorten(f"{kind}{fault}", 200)
            return
        if not self.stop.is_set():
            self.done(self.job, answered)


@dataclass(frozen=True)
class Works:
    """The work of each job by its name, one at a time for each."""

    _works: dict[str, Work] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def start(self, name: str, job: Job, done: Done) -> Work:
        """Begin the work of a job; while it is at it, that work is given."""
        with self._lock:
            work = self._works.get(name)
            if work is None or not work.running or work.stop.is_set():
                work = self._works[name] = Work(job, done).start()
            return work

    def of(self, name: str) -> Work | None:
        """Return the work of a job, if it was ever begun."""
        return self._works.get(name)

    def end(self, name: str) -> None:
        """End the work of a job; what is condensed already stays kept."""
        work = self._works.get(name)
        if work is not None:
            work.stop.set()
