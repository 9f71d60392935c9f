"""Who wrestles no more, and who comes back."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from results.forms.late import WithdrawnForm
from results.forms.people import WithdrawForm
from results.forms.ruling import ChosenForm, answered
from results.queries.desk import full_name
from results.queries.out import look_at_return, still_in, withdrawal_of
from results.queries.out import withdrawals as out
from results.services import reinstate, withdraw
from results.services.withdraw import look_at_withdrawal
from results.views.desk.late import DO, Look, said
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import entry as entry_of
from seeding.entries.views.desk import carried, desk, posted


@desk(Right.DIRECT)
def withdrawals(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Who is out; `?entry=` somebody to withdraw; `&kind=` why, with what would follow."""
    shown: dict[str, object] = {"tournament": tournament, "rows": out(tournament)}
    if key := request.GET.get("entry", ""):
        row = entry_of(tournament, key)
        form = WithdrawForm(request.GET if "kind" in request.GET else None, initial={"entry": key})
        shown |= {"chosen": row, "form": form}
        if form.is_bound and form.is_valid():
            kind = form.cleaned_data["kind"]
            done = WithdrawnForm(posted(request, DO), auto_id="act_%s")
            if carried(
                request,
                done,
                lambda call: withdraw(call=call, entry=row, kind=kind, **said(done)),
            ):
                messages.success(request, _("%(name)s is withdrawn.") % {"name": full_name(row)})
                return redirect("desk-withdrawals", tournament.slug)
            look = Look.under(
                request, done, row.version, lambda call: look_at_withdrawal(call, row, kind)
            )
            shown |= {"look": look, "done": done}
    else:
        shown["choices"] = still_in(tournament)
    return render(request, "results/desk/withdrawals.html", shown)


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
