"""What results refuse.

Refusal
├── ResultRefusal             a result that cannot be as it is written
│   ├── WinnerMissing         the kind has a winner, none is named
│   ├── WinnerUnwanted        the kind has no winner, one is named
│   ├── PartMissing           the kind is written with a score or time, there is none
│   ├── PartUnwanted          the kind has no score, time, overtime or deciding time
│   ├── BadScore              not two whole numbers, winner first
│   ├── BadTime               not m:ss
│   ├── LoserAhead            the score is not winner first
│   ├── ScoreLevel            level, and riding time did not decide
│   ├── ScoreNotLevel         riding time decides only a level score
│   ├── KindContradicted      the margin is that of another kind
│   ├── OvertimeUnknown       the rule book has no such overtime
│   ├── DecidedByUnknown      nothing but riding time decides a level score
│   ├── RidingTimeNotHere     riding time cannot decide there
│   ├── MisconductNotHere     flagrant misconduct is a disqualification
│   └── WrestledAgain         the rule book has a no contest wrestled again
├── BoutAlreadyDecided        a result stands already
├── BoutNotOpen               its sides are not known, or it will not be wrestled
├── BoutVoid                  the number was of a bout that is void now
├── BoutHasNoResult           nothing to correct, undo or confirm
├── LaterBoutsWrestled        a later bout depends on it, and what becomes of it is not said
├── NotAsSeen                 what follows is not what was seen
├── ReasonMissing             a ruling, or voiding a bout, without a reason
├── InTwoBouts                somebody would stand in two open bouts at once
├── PlaceTaken                somebody else has the place, and it is not shared
├── NoSuchRuling              the tournament has no such ruling
├── RulingsStand              a draw is taken back over rulings or void bouts
├── AlreadyWithdrawn          the entry is out already
├── NotWithdrawn              the entry is not out
├── HasWrestled               a line changes on which somebody has a result
├── LeftBehindByes            a line moves whose man withdrew after a bye
├── ResultsRest               results rest on what was given to him who leaves
├── BoutsStand                a change of lines would lose results
├── RulingNames               a ruling stands on the lines that would change
├── GroupWrestled             a group that was formed after weigh-in has begun
├── NotPublished              a kind that its gate keeps closed
├── BoutsLeft                 the tournament is not over
└── PointsNotListed           the rule book has no points for so many places
"""

from seeding.journal.core.errors import NotFound, Refusal


class ResultRefusal(Refusal):
    code = "result"


class WinnerMissing(ResultRefusal):
    code = "winner-missing"
    template = "A {kind} has a winner. Say who won."


class WinnerUnwanted(ResultRefusal):
    code = "winner-unwanted"
    template = "Nobody wins a {kind}. Name no winner, or choose another kind."


class PartMissing(ResultRefusal):
    code = "part-missing"
    template = "A {kind} is written with its {part}, such as {example}. Add the {part}."


class PartUnwanted(ResultRefusal):
    code = "part-unwanted"
    template = "A {kind} has no {part}; {value} was given. Leave it out, or choose another kind."


class BadScore(ResultRefusal):
    code = "bad-score"
    template = "“{text}” is no score. Write two whole numbers, winner first, such as 7-3."


class BadTime(ResultRefusal):
    code = "bad-time"
    template = "“{text}” is no time of a bout. Write minutes and seconds, such as 2:28."


class LoserAhead(ResultRefusal):
    code = "loser-ahead"
    template = (
        "A {kind} {score}: the winner's score goes first and is the higher one. "
        "Name the other wrestler the winner, or change the points."
    )


class ScoreLevel(ResultRefusal):
    code = "score-level"
    template = (
        "A {kind} {score} is level. Somebody is ahead at the end; only riding time "
        "decides a level score, after {after}."
    )


class ScoreNotLevel(ResultRefusal):
    code = "score-not-level"
    template = "Riding time decides only a level tie-breaker; {score} is decided by its points."


class KindContradicted(ResultRefusal):
    code = "kind-contradicted"
    template = (
        "{score} is no {kind}: a {kind} is won by {span}; {margin} points apart is a {right}."
    )


class OvertimeUnknown(ResultRefusal):
    code = "overtime-unknown"
    template = "There is no overtime “{overtime}” in this rule book. It writes {known}."


class DecidedByUnknown(ResultRefusal):
    code = "decided-by-unknown"
    template = "“{decided_by}” decides no bout. Leave it out, or write “riding time”."


class RidingTimeNotHere(ResultRefusal):
    code = "riding-time-not-here"
    template = "Riding time cannot decide a {kind} in {overtime}. It decides a decision in {known}."


class MisconductNotHere(ResultRefusal):
    code = "misconduct-not-here"
    template = (
        "Flagrant misconduct ends a bout by disqualification, not by {kind}. "
        "Choose disqualification, or take the wrestler out of the tournament by himself."
    )


class WrestledAgain(ResultRefusal):
    code = "wrestled-again"
    template = (
        "In this rule book a no contest is wrestled again. Leave the bout open, or enter a "
        "double forfeit or double disqualification where that was ruled."
    )


class BoutAlreadyDecided(Refusal):
    code = "bout-already-decided"
    template = "Bout {bout} already has a result, {notation}. Correct that result instead."


class BoutNotOpen(Refusal):
    code = "bout-not-open"
    template = "Bout {bout} cannot be wrestled now, it is {status}. Look at the sheet."


class BoutVoid(NotFound):
    """`now`: how the bout is called that is wrestled in its place, mostly by a number."""

    code = "bout-void"
    template = "Bout {bout} is void; it is wrestled as bout {now} now."


class BoutHasNoResult(Refusal):
    code = "bout-has-no-result"
    template = "Bout {bout} has no result yet. Enter one."


class LaterBoutsWrestled(Refusal):
    code = "later-bouts-wrestled"
    template = (
        "Later bouts that this would change have results: {later}. Say of each whether it stands, "
        "is void or is wrestled again, or undo them first, the last one first."
    )


class NotAsSeen(Refusal):
    code = "not-as-seen"
    template = "What follows is not what you have seen. Look at it again, then repeat."


class ReasonMissing(Refusal):
    code = "reason-missing"
    template = "Give the reason: it stays on record beside what is decided."


class InTwoBouts(Refusal):
    code = "in-two-bouts"
    template = (
        "{wrestlers} would stand in two open bouts at once: {bouts}. "
        "Choose otherwise, or take back the ruling that keeps one of them."
    )


class PlaceTaken(Refusal):
    code = "place-taken"
    template = "Place {place} would be held by {wrestlers}. Rule it shared, or rule both places."


class NoSuchRuling(NotFound):
    code = "no-such-ruling"
    template = "There is no ruling {ruling} in this tournament."


class RulingsStand(Refusal):
    code = "rulings-stand"
    template = (
        "{weight} has {rulings} rulings and {void} void bouts, which stay on record. "
        "Its draw cannot be taken back over them."
    )


class AlreadyWithdrawn(Refusal):
    code = "already-withdrawn"
    template = "Entry {entry} is out of the tournament already."


class NotWithdrawn(Refusal):
    code = "not-withdrawn"
    template = "Entry {entry} is not out of the tournament, so there is nothing to take back."


class PointsNotListed(Refusal):
    code = "points-not-listed"
    template = (
        "The rule book has no team points for {places} places, only for {known}. "
        "Add team_points.placement.{places}, or give another number of places."
    )


class GroupWrestled(Refusal):
    code = "group-wrestled"
    template = (
        "{count} bouts of {group} have a result or a ruling, so the group stands. "
        "Take these back first."
    )


class NotPublished(NotFound):
    code = "not-published"
    template = "The {kind} of this tournament are not published."


class BoutsLeft(Refusal):
    code = "bouts-left"
    template = (
        "{count} bouts are still to be wrestled. "
        "The results go back to the season when every bout is decided."
    )


class HasWrestled(Refusal):
    code = "has-wrestled"
    template = (
        "{who} wrestled already: {bouts}. A line changes only while nobody on it has a result; "
        "withdraw him, or take these results back first."
    )


class LeftBehindByes(Refusal):
    """A line moves whose man withdrew after a bye: elsewhere he would have another behind him."""

    code = "left-behind-byes"
    template = (
        "{who} is out, with a bye behind him, so his line stays. "
        "Let him return first, change the line, then withdraw him again."
    )


class ResultsRest(Refusal):
    """A result stands behind bouts that go otherwise without who leaves: forfeits to him that would
    be gone, or an open one that he would forfeit."""

    code = "results-rest"
    template = (
        "The result of bout {bout} rests on bouts of {who} before it, which would go otherwise. "
        "Choose another reason, with which that stands, or take this result back first."
    )


class BoutsStand(Refusal):
    code = "bouts-stand"
    template = (
        "{weight} cannot be changed so, because these bouts have results that would be lost: "
        "{bouts}. Take them back first, the last one first."
    )


class RulingNames(Refusal):
    code = "ruling-names"
    template = (
        "A ruling of {weight} stands on the lines as they are. Take it back first, then repeat."
    )
