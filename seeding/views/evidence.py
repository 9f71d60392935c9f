"""Orders and reasons as the pages show them: names for ids, rows for numbers."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from seeding.core.order import Flag
from seeding.core.reasons import Reason
from seeding.core.season import PriorBout
from seeding.core.verdict import Verdict
from seeding.entries.models import Entry
from seeding.models import Override
from seeding.queries import Order

FEW = 8
"""So many bouts of evidence stand beside the order; the comparison of two shows all."""

Names = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class ShownBout:
    """One bout of evidence."""

    winner: str
    loser: str
    bout: PriorBout


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
class Why:
    """Why one stands above another by the criteria."""

    above: str
    below: str
    above_id: str
    below_id: str
    criterion: str
    sentences: tuple[str, ...]
    totals: tuple[tuple[str, str, str], ...]
    says: tuple[Says, ...]
    bouts: tuple[ShownBout, ...]
    more: int
    against: bool
    """The committee put the two the other way round."""

    @property
    def first(self) -> str:
        """What decided, in one or two sentences: the totals, and the criterion behind them."""
        return " ".join(dict.fromkeys((self.sentences[0], self.sentences[-1])))


@dataclass(frozen=True, slots=True)
class Beaten:
    """A flag at the lower one: he has beaten somebody above him."""

    sentence: str
    high: int
    name: str


@dataclass(frozen=True, slots=True)
class Place:
    """One line of the order."""

    number: int
    seeded: bool
    uid: str
    entry: Entry
    name: str
    record: str
    totals: tuple[tuple[str, str], ...]
    flags: tuple[Beaten, ...]
    moves: tuple[Override, ...]
    why: Why | None


def places(order: Order) -> list[Place]:
    """The order, line by line, with the reason between each and the next."""
    reasons = order.reasons()
    beaten = _flags(order)
    records = _records(order)
    return [
        Place(
            number=number,
            seeded=number <= order.proposal.count,
            uid=uid,
            entry=order.entries[uid],
            name=order.names[uid],
            record="{}-{}".format(*records.get(uid, (0, 0))),
            totals=tuple((total.name, str(total)) for total in order.proposal.totals[uid]),
            flags=beaten.get(uid, ()),
            moves=tuple(row for row in order.overrides if row.entry_id == order.entries[uid].pk),
            why=why(reasons[number - 1], order.names, uid, few=FEW)
            if number <= len(reasons)
            else None,
        )
        for number, uid in enumerate(order.order, 1)
    ]


def why(reason: Reason, names: Names, above: str, few: int | None = None) -> Why:
    """The reason in words; `above` is who stands above in the order as it is."""
    bouts = shown(reason.bouts, names)
    return Why(
        above=names[reason.above],
        below=names[reason.below],
        above_id=reason.above,
        below_id=reason.below,
        criterion=reason.criterion,
        sentences=tuple(sentence.say(names) for sentence in reason.sentences),
        totals=tuple((high.name, str(high), str(low)) for high, low in reason.totals),
        says=tuple(_says(verdict, reason, names) for verdict in reason.verdicts),
        bouts=bouts[:few],
        more=max(len(bouts) - len(bouts[:few]), 0),
        against=reason.above != above,
    )


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
    return tuple(
        ShownBout(names.get(bout.winner, "?"), names.get(bout.loser, "?"), bout) for bout in bouts
    )


def _flags(order: Order) -> dict[str, tuple[Beaten, ...]]:
    at = {uid: number for number, uid in enumerate(order.order, 1)}
    found: dict[str, list[Flag]] = {}
    for flag in order.flags:
        found.setdefault(flag.below, []).append(flag)
    return {
        uid: tuple(
            Beaten(flag.sentence.say(order.names), at[flag.above], order.names[flag.above])
            for flag in flags
        )
        for uid, flags in found.items()
    }


def _records(order: Order) -> dict[str, tuple[int, int]]:
    """Bouts won and lost in the season, of every kind and at every weight."""
    found: dict[str, tuple[int, int]] = {}
    for bout in order.proposal.explainer.season.bouts:
        won, lost = found.get(bout.winner, (0, 0))
        found[bout.winner] = (won + 1, lost)
        won, lost = found.get(bout.loser, (0, 0))
        found[bout.loser] = (won, lost + 1)
    return found


def drawn(order: Order) -> list[Sequence[str]]:
    """The names of each group that only the lot could part."""
    return [[order.names[uid] for uid in group] for group in order.proposal.drawn]
