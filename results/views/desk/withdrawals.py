"""Who wrestles no more, and who comes back."""

from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from results.forms.people import WithdrawForm
from results.models import Withdrawal
from results.queries.desk import full_name
from results.queries.out import ahead, still_in
from results.queries.out import withdrawals as out
from results.services import reinstate, withdraw
from seeding.entries.models import Entry, Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import entry as entry_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.forms import ActForm


@dataclass(frozen=True, slots=True)
class Line:
    """Somebody who is out, with the button that lets him return."""

    row: Withdrawal
    form: ActForm


@desk(Right.DIRECT)
def withdrawals(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Who is out; `?entry=` somebody to withdraw, with what he would forfeit."""
    if back := _returned(request, tournament):
        return back
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
        "lines": [_line(request, row) for row in out(tournament)],
        "choices": () if chosen else still_in(tournament),
        "ahead": ahead(tournament, chosen) if chosen else None,
        "form": form,
    }
    return render(request, "results/desk/withdrawals.html", shown)


def _values(form: WithdrawForm) -> dict[str, str]:
    return {name: form.cleaned_data[name] for name in ("kind", "reason")}


def _line(request: HttpRequest, row: Withdrawal) -> Line:
    entry = row.entry
    sent = posted(request, f"return-{entry.key}")
    held = {"version": entry.version}
    return Line(row, ActForm(sent, initial=held, auto_id=f"{entry.key}_%s"))


def _returned(request: HttpRequest, tournament: Tournament) -> HttpResponse | None:
    do = request.POST.get("do", "")
    if not do.startswith("return-"):
        return None
    entry: Entry = entry_of(tournament, do.removeprefix("return-"))
    form = ActForm(posted(request, do), auto_id=f"{entry.key}_%s")
    if not carried(request, form, lambda call: reinstate(call=call, entry=entry)):
        for said in form.non_field_errors():
            messages.error(request, str(said))
    else:
        messages.success(request, _("%(name)s may wrestle on.") % {"name": full_name(entry)})
    return redirect("desk-withdrawals", tournament.slug)
