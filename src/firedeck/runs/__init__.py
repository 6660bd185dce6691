"""Long work: condensing head and block in processes of their own, with a cache, progress and an end on demand.

request   what is condensed, in a fixed order, and its key
child     the process that condenses one body
cache     folders of what has been condensed: checked, bounded, one writer at a time
condensing   the two together: a joint's flexibility, from the cache or from two children
"""

from firedeck.runs.cache import Cache, cache_folder
from firedeck.runs.condensing import Stopped, Wanted, bodies, flexibility
from firedeck.runs.request import JointRequest

__all__ = ["Cache", "JointRequest", "Stopped", "Wanted", "bodies", "cache_folder", "flexibility"]
