"""The proposed order of a weight, and why it is that order."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from seeding.core.circles import Beat, circles
from seeding.core.errors import EnteredTwice, NotInTheField
from seeding.core.lot import LOT_VERSION
from seeding.core.pairs import Total
from seeding.core.reasons import Reason
from seeding.core.rules import SeedingRules
from seeding.core.season import Counted, PriorBout, Season, by_date, wins
from seeding.core.shapes import Arrangement, SettledCircle
from seeding.core.ties import Seconds
from seeding.core.verdict import Sentence


@dataclass(frozen=True, slots=True)
class Flag:
    """A lower seed has beaten a higher one: in `bouts`; `others` went the other way."""

    above: str
    below: str
    bouts: tuple[PriorBout, ...]
    others: tuple[PriorBout, ...]
    sentence: Sentence


@dataclass(frozen=True, slots=True)
class Proposal:
    """An order with its evidence.

    `order`: everybody, best first; the first `count` are seeded. `totals`: the sums per wrestler.
    `reasons`: one for each two neighbours, from the top. `drawn`: groups that only the lot could
    separate; it can be drawn again from `lot_seed` and `lot_version`. `open`: groups left to the
    committee or a vote, which stand by lot until then. `circles`: where the list, or the meetings
    alone, run in a circle, and how that was settled.
    """

    order: tuple[str, ...]
    count: int
    totals: Mapping[str, tuple[Total, ...]]
    reasons: tuple[Reason, ...]
    flags: tuple[Flag, ...]
    drawn: tuple[tuple[str, ...], ...]
    open: tuple[tuple[str, ...], ...]
    circles: tuple[SettledCircle, ...]
    lot_seed: str
    lot_version: int
    arrangement: Arrangement
    season: Season

    @property
    def seeds(self) -> Mapping[str, int]:
        """The seed of each seeded wrestler, from 1."""
        return {name: at for at, name in enumerate(self.order[: self.count], 1)}

    def reason(self, a: str, b: str) -> Reason:
        """Why one of the two stands above the other in this order."""
        for name in (a, b):
            if name not in self.order:
                raise NotInTheField(wrestler=name, weight=self.season.weight)
        above, below = sorted((a, b), key=self.order.index)
        return self.arrangement.account.reason(above, below)


def propose(
    entrants: Iterable[str], season: Season, rules: SeedingRules, lot_seed: str
) -> Proposal:
    """Put the entrants (wrestler ids) of the season's weight in order by the rule book's list.

    The result depends on who is entered and on what is known of them, never on the order in which
    either is put in. Raises EnteredTwice.
    """
    field = sorted(entrants)
    for one, other in pairwise(field):
        if one == other:
            raise EnteredTwice(wrestler=one, weight=season.weight)
    seen = season.entered(field)
    seconds = Seconds(rules.ties, rules.final, seen, lot_seed)
    made = rules.shape.arrange(field, seen, seconds)
    return Proposal(
        order=made.order,
        count=min(rules.count_at(season.weight), made.seedable),
        totals=made.totals,
        reasons=tuple(made.account.reason(*two) for two in pairwise(made.order)),
        flags=flags(made.order, seen, rules.meetings),
        drawn=made.drawn,
        open=made.open,
        circles=made.circles or met_in_circles(field, seen, rules.meetings),
        lot_seed=lot_seed,
        lot_version=LOT_VERSION,
        arrangement=made,
        season=seen,
    )


UNSETTLED = (
    "The list does not settle circles for themselves: all of its criteria put them in order."
)


def met_in_circles(
    field: Iterable[str], season: Season, counted: Counted
) -> tuple[SettledCircle, ...]:
    """Circles of the meetings alone, for a list that never asks whether there are any.

    One stands over another when he won more of their bouts.
    """
    graph = season.graph(counted)
    found: list[Beat] = []
    for a, b in combinations(sorted(field), 2):
        of_a, of_b = wins(graph, a, b), wins(graph, b, a)
        if len(of_a) != len(of_b):
            better, worse = (a, b) if len(of_a) > len(of_b) else (b, a)
            bouts = tuple(sorted(of_a + of_b, key=by_date))
            found.append(Beat(better, worse, bouts, "head-to-head"))
    words = Sentence.of(UNSETTLED, {})
    return tuple(SettledCircle(circle, words) for circle in circles(found))


def flags(order: Sequence[str], season: Season, counted: Counted) -> tuple[Flag, ...]:
    """Where in any order, proposed or the committee's, a lower wrestler has beaten a higher one."""
    graph = season.graph(counted)
    place = {name: at for at, name in enumerate(order, 1)}
    found: list[Flag] = []
    for above, below in combinations(order, 2):
        bouts = wins(graph, below, above)
        if bouts:
            others = wins(graph, above, below)
            sentence = _flagged(above, below, place, bouts, others)
            found.append(Flag(above, below, bouts, others, sentence))
    return tuple(found)


def _flagged(
    above: str,
    below: str,
    place: Mapping[str, int],
    bouts: tuple[PriorBout, ...],
    others: tuple[PriorBout, ...],
) -> Sentence:
    template = "{below} ({low}) has beaten {above} ({high}): {bouts}."
    if others:
        template = "{below} ({low}) has beaten {above} ({high}): {bouts}; lost to: {others}."
    return Sentence.of(
        template,
        {"above": above, "below": below},
        low=place[below],
        high=place[above],
        bouts="; ".join(str(bout) for bout in sorted(bouts, key=by_date)),
        others="; ".join(str(bout) for bout in sorted(others, key=by_date)),
    )
