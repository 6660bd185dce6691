"""Which low cylinders stand side by side: by their head, and in its order along the block."""

from collections.abc import Mapping
from dataclasses import dataclass

from firedeck.diagnosis import CompressionSpread
from firedeck.diagnosis.who_is_low import alike_runs
from firedeck.job import Job


@dataclass(frozen=True)
class Run:
    """Low cylinders side by side under one head whose readings are alike, and their mean [MPa]."""

    joint: str
    cylinders: tuple[str, ...]
    mean: float
    beside_another: bool

    @property
    def is_pair(self) -> bool:
        """Tell whether exactly two neighbours are low and alike."""
        return len(self.cylinders) == 2


def banks(job: Job) -> dict[str, tuple[str, ...]]:
    """Return the cylinders of each head, in the order along the block."""
    return {joint.name: joint.cylinders or job.engine.cylinders for joint in job.joints}


def neighbours_of(job: Job, label: str) -> tuple[str, ...]:
    """Return the cylinders beside one, under the same head."""
    for labels in banks(job).values():
        if label in labels:
            place = labels.index(label)
            return tuple(labels[at] for at in (place - 1, place + 1) if 0 <= at < len(labels))
    return ()


def low_runs(job: Job, readings: Mapping[str, float], spread: CompressionSpread) -> tuple[Run, ...]:
    """Part the low cylinders of every head into runs that are alike, the lowest pair first."""
    order = tuple(readings)
    low = {order[place - 1] for place in spread.suspects}
    runs = []
    for joint, labels in banks(job).items():
        read = [label for label in labels if label in readings]
        places = tuple(place for place, label in enumerate(read, start=1) if label in low)
        for part in alike_runs([readings[label] for label in read], places):
            names = tuple(read[place - 1] for place in part)
            beside = any(place in places and place not in part for place in (part[0] - 1, part[-1] + 1))
            runs.append(Run(joint, names, sum(readings[name] for name in names) / len(names), beside))
    return tuple(sorted(runs, key=lambda run: (not run.is_pair, run.mean)))
