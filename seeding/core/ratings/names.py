"""The ratings by name; apart from their arithmetic, which is heavy to load."""

from enum import StrEnum


class Rating(StrEnum):
    """What may be asked for as a criterion."""

    COLLEY = "colley"
    MASSEY = "massey"
    BRADLEY_TERRY = "bradley-terry"
    PAGERANK = "pagerank"
    GLICKO_2 = "glicko-2"
