"""Which tournament a number stands for: its row, its rule book, its field, what shall happen."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from random import Random

from tests.audit.events import Event
from tests.audit.rows import CYCLE, INTERNATIONAL, ROWS, Row, Setting

SWITCHES: Mapping[str, tuple[Setting, ...]] = {
    "bracket.double_loss": ("out", "drop"),
    "bracket.open_place": ("open", "shared", "moved-up"),
    "bracket.advancing_byes": ("best-seeds", "best-seeds", "by-lot"),
    "bracket.keep_apart": (["team"], [], ["team", "met"]),
    "bracket.line_order": ("mirrored", "recurrence"),
    "results.withdrawal_place": ("keeps", "keeps", "vacates"),
    "results.no_contest": ("double-forfeit", "again"),
    "seeding.scratched": ("move-up", "hole"),
    "team_points.byes": ("none", "wins-next", "championship-only", "fall-bonus"),
    "team_points.byes_in_a_row": ("all", "last", "none"),
    "team_points.byes_from_double_loss": (True, False),
    "team_points.shared_places": ("mean", "each"),
    "team_points.non_scorers": ("lapse", "pass"),
    "team_points.scorer": ("named", "named", "best"),
    "team_points.advancement_in_placing_bouts": (False, True),
    "team_points.technical_fall_without_near_fall": ("1.5", "1"),
    "team_points.true_placement_scores": (False, True),
    "team_points.pool_win": (1, 2, 0),
}
POOL_ORDERS = (
    (
        "head-to-head-of-two", "activity-points", "falls", "technical-falls", "fall-time",
        "technical-fall-time", "bout-points", "weight",
    ),
    ("head-to-head-of-two", "falls", "times-pinned", "bout-points"),
    (
        "head-to-head", "team-points", "falls", "technical-falls", "majors", "quickest-fall",
    ),
)  # fmt: skip
CROSSINGS = ("straight", "reversed", "half-swap", "within-half")
PLACEMENT: Mapping[int, tuple[str | int, ...]] = {
    2: (7, 4),
    3: (8, 5, 2),
    4: (10, 7, 4, 2),
    6: (12, 10, 9, 7, 6, 4),
    8: (16, 12, 10, 9, 7, 6, 4, 3),
    12: (20, 17, 15, 14, 12, 11, 9, 8, 4, 3, 2, 1),
    16: (24, 21, 19, 18, 16, 15, 13, 12, 8, 7, 6, 5, "2.5", 2, "1.5", 1),
}


@dataclass(frozen=True, slots=True)
class Form:
    """What a weight is wrestled by, and by how many."""

    book: str
    settings: Mapping[str, Setting]
    entrants: int
    places: int

    @classmethod
    def any(cls, chance: Random, row: Row) -> "Form":
        """One of a row, by chance."""
        book = chance.choice(row.books)
        places = chance.choice([one for one in PLACEMENT if one <= row.most] + [row.most] * 3)
        if book == INTERNATIONAL:
            places = chance.choice((4, 6))
        switches = {**_switches(chance, book), **row.settings}
        return cls(book, switches, chance.choice(row.entrants), places)


@dataclass(frozen=True, slots=True)
class Case:
    """A tournament to be made.

    `beside`: the forms of further weights, each in a division of its own. `singly`: every result is
    an act of its own.
    """

    seed: int
    number: int
    row: Row
    form: Form
    beside: tuple[Form, ...]
    events: tuple[Event, ...]
    singly: bool

    def chance(self) -> Random:
        """The dice of its day."""
        return Random(f"{self.seed}/{self.number}/day")  # a text, so that every version agrees


def case(seed: int, number: int) -> Case:
    """The tournament of a number: rows take turns, and in each row what shall happen."""
    chance = Random(f"{seed}/{number}/case")
    before, at = divmod(number, len(CYCLE))
    row = CYCLE[at]
    turn = before * row.turns + CYCLE[:at].count(row)
    form = replace(Form.any(chance, row), entrants=_entrants(seed, row, turn))
    return Case(
        seed=seed,
        number=number,
        row=row,
        form=form,
        beside=tuple(_beside(chance)),
        events=_events(chance, row, turn),
        singly=chance.random() < SINGLY,
    )


FALLEN = 0.2
"""How often a double disqualification in a final is wanted beside that: it seldom comes about."""


def _entrants(seed: int, row: Row, turn: int) -> int:
    """Every number of a row comes up before one comes up again, in an order by chance."""
    again, at = divmod(turn, len(row.entrants))
    chance = Random(f"{seed}/{row.name}/{again}")
    return chance.sample(row.entrants, len(row.entrants))[at]


OTHER, SEVERAL, MANY = 0.2, 0.06, 16
"""The share of tournaments with a second division, and with four more that wrestle for all places:
there the numbers go through the rounds of many formats. How many are in their weights at most."""

SINGLY = 0.2
"""The share of tournaments whose results are entered one by one, each a whole act with its row in
the log; in the others all bouts that are ready are entered, then the weight is settled."""


def _beside(chance: Random) -> Iterator[Form]:
    small = [one for one in ROWS if max(one.entrants) <= MANY]
    dice = chance.random()
    if dice < OTHER:
        yield Form.any(chance, chance.choice(small))
    elif dice < OTHER + SEVERAL:
        large = [one for one in small if max(one.entrants) == MANY]
        for row in (*chance.sample(large, 3), chance.choice(small)):
            yield replace(Form.any(chance, row), entrants=max(row.entrants), places=row.most)


def _switches(chance: Random, book: str) -> dict[str, Setting]:
    found: dict[str, Setting] = {}
    for name, values in SWITCHES.items():
        value = chance.choice(values)
        if chance.random() < 0.6:
            found[name] = value
    order = chance.choice(POOL_ORDERS)
    if book == INTERNATIONAL:
        own = ("bracket.line_order", "team_points.pool_win", "bracket.keep_apart")
        return {name: value for name, value in found.items() if name not in own}
    found["results.pool_order"] = order
    found |= {f"team_points.placement.{one}": points for one, points in PLACEMENT.items()}
    for lines in (8, 16, 32, 64):
        if chance.random() < 0.5:
            count = lines.bit_length() - 3
            named = [chance.choice(CROSSINGS) for _ in range(count)]
            found[f"bracket.crossings.{lines}"] = chance.choice((named, named, "latest"))
    return found


def _events(chance: Random, row: Row, turn: int) -> tuple[Event, ...]:
    """Some by turns, one or two by chance and what comes often; once in a while nothing."""
    if turn % 13 == 12:
        return ()
    possible = row.events
    found = [possible[(turn + step) % len(possible)] for step in (0, 3, 5, 8, 10)[: row.planned]]
    found += chance.sample(list(possible), chance.choice((1, 2, 2)))
    found += [one for one in row.often if chance.random() < 0.5]
    found += [Event.NOBODY_WINS_A_FINAL] if chance.random() < FALLEN else []
    return tuple(dict.fromkeys(found))
