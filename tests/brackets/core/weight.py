"""One weight as its facts: results, who left, rulings, lines; and every change of them.

The services in small, without tables: what they refuse is refused here, a preview is carried out.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field, replace

from brackets.core.drafting import Wanted, draft
from brackets.core.errors import BoutNotReady
from brackets.core.formats import build
from brackets.core.graph import BoutKey, Bracket
from brackets.core.late import LineChange, changed
from brackets.core.progress import Standing, Status, Verdict, play
from brackets.core.replay import Choice, Replay, replay
from brackets.core.rules import PLACES, BracketRules, DoubleLoss
from brackets.core.rulings import (
    PlaceRuling,
    ResultRuling,
    Ruling,
    Rulings,
    SeatRuling,
    in_two,
    placed_twice,
)
from brackets.core.sources import Exit, Seat
from brackets.core.standing import EMPTY, Occupant, Sides
from seeding.journal.core.errors import Refusal
from tests.strategies import by_wins

AHEAD = (Status.READY, Status.WAITING)
Choose = Callable[[BoutKey], Choice]


@contextmanager
def refused(*codes: str) -> Iterator[None]:
    """A step that ends where it is refused, with these codes alone."""
    try:
        yield
    except Refusal as refusal:
        if refusal.code not in codes:
            raise


@dataclass(frozen=True)
class Facts:
    """`gone`: who left, with the bout behind him; `absent`: who never came; `keeps`: a place."""

    bracket: Bracket
    rules: BracketRules
    verdicts: Mapping[BoutKey, Verdict] = field(default_factory=dict)
    gone: Mapping[str, BoutKey | None] = field(default_factory=dict)
    absent: frozenset[str] = frozenset()
    keeps: bool = True
    rulings: Rulings = ()

    def stand(self) -> Standing:
        order = None
        if self.bracket.pools:
            pooled = {key for pool in self.bracket.pools for key in pool.bouts}
            given = {key: one for key, one in self.verdicts.items() if key in pooled}
            order = by_wins(self.bracket, self._played(given, None))
        return self._played(self.verdicts, order)

    def _played(self, given: Mapping[BoutKey, Verdict], order: list[list[str]] | None) -> Standing:
        return play(
            self.bracket,
            given,
            self.rules,
            out=self.gone,
            vacating=self.absent if self.keeps else frozenset(self.gone),
            pool_order=order,
            rulings=self.rulings,
        )

    def only(self, kept: Collection[BoutKey], rulings: Rulings) -> "Facts":
        left = {key: one for key, one in self.verdicts.items() if key in kept}
        return replace(self, verdicts=left, rulings=rulings)

    def backwards(self) -> "Facts":
        """The same, told in the other order."""
        last_first = dict(reversed(list(self.verdicts.items())))
        return replace(self, verdicts=last_first, gone=dict(reversed(list(self.gone.items()))))

    @property
    def ruled_seats(self) -> dict[tuple[BoutKey, int], Occupant]:
        """Who takes which side of which bout by a ruling; in a pool nobody does."""
        pooled = {key for pool in self.bracket.pools for key in pool.bouts}
        return {
            (way.way.bout, way.way.slot): EMPTY if way.entry is None else way.entry
            for one in self.rulings
            if isinstance(one, SeatRuling)
            for way in one.ways
            if isinstance(way.way, Seat) and way.way.bout not in pooled
        }

    @property
    def seated(self) -> set[str]:
        """Whom rulings put into a seat or an end, or out of one."""
        return {
            way.entry
            for one in self.rulings
            if isinstance(one, SeatRuling)
            for way in one.ways
            if way.entry is not None
        }


class Weight:
    """`met`: who stood in each bout with a result when it was entered. `laid`: lines changed."""

    def __init__(self, facts: Facts) -> None:
        self.met: dict[BoutKey, Sides] = {}
        self.laid = False
        self._take(facts)

    def _take(self, facts: Facts) -> None:
        self.standing = facts.stand()
        self.facts = facts
        self.met = {key: sides for key, sides in self.met.items() if key in facts.verdicts}

    @property
    def bracket(self) -> Bracket:
        return self.facts.bracket

    @property
    def pooled(self) -> set[BoutKey]:
        """The bouts within pools."""
        return {key for pool in self.bracket.pools for key in pool.bouts}

    def having(self, *statuses: Status) -> list[BoutKey]:
        return [key for key, one in self.standing.bouts.items() if one.status in statuses]

    def enter(self, key: BoutKey, verdict: Verdict) -> None:
        """What is certain gets no worse by it, unless rulings have somebody on two ways at once."""
        if verdict.winner is None and self._heirs_in_doubt(key):
            return
        before, clean = self.standing, self.clean
        assert before.bouts[key].status is Status.READY
        self._take(replace(self.facts, verdicts={**self.facts.verdicts, key: verdict}))
        self.met[key] = before.bouts[key].sides
        for entry, worst in before.guaranteed.items() if clean else ():
            assert self.standing.guaranteed[entry] <= worst, entry
        for place, group in before.places.items() if clean else ():
            assert set(group) <= set(self.standing.places[place]), place

    def _heirs_in_doubt(self, key: BoutKey) -> bool:
        """Whether both would drop while a ruling has filled the seat that the winner would have.

        Not told in any story: the loser's line behind counts as empty too early then.
        """
        onward = self.bracket.onward(key, Exit.WINNER)
        drop = self.facts.rules.double_loss is DoubleLoss.DROP
        return drop and onward is not None and (onward.bout, onward.slot) in self.facts.ruled_seats

    @property
    def clean(self) -> bool:
        """Whether the open bout of each is the last on his way, and no place is behind it."""
        placed = {entry for group in self.standing.places.values() for entry in group}
        for entry, way in self.standing.walked().items():
            ahead = [state.status in AHEAD for state in way if state.key not in self.pooled]
            if any(ahead[:-1]) or (any(ahead) and entry in placed):
                return False
        return True

    def correct(self, key: BoutKey, verdict: Verdict | None, choose: Choose) -> None:
        rest = {one: told for one, told in self.facts.verdicts.items() if one != key}
        after = rest if verdict is None else {**rest, key: verdict}
        self._change(replace(self.facts, verdicts=after), choose)

    def leave(self, entry: str, *, absent: bool) -> None:
        behind = self.standing.behind(entry, reported=not absent)
        missing = self.facts.absent | ({entry} if absent else set())
        gone = {**self.facts.gone, entry: behind}
        self._take(replace(self.facts, gone=gone, absent=missing))

    def come_back(self, entry: str, choose: Choose) -> None:
        gone = {one: last for one, last in self.facts.gone.items() if one != entry}
        self._change(replace(self.facts, gone=gone, absent=self.facts.absent - {entry}), choose)

    def rule(self, wanted: Wanted, choose: Choose) -> None:
        def played(more: Rulings) -> Standing:
            ruled = replace(self.facts, rulings=(*self.facts.rulings, *more))
            return self._replayed(ruled, {}).standing if more else self.standing

        with refused("ruling-unfit"):
            ruling = draft(self.bracket, played, wanted)
            self._change(replace(self.facts, rulings=(*self.facts.rulings, ruling)), choose)

    def take_back(self, ruling: Ruling, choose: Choose) -> None:
        left = tuple(one for one in self.facts.rulings if one is not ruling)
        self._change(replace(self.facts, rulings=left), choose)

    def lay(self, change: LineChange) -> None:
        """Carried out where nobody on these lines wrestled and every result keeps its two."""
        with refused("line-change-unfit", "line-up-invalid"):
            lines = changed(self.bracket.lines, change)
            asked = min(place for place in PLACES if place >= self.bracket.places)
            facts = replace(self.facts, bracket=build(lines, self.facts.rules, asked))
            if self._at_stake(change) or self._bouts_missed(facts.bracket):
                return
            with suppress(BoutNotReady):
                there = facts.stand().bouts
                if all(there[key].sides == sides for key, sides in self.met.items()):
                    self._take(facts)
                    self.laid = True

    def _at_stake(self, change: LineChange) -> bool:
        old = self.bracket.lines
        moved = {change.gone} if change.gone else set(_on(old[one - 1] for one in change.lines))
        return bool(moved & ({*_on(self.met.values())} | set(_named(self.facts.rulings))))

    def _bouts_missed(self, fresh: Bracket) -> bool:
        """Whether facts speak of bouts that would not be there."""
        less = self.bracket.sources.keys() - fresh.sources.keys()
        known = {*self.facts.gone.values(), *self.met}
        return bool(less and self.facts.rulings) or not less.isdisjoint(known)

    def _replayed(self, facts: Facts, choices: Mapping[BoutKey, Choice]) -> Replay:
        return replay(
            facts.bracket,
            {key: self.standing.bouts[key].sides for key in facts.verdicts},
            lambda kept, ruled: facts.only(kept, ruled).stand(),
            facts.rulings,
            choices,
        )

    def _change(self, facts: Facts, choose: Choose) -> None:
        """Choose until nothing is left to choose; refused where a law of rulings is broken."""
        made: dict[BoutKey, Choice] = {}
        seen = self._replayed(facts, made)
        while seen.lost:
            key = seen.lost[0]
            assert made.get(key) is not Choice.VOID, key
            made[key] = Choice.VOID if key in made else choose(key)
            seen = self._replayed(facts, made)
        left = facts.only(facts.verdicts.keys() - set(seen.void), (*facts.rulings, *seen.made))
        if in_two(facts.bracket, seen.standing) or placed_twice(seen.standing, left.rulings):
            return
        self._as_seen(seen)
        self._take(left)
        assert self.standing == seen.standing
        assert self._replayed(left, {}) == Replay(self.standing, {}, (), (), {})

    def _as_seen(self, seen: Replay) -> None:
        """Who stands or wrestles again stands there; who is void has no result."""
        for key, choice in seen.chosen.items():
            state = seen.standing.bouts[key]
            if choice is not Choice.VOID:
                assert state.sides == self.met[key], key
            if choice is Choice.STANDS:
                assert state.takes_result or state.status is Status.DECIDED, key


def _on(groups: Iterable[object]) -> Iterator[str]:
    """Every entry among lines or sides."""
    for one in groups:
        if isinstance(one, tuple):
            yield from _on(one)
        elif isinstance(one, str):
            yield one


def _named(rulings: Rulings) -> Iterator[str]:
    for one in rulings:
        if isinstance(one, SeatRuling):
            yield from _on(way.entry for way in one.ways)
        elif isinstance(one, ResultRuling):
            yield from one.sides
        elif isinstance(one, PlaceRuling):
            yield from one.places
