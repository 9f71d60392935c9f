"""What can happen in a random tournament."""

from enum import StrEnum


class Event(StrEnum):
    """Things that a tournament is made to go through; the order is that of the table."""

    SCRATCH = "scratch"
    NO_SHOW = "no-show"
    LATE_CHANGE = "late change"
    WITHDRAWAL = "withdrawal"
    NOBODY_WINS_A_FINAL = "double DQ in final"
    MISCONDUCT = "misconduct"
    CORRECTED = "corrected"
    STANDS = "corrected: stands"
    VOID = "corrected: void"
    AGAIN = "corrected: again"
    RULED_SIDES = "ruled sides"
    RULED_RESULT = "ruled result"
    RULED_ADVANCEMENT = "ruled advancement"
    RULED_PLACE = "ruled place"


CHOICES = (Event.STANDS, Event.VOID, Event.AGAIN)
SEATS = (Event.RULED_SIDES, Event.RULED_ADVANCEMENT)
ANYWHERE = tuple(one for one in Event if one not in (*CHOICES, *SEATS))
"""What can happen in a pool too: there everybody meets everybody, whatever is corrected."""

BRACKET = tuple(one for one in Event if one is not Event.CORRECTED)
