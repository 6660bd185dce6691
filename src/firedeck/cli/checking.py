"""``firedeck check``: every answer for one job or several."""

import argparse

from firedeck.cli.files import assessed, read_jobs
from firedeck.cli.options import Options, add_json, add_units, one_of
from firedeck.cli.printing import print_json
from firedeck.cli.terminal import overview


def stage_names() -> list[str]:
    """Return the stages in the order of the work."""
    from firedeck.answers.questions import stages

    return list(stages())


def arguments(options: Options) -> None:
    """Say what may be typed after ``check``."""
    options.add_argument("files", nargs="+", metavar="FILE", help="a job document, such as job.toml")
    options.add_argument(
        "--stage",
        metavar="ID",
        type=one_of("--stage", stage_names),
        help="only the questions of this stage of the work",
    )
    add_json(options)
    add_units(options)


def run(options: argparse.Namespace) -> None:
    """Check each document and print its answers."""
    jobs = read_jobs(options.files)
    found = [assessed(job, options.stage) for job in jobs]
    if options.json:
        print_json(found[0] if len(found) == 1 else {"jobs": found})
        return
    texts = [overview(one, file, options.units) for one, file in zip(found, options.files, strict=True)]
    print("\n\n".join(texts))
