"""The page: the same answers as on the terminal and on paper, for this machine only unless asked otherwise.

serving   starting the server
app       the routes and their guards
jobs      which documents the page shows
pages     the pages
parts     the pieces of a page
"""

from firedeck.web.serving import serve

__all__ = ["serve"]
