"""The order of fewest violations, and how many others are as good."""

from seeding.core.violations.order import FewestViolations, Part, fewest_violations

__all__ = ["FewestViolations", "Part", "fewest_violations"]
