"""What happened how often in a run: formats by events, and rounds that somebody left before."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from tests.audit.events import Event
from tests.audit.rows import ROWS
from tests.audit.worker import Told

LEAST, FULL = 30, 10_000
"""In a full run everything that can happen in a format happens in so many tournaments at least."""

USUAL = 10 * LEAST
"""A round is left so often where it comes up in so many tournaments of its format. The others come
up by an accident of few: a field that grew, places beyond those of most, a challenge.
"""


@dataclass
class Coverage:
    """Counted in tournaments; rounds, over all fields of a format, in those who left.

    `there`: in how many tournaments a bout of a round came up to be wrestled.
    """

    count: int = 0
    singly: int = 0
    cells: Counter[tuple[int, Event]] = field(default_factory=Counter)
    rounds: Counter[tuple[str, str]] = field(default_factory=Counter)
    there: Counter[tuple[str, str]] = field(default_factory=Counter)
    rows: Counter[int] = field(default_factory=Counter)

    def add(self, told: Told) -> None:
        self.count += 1
        self.singly += told.singly
        self.rows[told.row] += 1
        self.cells.update((told.row, Event(one)) for one in told.happened)
        for code, times in told.rounds.items():
            self.there[ROWS[told.row].format, code] += 1
            self.rounds[ROWS[told.row].format, code] += times

    def thin(self) -> list[str]:
        """The cells that are under `LEAST`."""
        cells = [
            f"{row.name}: {event} {self.cells[at, event]}"
            for at, row in enumerate(ROWS)
            for event in row.events
            if self.cells[at, event] < LEAST
        ]
        return cells + [
            f"{name}: left before {code} {times}"
            for (name, code), times in self.rounds.items()
            if times < LEAST and self.there[name, code] >= USUAL
        ]

    def table(self) -> Iterator[str]:
        """The tables, line by line; "-" stands where something cannot happen."""
        width = max(len(row.name) for row in ROWS)
        numbered = list(enumerate(Event, start=1))
        yield from (f"{number:>2} = {event}" for number, event in numbered)
        yield " " * width + f"{'all':>6}" + "".join(f"{number:>5}" for number, _ in numbered)
        for at, row in enumerate(ROWS):
            cells = (self.cells[at, one] if one in row.events else "-" for one in Event)
            yield f"{row.name:<{width}}{self.rows[at]:>6}" + "".join(f"{one:>5}" for one in cells)
        yield "How many left before a round (of how many tournaments in which it came up):"
        for name in dict.fromkeys(row.format for row in ROWS):
            found = [(code, n) for (one, code), n in self.rounds.items() if one == name]
            listed = ", ".join(
                f"{code} {n} ({self.there[name, code]})" for code, n in sorted(found)
            )
            yield f"{name}: {listed or 'none'}"
        yield (
            f"{self.count} tournaments; in {self.singly} of them every result is an act of its own."
        )
