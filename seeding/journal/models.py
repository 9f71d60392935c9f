"""The act log, the outbox and the long jobs. Nothing here knows of wrestling."""

import uuid
from datetime import UTC
from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from seeding.journal.core.chain import GENESIS


class Log(models.Model):
    """One gapless sequence of acts; its row is locked last in every writing transaction."""

    key = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    seq = models.BigIntegerField(default=0)
    head = models.CharField(max_length=64, default=GENESIS)


class Act(models.Model):
    """One write: who did what to which ids, and the digest that chains it to the act before."""

    log = models.ForeignKey(Log, on_delete=models.PROTECT, related_name="acts")
    seq = models.BigIntegerField()
    verb = models.CharField(max_length=60)
    subject = models.JSONField(default=dict)
    actor = models.BigIntegerField(help_text=_("Id of the user; 0 is the operator at the machine."))
    at = models.DateTimeField()
    key = models.CharField(max_length=80, blank=True)
    fingerprint = models.CharField(max_length=64, blank=True)
    previous = models.CharField(max_length=64)
    digest = models.CharField(max_length=64)

    class Meta:
        ordering: ClassVar = ["log", "seq"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["log", "seq"], name="act_seq_once"),
            models.UniqueConstraint(
                fields=["actor", "key"], condition=~models.Q(key=""), name="act_key_once"
            ),
        ]

    def fields(self) -> dict[str, object]:
        """What the digest covers."""
        return {
            "log": str(self.log.key),
            "seq": self.seq,
            "verb": self.verb,
            "subject": self.subject,
            "actor": self.actor,
            "at": self.at.astimezone(UTC).isoformat(),
            "key": self.key,
        }


class Outbox(models.Model):
    """A task to be sent once its transaction is kept; the broker only carries it."""

    task = models.CharField(max_length=120)
    payload = models.JSONField(default=dict)
    created_at = models.DateTimeField()
    sent_at = models.DateTimeField(null=True)


class Job(models.Model):
    """A long piece of work: its input, how far it is, and what it found."""

    class State(models.TextChoices):
        QUEUED = "queued", _("queued")
        RUNNING = "running", _("running")
        DONE = "done", _("done")
        FAILED = "failed", _("failed")

    uid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    log = models.ForeignKey(Log, on_delete=models.PROTECT, related_name="jobs")
    task = models.CharField(max_length=120)
    arguments = models.JSONField(default=dict)
    source = models.FileField(upload_to="jobs/in/", blank=True)
    product = models.FileField(upload_to="jobs/out/", blank=True)
    state = models.CharField(max_length=10, choices=State.choices, default=State.QUEUED)
    done = models.PositiveIntegerField(default=0)
    total = models.PositiveIntegerField(default=0)
    report = models.JSONField(default=dict)
    actor = models.BigIntegerField()
    created_at = models.DateTimeField()
    finished_at = models.DateTimeField(null=True)
