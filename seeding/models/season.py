"""The season: bouts of before, those that wait to be kept, and judgements on doubtful things."""

from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from seeding.core.repeats import TOLD, identity
from seeding.core.season import PriorBout as Known
from seeding.entries.models import Organisation, Tournament, User, Wrestler
from seeding.journal.models import Job


class Reported(models.Model):
    """What a report says of a bout besides who won; each empty where the report does not say.

    `score` is points, winner first; `time` that of a fall or technical fall ("2:28"); `level` the
    line-up in which they wrestled; `winner_division`, `loser_division` those of their teams.
    """

    class Level(models.TextChoices):
        UNKNOWN = "", _("not said")
        VARSITY = "varsity", _("varsity")
        JUNIOR = "junior varsity", _("junior varsity")

    identity = models.CharField(max_length=64)
    date = models.DateField()
    weight = models.CharField(max_length=40)
    kind = models.CharField(max_length=30)
    score = models.JSONField(null=True)
    time = models.CharField(max_length=8, blank=True)
    event = models.CharField(max_length=120, blank=True)
    level = models.CharField(max_length=20, blank=True, choices=Level.choices)
    winner_division = models.CharField(max_length=40, blank=True)
    loser_division = models.CharField(max_length=40, blank=True)

    class Meta:
        abstract = True


class PriorBout(Reported):
    """One bout of the season, owned by the organisation.

    A bout is the same bout when date, both wrestlers, weight and event agree: `identity` is the
    digest of those, whoever won. `given_by`, `given_as`: the organisation's own tournament and the
    bout of it that gave the result ("125 R1-9"). A struck bout stays known, so that the same file
    does not bring it again, and is no evidence.
    """

    organisation = models.ForeignKey(Organisation, on_delete=models.PROTECT, related_name="+")
    winner = models.ForeignKey(Wrestler, on_delete=models.PROTECT, related_name="+")
    loser = models.ForeignKey(Wrestler, on_delete=models.PROTECT, related_name="+")
    given_by = models.ForeignKey(
        Tournament, on_delete=models.PROTECT, null=True, related_name="+", db_index=False
    )
    given_as = models.CharField(max_length=60, blank=True, default="")
    struck_at = models.DateTimeField(null=True)
    struck_by = models.ForeignKey(
        User, on_delete=models.PROTECT, null=True, related_name="+", db_index=False
    )
    struck_reason = models.CharField(max_length=300, blank=True, default="")

    class Meta:
        ordering: ClassVar = ["date", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["organisation", "identity"], name="prior_bout_once"),
            models.UniqueConstraint(
                fields=["given_by", "given_as"],
                condition=models.Q(given_by__isnull=False),
                name="prior_bout_given_once",
            ),
        ]
        indexes: ClassVar = [
            models.Index(fields=["winner"]),
            models.Index(fields=["loser"]),
            models.Index(fields=["organisation", "date"], name="prior_bout_day"),
        ]

    @property
    def value(self) -> Known:
        """The core value of this row."""
        return Known(
            date=self.date,
            weight=self.weight,
            winner=self.winner.uid,
            loser=self.loser.uid,
            kind=self.kind,
            score="-".join(str(points) for points in self.score or ()),
            event=self.event,
            time=self.time,
            level=self.level,
            winner_division=self.winner_division,
            loser_division=self.loser_division,
        )

    @property
    def how(self) -> str:
        """How it was won: "technical fall 19-4 4:25"."""
        points = "-".join(str(points) for points in self.score or ())
        return " ".join(filter(None, (self.kind, points, self.time)))

    def tell(self, bout: Known) -> None:
        """Take over what a report of this bout tells besides who met when, and where."""
        for part in ("kind", *TOLD):
            setattr(self, part, getattr(bout, part))
        self.score = [int(points) for points in bout.score.split("-")] if bout.score else None
        self.identity = identity(bout)


class StagedBout(Reported):
    """A bout of a season file that waits for its commit; wrestlers by opaque id.

    The ids of wrestlers who are new stand in the job's report until then. `says`: whether the bout
    is new, adds to a known one what was not told of it, or contradicts it.
    """

    class Says(models.TextChoices):
        NEW = "new", _("new")
        MORE = "more", _("adds to a known bout")
        OTHER = "other", _("contradicts a known bout")

    says = models.CharField(max_length=5, choices=Says.choices, default=Says.NEW)
    job = models.ForeignKey(Job, on_delete=models.PROTECT, related_name="+")
    winner = models.CharField(max_length=40)
    loser = models.CharField(max_length=40)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["job", "identity"], name="staged_bout_once")
        ]


class NotSame(models.Model):
    """Two wrestlers of an organisation whose names are alike, judged to be two people."""

    organisation = models.ForeignKey(Organisation, on_delete=models.PROTECT, related_name="+")
    one = models.ForeignKey(Wrestler, on_delete=models.PROTECT, related_name="+")
    other = models.ForeignKey(Wrestler, on_delete=models.PROTECT, related_name="+")
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["one", "other"], name="judged_once")
        ]


class OtherName(models.Model):
    """Another name and team under which files speak of a wrestler: learned when two are merged."""

    organisation = models.ForeignKey(Organisation, on_delete=models.PROTECT, related_name="+")
    wrestler = models.ForeignKey(Wrestler, on_delete=models.PROTECT, related_name="+")
    given = models.CharField(max_length=80, blank=True)
    family = models.CharField(max_length=80)
    home = models.CharField(max_length=120, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["organisation", "given", "family", "home"], name="other_name_once"
            )
        ]


class BothStand(models.Model):
    """Two bouts of the same two wrestlers on one day, judged not to be one bout told twice."""

    one = models.ForeignKey(PriorBout, on_delete=models.CASCADE, related_name="+")
    other = models.ForeignKey(PriorBout, on_delete=models.CASCADE, related_name="+")
    author = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    at = models.DateTimeField()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["one", "other"], name="both_stand_once")
        ]
