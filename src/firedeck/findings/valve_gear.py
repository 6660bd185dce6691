"""Whether poppet valves seal the chamber: ported and sleeve-valve engines have none."""

from firedeck.job import Job

VALVED, PORTED = "valved", "ported"


def sealed_by(job: Job) -> str:
    """Return the word of the tables; an engine that does not say has valves."""
    return PORTED if job.engine.valve_gear in ("ports", "sleeve") else VALVED
