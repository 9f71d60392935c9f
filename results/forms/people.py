"""Who wrestles no more, and for whom one wrestles."""

from collections.abc import Iterable
from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from results.models import Withdrawal
from results.queries.desk import full_name
from seeding.entries.models import Entry, Team, Tournament
from seeding.journal.forms import ActForm


def entry_line(row: Entry) -> str:
    """An entry in one line, as it stands in lists to choose from."""
    return f"{row.weight_class.label} · {full_name(row)} · {row.team.short}"


def entered(tournament: Tournament) -> QuerySet[Entry]:
    """The entries of a tournament as lists show them, light to heavy."""
    rows = Entry.objects.filter(tournament=tournament, status=Entry.Status.ENTERED)
    ordered = rows.order_by("weight_class__position", "wrestler__family", "pk")
    return ordered.select_related("weight_class", "wrestler", "team")


class WithdrawForm(forms.Form):
    """Why somebody wrestles no more."""

    entry = forms.CharField(widget=forms.HiddenInput)
    kind = forms.ChoiceField(label=_("Why"), choices=Withdrawal.Kind.choices)


class MergeForm(ActForm):
    """Two teams that become one."""

    team = forms.ModelChoiceField(label=_("This team"), queryset=Team.objects.none())
    into = forms.ModelChoiceField(label=_("goes into"), queryset=Team.objects.none())

    @classmethod
    def of(cls, tournament: Tournament, data: Any = None) -> "MergeForm":
        """The form of a tournament's open teams."""
        form = cls(data, auto_id="merge_%s")
        for name in ("team", "into"):
            _choose(form.fields[name], open_teams(tournament))
        return form


class SplitForm(ActForm):
    """A second team made out of some of a team's wrestlers."""

    name = forms.CharField(label=_("Name of the new team"), max_length=120)
    short = forms.CharField(label=_("Short form"), max_length=12)
    entries = forms.MultipleChoiceField(
        label=_("Who goes to it"), widget=forms.CheckboxSelectMultiple
    )

    @classmethod
    def of(cls, team: Team, data: Any = None) -> "SplitForm":
        """The form of a team's wrestlers."""
        form = cls(data, auto_id="split_%s")
        _list(form.fields["entries"], entered(team.tournament).filter(team=team))
        return form


class MoveForm(ActForm):
    """A wrestler who goes to another team."""

    entry = forms.ChoiceField(label=_("Wrestler"))
    team = forms.ModelChoiceField(label=_("To team"), queryset=Team.objects.none())

    @classmethod
    def of(cls, team: Team, data: Any = None) -> "MoveForm":
        """The form of a team's wrestlers and the other teams."""
        form = cls(data, auto_id="move_%s")
        _list(form.fields["entry"], entered(team.tournament).filter(team=team))
        _choose(form.fields["team"], open_teams(team.tournament).exclude(pk=team.pk))
        return form


def open_teams(tournament: Tournament) -> Any:
    """The teams that were not merged into another."""
    return Team.objects.filter(tournament=tournament, merged_into=None)


def _choose(field: forms.Field, rows: Any) -> None:
    if isinstance(field, forms.ModelChoiceField):
        field.queryset = rows


def _list(field: forms.Field, rows: Iterable[Entry]) -> None:
    if isinstance(field, forms.ChoiceField):
        field.choices = [(row.key, entry_line(row)) for row in rows]
