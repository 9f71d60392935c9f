"""The rounds of a bracket while it is being planned, each at its time in the running order.

A time is (championship rounds before the final, 0 or less; the place among what comes with it).
It is the same for rounds of different brackets that belong together, counted from the end:

* championship round n of k: (n - k, 0); the final (0, 11). P: (1 - k, -1). CP: (2 - k, 1).
* consolation round d of 2k - 4: (n - k, 2) and (n - k, 3) for d = 2n - 4 and 2n - 3.
* bouts for places: (0, 4) for 15th, ..., (0, 10) for 3rd; 9SF and 13SF (-1, 5) and (-1, 4).
* what is wrestled only if it is needed: after all finals, (1, 0) and up.
* pools: round n of r: (n - r, 1), or (n - r - 2, 1) where semifinals follow.
* chains of a repechage: after the round of the leaders, (-2, 4) and up, or (-1, 3) and up.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from brackets.core.sources import (
    BoutKey,
    Exit,
    From,
    Line,
    LineUp,
    Needed,
    Round,
    Section,
    Sources,
)

CHAMPIONSHIP, CONSOLATION = Section.CHAMPIONSHIP, Section.CONSOLATION
FINAL, LAST_PLACING = (0, 11), 10


@dataclass(frozen=True, slots=True)
class Plan:
    """Rounds by code, not numbered yet, and the sources of their bouts."""

    rounds: dict[str, Round] = field(default_factory=dict)
    sources: dict[BoutKey, Sources] = field(default_factory=dict)

    def add(self, one: Round, bouts: Iterable[Sources]) -> None:
        """Add a round with its bouts from the top."""
        self.rounds[one.code] = one
        for position, sides in enumerate(bouts, start=1):
            self.sources[BoutKey(one.code, position)] = sides

    def running(self) -> list[Round]:
        """The rounds that have bouts in running order, numbered."""
        there = {key.round for key in self.sources}
        present = [one for one in self.rounds.values() if one.code in there]
        order = sorted(present, key=lambda one: (one.when, one.code))
        return [replace(one, column=column) for column, one in enumerate(order, start=1)]

    def winners(self, code: str) -> list[From]:
        """The winners of a round from the top."""
        return [From(key, Exit.WINNER) for key in self.sources if key.round == code]

    def losers(self, code: str) -> list[From]:
        """The losers of a round from the top."""
        return [From(key, Exit.LOSER) for key in self.sources if key.round == code]


def championship(code: str, when: tuple[int, int]) -> Round:
    """A round of the championship side before the final."""
    return Round(code, CHAMPIONSHIP, when=when)


def consolation(code: str, when: tuple[int, int]) -> Round:
    """A round of the consolation side before a place is at stake."""
    return Round(code, CONSOLATION, when=when)


def placing(place: int) -> Round:
    """The bout for an odd place and the next: 3rd, 5th, ..., 15th."""
    when = (0, LAST_PLACING - (place - 3) // 2)
    return Round(ordinal(place), CONSOLATION, (place, place + 1), when=when)


def final() -> Round:
    """The bout for 1st."""
    return Round(ordinal(1), CHAMPIONSHIP, (1, 2), when=FINAL)


def true_place(place: int) -> Round:
    """The bout in which the holder of a place is challenged from below, the best one last."""
    when = (1, 3 - place // 2)
    places = (place, place + 1)
    return Round(ordinal(place), CONSOLATION, places, when=when, needed=Needed.UNMET)


def ordinal(place: int) -> str:
    """A place as it is written.

    >>> ordinal(1), ordinal(3), ordinal(11)
    ('1st', '3rd', '11th')
    """
    return {1: "1st", 2: "2nd", 3: "3rd"}.get(place, f"{place}th")


def paired(fed: list[From]) -> list[Sources]:
    """A round that pairs neighbours."""
    return list(zip(fed[::2], fed[1::2], strict=True))


def pigtail_lines(lines: LineUp) -> list[int]:
    """The numbers of the lines that a pigtail is wrestled for, from the top."""
    return [number for number, line in enumerate(lines, start=1) if isinstance(line, tuple)]


def first_sources(lines: LineUp) -> list[Line | From]:
    """Who comes to each line: whoever starts there, or the winner of its pigtail."""
    position: Mapping[int, int] = {
        number: at for at, number in enumerate(pigtail_lines(lines), start=1)
    }
    return [
        From(BoutKey("P", position[number]), Exit.WINNER) if number in position else Line(number)
        for number in range(1, len(lines) + 1)
    ]
