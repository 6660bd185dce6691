"""Errors to lines and exit codes: 0 an answer was given, 2 bad input, 1 our own fault."""

import contextlib
import io
import os
import sys
import traceback
from collections.abc import Callable

from firedeck.errors import DidNotConverge, FiredeckError, JobError, JobErrors, OutOfRange, TableGap, shorten

GOOD, OURS, BAD_INPUT, INTERRUPTED = 0, 1, 2, 130
DEBUG = "FIREDECK_DEBUG"
REPORT = "our own fault, not of what was typed; please report this line and the job that caused it"
LONGEST_FOUND = 100
LONGEST_LINE = 400
MOST_LINES = 50


def guarded(run: Callable[[], None]) -> int:
    """Run a command and return its exit code; whatever goes wrong is said in lines on stderr."""
    try:
        run()
        sys.stdout.flush()
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        _close_quietly()
    except Exception as fault:
        return _said(fault)
    return GOOD


def _said(fault: Exception) -> int:
    """Say a fault on stderr and return its exit code."""
    if os.environ.get(DEBUG):
        traceback.print_exc()
    if isinstance(fault, OSError) and fault.filename is not None:
        fault = JobError(
            str(fault.filename), (fault.strerror or "no access").lower(), "another file or folder"
        )
    if isinstance(fault, FiredeckError) and not isinstance(fault, DidNotConverge):
        lines = lines_of(fault)
        more = [f"... and {len(lines) - MOST_LINES} more"] if len(lines) > MOST_LINES else []
        print("\n".join([*lines[:MOST_LINES], *more]), file=sys.stderr)
        return BAD_INPUT
    print(f"firedeck: {REPORT} ({shorten(f'{type(fault).__name__}: {fault}', 200)})", file=sys.stderr)
    return OURS


def lines_of(fault: FiredeckError) -> list[str]:
    """Return one line for each fault, cut where a whole file was quoted."""
    if isinstance(fault, JobErrors):
        return [line for one in fault.faults for line in lines_of(one)]
    if isinstance(fault, JobError | OutOfRange):
        where = fault.path if isinstance(fault, JobError) else fault.name
        return [
            shorten(f"{where}: found {shorten(fault.found, LONGEST_FOUND)}; {fault.allowed}", LONGEST_LINE)
        ]
    if isinstance(fault, TableGap):
        return [shorten(f"{fault.table}: found {fault.asked}; it has {fault.has}", LONGEST_LINE)]
    return [shorten(str(fault), LONGEST_LINE)]


def in_file(name: str, fault: JobError) -> JobErrors:
    """Name the file in front of every fault of one document."""
    faults = fault.faults if isinstance(fault, JobErrors) else (fault,)
    return JobErrors([one if one.path == name else _behind(name, one) for one in faults])


def _behind(name: str, fault: JobError) -> JobError:
    return JobError(f"{name}: {fault.path}", fault.found, fault.allowed)


def speak_utf8() -> None:
    """Write UTF-8 on every system; what cannot be written becomes a question mark, never an error."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="replace")


def _close_quietly() -> None:
    """A pipe that was closed early must not complain again on the way out."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
