"""What was measured at the weigh-in of a division without fixed weights: for the desk only."""

from typing import ClassVar

from django.db import models

from seeding.entries.models.entry import Entry
from seeding.entries.models.people import User
from seeding.entries.models.tournament import Division


class Measured(models.Model):
    """Weight, age and experience of an entry, as its groups need them.

    `weight` is in the division's unit; `age` in whole years on the first day of the tournament (no
    birth date is kept); `experience` in whole years. They are shown to those who direct, and
    stand in no public page, no log and no tournament file.
    """

    entry = models.OneToOneField(Entry, on_delete=models.PROTECT, related_name="measured")
    weight = models.DecimalField(max_digits=5, decimal_places=2, null=True)
    age = models.PositiveSmallIntegerField(null=True)
    experience = models.PositiveSmallIntegerField(null=True)
    at = models.DateTimeField()
    by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    version = models.PositiveIntegerField(default=1)

    def __str__(self) -> str:
        return f"measured {self.pk}"


class GroupReason(models.Model):
    """Why a group was made that breaks a limit; for the desk only."""

    division = models.ForeignKey(Division, on_delete=models.PROTECT, related_name="group_reasons")
    group = models.CharField(max_length=40)
    reason = models.CharField(max_length=300)
    at = models.DateTimeField()
    by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering: ClassVar = ["-at", "-pk"]

    def __str__(self) -> str:
        return f"reason {self.pk}"
