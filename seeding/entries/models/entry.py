"""Weight classes and the entries in them."""

from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from seeding.entries.models.people import Wrestler
from seeding.entries.models.tournament import Division, Team, Tournament


class WeightClass(models.Model):
    """One weight of a division; `position` orders light to heavy over the whole tournament.

    `locked` is set when its bracket is drawn: from then on the order of seeds stands.
    """

    tournament = models.ForeignKey(Tournament, on_delete=models.PROTECT, related_name="weights")
    division = models.ForeignKey(Division, on_delete=models.PROTECT, related_name="weights")
    key = models.CharField(max_length=40)
    label = models.CharField(max_length=40)
    position = models.PositiveIntegerField()
    places = models.PositiveIntegerField()
    locked = models.BooleanField(default=False)
    version = models.PositiveIntegerField(default=0)

    class Meta:
        ordering: ClassVar = ["position"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["tournament", "key"], name="weight_key_once"),
            models.UniqueConstraint(fields=["tournament", "position"], name="weight_position_once"),
        ]

    def __str__(self) -> str:
        return self.label


class Entry(models.Model):
    """One wrestler in one weight for one team; who stands by is not in the field.

    `weighed_as`: with the weigh-in "wrong weight" the weight that he made, for the desk only.
    """

    class Status(models.TextChoices):
        ENTERED = "entered", _("entered")
        SCRATCHED = "scratched", _("scratched")
        STANDBY = "standby", _("stands by")

    class Publish(models.TextChoices):
        FULL = "full", _("full name")
        INITIALS = "initials", _("initials")
        HIDDEN = "hidden", _("hidden")

    class WeighIn(models.TextChoices):
        NOT_YET = "not yet", _("not yet")
        MADE = "made", _("made")
        MISSED = "missed", _("missed")
        WRONG = "wrong weight", _("wrong weight")
        ABSENT = "no-show", _("no-show")

    tournament = models.ForeignKey(Tournament, on_delete=models.PROTECT, related_name="entries")
    weight_class = models.ForeignKey(WeightClass, on_delete=models.PROTECT, related_name="entries")
    team = models.ForeignKey(Team, on_delete=models.PROTECT, related_name="entries")
    wrestler = models.ForeignKey(Wrestler, on_delete=models.PROTECT, related_name="entries")
    key = models.CharField(max_length=40)
    seed = models.PositiveIntegerField(null=True, blank=True)
    scoring = models.BooleanField(default=True)
    status = models.CharField(max_length=10, choices=Status.choices, default=Status.ENTERED)
    publish = models.CharField(max_length=10, choices=Publish.choices, default=Publish.FULL)
    weigh_in = models.CharField(max_length=12, choices=WeighIn.choices, default=WeighIn.NOT_YET)
    weighed_as = models.ForeignKey(
        WeightClass, on_delete=models.SET_NULL, null=True, related_name="+"
    )
    rank = models.PositiveIntegerField(null=True, blank=True)
    qualifying_place = models.PositiveIntegerField(null=True, blank=True)
    version = models.PositiveIntegerField(default=0)

    class Meta:
        ordering: ClassVar = ["weight_class", "seed", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["tournament", "key"], name="entry_key_once"),
            models.UniqueConstraint(
                fields=["weight_class", "wrestler"], name="wrestler_once_in_a_weight"
            ),
            models.UniqueConstraint(
                fields=["weight_class", "seed"],
                condition=models.Q(status="entered"),
                name="seed_once_in_a_weight",
            ),
        ]

    def __str__(self) -> str:
        return self.key
