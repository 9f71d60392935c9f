"""Where a bout stands on a sheet: its time column, and its row within its side."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from brackets.core.graph import BoutKey, Bracket, Exit, From, Round, Section

PIGTAILS = ("P", "CP")


def below(one: Round) -> bool:
    """Whether a round stands below, on the consolation side."""
    return one.section is Section.CONSOLATION


def time_columns(bracket: Bracket) -> dict[str, int]:
    """The time column of each round, from 1.

    Rounds come in running order; a round joins the current column when nothing that it waits for
    and no other round of its side is there, else it opens the next. Placing bouts share one column
    after all others, or a later one where they wait for another placing bout.
    """
    feeders = _feeders(bracket)
    columns: dict[str, int] = {}
    taken: set[tuple[int, Section]] = set()
    now = 1
    for one in bracket.rounds:
        if one.places is not None:
            continue
        now = max(now, _after(feeders[one.code], columns))
        if not one.placing:
            now += (now, one.section) in taken
            taken.add((now, one.section))
        columns[one.code] = now
    for one in bracket.rounds:
        if one.places is not None:
            columns[one.code] = max(now + 1, _after(feeders[one.code], columns))
    return columns


def _after(feeders: Iterable[str], columns: Mapping[str, int]) -> int:
    return max((columns[code] + 1 for code in feeders), default=1)


def _feeders(bracket: Bracket) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {one.code: set() for one in bracket.rounds}
    for earlier, later in bracket.graph.edges:
        found[later.round].add(earlier.round)
    return found


def rows_of(bracket: Bracket, nodes: Sequence[BoutKey]) -> dict[BoutKey, float]:
    """The row of each of these nodes within its side, from 0, at least one apart within a column.

    `nodes` in running order: all, or those that stand together on a part of a sheet. A node stands
    between the two that it pairs; a pigtail beside its line; a bout of losers beneath: the bouts
    for places under each other in the order of the places, and apart from all other rows.
    """
    rows: dict[BoutKey, float] = {}
    before: Counter[str] = Counter()
    for key in nodes:
        one = bracket.round_of(key)
        if not one.placing and one.code not in PIGTAILS:
            rows[key] = _between(bracket, key, rows, float(before[one.code]))
            before[one.code] += 1
    for key in nodes:
        if key.round in PIGTAILS and (seat := bracket.onward(key, Exit.WINNER)):
            rows[key] = rows[seat.bout]
    _place_last(bracket, nodes, rows)
    return rows


def _place_last(bracket: Bracket, nodes: Sequence[BoutKey], rows: dict[BoutKey, float]) -> None:
    """The rows of what is wrestled for places: 3rd, 5th, ..., then what comes after them."""
    last = [key for key in nodes if bracket.round_of(key).placing]
    lowest = max((rows[key] for key in rows if below(bracket.round_of(key))), default=-1.0)
    order = sorted(last, key=lambda key: _priority(bracket.round_of(key), key))
    free: dict[int, float] = {}
    columns = time_columns(bracket)
    for key in order:
        one = bracket.round_of(key)
        if not below(one):
            rows[key] = _between(bracket, key, rows, 0.0)
            continue
        at = columns[one.code]
        if one.places is None:
            lowest = rows[key] = lowest + 1
            continue
        rows[key] = max(_between(bracket, key, rows, 0.0), free.get(at, 0.0))
        free[at] = rows[key] + 1


def _priority(one: Round, key: BoutKey) -> tuple[bool, int, int, int]:
    """Bouts whose winners wrestle for a place, the bouts for places, then challenges."""
    place = one.places[0] if one.places else int(one.code.removesuffix("SF"))
    return one.needed is not None, int(one.places is not None), place, key.position


def _between(
    bracket: Bracket, key: BoutKey, rows: Mapping[BoutKey, float], otherwise: float
) -> float:
    """The middle of the winners that a bout pairs on its own side of the sheet."""
    side = below(bracket.round_of(key))
    paired = [
        rows[source.bout]
        for source in bracket.sources[key]
        if isinstance(source, From)
        and source.exit is Exit.WINNER
        and source.bout in rows
        and below(bracket.round_of(source.bout)) is side
    ]
    return sum(paired) / len(paired) if paired else otherwise
