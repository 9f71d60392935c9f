"""Which list of criteria orders the weights of each division."""

from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from seeding.core.rules import SeedingRules
from seeding.entries.core.rulebook import upgrade
from seeding.entries.models import Division, Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import division as division_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.forms.lists import ListFileForm, ListForm
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.queries import rules_of
from seeding.queries.list_used import SHAPES
from seeding.rulebooks import lists, rules_of_list, text_of, written
from seeding.services.lists import use_list, use_own_list


@dataclass(frozen=True, slots=True)
class Told:
    """A list as the page tells of it; `file` is empty where it is not one of the program's."""

    file: str
    name: str
    source: str
    shape: str

    @classmethod
    def of(cls, rules: SeedingRules, file: str = "") -> "Told":
        return cls(file, rules.name, rules.source, str(SHAPES[rules.shape_name]))


@desk(Right.SEED)
def criteria(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """The lists of the program, and the list of each division."""
    shown = {
        "tournament": tournament,
        "divisions": [(row, Told.of(rules_of(row))) for row in tournament.divisions.all()],
        "lists": [Told.of(rules_of_list(name), name) for name in lists()],
    }
    return render(request, "seeding/lists.html", shown)


@desk(Right.DIRECT)
def division(request: HttpRequest, tournament: Tournament, key: str) -> HttpResponse:
    """Choose the list of one division, bring one, or go back to the rule book's."""
    row = division_of(tournament, key)
    choose = ListForm(posted(request, "use"), auto_id="use_%s")
    sent = posted(request, "file")
    bring = ListFileForm(sent, request.FILES if sent else None, auto_id="file_%s")
    own = ActForm(posted(request, "own"), auto_id="own_%s")
    acts = (
        (choose, lambda call: use_list(call=call, division=row, **choose.values)),
        (bring, lambda call: _brought(call, row, bring)),
        (own, lambda call: use_own_list(call=call, division=row)),
    )
    for form, do in acts:
        if carried(request, form, do):
            messages.success(request, _("The orders of the division are worked out by this list."))
            return redirect("desk-criteria", tournament.slug)
    shown = {"tournament": tournament, "division": row, "choose": choose, "bring": bring}
    told = {"own": own, "told": Told.of(rules_of(row)), "brought": "seeding" in row.settings}
    drawn = row.weights.filter(locked=True).first()
    return render(request, "seeding/list.html", {**shown, **told, "drawn": drawn})


def _brought(call: Call, row: Division, form: ListFileForm) -> Act:
    file, text = form.cleaned_data["file"]
    return use_list(call=call, division=row, file=file, text=text)


@desk(Right.SEED)
def read(request: HttpRequest, tournament: Tournament, name: str) -> HttpResponse:
    """A list of the program, as its file says it."""
    told = Told.of(rules_of_list(name), name)
    shown = {"tournament": tournament, "told": told, "text": text_of(name)}
    return render(request, "seeding/list_read.html", shown)


@desk(Right.SEED)
def text(request: HttpRequest, tournament: Tournament, name: str) -> HttpResponse:
    """A list of the program as a file, to begin one's own from."""
    return _file(name, text_of(name))


@desk(Right.SEED)
def used(request: HttpRequest, tournament: Tournament, key: str) -> HttpResponse:
    """The list that a division goes by, as a file."""
    row = division_of(tournament, key)
    return _file(f"{tournament.slug}-{row.key}", written(upgrade(row.snapshot)["seeding"]))


def _file(name: str, text: str) -> HttpResponse:
    answer = HttpResponse(text, content_type="application/toml; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="{name}.toml"'
    return answer
