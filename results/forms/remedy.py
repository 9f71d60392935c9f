"""What is done about those who do not wrestle where they were entered."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

from django import forms
from django.utils.translation import gettext_lazy as _

from results.core.late import Newcomer, Phase, Remedy
from results.models import Withdrawal
from results.queries.weigh_in import CONCERNED, Case, Concerned
from seeding.journal.core.errors import Invalid

T = TypeVar("T")

REMEDIES = {
    Remedy.SCRATCH: _("scratch him"),
    Remedy.OTHER_WEIGHT: _("enter him at another weight"),
    Remedy.SUBSTITUTE: _("somebody of his team instead, without the seed"),
    Remedy.ALTERNATE: _("the next alternate instead"),
    Remedy.BYE: _("a bye: his opponent goes on without a bout"),
    Remedy.FORFEIT: _("a forfeit: his opponent wins"),
    Remedy.REDRAW: _("out, and the weight is drawn anew"),
    Remedy.WITHDRAW: _("withdraw him"),
}
BELONGS = {
    "weight": Remedy.OTHER_WEIGHT,
    "given": Remedy.SUBSTITUTE,
    "family": Remedy.SUBSTITUTE,
    "kind": Remedy.WITHDRAW,
}
"""Which remedy a field belongs to; the page shows it beside that one alone."""
WHY_DURING = [
    (Withdrawal.Kind.ABSENT.value, _("did not report, or not at his weight")),
    *Withdrawal.Kind.choices[:3],
]


@dataclass(frozen=True, slots=True)
class RemedyField:
    """A field with the remedy that it belongs to, "" where to all, and whether that needs it."""

    remedy: str
    bound: forms.BoundField
    needed: bool


@dataclass(frozen=True, slots=True)
class RemedyRow:
    """Somebody whom the weigh-in concerns, with his fields."""

    about: Concerned
    fields: tuple[RemedyField, ...]


class RemedyForm(forms.Form):
    """What is done about each: shown first, done afterwards."""

    def __init__(self, data: Any, *, people: Sequence[Concerned]) -> None:
        self.people = tuple(people)
        super().__init__(data, auto_id="r_%s")
        for one in self.people:
            self._add(one)

    def _add(self, one: Concerned) -> None:
        key = one.entry.key
        choices = [(remedy.value, REMEDIES[remedy]) for remedy in one.offered]
        self.fields[f"{key}.remedy"] = forms.ChoiceField(
            label=_("What is done"), choices=choices, initial=one.usual.value
        )
        if Remedy.OTHER_WEIGHT in one.offered:
            made = one.entry.weighed_as
            self.fields[f"{key}.weight"] = forms.ChoiceField(
                label=_("At the weight"),
                choices=[("", ""), *((row.key, row.label) for row in one.weights)],
                initial=made.key if made else "",
                required=False,
            )
        if Remedy.SUBSTITUTE in one.offered:
            for part, label in (("given", _("Given name")), ("family", _("Family name"))):
                self.fields[f"{key}.{part}"] = forms.CharField(
                    label=_("Who comes instead: %(what)s") % {"what": label},
                    max_length=80,
                    required=False,
                )
        if Remedy.WITHDRAW in one.offered:
            self.fields[f"{key}.kind"] = _why(one)

    @property
    def rows(self) -> Iterator[RemedyRow]:
        """The fields of everybody."""
        for one in self.people:
            own = (name for name in self.fields if name.startswith(f"{one.entry.key}."))
            yield RemedyRow(one, tuple(self._field(name) for name in own))

    def _field(self, name: str) -> RemedyField:
        part = name.rpartition(".")[2]
        return RemedyField(BELONGS.get(part, ""), self[name], needed=part != "given")

    def beside(self, do: Callable[[], T]) -> T:
        """Do it; what is refused of one person stands at his field, and only the rest is raised."""
        try:
            return do()
        except Invalid as refusal:
            left = [problem for problem in refusal.problems if problem.where not in self.fields]
            for problem in refusal.problems:
                known = self.errors.get(problem.where, ())
                if problem not in left and problem.message not in known:
                    self.add_error(problem.where, problem.message)
            raise Invalid(left) from refusal

    @property
    def cases(self) -> list[Case]:
        """What was chosen."""
        return [self._case(one) for one in self.people]

    def _case(self, one: Concerned) -> Case:
        said = {
            part: self.cleaned_data.get(f"{one.entry.key}.{part}", "")
            for part in ("remedy", "weight", "given", "family", "kind")
        }
        return Case(
            entry=one.entry,
            remedy=Remedy(said["remedy"]),
            weight=next((row for row in one.weights if row.key == said["weight"]), None),
            person=Newcomer(said["given"], said["family"]) if said["family"] else None,
            kind=said["kind"] or Withdrawal.Kind.MEDICAL.value,
        )


def _why(one: Concerned) -> forms.ChoiceField:
    """Why he is withdrawn: during the event it may be that he was not there at his weight."""
    field = forms.ChoiceField(
        label=_("Why he is withdrawn"),
        choices=Withdrawal.Kind.choices[:3],
        required=False,
    )
    if one.phase is Phase.DURING:
        field.choices = WHY_DURING
        missed = one.entry.weigh_in in CONCERNED
        field.initial = (Withdrawal.Kind.ABSENT if missed else Withdrawal.Kind.MEDICAL).value
    return field
