"""The draw with team-mates kept apart as late as possible, and no seed moved for it.

Version 2, so that anybody can draw again from the recorded seed of the lot (7. is new, all else is
version 1):

1. Seeds and slots stand as `slots` says; byes (or pigtails) by lot are the first use of the lot.
2. Two who are to be kept apart can meet first at the lowest point of the bracket that holds both.
   The cost of a draw is the number of pairs whose first meeting can be a pigtail, then a first
   round, a second round ... a semifinal: fewer of an earlier round go before any number of later
   ones. Only the championship side counts, byes are no obstacle, a pair of seeds counts too.
3. The patterns of least cost under the first criterion (which team every free slot belongs to; who
   has no team is a team of his own) are put in the order that `pattern` describes, teams in the
   order of their least id among free members. The lot's number `pattern.by_lot` picks one.
4. Team after team its free members, in order of id, are shuffled by the lot and take the team's
   slots from the top. So every draw of least cost is equally likely.
5. With further criteria, 3 and 4 are repeated up to `TRIES` times, until a draw reaches the bound
   of every criterion: among such draws each is equally likely. Failing that, the cheapest draw
   so far (the first of equals) goes through `walk` up to `WALKS` times.
6. Where counting the patterns takes more work than `least.LIMIT`, the one that `flow` finds is
   taken in 3 and goes through `walk` once after 4; it stays of least cost. That every such draw
   is then nearly as likely as another is tested, not proven. No random field of up to 64 entrants
   came to this; some of 128 and more with many large teams do. To draw these again by another
   program it has to do the work of `count` and the moves of `flow` in the same order.
7. Two pools are drawn as `pooled` says; in version 1 as a round robin, a best of three still are:
   seeds in their order, all others after them by lot.

`TRIES`, `WALKS`, `walk.STEPS` and `least.LIMIT` belong to both: 30, 4, 100 and 100,000.

Bounds: for the first criterion the sum of every team's exact least cost, if need be with prices on
the slots (`tree.Programme`): it is always reached, and so is its own proof. For a further criterion
of groups the same, as if it stood alone; for pairs who met, every pair as far apart as the bracket
lets these two be. Where a bound is not reached, the gap is open: a better draw may exist, or not.
"""

from collections.abc import Collection, Mapping, Sequence

from brackets.core.apart.criteria import KeepApart, by_round
from brackets.core.apart.field import Field
from brackets.core.apart.least import LIMIT
from brackets.core.apart.pooled import pooled_draw
from brackets.core.apart.result import Draw, Kept
from brackets.core.apart.walk import walk
from brackets.core.draw import Entrant, in_order, ranked
from brackets.core.formats import shape
from brackets.core.rules import BracketRules
from brackets.core.slots import Slot, slots
from brackets.core.sources import Format
from seeding.core.lot import Lot

DRAW_VERSION = 2
DRAW_VERSIONS = (1, DRAW_VERSION)
"""All that can be drawn again."""
TRIES = 30
WALKS = 4


def separated_draw(
    entrants: Sequence[Entrant],
    rules: BracketRules,
    lot: Lot,
    keep: KeepApart,
    holes: Collection[int] = (),
    *,
    limit: int = LIMIT,
    version: int = DRAW_VERSION,
) -> Draw:
    """The draw of a field, the same whatever order the entrants come in.

    Seeds take the best ranks in their order, all others the ranks after them (see `slots`); a gap
    among the seeds closes. `holes`: seed numbers whose holders were scratched; their ranks stay
    empty.
    `limit`: the work that counting may take (6.); part of the version as it stands. `version`:
    one of `DRAW_VERSIONS`.
    A round robin and a best of three are drawn as if nothing was to be kept apart.
    Refuses a field that has no format, and a seed given twice.
    """
    form = shape(len(entrants), rules).format
    if form is Format.TWO_POOLS and version > 1:
        return pooled_draw(entrants, lot, keep, version)
    if form is not Format.ELIMINATION:
        return Draw(in_order(entrants, lot), kept=(), patterns=0, version=version)
    order = ranked(entrants, holes)
    field = Field(entrants, slots(order.seeded, len(order.others), rules, lot), keep, limit)
    places = _best(field, lot)
    lines_of = field.lines(places)
    return Draw(
        field.slots.line_up({slot: one for one, slot in places.items()}),
        kept=tuple(
            Kept(criterion, by_round(some, lines_of, field.rounds), field.bounds[criterion])
            for criterion, some in field.sought.items()
        ),
        patterns=field.least.patterns,
        version=version,
    )


def _best(field: Field, lot: Lot) -> Mapping[str, Slot]:
    goal = field.goal
    best = field.places(lot)
    if not field.least.patterns:
        best = walk(best, field, lot)
    for _ in range(TRIES - 1 if len(field.sought) > 1 else 0):
        if field.cost(best) > goal:
            best = min(best, field.places(lot), key=field.cost)
    for _ in range(WALKS):
        if field.cost(best) > goal:
            best = walk(best, field, lot)
    return best
