"""Docs stay in step with what they are made from."""

import re
import subprocess
import sys

from architecture.sources import ROOT, files

from firedeck.tables import rows
from firedeck.trace import FIXED


def test_generated_pages_are_in_step():
    command = [sys.executable, "docs/generate.py", "--check"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_every_table_row_names_a_source_we_list():
    listed = set(FIXED) | set(
        re.findall(r"^## (\S+)", (ROOT / "docs/sources.md").read_text(encoding="utf-8"), re.M)
    )
    wrong = []
    for file in sorted((ROOT / "src/firedeck/tables/data").glob("*.csv")):
        for row in rows(file.stem):
            keys = [key.strip() for key in row["source"].split(";")]
            wrong += [(file.name, key) for key in keys if key not in listed]
    assert not wrong


def test_sources_are_listed_once():
    keys = re.findall(r"^## (\S+)", (ROOT / "docs/sources.md").read_text(encoding="utf-8"), re.M)
    assert len(keys) == len(set(keys)) > 10


def test_commands_of_the_readme_exist():
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    words = set(re.findall(r"^    firedeck (\w+)", readme, re.M))
    app = "\n".join(file.read_text(encoding="utf-8") for file in files("cli"))
    assert words
    assert all(word in app for word in words)


def test_docs_link_to_files_that_exist():
    links = [
        (page, link)
        for page in [*ROOT.glob("*.md"), *ROOT.glob("docs/**/*.md")]
        for link in re.findall(r"\]\(([^)#:]+?)(?:#[^)]*)?\)", page.read_text(encoding="utf-8"))
    ]
    assert not [(page.name, link) for page, link in links if not (page.parent / link).exists()]
