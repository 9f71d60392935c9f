"""What happened, who is out, and what it is worth."""

from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from brackets.models import Bout
from results.core.outcomes import Kind, Outcome
from seeding.entries.models import Division, Entry, Team, User, WeightClass


class Result(models.Model):
    """The result of one bout: `score` winner first, `time` in seconds of wrestling at its end."""

    class State(models.TextChoices):
        ENTERED = "entered", _("entered")
        CONFIRMED = "confirmed", _("confirmed")
        OFFICIAL = "official", _("official")

    bout = models.OneToOneField(Bout, on_delete=models.PROTECT, related_name="+")
    kind = models.CharField(max_length=30, choices=[(k.value, k.value) for k in Kind])
    winner_side = models.PositiveSmallIntegerField(null=True)
    score = models.JSONField(null=True)
    time = models.PositiveIntegerField(null=True)
    overtime = models.CharField(max_length=8, blank=True)
    decided_by = models.CharField(max_length=20, blank=True)
    near_fall = models.BooleanField(default=True)
    misconduct = models.BooleanField(default=False)
    state = models.CharField(max_length=10, choices=State.choices, default=State.ENTERED)
    occurred_at = models.DateTimeField()
    received_at = models.DateTimeField()
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")

    @classmethod
    def of(cls, bout: Bout, outcome: Outcome) -> "Result":
        """An unsaved row of the core's value; when and by whom is for the caller to say."""
        return cls(
            bout=bout,
            kind=outcome.kind,
            winner_side=outcome.winner,
            score=list(outcome.score) if outcome.score else None,
            time=outcome.time,
            overtime=outcome.overtime or "",
            decided_by=outcome.decided_by or "",
            near_fall=outcome.near_fall,
            misconduct=outcome.misconduct,
        )

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


class Withdrawal(models.Model):
    """An entry that wrestles no more: withdrawn, hurt, or thrown out for misconduct."""

    class Kind(models.TextChoices):
        MEDICAL = "medical", _("medical")
        INJURY = "injury", _("injury")
        MISCONDUCT = "misconduct", _("flagrant misconduct")

    entry = models.OneToOneField(Entry, on_delete=models.PROTECT, related_name="+")
    kind = models.CharField(max_length=10, choices=Kind.choices)
    behind = models.CharField(
        max_length=16, blank=True, help_text=_("His last bout or bye before he left, such as R1-9.")
    )
    reason = models.CharField(max_length=300, blank=True)
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()


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
