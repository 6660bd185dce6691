"""``firedeck procedure``: a tightening procedure in plain words."""

import argparse
from typing import TYPE_CHECKING, Any

from firedeck.cli.options import Options, add_json
from firedeck.cli.printing import print_json

if TYPE_CHECKING:
    from firedeck.fasteners.procedure import Procedure


def arguments(options: Options) -> None:
    """Say what may be typed after ``procedure``."""
    options.add_argument(
        "text",
        metavar="TEXT",
        help='as the papers write it, in quotes: "oiled; 30 N·m; +90°; after 1000 km cold +30°"',
    )
    add_json(options)


def run(options: argparse.Namespace) -> None:
    """Read the procedure and say it line by line."""
    from firedeck.fasteners.procedure_reading import parse
    from firedeck.fasteners.procedure_words import explain

    procedure = parse(options.text)
    groups = [_group(procedure, group) for group in procedure.groups]
    if options.json:
        print_json({"text": _written(procedure), "explained": list(explain(procedure)), "groups": groups})
        return
    print("\n".join([*explain(procedure), "", *(line for group in groups for line in _as_text(group))]))


def _written(procedure: "Procedure") -> str:
    from firedeck.fasteners.procedure_words import write

    return write(procedure)


def _group(procedure: "Procedure", name: str) -> dict[str, Any]:
    """Return what a group ends at, how far it is turned past it, and what is due later."""
    from firedeck.trace import spoken

    torque, turn, floor = procedure.final_torque(name), procedure.total_angle(name), procedure.floor(name)
    note = procedure.into_yield(name)
    return {
        "group": name,
        "final_torque": str(torque) if torque else None,
        "turn_past_it": turn.text if turn else None,
        "at_least": str(floor) if floor else None,
        "retorque": procedure.needs_retorque(name),
        "lubricants": [line.text for line in procedure.lubrication(name)],
        "assumptions": [f"{note.text} ({spoken(note.source)})"] if note else [],
    }


def _as_text(group: dict[str, Any]) -> list[str]:
    turn = f", then turned {group['turn_past_it']} past it" if group["turn_past_it"] else ""
    lines = [f"{group['group']}: last torque {group['final_torque'] or 'none written'}{turn}"]
    if group["at_least"]:
        lines.append(f"  must stand at {group['at_least']} or more at the end")
    lines.append(f"  lubricant: {', '.join(group['lubricants']) or 'the text says none: look in the papers'}")
    lines.append(
        f"  tightened again after running: {'yes' if group['retorque'] else 'the text says nothing of it'}"
    )
    return lines + [f"  taken as given: {text}" for text in group["assumptions"]]
