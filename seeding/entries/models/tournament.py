"""The tournament, its divisions and its teams."""

from typing import ClassVar

from django.db import models

from seeding.entries.models.people import Organisation
from seeding.journal.models import Log


class Tournament(models.Model):
    """One event. The five `shows_*` gates decide what the public sees of it.

    `last_number`: the highest bout number ever given, so that none is used again.
    """

    organisation = models.ForeignKey(
        Organisation, on_delete=models.PROTECT, related_name="tournaments"
    )
    log = models.OneToOneField(Log, on_delete=models.PROTECT, related_name="+")
    slug = models.SlugField(unique=True)
    name = models.CharField(max_length=120)
    starts_on = models.DateField()
    time_zone = models.CharField(max_length=64, default="UTC")
    mats = models.JSONField(default=list)
    shows_entries = models.BooleanField(default=False)
    shows_seeds = models.BooleanField(default=False)
    shows_draw = models.BooleanField(default=False)
    shows_results = models.BooleanField(default=False)
    shows_team_points = models.BooleanField(default=False)
    last_number = models.PositiveIntegerField(default=0)
    version = models.PositiveIntegerField(default=0)

    def __str__(self) -> str:
        return self.name


class Division(models.Model):
    """Weights that share one rule book, kept as the snapshot taken when the division was made."""

    tournament = models.ForeignKey(Tournament, on_delete=models.PROTECT, related_name="divisions")
    key = models.CharField(max_length=40)
    name = models.CharField(max_length=80)
    rulebook = models.CharField(max_length=40)
    settings = models.JSONField(default=dict)
    snapshot = models.JSONField()

    class Meta:
        ordering: ClassVar = ["pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["tournament", "key"], name="division_key_once")
        ]

    def __str__(self) -> str:
        return self.name


class Team(models.Model):
    """A team; `members` are the schools of a co-operative one. A merged team names its heir."""

    tournament = models.ForeignKey(Tournament, on_delete=models.PROTECT, related_name="teams")
    key = models.CharField(max_length=40)
    name = models.CharField(max_length=120)
    short = models.CharField(max_length=12)
    members = models.JSONField(default=list)
    merged_into = models.ForeignKey(
        "self", on_delete=models.PROTECT, null=True, related_name="absorbed"
    )

    class Meta:
        ordering: ClassVar = ["name"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["tournament", "key"], name="team_key_once"),
            models.UniqueConstraint(fields=["tournament", "name"], name="team_name_once"),
        ]

    def __str__(self) -> str:
        return self.name
