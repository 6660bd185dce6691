"""The process that condenses one body: ``python -m firedeck.runs.child KEY PART FILE``, the request on standard input.

Started with one thread of the algebra library. Says ``share DONE`` as it goes; a fault it can name goes out as one line
of JSON, to be raised again by the one who started it.
"""

import json
import pickle
import sys
from pathlib import Path
from typing import TextIO

from firedeck.errors import FiredeckError
from firedeck.fem import condense_piece, finish, work
from firedeck.fem.condensing import Plan
from firedeck.fem.fronts import Front
from firedeck.joint.geometry.condensed import condensed
from firedeck.joint.laws import Floats
from firedeck.runs.cache import write_body
from firedeck.runs.request import PARTS, JointRequest

SAYS_AT = 0.04
"""Pieces that cost at least this share of a body are announced when they are done."""
FAULT = 3
"""Exit code of a fault that is named on standard output."""


def main() -> int:
    """Condense what standard input asks for."""
    key, part, file = sys.argv[1:]
    request: JointRequest = pickle.load(
        sys.stdin.buffer
    )  # from the process that started this one, nobody else
    try:
        loaded = request.loaded(next(name for name in PARTS if name == part))
        write_body(Path(file), key, condensed(loaded, by_pieces(loaded.plan(), sys.stdout)))
    except FiredeckError as fault:
        print(json.dumps({"fault": type(fault).__name__, "says": str(fault)}), flush=True)
        return FAULT
    return 0


def by_pieces(whole: Plan, out: TextIO) -> Floats:
    """Condense the larger pieces one after the other, saying how far it is, then the rest."""
    costs = work(whole)
    ready: dict[int, Front] = {}
    for number, piece in enumerate(whole.tree.pieces[:-1]):
        if costs[number] >= SAYS_AT * costs[-1]:
            below = {half: ready.pop(half) for half in piece.halves if half in ready}
            ready[number] = condense_piece(whole, number, below)
            print(f"share {float(costs[number] / costs[-1]):.3f}", file=out, flush=True)
    return finish(whole, ready)


if __name__ == "__main__":
    sys.exit(main())
