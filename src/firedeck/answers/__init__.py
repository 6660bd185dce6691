"""One file per question: findings and limits in, one answer out. Holds logic, calculates nothing."""
