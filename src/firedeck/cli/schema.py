"""``firedeck schema``: the JSON Schema of the job document."""

import argparse

from firedeck.cli.options import Options
from firedeck.cli.printing import print_json


def arguments(_options: Options) -> None:
    """Take nothing after ``schema``."""


def run(_options: argparse.Namespace) -> None:
    """Print the schema."""
    from firedeck.job import Document

    drawn = Document.model_json_schema()
    print_json(
        {"$schema": "https://json-schema.org/draft/2020-12/schema", **drawn, "title": "firedeck job document"}
    )
