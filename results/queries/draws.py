"""How draws came about, as pages tell it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from brackets.core.elimination import championship_round
from brackets.models import Commitment, Drawn, LineChange, TakenBack
from brackets.queries import find_drawn
from brackets.queries.commitment import commitment_of, draws_before, taken_back
from seeding.entries.models import Tournament, WeightClass

EXACT = 9  # more digits than these are told as a power of ten


@dataclass(frozen=True, slots=True)
class Early:
    """So many pairs who were to be kept apart can meet in this round at the earliest."""

    round: str
    pairs: int


@dataclass(frozen=True, slots=True)
class Parted:
    """How well a draw kept apart the pairs of one kind: "team", "region" or "met".

    `bound`: what is proven that no draw betters; the same as `found` where the draw is as good.
    """

    criterion: str
    found: tuple[Early, ...]
    bound: tuple[Early, ...]
    certified: bool

    @classmethod
    def of(cls, item: Mapping[str, Any]) -> "Parted":
        found, bound = _early(item["pairs"]), _early(item["bound"])
        return cls(item["criterion"], found, bound, found == bound)


@dataclass(frozen=True, slots=True)
class DrawTold:
    """One weight's draw. `patterns`: in how many equally good ways the free lines could go to
    those whom the first criterion joins; "" where that is one way or was not counted.
    """

    drawn: Drawn
    parted: tuple[Parted, ...]
    patterns: str
    before: tuple[TakenBack, ...]

    @property
    def weight(self) -> WeightClass:
        return self.drawn.weight_class

    @property
    def changes(self) -> tuple[LineChange, ...]:
        """What was changed after the draw, in order."""
        return tuple(self.drawn.line_changes.all())

    @property
    def changed(self) -> bool:
        """Whether the lines are others now than they were drawn."""
        return bool(self.drawn.drawn_lines != self.drawn.lines)


@dataclass(frozen=True, slots=True)
class DrawsTold:
    """The draws of a tournament, and what was published of them beforehand."""

    commitment: Commitment | None
    draws: tuple[DrawTold, ...]
    before: tuple[TakenBack, ...]


def draw_told(weight: WeightClass) -> DrawTold | None:
    """How a weight was drawn; None before its draw."""
    row = find_drawn(weight)
    if row is None:
        return None
    return _told(row, draws_before(weight) if row.number > 1 else [])


def draws_told(tournament: Tournament) -> DrawsTold:
    """All drawn weights from light to heavy; four or five queries."""
    rows = Drawn.objects.filter(weight_class__tournament=tournament)
    rows = rows.prefetch_related("line_changes__author")
    back = taken_back(tournament)
    return DrawsTold(
        commitment=commitment_of(tournament),
        draws=tuple(
            _told(row, [one for one in back if one.weight_class_id == row.weight_class_id])
            for row in rows.select_related("weight_class").order_by("weight_class__position")
        ),
        before=tuple(back),
    )


def _told(row: Drawn, before: list[TakenBack]) -> DrawTold:
    kept = tuple(Parted.of(item) for item in row.parting.get("kept", ()))
    patterns = row.parting.get("patterns", "0") if kept else "0"
    return DrawTold(row, kept, "" if patterns in ("0", "1") else about(patterns), tuple(before))


def _early(pairs: list[int]) -> tuple[Early, ...]:
    """By round; two numbers are those of pools, since the smallest bracket has three."""
    rounds = len(pairs)
    first = "RR" if rounds == 2 else "P"
    codes = [first, *(championship_round(number, rounds) for number in range(1, rounds))]
    return tuple(Early(code, n) for code, n in zip(codes, pairs, strict=True) if n)


def about(number: str) -> str:
    """A whole number as people read it.

    >>> about("1234567"), about("1041234567890")
    ('1,234,567', '1.0 · 10^12')
    """
    if len(number) <= EXACT:
        return f"{int(number):,}"
    return f"{number[0]}.{number[1]} · 10^{len(number) - 1}"
