"""Weights for tests: built from a book, wrestled by a rule that says who wins and how."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from brackets.core.draw import Entrant
from brackets.core.formats import build
from brackets.core.graph import BoutKey, Bracket
from brackets.core.progress import Standing, Status, play
from brackets.core.rules import BracketRules
from brackets.core.rulings import Rulings
from results.core.outcomes import Kind, Outcome, verdict
from results.core.points import Item, Part, Scorer, ledger, total
from results.core.rules import Deductions, ResultRules, TeamPointRules
from seeding.core.lot import Lot
from seeding.entries.core.rulebook import override
from seeding.entries.rulebooks import book
from tests.brackets.core.books import drawn

Decide = Callable[[BoutKey, str, str], Outcome]


@dataclass(frozen=True, slots=True)
class Rules:
    bracket: BracketRules
    results: ResultRules
    points: TeamPointRules
    deductions: Deductions


def rules(name: str = "college-2025", **settings: object) -> Rules:
    """A book's rules; `points__byes="none"` overrides team_points.byes, `bracket__...` likewise."""
    sections = {"points": "team_points", "bracket": "bracket", "results": "results"}
    named = {}
    for key, value in settings.items():
        section, _, setting = key.partition("__")
        named[f"{sections[section]}.{setting.replace('__', '.')}"] = value
    snapshot = override(book(name), named)
    return Rules(
        BracketRules.from_section(snapshot["bracket"]),
        ResultRules.from_section(snapshot["results"]),
        TeamPointRules.from_section(snapshot["team_points"]),
        Deductions.from_section(snapshot["deductions"]),
    )


@dataclass
class Weight:
    """A weight under way. Entries are "1", "2", ... by seed; every entry its own team."""

    entrants: int
    rules: Rules
    places: int = 8
    scorers: dict[str, Scorer] = field(default_factory=dict)
    outcomes: dict[BoutKey, Outcome] = field(default_factory=dict)
    out: frozenset[str] = frozenset()
    vacating: frozenset[str] = frozenset()
    removed: frozenset[str] = frozenset()
    pool_order: Sequence[Sequence[str]] | None = None
    rulings: Rulings = ()
    bracket: Bracket = field(init=False)

    def __post_init__(self) -> None:
        entrants = [Entrant(str(seed), seed, f"team {seed}") for seed in self.seeds]
        lines = drawn(entrants, self.rules.bracket, Lot("a seed", "test"))
        self.bracket = build(lines, self.rules.bracket, self.places)
        teams = {str(seed): Scorer(f"team {seed}", True) for seed in self.seeds}
        self.scorers = teams | self.scorers

    @property
    def seeds(self) -> range:
        return range(1, self.entrants + 1)

    def standing(self) -> Standing:
        return play(
            self.bracket,
            {key: verdict(outcome) for key, outcome in self.outcomes.items()},
            self.rules.bracket,
            out=self.out,
            vacating=self.vacating,
            pool_order=self.pool_order,
            rulings=self.rulings,
        )

    def ready(self) -> list[BoutKey]:
        bouts = self.standing().bouts.values()
        return [state.key for state in bouts if state.status is Status.READY]

    def wrestle(self, decide: Decide, until: Collection[str] = ()) -> "Weight":
        """Wrestle on until nothing is open, or only bouts of the rounds in `until`."""
        while ready := [key for key in self.ready() if key.round not in until]:
            bouts = self.standing().bouts
            for key in ready:
                top, bottom = (str(side) for side in bouts[key].sides)
                self.outcomes[key] = decide(key, top, bottom)
        return self

    def ledger(self) -> tuple[Part, ...]:
        return ledger(
            self.bracket,
            self.standing(),
            self.outcomes,
            self.scorers,
            self.rules.points,
            places=self.places,
            deductions=self.rules.deductions,
            removed=self.removed,
        )

    def parts(self, entry: str, *items: Item) -> list[Part]:
        found = [part for part in self.ledger() if part.entry == entry]
        return [part for part in found if not items or part.item in items]

    def points(self, entry: str, *items: Item) -> Decimal:
        return total(self.parts(entry, *items))

    def place(self, entry: str) -> int | None:
        places = self.standing().places.items()
        return next((place for place, group in places if entry in group), None)


def decision(winner: int | None) -> Outcome:
    """A 5-2 decision for the top (0) or bottom (1) side."""
    assert winner in (0, 1)
    return Outcome(Kind.DECISION, 1 if winner else 0, (5, 2))


def better_seed(key: BoutKey, top: str, bottom: str) -> Outcome:
    return decision(0 if int(top) < int(bottom) else 1)


def by(kind: Outcome, decide: Decide = better_seed) -> Decide:
    """The same winners, but every bout by this outcome."""

    def decided(key: BoutKey, top: str, bottom: str) -> Outcome:
        winner = decide(key, top, bottom).winner
        return Outcome(kind.kind, winner, kind.score, kind.time, near_fall=kind.near_fall)

    return decided


def star(entry: str, *losses: str, how: Decide = better_seed) -> Decide:
    """The entry loses exactly in these rounds; everyone else by seed."""

    def decided(key: BoutKey, top: str, bottom: str) -> Outcome:
        if entry not in (top, bottom):
            return how(key, top, bottom)
        side = (top, bottom).index(entry)
        return decision(1 - side if key.round in losses else side)

    return decided


FALL = Outcome(Kind.FALL, 0, time=148)
