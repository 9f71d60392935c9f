"""What the seeding room refuses.

Refusal
├── EnteredTwice     a wrestler stands twice among the entrants of a weight
├── NotInTheField    a reason is asked for a wrestler who is not entered
├── BadList          a file of criteria cannot be read: the file, the key, what is allowed
├── UnknownList      no list of criteria of that name is installed
├── CommitteeRefusal     the committee is not let do it
│   ├── OrderChanged     others did something to the order since it was looked at; also Stale
│   ├── MoveTooFar       the rule book limits how far a wrestler may be moved
│   ├── OwnWrestler      a member has no say over wrestlers of his own team
│   ├── LeftOpen         the list leaves places to the committee, which has not decided them
│   ├── ChallengesOpen   a challenge waits for its answer
│   ├── NotHeard         the rule book hears no challenges, or not this one
│   ├── WindowClosed     challenges were heard until a stated time
│   ├── Answered         the challenge has its answer
│   └── MinutesChanged   the minutes read otherwise than those that were to be signed
├── QualifyingRefusal
│   ├── NoLineFor        the rule book's lines have none for a place of a region
│   ├── SpotTwice        two entries hold one place of a region
│   ├── NoSpot           an entry came neither by place nor by wild card
│   ├── NoPlan           nobody has said yet how many advance
│   ├── TooLate          alternates stepped in until a stated time
│   ├── NobodyStandsBy   there is no alternate left
│   ├── PlaceHeld        nobody is missing whom an alternate could replace
│   ├── NotSteppedIn     an alternate is sent back who did not step in
│   └── StillQualified   entries came from this region
├── SeedsVoid        a seed was scratched and the order is not adopted anew
└── SeasonRefusal    a season file is not kept
    ├── SeasonNotReady   it is not read yet, or something in it is wrong
    ├── SeasonKept       it was kept before
    ├── SeasonMoved      somebody added wrestlers or bouts since it was read
    ├── TwoPeople        two wrestlers cannot be one: they met
    ├── BothEntered      two wrestlers cannot be one: both are entered in a weight
    └── NotStruck        a bout is struck already, or stands
"""

from seeding.journal.core.errors import NotFound, Refusal, Stale


class EnteredTwice(Refusal):
    code = "entered-twice"
    template = "{wrestler} is entered twice at {weight}. Scratch one of the two entries."


class NotInTheField(Refusal):
    code = "not-in-the-field"
    template = "{wrestler} is not entered at {weight}, so there is nothing to compare."


class BadList(Refusal):
    code = "bad-list"
    template = "The file {file} is not taken: {what}"


class UnknownList(NotFound):
    code = "unknown-list"
    template = "There is no list of criteria {name!r}. There are: {allowed}."


class CommitteeRefusal(Refusal):
    code = "committee"


class OrderChanged(CommitteeRefusal, Stale):
    code = "stale"
    template = (
        "The order of {weight} was changed in the meantime: {what}. "
        "Look at it as it is now, and repeat your change if it still stands."
    )


class MoveTooFar(CommitteeRefusal):
    code = "move-too-far"
    template = (
        "The rule book lets the committee move a wrestler by at most {most} from the place that "
        "the criteria give him. Choose for {wrestler} a place from {low} to {high}."
    )


class OwnWrestler(CommitteeRefusal):
    code = "own-wrestler"
    template = (
        "{wrestler} is of your own team, so you have no say over his place, "
        "and this would change it or decide about it. Leave it to another member of the committee."
    )


class LeftOpen(CommitteeRefusal):
    code = "left-open"
    template = (
        "The list leaves these to the committee: {groups}. Place each of them by a move with its "
        "reason, also one who stays where he stands; then adopt."
    )


class ChallengesOpen(CommitteeRefusal):
    code = "challenges-open"
    template = (
        "These challenges wait for an answer: {challenges}. Grant or refuse them; then adopt."
    )


class NotHeard(CommitteeRefusal):
    code = "not-heard"
    template = "This challenge is not heard: {why}."


class WindowClosed(CommitteeRefusal):
    code = "window-closed"
    template = "Challenges at {weight} are heard {when}. The committee may open the window again."


class Answered(CommitteeRefusal):
    code = "answered"
    template = "This challenge is {state} already."


class MinutesChanged(CommitteeRefusal):
    code = "minutes-changed"
    template = "The minutes of {weight} changed while you read them. Read them again, then sign."


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
    template = (
        "Wrestlers or bouts were added or changed since this file was read. "
        "Let it be read again, and look."
    )


class TwoPeople(SeasonRefusal):
    code = "two-people"
    template = (
        "{one} and {other} wrestled each other ({bout}), so they are two people. "
        "If the bout is wrong, strike it first."
    )


class BothEntered(SeasonRefusal):
    code = "both-entered"
    template = (
        "{one} and {other} are both entered at {weight} in {tournament}. "
        "If they are one person, take one of the two entries out of that weight first."
    )


class NotStruck(SeasonRefusal):
    code = "not-struck"
    template = "The bout is {state} already. Load the page again, and look."


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


class NotSteppedIn(QualifyingRefusal):
    code = "not-stepped-in"
    template = "{entry} did not step in for anybody."


class StillQualified(QualifyingRefusal):
    code = "still-qualified"
    template = "{count} entries came from region {letter}. Take them out of it first."


class SeedsVoid(Refusal):
    code = "seeds-void"
    template = (
        "A seed of {weight} was scratched, and by the list of criteria its order is then adopted "
        "anew. Adopt it in the seeding room, then draw."
    )
