"""What happened, who is out, and what it is worth."""

from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from brackets.core import rulings as core
from brackets.core.rulings import RulingKind
from brackets.models import Bout, Drawn
from results.core.outcomes import Kind, Outcome
from results.core.rulings import read_ruling, write_ruling
from seeding.entries.models import Division, Entry, Team, Tournament, User, WeightClass


class Ended(models.Model):
    """How a bout ended: `score` winner first, `time` in seconds of wrestling at its end."""

    kind = models.CharField(max_length=30, choices=[(k.value, k.value) for k in Kind])
    winner_side = models.PositiveSmallIntegerField(null=True)
    score = models.JSONField(null=True)
    time = models.PositiveIntegerField(null=True)
    overtime = models.CharField(max_length=8, blank=True)
    decided_by = models.CharField(max_length=20, blank=True)
    near_fall = models.BooleanField(default=True)
    misconduct = models.BooleanField(default=False)
    occurred_at = models.DateTimeField()
    received_at = models.DateTimeField()
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        abstract = True

    @property
    def outcome(self) -> Outcome:
        """The core value of this row."""
        side = self.winner_side
        return Outcome(
            kind=Kind(self.kind),
            winner=None if side is None else (1 if side else 0),
            score=(self.score[0], self.score[1]) if self.score else None,
            time=self.time,
            overtime=self.overtime or None,
            decided_by=self.decided_by or None,
            near_fall=self.near_fall,
            misconduct=self.misconduct,
        )


def ended(outcome: Outcome) -> dict[str, object]:
    """The columns of an outcome; when and by whom is for the caller to say."""
    return {
        "kind": outcome.kind,
        "winner_side": outcome.winner,
        "score": list(outcome.score) if outcome.score else None,
        "time": outcome.time,
        "overtime": outcome.overtime or "",
        "decided_by": outcome.decided_by or "",
        "near_fall": outcome.near_fall,
        "misconduct": outcome.misconduct,
    }


class Result(Ended):
    """The result of one bout."""

    class State(models.TextChoices):
        ENTERED = "entered", _("entered")
        CONFIRMED = "confirmed", _("confirmed")
        OFFICIAL = "official", _("official")

    bout = models.OneToOneField(Bout, on_delete=models.PROTECT, related_name="+")
    state = models.CharField(max_length=10, choices=State.choices, default=State.ENTERED)

    @classmethod
    def of(cls, bout: Bout, outcome: Outcome) -> "Result":
        """An unsaved row of the core's value; when and by whom is for the caller to say."""
        return cls(bout=bout, **ended(outcome))


class VoidBout(Ended):
    """A bout that was wrestled and counts for nothing, on record as it was: for rest, for the
    day's maximum, and so that its number is given to no other.

    `bout` is where it was wrestled in the bracket; `number`, `mat` and the two wrestlers are those
    of then.
    """

    bout = models.ForeignKey(Bout, on_delete=models.PROTECT, related_name="+")
    number = models.PositiveIntegerField(null=True)
    mat = models.CharField(max_length=20, blank=True)
    top = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="+")
    bottom = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="+")
    reason = models.CharField(max_length=300)
    voided_at = models.DateTimeField()
    voided_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering: ClassVar = ["pk"]


class Ruling(models.Model):
    """What was decided against the format; `given` as in a tournament file (`core.rulings`).

    Of two rulings on one seat, bout or wrestler the later counts.
    """

    class Kind(models.TextChoices):
        SIDES = RulingKind.SIDES.value, _("sides of a bout")
        RESULT = RulingKind.RESULT.value, _("result of a bout")
        ADVANCEMENT = RulingKind.ADVANCEMENT.value, _("who goes on")
        PLACE = RulingKind.PLACE.value, _("place")

    drawn = models.ForeignKey(Drawn, on_delete=models.PROTECT, related_name="+")
    kind = models.CharField(max_length=12, choices=Kind.choices)
    given = models.JSONField()
    reason = models.CharField(max_length=300)
    at = models.DateTimeField()
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering: ClassVar = ["pk"]

    @classmethod
    def of(cls, drawn: Drawn, ruling: core.Ruling) -> "Ruling":
        """An unsaved row of the core's value; why, when and by whom is for the caller to say."""
        return cls(drawn=drawn, kind=ruling.kind.value, given=write_ruling(ruling))

    @property
    def value(self) -> core.Ruling:
        """The core value of this row."""
        return read_ruling(RulingKind(self.kind), self.given)


class Withdrawal(models.Model):
    """An entry that wrestles no more: withdrawn, hurt, thrown out for misconduct; or one that
    did not report, or not at his weight, whose line is a forfeit.
    """

    class Kind(models.TextChoices):
        MEDICAL = "medical", _("medical")
        INJURY = "injury", _("injury")
        MISCONDUCT = "misconduct", _("flagrant misconduct")
        ABSENT = "absent", _("did not report")

    entry = models.OneToOneField(Entry, on_delete=models.PROTECT, related_name="+")
    kind = models.CharField(max_length=10, choices=Kind.choices)
    behind = models.CharField(
        max_length=16, blank=True, help_text=_("His last bout or bye before he left, such as R1-9.")
    )
    reason = models.CharField(max_length=300, blank=True)
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()


class CutOff(models.Model):
    """From when on an entry that does not report leaves a forfeit on his line, not a bye.

    `division` None: of every division that has none of its own.
    """

    tournament = models.ForeignKey(Tournament, on_delete=models.PROTECT, related_name="+")
    division = models.OneToOneField(Division, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["tournament"],
                condition=models.Q(division=None),
                name="one_cut_off_of_a_tournament",
            )
        ]


class LedgerPart(models.Model):
    """One explained part of a team's points: which bout or place gave what."""

    weight_class = models.ForeignKey(WeightClass, on_delete=models.PROTECT, related_name="+")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="+")
    item = models.CharField(max_length=12)
    points = models.DecimalField(max_digits=7, decimal_places=3)
    bout = models.ForeignKey(Bout, on_delete=models.PROTECT, null=True, related_name="+")
    place = models.PositiveIntegerField(null=True)
    reason = models.CharField(max_length=40)

    class Meta:
        ordering: ClassVar = ["pk"]


class Adjustment(models.Model):
    """Points given to or taken from a team by hand, signed, with a reason."""

    division = models.ForeignKey(Division, on_delete=models.PROTECT, related_name="+")
    team = models.ForeignKey(Team, on_delete=models.PROTECT, related_name="+")
    points = models.DecimalField(max_digits=7, decimal_places=3)
    reason = models.CharField(max_length=300)
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering: ClassVar = ["pk"]
