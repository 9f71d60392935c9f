"""The section [bracket] of a rule book, read into frozen values."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Self

from brackets.core.reading import Reader

SIZES = (8, 16, 32, 64, 128, 256)
PLACES = (2, 3, 4, 6, 8, 12, 16)


class LineOrder(StrEnum):
    """Which seeded order is printed top to bottom; see `lines`.

    1 8 5 4 3 6 7 2, or 1 8 4 5 2 7 3 6, or of four seeds 1 8 7 4 3 6 5 2 with the byes on top.
    """

    MIRRORED = "mirrored"
    RECURRENCE = "recurrence"
    INTERNATIONAL = "international"


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
    """Who of the losers goes on.

    EVERYONE: all, to 3rd at best. TO_FIFTH: all, to 5th at best; the losers of the semifinals
    wrestle for 3rd. QUARTERFINAL_WINNERS: whom a semifinalist beat. FOLLOW_THE_LEADER: who loses
    before the quarterfinals only if the man who beat him wins his; who loses a quarterfinal always.
    FINALISTS: whom a finalist beat. NOBODY: only the losers of the semifinals, for 3rd.
    DOUBLE_ELIMINATION: all, and the last of them against the unbeaten for 1st.
    """

    EVERYONE = "everyone"
    TO_FIFTH = "to-fifth"
    QUARTERFINAL_WINNERS = "quarterfinal-winners"
    FOLLOW_THE_LEADER = "follow-the-leader"
    FINALISTS = "finalists"
    NOBODY = "nobody"
    DOUBLE_ELIMINATION = "double-elimination"


class Thirds(StrEnum):
    """After a repechage, or where nobody wrestles back: one third by a bout, or two."""

    WRESTLED = "wrestled"
    TWO = "two"


class OfTwo(StrEnum):
    """How a weight of two is wrestled."""

    ONE_BOUT = "one-bout"
    BEST_OF_THREE = "best-of-three"


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


class Apart(StrEnum):
    """What two have in common whom a draw keeps apart: a team, a region, an earlier bout."""

    TEAM = "team"
    REGION = "region"
    MET = "met"


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
    """How a rule book builds, draws and plays brackets.

    `two_pools`: the fields, of 6 and 7, that wrestle in two pools. `always_lines`: 8 where every
    small field takes a bracket of 8 lines, whatever is said of rounds and pools; else 0.
    `true_places`: the places, of 2, 4 and 6, whose holder may be challenged from below.
    `keep_apart`: whom the draw keeps apart as late as possible, the most important first.
    """

    places: int
    of_two: OfTwo
    round_robin_up_to: int
    two_pools: tuple[int, ...]
    always_lines: int
    pigtails_up_to: int
    line_order: LineOrder
    wrestleback: Wrestleback
    thirds: Thirds
    true_places: tuple[int, ...]
    double_loss: DoubleLoss
    open_place: OpenPlace
    advancing_byes: Byes
    keep_apart: tuple[Apart, ...]
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
            of_two=reader.choice("of_two", OfTwo),
            round_robin_up_to=reader.number("round_robin_up_to", range(6)),
            two_pools=reader.numbers("two_pools", (6, 7)),
            always_lines=reader.number("always_lines", (0, 8)),
            pigtails_up_to=reader.number("pigtails_up_to", range(65)),
            line_order=reader.choice("line_order", LineOrder),
            wrestleback=reader.choice("wrestleback", Wrestleback),
            thirds=reader.choice("thirds", Thirds),
            true_places=reader.numbers("true_places", (2, 4, 6)),
            double_loss=reader.choice("double_loss", DoubleLoss),
            open_place=reader.choice("open_place", OpenPlace),
            advancing_byes=reader.choice("advancing_byes", Byes),
            keep_apart=reader.choices("keep_apart", Apart),
            sizes=tuple(reader.sizes()),
        )
        reader.finish()
        return rules


class _Reader(Reader):
    """Reads what is said by size too."""

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


def most_places(rules: "BracketRules", lines: int) -> int:
    """How many places an elimination of so many lines can give."""
    match rules.wrestleback:
        case Wrestleback.NOBODY:
            return 4
        case Wrestleback.FINALISTS:
            return 6
        case Wrestleback.QUARTERFINAL_WINNERS | Wrestleback.FOLLOW_THE_LEADER:
            return 8
        case _:
            return 16 if lines > SIZES[0] else 8
