"""Teams that become one, two, or exchange a wrestler; the points go with the wrestlers."""

from collections.abc import Callable, Sequence

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from results.forms.people import MergeForm, MoveForm, SplitForm, open_teams
from results.services import merge_teams, move_entry, split_team
from seeding.entries.models import Entry, Team, Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import entry as entry_of
from seeding.entries.queries import team as team_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call


@desk(Right.DIRECT)
def teams(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Merge two teams; `?team=` one whose wrestlers part from it."""
    key = request.GET.get("team", "")
    team = team_of(tournament, key) if key else None
    merge = MergeForm.of(tournament, posted(request, "merge"))
    split = SplitForm.of(team, posted(request, "split")) if team else None
    move = MoveForm.of(team, posted(request, "move")) if team else None
    acts: list[tuple[ActForm | None, Callable[[Call], Act]]] = [
        (merge, lambda call: merge_teams(call=call, **merge.values)),
        (split, lambda call: _split(call, team, split)),
        (move, lambda call: _move(call, tournament, move)),
    ]
    for form, do in acts:
        if form and carried(request, form, do):
            messages.success(request, _("Done. The points have moved with the wrestlers."))
            return redirect("desk-team-moves", tournament.slug)
    shown = {
        "tournament": tournament,
        "teams": open_teams(tournament),
        "team": team,
        "merge": merge,
        "split": split,
        "move": move,
    }
    return render(request, "results/desk/teams.html", shown)


def _split(call: Call, team: Team | None, form: SplitForm | None) -> Act:
    if team is None or form is None:
        raise AssertionError("only a chosen team can be split")
    keys: Sequence[str] = form.cleaned_data["entries"]
    entries = list(Entry.objects.filter(tournament=team.tournament_id, key__in=keys))
    names = {name: form.cleaned_data[name] for name in ("name", "short")}
    return split_team(call=call, team=team, entries=entries, **names)


def _move(call: Call, tournament: Tournament, form: MoveForm | None) -> Act:
    if form is None:
        raise AssertionError("only a wrestler of a chosen team can be moved")
    entry = entry_of(tournament, form.cleaned_data["entry"])
    return move_entry(call=call, entry=entry, team=form.cleaned_data["team"])
