"""Teams and entries."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.core.teams import abbreviated
from seeding.entries.models import Entry, Team, Tournament, WeightClass
from seeding.journal.forms import ActForm


class TeamForm(ActForm):
    """A team; one that several schools wrestle for together names them."""

    name = forms.CharField(label=_("Name"), max_length=120)
    short = forms.CharField(
        label=_("Short form"),
        max_length=12,
        required=False,
        help_text=_("As it stands on sheets: ALD. Left empty, one is made from the name."),
    )
    members = forms.CharField(
        label=_("Schools of a co-operative team"),
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text=_("One a line."),
    )

    def clean_members(self) -> list[str]:
        lines: str = self.cleaned_data["members"]
        return [line.strip() for line in lines.splitlines() if line.strip()]

    def fill_short(self, tournament: Tournament) -> dict[str, object]:
        """The values, with a short form that no other team of the tournament has."""
        values = self.values
        if not values["short"]:
            taken = {
                short.casefold()
                for short in tournament.teams.exclude(name=values["name"]).values_list(
                    "short", flat=True
                )
            }
            made = abbreviated(str(values["name"]), lambda short: short.casefold() in taken)
            values["short"] = made
        return values


class DetailsForm(ActForm):
    """What an entry says beside the wrestler's name."""

    team = forms.ModelChoiceField(label=_("Team"), queryset=Team.objects.none())
    seed = forms.IntegerField(label=_("Seed"), min_value=1, max_value=999, required=False)
    scoring = forms.BooleanField(label=_("Scores for the team"), required=False, initial=True)
    publish = forms.ChoiceField(
        label=_("Name on public pages"),
        choices=Entry.Publish.choices,
        help_text=_("The desk always shows the full name."),
    )
    rank = forms.IntegerField(label=_("Coaches' rank"), min_value=1, required=False)
    qualifying_place = forms.IntegerField(label=_("Qualifying place"), min_value=1, required=False)

    def __init__(self, *args: Any, tournament: Tournament, **more: Any) -> None:
        super().__init__(*args, **more)
        field = self.fields["team"]
        if isinstance(field, forms.ModelChoiceField):
            field.queryset = Team.objects.filter(tournament=tournament, merged_into=None)


class NewEntryForm(DetailsForm):
    """A new entry of a weight."""

    field_order = ("given", "family", "team")
    given = forms.CharField(label=_("Given name"), max_length=80, required=False)
    family = forms.CharField(label=_("Family name"), max_length=80)


class EditEntryForm(DetailsForm):
    """An entry as it stands. Weight, team and seed can be changed until the weight is drawn."""

    field_order = ("weight_class", "team")
    weight_class = forms.ModelChoiceField(
        label=_("Weight"), queryset=WeightClass.objects.none(), empty_label=None
    )

    def __init__(self, *args: Any, entry: Entry, tournament: Tournament, **more: Any) -> None:
        held = {name: getattr(entry, name) for name in EDITABLE}
        initial = {**held, "version": entry.version}
        super().__init__(*args, tournament=tournament, initial=initial, **more)
        field = self.fields["weight_class"]
        if isinstance(field, forms.ModelChoiceField):
            field.queryset = WeightClass.objects.filter(tournament=tournament)
        if entry.weight_class.locked:
            for name in ("weight_class", "team", "seed"):
                self.fields[name].disabled = True
                self.fields[name].help_text = _("Stands since the draw.")


EDITABLE = (*("weight_class", "team", "seed", "scoring", "publish", "rank", "qualifying_place"),)


class NameForm(ActForm):
    """A wrestler's name, spelled otherwise."""

    given = forms.CharField(label=_("Given name"), max_length=80, required=False)
    family = forms.CharField(label=_("Family name"), max_length=80)

    @classmethod
    def of(cls, entry: Entry, data: Any = None) -> "NameForm":
        """The form of the wrestler who is entered."""
        held = {
            "given": entry.wrestler.given,
            "family": entry.wrestler.family,
            "version": entry.version,
        }
        return cls(data, initial=held, auto_id="name_%s")


class WeighInForm(ActForm):
    """What the scale said: made or missed, never the figure."""

    state = forms.ChoiceField(choices=Entry.WeighIn.choices, widget=forms.HiddenInput)
