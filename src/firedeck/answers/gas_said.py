"""What is said of the gas beside the clamp: its peak beside standard, what knock adds, its force on the head."""

from collections.abc import Iterator

from firedeck.answers.making import both
from firedeck.findings.gas import Gas, force_on_head
from firedeck.job import Job, Joint
from firedeck.quantity import Kind, show_both
from firedeck.trace import DERIVED, GENERIC, Note


def of_the_gas(job: Job, joint: Joint, gas: Gas) -> Iterator[Note]:
    """Say the peak with its band, always beside the engine as it left the factory, and what it pushes with."""
    if gas.peak is None:
        return
    yield from gas.peak.notes
    if not gas.peak.from_papers:
        low, high = both(gas.peak.band.low, "peak"), both(gas.peak.band.high, "peak")
        yield Note(f"Peak pressure worked out: {both(gas.peak.value, 'peak')}, {low} to {high}.", GENERIC)
    yield _beside_standard(gas)
    pushed = force_on_head(job, joint, gas.peak.value)
    if pushed is not None:
        force = show_both(pushed.force, Kind.FORCE)
        across = both(pushed.across, "gasket_bore")
        text = f"At that peak the gas lifts the head with {force} over each bore, inside {across}"
        yield Note(f"{text} ({pushed.of}).", DERIVED)


def _beside_standard(gas: Gas) -> Note:
    if gas.as_built is None or gas.share is None:
        text = "What it was as it left the factory is not known: write the boost before, and what was changed since."
        return Note(text, GENERIC)
    if gas.same:
        return Note(
            "That is the peak it had as it left the factory: nothing that makes it has changed.", DERIVED
        )
    before = both(gas.as_built.value, "peak")
    text = f"As it left the factory it was {before}: now {gas.share.value:.2f} of that; the share is surer than either."
    return Note(text, DERIVED)
