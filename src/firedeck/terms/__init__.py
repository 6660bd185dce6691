"""One name, kind and plain word per quantity, for schema, sums, forms, guard and glossary."""

from firedeck.terms.book import PLACES, Term, all_terms, term

__all__ = ["PLACES", "Term", "all_terms", "term"]
