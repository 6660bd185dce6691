"""The source files the architecture tests look at."""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
SRC = ROOT / "src" / "firedeck"
GROUND = ("quantity", "trace", "terms", "tables")
PHYSICS = ("surfaces", "cylinder", "fasteners", "gasket", "diagnosis", "joint", "fem")
FACES = ("drawing", "report", "web", "cli")


def files(*rooms: str) -> list[Path]:
    """Return the Python files of some rooms that are built, or of all."""
    folders = [SRC / room for room in rooms] if rooms else [SRC]
    return sorted(file for folder in folders for file in folder.rglob("*.py"))


def tree(file: Path) -> ast.Module:
    return ast.parse(file.read_text(encoding="utf-8"))


@cache
def called_from_elsewhere() -> frozenset[tuple[str, str]]:
    """Return (room, name) of everything a file imports from another room, and all a room exports."""
    found = set()
    for file in files():
        room = file.relative_to(SRC).parts[0]
        for node in ast.walk(tree(file)):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("firedeck."):
                parts = (node.module or "").split(".")
                if parts[1] != room or file.name == "__init__.py":
                    found |= {(parts[1], alias.name) for alias in node.names}
    return frozenset(found)


def public_functions(file: Path) -> Iterator[ast.FunctionDef]:
    """Go through the functions of a file that other rooms call."""
    room = file.relative_to(SRC).parts[0]
    for node in tree(file).body:
        if isinstance(node, ast.FunctionDef) and (room, node.name) in called_from_elsewhere():
            yield node


def short(file: Path) -> str:
    return str(file.relative_to(SRC))
