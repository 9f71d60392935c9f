"""Who takes part, where, and in which weight: the tables of the ground floor."""

from seeding.entries.models.entry import Entry, WeightClass
from seeding.entries.models.measured import GroupReason, Measured
from seeding.entries.models.people import Organisation, Role, User, Wrestler
from seeding.entries.models.tournament import Division, Team, Tournament

__all__ = [
    "Division",
    "Entry",
    "GroupReason",
    "Measured",
    "Organisation",
    "Role",
    "Team",
    "Tournament",
    "User",
    "WeightClass",
    "Wrestler",
]
