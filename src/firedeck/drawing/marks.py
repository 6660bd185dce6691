"""Our marks for states and outcomes: full is firm, half on the edge, hollow not known, a cross fails."""

STATE_MARKS = {"decided": "●", "close": "◐", "open": "○", "not-applicable": "–"}
OUTCOME_MARKS = {"holds": "●", "at-limit": "◐", "fails": "×", "cannot-tell": "○"}
