"""Small jobs made for tests of faces, damage and cuts: an inline two-cylinder nobody built."""

from collections.abc import Mapping
from typing import Any

from unit.answers.fastening import ask, job_of, wanted_of, words_of

__all__ = ["ask", "bores", "damage", "face", "job_of", "least", "limit", "points", "wanted_of", "words_of"]

POINTS = """
x [mm], y [mm], z [mm]
0, -50, 0
100, -50, {edge}
200, -50, 0
0, 0, 0
100, 0, {middle}
200, 0, 0
0, 50, 0
100, 50, {edge}
200, 50, 0
"""


def points(hollow: float) -> str:
    """Give a face that is hollow by so much in the middle [mm]."""
    return POINTS.format(edge=-hollow, middle=-hollow)


def face(which: str, hollow: float | None = None, **others: object) -> dict[str, Any]:
    """Give the readings of one face, by points where it is said how hollow it is."""
    given: dict[str, Any] = {"name": which, "face": which, "conditions": ["cold", "clean"], **others}
    if hollow is not None:
        given |= {"seen": "deck from above", "points": points(hollow)}
    return given


def damage(**others: object) -> dict[str, Any]:
    """Give one damage on the block."""
    return {"name": "mark", "face": "block", "kind": "pit", **others}


def bores(seen: str = "deck from above") -> dict[str, Any]:
    """Give a hole pattern of two bores of 80 mm, 90 mm apart, with its zero in bore 1."""
    places = [("1", "0 mm"), ("2", "90 mm")]
    return {
        "seen": seen,
        "bores": [{"label": label, "x": x, "y": "0 mm", "diameter": "80 mm"} for label, x in places],
        "outline": [["-60 mm", "-60 mm"], ["150 mm", "-60 mm"], ["150 mm", "60 mm"], ["-60 mm", "60 mm"]],
    }


def limit(quantity: str, part: str | None = None, **bounds: str) -> dict[str, Any]:
    """Give a limit of a manual that does not exist."""
    given: dict[str, Any] = {
        "name": f"{quantity} {part or 'any'}",
        "quantity": quantity,
        "measure": "single-reading",
        "rank": "manual",
        "from": "manual p. 3",
        **bounds,
    }
    return given | ({"part": part} if part else {})


def least(joint: Mapping[str, Any], **others: object) -> dict[str, Any]:
    """Give a joint with flatness limits of 0.05 mm for both faces, and what else is said."""
    flat = limit("face_flatness", high="0.05 mm", direction="any", measure="under-the-edge")
    given = dict(joint)
    given["limits"] = [flat, *given.get("limits", [])]
    return given | others
