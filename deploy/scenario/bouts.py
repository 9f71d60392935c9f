"""How a bout between two strengths ends: a plausible kind, score and time.

Tuned to published rates of college championships: 657 falls and 194 technical falls in about
6,400 bouts (association page), first-round upsets about 16.5 % (association page).
"""

import math
from dataclasses import dataclass

from deploy.scenario.chance import Chance
from results.core.outcomes import Kind, Outcome, Side

STEEPNESS = 1.6
"""Log odds of winning per unit of strength."""

RARE = {Kind.INJURY: 0.007, Kind.DISQUALIFICATION: 0.001}
FALL = (0.035, 0.03)
"""Chance of a fall in an even bout, and more of it per unit by which the day went one way."""

OVERTIME = 0.33
POINTS_PER_UNIT = 2.35
LENGTH = 420


@dataclass(frozen=True, slots=True)
class Overtime:
    """A way in which a level bout is decided after regulation."""

    period: str
    margin: int


OVERTIMES = {
    Overtime("SV-1", 3): 60.0,
    Overtime("TB-1", 1): 16.0,
    Overtime("TB-1", 2): 8.0,
    Overtime("TB-1", 0): 4.0,
    Overtime("SV-2", 3): 5.0,
    Overtime("TB-2", 1): 5.0,
    Overtime("TB-2", 0): 2.0,
}


def wrestled(chance: Chance, top: float, bottom: float) -> Outcome:
    """The outcome of a bout between two strengths."""
    spread = chance.unit() or 0.5
    day = STEEPNESS * (top - bottom) + math.log(spread / (1.0 - spread))
    winner: Side = 0 if day > 0 else 1
    rare = chance.unit()
    for kind, share in RARE.items():
        rare -= share
        if rare < 0:
            return _rare(chance, kind, winner)
    return _won(chance, winner, abs(day))


def _rare(chance: Chance, kind: Kind, winner: Side) -> Outcome:
    return Outcome(kind, winner, time=chance.between(60, LENGTH - 20))


def _won(chance: Chance, winner: Side, lead: float) -> Outcome:
    if chance.yes(FALL[0] + FALL[1] * lead):
        return Outcome(Kind.FALL, winner, time=_fall_time(chance))
    if lead < OVERTIME:
        return _overtime(chance, winner)
    margin = max(1, round(lead * POINTS_PER_UNIT + chance.normal(0.0, 1.2)))
    if margin >= 15:
        margin = 15 + chance.between(0, 3)
        score = _score(chance, margin, 4)
        return Outcome(Kind.TECHNICAL_FALL, winner, score, time=chance.between(140, LENGTH))
    if margin >= 8:
        return Outcome(Kind.MAJOR, winner, _score(chance, margin, 6))
    return Outcome(Kind.DECISION, winner, _score(chance, margin, 8))


def _fall_time(chance: Chance) -> int:
    """Seconds; early falls are more common than late ones."""
    return 20 + int(chance.unit() * math.sqrt(chance.unit()) * (LENGTH - 25))


def _score(chance: Chance, margin: int, most: int) -> tuple[int, int]:
    """A score by that margin; the loser has at most `most`, seldom much."""
    given = min(chance.between(0, most), chance.between(0, most))
    return margin + given, given


def _overtime(chance: Chance, winner: Side) -> Outcome:
    how = chance.weighted(OVERTIMES)
    level = chance.weighted({1: 40.0, 2: 15.0, 4: 25.0, 3: 5.0, 5: 8.0, 6: 5.0, 7: 2.0})
    return Outcome(
        Kind.DECISION,
        winner,
        (level + how.margin, level),
        overtime=how.period,
        decided_by=None if how.margin else "riding time",
    )
