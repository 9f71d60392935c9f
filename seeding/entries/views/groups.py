"""Divisions without fixed weights: weigh-in, preview, groups. For those who direct only."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _

from seeding.entries import queries
from seeding.entries.forms.groups import FormGroupsForm, WeighingForm
from seeding.entries.models import Division, GroupReason, Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import groups as reads
from seeding.entries.services import form_groups, measure, start_groups
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call


@desk(Right.DIRECT)
def groups(request: HttpRequest, tournament: Tournament, key: str) -> HttpResponse:
    """What was weighed, the groups that it makes, and those that stand."""
    division = queries.division(tournament, key)
    if reads.find_waiting(division) is None:
        return _start(request, tournament, division)
    known = reads.members(division)
    people = [one for at in division.weights.all() for one in known.get(at.pk, ())]
    form = WeighingForm(posted(request, "measure"), people=people, day=tournament.starts_on)
    proposed = reads.proposed(division)
    make = FormGroupsForm(posted(request, "form"), initial={"shown": proposed.digest})

    def make_them(call: Call) -> Act:
        return form_groups(call=call, division=division, shown=make.cleaned_data["shown"])

    if carried(request, form, lambda call: _measure(call, division, form)):
        messages.success(request, _("Recorded."))
        return redirect("desk-groups", tournament.slug, division.key)
    if carried(request, make, make_them):
        messages.success(request, _("The groups are made. Draw them when all are right."))
        return redirect("desk-groups", tournament.slug, division.key)
    shown = _shown(tournament, division) | {"form": form, "proposed": proposed, "make": make}
    return render(request, "entries/groups.html", shown)


def _shown(tournament: Tournament, division: Division) -> dict[str, object]:
    return {
        "tournament": tournament,
        "division": division,
        "rules": reads.group_rules(division),
        "waiting": reads.waiting_of(division),
        "groups": reads.groups(division),
        "reasons": GroupReason.objects.filter(division=division).select_related("by"),
        "ways_on": [reverse(name, args=[tournament.slug, division.key]) for name in reads.WAYS_ON],
    }


def _measure(call: Call, division: Division, form: WeighingForm) -> Act:
    if not form.changed:
        raise Invalid([Problem("", _("Nothing was changed."))])
    return measure(call=call, division=division, figures=form.changed)


def _start(request: HttpRequest, tournament: Tournament, division: Division) -> HttpResponse:
    form = ActForm(posted(request, "start"), auto_id="start_%s")
    if carried(request, form, lambda call: start_groups(call=call, division=division)):
        messages.success(request, _("Now enter the wrestlers: they wait at “To be grouped”."))
        return redirect("desk-groups", tournament.slug, division.key)
    shown = {"tournament": tournament, "division": division, "form": form}
    shown |= {"rules": reads.group_rules(division), "fixed": reads.fixed_weights(division)}
    return render(request, "entries/groups_start.html", shown)
