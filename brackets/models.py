"""Drawn brackets and their bouts: the projection of what the core works out."""

from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from brackets.core.graph import BoutKey
from seeding.entries.models import Entry, WeightClass


class Drawn(models.Model):
    """The bracket of one weight: its line-up and how the lot fell."""

    weight_class = models.OneToOneField(WeightClass, on_delete=models.PROTECT, related_name="+")
    format = models.CharField(max_length=20)
    places = models.PositiveIntegerField()
    lines = models.JSONField(
        help_text=_("Per line: entry key, null for a bye, a pair for a pigtail.")
    )
    lot_seed = models.CharField(max_length=64)
    lot_version = models.PositiveIntegerField()
    version = models.PositiveIntegerField(default=0)


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
