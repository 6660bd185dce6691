"""Running the general solver and holding its answer against ours."""

import subprocess
import tempfile
import time
from pathlib import Path

import numpy as np

from calculix.deck import Deck, force, table, written
from calculix.joints import Asked, Subject, asked, bodies, put
from firedeck.joint.assembling import Assembled
from firedeck.joint.laws import Floats


class LeftNoAnswer(RuntimeError):
    """The general solver did not come to the end of a case."""


def compared(subject: Subject, astray: float = 1.0) -> dict[str, object]:
    """Largest differences case by case, and seconds of both; ``astray``: where the general solver is led (deck.py)."""
    points, loaded = bodies(subject)
    start = time.perf_counter()
    made, service = put(subject, points, loaded)
    cases = list(asked(subject, made, service))
    mine = time.perf_counter() - start
    found, spent = {}, 0.0
    for case in cases:
        w, seconds = solved(written(loaded, made, case, astray), case.name)
        spent += seconds
        found[case.name] = differences(made, case, w)
    return {
        "says": subject.says,
        "unknowns": sum(one.body.unknowns for one in loaded),
        "springs": len(made.kept),
        "cases": found,
        "ours_s": round(mine, 2),
        "calculix_s": round(spent, 2),
    }


def solved(deck: Deck, name: str, at_most: float | None = None) -> tuple[Floats, float]:
    """Closures the general solver finds, and the seconds it took; subprocess.TimeoutExpired after ``at_most`` seconds."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "joint.inp").write_text(deck.text, encoding="ascii")
        start = time.perf_counter()
        command = ["ccx", "joint"]
        done = subprocess.run(
            command, cwd=folder, capture_output=True, text=True, check=False, timeout=at_most
        )
        spent = time.perf_counter() - start
        printed = Path(folder) / "joint.dat"
        text = printed.read_text(encoding="ascii") if printed.exists() else ""
    w = np.full(len(deck.shift), np.nan)
    for line in text.splitlines():
        cells = line.split()
        if len(cells) == 4 and cells[0].isdigit():
            w[(int(cells[0]) - deck.first) // 2] = float(cells[1])
    if "Job finished" not in done.stdout or not np.isfinite(w).all():
        raise LeftNoAnswer(f"the general solver left no answer for {name}: {done.stdout[-600:]}")
    return w + deck.shift, spent


def differences(made: Assembled, case: Asked, w: Floats) -> dict[str, float]:
    """Largest difference of a ring's line load over its ring's mean, and of a bolt over its pull [1].

    ``yielded`` and ``opened``: bolts at their yield load and gasket points without load, so that it shows what was tried.
    """
    export, places = case.export, made.joint.places
    theirs = np.array([force(table(export, n), float(w[n])) for n in range(len(w))])
    ours = export.psi[case.at]
    miss = np.abs(theirs - ours)
    bolts = places.of("bolt")
    rings = [np.flatnonzero(places.of("ring", name)) for name in places.names("ring")]
    return {
        "ring": max(float(miss[ring].max() / ours[ring].mean()) for ring in rings),
        "bolt": float((miss[bolts] / ours[bolts]).max()),
        "yielded": int((ours[bolts] >= made.joint.springs.most - 1e-6).sum()),
        "opened": int((ours[~bolts] == 0.0).sum()),
    }
