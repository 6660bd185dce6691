"""The page: the same answers as on the terminal and on paper, for this machine only unless asked otherwise.

serving    starting the server
app        the routes
guards     who may look, and what a page may load
jobs       which documents the page shows
pages      the pages
parts      the pieces of a page
working    what takes long, in a thread of its own
waiting    what is not worked out yet, and how far it is
in_full    one answer with everything it rests on
addresses  where everything lies
"""

from firedeck.web.serving import serve

__all__ = ["serve"]
