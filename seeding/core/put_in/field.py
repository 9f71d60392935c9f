"""The tournament as a file of ranks or ballots finds it: who is entered, what the lists read."""

from collections.abc import Mapping
from dataclasses import dataclass

from seeding.core.criteria import InputKind
from seeding.entries.core.spelling import alike, folded, parted


@dataclass(frozen=True, slots=True)
class Table:
    """A ranking, or the places of an earlier event, by its name in the list."""

    kind: InputKind
    name: str

    def fault(self, value: int, weight: str) -> str:
        """Why a value (at another weight) cannot stand in the table, or empty."""
        if self.kind is InputKind.RANKING and weight:
            return "a rank is that of the entry's own weight; leave the weight out"
        if self.kind is InputKind.RANKING and value < 1:
            return "a rank is a whole number from 1"
        return ""


@dataclass(frozen=True, slots=True)
class Entered:
    """An entry by its key; `teams` are the folded names that its team goes by."""

    key: str
    weight: str
    given: str
    family: str
    team: str
    teams: frozenset[str]

    @property
    def name(self) -> str:
        return f"{self.given} {self.family}".strip()


@dataclass(frozen=True, slots=True)
class Field:
    """Weights by names that no two share, light to heavy; `reads`: the tables of each one's list.

    `drawn`: the weights in which nothing can be put in any more. `teams`: keys by folded name.
    """

    weights: tuple[str, ...]
    drawn: frozenset[str]
    entries: tuple[Entered, ...]
    reads: Mapping[str, tuple[Table, ...]]
    teams: Mapping[str, str]

    def find(self, weight: str, name: str, team: str) -> "Entered | str":
        """The entry who is meant, or what is wrong with the name."""
        here = [one for one in self.entries if one.weight == weight]
        given, family = parted(name)
        wanted = folded(given), folded(family)
        same = [one for one in here if (folded(one.given), folded(one.family)) == wanted]
        found = [one for one in same if not team or folded(team) in one.teams]
        if len(found) == 1:
            return found[0]
        if found:
            several = " or ".join(f"{one.name} of {one.team}" for one in found)
            return f"“{name}” may be {several}; name the team in its column"
        if same:
            return f"{same[0].name} is entered at {weight} for {same[0].team}, not for “{team}”"
        near = alike(f"{given} {family}".strip(), [one.name for one in here])
        hint = f"; is {near[0]} meant?" if near else ""
        return f"“{name}” is not entered at {weight}{hint}"

    def table(self, weight: str, name: str) -> "Table | str":
        """The table of that name which the weight's list reads, or what is wrong with the name."""
        known = [one for one in self.reads[weight] if one.kind is not InputKind.BALLOTS]
        for one in known:
            if folded(one.name) == folded(name):
                return one
        names = ", ".join(f"“{one.name}”" for one in known) or "no table"
        return f"the list of {weight} does not read “{name}”; it reads {names}"
