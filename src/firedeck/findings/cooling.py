"""What cools the engine: as written down, or taken from its arrangement and said to be taken."""

from firedeck.job import Job
from firedeck.trace import Missing

AIR, LIQUID = "air-cooled", "liquid-cooled"
SAID = "running.coolant"


def cooled_by(job: Job) -> str:
    """Return the word of the tables: by liquid unless the document says air; separate barrels stand in air."""
    coolant = job.document.running.coolant
    if coolant is None:
        return AIR if job.engine.arrangement == "barrels" else LIQUID
    return AIR if coolant == "air" else LIQUID


def taken(job: Job) -> tuple[str, ...]:
    """Say what was taken, where the document is silent and the arrangement leaves both open."""
    if job.document.running.coolant is not None or job.engine.arrangement not in ("single", "barrels"):
        return ()
    return (f"what cools it is not written down ({SAID}): taken as {cooled_by(job).replace('-', ' ')}",)


def asked(job: Job) -> tuple[Missing, ...]:
    """Ask what cools it, where both are open."""
    if not taken(job):
        return ()
    return (
        Missing(
            (SAID,),
            "what cools the engine: air, water or a mixture",
            "eye",
            'Fins and a cowl, no radiator: write coolant = "air" under [running]; every line about coolant then goes.',
        ),
    )
