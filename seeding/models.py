"""The season's bouts and the committee's moves."""

from typing import ClassVar

from django.db import models

from seeding.entries.models import Entry, Organisation, User, WeightClass, Wrestler
from seeding.journal.models import Job


class PriorBout(models.Model):
    """One bout of the season, owned by the organisation.

    A bout is the same bout when date, both wrestlers, weight and event agree: `identity` is the
    digest of those, whoever won.
    """

    organisation = models.ForeignKey(Organisation, on_delete=models.PROTECT, related_name="+")
    identity = models.CharField(max_length=64)
    date = models.DateField()
    weight = models.CharField(max_length=40)
    winner = models.ForeignKey(Wrestler, on_delete=models.PROTECT, related_name="+")
    loser = models.ForeignKey(Wrestler, on_delete=models.PROTECT, related_name="+")
    kind = models.CharField(max_length=30)
    score = models.JSONField(null=True)
    event = models.CharField(max_length=120, blank=True)

    class Meta:
        ordering: ClassVar = ["date", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["organisation", "identity"], name="prior_bout_once")
        ]
        indexes: ClassVar = [models.Index(fields=["winner"]), models.Index(fields=["loser"])]


class SeedOrder(models.Model):
    """What a proposal for one weight rests on, and whether the committee has adopted it."""

    weight_class = models.OneToOneField(WeightClass, on_delete=models.PROTECT, related_name="+")
    lot_seed = models.CharField(max_length=64)
    adopted_at = models.DateTimeField(null=True)
    adopted_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    version = models.PositiveIntegerField(default=0)


class Override(models.Model):
    """The committee moves one entry to a place in the order, with a reason."""

    order = models.ForeignKey(SeedOrder, on_delete=models.CASCADE, related_name="overrides")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="+")
    to = models.PositiveIntegerField()
    reason = models.CharField(max_length=300)
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering: ClassVar = ["pk"]


class StagedBout(models.Model):
    """A bout of a season file that waits for its commit; wrestlers by opaque id.

    The ids of wrestlers who are new stand in the job's report until then.
    """

    job = models.ForeignKey(Job, on_delete=models.PROTECT, related_name="+")
    identity = models.CharField(max_length=64)
    date = models.DateField()
    weight = models.CharField(max_length=40)
    winner = models.CharField(max_length=40)
    loser = models.CharField(max_length=40)
    kind = models.CharField(max_length=30)
    score = models.JSONField(null=True)
    event = models.CharField(max_length=120, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["job", "identity"], name="staged_bout_once")
        ]
