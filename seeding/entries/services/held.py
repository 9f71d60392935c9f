"""Files that wait between their dry run and the button that carries them out."""

from collections.abc import Mapping
from datetime import timedelta

from django.core.files.base import ContentFile

from seeding.entries.models import Tournament
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Job
from seeding.journal.services import Call

ROSTER = "roster"
KEPT = timedelta(days=1)


def hold_file(
    *,
    call: Call,
    tournament: Tournament,
    kind: str,
    name: str,
    data: bytes,
    arguments: Mapping[str, object],
    right: Right = Right.DIRECT,
) -> Job:
    """Keep a file as a job that nobody works on; nothing is added to the tournament.

    Files of this kind that were only looked at, `KEPT` ago or longer, are deleted. `right`: what
    the caller must hold.
    """
    require(call, tournament.pk, right)
    looked_at = Job.objects.filter(log_id=tournament.log_id, task=kind).exclude(source="")
    for old in looked_at.filter(created_at__lte=call.now - KEPT):
        drop_held(old)
    job = Job(
        log_id=tournament.log_id,
        task=kind,
        arguments={**arguments, "name": name},
        actor=call.actor,
        created_at=call.now,
    )
    job.source.save(name, ContentFile(data), save=False)
    job.save()
    return job


def held_file(tournament: Tournament, uid: str, kind: str) -> Job:
    """The held file of the tournament with that opaque id."""
    found = Job.objects.filter(log_id=tournament.log_id, uid=uid, task=kind).first()
    if not found:
        raise NotFound(what="file", name=uid)
    return found


def read_held(job: Job) -> bytes:
    """What is in the file."""
    with job.source.open("rb") as source:
        data: bytes = source.read()
    return data


def drop_held(job: Job) -> None:
    """Delete a file that is needed no more: dates of birth in it are not kept."""
    job.source.delete(save=True)
