"""A job in, everything firedeck says about it out."""

from firedeck.assess.assess import assess
from firedeck.assess.assessment import Assessment
from firedeck.assess.plain import plain

__all__ = ["Assessment", "assess", "plain"]
