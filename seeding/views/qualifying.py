"""Qualifying at the desk: the plan, the regions, and how far each weight is."""

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _

from seeding.entries.models import Tournament
from seeding.entries.permissions import Right, visible
from seeding.entries.queries import tournament as tournament_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.forms.qualifying import PlanForm, RegionForm
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.queries.qualifying import WAYS_IN, RegionSeen, plan_of, regions, tallies
from seeding.queries.qualifying import region as region_of
from seeding.services.qualifying import Numbers, remove_region, set_plan, set_region

Page = dict[str, Any]


@desk(Right.SEED)
def qualifying(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """What the tournament takes from its regions, and what each weight has of it."""
    plan = plan_of(tournament)
    form = PlanForm(posted(request, "plan"), plan=plan, zone=tournament.time_zone)
    new = RegionForm(posted(request, "region"), sources=_sources(request, tournament), region=None)
    removals = [_removal(request, seen) for seen in regions(tournament)]
    if carried(request, form, lambda call: _plan(call, tournament, form)):
        messages.success(request, _("The plan is kept."))
        return redirect("desk-qualifying", tournament.slug)
    if carried(request, new, lambda call: _region(call, tournament, new, "")):
        messages.success(request, _("The region is kept."))
        return redirect("desk-qualifying", tournament.slug)
    for seen, removal in removals:
        if carried(request, removal, _remover(tournament, seen)):
            messages.success(request, _("The region is removed."))
            return redirect("desk-qualifying", tournament.slug)
    shown: Page = {"tournament": tournament, "plan": plan, "form": form, "new": new}
    directs = Right.DIRECT in getattr(request, "rights", frozenset())
    bound = [form, new, *(removal for _seen, removal in removals)]
    shown["refused"] = [] if directs else [one for one in bound if one.errors]
    shown["ways_in"] = [reverse(name, args=[tournament.slug]) for name in WAYS_IN]
    shown |= {"regions": removals, "tallies": tallies(tournament)}
    return render(request, "seeding/qualifying.html", shown)


def _removal(request: HttpRequest, seen: RegionSeen) -> tuple[RegionSeen, ActForm]:
    do = f"remove-{seen.region.letter}"
    return seen, ActForm(posted(request, do), auto_id=f"{do}_%s")


def _remover(tournament: Tournament, seen: RegionSeen) -> Callable[[Call], Act]:
    letter = seen.region.letter
    return lambda call: remove_region(call=call, tournament=tournament, letter=letter)


def _plan(call: Call, tournament: Tournament, form: PlanForm) -> Act:
    found = form.cleaned_data
    numbers = Numbers(
        found["places"], found["wild_cards"], found["alternates"], found["alternates_until"]
    )
    return set_plan(call=call, tournament=tournament, numbers=numbers)


def _region(call: Call, tournament: Tournament, form: RegionForm, before: str) -> Act:
    found = form.cleaned_data
    source = tournament_of(found["source"]) if found["source"] else None
    return set_region(
        call=call,
        tournament=tournament,
        letter=found["letter"],
        name=found["name"],
        source=source,
        before=before,
    )


def _sources(request: HttpRequest, tournament: Tournament) -> list[tuple[str, str]]:
    """The organisation's other tournaments in which the person has a role."""
    return [
        (row.slug, row.name)
        for row in visible(request.user.pk)
        if row.organisation_id == tournament.organisation_id and row.pk != tournament.pk
    ]


@desk(Right.DIRECT)
def region(request: HttpRequest, tournament: Tournament, letter: str) -> HttpResponse:
    """One region: its letter, its name, its tournament."""
    row = region_of(tournament, letter)
    form = RegionForm(posted(request, "region"), sources=_sources(request, tournament), region=row)
    if carried(request, form, lambda call: _region(call, tournament, form, letter)):
        messages.success(request, _("The region is kept."))
        return redirect("desk-qualifying", tournament.slug)
    return render(
        request,
        "seeding/qualifying_region.html",
        {"tournament": tournament, "region": row, "form": form},
    )
