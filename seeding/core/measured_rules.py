"""Reading criteria that give everybody a number; the keys are in `seeding.core.criterion_rules`."""

from collections.abc import Callable, Mapping
from fractions import Fraction

from seeding.core.ballots import Ranks, RanksOfOthers, Sum
from seeding.core.counting_rules import Counting, bad, choice, number, positive, where_counted
from seeding.core.criteria import Measured, Missing, Repeats
from seeding.core.ledger import Ledger
from seeding.core.points import PlacePoints, PlaceTable, Take
from seeding.core.rated import Rated
from seeding.core.ratings.names import Rating
from seeding.core.records import (
    Equal,
    OverField,
    OverRanked,
    OverWinning,
    Quality,
    QualityWins,
    StrongRecord,
    WinPercentage,
    Wins,
)
from seeding.core.rpi import Reading, Rpi
from seeding.core.season import At
from seeding.core.tables import EarlierPlace, Ranked
from seeding.entries.core.rulebook import Section


def measured(table: Section, kinds: Counting) -> Measured:
    """Read a criterion that gives everybody a number."""
    return MEASURED[table.text("criterion", among=tuple(MEASURED))](table, kinds)


def ledger(table: Section, kinds: Counting) -> Ledger:
    """How a record is kept by the criterion's `bouts`."""
    won, lost = where_counted(table, kinds.win, kinds), where_counted(table, kinds.loss, kinds)
    return Ledger(won, lost, kinds.medical)


def _missing(table: Section) -> Missing:
    return choice(table, "missing", Missing)


def _win_percentage(table: Section, kinds: Counting) -> Measured:
    return WinPercentage(
        table.text("name"),
        _missing(table),
        ledger(table, kinds),
        table.whole("minimum_bouts", 1),
        choice(table, "equal", Equal),
    )


def _wins(table: Section, kinds: Counting) -> Measured:
    return Wins(table.text("name"), _missing(table), ledger(table, kinds))


def _strong_record(table: Section, kinds: Counting) -> Measured:
    own = ledger(table, kinds)
    return StrongRecord(
        table.text("name"),
        _missing(table),
        own,
        table.whole("minimum_bouts", 1),
        choice(table, "equal", Equal),
        _over(table, own),
    )


def _quality_wins(table: Section, kinds: Counting) -> Measured:
    own = ledger(table, kinds)
    return QualityWins(
        table.text("name"),
        Missing.NOBODY,
        own,
        _over(table, own),
        choice(table, "repeats", Repeats),
    )


def _over(table: Section, own: Ledger) -> Quality:
    with table.section("over") as over:
        return QUALITIES[over.text("of", among=tuple(QUALITIES))](over, own)


def _ranked(table: Section, _ledger: Ledger) -> Quality:
    return OverRanked(table.text("ranking"), table.whole("top", 1))


def _field(_table: Section, _ledger: Ledger) -> Quality:
    return OverField()


def _winning(table: Section, own: Ledger) -> Quality:
    percentage = number(table, "percentage")
    if not 0 <= percentage <= 1:
        raise bad(table, "percentage", "a number from 0 to 1")
    return OverWinning(own, percentage, table.whole("minimum_bouts", 1))


def _rpi(table: Section, kinds: Counting) -> Measured:
    numbers = table.decimals("parts")
    if len(numbers) != 3 or min(numbers) < 0:
        raise bad(table, "parts", "a list of three numbers from 0")
    parts = [Fraction(one) for one in numbers]
    return Rpi(
        table.text("name"),
        _missing(table),
        ledger(table, kinds),
        (parts[0], parts[1], parts[2]),
        table.whole("minimum_bouts", 1),
        choice(table, "reading", Reading),
    )


def _rating(table: Section, kinds: Counting) -> Measured:
    return Rated(
        table.text("name"),
        _missing(table),
        ledger(table, kinds),
        choice(table, "rating", Rating),
        table.whole("minimum_bouts", 1),
    )


def _ranking(table: Section, kinds: Counting) -> Measured:
    return Ranked(table.text("name"), _missing(table), ranking=table.text("ranking"))


def _earlier_place(table: Section, kinds: Counting) -> Measured:
    return EarlierPlace(
        table.text("name"),
        _missing(table),
        event=table.text("event"),
        places_at=choice(table, "places_at", At),
    )


def ranks(table: Section, kinds: Counting) -> Ranks:
    """Read what is made of the ranks on the ballots."""
    return Ranks(table.text("name"), _missing(table), *drops(table))


def _ranks_of_others(table: Section, kinds: Counting) -> Measured:
    return RanksOfOthers(table.text("name"), _missing(table), *drops(table))


def drops(table: Section) -> tuple[Sum, int, int]:
    """What is made of ranks, and how many of the best and worst are dropped."""
    return choice(table, "take", Sum), table.whole("drop_best"), table.whole("drop_worst")


def _place_points(table: Section, kinds: Counting) -> Measured:
    tables: list[PlaceTable] = []
    for one in table.sections("tables"):
        with one:
            tables.append(_place_table(one))
    if not tables:
        raise bad(table, "tables", "a list of at least one table")
    name, missing = table.text("name"), choice(table, "missing", Missing)
    at, take = choice(table, "places_at", At), choice(table, "take", Take)
    return PlacePoints(name, missing, tuple(tables), at, take)


def _place_table(table: Section) -> PlaceTable:
    points = tuple(Fraction(one) for one in table.decimals("points"))
    return PlaceTable(
        table.text("event"), points, number(table, "took_part"), positive(table, "factor")
    )


MEASURED: Mapping[str, Callable[[Section, Counting], Measured]] = {
    "win-percentage": _win_percentage,
    "wins": _wins,
    "strong-record": _strong_record,
    "quality-wins": _quality_wins,
    "rpi": _rpi,
    "rating": _rating,
    "ranking": _ranking,
    "earlier-place": _earlier_place,
    "place-points": _place_points,
    "ballots": ranks,
    "ballots-of-others": _ranks_of_others,
}

QUALITIES: Mapping[str, Callable[[Section, Ledger], Quality]] = {
    "ranked": _ranked,
    "field": _field,
    "winning": _winning,
}
