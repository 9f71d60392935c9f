"""Random results that a rule book allows, with the score and time that they are written with."""

from dataclasses import replace
from random import Random

from results.core.outcomes import RIDING_TIME, Kind, Outcome, Side, kind_of
from results.core.rules import NoContest, ResultRules

WON = (Kind.INJURY, Kind.FORFEIT, Kind.MEDICAL, Kind.DISQUALIFICATION)
NOBODY = (Kind.DOUBLE_FORFEIT, Kind.DOUBLE_DISQUALIFICATION, Kind.NO_CONTEST)
TIMED = (Kind.TECHNICAL_FALL, Kind.FALL, Kind.INJURY)


def side(chance: Random, top: float = 0.5) -> Side:
    """One of the two; the top one with that chance."""
    return 0 if chance.random() < top else 1


def won(chance: Random, rules: ResultRules, winner: Side) -> Outcome:
    """A bout that this side wins."""
    if chance.random() < 0.2:
        kind = chance.choice(WON)
    elif chance.random() < 0.35:
        kind = Kind.FALL
    else:
        return _by_points(chance, rules, winner)
    return Outcome(kind, winner, time=_time(chance) if kind in TIMED else None)


def unwon(chance: Random, rules: ResultRules) -> Outcome:
    """A bout that nobody wins."""
    kind = chance.choice(NOBODY)
    if kind is Kind.NO_CONTEST and rules.no_contest is NoContest.AGAIN:
        kind = Kind.DOUBLE_DISQUALIFICATION
    return Outcome(kind, None)


def any_outcome(chance: Random, rules: ResultRules) -> Outcome:
    """How a bout ends that nothing special is said of."""
    if chance.random() < 0.04:
        return unwon(chance, rules)
    return won(chance, rules, side(chance, 0.6))


def _by_points(chance: Random, rules: ResultRules, winner: Side) -> Outcome:
    lost = chance.choice((0, 0, 1, 2, 3, 4, 6))
    margin = chance.choice((1, 2, 3, 5, 7, 8, 9, 11, 14, 15, 17))
    kind = kind_of(margin, rules)
    found = Outcome(kind, winner, (lost + margin, lost))
    if kind is Kind.TECHNICAL_FALL:
        return replace(found, time=_time(chance), near_fall=chance.random() < 0.6)
    if kind is Kind.DECISION and rules.riding_time_decides and chance.random() < 0.1:
        late = rules.riding_time_decides[0]
        return replace(found, score=(lost, lost), overtime=late, decided_by=RIDING_TIME)
    if kind is Kind.DECISION and rules.overtime and chance.random() < 0.1:
        return replace(found, overtime=rules.overtime[0])
    return found


def _time(chance: Random) -> int:
    return chance.choice((20, 45, 60, 61, 148, 300, 419))
