"""What a bracket refuses.

Refusal
├── Invalid
│   └── BracketRulesInvalid   the rule book's section [bracket] does not fit
├── FieldSizeNotOffered       too few or too many entrants
├── PlacesNotOffered          the number of places is none that is wrestled for
├── PlacesNotWrestled         this format gives fewer places
├── LineUpInvalid             the line-up is no line-up of this size
├── LineChangeUnfit           a late change that the line-up cannot take
├── SeedTwice                 two entrants hold one seed
├── TooFew                    a weight is drawn that has too few entries
├── AlreadyDrawn              a weight is drawn a second time
├── CommitTooLate             a draw is committed to that has begun
├── SeedCommitted             a committed draw is asked for another seed
├── SecretElsewhere           the secret of the commitment is not in this installation
├── NothingToReveal           there is no secret to tell, or it is too early
├── AlreadyWrestled           a draw is taken back although bouts have results
├── UnknownMat                a bout is sent to a mat that is not there
├── BoutOver                  a decided bout is sent to another mat
├── PoolOrderInvalid          the ranking of a round robin does not rank its entries
├── NoSuchBout                the bracket has no such bout
├── RulingUnfit               a ruling that this bracket cannot take
├── BoutNotReady              a result for a bout that cannot be wrestled now
└── BracketBroken             a law of brackets is broken: a fault of the program
"""

from collections.abc import Callable

from seeding.journal.core.errors import Invalid, NotFound, Refusal


class BracketRulesInvalid(Invalid):
    """The section [bracket] of a rule book has missing, unknown or impossible values."""

    code = "bracket-rules-invalid"


class FieldSizeNotOffered(Refusal):
    """No format of the rule book takes this number of entrants."""

    code = "field-size-not-offered"
    template = "There is no bracket for {entrants} entrants: enter between 2 and {most}."


class PlacesNotOffered(Refusal):
    """The number of places wrestled for is not one of those offered."""

    code = "places-not-offered"
    template = "A bracket is wrestled to {offered} places, not {places}."


class PlacesNotWrestled(Refusal):
    """The format of this field gives fewer places than the weight has."""

    code = "places-not-wrestled"
    template = (
        "A bracket of {lines} lines with wrestleback {wrestleback} gives {most} places at most, "
        "not {places}. Give the weight fewer places, or its division another wrestleback."
    )


class LineUpInvalid(Refusal):
    """The lines handed over do not make a bracket."""

    code = "line-up-invalid"
    template = "This line-up does not make a bracket: {problem}."


class LineChangeUnfit(Refusal):
    """A late change does not fit the lines as they are."""

    code = "line-change-unfit"
    template = "The lines cannot be changed so: {problem}."


class SeedTwice(Refusal):
    """Two entrants of one weight hold the same seed."""

    code = "seed-twice"
    template = "Seed {seed} is given twice in this weight. Give every seed once, then draw."


class TooFew(Refusal):
    """A weight has too few entries to be drawn."""

    code = "too-few-to-draw"
    template = "{weight} has {count} entered: enter two at least, then draw."


class AlreadyDrawn(Refusal):
    """A weight has a bracket already."""

    code = "already-drawn"
    template = "{weight} is already drawn. Take that draw back first."


class CommitTooLate(Refusal):
    """A commitment is made once, before any draw."""

    code = "commit-too-late"
    template = (
        "A draw is committed to once, before the first weight is drawn. "
        "Here it is committed already, or a draw was made: take the draws back first."
    )


class SeedCommitted(Refusal):
    """The seed of a committed draw is settled."""

    code = "seed-committed"
    template = "The draw of this tournament is committed, so its seed is settled. Send none."


class SecretElsewhere(Refusal):
    """The commitment came with a file that did not carry its secret."""

    code = "secret-elsewhere"
    template = (
        "This tournament's draw was committed in another installation, and its secret is there. "
        "Draw there, or commit the draw anew while nothing is drawn here."
    )


class NothingToReveal(Refusal):
    """There is no secret to be told now."""

    code = "nothing-to-reveal"
    template = (
        "There is no secret to reveal: none is kept here, it is revealed already, "
        "or nothing is drawn yet."
    )


class AlreadyWrestled(Refusal):
    """A draw cannot be taken back once bouts of it have results."""

    code = "already-wrestled"
    template = (
        "Bouts of {weight} that have a result: {count}. Take these back first, then the draw."
    )


class UnknownMat(Refusal):
    """The tournament has no such mat."""

    code = "unknown-mat"
    template = "There is no mat {mat!r}. The mats are: {known}."


class BoutOver(Refusal):
    """A bout that is decided stays at its mat."""

    code = "bout-over"
    template = "Bout {bout} is decided, so it stays on mat {mat}. Send one that is still to come."


class PoolOrderInvalid(Refusal):
    """The ranking handed over for a round robin is none of its entries."""

    code = "pool-order-invalid"
    template = "The order of a round robin must rank each of its entries once: {entries}."


class NoSuchBout(NotFound):
    """The bracket has no bout of this name."""

    code = "no-such-bout"
    template = "There is no bout {bout} in this bracket."


class BoutNotReady(Refusal):
    """A result was given for a bout that cannot be wrestled as things stand."""

    code = "bout-not-ready"
    template = "Bout {bout} cannot have a result: {why}."


class RulingUnfit(Refusal):
    """A ruling names a bout, wrestler or place that it cannot be about."""

    code = "ruling-unfit"
    template = "This cannot be ruled: {problem}."

    def __init__(self, problem: str, **named: object) -> None:
        """The problem, with the entries and bouts that it names in braces."""
        self.problem, self.named = problem, named
        super().__init__(problem=problem.format(**named))

    def called(self, call: Callable[[object], str]) -> "RulingUnfit":
        """The same with entries and bouts as people call them."""
        return RulingUnfit(self.problem, **{key: call(one) for key, one in self.named.items()})


class BracketBroken(Refusal):
    """A bracket that was built breaks one of its laws."""

    code = "bracket-broken"
    template = "The bracket breaks a law: {law}. This is a fault of the program, please report it."
