"""How entries came to the next level: by place at a region's event, by wild card, as alternates."""

from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import Entry, Tournament


class QualifyingPlan(models.Model):
    """What a tournament takes from its regions: places of each, wild cards, ordered alternates.

    All three are per weight. `alternates_until`: alternates step in until then; None: until the
    weight is drawn.
    """

    tournament = models.OneToOneField(Tournament, on_delete=models.PROTECT, related_name="+")
    places = models.PositiveIntegerField()
    wild_cards = models.PositiveIntegerField(default=0)
    alternates = models.PositiveIntegerField(default=0)
    alternates_until = models.DateTimeField(null=True)
    version = models.PositiveIntegerField(default=0)


class Region(models.Model):
    """One of the events that a tournament takes its field from; `letter` names it in line plans.

    `source`: the organisation's tournament that was this event, where it was run here.
    """

    tournament = models.ForeignKey(Tournament, on_delete=models.PROTECT, related_name="+")
    letter = models.CharField(max_length=2)
    name = models.CharField(max_length=120)
    source = models.ForeignKey(Tournament, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        ordering: ClassVar = ["letter"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["tournament", "letter"], name="region_letter_once")
        ]


class Berth(models.Model):
    """How an entry is in the field, or stands by for it.

    A candidate placed at his region's event and did not advance. `order`: of a wild card or an
    alternate, from 1. `stepped_in_at`: when an alternate came into the field, for the scratched
    entry `stepped_in_for`, whose line is his.
    """

    class How(models.TextChoices):
        PLACE = "place", _("by place")
        WILD_CARD = "wild card", _("wild card")
        ALTERNATE = "alternate", _("alternate")
        CANDIDATE = "candidate", _("candidate")

    entry = models.OneToOneField(Entry, on_delete=models.PROTECT, related_name="+")
    how = models.CharField(max_length=10, choices=How.choices)
    region = models.ForeignKey(Region, on_delete=models.PROTECT, null=True, related_name="+")
    place = models.PositiveIntegerField(null=True)
    order = models.PositiveIntegerField(null=True)
    stepped_in_at = models.DateTimeField(null=True)
    stepped_in_for = models.OneToOneField(
        Entry, on_delete=models.PROTECT, null=True, related_name="+"
    )
