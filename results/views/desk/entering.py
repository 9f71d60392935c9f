"""What the bout's page and the table at the mat share: the form of a result, and a look ahead."""

from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest

from results.core.outcomes import Outcome, check, notation
from results.forms.result import ResultForm
from results.forms.ruling import ChosenForm, answered
from results.models import Result, Withdrawal
from results.queries.consequences import Preview
from results.queries.desk import DeskBout, DeskSide
from results.queries.facts import Rules, rules_of
from results.queries.preview import preview
from results.services import correct_result, enter_result
from results.views.desk.page import may
from seeding.entries.permissions import Right
from seeding.journal.core.errors import Refusal
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.journal.views import refuse

AHEAD = ("look", "correct")
SENT = ("enter", *AHEAD)


@dataclass(frozen=True, slots=True)
class Look:
    """What would follow at a bout: of a new outcome, or of an undo (`outcome` None)."""

    at: DeskBout
    outcome: Outcome | None
    preview: Preview

    @property
    def winner(self) -> DeskSide | None:
        """Who would win then."""
        side = self.outcome.winner if self.outcome else None
        return None if side is None else self.at.sides[side]

    @property
    def written(self) -> str:
        return notation(self.outcome) if self.outcome else ""


def rules_at(at: DeskBout) -> Rules:
    """The rules that a bout is wrestled by."""
    return rules_of(at.row.drawn.weight_class.division)


def result_form(request: HttpRequest, at: DeskBout) -> ResultForm:
    """The form of a bout's result as it was sent, as it stands, or empty."""
    sent = request.POST if request.POST.get("do") in SENT else None
    rules = rules_at(at)
    if at.result:
        return ResultForm.of(at.result, rules, at.row.version, sent)
    return ResultForm(sent, rules=rules, initial={"version": at.row.version})


def chosen(request: HttpRequest) -> dict[str, Any]:
    """What was chosen about later bouts that were wrestled, as a service takes it."""
    form = ChosenForm(request.POST)
    form.is_valid()
    return form.decided


def written(request: HttpRequest, call: Call, at: DeskBout, form: ResultForm) -> Act:
    """Enter the result, or where that was the button, correct the one that stands."""
    if form.outcome is None:
        raise AssertionError("a valid form has an outcome")
    if request.POST.get("do") == "correct":
        return correct_result(call=call, bout=at.row, outcome=form.outcome, **chosen(request))
    return enter_result(call=call, bout=at.row, outcome=form.outcome)


def looked(request: HttpRequest, at: DeskBout, form: ResultForm) -> Look | None:
    """What would follow from what was sent, or with `?undo` from an undo.

    Also where it was refused, so that what was chosen on the page is still before the eyes.
    """
    if not at.result:
        return None
    if request.method == "GET":
        return Look(at, None, preview(at.row, None)) if "undo" in request.GET else None
    if request.POST.get("do") in ("undo", "look-undo"):
        return Look(at, None, answered(lambda made: preview(at.row, None, made), request.POST))
    fits, new = form.is_valid(), form.outcome
    if request.POST.get("do") not in AHEAD or new is None:
        return None
    try:
        check(new, rules_at(at).results, complete=True)
    except Refusal as refusal:
        if fits:
            refuse(form, refusal)
        return None
    return Look(at, new, answered(lambda made: preview(at.row, new, made), request.POST))


def may_write(request: HttpRequest, at: DeskBout) -> bool:
    """Whether the person may enter or change this result; an official one takes the director."""
    official = at.result is not None and at.result.state == Result.State.OFFICIAL
    return may(request, Right.DIRECT if official else Right.RECORD)


def out_after(at: DeskBout) -> DeskSide | None:
    """The loser of a bout whose kind the rule book takes for the end of his tournament.

    A ruling that went before the result decides about the end too.
    """
    loser = at.loser
    if not (at.result and loser and loser.entry) or at.overruled:
        return None
    ends = at.result.kind in rules_at(at).results.out_after
    gone = Withdrawal.objects.filter(entry=loser.entry).exists()
    return loser if ends and not gone else None
