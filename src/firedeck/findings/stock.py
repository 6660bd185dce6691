"""The least that cleans one face: out of flat, damage under the ring, and keeping it parallel to its datum."""

from collections.abc import Sequence
from dataclasses import dataclass

from firedeck.findings.damage import Damage, Mark
from firedeck.findings.face_line import FaceLine
from firedeck.findings.faces import FaceFound
from firedeck.job import Joint
from firedeck.quantity import Kind, Outcome, meets, parse
from firedeck.tables import one
from firedeck.trace import DERIVED, RUN, Figure, Missing, Step, as_printed


@dataclass(frozen=True)
class FaceStock:
    """What cleaning one face takes.

    ``stock`` comes off at the lowest corner, ``least`` at the highest when the cut runs parallel to the
    datum, ``with_pass`` is ``least``, or the least a cutter takes, with the last light pass. ``height_bare`` and
    ``height_after`` are what is left without and with that pass, ``in_all`` is off since new without it. ``tilt_price`` is
    what the end chambers would differ by if the cut followed the face instead, ``tilt_drag`` by how much more the
    ports and the cam line of one end cylinder would come down than those of the other. Where nothing stopped on some lines
    (``open_lines``) all of this is at least.
    """

    face: str
    out_of_flat: Step
    deepest: Step | None
    stock: Step
    spread: Step | None
    least: Step
    with_pass: Step
    height_bare: Step | None
    height_after: Step | None
    in_all: Step
    tilt_price: Step | None
    tilt_drag: Step | None = None
    open_lines: tuple[str, ...] = ()

    @property
    def steps(self) -> tuple[Step, ...]:
        """Return the sums in the order they build on each other."""
        optional = (
            self.out_of_flat,
            self.deepest,
            self.stock,
            self.spread,
            self.least,
            self.with_pass,
            self.tilt_price,
            self.tilt_drag,
        )
        return tuple(step for step in optional if step is not None)


def finish_pass() -> tuple[float, str]:
    """Return the last light pass [mm] and who says so."""
    return practice("finish_pass")


def practice(name: str) -> tuple[float, str]:
    """Return a figure of machining practice [mm] and who says so."""
    row = one("cut_practice", name, lambda row: row["name"] == name)
    return parse(row["value"], Kind.LENGTH).value, row["source"]


def stock_of(joint: Joint, face: FaceFound, damage: Damage | Missing, earlier: float) -> FaceStock | None:
    """Work out what cleaning a face takes; None where nothing on it was measured."""
    out = _out_of_flat(face)
    if out is None:
        return None
    deepest = _deepest(() if isinstance(damage, Missing) else damage.marks, face.face)
    parts: dict[str, Figure] = {"out_of_flat": out.figure()} | (
        {"deepest": deepest.figure()} if deepest else {}
    )
    formula = "max(out_of_flat, deepest)" if deepest else "out_of_flat"
    stock = Step.work_out(f"Least that cleans the {face.face} face", formula, parts, ("stock", "mm"), DERIVED)
    spread = _spread(joint) if face.face == "head" else None
    least = _least(face.face, stock, spread)
    with_pass = _add_pass(face.face, least)
    heights = _heights(joint, face.face)
    return FaceStock(
        face=face.face,
        out_of_flat=out,
        deepest=deepest,
        stock=stock,
        spread=spread,
        least=least,
        with_pass=with_pass,
        height_bare=_left(heights, {"stock": stock.figure()}),
        height_after=_left(heights, {"stock": stock.figure(), "finish_pass": (finish_pass()[0], "mm")}),
        in_all=Step.work_out(
            f"Off the {face.face} in all once it is clean",
            "earlier + stock",
            {"earlier": (earlier, "mm"), "stock": stock.figure()},
            ("cut", "mm"),
            DERIVED,
        ),
        tilt_price=_tilt_price(joint, spread),
        tilt_drag=_tilt_drag(joint, spread),
        open_lines=() if face.allowed else tuple(line.name for line in face.lines if line.open_above),
    )


def _out_of_flat(face: FaceFound) -> Step | None:
    """Take the smallest zone of points, the largest that leaves on all lines allow, or the largest gap of a few lines."""
    if face.flatness is not None:
        return next(step for step in face.flatness.steps if "minimum_zone" in step.result)
    if face.allowed is not None:
        return Step.work_out(
            "Smallest out-of-flat by any tilt is at most what the leaves on all lines allow",
            "at_most",
            {"at_most": (face.allowed.flatness.high, "mm")},
            ("out_of_flat", "mm"),
            f"{RUN}face-from-lines",
        )
    if not face.lines:
        return None
    worst = max(face.lines, key=_most)
    if worst.band is None or worst.open_above:
        return worst.step
    return Step.work_out(
        f"Gap on {worst.name} is at most what the readings allow",
        "at_most",
        {"at_most": (worst.band.high, "mm")},
        ("out_of_flat", "mm"),
        DERIVED,
    )


def _most(line: FaceLine) -> float:
    """Return the most a line may show, or the least where nothing stopped on it."""
    return line.gap if line.band is None or line.open_above else line.band.high


def _deepest(marks: Sequence[Mark], face: str) -> Step | None:
    depths = [
        mark.depth
        for mark in marks
        if mark.face == face and mark.depth and _under(mark) and mark.kind != "crack"
    ]
    if not depths:
        return None
    figures: dict[str, Figure] = {
        f"depth_{number}": (depth, "mm") for number, depth in enumerate(depths, start=1)
    }
    formula = "depth_1" if len(depths) == 1 else f"max({', '.join(figures)})"
    return Step.work_out("Deepest damage under the ring", formula, figures, ("deepest", "mm"), DERIVED)


def _under(mark: Mark) -> bool:
    distance = mark.to_ring or (mark.off.distance if mark.off else None)
    if distance is not None:
        return meets(distance.value, low=0.0) is not Outcome.HOLDS
    return bool(mark.said)


def _spread(joint: Joint) -> Step | None:
    """Return by how much the face runs out of parallel to the datum its height is measured from."""
    heights = _heights(joint, "head")
    if len(heights) < 4:
        return None
    return Step.work_out(
        "Highest less lowest corner: the face runs out of parallel by",
        "highest - lowest",
        {"highest": (max(heights), "mm"), "lowest": (min(heights), "mm")},
        ("spread", "mm"),
        DERIVED,
    )


def _least(face: str, stock: Step, spread: Step | None) -> Step:
    figures: dict[str, Figure] = {"stock": stock.figure()} | ({"spread": spread.figure()} if spread else {})
    return Step.work_out(
        f"Off the {face} at its highest corner, parallel to the datum",
        " + ".join(figures),
        figures,
        ("least_cut", "mm"),
        DERIVED,
    )


def _add_pass(face: str, least: Step) -> Step:
    amount, source = finish_pass()
    return Step.work_out(
        f"Off the {face} in one practical pass and a last light one",
        "max(least_cut, least_pass) + finish_pass",
        {
            "least_cut": least.figure(),
            "least_pass": (practice("least_pass")[0], "mm"),
            "finish_pass": (amount, "mm"),
        },
        ("cut", "mm"),
        source,
    )


def _heights(joint: Joint, face: str) -> list[float]:
    if face == "head":
        return [as_printed(height.value) for height in joint.head.heights_after or joint.head.heights_before]
    return [as_printed(joint.block.height_before.value)] if joint.block.height_before else []


def _left(heights: list[float], off: dict[str, Figure]) -> Step | None:
    if not heights:
        return None
    formula = " - ".join(["lowest", *off])
    figures = {"lowest": (min(heights), "mm"), **off}
    return Step.work_out("Height left at the lowest corner", formula, figures, ("height", "mm"), DERIVED)


def _tilt_price(joint: Joint, spread: Step | None) -> Step | None:
    """Work out what the end chambers would differ by if the cut followed the face instead of the datum."""
    area, ends = joint.chamber.plan_area, _ends(joint)
    if spread is None or area is None or ends is None:
        return None
    return Step.work_out(
        "Cutting along the face instead: the end chambers would differ by at most",
        f"plan_area * {SHARE_OF_SPREAD}",
        {"plan_area": (area.value, "mm²"), "spread": spread.figure(), **ends},
        ("chamber_difference", "mm³"),
        DERIVED,
    )


def _tilt_drag(joint: Joint, spread: Step | None) -> Step | None:
    """Work out by how much more one end of ports and cam line would come down than the other."""
    ends = _ends(joint)
    if spread is None or ends is None:
        return None
    return Step.work_out(
        "Cutting along the face instead: ports and cam line of one end cylinder come down more than of the other by",
        SHARE_OF_SPREAD,
        {"spread": spread.figure(), **ends},
        ("port_and_cam_drag", "mm"),
        DERIVED,
    )


SHARE_OF_SPREAD = "spread * (last_bore - first_bore) / (last_end - first_end)"
"""What of the spread over the whole head lies between the end cylinders."""


def _ends(joint: Joint) -> dict[str, Figure] | None:
    """Give first and last bore and both ends of the head along the crankshaft; None where they are not known."""
    layout = joint.layout
    if layout is None or len(layout.bores) < 2 or not layout.outline:
        return None
    bores = [bore.x.value for bore in layout.bores]
    ends = [corner[0].value for corner in layout.outline]
    if max(ends) == min(ends):
        return None
    return {
        "last_bore": (max(bores), "mm"),
        "first_bore": (min(bores), "mm"),
        "last_end": (max(ends), "mm"),
        "first_end": (min(ends), "mm"),
    }
