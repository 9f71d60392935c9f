"""Who comes to a side on which nobody stands yet."""

from collections.abc import Callable
from dataclasses import dataclass

from brackets.core.graph import Beaten, BoutKey, Bracket, From, Source


@dataclass(frozen=True, slots=True)
class Coming:
    """What a side waits for, byes looked through; `bout` by its number, else by its key.

    `bout` is empty where the side waits for a line or for a rank in a pool. `nobody`: the side
    is fed by a bye that has no loser, or by nothing.
    """

    source: Source
    bout: str
    nobody: bool = False

    @classmethod
    def of(
        cls, built: Bracket, key: BoutKey, slot: int, number: Callable[[BoutKey], int | None]
    ) -> "Coming":
        source = built.awaited(key, slot)
        match source:
            case From(bout=earlier):
                return cls(source, str(number(earlier) or earlier), earlier not in built.bouts)
            case Beaten(by=earlier):
                return cls(source, str(number(earlier) or earlier))
            case _:
                return cls(source, "")
