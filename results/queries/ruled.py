"""Rulings and void bouts in words, with the names that the reader may know."""

from collections import Counter, defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from django.db.models import QuerySet
from django.utils.translation import gettext as _

from brackets.core.rulings import PlaceRuling, ResultRuling, Seating
from brackets.core.rulings import Ruling as Value
from brackets.core.sources import BoutKey, Exit, Seat
from brackets.models import Bout, Drawn
from results.core.errors import BoutVoid
from results.core.outcomes import notation
from results.core.rulings import bouts_named, entries_named
from results.models import Ruling, VoidBout
from results.queries.consequences import Preview
from seeding.entries.models import Entry, Tournament

Naming = Callable[[str], str]
"""The name of an entry by its key."""


@dataclass(frozen=True, slots=True)
class Ruled:
    """A ruling: what it sets, sentence by sentence, and which bouts and entries it is about.

    `number`: counted in its weight; sheets mark by it what was ruled. `places`: those that it
    gives, None for no place, by entry.
    """

    row: Ruling
    number: int
    says: tuple[str, ...]
    bouts: frozenset[BoutKey]
    entries: frozenset[str]
    places: Mapping[str, int | None]

    @property
    def mark(self) -> str:
        return marked([self.number])

    def about(self, bout: BoutKey, gives: Collection[int], sides: Collection[str]) -> bool:
        """Whether it is about a bout, or about a place that the bout gives to one of its sides."""
        return bout in self.bouts or any(
            place in gives or (place is None and entry in sides)
            for entry, place in self.places.items()
        )


@dataclass(frozen=True, slots=True)
class Voided:
    """A void bout with the names of its two; `written` is in the rule book's notation, `now` the
    number of the bout that is wrestled in its place.
    """

    row: VoidBout
    key: BoutKey
    entries: frozenset[str]
    sides: tuple[str, str]
    winner: str
    written: str

    @property
    def called(self) -> str:
        return str(self.row.number or self.key)

    @property
    def now(self) -> str:
        number = self.row.bout.number
        return str(number) if number and number != self.row.number else ""

    @property
    def says(self) -> str:
        """What a sheet says of it."""
        words = _("Bout {bout}, {one} against {other}, {result}: counts for nothing.").format(
            bout=self.called, one=self.sides[0], other=self.sides[1], result=self.written
        )
        return " ".join(filter(None, (words, self.now and _("Now bout {n}.").format(n=self.now))))


@dataclass(frozen=True, slots=True)
class Against:
    """What of some weights was ruled against the format or is void."""

    rulings: tuple[Ruling, ...] = ()
    void: tuple[VoidBout, ...] = ()

    @classmethod
    def of(cls, drawn: Iterable[Drawn]) -> "Against":
        """Two queries; the author of a ruling is asked for where he is told, never in public."""
        pks = [row.pk for row in drawn]
        void = VoidBout.objects.filter(bout__drawn__in=pks)
        return cls(
            tuple(Ruling.objects.filter(drawn__in=pks)),
            tuple(void.select_related("bout", "top", "bottom")),
        )

    def told(
        self, drawn: Drawn, name: Naming, bouts: Mapping[BoutKey, Bout]
    ) -> tuple[tuple[Ruled, ...], tuple[Voided, ...]]:
        """The rulings and the void bouts of a weight in words."""
        made = [row for row in self.rulings if row.drawn_id == drawn.pk]
        void = [row for row in self.void if row.bout.drawn_id == drawn.pk]
        counted, bout = numbers_of(made), naming({key: row.number for key, row in bouts.items()})
        rulings = (ruled(row, counted[row.pk], name, bout) for row in made)
        return tuple(rulings), tuple(voided(row, name) for row in void)


def rulings(tournament: Tournament) -> QuerySet[Ruling]:
    """The rulings of a tournament, light to heavy, in the order made."""
    rows = Ruling.objects.filter(drawn__weight_class__tournament=tournament)
    ordered = rows.order_by("drawn__weight_class__position", "pk")
    return ordered.select_related("author", "drawn__weight_class__tournament")


def void_bouts(tournament: Tournament) -> QuerySet[VoidBout]:
    """The void bouts of a tournament, light to heavy, in the order in which they became void."""
    rows = VoidBout.objects.filter(bout__drawn__weight_class__tournament=tournament)
    ordered = rows.order_by("bout__drawn__weight_class__position", "pk")
    return ordered.select_related(
        "bout__drawn__weight_class", "top__wrestler", "bottom__wrestler", "author", "voided_by"
    )


def names(tournament: Tournament) -> Naming:
    """Full names by the keys of entries, for the desk."""
    rows = Entry.objects.filter(tournament=tournament).select_related("wrestler")
    found = {row.key: row.wrestler.name for row in rows}
    return lambda key: found.get(key, key)


def told_of(drawn: Drawn) -> list[Ruled]:
    """The rulings of a weight in words, for the desk."""
    tournament = drawn.weight_class.tournament
    return told(tournament, rulings(tournament).filter(drawn=drawn))


def told(tournament: Tournament, made: Iterable[Ruling]) -> list[Ruled]:
    """Rulings of a tournament in words, for the desk; three queries whatever their number."""
    if not (rows := list(made)):
        return []
    counted = numbers_of(Ruling.objects.filter(drawn__in={row.drawn_id for row in rows}))
    numbers: dict[int, dict[BoutKey, int | None]] = defaultdict(dict)
    bouts = Bout.objects.filter(drawn__in={row.drawn_id for row in rows})
    for drawn, code, position, number in bouts.values_list("drawn", "round", "position", "number"):
        numbers[drawn][BoutKey(code, position)] = number
    name = names(tournament)
    return [ruled(row, counted[row.pk], name, naming(numbers[row.drawn_id])) for row in rows]


def void_at(bout: Bout) -> list[Voided]:
    """The void bouts that were wrestled where this one stands, for the desk."""
    return void_told(void_bouts(bout.drawn.weight_class.tournament).filter(bout=bout))


def refuse_void(tournament: Tournament, number: int) -> None:
    """Refuse a number under which only a void bout was wrestled; say how it is called now."""
    row = void_bouts(tournament).filter(number=number).first()
    if row:
        raise BoutVoid(bout=number, now=row.bout.number or row.bout.key)


def void_since(bout: Bout, before: int) -> list[Voided]:
    """Which bouts of the same weight are void since there were `before`, for the desk."""
    rows = void_bouts(bout.drawn.weight_class.tournament).filter(bout__drawn=bout.drawn)
    return void_told(rows[before:])


def void_told(rows: Iterable[VoidBout]) -> list[Voided]:
    """Void bouts in words with full names, for the desk."""
    return [
        voided(row, {one.key: one.wrestler.name for one in (row.top, row.bottom)}.__getitem__)
        for row in rows
    ]


def rulings_made(seen: Preview) -> list[str]:
    """What the choices about wrestled bouts would rule, sentence by sentence, for the desk."""
    if not seen.made:
        return []
    drawn = seen.affected[0].bout.drawn
    name, bout = names(drawn.weight_class.tournament), called(drawn)
    return [said for one in seen.made for said in say(one, name, bout)]


def called(drawn: Drawn) -> Callable[[BoutKey], str]:
    """How the bouts of a weight are called: by number, else by round and position."""
    rows = Bout.objects.filter(drawn=drawn).values_list("round", "position", "number")
    return naming({BoutKey(code, position): number for code, position, number in rows})


def naming(numbers: Mapping[BoutKey, int | None]) -> Callable[[BoutKey], str]:
    """Bouts by these numbers, else by round and position."""
    return lambda key: str(numbers.get(key) or key)


def numbers_of(rows: Iterable[Ruling]) -> dict[int, int]:
    """The numbers of all rulings of some weights, in the order made, by primary key."""
    last: Counter[int] = Counter()
    found = {}
    for row in rows:
        last[row.drawn_id] += 1
        found[row.pk] = last[row.drawn_id]
    return found


def marked(numbers: Iterable[int]) -> str:
    """How a sheet marks what these rulings are about; nothing where there are none.

    >>> marked([2]), marked([1, 3]), marked([])
    ('§2', '§1,3', '')
    """
    listed = ",".join(map(str, numbers))
    return f"§{listed}" if listed else ""


def ruled(row: Ruling, number: int, name: Naming, bout: Callable[[BoutKey], str]) -> Ruled:
    """A ruling in words."""
    value = row.value
    return Ruled(
        row,
        number,
        tuple(say(value, name, bout)),
        frozenset(bouts_named(value)),
        frozenset(entries_named(value)),
        value.places if isinstance(value, PlaceRuling) else {},
    )


def voided(row: VoidBout, name: Naming) -> Voided:
    """A void bout in words."""
    outcome = row.outcome
    sides = (name(row.top.key), name(row.bottom.key))
    winner = "" if outcome.winner is None else sides[outcome.winner]
    keys = frozenset((row.top.key, row.bottom.key))
    return Voided(row, row.bout.key, keys, sides, winner, notation(outcome))


def say(value: Value, name: Naming, bout: Callable[[BoutKey], str]) -> Iterator[str]:
    """What a ruling sets, sentence by sentence."""
    if isinstance(value, PlaceRuling):
        yield from (_place(name(entry), place) for entry, place in value.places.items())
    elif isinstance(value, ResultRuling):
        yield _result(value, [name(entry) for entry in value.sides], bout(value.bout))
    elif not value.ways:
        yield _("Bout {bout} keeps its two.").format(bout=bout(value.bout))
    else:
        yield from (_seat(one, name, bout) for one in value.ways)


def _place(who: str, place: int | None) -> str:
    if place is None:
        return _("{name} has no place.").format(name=who)
    return _("{name} has place {place}.").format(name=who, place=place)


def _result(value: ResultRuling, names: list[str], bout: str) -> str:
    if value.winner is None:
        text = _("Nobody wins bout {bout} between {one} and {other}.")
        return text.format(bout=bout, one=names[0], other=names[1])
    text = _("{winner} goes on as the winner of bout {bout} against {loser}.")
    return text.format(winner=names[value.winner], loser=names[1 - value.winner], bout=bout)


def _seat(one: Seating, name: Naming, bout: Callable[[BoutKey], str]) -> str:
    way = one.way
    if isinstance(way, Seat):
        where = _("green in bout {bout}") if way.slot else _("red in bout {bout}")
    elif way.exit is Exit.LOSER:
        where = _("taken for the loser of bout {bout}")
    else:
        where = _("taken for the winner of bout {bout}")
    who = name(one.entry) if one.entry else _("Nobody")
    return _("{name} is {where}.").format(name=who, where=where.format(bout=bout(way.bout)))
