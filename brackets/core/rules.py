"""The section [bracket] of a rule book, read into frozen values."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Self, TypeVar

from brackets.core.errors import BracketRulesInvalid
from seeding.journal.core.errors import Problem

SIZES = (8, 16, 32, 64, 128, 256)
PLACES = (4, 6, 8)

Choice = TypeVar("Choice", bound=StrEnum)


class LineOrder(StrEnum):
    """Which seeded order is printed top to bottom: 1 8 5 4 3 6 7 2, or 1 8 4 5 2 7 3 6."""

    MIRRORED = "mirrored"
    RECURRENCE = "recurrence"


class Crossing(StrEnum):
    """Which loser drops to which consolation bout, of four: 1234, 4321, 3412, 2143."""

    STRAIGHT = "straight"
    REVERSED = "reversed"
    HALF_SWAP = "half-swap"
    WITHIN_HALF = "within-half"


class Searched(StrEnum):
    """Crossings of a whole size that are found by search; see `latest`."""

    LATEST = "latest"


class Wrestleback(StrEnum):
    """Who of the losers goes on."""

    EVERYONE = "everyone"


class DoubleLoss(StrEnum):
    """What becomes of both when nobody wins: out, or (championship side) both drop as losers."""

    OUT = "out"
    DROP = "drop"


class OpenPlace(StrEnum):
    """What becomes of a place that nobody takes; see `progress`."""

    OPEN = "open"
    SHARED = "shared"
    MOVED_UP = "moved-up"


class Byes(StrEnum):
    """Who gets the byes of the draw: the best seeds, or every bout with the same chance."""

    BEST_SEEDS = "best-seeds"
    BY_LOT = "by-lot"


@dataclass(frozen=True, slots=True)
class Size:
    """What a rule book says about one size of bracket.

    `order`: the published line order, empty where the general one holds. `crossings`: one per
    round whose losers drop into a consolation under way (second round to semifinal), or searched.
    `pigtail`: the first-round bout whose loser meets the loser of a pigtail that feeds the
    first bout of the round.
    """

    lines: int
    order: tuple[int, ...]
    crossings: tuple[Crossing, ...] | Searched
    pigtail: int


@dataclass(frozen=True, slots=True)
class BracketRules:
    """How a rule book builds, draws and plays brackets."""

    places: int
    round_robin_up_to: int
    pigtails_up_to: int
    line_order: LineOrder
    wrestleback: Wrestleback
    double_loss: DoubleLoss
    open_place: OpenPlace
    advancing_byes: Byes
    sizes: tuple[Size, ...]

    def size(self, lines: int) -> Size:
        """What holds for a bracket of this many lines (8, 16, 32, 64, 128 or 256)."""
        return next(size for size in self.sizes if size.lines == lines)

    @classmethod
    def from_section(cls, section: Mapping[str, object]) -> Self:
        """Read the section; refuses unknown, missing and impossible values, all by name."""
        reader = _Reader(section)
        rules = cls(
            places=reader.number("places", PLACES),
            round_robin_up_to=reader.number("round_robin_up_to", range(6)),
            pigtails_up_to=reader.number("pigtails_up_to", range(65)),
            line_order=reader.choice("line_order", LineOrder),
            wrestleback=reader.choice("wrestleback", Wrestleback),
            double_loss=reader.choice("double_loss", DoubleLoss),
            open_place=reader.choice("open_place", OpenPlace),
            advancing_byes=reader.choice("advancing_byes", Byes),
            sizes=tuple(reader.sizes()),
        )
        reader.finish()
        return rules


class _Reader:
    """Takes values out of a section one by one and collects what is wrong."""

    def __init__(self, section: Mapping[str, object]) -> None:
        self.section = section
        self.known: set[str] = set()
        self.problems: list[Problem] = []

    def refuse(self, name: str, message: str) -> None:
        self.problems.append(Problem(f"bracket.{name}", message))

    def take(self, name: str) -> object:
        self.known.add(name)
        if name not in self.section:
            self.refuse(name, "is missing")
        return self.section.get(name)

    def number(self, name: str, allowed: tuple[int, ...] | range) -> int:
        value = self.take(name)
        if isinstance(value, int) and not isinstance(value, bool) and value in allowed:
            return value
        if name in self.section:
            self.refuse(name, f"must be {_span(allowed)}, not {value!r}")
        return 0

    def choice(self, name: str, kind: type[Choice]) -> Choice:
        value = self.take(name)
        names = [str(option) for option in kind]
        if value in names:
            return kind(value)
        if name in self.section:
            self.refuse(name, f"must be one of {', '.join(names)}, not {value!r}")
        return next(iter(kind))

    def table(self, name: str, *, needed: bool) -> Mapping[str, object]:
        self.known.add(name)
        value = self.section.get(name)
        if value is None and not needed:
            return {}
        if not isinstance(value, Mapping):
            self.refuse(name, "is missing" if value is None else "must be a table by lines")
            return {}
        for key in sorted(set(value) - set(map(str, SIZES))):
            self.refuse(f"{name}.{key}", f"there is no such size: {', '.join(map(str, SIZES))}")
        return value

    def sizes(self) -> Iterator[Size]:
        orders = self.table("lines", needed=False)
        crossings = self.table("crossings", needed=True)
        pigtails = self.table("pigtail", needed=False)
        for lines in SIZES:
            size = str(lines)
            yield Size(
                lines=lines,
                order=self.order(lines, orders.get(size, [])),
                crossings=self.crossings(lines, crossings.get(size)),
                pigtail=self.pigtail(lines, pigtails.get(size, lines // 4 + 1)),
            )

    def order(self, lines: int, value: object) -> tuple[int, ...]:
        ranks = tuple(value) if isinstance(value, Sequence) else ()
        if ranks and sorted(ranks, key=str) != sorted(range(1, lines + 1), key=str):
            self.refuse(f"lines.{lines}", f"must name each rank from 1 to {lines} once")
        return ranks

    def crossings(self, lines: int, value: object) -> tuple[Crossing, ...] | Searched:
        if value == Searched.LATEST:
            return Searched.LATEST
        names = [str(option) for option in Crossing]
        listed = value if isinstance(value, Sequence) else ()
        wanted = lines.bit_length() - 3
        if value is None:
            self.refuse(f"crossings.{lines}", "is missing")
        elif len(listed) != wanted or any(name not in names for name in listed):
            allowed = f"must be latest or list {wanted} of {', '.join(names)}, not {value!r}"
            self.refuse(f"crossings.{lines}", allowed)
        return tuple(Crossing(name) for name in listed if name in names)

    def pigtail(self, lines: int, value: object) -> int:
        if isinstance(value, int) and not isinstance(value, bool) and 1 < value <= lines // 2:
            return value
        self.refuse(f"pigtail.{lines}", f"must be a bout from 2 to {lines // 2}, not {value!r}")
        return 0

    def finish(self) -> None:
        for name in sorted(set(self.section) - self.known):
            self.refuse(name, "is not a setting of brackets")
        if self.problems:
            raise BracketRulesInvalid(self.problems)


def _span(allowed: tuple[int, ...] | range) -> str:
    if isinstance(allowed, range):
        return f"a whole number from {allowed[0]} to {allowed[-1]}"
    return f"one of {', '.join(map(str, allowed))}"
