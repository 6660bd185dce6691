"""``firedeck explain``: one answer in full."""

import argparse

from firedeck.cli.files import long_work, read_jobs
from firedeck.cli.in_full import in_full
from firedeck.cli.options import Options, add_json, add_units, nearest
from firedeck.cli.printing import print_json
from firedeck.errors import JobError


def arguments(options: Options) -> None:
    """Say what may be typed after ``explain``."""
    options.add_argument("file", metavar="FILE", help="a job document, such as job.toml")
    options.add_argument(
        "question", metavar="QUESTION", help="name of a question, as check prints it in brackets"
    )
    options.add_argument("--joint", metavar="NAME", help="only this head, where a job has several")
    add_json(options)
    add_units(options)


def run(options: argparse.Namespace) -> None:
    """Answer the question for each head it is asked of."""
    from firedeck.answers.questions import questions
    from firedeck.assess import assess_question, plain

    if options.question not in questions():
        raise JobError("explain", repr(options.question), nearest(options.question, list(questions())))
    (job,) = read_jobs([options.file])
    joints = [joint.name for joint in job.joints]
    if options.joint is not None and options.joint not in joints:
        raise JobError("--joint", repr(options.joint), nearest(options.joint, joints))
    said = plain(assess_question(job, options.question, long_work()))
    answers = [
        answer
        for answer in said["answers"]
        if (options.joint is None or answer["joint"] in (None, options.joint))
    ]
    if options.json:
        print_json(
            {"format": said["format"], "job": said["job"], "revision": said["revision"], "answers": answers}
        )
    else:
        print("\n\n".join(in_full(answer, options.units) for answer in answers))
