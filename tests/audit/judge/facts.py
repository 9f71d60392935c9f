"""What is given of one weight: line-up, settings, results, withdrawals, rulings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from tests.audit.judge.model import Key, Seat, Time

Doc = dict[str, Any]


@dataclass(frozen=True)
class Result:
    """How a bout ended. `winner`: the entry, or None when nobody won."""

    kind: str
    winner: str | None
    score: tuple[int, int] | None = None
    time: int | None = None
    near_fall: bool = True
    misconduct: bool = False
    raw: Doc = field(default_factory=dict, compare=False)


@dataclass
class Rulings:
    """What people decided; of two on one thing the later counts."""

    seats: dict[tuple[Key, int], Seat] = field(default_factory=dict)
    ends: dict[tuple[Key, bool], Seat] = field(default_factory=dict)
    whole: set[Key] = field(default_factory=set)
    results: dict[Key, tuple[tuple[str, str], str | None]] = field(default_factory=dict)
    places: dict[str, int | None] = field(default_factory=dict)
    seated: set[tuple[Key, int]] = field(default_factory=set)  # where any has brought somebody


@dataclass
class Facts:
    """All that a weight's standing is worked out from."""

    weight: str
    division: str
    label: str
    settings: Doc
    places: int  # the weight's own, or those of the rule book
    format: str
    lines: list[Any]
    entries: dict[str, Doc]
    crossings: list[list[int]] = field(default_factory=list)  # as the document tells them
    times: dict[Key, Time] = field(default_factory=dict)  # of all bouts of the bracket
    results: dict[Key, Result] = field(default_factory=dict)
    left: dict[str, Key | None] = field(default_factory=dict)  # who is out, after which bout
    vacating: set[str] = field(default_factory=set)
    removed: set[str] = field(default_factory=set)
    absent: set[str] = field(default_factory=set)
    rulings: Rulings = field(default_factory=Rulings)
    rulings_on_format: Rulings = field(default_factory=Rulings)  # without those on challenges
    met: dict[Key, tuple[Seat, Seat]] = field(default_factory=dict)  # whose results they are

    @property
    def given(self) -> int:
        """How many places are given: no more than there are entrants."""
        return min(self.places, len(self.holders()))

    @property
    def fits(self) -> bool:
        """Whether the format is one that is wrestled on so many lines."""
        size = len(self.lines)
        sizes = {"round-robin": range(6), "best-of-three": (2,), "two-pools": (6, 7)}
        if self.format == "elimination":
            return size in (2, 4, 8, 16, 32, 64, 128, 256)
        return size in sizes.get(self.format, ())

    def holders(self) -> dict[tuple[int, int], str]:
        """Who starts on which half of which line."""
        found: dict[tuple[int, int], str] = {}
        for index, line in enumerate(self.lines):
            for half, entry in enumerate(line if isinstance(line, list) else [line]):
                if entry is not None:
                    found[index, half] = entry
        return found


def read_key(text: str) -> Key:
    """Round and position of "SF-2"."""
    code, position = text.rsplit("-", 1)
    return code, int(position)


def seconds(text: str | None) -> int | None:
    """The seconds of a time m:ss."""
    if not text:
        return None
    minutes, rest = text.split(":")
    return int(minutes) * 60 + int(rest)


def read_result(raw: Doc) -> Result:
    """A result as the document has it."""
    score = raw.get("score")
    return Result(
        kind=raw["kind"],
        winner=raw.get("winner"),
        score=(score[0], score[1]) if score else None,
        time=seconds(raw.get("time")),
        near_fall=raw.get("near_fall", True),
        misconduct=raw.get("misconduct", False),
        raw=raw,
    )


def read_rulings(raws: Iterable[Doc]) -> Rulings:
    """The rulings of one weight, in the order made."""
    found = Rulings()
    for raw in raws:
        if raw["kind"] == "place":
            found.places |= {row["entry"]: row["place"] for row in raw["places"]}
            continue
        key = read_key(raw["bout"])
        if raw["kind"] == "result":
            top, bottom = raw["sides"]
            found.results[key] = ((top, bottom), raw.get("winner"))
            continue
        if raw["kind"] == "sides":
            found.whole.add(key)
        for way in raw["ways"]:
            where = read_key(way["bout"])
            if "side" in way:
                slot = 0 if way["side"] == "top" else 1
                found.seats[where, slot] = way["entry"]
                found.seated |= {(where, slot)} if way["entry"] else set()
            else:
                end = (where, way["exit"] == "winner")
                found.ends.pop(end, None)  # the later ruled is last
                found.ends[end] = way["entry"]
    return found
