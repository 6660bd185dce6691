"""The whole document, format 0."""

from typing import Any, Literal

from firedeck.job.schema.engine import About, Engine, History, Running, Tools
from firedeck.job.schema.fields import Part
from firedeck.job.schema.joint import Joint
from firedeck.job.schema.tests import Symptoms, Tests

FORMAT = 0


class Changes(Part):
    """[as_built]: the job as it left the factory, as values replaced by path."""

    changes: dict[str, Any] = {}


class Variant(Changes):
    """[[variant]]: another way to do the job, as values replaced by path."""

    name: str


class Document(Part):
    """One job, as read."""

    format: Literal[0]
    job: About
    engine: Engine
    tools: Tools = Tools()
    joint: tuple[Joint, ...]
    tests: Tests = Tests()
    symptoms: Symptoms = Symptoms()
    running: Running = Running()
    history: History = History()
    as_built: Changes = Changes()
    variant: tuple[Variant, ...] = ()
