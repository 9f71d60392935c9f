"""The formats: which one a field takes, and how its bouts hang together.

Elimination with full wrestleback, on L = 2^k lines, championship rounds 1..k:

* C1 pairs the losers of the first round. For j = 1..k-2, C(2j)-i is the winner of C(2j-1)-i
  against a loser of championship round j+1, crossed as the rule book says; C(2j+1) pairs the
  winners of C(2j). The winners of C(2k-4) wrestle for 3rd, its losers for 5th, the losers of
  C(2k-5) for 7th, as far as places are given.
* A pigtail is wrestled for a line; its winner takes the line. Its loser goes to the consolation
  pigtail against a loser of the first round, and the winner of that takes this loser's place in
  C1. The rule book names the partner for the pigtail of the first bout (9 of 16 for 32 lines); a
  pigtail of another bout takes the partner at the same distance, counted round and round.

Sources: 20 published brackets of 33 (32 lines, one pigtail). Other sizes: the same pattern;
several pigtails: common sense, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from brackets.core.assembly import assemble
from brackets.core.crossings import Exchange
from brackets.core.errors import FieldSizeNotOffered, LineUpInvalid, PlacesNotOffered
from brackets.core.graph import (
    BoutKey,
    Bracket,
    Exit,
    Format,
    From,
    Line,
    LineUp,
    Round,
    Section,
    Source,
    Sources,
)
from brackets.core.latest import exchanges
from brackets.core.rules import PLACES, SIZES, BracketRules

POOL_ORDER = {
    2: (((1, 2),),),
    3: (((2, 3),), ((1, 3),), ((1, 2),)),
    4: (((1, 4), (2, 3)), ((1, 3), (2, 4)), ((1, 2), (3, 4))),
    5: (
        ((2, 5), (3, 4)),
        ((1, 5), (2, 4)),
        ((1, 4), (2, 3)),
        ((1, 3), (4, 5)),
        ((1, 2), (3, 5)),
    ),
}
"""Round robins by number of entrants: who meets whom in each round. Source for 3 and 4: from
memory, unconfirmed; 2 and 5 continue the pattern (the best two meet last)."""


@dataclass(frozen=True, slots=True)
class Shape:
    """What a field of some size takes: the format, its lines, and how many pigtails."""

    format: Format
    lines: int
    pigtails: int = 0


def shape(entrants: int, rules: BracketRules) -> Shape:
    """The format for a number of entrants.

    Few wrestle a round robin. Others take the smallest bracket of 8, 16, ..., 256 lines that
    holds them, or the next smaller one when no more entrants than `pigtails_up_to` (and than it
    has first-round bouts) are beyond it. Refuses fewer than 2 and more than the largest holds.
    """
    if 2 <= entrants <= rules.round_robin_up_to:
        return Shape(Format.ROUND_ROBIN, entrants)
    for lines in SIZES if entrants >= 2 else ():
        beyond = max(0, entrants - lines)
        if beyond <= min(rules.pigtails_up_to, lines // 2):
            return Shape(Format.ELIMINATION, lines, beyond)
    raise FieldSizeNotOffered(
        entrants=entrants, most=SIZES[-1] + min(rules.pigtails_up_to, SIZES[-1] // 2)
    )


def build(lines: LineUp, rules: BracketRules, places: int) -> Bracket:
    """The bracket of a line-up: 2 to 5 lines a round robin, 8 to 256 an elimination.

    `places` is 4, 6 or 8; no more can be taken than there are entrants. The shape is worked out
    once per pattern of byes and pigtails and kept; a second bracket of the same pattern is cheap.
    Refuses what is no line-up, naming the fault. Every law of `assembly.check` holds.
    """
    if places not in PLACES:
        raise PlacesNotOffered(places=places)
    _check_line_up(lines)
    pattern = tuple(None if one is None else isinstance(one, tuple) for one in lines)
    return replace(_skeleton(pattern, rules, places), lines=lines)


def _check_line_up(lines: LineUp) -> None:
    entries = [
        one for line in lines if line for one in (line if isinstance(line, tuple) else (line,))
    ]
    problem = ""
    if len(lines) not in (*POOL_ORDER, *SIZES):
        problem = f"{len(lines)} lines are none of {', '.join(map(str, (*POOL_ORDER, *SIZES)))}"
    elif len(entries) < 2:
        problem = "it needs two entries at least"
    elif len(set(entries)) < len(entries):
        twice = sorted({one for one in entries if entries.count(one) > 1})
        problem = f"{', '.join(twice)} stands on more than one line"
    elif len(lines) in POOL_ORDER and len(entries) != len(lines):
        problem = "a round robin has neither byes nor pigtails"
    elif any(isinstance(a, tuple) and isinstance(b, tuple) for a, b in _pairs(lines)):
        problem = "one first-round bout waits for two pigtails"
    if problem:
        raise LineUpInvalid(problem=problem)


def _pairs(lines: LineUp) -> Iterator[tuple[object, object]]:
    return zip(lines[::2], lines[1::2], strict=False)


@lru_cache(maxsize=512)
def _skeleton(pattern: tuple[bool | None, ...], rules: BracketRules, places: int) -> Bracket:
    lines = tuple(
        None if one is None else (f"{i}a", f"{i}b") if one else str(i)
        for i, one in enumerate(pattern, start=1)
    )
    entrants = sum(1 if one is False else 2 for one in pattern if one is not None)
    reached = min(places, entrants)
    if len(lines) in POOL_ORDER:
        return assemble(Format.ROUND_ROBIN, lines, reached, *_pool(len(lines)))
    sources = dict(_elimination(lines, rules, reached))
    rounds = _rounds(len(lines).bit_length() - 1, {key.round for key in sources})
    return assemble(Format.ELIMINATION, lines, reached, rounds, sources)


def _pool(entrants: int) -> tuple[list[Round], dict[BoutKey, Sources]]:
    rounds = []
    sources: dict[BoutKey, Sources] = {}
    for column, bouts in enumerate(POOL_ORDER[entrants], start=1):
        rounds.append(Round(f"RR{column}", Section.POOL, column))
        for position, (top, bottom) in enumerate(bouts, start=1):
            sources[BoutKey(f"RR{column}", position)] = Line(top), Line(bottom)
    return rounds, sources


def championship_round(number: int, last: int) -> str:
    """The code of championship round `number` of `last`: R1, R2, ..., QF, SF, 1st."""
    return {0: "1st", 1: "SF", 2: "QF"}.get(last - number, f"R{number}")


def _rounds(last: int, present: set[str]) -> list[Round]:
    """The rounds in running order: each championship round with the consolation it sets free."""
    champ = [championship_round(number, last) for number in range(1, last + 1)]
    codes = ["P", champ[0]]
    for number in range(2, last):
        codes += [champ[number - 1], *(["CP"] if number == 2 else [])]
        codes += [f"C{2 * number - 4}", f"C{2 * number - 3}"]
    codes += [f"C{2 * last - 4}", "7th", "5th", "3rd", "1st"]
    placing = {"1st": (1, 2), "3rd": (3, 4), "5th": (5, 6), "7th": (7, 8)}
    return [
        Round(
            code,
            Section.CHAMPIONSHIP if code in (*champ, "P") else Section.CONSOLATION,
            column,
            placing.get(code),
        )
        for column, code in enumerate((code for code in codes if code in present), start=1)
    ]


def _feed(code: str, position: int, way: Exit = Exit.WINNER) -> From:
    return From(BoutKey(code, position), way)


def _halves(code: str, bouts: int, feeder: str) -> Iterator[tuple[BoutKey, Sources]]:
    """A round of `bouts` that pairs the neighbouring winners of the round before."""
    for i in range(1, bouts + 1):
        yield BoutKey(code, i), (_feed(feeder, 2 * i - 1), _feed(feeder, 2 * i))


def _elimination(
    lines: LineUp, rules: BracketRules, places: int
) -> Iterator[tuple[BoutKey, Sources]]:
    last = len(lines).bit_length() - 1
    first = championship_round(1, last)
    drops: list[Source] = [_feed(first, i + 1, Exit.LOSER) for i in range(len(lines) // 2)]
    yield from _pigtails(lines, rules.size(len(lines)).pigtail, drops)
    yield from _first_round(lines, first)
    for number in range(2, last + 1):
        before = championship_round(number - 1, last)
        yield from _halves(championship_round(number, last), len(lines) >> number, before)
    yield from _consolation(last, drops, exchanges(rules.size(len(lines))))
    yield from _placing(last, places)


def _first_round(lines: LineUp, code: str) -> Iterator[tuple[BoutKey, Sources]]:
    sources: list[Source] = []
    pigtails = 0
    for number, line in enumerate(lines, start=1):
        if isinstance(line, tuple):
            pigtails += 1
            sources.append(_feed("P", pigtails))
        else:
            sources.append(Line(number))
    for i in range(len(lines) // 2):
        yield BoutKey(code, i + 1), (sources[2 * i], sources[2 * i + 1])


def _pigtails(
    lines: LineUp, partner: int, drops: list[Source]
) -> Iterator[tuple[BoutKey, Sources]]:
    """The pigtails of both sides; puts the consolation pigtails' winners into `drops`."""
    shared = [number for number, line in enumerate(lines, start=1) if isinstance(line, tuple)]
    for position, number in enumerate(shared, start=1):
        yield BoutKey("P", position), (Line(number, 0), Line(number, 1))
        meets = ((number - 1) // 2 + partner - 1) % len(drops)
        loser = _feed("P", position, Exit.LOSER)
        yield BoutKey("CP", position), (loser, drops[meets])
        drops[meets] = _feed("CP", position)


def _consolation(
    last: int, drops: Sequence[Source], crossings: Sequence[Exchange]
) -> Iterator[tuple[BoutKey, Sources]]:
    bouts = len(drops) // 2
    for i in range(bouts):
        yield BoutKey("C1", i + 1), (drops[2 * i], drops[2 * i + 1])
    for number, crossing in enumerate(crossings, start=2):
        before, code = f"C{2 * number - 3}", f"C{2 * number - 2}"
        dropping = championship_round(number, last)
        for i in range(1, bouts + 1):
            loser = _feed(dropping, crossing.loser(i), Exit.LOSER)
            yield BoutKey(code, i), (_feed(before, i), loser)
        if number < last - 1:
            bouts //= 2
            yield from _halves(f"C{2 * number - 1}", bouts, code)


def _placing(last: int, places: int) -> Iterator[tuple[BoutKey, Sources]]:
    semifinal, quarterfinal = f"C{2 * last - 4}", f"C{2 * last - 5}"
    yield BoutKey("3rd", 1), (_feed(semifinal, 1), _feed(semifinal, 2))
    for code, needed, feeder in (("5th", 5, semifinal), ("7th", 7, quarterfinal)):
        if places >= needed:
            top, bottom = (_feed(feeder, i, Exit.LOSER) for i in (1, 2))
            yield BoutKey(code, 1), (top, bottom)
