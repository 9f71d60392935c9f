"""What of a bracket's results still holds when an earlier fact changes."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from brackets.core.graph import BoutKey, Bracket
from brackets.core.progress import play
from brackets.core.rules import BracketRules
from brackets.core.standing import Leavers, Occupant, Standing, Verdict


@dataclass(frozen=True, slots=True)
class Replay:
    """`standing` with every verdict that still holds; `lost` are the bouts whose verdict does not.

    A verdict holds as long as the same two meet on the same sides of the same bout.
    """

    standing: Standing
    lost: tuple[BoutKey, ...]


def replay(
    bracket: Bracket,
    verdicts: Mapping[BoutKey, Verdict],
    met: Mapping[BoutKey, tuple[Occupant, Occupant]],
    rules: BracketRules,
    *,
    out: Leavers = frozenset(),
    vacating: frozenset[str] = frozenset(),
    pool_order: Sequence[Sequence[str]] | None = None,
) -> Replay:
    """Play the bracket round by round, keeping each verdict whose two sides are as in `met`.

    `met` names, for every bout with a verdict, who wrestled in it. A bout that is not needed any
    more keeps none. `pool_order`: as in `play`, for the changed facts. Linear in the number of
    rounds.
    """

    def played() -> Standing:
        return play(bracket, kept, rules, out=out, vacating=vacating, pool_order=pool_order)

    kept: dict[BoutKey, Verdict] = {}
    for code in [found.code for found in bracket.rounds]:
        bouts = played().bouts
        kept |= {
            key: given
            for key, given in verdicts.items()
            if key.round == code and bouts[key].sides == met[key] and bouts[key].takes_result
        }
    lost = tuple(sorted(key for key in verdicts if key not in kept))
    return Replay(played(), lost)
