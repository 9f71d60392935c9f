"""How a weight stands: one pass over the bracket from the line-up and the verdicts so far.

Nothing is carried on from bout to bout; everybody's way is worked out afresh from the facts, so
the standing does not depend on the order in which independent bouts were entered.

Nobody wins (a verdict without a winner, or both sides are out):

* `DoubleLoss.OUT`: both ways on stay empty, whoever waits there has a bye.
* `DoubleLoss.DROP`: in a championship bout the top side drops as its loser. The bottom side takes
  the loser's line of the next championship bout, which is a bye for the opponent there; where two
  claim that line, the one from the upper bout has it. Where there is no such line (it would be a
  place, or the draw has none), and on the consolation side, he is out.
* A bout that nobody won gives no leader, so nobody comes back after him.
* Who is out in this way keeps the place that was already certain, the one he would have if he
  lost all that was left. This is why a placing bout without a winner gives both its poorer place.

A bout that is not needed (`Needed`) is spared. A challenge is: when the two have met, or one of
them is not there; then each keeps his place.

A place that nobody takes (`OpenPlace`): `OPEN`, it stays open; `SHARED`, as open, but both sides
of a placing bout without a winner share its better place; `MOVED_UP`, everybody below moves up:
a place is one more than the number of entries placed better (never worse than as wrestled), and
it is final only when all better places are. Source: the three are in official use, and no book
that was read says more; what is said here is ours.
"""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from brackets.core.errors import NoSuchBout
from brackets.core.graph import BoutKey, Bracket
from brackets.core.placing import elimination_places, pool_places
from brackets.core.rules import BracketRules
from brackets.core.rulings import Rulings, placed, ruled_places
from brackets.core.standing import (
    BoutState,
    Leavers,
    Occupant,
    Sides,
    Standing,
    Status,
    Vacancy,
    Verdict,
)
from brackets.core.walk import walk

__all__ = [
    "BoutState",
    "Leavers",
    "Occupant",
    "Sides",
    "Standing",
    "Status",
    "Vacancy",
    "Verdict",
    "play",
]


def play(
    bracket: Bracket,
    verdicts: Mapping[BoutKey, Verdict],
    rules: BracketRules,
    *,
    out: Leavers = frozenset(),
    vacating: frozenset[str] = frozenset(),
    pool_order: Sequence[Sequence[str]] | None = None,
    rulings: Rulings = (),
) -> Standing:
    """The standing of a bracket after these verdicts.

    `out`: entries who will not wrestle again; their bouts without a verdict are lost as soon as
    the opponent is known, and when both are out nobody wins. As a mapping to
    `standing.behind(entry)`, taken when he left, it leaves alone what he had won by then; as a
    bare set, he was out from the start. `vacating`: entries who may not place.
    `pool_order`: every entry of a round robin, or of two pools, from first to last, tied entries
    together; ignored before the pool is finished. Of two pools it says for each who is before
    whom; of those who are tied, who starts on the better line goes on as the better.
    `rulings`: taken as given, see there.
    Refuses a verdict for a bout that cannot be wrestled as things stand (`BoutNotReady`).
    """
    for key in verdicts.keys() - bracket.sources.keys():
        raise NoSuchBout(bout=key)
    walked = walk(bracket, verdicts, rules.double_loss, out, pool_order, rulings)
    if bracket.ranked:
        found = pool_places(bracket, walked, rules.open_place, vacating, pool_order)
    else:
        found = elimination_places(bracket, walked, rules.open_place, vacating)
    ruled = ruled_places(rulings)
    given = {entry: place for entry, place in ruled.items() if place is not None}
    worst = {entry: place for entry, place in found.guaranteed.items() if entry not in ruled}
    return Standing(
        bouts=MappingProxyType({state.key: state for state in walked.states}),
        places=MappingProxyType(placed(found.final, ruled) if ruled else found.final),
        guaranteed=MappingProxyType(worst | given),
        ruled=frozenset(ruled),
        in_full=found.in_full - ruled.keys(),
    )
