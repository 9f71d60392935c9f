"""The writers of the season: files staged and kept, wrestlers merged, bouts struck."""

from seeding.services.season.bouts import let_both_stand, put_back_bout, strike_bout
from seeding.services.season.keeping import Word, commit_season
from seeding.services.season.people import keep_apart, merge_wrestlers
from seeding.services.season.staging import CLEAR, READ, clear_stage, queue_season, stage_season

__all__ = [
    "CLEAR",
    "READ",
    "Word",
    "clear_stage",
    "commit_season",
    "keep_apart",
    "let_both_stand",
    "merge_wrestlers",
    "put_back_bout",
    "queue_season",
    "stage_season",
    "strike_bout",
]
