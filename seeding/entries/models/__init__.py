"""Who takes part, where, and in which weight: the tables of the ground floor."""

from seeding.entries.models.entry import Entry, WeightClass
from seeding.entries.models.people import Organisation, Role, User, Wrestler
from seeding.entries.models.tournament import Division, Team, Tournament

__all__ = [
    "Division",
    "Entry",
    "Organisation",
    "Role",
    "Team",
    "Tournament",
    "User",
    "WeightClass",
    "Wrestler",
]
