"""A job in, everything firedeck says about it out."""

from firedeck.assess.assess import assess, assess_question
from firedeck.assess.assessment import Assessment
from firedeck.assess.plain import plain

__all__ = ["Assessment", "assess", "assess_question", "plain"]
