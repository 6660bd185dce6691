"""The job document: schema, reading, writing, changes."""

from firedeck.job.change import Change
from firedeck.job.reading import Job, read_file, read_text
from firedeck.job.schema.document import FORMAT, Document
from firedeck.job.schema.engine import Engine
from firedeck.job.schema.joint import Joint

__all__ = ["FORMAT", "Change", "Document", "Engine", "Job", "Joint", "read_file", "read_text"]
