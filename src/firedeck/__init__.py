"""firedeck: answers for the cylinder head on the bench."""

__version__ = "0.1.0"
