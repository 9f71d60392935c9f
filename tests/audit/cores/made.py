"""A weight drawn by chance, with the rule book that it is wrestled by."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from random import Random

from brackets.core.errors import PlacesNotWrestled
from brackets.core.formats import build
from brackets.core.graph import Bracket, Format, LineUp
from brackets.core.latest import exchanges
from brackets.core.rules import BracketRules
from results.core.points import Scorer
from results.core.rules import Deductions, ResultRules, TeamPointRules
from seeding.entries.core.rulebook import override
from seeding.entries.core.upgrades import Snapshot
from seeding.entries.rulebooks import book
from tests.audit.case import Form
from tests.audit.rows import ROWS
from tests.brackets.core.books import line_up

MANY, HOLES = 17, 0.2
"""The largest field, and the share of line-ups from which some are gone before it begins."""
TRUE_PLACES, CHALLENGED = ([2], [4], [2, 4], [2, 4, 6]), 0.2
"""Which places may be challenged, and how often that is so whatever the format."""


@dataclass(frozen=True)
class Made:
    """A drawn weight and its rule book; `name`: of its format, as in the table of the rows;
    `scorers`: for whom everybody wrestles."""

    name: str
    book: Snapshot
    rules: BracketRules
    bracket: Bracket
    places: int
    scorers: Mapping[str, Scorer]

    @cached_property
    def results(self) -> ResultRules:
        return ResultRules.from_section(self.book["results"])

    @cached_property
    def points(self) -> TeamPointRules:
        return TeamPointRules.from_section(self.book["team_points"])

    @cached_property
    def deductions(self) -> Deductions:
        return Deductions.from_section(self.book["deductions"])

    @property
    def crossings(self) -> list[list[int]]:
        """As a tournament file tells them."""
        if self.bracket.format is not Format.ELIMINATION:
            return []
        return [list(one.order) for one in exchanges(self.rules.size(len(self.bracket.lines)))]


def made(chance: Random) -> Made:
    """Any weight of the rows, everybody seeded; true placement scores where there is any."""
    while True:
        row = chance.choice(ROWS)
        form = Form.any(chance, row)
        if form.entrants > MANY:
            continue
        settings = {name: _plain(value) for name, value in form.settings.items()}
        settings["team_points.true_placement_scores"] = True
        if chance.random() < CHALLENGED:
            settings["bracket.true_places"] = chance.choice(TRUE_PLACES)
        read = override(book(form.book), settings)
        rules = BracketRules.from_section(read["bracket"])
        lines = _gone(chance, line_up(form.entrants, rules))
        try:
            bracket = build(lines, rules, form.places)
        except PlacesNotWrestled:
            continue
        teams = range(max(2, form.entrants // chance.choice((1, 2))))
        scorers = {
            entry: Scorer(f"t{chance.choice(teams)}", scoring=chance.random() > 0.08)
            for entry in bracket.entries()
        }
        return Made(row.format, read, rules, bracket, form.places, scorers)


def _plain(value: object) -> object:
    return list(value) if isinstance(value, tuple) else value


def _gone(chance: Random, lines: LineUp) -> LineUp:
    """The lines, some of them perhaps empty; two stay at least."""
    if len(lines) < 8 or chance.random() > HOLES:
        return lines
    left = list(lines)
    for at in chance.sample(range(len(lines)), chance.choice((1, 2, 3))):
        if sum(one is not None for one in left) > 2:
            left[at] = None
    return tuple(left)
