"""The tables of the seeding room."""

from seeding.models.order import Challenge, Override, OwnTeam, SeedOrder, Signature
from seeding.models.put_in import Ballot, BallotRank, Noted
from seeding.models.qualifying import Berth, QualifyingPlan, Region
from seeding.models.season import BothStand, NotSame, OtherName, PriorBout, StagedBout

__all__ = [
    "Ballot",
    "BallotRank",
    "Berth",
    "BothStand",
    "Challenge",
    "NotSame",
    "Noted",
    "OtherName",
    "Override",
    "OwnTeam",
    "PriorBout",
    "QualifyingPlan",
    "Region",
    "SeedOrder",
    "Signature",
    "StagedBout",
]
