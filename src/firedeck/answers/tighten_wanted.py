"""What else is found out before a joint is tightened."""

from collections.abc import Iterator

from firedeck.job import Job, Joint
from firedeck.trace import Missing

CHECKED = ("this-year", "against-a-beam")


def head_marks(joint: Joint, group: str) -> Missing:
    """Say how the class of a bolt is read."""
    return Missing(
        (f"joint.{joint.name}.fasteners.{group}.class", f"joint.{joint.name}.fasteners.{group}.head_marks"),
        f"head marks of group {group}: its strength class",
        "wire brush, eye",
        "8.8, 10.9 or 12.9 on the head; on inch bolts three lines or six. Letters alone name the maker. No mark: no new "
        "set is tightened to these papers until its seller names the class.",
    )


def what_does_not_agree(joint: Joint, group: str) -> Missing:
    """Say what to read again where the papers' own torque would take a bolt past yield."""
    place = f"joint.{joint.name}.fasteners.{group}"
    return Missing(
        (f"{place}.class", f"{place}.lubricant", f"joint.{joint.name}.procedure.text"),
        f"group {group}: class on the heads, lubricant the torque is written for, and the torque page of this very bolt",
        "wire brush, eye, the papers",
        "One of the three is not as written down: marks read wrongly, a torque meant for dry threads used with oil or "
        "sealer, or the figure of another thread or unit. Nothing is tightened until they agree.",
    )


def wrench_length() -> Missing:
    """Say how long a wrench is."""
    return Missing(
        ("tools.wrench.length", "tools.wrench.adapter_set"),
        "length of the torque wrench from the middle of the grip to its square, and how the adapter sits on it",
        "rule",
        "Straight out it lengthens the wrench and the setting goes down; square to the wrench the torque itself is set.",
    )


def also(job: Job, joint: Joint) -> Iterator[Missing]:
    """Name what the bench can find out while the papers are looked for."""
    if any(not group.thread for group in joint.fasteners) or not joint.fasteners:
        yield Missing(
            (f"joint.{joint.name}.fasteners",),
            "thread, size and head marks of every group",
            "vernier, thread gauge",
            "A torque that sounds little may be right for a small thread: diameter and pitch tell.",
        )
    if any(group.kind == "stud" and group.hole_depth is None for group in joint.fasteners):
        yield Missing(
            (f"joint.{joint.name}.fasteners",),
            "depth of each stud's hole against the thread of the stud",
            "depth gauge, vernier",
            "The stud goes in by hand until it stops; where the hole is deeper than its thread the run-out wedges.",
        )
    wrench = job.document.tools.wrench
    if wrench is not None and wrench.checked not in CHECKED:
        yield Missing(
            ("tools.wrench.checked",),
            "whether the torque wrench tells the truth",
            "another wrench, best a beam one",
            "Pull one against the other at the last torque, square to square.",
        )
