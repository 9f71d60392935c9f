from collections import Counter
from collections.abc import Sequence

import networkx as nx
import pytest

from brackets.core.errors import FieldSizeNotOffered, LineUpInvalid, PlacesNotOffered
from brackets.core.formats import Shape, build, shape
from brackets.core.graph import BoutKey, Bracket, Exit, Format, From, Line, LineUp, Section
from tests.brackets.core.books import bracket, line_up, rules

FIELDS = range(8, 129)
SAMPLE = [8, 9, 10, 13, 16, 17, 24, 31, 32, 33, 40, 47, 64, 65, 100, 128]


@pytest.mark.parametrize(
    ("entrants", "expected"),
    [
        (2, Shape(Format.ROUND_ROBIN, 2)),
        (5, Shape(Format.ROUND_ROBIN, 5)),
        (6, Shape(Format.ELIMINATION, 8)),
        (8, Shape(Format.ELIMINATION, 8)),
        (9, Shape(Format.ELIMINATION, 8, 1)),
        (10, Shape(Format.ELIMINATION, 16)),
        (33, Shape(Format.ELIMINATION, 32, 1)),
        (34, Shape(Format.ELIMINATION, 64)),
        (128, Shape(Format.ELIMINATION, 128)),
        (129, Shape(Format.ELIMINATION, 128, 1)),
        (130, Shape(Format.ELIMINATION, 256)),
        (257, Shape(Format.ELIMINATION, 256, 1)),
    ],
)
def test_shape(entrants: int, expected: Shape) -> None:
    assert shape(entrants, rules()) == expected


@pytest.mark.parametrize("entrants", [-1, 0, 1, 258])
def test_fields_without_a_format(entrants: int) -> None:
    with pytest.raises(FieldSizeNotOffered) as caught:
        shape(entrants, rules())
    wanted = f"There is no bracket for {entrants} entrants: enter between 2 and 257."
    assert str(caught.value) == wanted


def test_more_pigtails_than_first_round_bouts_open_the_next_size() -> None:
    assert shape(12, rules(pigtails_up_to=9)) == Shape(Format.ELIMINATION, 8, 4)
    assert shape(13, rules(pigtails_up_to=9)) == Shape(Format.ELIMINATION, 16)


@pytest.mark.parametrize(
    ("pigtails", "fields"),
    [(1, FIELDS), (0, [9, 17, 33, 65]), (6, [8 + 4, *range(17, 23), *range(65, 71)])],
)
def test_number_of_bouts(pigtails: int, fields: Sequence[int]) -> None:
    # calculated: 2n-4, 2n-3, 2n-2 bouts to 4, 6, 8 places, byes not counted
    used = rules(pigtails_up_to=pigtails)
    for entrants in fields:
        counts = [len(bracket(entrants, places, used).bouts) for places in (4, 6, 8)]
        assert counts == [2 * entrants - 4, 2 * entrants - 3, 2 * entrants - 2], entrants


@pytest.mark.parametrize(
    ("entrants", "counts"),
    [
        (2, [1, 1, 1]),
        (3, [2, 2, 2]),
        (4, [4, 4, 4]),
        (5, [6, 6, 6]),
        (6, [8, 9, 9]),
        (7, [10, 11, 11]),
    ],
)
def test_number_of_bouts_of_small_fields_on_eight_lines(entrants: int, counts: list[int]) -> None:
    # calculated: as above, but a place that only one can reach is not wrestled for
    used = rules(round_robin_up_to=0)
    assert [len(bracket(entrants, places, used).bouts) for places in (4, 6, 8)] == counts
    assert [bracket(entrants, places, used).places for places in (4, 6, 8)] == [
        min(entrants, places) for places in (4, 6, 8)
    ]


@pytest.mark.parametrize("entrants", FIELDS)
def test_every_edge_is_lawful(entrants: int) -> None:
    for places in (4, 6, 8):
        built = bracket(entrants, places)
        graph = built.graph
        assert nx.is_directed_acyclic_graph(graph)
        assert list(graph) == list(built.sources)
        _check_sources(built)
        _check_ways(built, places)


def _check_sources(built: Bracket) -> None:
    fed = Counter(source for sides in built.sources.values() for source in sides)
    assert set(fed.values()) == {1}
    halves = sum(2 if isinstance(line, tuple) else 1 for line in built.lines)
    assert sum(isinstance(source, Line) for source in fed) == halves
    for key, sides in built.sources.items():
        into = built.graph.in_edges(key, data=True)
        edges = {(feeder, data["exit"], data["slot"]) for feeder, _, data in into}
        stated = [(slot, side) for slot, side in enumerate(sides) if isinstance(side, From)]
        assert edges == {(side.bout, side.exit, slot) for slot, side in stated}


def _check_ways(built: Bracket, places: int) -> None:
    last = len(built.lines).bit_length() - 1
    placing = {
        f"C{2 * last - 4}": "5th" if places >= 6 else None,
        f"C{2 * last - 5}": "7th" if places >= 8 else None,
    }
    for key in built.sources:
        here = built.round_of(key)
        win, loss = (built.onward(key, way) for way in (Exit.WINNER, Exit.LOSER))
        if here.places:
            assert (win, loss) == (None, None)
        else:
            assert win
            assert built.round_of(win.bout).section is here.section
        if here.section is Section.CONSOLATION:
            assert (loss.bout.round if loss else None) == placing.get(here.code)
        elif not here.places:
            assert loss
            assert built.round_of(loss.bout).section is Section.CONSOLATION


def test_who_loses_before_the_placing_bouts_loses_twice_at_most() -> None:
    # calculated: along every way at most two losses, a third only in a bout for 5th or 7th
    for entrants in SAMPLE:
        built = bracket(entrants)
        losses: dict[BoutKey, int] = {}
        for key, sides in built.sources.items():
            carried = [
                losses[side.bout] + (side.exit is Exit.LOSER)
                for side in sides
                if isinstance(side, From)
            ]
            losses[key] = max(carried, default=0)
            assert losses[key] <= 1 or key.round in ("5th", "7th")


@pytest.mark.parametrize("pigtails", range(1, 5))
def test_pigtails_meet_losers_half_the_first_round_away(pigtails: int) -> None:
    # common sense, no source: the rule of the one published pigtail, counted round and round
    built = bracket(8 + pigtails, 8, rules(pigtails_up_to=4))
    first = {key: built.onward(key, Exit.WINNER) for key in built.bouts if key.round == "P"}
    met = [
        (seat.bout.position, built.sources[BoutKey("CP", key.position)][1])
        for key, seat in first.items()
        if seat
    ]
    assert len(met) == pigtails
    for position, partner in met:
        expected = BoutKey("QF", (position + 1) % 4 + 1)
        assert partner == From(expected, Exit.LOSER)


@pytest.mark.parametrize(
    ("lines", "problem"),
    [
        (("a", "b", "c", "d", "e", "f"), "6 lines are none of 2, 3, 4, 5, 8, 16, 32, 64, 128, 256"),
        (("a",) + (None,) * 7, "it needs two entries at least"),
        (("a", "a", "b"), "a stands on more than one line"),
        (("a", None, "b"), "a round robin has neither byes nor pigtails"),
        (
            (("a", "b"), ("c", "d"), *"efghij"),
            "one first-round bout waits for two pigtails",
        ),
    ],
)
def test_no_line_up(lines: LineUp, problem: str) -> None:
    with pytest.raises(LineUpInvalid) as caught:
        build(lines, rules(), 8)
    assert str(caught.value) == f"This line-up does not make a bracket: {problem}."


def test_places_not_offered() -> None:
    with pytest.raises(PlacesNotOffered):
        build(line_up(8, rules()), rules(), 5)


def test_a_pattern_is_worked_out_once() -> None:
    one, other = bracket(12), build(tuple(reversed(line_up(12, rules()))), rules(), 8)
    assert one.graph is bracket(12).graph
    assert one.lines != other.lines
    assert list(one.entries()) == list(reversed(list(other.entries())))
