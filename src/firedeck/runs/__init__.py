"""Long work: condensing head and block in processes of their own, with a cache, progress and an end on demand.

request   what is condensed, in a fixed order, and its key
child     a process that condenses bodies or pieces of them; hands: the two of them; tasks: what they are given
cache     folders of what has been condensed and studied: checked, bounded, one writer at a time
condensing   the two together: bodies from the cache or from the hands
castings  which bodies the study of an engine needs, and how they are put together
studying  the study of a joint, from the cache or worked out; plain_results as text and back
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from firedeck.runs.cache import Cache, cache_folder
    from firedeck.runs.castings import Castings
    from firedeck.runs.condensing import Stopped, Wanted, bodies, flexibility
    from firedeck.runs.request import JointRequest
    from firedeck.runs.studying import (
        EngineRequest,
        StudyRequest,
        condensed_already,
        kept_study,
        still_to_condense,
        study,
    )
else:
    from importlib import import_module

    _HOMES = {
        "cache": ("Cache", "cache_folder"),
        "castings": ("Castings",),
        "condensing": ("Stopped", "Wanted", "bodies", "flexibility"),
        "request": ("JointRequest",),
        "studying": (
            "EngineRequest",
            "StudyRequest",
            "condensed_already",
            "kept_study",
            "still_to_condense",
            "study",
        ),
    }

    def __getattr__(name: str) -> object:
        """Names of this room when they are first asked for: a child process needs none of them."""
        for home, names in _HOMES.items():
            if name in names:
                return getattr(import_module(f"firedeck.runs.{home}"), name)
        raise AttributeError(name)


__all__ = [
    "Cache",
    "Castings",
    "EngineRequest",
    "JointRequest",
    "Stopped",
    "StudyRequest",
    "Wanted",
    "bodies",
    "cache_folder",
    "condensed_already",
    "flexibility",
    "kept_study",
    "still_to_condense",
    "study",
]
