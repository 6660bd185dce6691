"""What the room hands out."""

import subprocess
import sys

import firedeck.quantity as room
from firedeck.quantity import Kind


def test_all_names_exist() -> None:
    assert [name for name in room.__all__ if not hasattr(room, name)] == []


def test_kinds_are_the_words_of_the_terms() -> None:
    words = (
        "length, finish, area, volume, angle, force, torque, stress, pressure-gauge, pressure-absolute, "
        "temperature, temperature-change, stiffness, line-load, mass, specific-energy, time, distance, "
        "speed, ratio, share, count, hardness, choice, text"
    )
    assert ", ".join(Kind) == words


def test_nothing_heavy_is_imported() -> None:
    """The room is the first thing every command needs."""
    heavy = "{'numpy', 'pint', 'pydantic', 'scipy'}"
    code = f"import sys, firedeck.quantity; print(sorted({heavy} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
