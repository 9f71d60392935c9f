"""The section [bout] of a rule book: how points are scored and time runs within a bout."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

from seeding.entries.core.errors import BadSetting
from seeding.entries.core.rulebook import Section


@dataclass(frozen=True, slots=True)
class BoutRules:
    """Points and seconds of a bout.

    `near_fall`: points by `near_fall_seconds` held. `riding_time`: points for a net of
    `riding_time_seconds` or more, 0 = none. `overtime`: the periods of each label of
    [results] overtime. `stalling`, `illegal`: points to the opponent at each offence (0 = a
    warning), after the last disqualification. `cautions`: before each further one costs
    `caution_points`.
    """

    takedown: int
    escape: int
    reversal: int
    near_fall: tuple[int, ...]
    near_fall_seconds: tuple[int, ...]
    near_fall_when_injured: int
    riding_time: int
    riding_time_seconds: int
    periods: tuple[int, ...]
    consolation_periods: tuple[int, ...]
    overtime: tuple[tuple[int, ...], ...]
    stalling: tuple[int, ...]
    illegal: tuple[int, ...]
    cautions: int
    caution_points: int
    injury_seconds: int
    injury_timeouts: int
    blood_seconds: int
    recovery_seconds: int

    @classmethod
    def from_section(cls, values: Mapping[str, object]) -> Self:
        """Read [bout]; refuses unknown and missing keys by name."""
        with Section("bout", values) as section:
            return cls(
                takedown=section.whole("takedown"),
                escape=section.whole("escape"),
                reversal=section.whole("reversal"),
                near_fall=section.wholes("near_fall"),
                near_fall_seconds=section.wholes("near_fall_seconds"),
                near_fall_when_injured=section.whole("near_fall_when_injured"),
                riding_time=section.whole("riding_time"),
                riding_time_seconds=section.whole("riding_time_seconds"),
                periods=section.wholes("periods"),
                consolation_periods=section.wholes("consolation_periods"),
                overtime=_periods(section),
                stalling=section.wholes("stalling"),
                illegal=section.wholes("illegal"),
                cautions=section.whole("cautions"),
                caution_points=section.whole("caution_points"),
                injury_seconds=section.whole("injury_seconds"),
                injury_timeouts=section.whole("injury_timeouts"),
                blood_seconds=section.whole("blood_seconds"),
                recovery_seconds=section.whole("recovery_seconds"),
            )


def _periods(section: Section) -> tuple[tuple[int, ...], ...]:
    rounds = section.raw("overtime")
    if not isinstance(rounds, list | tuple):
        where = section.path("overtime")
        raise BadSetting(name=where, wanted="a list of lists", value=rounds, where=where)
    each = Section(section.path("overtime"), {str(at): one for at, one in enumerate(rounds)})
    return tuple(each.wholes(key) for key in map(str, range(len(rounds))))
