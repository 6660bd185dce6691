"""A process that condenses bodies, or its share of them: ``python -m firedeck.runs.child``.

Tasks come on standard input, one after the other, until it is closed. Started with one thread of the algebra library,
and with as little else as can be, since every condensing waits for it.
Says ``share KEY PART`` as it goes, ``ready KEY`` when a body is written, ``free`` when it waits for the next task; a
fault it can name goes out as one line of JSON, to be raised again by the one who started it.
"""

import json
import os
import pickle
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO, TextIO

import numpy as np

from firedeck.errors import FiredeckError
from firedeck.fem import condense_piece, finish, work
from firedeck.fem.condensing import Plan, below
from firedeck.fem.fronts import Front
from firedeck.fem.sharing import Job

SAYS_AT = 0.04
"""Pieces that cost at least this share of a body are announced when they are done."""
FAULT = 3
"""Exit code of a fault that is named on standard output."""
LOOK = 0.005
"""How often it is looked whether the other hand has left its pieces [s]."""


@dataclass(frozen=True)
class Task:
    """Bodies, each with its key, to be condensed by some hands together, and the jobs of each hand."""

    bodies: tuple[tuple[str, Plan], ...]
    folder: Path
    shares: tuple[tuple[Job, ...], ...]


def main() -> int:
    """Do what standard input asks for until it is closed."""
    import scipy.linalg.blas
    import scipy.linalg.lapack  # noqa: F401  while the first task is still being made

    while (given := next_task(sys.stdin.buffer)) is not None:
        try:
            do(*given, sys.stdout)
        except FiredeckError as fault:
            print(json.dumps({"fault": type(fault).__name__, "says": str(fault)}), flush=True)
            return FAULT
        print("free", flush=True)
    return 0


def next_task(source: BinaryIO) -> tuple[Task, int] | None:
    """Read which hand this is and a task of the process that started it, and of nobody else."""
    try:
        mine: int = pickle.load(source)
        task: Task = pickle.load(source)
    except EOFError:
        return None
    return task, mine


def do(task: Task, mine: int, out: TextIO) -> None:
    """Condense this hand's pieces, and put together the bodies whose last piece is its own."""
    keys = [key for key, _ in task.bodies]
    plans = [plan for _, plan in task.bodies]
    owner = {job: hand for hand, jobs in enumerate(task.shares) for job in jobs}
    pieces = [sorted(piece for at, piece in owner if at == body) for body in range(len(plans))]
    joins = [owner[body, own[-1]] == mine for body, own in enumerate(pieces)]
    fronts: dict[tuple[int, int], Front] = {}
    for body, piece in task.shares[mine]:
        front = by_pieces(plans[body], piece, keys[body], out)
        if joins[body]:
            fronts[body, piece] = front
        else:
            leave(task.folder / f"{keys[body]}-{piece}", front)
    for body in np.flatnonzero(joins).tolist():
        ready = {
            piece: fronts.pop((body, piece))
            if (body, piece) in fronts
            else fetch(task.folder / f"{keys[body]}-{piece}")
            for piece in pieces[body]
        }
        np.save(task.folder / f"{keys[body]}.npy", finish(plans[body], ready), allow_pickle=False)
        print(f"ready {keys[body]}", file=out, flush=True)


def by_pieces(whole: Plan, number: int, key: str, out: TextIO) -> Front:
    """Condense the larger pieces below one after the other, saying what share of the body each was, then the rest."""
    costs = work(whole)
    ready: dict[int, Front] = {}
    for piece in below(whole.tree, number, {}):
        if costs[piece] >= SAYS_AT * costs[-1] or piece == number:
            halves = [half for half in whole.tree.pieces[piece].halves if half in ready]
            new = costs[piece] - sum(costs[half] for half in halves)
            ready[piece] = condense_piece(whole, piece, {half: ready.pop(half) for half in halves})
            print(f"share {key} {float(new / costs[-1]):.4f}", file=out, flush=True)
    return ready[number]


def leave(file: Path, front: Front) -> None:
    """Leave a piece for the other hand: written aside and renamed, so that it reads all of it."""
    aside = file.with_suffix(".aside")
    with aside.open("wb") as out:
        for part in (front.border, front.columns, front.rest):
            np.save(out, part, allow_pickle=False)
    aside.replace(file)


def fetch(file: Path) -> Front:
    """Take a piece the other hand leaves; end where the one who started both is gone."""
    parent = os.getppid()
    while not file.exists():
        if os.getppid() != parent:
            sys.exit("the process that asked for this is gone")
        time.sleep(LOOK)
    with file.open("rb") as kept:
        border, columns, rest = (np.load(kept, allow_pickle=False) for _ in range(3))
    return Front(border, columns, rest)


if __name__ == "__main__":
    sys.exit(main())
