"""What no bout tells and people put in: rankings, places at earlier events, ballots."""

from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import Entry, Team, WeightClass


class Noted(models.Model):
    """One entry's rank in a ranking, or place at an earlier event (0: took part, did not place).

    `weight` is the weight at which the place was won, empty for the entry's own.
    """

    class Kind(models.TextChoices):
        RANKING = "ranking", _("ranking")
        PLACES = "places", _("places")

    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="+")
    kind = models.CharField(max_length=10, choices=Kind.choices)
    table = models.CharField(max_length=60)
    value = models.PositiveIntegerField()
    weight = models.CharField(max_length=40, blank=True)

    class Meta:
        ordering: ClassVar = ["table", "value", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["entry", "kind", "table", "weight"], name="noted_once")
        ]


class Ballot(models.Model):
    """One voter's ranks of a weight; wrestlers of `team`, his own, are left out of it."""

    weight_class = models.ForeignKey(WeightClass, on_delete=models.PROTECT, related_name="+")
    voter = models.CharField(max_length=120)
    team = models.ForeignKey(Team, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering: ClassVar = ["voter"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["weight_class", "voter"], name="one_ballot_a_voter")
        ]


class BallotRank(models.Model):
    """The rank that a ballot gives one entry; 1 is best."""

    ballot = models.ForeignKey(Ballot, on_delete=models.CASCADE, related_name="ranks")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="+")
    rank = models.PositiveIntegerField()

    class Meta:
        ordering: ClassVar = ["rank", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["ballot", "entry"], name="ranked_once_in_a_ballot")
        ]
