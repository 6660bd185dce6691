"""A finished picture: its SVG text, its words for those who cannot see it, and its size on paper."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Picture:
    """SVG text drawn in paper millimetres, so that a figure in it keeps its printed size; ``text`` is for a terminal."""

    svg: str
    alt: str
    width: float
    height: float
    text: str = ""
