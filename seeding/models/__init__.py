"""The tables of the seeding room."""

from seeding.models.order import Challenge, Override, OwnTeam, SeedOrder, Signature
from seeding.models.put_in import Ballot, BallotRank, Noted
from seeding.models.qualifying import Berth, QualifyingPlan, Region
from seeding.models.season import NotSame, PriorBout, StagedBout

__all__ = [
    "Ballot",
    "BallotRank",
    "Berth",
    "Challenge",
    "NotSame",
    "Noted",
    "Override",
    "OwnTeam",
    "PriorBout",
    "QualifyingPlan",
    "Region",
    "SeedOrder",
    "Signature",
    "StagedBout",
]
