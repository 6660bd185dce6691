"""What is still missing before the fasteners of a joint can be tightened."""

from collections.abc import Sequence

from firedeck.fasteners.procedure import Procedure
from firedeck.fasteners.procedure_lines import ALL, Act, FastenerGroup
from firedeck.trace import Missing

_TOOL = "papers"
_TEXT = "joint.procedure.text"


def what_is_missing(
    procedure: Procedure | None, groups: Sequence[FastenerGroup], path: str = _TEXT
) -> tuple[Missing, ...]:
    """Find what the papers must still say.

    Parameters
    ----------
    procedure : Procedure or None
        The procedure as far as it is known; None when there is none [core].
    groups : sequence of FastenerGroup
        Groups of fasteners of the joint, with their labels [text].
    path : str
        Path of the text in the document [text].

    Returns
    -------
    tuple of Missing
        The procedure itself, a group without steps, a group of the text that the joint does not have, a
        group tightened in two ways, a lubrication nobody states; empty when it is complete [text].

    Source
    ------
    [common-practice] torque belongs to fastener, lubricant, washer and gasket together.

    Examples
    --------
    >>> from firedeck.fasteners.procedure_reading import parse
    >>> long, short = FastenerGroup("long", ("1", "2")), FastenerGroup("short", ("3",))
    >>> [gap.measure for gap in what_is_missing(parse("oiled; long: 60 N·m"), (long, short))]
    ['the tightening of group short']
    """
    if procedure is None:
        return (
            _missing(
                path, "the tightening procedure", "Torque, turns, stages and lubricant for every group."
            ),
        )
    found = [*_strangers(procedure, groups, path)]
    for group in groups:
        found += _of_group(procedure, group, path)
    return tuple(found)


def _of_group(procedure: Procedure, group: FastenerGroup, path: str) -> list[Missing]:
    split = [name for name in procedure.groups if _splits(procedure, name, group)]
    if split:
        how = f"The text tightens {', '.join(split)} in its own way: give it its own group in the document."
        return [_missing(path, f"one way of tightening for group {group.name}", how)]
    found = []
    tightened = any(step.act in (Act.TORQUE, Act.TURN) for step in procedure.fitted(group))
    if not tightened:
        how = "Torque, turns and stages for this group, from the papers of this engine and this gasket."
        found.append(_missing(path, f"the tightening of group {group.name}", how))
    if tightened and not procedure.lubrication(group):
        how = "Oiled, dry, sealer or as supplied, on threads and under heads: the torque is for that alone."
        found.append(_missing(path, f"the lubrication of group {group.name}", how))
    return found


def _splits(procedure: Procedure, name: str, group: FastenerGroup) -> bool:
    """Tell whether a group of the text covers some fasteners of this group and not the others."""
    members = {member.casefold() for member in dict(procedure.members).get(name, ())}
    labels = {label.casefold() for label in group.labels}
    return name != ALL and not procedure.concerns(name, group) and bool(labels & members)


def _strangers(procedure: Procedure, groups: Sequence[FastenerGroup], path: str) -> list[Missing]:
    """Find groups of the text that no group of the joint answers to."""
    names = ", ".join(group.name for group in groups) or "none"
    labels = {label.casefold() for group in groups for label in group.labels}
    found = []
    for name in procedure.groups:
        members = {member.casefold() for member in dict(procedure.members).get(name, ())}
        known = any(procedure.concerns(name, group) for group in groups) or bool(labels & members)
        if name != ALL and not known:
            how = f"The text tightens it, but the joint has {names}: name the group, or give it its labels."
            found.append(_missing(path, f"which fasteners are group {name}", how))
    return found


def _missing(path: str, measure: str, how: str) -> Missing:
    return Missing((path,), measure, _TOOL, how)
