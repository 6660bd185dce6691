"""What is still wanted of liners and barrels, and what happens when they are closed up as they stand."""

from firedeck.findings.liners import Liners
from firedeck.job import Joint
from firedeck.trace import Missing

ANYWAY = {
    "wet": "A low or uneven liner lets the ring breathe: it burns there first, and the gas goes to water. "
    "Undoing it takes head, sump and liner out again.",
    "barrels": "Barrels of unequal length let the gas out at the short one, and the head is bent over the long one "
    "and cracks. "
    "Undoing it takes head and barrels off again.",
    "dry": "The ring bridges the step beside the liner and burns through there. "
    "Undoing it takes the head off and the block out.",
    "cast-in": "The ring rides on the liner and its body hangs over sunk alloy: water creeps and the ring is hammered. "
    "Undoing it takes the head off and the block out.",
}


def ask_step_rule(joint: Joint) -> Missing:
    """Ask which readings the book compares from liner to liner."""
    return Missing(
        paths=(f"joint.{joint.name}.block.liner_step_by",),
        measure="the rule of the book for the step between neighbours: means of each liner, or highest readings",
        tool="the engine's manual",
        how="Look where the step is given; write means or highest. Here the two decide differently.",
    )


def clamp_and_read(joint: Joint) -> Missing:
    """Say how liners are clamped for reading."""
    return Missing(
        paths=(f"joint.{joint.name}.block.liners_clamped", f"joint.{joint.name}.readings.liners"),
        measure="liner protrusion once more, with the liners held down as the book says",
        tool="clamps or washers under head bolts, indicator on a bridge",
        how="Clamp two opposite places of each flange at the book's torque, without rubber rings, and read between them.",
    )


def read_all_round(joint: Joint, liners: Liners) -> Missing:
    """Ask for three or four readings round each liner."""
    names = ", ".join(liners.few) if liners.few else "every liner"
    return Missing(
        paths=(f"joint.{joint.name}.readings.liners",),
        measure=f"protrusion at three or four places round liner {names}, on both sides of it",
        tool="indicator on a bridge",
        how="12, 3, 6 and 9 o'clock; a seat that is not square shows only between opposite readings.",
    )


def find_limit(joint: Joint, liners: Liners) -> Missing:
    what = "barrel length" if liners.what == "barrels" else "liner protrusion"
    return Missing(
        paths=(f"joint.{joint.name}.limits", f"joint.{joint.name}.block.liner_rule"),
        measure=f"limits of {what}, step between neighbours and spread round one: no book limit known",
        tool="the engine's manual or the sheet with the gasket",
        how="Note least and most stand, the step allowed between neighbours, how the book clamps, and whether highest or "
        "mean readings are compared.",
    )
