"""Why one stands above another, in words: the one source for pages, interface and minutes."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.utils.translation import gettext as _

from seeding.core.reasons import Reason
from seeding.core.season import PriorBout
from seeding.core.verdict import Verdict
from seeding.journal.core.errors import Invalid, Problem
from seeding.queries.order import Order

FEW = 8
"""So many bouts of evidence stand beside the order; the comparison of two shows all."""

Names = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class ShownBout:
    """One bout of evidence; `rest` says how it was won, `where` at which weight and event."""

    day: str
    winner: str
    rest: str
    where: str

    @property
    def text(self) -> str:
        return f"{self.day} {self.winner} {self.rest} {self.where}"


@dataclass(frozen=True, slots=True)
class Says:
    """What one criterion says about two, the upper one's number first."""

    criterion: str
    above: str
    below: str
    better: str
    sentence: str
    decided: bool
    bouts: tuple[ShownBout, ...]


@dataclass(frozen=True, slots=True)
class Numbers:
    """A sum that made the order, of the upper and of the lower one."""

    name: str
    above: str
    below: str


@dataclass(frozen=True, slots=True)
class Why:
    """Why one stands above another by the criteria.

    `against`: the committee put the two the other way round.
    """

    above: str
    below: str
    above_id: str
    below_id: str
    step: str
    criterion: str
    sentences: tuple[str, ...]
    short: tuple[str, ...]
    totals: tuple[Numbers, ...]
    says: tuple[Says, ...]
    bouts: tuple[ShownBout, ...]
    against: bool

    @property
    def text(self) -> str:
        """All of it: what decided, the criteria between the two, and the remark on a move."""
        return " ".join((*self.moved, *self.sentences))

    @property
    def first(self) -> str:
        """What decided, without the sums between the two."""
        return " ".join((*self.moved, *self.short))

    @property
    def few(self) -> tuple[ShownBout, ...]:
        """The bouts that stand beside the order."""
        return self.bouts[:FEW]

    @property
    def more(self) -> int:
        """How many more there are."""
        return max(len(self.bouts) - FEW, 0)

    @property
    def moved(self) -> tuple[str, ...]:
        """A word of warning where the order goes against the criteria."""
        return (_("Against the criteria:"),) if self.against else ()


def why(order: Order, a: str, b: str) -> Why:
    """Why one of two wrestlers (ids) stands above the other by the criteria."""
    reason = order.proposal.reason(a, b)
    against = order.order.index(reason.above) > order.order.index(reason.below)
    return why_of(reason, order.names, against=against)


def why_of(reason: Reason, names: Names, *, against: bool) -> Why:
    """A reason in words; `against`: the committee put the two the other way round."""
    return Why(
        above=names[reason.above],
        below=names[reason.below],
        above_id=reason.above,
        below_id=reason.below,
        step=str(reason.step),
        criterion=reason.criterion,
        sentences=tuple(sentence.say(names) for sentence in reason.sentences),
        short=tuple(sentence.say(names) for sentence in reason.short),
        totals=tuple(Numbers(high.name, str(high), str(low)) for high, low in reason.totals),
        says=tuple(_says(verdict, reason, names) for verdict in reason.verdicts),
        bouts=shown(reason.bouts, names),
        against=against,
    )


def whys(order: Order) -> tuple[Why, ...]:
    """The reason between every two neighbours, from the top."""
    return tuple(
        why(order, above, below) for above, below in zip(order.order, order.order[1:], strict=False)
    )


def pair(order: Order, a: str, b: str) -> Why:
    """Why between any two entries of the weight, named by their keys."""
    ids = {row.key: uid for uid, row in order.entries.items()}
    strange = [
        Problem(field, f"There is no entry “{key}” at this weight.")
        for field, key in (("a", a), ("b", b))
        if key not in ids
    ]
    if not strange and a == b:
        strange = [Problem("b", "Choose two different wrestlers.")]
    if strange:
        raise Invalid(strange)
    return why(order, ids[a], ids[b])


def _says(verdict: Verdict, reason: Reason, names: Names) -> Says:
    return Says(
        criterion=verdict.criterion,
        above=verdict.number(reason.above).text,
        below=verdict.number(reason.below).text,
        better=names[verdict.better] if verdict.better else "",
        sentence=verdict.sentence.say(names),
        decided=verdict.criterion == reason.criterion,
        bouts=shown(verdict.bouts, names),
    )


def shown(bouts: Iterable[PriorBout], names: Names) -> tuple[ShownBout, ...]:
    """Bouts with the names of both."""
    return tuple(shown_bout(bout, names) for bout in bouts)


def shown_bout(bout: PriorBout, names: Names) -> ShownBout:
    """One bout with the names of both."""
    how = " ".join(filter(None, (bout.kind, bout.score, bout.time)))
    where = ", ".join(filter(None, (bout.weight, bout.event)))
    loser = names.get(bout.loser, "?")
    return ShownBout(
        day=bout.date.isoformat(),
        winner=names.get(bout.winner, "?"),
        rest=_("beat %(loser)s, %(how)s") % {"loser": loser, "how": how},
        where=f"({where})",
    )
