"""The section `[seeding]` of a rule book: which list of criteria orders a weight, and how.

Every key is required; an unknown key, value or criterion is refused with its path and with what is
allowed. Numbers may be TOML numbers or strings.

Keys of the section
    list      the list's name, as people call it
    source    where it is published
    shape     "pair-points" | "ladder" | "additive" | "weighted-pairs" | "ballot" | "pipeline"; its
              own keys are explained in `seeding.core.shape_rules`, criteria and terms in
              `seeding.core.criterion_rules`
    count     how many wrestlers of a weight are seeded (0 = none), the rest is drawn; or a table of
              counts by weight with a count for `other` weights
    ties      second list, for wrestlers whom the shape leaves level: names of criteria of the first
              list, or whole criteria; [] = what is final at once
    final     what comes after it: "lot" | "coin" | "vote" | "committee"
    scratched what a scratch before the draw does to the seeds below: "move-up" | "hole" | "redraw"
    fill      "seeds" | "regions": who stands on a line, by seed, or by region and place; with a
              table `region_lines` (`seeding.core.qualifying`)
    counting  table: which bouts and kinds of result count (`seeding.core.counting_rules`)
    committee table: what the committee may do
        largest_move     so many places at most (0 = any number)
        own_wrestlers    "no-say" | "say": of a member over wrestlers of his own team
        challenges       "anyone" | "none": whether coaches' challenges are heard
        challenge_hours  how long they are heard, unless the committee says otherwise
        challenge_needs  names of criteria of the first list, or whole criteria: each must speak for
                         the challenger; [] = none has to
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Self

from seeding.core.counting_rules import Counting, choice, counting
from seeding.core.criteria import Criterion, Input
from seeding.core.qualifying import LinesByRegion, LinesBySeed, read_fill
from seeding.core.scratches import Scratched
from seeding.core.season import At, Counted
from seeding.core.shape_rules import SHAPES, listed, named, needs
from seeding.core.shapes import Shape
from seeding.core.ties import Final
from seeding.entries.core.rulebook import Section

OTHER = "other"


class OwnWrestlers(StrEnum):
    """What a member of the committee may do about wrestlers of his own team."""

    NO_SAY = "no-say"
    SAY = "say"


class Challenges(StrEnum):
    """Whose challenges are heard."""

    ANYONE = "anyone"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class CommitteeRules:
    """What the committee may do, and which challenges it hears."""

    largest_move: int
    own_wrestlers: OwnWrestlers
    challenges: Challenges
    challenge_hours: int
    challenge_needs: tuple[Criterion, ...]


@dataclass(frozen=True, slots=True)
class SeedingRules:
    """The section as values.

    `meetings`: the bouts between two wrestlers that are shown where a lower seed beat a higher.
    `inputs`: the tables that must be put in for this list. `days`: how long a season is.
    `whole_season`: a criterion reads the bouts of everybody, not only of those near the field.
    """

    name: str
    source: str
    shape_name: str
    shape: Shape
    counts: Mapping[str, int]
    ties: tuple[Criterion, ...]
    final: Final
    meetings: Counted
    inputs: tuple[Input, ...]
    days: int
    counting: Counting
    committee: CommitteeRules
    scratched: Scratched
    fill: LinesBySeed | LinesByRegion
    whole_season: bool

    @classmethod
    def from_section(cls, mapping: Mapping[str, object]) -> Self:
        """Read the section out of a rule book's snapshot; raises a RuleBookRefusal."""
        with Section("seeding", mapping) as section:
            with section.section("counting") as table:
                kinds = counting(table)
            first = listed(section, kinds, tuple(SHAPES))
            ties = named(section, "ties", kinds, first.criteria)
            with section.section("committee") as table:
                committee = _committee(table, kinds, first.criteria)
            asked = needs((*ties, *committee.challenge_needs))
            return cls(
                name=section.text("list"),
                source=section.text("source"),
                shape_name=section.text("shape"),
                shape=first.shape,
                counts=_counts(section),
                ties=ties,
                final=choice(section, "final", Final),
                meetings=Counted(kinds.head_to_head, At.ANY_WEIGHT, 0, kinds.eligible),
                inputs=tuple(dict.fromkeys((*first.inputs, *asked))),
                days=kinds.eligible.days,
                counting=kinds,
                committee=committee,
                scratched=choice(section, "scratched", Scratched),
                fill=read_fill(section),
                whole_season=_rates(mapping),
            )

    def count_at(self, weight: str) -> int:
        """How many are seeded at a weight."""
        return self.counts.get(weight, self.counts[OTHER])


def _committee(table: Section, kinds: Counting, first: tuple[Criterion, ...]) -> CommitteeRules:
    return CommitteeRules(
        largest_move=table.whole("largest_move"),
        own_wrestlers=choice(table, "own_wrestlers", OwnWrestlers),
        challenges=choice(table, "challenges", Challenges),
        challenge_hours=table.whole("challenge_hours", 1),
        challenge_needs=named(table, "challenge_needs", kinds, first),
    )


def _counts(section: Section) -> Mapping[str, int]:
    if not isinstance(section.raw("count"), Mapping):
        return MappingProxyType({OTHER: section.whole("count")})
    with section.section("count") as table:
        table.whole(OTHER)
        weights = table.keys()
        return MappingProxyType({weight: table.whole(weight) for weight in weights})


def _rates(value: object) -> bool:
    """Whether a rating is anywhere in the list."""
    if isinstance(value, Mapping):
        return value.get("criterion") == "rating" or any(map(_rates, value.values()))
    return isinstance(value, list | tuple) and any(map(_rates, value))
