"""Rulings: deciding against the format, and taking that back."""

from brackets.core.drafting import Wanted
from brackets.models import Drawn
from brackets.services import lock_bracket
from brackets.services.logged import logged
from results.core.errors import NoSuchRuling
from results.models import Ruling
from results.queries.consequences import Choices
from results.queries.rulings import look_at_ruling, look_at_taking_back
from results.services.carrying import carry_out, need_reason, save_ruling
from results.services.settle import settle
from seeding.entries.permissions import Right, require
from seeding.journal.services import Call, Deed, act


@act
def rule(
    *,
    call: Call,
    drawn: Drawn,
    wanted: Wanted,
    reason: str,
    choices: Choices | None = None,
    mark: str = "",
) -> Deed:
    """Decide sides, the winner, who goes on, or a place against the format.

    `choices` and `mark`: as in `correct_result`, for the wrestled bouts that it touches.
    """
    weight = drawn.weight_class
    require(call, weight.tournament_id, Right.DIRECT)
    lock_bracket(drawn)
    need_reason(reason)
    ruling, seen = look_at_ruling(drawn, wanted, choices)
    row = save_ruling(call, Ruling.of(drawn, ruling), reason)
    void = carry_out(call, drawn, seen, mark=mark, reason=reason)
    settle(drawn)
    subject = {"weight": weight.pk, "ruling": row.pk} | logged(void=void)
    return Deed(weight.tournament.log_id, "ruling.made", subject)


@act
def take_back_ruling(
    *,
    call: Call,
    ruling: Ruling,
    choices: Choices | None = None,
    mark: str = "",
    reason: str = "",
) -> Deed:
    """Take a ruling back: the format holds again where it spoke.

    `choices`, `mark` and `reason`: as in `correct_result`.
    """
    drawn = ruling.drawn
    weight = drawn.weight_class
    require(call, weight.tournament_id, Right.DIRECT)
    lock_bracket(drawn)
    pk = ruling.pk
    if not Ruling.objects.filter(pk=pk).exists():
        raise NoSuchRuling(ruling=pk)
    seen = look_at_taking_back(ruling, choices)
    void = carry_out(call, drawn, seen, mark=mark, reason=reason)
    Ruling.objects.filter(pk=pk).delete()
    settle(drawn)
    subject = {"weight": weight.pk, "ruling": pk} | logged(void=void)
    return Deed(weight.tournament.log_id, "ruling.taken-back", subject)
