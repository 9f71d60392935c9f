"""The sections [results], [team_points] and [deductions] of a rule book, as frozen values."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Self

from results.core.errors import PointsNotListed
from seeding.entries.core.rulebook import Section


class Withdrawn(StrEnum):
    """Who withdraws after a place is certain keeps it and its points, or vacates it."""

    KEEPS = "keeps"
    VACATES = "vacates"


class NoContest(StrEnum):
    """A no contest counts as a double forfeit, or the bout is wrestled again."""

    DOUBLE_FORFEIT = "double-forfeit"
    AGAIN = "again"


class Absent(StrEnum):
    """Who does not appear leaves a bye on his line, or a forfeit."""

    BYE = "bye"
    FORFEIT = "forfeit"


class PoolCriterion(StrEnum):
    """What separates wrestlers of a pool with the same number of wins; see `placings`."""

    HEAD_TO_HEAD = "head-to-head"
    HEAD_TO_HEAD_OF_TWO = "head-to-head-of-two"
    ACTIVITY_POINTS = "activity-points"
    CLASSIFICATION_POINTS = "classification-points"
    TEAM_POINTS = "team-points"
    FALLS = "falls"
    TIMES_PINNED = "times-pinned"
    TECHNICAL_FALLS = "technical-falls"
    MAJORS = "majors"
    FALL_TIME = "fall-time"
    QUICKEST_FALL = "quickest-fall"
    TECHNICAL_FALL_TIME = "technical-fall-time"
    BOUT_POINTS = "bout-points"
    POINTS_GIVEN = "points-given"
    WEIGHT = "weight"


@dataclass(frozen=True, slots=True)
class KindPoints:
    """Points for a win, by how it was won."""

    fall: Decimal
    injury_default: Decimal
    forfeit: Decimal
    medical_forfeit: Decimal
    disqualification: Decimal
    technical_fall: Decimal
    major_decision: Decimal
    decision: Decimal

    def of(self, kind: str) -> Decimal:
        """The points for a win of this kind, in the words of `outcomes.Kind`; 0 for others."""
        return Decimal(getattr(self, kind.replace(" ", "_"), 0))

    @classmethod
    def read(cls, section: Section) -> Self:
        """Read the table and close it."""
        with section as table:
            return cls(
                fall=table.points("fall"),
                injury_default=table.points("injury_default"),
                forfeit=table.points("forfeit"),
                medical_forfeit=table.points("medical_forfeit"),
                disqualification=table.points("disqualification"),
                technical_fall=table.points("technical_fall"),
                major_decision=table.points("major_decision"),
                decision=table.points("decision"),
            )


@dataclass(frozen=True, slots=True)
class ResultRules:
    """Which results there are and what follows from them.

    `overtime`: the labels of overtime periods, first to last. `riding_time_decides`: those after
    which riding time decides a level score. `out_after`: kinds whose loser does not go on unless
    the head table lets him. `pool_order`: after the number of wins, first to last.
    """

    major_decision_from: int
    technical_fall_from: int
    overtime: tuple[str, ...]
    riding_time_decides: tuple[str, ...]
    withdrawal_place: Withdrawn
    out_after: tuple[str, ...]
    no_contest: NoContest
    absent_qualifier: Absent
    pool_order: tuple[PoolCriterion, ...]
    activity_points: KindPoints

    @property
    def withdrawal_keeps_place(self) -> bool:
        """Whether who withdraws keeps the place that is certain."""
        return self.withdrawal_place is Withdrawn.KEEPS

    @classmethod
    def from_section(cls, values: Mapping[str, object]) -> Self:
        """Read [results]; refuses unknown and missing keys by name."""
        with Section("results", values) as section:
            overtime = section.texts("overtime")
            return cls(
                major_decision_from=section.whole("major_decision_from", least=1),
                technical_fall_from=section.whole("technical_fall_from", least=1),
                overtime=overtime,
                riding_time_decides=section.texts("riding_time_decides", among=overtime),
                withdrawal_place=Withdrawn(section.text("withdrawal_place", among=list(Withdrawn))),
                out_after=section.texts("out_after"),
                no_contest=NoContest(section.text("no_contest", among=list(NoContest))),
                absent_qualifier=Absent(section.text("absent_qualifier", among=list(Absent))),
                pool_order=tuple(
                    PoolCriterion(name)
                    for name in section.texts("pool_order", among=list(PoolCriterion))
                ),
                activity_points=KindPoints.read(section.section("activity_points")),
            )


class Byes(StrEnum):
    """What a bye scores.

    Nothing; or the advancement of its side if he wins his next bout, on both sides or on the
    championship side only; or that and the bonus of a fall.
    """

    NONE = "none"
    WINS_NEXT = "wins-next"
    CHAMPIONSHIP_ONLY = "championship-only"
    FALL_BONUS = "fall-bonus"


class ByesInARow(StrEnum):
    """Which of several byes before one win score."""

    ALL = "all"
    LAST = "last"
    NONE = "none"


class SharedPlaces(StrEnum):
    """Who share places each get the mean of their points, or each the points of the place."""

    MEAN = "mean"
    EACH = "each"


class NonScorers(StrEnum):
    """The placement points of a non-scorer lapse, or the next scorer moves up to them."""

    LAPSE = "lapse"
    MOVE_UP = "pass"


class ScorerOf(StrEnum):
    """Of several entries of a team at a weight the named ones score, or the best finisher."""

    NAMED = "named"
    BEST = "best"


@dataclass(frozen=True, slots=True)
class TeamPointRules:
    """What places, wins and byes are worth. `placement`: per number of places 1st, 2nd, ..."""

    championship_win: Decimal
    consolation_win: Decimal
    pool_win: Decimal
    advancement_in_placing_bouts: bool
    technical_fall_without_near_fall: Decimal
    byes: Byes
    byes_in_a_row: ByesInARow
    byes_from_double_loss: bool
    shared_places: SharedPlaces
    non_scorers: NonScorers
    scorer: ScorerOf
    true_placement_scores: bool
    placement: tuple[tuple[int, tuple[Decimal, ...]], ...]
    bonus: KindPoints

    def points_for(self, places: int) -> tuple[Decimal, ...]:
        """The points of 1st, 2nd, ... where so many places are scored; refuses others by name."""
        tables = dict(self.placement)
        if places not in tables:
            known = ", ".join(map(str, tables))
            raise PointsNotListed(places=places, known=known)
        return tables[places]

    @classmethod
    def from_section(cls, values: Mapping[str, object]) -> Self:
        """Read [team_points]; refuses unknown and missing keys by name."""
        with Section("team_points", values) as section:
            listed = section.numbered("placement")
            table = section.section("placement")
            return cls(
                championship_win=section.points("championship_win"),
                consolation_win=section.points("consolation_win"),
                pool_win=section.points("pool_win"),
                advancement_in_placing_bouts=section.flag("advancement_in_placing_bouts"),
                technical_fall_without_near_fall=section.points("technical_fall_without_near_fall"),
                byes=Byes(section.text("byes", among=list(Byes))),
                byes_in_a_row=ByesInARow(section.text("byes_in_a_row", among=list(ByesInARow))),
                byes_from_double_loss=section.flag("byes_from_double_loss"),
                shared_places=SharedPlaces(section.text("shared_places", among=list(SharedPlaces))),
                non_scorers=NonScorers(section.text("non_scorers", among=list(NonScorers))),
                scorer=ScorerOf(section.text("scorer", among=list(ScorerOf))),
                true_placement_scores=section.flag("true_placement_scores"),
                placement=tuple((places, table.decimals(key)) for places, key in listed),
                bonus=KindPoints.read(section.section("bonus")),
            )


@dataclass(frozen=True, slots=True)
class Deductions:
    """Team points taken off: for flagrant misconduct, and per unsportsmanlike conduct."""

    flagrant_misconduct: Decimal
    unsportsmanlike_conduct: Decimal

    @classmethod
    def from_section(cls, values: Mapping[str, object]) -> Self:
        """Read [deductions]; refuses unknown and missing keys by name."""
        with Section("deductions", values) as section:
            return cls(
                flagrant_misconduct=section.points("flagrant_misconduct"),
                unsportsmanlike_conduct=section.points("unsportsmanlike_conduct"),
            )
