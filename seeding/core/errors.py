"""What the seeding room refuses.

Refusal
├── EnteredTwice     a wrestler stands twice among the entrants of a weight
└── NotInTheField    a reason is asked for a wrestler who is not entered
"""

from seeding.journal.core.errors import Refusal


class EnteredTwice(Refusal):
    code = "entered-twice"
    template = "{wrestler} is entered twice at {weight}. Scratch one of the two entries."


class NotInTheField(Refusal):
    code = "not-in-the-field"
    template = "{wrestler} is not entered at {weight}, so there is nothing to compare."
