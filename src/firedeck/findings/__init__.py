"""One file per finding: a job in, a frozen result or what is missing for it out."""
