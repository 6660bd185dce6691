"""The three steps of judging a crack: where it is, whether it reaches water, what the maker allows."""

from firedeck.findings.damage import Damage, Mark
from firedeck.job import Joint
from firedeck.job.paths import join_path
from firedeck.quantity import Outcome, meets
from firedeck.tables import Row, rows
from firedeck.trace import Missing

IRON = ("grey-iron", "compacted-iron", "ductile-iron")


def crack_rule(joint: Joint, damage: Damage, crack: Mark) -> Row | None:
    """Return the rule that fits a crack; None where it is tight and nobody asked what the maker allows."""
    known = {
        "part": crack.face,
        "material": "iron" if _material(joint, crack) in IRON else _material(joint, crack) or "",
        "liners": joint.block.liners or "",
        "place": "ring" if crack.said or _reaches_in(crack) else "",
        "chambers": "several" if _chambers(damage) > 1 else "one",
        "water": water(joint, crack),
        "maker": crack.maker_says,
    }
    fitting = (
        row for row in rows("crack_rules") if all(row[name] in ("", value) for name, value in known.items())
    )
    return next(fitting, None)


def water(joint: Joint, crack: Mark) -> str:
    """Say whether a crack reaches water: as seen at it, or by the pressure test of the head."""
    if crack.reaches_water != "not-tested" or crack.face != "head":
        return crack.reaches_water
    return {"tight": "no", "leaks": "yes"}.get(joint.head.pressure_test or "", "not-tested")


def pressure_test(joint: Joint, which: str = "head") -> Missing:
    """Say how a casting is pressure tested."""
    path = "head.pressure_test" if which == "head" else "readings.damage"
    return Missing(
        paths=(f"joint.{joint.name}.{path}",),
        measure=f"pressure test of the {which}'s water jacket: does it hold, and where does it bubble",
        tool="blanking plates and air, in hot water",
        how="Openings blanked off, air at the pressure the book names, casting warm: watch seats, plug holes, bridges "
        "and core plugs for bubbles. The machine shop does it.",
    )


def maker_allows(joint: Joint, crack: Mark) -> Missing:
    """Say where to ask what cracks the maker allows."""
    return Missing(
        paths=(join_path(("joint", joint.name, "readings", "damage", crack.name, "maker_says")),),
        measure="what the maker allows: place, length and width of cracks that may stay",
        tool="manual, service bulletin, or the maker's agent",
        how="Look under cylinder head, inspection; note the page. Without a word from the maker a crack is not cleared.",
    )


def _material(joint: Joint, crack: Mark) -> str | None:
    return joint.head.material if crack.face == "head" else joint.block.material


def _reaches_in(crack: Mark) -> bool:
    return crack.off is not None and meets(crack.off.distance.value, low=0.0) is not Outcome.HOLDS


def _chambers(damage: Damage) -> int:
    """Count the cylinders with a crack in the head."""
    labels = {label for crack in damage.cracks() if crack.face == "head" for label in crack.cylinders}
    return len(labels)
