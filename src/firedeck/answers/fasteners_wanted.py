"""What is measured before fasteners can be judged."""

from firedeck.findings.fasteners import GroupFound
from firedeck.job import Joint
from firedeck.trace import Missing


def _at(joint: Joint, *tail: str) -> tuple[str, ...]:
    return tuple(f"joint.{joint.name}.{one}" for one in tail)


def measure(joint: Joint, group: GroupFound, word: str) -> Missing:
    """Say how lengths and necks are read."""
    field = "lengths" if word == "length" else "neck_diameters"
    return Missing(
        _at(joint, f"readings.fasteners.{field}"),
        f"{word} of every one of group {group.name}: the papers have a limit for it",
        "vernier",
        "From under the head to the end." if word == "length" else "The thinnest place of shank and thread.",
    )


def count_uses(joint: Joint, group: GroupFound) -> Missing:
    """Say how tightenings are counted."""
    return Missing(
        _at(joint, f"fasteners.{group.name}.uses"),
        f"how often group {group.name} has been tightened before",
        "punch marks on the heads, the history of the engine",
        "Each tightening leaves one mark where the papers ask for it; nothing marked and nothing known: new ones.",
    )


def find_limit(joint: Joint, group: GroupFound) -> Missing:
    """Say where a limit of reuse stands."""
    return Missing(
        _at(joint, "limits"),
        f"the limit of reuse of group {group.name}: length, neck or number of tightenings",
        "papers of this engine",
        "It stands with the tightening torques or with the cylinder head; note the page.",
    )


def look(joint: Joint, group: GroupFound) -> Missing:
    """Say what is looked for on a used fastener."""
    return Missing(
        _at(joint, "readings.fasteners.threads"),
        f"threads and shanks of group {group.name}: clean and even, none necked, none eaten",
        "wire brush, a new nut, vernier",
        "Run the nut by hand over the whole thread: where it binds the bolt is stretched. Look for a neck and rust.",
    )


def fracture(joint: Joint, group: GroupFound) -> Missing:
    """Say what a break tells."""
    return Missing(
        _at(joint, "readings.fasteners.broken"),
        f"the fracture of number {', '.join(group.faults.broken)}, batch marks, and length and neck of the others",
        "eye, magnifier, vernier",
        "Flat with beach lines: fatigue, it was slack or bent. Cup and cone: overstretched. Bright and coarse: hard or "
        "cracked. Then probe its hole for depth and liquid.",
    )
