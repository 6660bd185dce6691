"""``firedeck serve``: the page."""

import argparse
from pathlib import Path

from firedeck.cli.files import read_jobs
from firedeck.cli.options import Options
from firedeck.errors import JobError

PORT = 8577


def _port(given: str) -> int:
    if not given.isascii() or not given.isdigit() or not 1024 <= int(given) <= 65535:
        raise JobError("--port", repr(given), "allowed: a whole number from 1024 to 65535")
    return int(given)


def arguments(options: Options) -> None:
    """Say what may be typed after ``serve``."""
    options.add_argument(
        "files", metavar="FILE", nargs="*", help="job documents; left out: those of this folder"
    )
    options.add_argument("--port", metavar="NUMBER", type=_port, default=PORT, help=f"left out: {PORT}")
    options.add_argument(
        "--open-network",
        action="store_true",
        help="let other machines of the garage see the page; without it only this one does",
    )


def run(options: argparse.Namespace) -> None:
    """Serve until it is stopped."""
    from firedeck.web import serve

    read_jobs(options.files)
    serve([Path(name) for name in options.files], port=options.port, open_network=options.open_network)
