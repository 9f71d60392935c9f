"""Brackets as the public may see them: every bout with its sides, its result, what it leads to."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import chain

from django.utils.translation import gettext as _

from brackets.core.graph import BoutKey, Bracket, Exit
from brackets.core.progress import play
from brackets.core.standing import BoutState, Status, to_wrestle
from brackets.models import Bout, Drawn, Placing
from brackets.queries import bracket
from brackets.queries import rules_of as bracket_rules
from results.core.outcomes import MANNERS, Kind, notation
from results.models import Result
from results.queries.coming import Coming
from results.queries.gates import Gates
from results.queries.implied import implied_kinds
from results.queries.overruled import Overruled
from results.queries.people import People, Person
from results.queries.ruled import Against, Ruled, Voided, marked
from results.queries.seen import Seen, Side
from seeding.entries.models import Tournament, WeightClass


@dataclass(frozen=True, slots=True)
class Sheet:
    """A drawn weight: its bracket, its bouts in running order, the places that are certain, and
    what of it was ruled or is void."""

    weight: WeightClass
    bracket: Bracket
    bouts: Mapping[BoutKey, Seen]
    places: tuple[tuple[int, Person], ...]
    rulings: tuple[Ruled, ...]
    void: tuple[Voided, ...]

    def ruled_of(self, entry: str) -> tuple[Ruled, ...]:
        """The rulings that are about an entry."""
        return tuple(one for one in self.rulings if entry in one.entries)

    def place_mark(self, entry: str) -> str:
        """The mark of what was ruled about the place of an entry."""
        return marked(one.number for one in self.rulings if entry in one.places)

    def void_of(self, entry: str) -> tuple[Voided, ...]:
        """The void bouts that an entry wrestled."""
        return tuple(one for one in self.void if entry in one.entries)

    @property
    def real(self) -> list[Seen]:
        """The bouts that count: they may be wrestled as things stand, or they were decided."""
        real, bouts = frozenset(self.bracket.bouts), self.bouts.items()
        return [one for key, one in bouts if to_wrestle(one.status, planned=key in real)]

    @property
    def left(self) -> int:
        return sum(bout.open for bout in self.real)

    @property
    def total(self) -> int:
        return len(self.real)

    @property
    def done(self) -> int:
        return self.total - self.left

    @property
    def official(self) -> bool:
        """Whether everything is decided and official."""
        decided = [bout for bout in self.real if bout.decided]
        return not self.left and bool(decided) and all(bout.official for bout in decided)

    @property
    def now(self) -> str:
        """The code of the first round in running order with a bout that is still open."""
        waiting = {bout.round.code for bout in self.real if bout.open}
        return next((one.code for one in self.bracket.rounds if one.code in waiting), "")


def sheets(
    tournament: Tournament, gates: Gates, people: People, *weights: WeightClass | None
) -> list[Sheet]:
    """The drawn ones of some weights, by default of all, light to heavy; at most six queries."""
    if not gates.draw:
        return []
    rows = Drawn.objects.filter(weight_class__tournament=tournament)
    if wanted := [weight for weight in weights if weight]:
        rows = rows.filter(weight_class__in=wanted)
    drawn = list(rows.select_related("weight_class__division").order_by("weight_class__position"))
    bouts = _by_drawn(Bout.objects.filter(drawn__in=drawn))
    results, placed = _results(drawn) if gates.results else ({}, {})
    against = Against.of(drawn) if gates.results else Against()
    implied = implied_kinds(chain(*bouts.values())) if gates.results else {}
    return [
        _sheet(
            _Reading(row, gates, people, results, against, implied),
            {one.key: one for one in bouts[row.pk]},
            placed.get(row.pk, []),
        )
        for row in drawn
    ]


def _by_drawn(rows: Iterable[Bout]) -> Mapping[int, list[Bout]]:
    found: dict[int, list[Bout]] = defaultdict(list)
    for row in rows:
        found[row.drawn_id].append(row)
    return found


def _results(drawn: Iterable[Drawn]) -> tuple[dict[int, Result], dict[int, list[Placing]]]:
    results = {row.bout_id: row for row in Result.objects.filter(bout__drawn__in=drawn)}
    placed: dict[int, list[Placing]] = defaultdict(list)
    for row in Placing.objects.filter(drawn__in=drawn):
        placed[row.drawn_id].append(row)
    return results, placed


@dataclass(frozen=True, slots=True)
class _Reading:
    drawn: Drawn
    gates: Gates
    people: People
    results: Mapping[int, Result]
    against: Against
    implied: Mapping[int, Kind]

    def name(self, key: str) -> str:
        person = self.people.by_key.get(key)
        return person.name if person else _("a wrestler")


@dataclass(frozen=True, slots=True)
class _State:
    """What is told of a bout: who stands in it (entries by primary key), and who won."""

    status: Status
    persons: tuple[Person | None, Person | None]
    taken: tuple[bool, bool]
    winner: int | None
    implied: bool


def _sheet(reading: _Reading, rows: Mapping[BoutKey, Bout], placed: Iterable[Placing]) -> Sheet:
    built = bracket(reading.drawn)
    if reading.gates.results:
        states = {key: _from_row(row, reading.people) for key, row in rows.items()}
    else:
        bare = play(built, {}, bracket_rules(reading.drawn.weight_class.division))
        states = {key: _from_draw(state, reading.people) for key, state in bare.bouts.items()}
    rulings, void = reading.against.told(reading.drawn, reading.name, rows)
    seen = (_seen(reading, built, rows, key, states[key]) for key in built.sources)
    bouts = {bout.key: replace(bout, rulings=_about(bout, rulings)) for bout in seen}
    known = reading.people.by_pk
    places = tuple((row.place, known[row.entry_id]) for row in placed if row.entry_id in known)
    return Sheet(reading.drawn.weight_class, built, bouts, places, rulings, void)


def _about(bout: Seen, rulings: Iterable[Ruled]) -> tuple[int, ...]:
    gives = bout.round.places or ()
    sides = [side.person.key for side in bout.sides if side.person and gives]
    return tuple(one.number for one in rulings if one.about(bout.key, gives, sides))


def _from_row(row: Bout, people: People) -> _State:
    pks = (row.top_id, row.bottom_id)
    winner = pks.index(row.winner_id) if row.winner_id in pks and row.winner_id else None
    persons = (people.by_pk.get(pks[0] or 0), people.by_pk.get(pks[1] or 0))
    taken = (pks[0] is not None, pks[1] is not None)
    return _State(Status(row.status), persons, taken, winner, row.implied)


def _from_draw(state: BoutState, people: People) -> _State:
    keys = tuple(side if isinstance(side, str) else "" for side in state.sides)
    persons = (people.by_key.get(keys[0]), people.by_key.get(keys[1]))
    winner = keys.index(state.winner) if state.winner else None
    return _State(state.status, persons, (bool(keys[0]), bool(keys[1])), winner, False)


def _seen(
    reading: _Reading,
    built: Bracket,
    rows: Mapping[BoutKey, Bout],
    key: BoutKey,
    state: _State,
) -> Seen:
    row, told = rows[key], reading.results.get(rows[key].pk)
    chance = built.chance(key)
    onward = [built.onward(key, way) for way in (Exit.WINNER, Exit.LOSER)]
    return Seen(
        pk=row.pk,
        key=key,
        weight=reading.drawn.weight_class,
        round=built.round_of(key),
        number=row.number,
        mat=row.mat,
        status=state.status,
        sides=(_side(built, rows, key, state, 0), _side(built, rows, key, state, 1)),
        overruled=Overruled.of(row, told) if reading.gates.results else None,
        result=_written(told, reading.implied.get(row.pk) if state.implied else None),
        official=told.state == Result.State.OFFICIAL if told else state.status is Status.DECIDED,
        at=told.received_at.isoformat() if told else "",
        winner_to=onward[0].bout if onward[0] else None,
        loser_to=onward[1].bout if onward[1] else None,
        loser_may_to=chance.bout if chance else None,
        rulings=(),
    )


def _written(told: Result | None, implied: Kind | None) -> str:
    """The result in notation, also where it follows from somebody being out."""
    if told:
        return notation(told.outcome)
    return MANNERS[implied].notation if implied else ""


def _side(
    built: Bracket, rows: Mapping[BoutKey, Bout], key: BoutKey, state: _State, slot: int
) -> Side:
    return Side(
        slot=slot,
        person=state.persons[slot],
        taken=state.taken[slot],
        empty=not state.taken[slot] and state.status in (Status.BYE, Status.VACANT, Status.DECIDED),
        won=state.winner == slot and state.status is Status.DECIDED,
        came=built.sources[key][slot],
        coming=Coming.of(built, key, slot, lambda other: rows[other].number),
    )
