"""Reading a result as people write it, "MD 11-1", "Fall 2:28", "5-3 (SV-1)", and a date."""

import re
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from seeding.core.season import ResultKind

_OVERTIME = re.compile(
    r"\(?\b(SV|TB|UTB|OT)(?:\s*-?\s*(\d)(?![\d:]|\s*[-\u2013]\s*\d))?\b\)?", re.IGNORECASE
)
_RIDING = re.compile(r"\bRT\b", re.IGNORECASE)
_HALF_POINT = re.compile(r"\bTF\s*-?\s*1\.[05]\b", re.IGNORECASE)
_SCORE = re.compile(r"(?<![\d:-])(\d{1,2})\s*[-\u2013]\s*(\d{1,2})(?![\d:])")
_TIME = re.compile(r"(?<![\d:])(\d{1,2}:[0-5]\d)(?:\.\d+)?(?!\d)")

_WORDS = {
    ResultKind.DECISION: "d dec decision win",
    ResultKind.MAJOR: "md maj major majdec majordec majordecision",
    ResultKind.TECHNICAL_FALL: "tf tech techfall technicalfall technicalsuperiority",
    ResultKind.FALL: "f fall pin p wbf",
    ResultKind.INJURY: "definj inj injury injdef injurydefault default def",
    ResultKind.FORFEIT: "for ff fft forf forfeit",
    ResultKind.MEDICAL: "mfor mff mffl mfft medfor medff medforfeit medicalforfeit",
    ResultKind.DISQUALIFICATION: "dq disq disqualification",
}
_KINDS = {word: kind for kind, words in _WORDS.items() for word in words.split()}
_NO_WINNERS = "dff dfft doubleforfeit ddq doubledq doubledisqualification nc nocontest bye"
KNOWN = "Dec 5-3, MD 11-1, TF 19-4 4:25, Fall 2:28, Inj, For, MFF, DQ"


@dataclass(frozen=True, slots=True)
class Read:
    """A result: its kind, the score, time and overtime in one tidy text, points and time alone.

    The winner's points come first; `time` is empty where none is told.
    """

    kind: ResultKind
    score: str
    points: tuple[int, int] | None
    time: str = ""


@dataclass(frozen=True, slots=True)
class NoWinner:
    """A double forfeit, a no contest, a bye: nothing that seeding could use."""


@dataclass(frozen=True, slots=True)
class Unread:
    """What is wrong with the text."""

    message: str


@lru_cache(maxsize=4096)
def read_result(text: str) -> Read | NoWinner | Unread:
    """The result in the text; a bare score up to 7 points apart is a decision.

    >>> read_result("Maj. Dec. 11-1")
    Read(kind=<ResultKind.MAJOR: 'major decision'>, score='11-1', points=(11, 1), time='')
    >>> read_result("6-6 RT (TB-2)").score, read_result("TF-1.5 4:25 (19-4)").score
    ('6-6 RT (TB-2)', '19-4 4:25')
    """
    rest = _HALF_POINT.sub("TF", text)
    scores = {(int(a), int(b)) for a, b in _SCORE.findall(_OVERTIME.sub(" ", rest))}
    times = set(_TIME.findall(rest))
    if len(scores) > 1 or len(times) > 1:
        return Unread(f"“{text}” has more than one score or time")
    score, time = next(iter(scores), None), next(iter(times), "")
    for pattern in (_OVERTIME, _RIDING, _SCORE, _TIME):
        rest = pattern.sub(" ", rest)
    word = "".join(sign for sign in rest.casefold() if sign.isalnum())
    if word in _NO_WINNERS.split():
        return NoWinner()
    points = "-".join(map(str, score or ()))
    apart = score[0] - score[1] if score else 0
    overtime = _overtime(text)
    if apart < 0:
        return Unread(f"the winner's points come first, not “{points}”")
    if score and apart == 0 and not overtime:
        return Unread(f"{points} has no winner; was it overtime, or riding time (RT)?")
    kind = _KINDS.get(word) if word else _bare(apart) if score else None
    if kind is None:
        return Unread(f"“{text}” is not a result; known are such as {KNOWN}")
    return Read(kind, " ".join(filter(None, (points, time, overtime))), score, time)


def _bare(apart: int) -> ResultKind | None:
    """Published: a decision is won by 1-7; wider margins differ from book to book."""
    return ResultKind.DECISION if apart <= 7 else None


def _overtime(text: str) -> str:
    found = _OVERTIME.search(text)
    period = "-".join(filter(None, (found[1].upper(), found[2]))) if found else ""
    riding = "RT" if _RIDING.search(text) else ""
    return " ".join(filter(None, (riding, f"({period})" if period else "")))


_DATES = (
    (re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ]00:00(?::00)?)?"), (1, 2, 3)),
    (re.compile(r"(\d{1,2})/(\d{1,2})/(\d{4}|\d\d)"), (3, 1, 2)),
    (re.compile(r"(\d{1,2})\.(\d{1,2})\.(\d{4})"), (3, 2, 1)),
)


def read_date(text: str) -> date | None:
    """The day, or None; a year of two digits is of this century.

    >>> [str(read_date(text)) for text in ("2024-11-16", "11/16/24", "16.11.2024", "16/11/2024")]
    ['2024-11-16', '2024-11-16', '2024-11-16', 'None']
    """
    for pattern, order in _DATES:
        found = pattern.fullmatch(text)
        if found:
            year, month, day = (found[part] for part in order)
            century = "20" if len(year) == 2 else ""
            try:
                return date(int(century + year), int(month), int(day))
            except ValueError:
                return None
    return None
