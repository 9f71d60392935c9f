"""What can be done about an entry that does not wrestle where it was entered."""

from dataclasses import dataclass
from enum import StrEnum

from results.core.rules import Absent


@dataclass(frozen=True, slots=True)
class Newcomer:
    """Who comes in somebody's place, or late, by name."""

    given: str
    family: str


class Phase(StrEnum):
    """How far a weight is for one of its entries: undrawn, drawn, or he has wrestled."""

    BEFORE = "before the draw"
    DRAWN = "after the draw"
    DURING = "during the event"


class Remedy(StrEnum):
    """What becomes of him and his line.

    Before the draw: SCRATCH (the seeds below follow the list's `scratched`), OTHER_WEIGHT (entered
    at the weight that he made, without a seed), SUBSTITUTE (one of his team comes instead, without
    the seed), ALTERNATE (the first of those who stand by). After it: BYE (his line is empty, his
    opponent goes on without a bout), FORFEIT (his line stands, his opponent wins by forfeit),
    SUBSTITUTE and ALTERNATE on his line, REDRAW (out of the field, which is drawn anew). When he
    has wrestled: WITHDRAW.
    """

    SCRATCH = "scratch"
    OTHER_WEIGHT = "other weight"
    SUBSTITUTE = "substitute"
    ALTERNATE = "alternate"
    BYE = "bye"
    FORFEIT = "forfeit"
    REDRAW = "redraw"
    WITHDRAW = "withdraw"


OFFERED: dict[Phase, tuple[Remedy, ...]] = {
    Phase.BEFORE: (Remedy.SCRATCH, Remedy.OTHER_WEIGHT, Remedy.SUBSTITUTE, Remedy.ALTERNATE),
    Phase.DRAWN: (
        Remedy.BYE,
        Remedy.FORFEIT,
        Remedy.SUBSTITUTE,
        Remedy.ALTERNATE,
        Remedy.REDRAW,
        Remedy.WITHDRAW,
    ),
    Phase.DURING: (Remedy.WITHDRAW,),
}
"""What can be chosen in each phase; a person decides, also against what is usual."""


def usual(phase: Phase, absent: Absent, *, past: bool, elsewhere: bool) -> Remedy:
    """What is done where nothing else is chosen.

    `absent`: what the rule book has a qualifier leave who does not appear (published: one state's
    regional manual 2005 has a forfeit). `past`: the stated cut-off is over, after which it is a
    forfeit (published, one region: replaced until the start, after it his line is a forfeit).
    `elsewhere`: he made another weight that is open to him.

    >>> usual(Phase.DRAWN, Absent.BYE, past=False, elsewhere=False).value
    'bye'
    >>> usual(Phase.DRAWN, Absent.BYE, past=True, elsewhere=False).value
    'forfeit'
    """
    if phase is Phase.BEFORE:
        return Remedy.OTHER_WEIGHT if elsewhere else Remedy.SCRATCH
    if phase is Phase.DURING:
        return Remedy.WITHDRAW
    return Remedy.FORFEIT if past or absent is Absent.FORFEIT else Remedy.BYE
