"""Drawn brackets and their bouts: the projection of what the core works out."""

from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from brackets.core import late
from brackets.core.graph import BoutKey
from seeding.entries.models import Entry, Tournament, User, WeightClass


class Commitment(models.Model):
    """The tournament's draws are committed to: `digest` is public, `secret` until it is revealed
    is told to nobody. Empty where the commitment came with a file and its secret did not.
    """

    tournament = models.OneToOneField(Tournament, on_delete=models.PROTECT, related_name="+")
    digest = models.CharField(max_length=64)
    secret = models.CharField(max_length=64, blank=True)
    at = models.DateTimeField()
    revealed_at = models.DateTimeField(null=True)

    @property
    def told(self) -> str:
        """The secret, as far as it is revealed."""
        return self.secret if self.revealed_at else ""


class TakenBack(models.Model):
    """A committed draw that was taken back; `number` counts the draws of its weight from 1."""

    weight_class = models.ForeignKey(WeightClass, on_delete=models.PROTECT, related_name="+")
    number = models.PositiveIntegerField()
    reason = models.CharField(max_length=300)
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering: ClassVar = ["weight_class", "number"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["weight_class", "number"], name="taken_back_once")
        ]


class Drawn(models.Model):
    """The bracket of one weight: its line-up and how the lot fell.

    `draw_version`: of the way of drawing; 0 where the lines came with a file and nobody drew them.
    `basis`, `drawn_lines`: what it was drawn from, and the lines, as they were at the draw.
    `parting`: how well the draw kept apart whom it should. `committed`: the lot's seed is the one
    that the tournament's commitment gives its `number`-th draw of the weight. `anew_because`: why
    the draw before it was taken back, where both were one step.
    """

    weight_class = models.OneToOneField(WeightClass, on_delete=models.PROTECT, related_name="+")
    format = models.CharField(max_length=20)
    places = models.PositiveIntegerField()
    lines = models.JSONField(
        help_text=_("Per line: entry key, null for a bye, a pair for a pigtail.")
    )
    lot_seed = models.CharField(max_length=64)
    lot_version = models.PositiveIntegerField()
    draw_version = models.PositiveIntegerField(default=0)
    basis = models.JSONField(default=dict)
    drawn_lines = models.JSONField(default=list)
    parting = models.JSONField(default=dict)
    committed = models.BooleanField(default=False)
    number = models.PositiveIntegerField(default=1)
    drawn_at = models.DateTimeField(null=True)
    anew_because = models.CharField(max_length=300, blank=True)
    version = models.PositiveIntegerField(default=0)


class LineChange(models.Model):
    """A change of the lines after the draw (`core.late`), in the order made.

    With the draw that is taken back its changes go, as the lines do; the log keeps that they were.
    """

    drawn = models.ForeignKey(Drawn, on_delete=models.CASCADE, related_name="line_changes")
    given = models.JSONField()
    reason = models.CharField(max_length=300)
    at = models.DateTimeField()
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering: ClassVar = ["pk"]

    @property
    def value(self) -> late.LineChange:
        """The core value of this row."""
        return late.LineChange.read(self.given)


class Bout(models.Model):
    """One bout. Its identity is weight, round and position; its number is an attribute."""

    class Status(models.TextChoices):
        WAITING = "waiting", _("waiting")
        READY = "ready", _("ready")
        DECIDED = "decided", _("decided")
        BYE = "bye", _("bye")
        VACANT = "vacant", _("vacant")
        SPARED = "spared", _("not needed")

    drawn = models.ForeignKey(Drawn, on_delete=models.CASCADE, related_name="bouts")
    round = models.CharField(max_length=8)
    position = models.PositiveIntegerField()
    column = models.PositiveIntegerField()
    number = models.PositiveIntegerField(null=True)
    mat = models.CharField(max_length=20, blank=True)
    status = models.CharField(max_length=8, choices=Status.choices)
    top = models.ForeignKey(Entry, on_delete=models.PROTECT, null=True, related_name="+")
    bottom = models.ForeignKey(Entry, on_delete=models.PROTECT, null=True, related_name="+")
    winner = models.ForeignKey(Entry, on_delete=models.PROTECT, null=True, related_name="+")
    implied = models.BooleanField(default=False)
    version = models.PositiveIntegerField(default=0)

    class Meta:
        ordering: ClassVar = ["number", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["drawn", "round", "position"], name="bout_once")
        ]

    @property
    def key(self) -> BoutKey:
        """The bout's identity inside its weight."""
        return BoutKey(self.round, self.position)

    def __str__(self) -> str:
        return f"{self.key}"


class Placing(models.Model):
    """A place that is certain. A place can be shared, so it is not unique."""

    drawn = models.ForeignKey(Drawn, on_delete=models.CASCADE, related_name="placings")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="+")
    place = models.PositiveIntegerField()

    class Meta:
        ordering: ClassVar = ["place", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["drawn", "entry"], name="one_place_per_entry")
        ]
