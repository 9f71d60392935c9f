"""The section `weights` of a rule book: what it says of divisions without fixed weights."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Self

from seeding.entries.core.errors import BadSetting
from seeding.entries.core.rulebook import Section

ANY = 99  # years: no limit


class Formed(StrEnum):
    """When weights are made: with the rule book, or as groups of those who were weighed."""

    NEVER = "never"
    AFTER_WEIGH_IN = "after-weigh-in"


class SpreadIn(StrEnum):
    """What the largest spread of weights is counted in."""

    PERCENT = "percent"
    UNITS = "units"


@dataclass(frozen=True, slots=True)
class GroupRules:
    """Limits of a group.

    `size` is the wanted number of wrestlers, `least` and `most` the bounds. `largest_spread` from
    the lightest to the heaviest is in percent of the lightest or in units of weight (`unit`: lb or
    kg); `age_spread` and `experience_spread` are in whole years, 99 for no limit.
    """

    formed: Formed
    unit: str
    size: int
    least: int
    most: int
    largest_spread: Decimal
    spread_in: SpreadIn
    age_spread: int
    experience_spread: int

    @classmethod
    def from_section(cls, values: Mapping[str, object]) -> Self:
        """Read the whole section `weights`; refuses what nobody reads, and bounds that cross."""
        with Section("weights", values) as weights:
            for allowance in ("pounds_per_extra_day", "extra_pounds_at_most", "growth_allowance"):
                weights.points(allowance)
            if weights.has("sets"):
                weights.raw("sets")
            with weights.section("groups") as groups:
                return cls._read(groups)

    @classmethod
    def _read(cls, groups: Section) -> Self:
        found = cls(
            formed=Formed(groups.text("formed", tuple(Formed))),
            unit=groups.text("unit", ("lb", "kg")),
            size=groups.whole("size", 2),
            least=groups.whole("least", 2),
            most=groups.whole("most", 2),
            largest_spread=groups.points("largest_spread"),
            spread_in=SpreadIn(groups.text("spread_in", tuple(SpreadIn))),
            age_spread=groups.whole("age_spread"),
            experience_spread=groups.whole("experience_spread"),
        )
        found.check()
        return found

    def check(self) -> None:
        """Refuse bounds that cross, and a spread below nothing."""
        if not self.least <= self.size <= self.most <= 8:
            name, wanted = "weights.groups.size", "from groups.least to groups.most, at most 8"
            raise BadSetting(name=name, wanted=wanted, value=self.size, where=name)
        if self.largest_spread < 0:
            name = "weights.groups.largest_spread"
            raise BadSetting(name=name, wanted="0 or more", value=self.largest_spread, where=name)

    @property
    def grouped(self) -> bool:
        """Whether the division has groups in the place of fixed weights."""
        return self.formed is Formed.AFTER_WEIGH_IN

    def allowed(self, lightest: Decimal) -> Decimal:
        """How much heavier than the lightest the heaviest may be, in units of weight."""
        if self.spread_in is SpreadIn.UNITS:
            return self.largest_spread
        return lightest * self.largest_spread / 100
