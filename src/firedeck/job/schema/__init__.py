"""The sections of the document as types."""
