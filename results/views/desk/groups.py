"""Groups formed after weigh-in: merge, split, move, each previewed."""

from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from results.forms.groups import LeavingForm, RegroupForm
from results.queries.regroup import Change, Regrouped, regrouped
from results.services import regroup
from seeding.entries import queries
from seeding.entries.models import Division, Tournament, WeightClass
from seeding.entries.permissions import Right
from seeding.entries.queries.groups import (
    GroupSeen,
    group_rules,
    group_seen,
    members,
    waiting_of,
)
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.core.errors import Invalid


@dataclass(frozen=True, slots=True)
class Chosen:
    """The group that somebody leaves, and what was chosen about it."""

    here: GroupSeen
    form: LeavingForm
    change: Change | None = None
    seen: Regrouped | None = None


@desk(Right.DIRECT)
def groups(request: HttpRequest, tournament: Tournament, key: str) -> HttpResponse:
    """`?group=` whom somebody leaves; `&entries=` and `&target=`: what would follow."""
    division = queries.division(tournament, key)
    waiting_of(division)
    shown: dict[str, object] = {"tournament": tournament, "division": division}
    shown |= {"rules": group_rules(division), "weights": division.weights.all()}
    if not (at := request.GET.get("group", "")):
        return render(request, "results/desk/groups.html", shown)
    chosen = _chosen(request, division, queries.weight(tournament, at))
    shown |= {"here": chosen.here, "leaving": chosen.form}
    if chosen.change and chosen.seen:
        form = RegroupForm(posted(request, "regroup"), auto_id="act_%s")
        form.fields["reason"].required = chosen.seen.needs_reason
        if _done(request, chosen.change, form):
            messages.success(request, _("The groups are changed. Draw them when all are right."))
            return redirect("desk-groups", tournament.slug, division.key)
        shown |= {"seen": chosen.seen, "form": form}
    return render(request, "results/desk/groups.html", shown)


def _done(request: HttpRequest, change: Change, form: RegroupForm) -> bool:
    return carried(
        request,
        form,
        lambda call: regroup(
            call=call,
            group=change.group,
            entries=change.entries,
            target=change.target,
            reason=form.cleaned_data["reason"],
        ),
    )


def _chosen(request: HttpRequest, division: Division, at: WeightClass) -> Chosen:
    rules, known = group_rules(division), members(division)
    here, others = group_seen(at, known.get(at.pk, ()), rules), division.weights.exclude(pk=at.pk)
    asked = request.GET if "target" in request.GET else None
    ways = [group_seen(one, known.get(one.pk, ()), rules) for one in others]
    form = LeavingForm.of(here, ways, rules.unit, asked)
    if not (form.is_bound and form.is_valid()):
        return Chosen(here, form)
    target = others.filter(key=form.cleaned_data["target"]).first()
    change = Change(division, at, tuple(form.cleaned_data["entries"]), target)
    return Chosen(here, form, change, _looked_at(change, form))


def _looked_at(change: Change, form: LeavingForm) -> Regrouped | None:
    """What would follow; else the form says why it cannot be meant."""
    try:
        return regrouped(change)
    except Invalid as refusal:
        for problem in refusal.problems:
            form.add_error(problem.where if problem.where in form.fields else None, problem.message)
        return None
