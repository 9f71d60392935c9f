"""Divisions and weights."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from seeding.entries import queries
from seeding.entries.core.overrides import single, value_of, written
from seeding.entries.core.rulebook import names
from seeding.entries.forms.weights import (
    DivisionForm,
    EditDivisionForm,
    WeightForm,
    WeightSetForm,
)
from seeding.entries.models import Division, Tournament, WeightClass
from seeding.entries.permissions import Right
from seeding.entries.queries.groups import group_rules
from seeding.entries.services import (
    add_division,
    add_weight,
    add_weight_set,
    edit_division,
    edit_weight,
    remove_division,
    remove_weight,
)
from seeding.entries.services.division import weight_sets
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call


@dataclass(frozen=True, slots=True)
class SetButton:
    """One set of the rule book, with the weights that are still missing."""

    name: str
    labels: list[str]
    form: WeightSetForm


@dataclass(frozen=True, slots=True)
class Shown:
    """A division as the page shows it."""

    division: Division
    settings: str
    weights: list[WeightClass]
    sets: list[SetButton]
    form: WeightForm
    grouped: bool

    @property
    def groups(self) -> bool:
        """Whether groups are formed, or can be."""
        return self.grouped or not self.weights


@desk(Right.DIRECT)
def weights(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Every division with its weights; a new division."""
    form = DivisionForm(posted(request, "division"))
    if carried(request, form, lambda call: _new_division(call, tournament, form)):
        messages.success(request, _("The division is made. Now add its weights."))
        return redirect("desk-weights", tournament.slug)
    rows = list(queries.weights(tournament))
    divisions = list(tournament.divisions.all())
    shown = [_shown(request, one, [row for row in rows if row.division_id == one.pk])
             for one in divisions]  # fmt: skip
    for one in shown:
        if _added(request, one):
            return redirect("desk-weights", tournament.slug)
    page = {"tournament": tournament, "divisions": shown, "form": form}
    return render(request, "entries/weights.html", page)


def _new_division(call: Call, tournament: Tournament, form: DivisionForm) -> Act:
    values = form.values
    key = slugify(str(values["name"]))[:30] or "division"
    return add_division(call=call, tournament=tournament, key=key, **values)


def _shown(request: HttpRequest, division: Division, rows: list[WeightClass]) -> Shown:
    held = {row.label for row in rows}
    sets = weight_sets(division)
    chosen = posted(request, f"set-{division.key}")
    buttons = []
    for name, labels in sets.items():
        lacking = [label for label in labels if label not in held]
        data = chosen if chosen and chosen.get("name") == name else None
        form = WeightSetForm(data, names=list(sets), initial={"name": name}, auto_id=False)
        if lacking:
            buttons.append(SetButton(name, lacking, form))
    add = WeightForm(
        posted(request, f"weight-{division.key}"),
        division=division,
        initial={"places": division.snapshot["bracket"]["places"]},
        auto_id=f"{division.key}_%s",
    )
    grouped = group_rules(division).grouped
    return Shown(division, written(single(division.settings)), rows, buttons, add, grouped)


def _added(request: HttpRequest, shown: Shown) -> bool:
    """Carry out the button of this division that was pressed, if any was."""
    division = shown.division

    def add_set(form: WeightSetForm) -> bool:
        return carried(
            request, form, lambda call: add_weight_set(call=call, division=division, **form.values)
        )

    def add_one(call: Call) -> Act:
        return add_weight(call=call, division=division, **shown.form.values)

    done = any(add_set(button.form) for button in shown.sets)
    done = done or carried(request, shown.form, add_one)
    if done:
        messages.success(request, _("Added. When all weights are here: Intake."))
    return done


@desk(Right.DIRECT)
def weight(request: HttpRequest, tournament: Tournament, key: str) -> HttpResponse:
    """One weight: change or remove it."""
    row = queries.weight(tournament, key)
    form = WeightForm.of(row, posted(request, "edit"))
    gone = ActForm(posted(request, "remove"), auto_id="gone_%s")

    def change(call: Call) -> Act:
        return edit_weight(call=call, weight=row, **form.values)

    def remove(call: Call) -> Act:
        return remove_weight(call=call, weight=row)

    if carried(request, form, change):
        return _back(request, tournament, _("Saved."))
    if carried(request, gone, remove):
        return _back(request, tournament, _("Weight %(label)s is removed.") % {"label": row.label})
    page = {"tournament": tournament, "weight": row, "form": form, "gone": gone}
    return render(request, "entries/weight.html", page)


@desk(Right.DIRECT)
def division(request: HttpRequest, tournament: Tournament, key: str) -> HttpResponse:
    """One division: its name and the settings that differ from the rule book."""
    row = queries.division(tournament, key)
    form = EditDivisionForm(posted(request, "edit"), division=row)
    gone = ActForm(posted(request, "remove"), auto_id="gone_%s")

    def change(call: Call) -> Act:
        return edit_division(call=call, division=row, **form.values)

    def remove(call: Call) -> Act:
        return remove_division(call=call, division=row)

    if carried(request, form, change):
        own = _of_own_places(queries.of_own_places(queries.division(tournament, key)))
        return _back(request, tournament, f"{_('Saved.')} {own}".strip())
    if carried(request, gone, remove):
        return _back(request, tournament, _("The division is removed."))
    page: dict[str, Any] = {"tournament": tournament, "division": row, "form": form, "gone": gone}
    page["settings"] = written({name: value_of(row.snapshot, name) for name in names(row.snapshot)})
    places = queries.of_own_places(row)
    page |= {"own_places": _of_own_places(places), "undrawn": places.filter(locked=False)}
    return render(request, "entries/division.html", page)


def _of_own_places(rows: Iterable[WeightClass]) -> str:
    """In words how many weights keep which places of their own; nothing where none does."""
    own = [row.places for row in rows]
    if not own:
        return ""
    text = ngettext(
        "%(n)d weight has its own number of places (%(places)s): it stands.",
        "%(n)d weights have their own number of places (%(places)s): these stand.",
        len(own),
    )
    return text % {"n": len(own), "places": ", ".join(map(str, sorted(set(own))))}


def _back(request: HttpRequest, tournament: Tournament, word: str) -> HttpResponse:
    messages.success(request, word)
    return redirect("desk-weights", tournament.slug)
