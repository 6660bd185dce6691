"""What is inside the wheel: data, templates, examples and the page's script, and nothing that is not ours to ship."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def names(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "build", "--wheel", "--outdir", str(folder), str(ROOT)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-2000:]
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        return archive.namelist()


@pytest.mark.parametrize(
    "name",
    [
        "firedeck/terms.toml",
        "firedeck/py.typed",
        "firedeck/answers/questions.toml",
        "firedeck/answers/stages.toml",
        "firedeck/tables/data/limits.csv",
        "firedeck/examples/inline-four.toml",
        "firedeck/report/cards.toml",
        "firedeck/web/static/htmx.min.js",
    ],
)
def test_the_wheel_holds(name: str, names: list[str]) -> None:
    assert name in names


def test_every_table_and_template_is_inside(names: list[str]) -> None:
    source = ROOT / "src" / "firedeck"
    data = [file for end in ("*.csv", "*.toml", "*.typ", "*.css") for file in source.rglob(end)]
    assert {f"firedeck/{file.relative_to(source).as_posix()}" for file in data} <= set(names)


def test_nothing_else_is_inside(names: list[str]) -> None:
    assert not [name for name in names if name.startswith("tests") or ".venv" in name]
    assert {name.split("/")[0] for name in names} <= {
        "firedeck",
        *(n.split("/")[0] for n in names if ".dist-info" in n),
    }
