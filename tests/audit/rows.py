"""The rows of the table: every format at every kind of field, and what can happen there."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from tests.audit.events import ANYWHERE, BRACKET, Event

Setting = str | int | bool | Sequence[str | int]
COLLEGE = ("college-2025", "college-2013", "high-school-2025")
INTERNATIONAL = "international-2025"
MORE = (Event.WITHDRAWAL, Event.AGAIN)


@dataclass(frozen=True, slots=True)
class Row:
    """A format at a kind of field.

    `most`: how many places it gives at most. `leavers`: how many leave where more than one does, so
    that each of its rounds is left often enough. `planned`: how many things shall happen by turns.
    `turns`: how often it comes up while the others come once. `often`: what happens beside that in
    every other tournament.
    """

    format: str
    field: str
    entrants: Sequence[int]
    settings: Mapping[str, Setting]
    most: int
    books: Sequence[str] = COLLEGE
    events: Sequence[Event] = BRACKET
    leavers: int = 1
    planned: int = 5
    turns: int = 1
    often: Sequence[Event] = ()

    @property
    def name(self) -> str:
        return f"{self.format}, {self.field}"


NO_SMALL: Mapping[str, Setting] = {"bracket.round_robin_up_to": 0, "bracket.two_pools": []}
WAYS: Mapping[str, tuple[Mapping[str, Setting], int]] = {
    "everyone": ({"bracket.wrestleback": "everyone"}, 16),
    "to fifth": ({"bracket.wrestleback": "to-fifth"}, 16),
    "quarterfinal winners": ({"bracket.wrestleback": "quarterfinal-winners"}, 8),
    "follow the leader": ({"bracket.wrestleback": "follow-the-leader"}, 8),
    "finalists": ({"bracket.wrestleback": "finalists", "bracket.thirds": "wrestled"}, 6),
    "finalists, two thirds": ({"bracket.wrestleback": "finalists", "bracket.thirds": "two"}, 6),
    "nobody": ({"bracket.wrestleback": "nobody", "bracket.thirds": "wrestled"}, 4),
    "nobody, two thirds": ({"bracket.wrestleback": "nobody", "bracket.thirds": "two"}, 4),
    "double elimination": ({"bracket.wrestleback": "double-elimination"}, 16),
    "true places": ({"bracket.wrestleback": "everyone", "bracket.true_places": [2, 4, 6]}, 8),
}


def _small() -> Iterator[Row]:
    one: Mapping[str, Setting] = {"bracket.of_two": "one-bout", "bracket.round_robin_up_to": 5}
    three: Mapping[str, Setting] = {
        "bracket.of_two": "best-of-three",
        "bracket.round_robin_up_to": 5,
    }
    pools: Mapping[str, Setting] = {"bracket.two_pools": [6, 7], "bracket.round_robin_up_to": 5}
    yield Row("one bout", "2", (2,), one, 16, events=ANYWHERE, leavers=2, planned=2, turns=3)
    yield Row(
        "best of three", "2", (2,), three, 16, events=ANYWHERE, leavers=2, planned=2, turns=3,
        often=(Event.WITHDRAWAL,),
    )  # fmt: skip
    for entrants in (3, 4, 5):
        yield Row(
            "round robin", str(entrants), (entrants,), one, 16, events=ANYWHERE, leavers=3, turns=2,
            often=(Event.MISCONDUCT,),
        )  # fmt: skip
    for entrants in (6, 7):
        yield Row("two pools", str(entrants), (entrants,), pools, 8, leavers=5, often=MORE)
    always: Mapping[str, Setting] = {"bracket.always_lines": 8}
    yield Row(
        "always 8 lines", "2-7", (2, 3, 4, 5, 6, 7), always, 4, leavers=4, turns=2, often=MORE
    )


def _eliminations() -> Iterator[Row]:
    for name, (way, most) in WAYS.items():
        settings = {**NO_SMALL, **way}
        often = (*MORE, Event.NOBODY_WINS_A_FINAL) if name.startswith("nobody") else MORE
        plain = {**settings, "bracket.pigtails_up_to": 0}
        tails = {**settings, "bracket.pigtails_up_to": 4}
        yield Row(name, "8 lines", (5, 6, 7, 8, 8), plain, min(most, 8), leavers=4, often=often)
        yield Row(name, "16 lines", tuple(range(9, 17)), plain, most, leavers=6, often=often)
        yield Row(name, "pigtails", (9, 10, 11, 12), tails, min(most, 8), leavers=6, often=often)
        thirty = (17, 18, 20, 24, 29, 32)
        yield Row(name, "32 lines", thirty, plain, most, leavers=8, often=often)
    large = {**NO_SMALL, **WAYS["everyone"][0], "bracket.pigtails_up_to": 1}
    yield Row("everyone", "33 and more", (33, 33, 33, 40, 64), large, 16, leavers=8, often=MORE)


def _international() -> Iterator[Row]:
    two, five = (2,), (3, 4, 5)
    yield Row(
        "international", "2", two, {}, 6, (INTERNATIONAL,), ANYWHERE, leavers=2, planned=2, turns=3
    )
    yield Row(
        "international", "3-5", five, {}, 6, (INTERNATIONAL,), ANYWHERE, leavers=3, turns=3,
        often=(Event.MISCONDUCT,),
    )  # fmt: skip
    for label, lines in (("8 lines", (6, 7, 8)), ("16 lines", (9, 11, 13, 16))):
        yield Row("international", label, lines, {}, 6, (INTERNATIONAL,), leavers=6, often=MORE)
    more = (17, 21, 32)
    yield Row("international", "32 lines", more, {}, 6, (INTERNATIONAL,), leavers=8, often=MORE)


ROWS = (*_small(), *_eliminations(), *_international())
CYCLE = tuple(row for row in ROWS for _ in range(row.turns))
"""The rows in the order in which they come up, over and over."""
