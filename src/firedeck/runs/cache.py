"""Condensed bodies and finished studies on disk: checked when read, written aside and renamed, bounded in all.

A file that is torn, altered or of another version is never used: it is taken away and the body condensed again.
"""

import hashlib
import os
import sys
import tempfile
import time
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import IO

import numpy as np

from firedeck.joint.geometry.condensed import CondensedBody
from firedeck.joint.geometry.loading import Counts

MOST_BYTES = 500_000_000
"""Size of the cache; the oldest used goes first."""
MOST_TEXTS = 200
"""Finished studies that are kept; the oldest used goes first."""
TURN = 0.05
"""How often a process asks whether another one has finished writing [s]."""


def cache_folder() -> Path:
    """Folder of the cache: FIREDECK_CACHE, or where this system keeps what may be lost."""
    named = os.environ.get("FIREDECK_CACHE")
    if named:
        return Path(named)
    if sys.platform == "win32":
        return (
            Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local") / "firedeck" / "cache"
        )
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches" / "firedeck"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "firedeck"


@dataclass(frozen=True)
class Cache:
    """A folder of condensed bodies, at most ``most_bytes`` of them."""

    folder: Path
    most_bytes: int = MOST_BYTES

    def read(self, key: str) -> CondensedBody | None:
        """Return what is kept under a key; None where there is nothing, or nothing sound."""
        file = self.file(key)
        try:
            found = read_body(file, key)
        except FileNotFoundError:
            return None
        except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile):
            with suppress(OSError):
                file.unlink()
            return None
        with suppress(OSError):
            os.utime(file)
        return found

    def write(self, key: str, body: CondensedBody) -> None:
        """Keep a body: written aside, then renamed, so that nobody reads half of it."""
        self.folder.mkdir(parents=True, exist_ok=True)
        handle, aside = tempfile.mkstemp(prefix="aside-", suffix=".npz", dir=self.folder)
        os.close(handle)
        try:
            write_body(Path(aside), key, body)
            Path(aside).replace(self.file(key))
        finally:
            Path(aside).unlink(missing_ok=True)
        self._bound(keep=key)

    def read_text(self, key: str) -> str | None:
        """Return the text kept under a key as it stands; None where there is none that can be read."""
        try:
            found = self.text(key).read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError):
            return None
        with suppress(OSError):
            os.utime(self.text(key))
        return found

    def write_text(self, key: str, text: str) -> None:
        """Keep a text: written aside, then renamed; of texts only the newest are kept."""
        self.folder.mkdir(parents=True, exist_ok=True)
        handle, aside = tempfile.mkstemp(prefix="aside-", suffix=".json", dir=self.folder)
        os.close(handle)
        try:
            Path(aside).write_text(text, encoding="utf-8")
            Path(aside).replace(self.text(key))
        finally:
            Path(aside).unlink(missing_ok=True)
        self._fewer_texts()

    def text(self, key: str) -> Path:
        """Place of a kept text."""
        return self.folder / f"{key}.json"

    def _fewer_texts(self) -> None:
        aged = []
        for file in self.folder.glob("*.json"):
            with suppress(OSError):
                aged.append((file.stat().st_mtime, file))
        for _, file in sorted(aged)[:-MOST_TEXTS]:
            if not file.name.startswith("aside-"):
                with suppress(OSError):
                    file.unlink()

    def file(self, key: str) -> Path:
        """Place of a key."""
        return self.folder / f"{key}.npz"

    @contextmanager
    def writing(self, key: str, waiting: Callable[[], None]) -> Iterator[None]:
        """Be the only one to work a key out; the system lets go of it if this process dies.

        ``waiting`` is called again and again while another process works it out; it may raise.
        """
        self.folder.mkdir(parents=True, exist_ok=True)
        with (self.folder / f"{key}.lock").open("a+b") as lock:
            while not _taken(lock):
                waiting()
                time.sleep(TURN)
            yield

    def _bound(self, keep: str) -> None:
        files = []
        for file in self.folder.glob("*.npz"):
            with suppress(OSError):
                facts = file.stat()
                files.append((facts.st_mtime, facts.st_size, file))
        whole = sum(size for _, size, _ in files)
        for _, size, file in sorted(files):
            if whole <= self.most_bytes:
                break
            if file.stem != keep and not file.name.startswith("aside-"):
                with suppress(OSError):
                    file.unlink()
                    whole -= size


def write_body(file: Path, key: str, body: CondensedBody) -> None:
    """Write a body with its key and checksum."""
    counts = np.array([body.counts.points, body.counts.bolts, body.counts.ties, body.counts.gas])
    check = np.array([key, _checksum(key, body.G, body.rigid, counts)])
    with file.open("wb") as out:
        np.savez(out, G=body.G, rigid=body.rigid, counts=counts, check=check)


def read_body(file: Path, key: str) -> CondensedBody:
    """Read a body; ValueError where it is not the one that was written under this key."""
    with file.open("rb") as opened, np.load(opened, allow_pickle=False) as kept:
        G, rigid, counts, check = (kept[name] for name in ("G", "rigid", "counts", "check"))
    if check.tolist() != [key, _checksum(key, G, rigid, counts)]:
        raise ValueError("not what was written")
    return CondensedBody(G, rigid, Counts(*(int(count) for count in counts)))


def _checksum(key: str, *arrays: np.ndarray) -> str:
    whole = hashlib.sha256(key.encode())
    for array in arrays:
        whole.update(f"{array.dtype.str}{array.shape}".encode())
        whole.update(np.ascontiguousarray(array).tobytes())
    return whole.hexdigest()


def _taken(lock: IO[bytes]) -> bool:
    """Take a lock that the system gives back when the process ends; False while another has it."""
    try:
        if sys.platform == "win32":
            import msvcrt

            lock.seek(0)
            msvcrt.locking(lock.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
