"""The result of a bout, as it is entered."""

from collections.abc import Iterable
from typing import Any

from django import forms
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from results.core.errors import BadTime
from results.core.outcomes import RIDING_TIME, Kind, Outcome, kind_of, read_time, write_time
from results.core.rules import ResultRules
from results.models import Result
from results.queries.desk import DeskBout
from results.queries.facts import Rules
from seeding.journal.forms import ActForm

SIDES = (("0", _("Red")), ("1", _("Green")), ("none", _("Nobody")))
BY_SCORE = _("by the score")


class ClockField(forms.CharField):
    """A time of the bout clock, m:ss, as seconds; 216 is read as 2:16."""

    def clean(self, value: Any) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            return read_time(f"{text[:-2]}:{text[-2:]}" if text.isdecimal() else text)
        except BadTime as refusal:
            said = gettext(refusal.template).format(**refusal.params)
            raise forms.ValidationError(said) from refusal


class ResultForm(ActForm):
    """How a bout ended. Without a kind, the kind is that of the score.

    `outcome` is the core's value once the form is valid; whether it can be is the core's to say.
    """

    winner = forms.ChoiceField(
        label=_("Who won?"), choices=SIDES, required=False, widget=forms.RadioSelect
    )
    kind = forms.ChoiceField(
        label=_("How?"),
        choices=[("", BY_SCORE), *((kind.value, _(kind.value)) for kind in Kind)],
        required=False,
        widget=forms.RadioSelect,
    )
    won = forms.IntegerField(label=_("Winner's points"), min_value=0, max_value=99, required=False)
    lost = forms.IntegerField(label=_("Loser's points"), min_value=0, max_value=99, required=False)
    time = ClockField(label=_("Time, m:ss"), max_length=5, required=False)
    overtime = forms.ChoiceField(label=_("Overtime"), required=False, widget=forms.RadioSelect)
    riding_time = forms.BooleanField(label=_("Level score, decided by riding time"), required=False)
    no_near_fall = forms.BooleanField(
        label=_("Technical fall without near-fall points"), required=False
    )
    misconduct = forms.BooleanField(
        label=_("Disqualified for flagrant misconduct: out of the tournament"), required=False
    )

    def __init__(self, data: Any = None, *, rules: Rules, **more: Any) -> None:
        super().__init__(data, **more)
        self.rules: ResultRules = rules.results
        field = self.fields["overtime"]
        if isinstance(field, forms.ChoiceField):
            field.choices = [("", _("none")), *((one, one) for one in self.rules.overtime)]
        bonus = rules.team_points
        if bonus.technical_fall_without_near_fall == bonus.bonus.technical_fall:
            del self.fields["no_near_fall"]
        if not self.rules.riding_time_decides:
            del self.fields["riding_time"]
        self.outcome: Outcome | None = None

    @classmethod
    def of(cls, result: Result, rules: Rules, version: int, data: Any = None) -> "ResultForm":
        """The form of a result that stands."""
        known = result.outcome
        held = {
            "version": version,
            "winner": "none" if known.winner is None else str(known.winner),
            "kind": known.kind.value,
            "won": known.score[0] if known.score else None,
            "lost": known.score[1] if known.score else None,
            "time": "" if known.time is None else write_time(known.time),
            "overtime": known.overtime or "",
            "riding_time": known.decided_by == RIDING_TIME,
            "no_near_fall": not known.near_fall,
            "misconduct": known.misconduct,
        }
        return cls(data, rules=rules, initial=held)

    @property
    def unusual(self) -> bool:
        """Whether something is said that is not seen at first glance."""
        rare = ("overtime", "riding_time", "no_near_fall", "misconduct")
        said = any(self[name].value() for name in rare if name in self.fields)
        return said or self["winner"].value() == "none"

    def clean(self) -> dict[str, Any]:
        found = super().clean() or self.cleaned_data
        points = (found.get("won"), found.get("lost"))
        if (points[0] is None) != (points[1] is None) and not self.errors:
            self.add_error("lost" if points[1] is None else "won", _("Give both figures."))
        kind = self._kind(found)
        if kind and not self.errors:
            self.outcome = _outcome(found, kind)
        return found

    def _kind(self, found: dict[str, Any]) -> Kind | None:
        if found.get("kind"):
            return Kind(found["kind"])
        if found.get("won") is None or found.get("lost") is None:
            if not self.errors:
                self.add_error("kind", _("Say how it ended, or give the score."))
            return None
        margin = found["won"] - found["lost"]
        return kind_of(margin, self.rules) if margin > 0 else Kind.DECISION


def _outcome(found: dict[str, Any], kind: Kind) -> Outcome:
    winner = found.get("winner")
    points = (found.get("won"), found.get("lost"))
    return Outcome(
        kind=kind,
        winner={"0": 0, "1": 1}.get(winner or ""),  # type: ignore[arg-type]
        score=None if points[0] is None or points[1] is None else (points[0], points[1]),
        time=found.get("time"),
        overtime=found.get("overtime") or None,
        decided_by=RIDING_TIME if found.get("riding_time") else None,
        near_fall=not (found.get("no_near_fall") and kind is Kind.TECHNICAL_FALL),
        misconduct=bool(found.get("misconduct")),
    )


class StateForm(ActForm):
    """Raise a result, or bring it back."""

    state = forms.ChoiceField(choices=Result.State.choices, widget=forms.HiddenInput)


class SeenForm(ActForm):
    """The bouts that were on the page, each with its version then: "12:3,13:1"."""

    seen = forms.CharField(widget=forms.HiddenInput)

    @classmethod
    def of(cls, bouts: Iterable[DeskBout]) -> "SeenForm":
        """The form for these bouts."""
        pairs = (f"{one.row.pk}:{one.row.version}" for one in bouts)
        return cls(initial={"seen": ",".join(pairs)})

    def clean_seen(self) -> dict[int, int]:
        found: dict[int, int] = {}
        for pair in self.cleaned_data["seen"].split(","):
            bout, _colon, version = pair.partition(":")
            if not (bout.isdecimal() and version.isdecimal()):
                raise forms.ValidationError(gettext("Load the page again and repeat."))
            found[int(bout)] = int(version)
        return found
