"""The file a picture is drawn into."""

from pathlib import Path

from firedeck.errors import JobError


def svg_file(given: str | None, document: str) -> Path | None:
    """Take the name of an SVG file that is not the document itself; None where none was given."""
    if given is None:
        return None
    file = Path(given)
    if file.suffix.lower() != ".svg":
        raise JobError("--picture", repr(given), "a name that ends in .svg")
    if file.resolve() == Path(document).resolve() or file.is_dir():
        raise JobError("--picture", repr(given), "another file")
    return file
