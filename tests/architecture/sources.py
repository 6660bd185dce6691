"""The source files the architecture tests look at."""

import ast
from collections.abc import Iterator
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


def public_functions(file: Path) -> Iterator[ast.FunctionDef]:
    """Go through the functions of a file's top floor that other rooms may call."""
    if file.name.startswith("_"):
        return
    for node in tree(file).body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node


def short(file: Path) -> str:
    return str(file.relative_to(SRC))
