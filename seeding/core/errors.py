"""What the seeding room refuses.

Refusal
├── EnteredTwice     a wrestler stands twice among the entrants of a weight
├── NotInTheField    a reason is asked for a wrestler who is not entered
└── SeasonRefusal    a season file is not kept
    ├── SeasonNotReady   it is not read yet, or something in it is wrong
    ├── SeasonKept       it was kept before
    └── SeasonMoved      somebody added wrestlers since it was read
"""

from seeding.journal.core.errors import Refusal


class EnteredTwice(Refusal):
    code = "entered-twice"
    template = "{wrestler} is entered twice at {weight}. Scratch one of the two entries."


class NotInTheField(Refusal):
    code = "not-in-the-field"
    template = "{wrestler} is not entered at {weight}, so there is nothing to compare."


class SeasonRefusal(Refusal):
    code = "season"


class SeasonNotReady(SeasonRefusal):
    code = "season-not-ready"
    template = "The file is not read to its end, or has problems. Nothing of it can be kept."


class SeasonKept(SeasonRefusal):
    code = "season-kept"
    template = "This file was taken in already. Send it again to see what it would still change."


class SeasonMoved(SeasonRefusal):
    code = "season-moved"
    template = "Wrestlers were added since this file was read. Let it be read again, and look."
