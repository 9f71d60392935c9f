"""Late changes of a random tournament: lines swapped, emptied, filled, taken over."""

from collections.abc import Callable
from random import Random

from brackets.models import Drawn
from results.core.late import Newcomer, Phase, Remedy
from results.queries.late import usable_lines
from results.queries.weigh_in import Case, phase_of
from results.services import enter_late, swap_lines, take_out
from results.services.late import LateEntry
from seeding.entries.models import Entry, Team, WeightClass
from seeding.journal.core.errors import Refusal
from tests.audit.hall import Hall

CANNOT = frozenset(
    {
        *("bouts-stand", "has-wrestled", "left-behind-byes", "ruling-names"),
        *("line-change-unfit", "line-up-invalid"),
    }
)
"""What is refused because of what stands already; any other refusal is a failure."""

TRIES = 6


def change_late(hall: Hall, chance: Random) -> bool:
    """Change the lines once; whether anything was found that still can be changed."""
    for _ in range(TRIES):
        try:
            done = chance.choice(CHANGES)(hall, chance)
        except Refusal as refusal:
            if refusal.code not in CANNOT:
                raise
            continue
        if done:
            hall.drawn = _again(hall.drawn)
            return True
    return False


def _swap(hall: Hall, chance: Random) -> bool:
    one, other = chance.sample(range(1, len(hall.drawn.lines) + 1), 2)
    swap_lines(call=hall.call, weight=_weight(hall), lines=(one, other), reason="wrong side")
    return True


def _take_out(hall: Hall, chance: Random) -> bool:
    """A bye, a forfeit, or somebody of the same team on the line."""
    rows = Entry.objects.select_related("wrestler", "weight_class__division", "tournament", "team")
    keys = list(hall.built.entries())
    found = rows.filter(weight_class=hall.drawn.weight_class_id, key__in=keys).order_by("pk")
    gone = hall.gone()
    free = [one for one in found if phase_of(one) is Phase.DRAWN and one.pk not in gone]
    if not free:
        return False
    remedy = chance.choice((Remedy.BYE, Remedy.FORFEIT, Remedy.SUBSTITUTE))
    person = Newcomer(f"Sub{hall.minutes}", "Late") if remedy is Remedy.SUBSTITUTE else None
    case = Case(chance.choice(free), remedy, person=person)
    take_out(call=hall.call, case=case, reason="not here")
    return True


def _enter(hall: Hall, chance: Random) -> bool:
    """Onto a free line that is chosen, or by lot."""
    free = usable_lines(hall.drawn)
    if not free:
        return False
    line = chance.choice(free) if chance.random() < 0.5 else None
    team = chance.choice(list(Team.objects.filter(tournament=hall.tournament).order_by("pk")))
    late = LateEntry(team, Newcomer(f"New{hall.minutes}", "Late"), line, lot_seed="late")
    enter_late(call=hall.call, weight=_weight(hall), late=late, reason="stuck on the way")
    return True


CHANGES: tuple[Callable[[Hall, Random], bool], ...] = (_swap, _take_out, _take_out, _enter)


def _weight(hall: Hall) -> WeightClass:
    rows = WeightClass.objects.select_related("division", "tournament")
    return rows.get(pk=hall.drawn.weight_class_id)


def _again(drawn: Drawn) -> Drawn:
    rows = Drawn.objects.select_related("weight_class__division", "weight_class__tournament")
    return rows.get(pk=drawn.pk)
