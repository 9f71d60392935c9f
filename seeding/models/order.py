"""The order of a weight: what the committee put in, moved, heard and signed."""

from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import Entry, Team, Tournament, User, WeightClass


class SeedOrder(models.Model):
    """What a proposal for one weight rests on, and whether the committee has adopted it.

    `adopted_version`: the version that the adoption made; a later one says that something was
    done since. `challenges_until`: coaches' challenges are heard until then; None = no window is
    open.
    """

    weight_class = models.OneToOneField(WeightClass, on_delete=models.PROTECT, related_name="+")
    lot_seed = models.CharField(max_length=64)
    adopted_at = models.DateTimeField(null=True)
    adopted_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    adopted_version = models.PositiveIntegerField(default=0)
    challenges_until = models.DateTimeField(null=True)
    version = models.PositiveIntegerField(default=0)


class Override(models.Model):
    """The committee moves one entry to a place in the order, with a reason.

    `before`: the place from which it was moved.
    """

    order = models.ForeignKey(SeedOrder, on_delete=models.CASCADE, related_name="overrides")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="+")
    before = models.PositiveIntegerField(default=0)
    to = models.PositiveIntegerField()
    reason = models.CharField(max_length=300)
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering: ClassVar = ["pk"]


class Challenge(models.Model):
    """A coach asks that `entry` be put above `over`, who stands above him; the committee decides.

    A granted challenge names the move that carried it out.
    """

    class State(models.TextChoices):
        OPEN = "open", _("open")
        GRANTED = "granted", _("granted")
        REFUSED = "refused", _("refused")
        WITHDRAWN = "withdrawn", _("withdrawn")

    order = models.ForeignKey(SeedOrder, on_delete=models.CASCADE, related_name="challenges")
    entry = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="+")
    over = models.ForeignKey(Entry, on_delete=models.PROTECT, related_name="+")
    by = models.CharField(max_length=120)
    reason = models.CharField(max_length=300)
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.OPEN)
    answer = models.CharField(max_length=300, blank=True)
    answered_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    answered_at = models.DateTimeField(null=True)
    move = models.ForeignKey(Override, on_delete=models.SET_NULL, null=True, related_name="+")

    class Meta:
        ordering: ClassVar = ["pk"]


class OwnTeam(models.Model):
    """A member of the committee belongs to a team: he has no say over its wrestlers."""

    tournament = models.ForeignKey(Tournament, on_delete=models.PROTECT, related_name="+")
    user = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    team = models.ForeignKey(Team, on_delete=models.PROTECT, related_name="+")

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["user", "team"], name="own_team_once")
        ]


class Signature(models.Model):
    """A member of the committee has signed the minutes of a weight.

    `digest` is that of the minutes as signed: when they read otherwise now, the signature lapsed.
    """

    order = models.ForeignKey(SeedOrder, on_delete=models.CASCADE, related_name="signatures")
    user = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    name = models.CharField(max_length=120)
    digest = models.CharField(max_length=64)
    at = models.DateTimeField()

    class Meta:
        ordering: ClassVar = ["pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["order", "user", "digest"], name="signed_once")
        ]
