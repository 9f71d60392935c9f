"""What follows from changing a fact, as it is told before it is changed."""

from collections.abc import Mapping
from dataclasses import dataclass

from brackets.core.graph import BoutKey
from brackets.core.replay import Choice
from brackets.core.rulings import SeatRuling
from brackets.core.standing import Vacancy
from brackets.models import Bout
from results.core.outcomes import notation
from results.models import Result
from seeding.entries.models import Entry, Team

Choices = Mapping[BoutKey, Choice]
Pair = tuple[Entry | Vacancy, Entry | Vacancy]


@dataclass(frozen=True, slots=True)
class Moved:
    """Something that changes: a wrestler's place or a team's points in this weight."""

    what: Entry | Team
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Changed:
    """A bout that changes hands; nobody meets in one that is not needed."""

    bout: Bout
    before: Pair
    after: Pair


@dataclass(frozen=True, slots=True)
class Affected:
    """A wrestled bout whose two would not meet in it any more, and what becomes of it.

    `after`: who would meet in it if nothing kept its two there.
    """

    bout: Bout
    result: Result
    choice: Choice | None
    after: Pair

    @property
    def written(self) -> str:
        """Its result in the rule book's notation."""
        return notation(self.result.outcome)


@dataclass(frozen=True, slots=True)
class Idle:
    """A wrestled bout for which something was chosen, and which keeps its two without it."""

    bout: Bout
    choice: Choice


@dataclass(frozen=True, slots=True)
class Clash:
    """Somebody who would stand in bouts that do not go together."""

    entry: Entry
    bouts: tuple[Bout, ...]


@dataclass(frozen=True, slots=True)
class Shared:
    """A place that more than one would have, against a ruling that gave it to one alone."""

    place: int
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Preview:
    """The consequences of changing one fact.

    `changed`: later bouts that change hands; `affected`: the wrestled ones about which something
    has to be chosen; `idle`: those for which something was chosen, and which keep their two and
    their result without it; `places` and `teams`: what moves in this weight. `clashes` (two open
    bouts at once) and `shared` forbid it. By this change alone: `early`, who would stand in an open
    bout and have wrestled the second one, which comes after it; `adrift`, who would have nowhere to
    go. `made`: the rulings that keep two wrestlers in a bout. `mark` stands for all of it: two
    previews that say the same have the same.
    """

    changed: tuple[Changed, ...]
    affected: tuple[Affected, ...]
    idle: tuple[Idle, ...]
    places: tuple[Moved, ...]
    teams: tuple[Moved, ...]
    clashes: tuple[Clash, ...]
    shared: tuple[Shared, ...]
    early: tuple[Clash, ...]
    adrift: tuple[Entry, ...]
    made: tuple[SeatRuling, ...]
    mark: str

    @property
    def wrestled(self) -> tuple[Bout, ...]:
        """The wrestled bouts about which nothing is chosen yet, which stand in the way."""
        return tuple(one.bout for one in self.affected if one.choice is None)

    @property
    def void(self) -> tuple[Result, ...]:
        """The results that would count for nothing."""
        kept = (Choice.STANDS, None)
        return tuple(one.result for one in self.affected if one.choice not in kept)

    @property
    def nothing(self) -> bool:
        """Whether nothing else changes."""
        moved = self.changed or self.affected or self.places or self.teams
        return not (moved or self.early or self.adrift)

    @property
    def possible(self) -> bool:
        return not (self.wrestled or self.clashes or self.shared)


NOTHING = Preview((), (), (), (), (), (), (), (), (), (), "")
"""What follows where nothing is drawn yet."""
