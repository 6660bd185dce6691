"""Signs of a leak as the document tells them, in the words of the evidence table; and causes ruled out by construction."""

from collections.abc import Iterator

from firedeck.diagnosis import air_that_counts, compression_signs, leak_down_signs
from firedeck.diagnosis.compression import compression_spread
from firedeck.errors import OutOfRange
from firedeck.findings.air_tests import LeakDownRead
from firedeck.findings.banks import banks
from firedeck.findings.cooling import AIR
from firedeck.findings.tests import Compression, TestsRead
from firedeck.findings.valve_gear import sealed_by
from firedeck.job import Job
from firedeck.tables import rows
from firedeck.tables.work import Words, lines
from firedeck.trace import Missing

Signs = dict[str, bool]
AIR_PLACES = {"filler": "sump"}


def told(place: str, words: tuple[str, ...], book: str) -> Signs:
    """Turn words of the document into signs; a thing seen wins over one not seen."""
    signs: Signs = {}
    for row in rows("symptom_signs"):
        if (row["place"], row["book"]) == (place, book) and row["said"] in words:
            signs[row["sign"]] = signs.get(row["sign"], False) or row["value"] == "yes"
    return signs


def leak_signs(job: Job, read: TestsRead | Missing) -> Signs:
    """Return every sign of a leak that the document holds."""
    document = job.document
    signs = told("symptom", document.symptoms.seen, "leak")
    signs |= told("bore", document.tests.bores_seen, "leak")
    signs |= _of_coolant(job)
    signs |= dict.fromkeys(document.tests.not_shown, False)
    signs |= dict.fromkeys(document.tests.shown, True)
    if isinstance(read, TestsRead):
        if read.compression:
            signs |= _of_compression(job, read.compression)
        if read.leak_down and read.leak_down.goes and read.leak_down.reference != "as-bad":
            signs |= _of_air(read.leak_down)
    return signs


def _of_air(read: LeakDownRead) -> Signs:
    """Where the air goes; of cylinders whose loss is known only what stands out counts."""
    goes = {label: {AIR_PLACES.get(place, place)} - {"nowhere"} for label, place in read.goes.items()}
    lost = {label: read.lost[label].share for label in read.lost}
    if len(lost) < 2 or any(label not in lost for label in goes):
        return leak_down_signs(sorted(set().union(*goes.values())))
    counts = air_that_counts([goes.get(label, set()) for label in lost], list(lost.values()))
    return leak_down_signs(sorted(counts), list(lost.values()))


def _of_compression(job: Job, compression: Compression) -> Signs:
    """Take the head under which the lowest cylinder is; with one cylinder there nothing is compared."""
    spread = compression.spread
    if spread is None:
        return _of_some(job, compression)
    worst = compression.worst
    labels = banks(job)[worst.joint] if worst else tuple(compression.readings)
    places = [place for place, label in enumerate(compression.readings) if label in labels]
    highest = max(spread.readings)
    own = [spread.readings[place] for place in places]
    if not worst or len(own) == len(spread.readings):
        return compression_signs(spread)
    try:
        bank = compression_spread((*own, highest))
    except OutOfRange:
        return {}
    signs = compression_signs(bank)
    if spread.wet and worst:
        low = [one for one in spread.wet if one.cylinder - 1 in places and one.cylinder in spread.suspects]
        signs["wet-gain-on-low"] = any(one.rings for one in low)
    return signs


def _of_some(job: Job, compression: Compression) -> Signs:
    """Read two neighbours that alone were found low against the papers."""
    low = [label for label, step in compression.of_expected.items() if step.value < LOW_SHARE]
    for labels in banks(job).values():
        places = [labels.index(label) for label in low if label in labels]
        if len(places) == 2 and abs(places[0] - places[1]) == 1:
            return {"compression-adjacent-pair-low": True}
    return {}


LOW_SHARE = 0.75
"""Share of the figure of the papers from which a cylinder read alone is called low: the widest rule in use."""


def _of_coolant(job: Job) -> Signs:
    coolant = job.document.tests.coolant
    signs: Signs = {}
    if coolant.drop is not None:
        signs["pressure-drops"] = coolant.drop.value > 0.0
    answered = {
        "gas-in-coolant": coolant.gas_in_coolant,
        "hose-hard-in-first-minute": coolant.hose_hard_when_cold,
        "drips-outside-under-pressure": coolant.outside_leak,
        "cap-fails": {"leaks": "yes", "holds": "no"}.get(coolant.cap or ""),
    }
    signs |= {name: said == "yes" for name, said in answered.items() if said in ("yes", "no")}
    if coolant.liquid_in_bore and coolant.liquid_in_bore.strip().lower() not in ("none", "no", "dry"):
        signs["coolant-in-bore"] = True
    return signs


def ruled_out(book: str, words: Words) -> dict[str, str]:
    """Return causes this engine cannot have, each with the reason."""
    wanted = {row["key"] for row in rows("cannot_have") if row["book"] == book}
    return {line.key: line.text for line in lines("cannot_have", words) if line.key in wanted}


def known_to_have(book: str, words: Words) -> tuple[str, ...]:
    """Return causes whose part this engine is known to have."""
    wanted = {row["key"] for row in rows("must_have") if row["book"] == book}
    return tuple(line.key for line in lines("must_have", words) if line.key in wanted)


def words_of(job: Job) -> Words:
    """Return the words of construction that rule causes out."""
    return frozenset(_words(job))


def _words(job: Job) -> Iterator[str]:
    engine = job.engine
    yield from (word for word in (engine.fuel, engine.duty, engine.charging, engine.arrangement) if word)
    yield sealed_by(job)
    if job.document.running.coolant == "air":
        yield AIR
    for joint in job.joints:
        yield f"liners-{joint.block.liners or 'unknown'}"
    if all(len(labels) < 2 for labels in banks(job).values()):
        yield "bores-apart"
