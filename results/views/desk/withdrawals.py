"""Who wrestles no more, and who comes back."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from results.forms.people import WithdrawForm
from results.forms.ruling import ChosenForm, answered
from results.queries.desk import full_name
from results.queries.out import ahead, look_at_return, still_in, withdrawal_of
from results.queries.out import withdrawals as out
from results.services import reinstate, withdraw
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import entry as entry_of
from seeding.entries.views.desk import carried, desk, posted


@desk(Right.DIRECT)
def withdrawals(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Who is out; `?entry=` somebody to withdraw, with what he would forfeit."""
    key = request.GET.get("entry", "")
    chosen = entry_of(tournament, key) if key else None
    form = WithdrawForm(
        posted(request, "withdraw"), initial={"version": chosen.version if chosen else None}
    )
    if chosen and carried(
        request, form, lambda call: withdraw(call=call, entry=chosen, **_values(form))
    ):
        messages.success(request, _("%(name)s is withdrawn.") % {"name": full_name(chosen)})
        return redirect("desk-withdrawals", tournament.slug)
    shown = {
        "tournament": tournament,
        "rows": out(tournament),
        "choices": () if chosen else still_in(tournament),
        "ahead": ahead(tournament, chosen) if chosen else None,
        "form": form,
    }
    return render(request, "results/desk/withdrawals.html", shown)


def _values(form: WithdrawForm) -> dict[str, str]:
    return {name: form.cleaned_data[name] for name in ("kind", "reason")}


@desk(Right.DIRECT)
def returning(request: HttpRequest, tournament: Tournament, key: str) -> HttpResponse:
    """Let somebody who is out wrestle on, after a look at what follows."""
    entry = entry_of(tournament, key)
    form = ChosenForm.of(request.POST, "return", entry.version)
    if carried(request, form, lambda call: reinstate(call=call, entry=entry, **form.decided)):
        messages.success(request, _("%(name)s may wrestle on.") % {"name": full_name(entry)})
        return redirect("desk-withdrawals", tournament.slug)
    form.look_again(entry.version)
    shown = {
        "tournament": tournament,
        "row": withdrawal_of(entry),
        "form": form,
        "look": {"preview": answered(lambda made: look_at_return(entry, made), request.POST)},
    }
    return render(request, "results/desk/returning.html", shown)
