"""Published figures, each with its source, and whose limit wins."""

from firedeck.tables.book import Row, one, rows
from firedeck.tables.limits import Picked, pick, published_limits

__all__ = ["Picked", "Row", "one", "pick", "published_limits", "rows"]
