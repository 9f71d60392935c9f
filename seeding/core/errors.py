"""What the seeding room refuses.

Refusal
├── EnteredTwice     a wrestler stands twice among the entrants of a weight
├── NotInTheField    a reason is asked for a wrestler who is not entered
├── QualifyingRefusal
│   ├── NoLineFor        the rule book's lines have none for a place of a region
│   ├── SpotTwice        two entries hold one place of a region
│   ├── NoSpot           an entry came neither by place nor by wild card
│   ├── NoPlan           nobody has said yet how many advance
│   ├── TooLate          alternates stepped in until a stated time
│   ├── NobodyStandsBy   there is no alternate left
│   ├── PlaceHeld        nobody is missing whom an alternate could replace
│   └── StillQualified   entries came from this region
├── SeedsVoid        a seed was scratched and the order is not adopted anew
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


class QualifyingRefusal(Refusal):
    code = "qualifying"


class NoLineFor(QualifyingRefusal):
    code = "no-line-for"
    template = (
        "The rule book's plans of {lines} lines have none for {spots}. "
        "Correct the place or region, or fill the lines by seeds."
    )


class SpotTwice(QualifyingRefusal):
    code = "spot-twice"
    template = "{spot} is held by two entries, {one} and {other}. Correct one of them."


class NoSpot(QualifyingRefusal):
    code = "no-spot"
    template = (
        "{entry} of {weight} came neither by place nor by wild card, so no line is his. "
        "Say on the qualifying page for which region and place he is here."
    )


class NoPlan(QualifyingRefusal):
    code = "no-qualifying-plan"
    template = "Say first how many places of each region advance."


class TooLate(QualifyingRefusal):
    code = "too-late-for-alternates"
    template = "Alternates stepped in until {until}. Nobody steps in after that."


class NobodyStandsBy(QualifyingRefusal):
    code = "nobody-stands-by"
    template = "No alternate of {weight} is left to step in."


class PlaceHeld(QualifyingRefusal):
    code = "place-held"
    template = "{entry} has not left a place open: {why}."


class StillQualified(QualifyingRefusal):
    code = "still-qualified"
    template = "{count} entries came from region {letter}. Take them out of it first."


class SeedsVoid(Refusal):
    code = "seeds-void"
    template = (
        "A seed of {weight} was scratched, so by the rule book its order is adopted anew. "
        "Adopt it in the seeding room, then draw."
    )
