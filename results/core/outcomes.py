"""What a bout can end in, whether a kind and its score agree, and how it is written.

Kinds, margins and notation: published, NCAA Wrestling Rules Book, Rule 4.2 note 1 (overtime);
margins: association page.
"""

import re
from dataclasses import dataclass
from enum import Enum, StrEnum
from typing import Literal

from brackets.core.progress import Verdict
from results.core.errors import (
    BadScore,
    BadTime,
    DecidedByUnknown,
    KindContradicted,
    LoserAhead,
    MisconductNotHere,
    OvertimeUnknown,
    PartMissing,
    PartUnwanted,
    RidingTimeNotHere,
    ScoreLevel,
    ScoreNotLevel,
    WinnerMissing,
    WinnerUnwanted,
    WrestledAgain,
)
from results.core.rules import NoContest, ResultRules

Side = Literal[0, 1]
RIDING_TIME = "riding time"


class Kind(StrEnum):
    """How a bout ended."""

    DECISION = "decision"
    MAJOR = "major decision"
    TECHNICAL_FALL = "technical fall"
    FALL = "fall"
    INJURY = "injury default"
    FORFEIT = "forfeit"
    MEDICAL = "medical forfeit"
    DISQUALIFICATION = "disqualification"
    DOUBLE_FORFEIT = "double forfeit"
    DOUBLE_DISQUALIFICATION = "double disqualification"
    NO_CONTEST = "no contest"


@dataclass(frozen=True, slots=True)
class Outcome:
    """The result of one bout.

    `winner`: 0 the top side, 1 the bottom one, None when nobody won. `score`: points, winner
    first. `time`: seconds of wrestling at the end. `overtime`: the last period in the rule book's
    words, such as "SV-1". `decided_by`: "riding time" where that decided a level tie-breaker.
    `near_fall`: whether near-fall points were among those of a technical fall. `misconduct`:
    flagrant; the disqualified are out of the tournament.
    """

    kind: Kind
    winner: Side | None
    score: tuple[int, int] | None = None
    time: int | None = None
    overtime: str | None = None
    decided_by: str | None = None
    near_fall: bool = True
    misconduct: bool = False


class Use(Enum):
    """Whether a kind is written with a score or a time."""

    NEVER = 0
    MAY = 1
    MUST = 2


@dataclass(frozen=True, slots=True)
class Manner:
    """What belongs to a kind, and its notation; `begun`: it can happen in overtime."""

    notation: str
    score: Use
    time: Use
    won: bool = True
    begun: bool = True


MANNERS = {
    Kind.DECISION: Manner("Dec", Use.MUST, Use.MAY),
    Kind.MAJOR: Manner("MD", Use.MUST, Use.MAY),
    Kind.TECHNICAL_FALL: Manner("TF", Use.MUST, Use.MUST),
    Kind.FALL: Manner("Fall", Use.MAY, Use.MUST),
    Kind.INJURY: Manner("Def. (inj.)", Use.MAY, Use.MUST),
    Kind.FORFEIT: Manner("For.", Use.NEVER, Use.NEVER, begun=False),
    Kind.MEDICAL: Manner("M. For.", Use.NEVER, Use.NEVER, begun=False),
    Kind.DISQUALIFICATION: Manner("DQ", Use.MAY, Use.MAY),
    Kind.DOUBLE_FORFEIT: Manner("DFF", Use.NEVER, Use.NEVER, won=False, begun=False),
    Kind.DOUBLE_DISQUALIFICATION: Manner("DDQ", Use.NEVER, Use.MAY, won=False),
    Kind.NO_CONTEST: Manner("NC", Use.NEVER, Use.MAY, won=False),
}
EXAMPLES = {Kind.MAJOR: "11-1", Kind.TECHNICAL_FALL: "19-4"}
BY_POINTS = (Kind.DECISION, Kind.MAJOR, Kind.TECHNICAL_FALL)


def verdict(outcome: Outcome) -> Verdict:
    """What the bracket needs to know."""
    return Verdict(outcome.winner)


def thrown_out(outcome: Outcome) -> tuple[Side, ...]:
    """The sides that are out of the tournament for flagrant misconduct."""
    if not outcome.misconduct:
        return ()
    if outcome.winner is None:
        return (0, 1)
    return (1,) if outcome.winner == 0 else (0,)


def check(outcome: Outcome, rules: ResultRules, *, complete: bool, where: str = "") -> None:
    """Refuse an outcome that cannot be, saying what would be right.

    `complete` also demands the score and time that the kind is written with, as at the mat.
    `where` names the bout in the refusal.
    """
    manner = MANNERS[outcome.kind]
    if manner.won and outcome.winner is None:
        raise WinnerMissing(kind=outcome.kind, where=where)
    if not manner.won and outcome.winner is not None:
        raise WinnerUnwanted(kind=outcome.kind, where=where)
    if outcome.kind is Kind.NO_CONTEST and rules.no_contest is NoContest.AGAIN:
        raise WrestledAgain(where=where)
    if outcome.misconduct and outcome.kind not in (
        Kind.DISQUALIFICATION,
        Kind.DOUBLE_DISQUALIFICATION,
    ):
        raise MisconductNotHere(kind=outcome.kind, where=where)
    if outcome.time is not None and outcome.time < 0:
        raise BadTime(text=f"{outcome.time} s", where=where)
    _check_parts(outcome, manner, complete, where)
    _check_overtime(outcome, rules, where)
    if outcome.score is not None:
        _check_score(outcome, outcome.score, rules, where)


def _check_parts(outcome: Outcome, manner: Manner, complete: bool, where: str) -> None:
    score = None if outcome.score is None else _written(outcome.score)
    time = None if outcome.time is None else write_time(outcome.time)
    for part, use, value, example in (
        ("score", manner.score, score, EXAMPLES.get(outcome.kind, "7-3")),
        ("time", manner.time, time, "2:28"),
        ("overtime", Use.MAY if manner.begun else Use.NEVER, outcome.overtime, ""),
    ):
        if use is Use.NEVER and value is not None:
            raise PartUnwanted(kind=outcome.kind, part=part, value=value, where=where)
        if use is Use.MUST and value is None and complete:
            raise PartMissing(kind=outcome.kind, part=part, example=example, where=where)


def _check_overtime(outcome: Outcome, rules: ResultRules, where: str) -> None:
    if outcome.overtime is not None and outcome.overtime not in rules.overtime:
        known = _listed(rules.overtime)
        raise OvertimeUnknown(overtime=outcome.overtime, known=known, where=where)
    if outcome.decided_by is None:
        return
    if outcome.decided_by != RIDING_TIME:
        raise DecidedByUnknown(decided_by=outcome.decided_by, where=where)
    known = _listed(rules.riding_time_decides)
    if outcome.kind is not Kind.DECISION or outcome.overtime not in rules.riding_time_decides:
        period = outcome.overtime or "regulation"
        raise RidingTimeNotHere(kind=outcome.kind, overtime=period, known=known, where=where)


def _check_score(outcome: Outcome, score: tuple[int, int], rules: ResultRules, where: str) -> None:
    text = _written(score)
    if min(score) < 0:
        raise BadScore(text=text, where=where)
    if outcome.kind not in BY_POINTS:
        return
    margin = score[0] - score[1]
    if outcome.decided_by:
        if margin:
            raise ScoreNotLevel(score=text, where=where)
        return
    if margin < 0:
        raise LoserAhead(kind=outcome.kind, score=text, where=where)
    if margin == 0:
        after = _listed(rules.riding_time_decides)
        raise ScoreLevel(kind=outcome.kind, score=text, after=after, where=where)
    right = kind_of(margin, rules)
    if right is not outcome.kind:
        span = _span(outcome.kind, rules)
        kind = outcome.kind
        raise KindContradicted(
            kind=kind, score=text, span=span, margin=margin, right=right, where=where
        )


def kind_of(margin: int, rules: ResultRules) -> Kind:
    """The kind that a lead of `margin` points (1 or more) makes at the end of a bout."""
    if margin >= rules.technical_fall_from:
        return Kind.TECHNICAL_FALL
    return Kind.MAJOR if margin >= rules.major_decision_from else Kind.DECISION


def _span(kind: Kind, rules: ResultRules) -> str:
    if kind is Kind.TECHNICAL_FALL:
        return f"{rules.technical_fall_from} points or more"
    if kind is Kind.MAJOR:
        return f"{rules.major_decision_from} to {rules.technical_fall_from - 1} points"
    return f"1 to {rules.major_decision_from - 1} points"


def notation(outcome: Outcome) -> str:
    """The outcome in the rule book's notation; the score at the end of regulation is not listed.

    >>> notation(Outcome(Kind.MAJOR, 0, score=(11, 1)))
    'MD 11-1'
    >>> notation(Outcome(Kind.DECISION, 1, (6, 6), overtime="TB-2", decided_by="riding time"))
    '6-6 RT (TB-2)'
    """
    in_overtime = outcome.kind is Kind.DECISION and outcome.overtime and outcome.score
    parts = [] if in_overtime else [MANNERS[outcome.kind].notation]
    if outcome.score is not None and outcome.kind in BY_POINTS:
        parts.append(_written(outcome.score))
    if outcome.decided_by == RIDING_TIME:
        parts.append("RT")
    if outcome.time is not None and MANNERS[outcome.kind].time is Use.MUST:
        parts.append(write_time(outcome.time))
    if outcome.overtime:
        parts.append(f"({outcome.overtime})")
    return " ".join(parts)


def write_time(seconds: int) -> str:
    """Seconds as m:ss.

    >>> write_time(148)
    '2:28'
    """
    return f"{seconds // 60}:{seconds % 60:02}"


def read_time(text: str) -> int:
    """The seconds of a time m:ss; refuses anything else.

    >>> read_time("2:28")
    148
    """
    found = re.fullmatch(r"([0-9]{1,2}):([0-5][0-9])", text.strip())
    if not found:
        raise BadTime(text=text)
    return 60 * int(found[1]) + int(found[2])


def read_score(text: str) -> tuple[int, int]:
    """The two numbers of a score, winner first; refuses anything else.

    >>> read_score("7-3")
    (7, 3)
    """
    found = re.fullmatch(r"([0-9]{1,3}) ?[-:] ?([0-9]{1,3})", text.strip())
    if not found:
        raise BadScore(text=text)
    return int(found[1]), int(found[2])


def _written(score: tuple[int, ...]) -> str:
    return "-".join(map(str, score))


def _listed(names: tuple[str, ...]) -> str:
    return ", ".join(names) or "none"
