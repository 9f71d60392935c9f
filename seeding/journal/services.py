"""Writing acts: every service of every app is wrapped by `act`."""

import functools
import hashlib
import logging
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.core.files.base import ContentFile
from django.db import IntegrityError, transaction
from django.db.models import F, Model

from seeding.journal.core.chain import digest
from seeding.journal.core.errors import Clash, KeyReused, Refusal, Stale
from seeding.journal.models import Act, Job, Log
from seeding.journal.publish import flush, publish

OPERATOR = 0
logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Call:
    """Who asks, when, and what makes a repetition recognisable.

    `key` is the idempotency key (empty: none), `expected` the version of the subject that the
    person had before their eyes, `seen` the newest `seq` of the log (None: not checked).
    `OPERATOR` acts from the machine itself.
    """

    actor: int
    now: datetime
    key: str = ""
    expected: int | None = None
    seen: int | None = None

    @property
    def author(self) -> int | None:
        """The user's id, None for the operator at the machine."""
        return None if self.actor == OPERATOR else self.actor


@dataclass(frozen=True, slots=True)
class Deed:
    """What a service did, in ids: goes into the log. Names never do."""

    log: int
    verb: str
    subject: Mapping[str, object] = field(default_factory=dict)


def act(service: Callable[..., Deed]) -> Callable[..., Act]:
    """Make `service` one act: one transaction, one row in the log, and once only per key.

    The service takes keyword arguments alone, `call` among them. A call that comes again with the
    same key and the same arguments gets the first act back and changes nothing; the same key with
    other arguments is refused (`KeyReused`).
    """

    @functools.wraps(service)
    def run(*, call: Call, **arguments: Any) -> Act:
        mark = _fingerprint(service.__qualname__, arguments) if call.key else ""
        try:
            with transaction.atomic():
                if earlier := _earlier(call, mark):
                    return earlier
                return _append(call, mark, service(call=call, **arguments))
        except Refusal:
            if earlier := _earlier(call, mark):  # its twin was faster
                return earlier
            raise
        except IntegrityError as error:
            if earlier := _earlier(call, mark):
                return earlier
            logger.exception("An act clashed with what the database holds.")
            raise Clash from error

    return run


def _fingerprint(name: str, arguments: Mapping[str, object]) -> str:
    text = repr((name, _plain(arguments)))
    return hashlib.sha256(text.encode()).hexdigest()


def _plain(value: object) -> object:
    """The value with rows named by their ids: what a row says changes with the act itself."""
    if isinstance(value, Model):
        return type(value).__name__, value.pk
    if isinstance(value, Mapping):
        return sorted((str(key), _plain(item)) for key, item in value.items())
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    return repr(value)


def _earlier(call: Call, mark: str) -> Act | None:
    if not call.key:
        return None
    found = Act.objects.filter(actor=call.actor, key=call.key).first()
    if found and found.fingerprint != mark:
        raise KeyReused(key=call.key)
    return found


def _append(call: Call, mark: str, deed: Deed) -> Act:
    rows = Log.objects.filter(pk=deed.log)
    if call.seen is not None:
        rows = rows.filter(seq=call.seen)
    if not rows.update(seq=F("seq") + 1):
        raise Stale(what="The tournament")
    log = Log.objects.get(pk=deed.log)
    row = Act(
        log=log,
        seq=log.seq,
        verb=deed.verb,
        subject=dict(deed.subject),
        actor=call.actor,
        at=call.now,
        key=call.key,
        fingerprint=mark,
        previous=log.head,
    )
    row.digest = digest(row.previous, row.fields())
    row.save(force_insert=True)
    Log.objects.filter(pk=log.pk).update(head=row.digest)
    return row


def advance_version(rows: Any, call: Call, what: str) -> None:
    """Compare and swap: raise the version of the one row in the queryset `rows`.

    Right on SQLite and PostgreSQL alike. Refuses with `Stale` when `call.expected` is not the
    version found.
    """
    if call.expected is not None:
        rows = rows.filter(version=call.expected)
    if not rows.update(version=F("version") + 1):
        raise Stale(what=what)


def queue_job(
    *,
    call: Call,
    log: int,
    task: str,
    arguments: Mapping[str, object],
    source: tuple[str, bytes] | None = None,
) -> Job:
    """Write a long piece of work down and hand it to the worker when the transaction is kept.

    The same key orders once; with another order it is refused (`KeyReused`).
    """
    wanted = {**arguments, "key": call.key}
    if call.key and (
        earlier := Job.objects.filter(log_id=log, actor=call.actor, arguments__key=call.key).first()
    ):
        if (earlier.task, earlier.arguments) != (task, wanted):
            raise KeyReused(key=call.key)
        return earlier
    job = Job(log_id=log, task=task, arguments=wanted, actor=call.actor, created_at=call.now)
    with transaction.atomic():
        if source:
            job.source.save(source[0], ContentFile(source[1]), save=False)
        job.save()
        publish(task, at=call.now, job=str(job.uid))
    return job


def job_progress(*, job: Job, done: int, total: int) -> None:
    """Tell how far a job is; shown by the page that follows it."""
    Job.objects.filter(pk=job.pk).update(state=Job.State.RUNNING, done=done, total=total)


def finish_job(*, job: Job, now: datetime, report: Mapping[str, object], failed: bool) -> None:
    """Close a job with what it found."""
    state = Job.State.FAILED if failed else Job.State.DONE
    Job.objects.filter(pk=job.pk).update(state=state, report=dict(report), finished_at=now)


def resume_jobs(now: datetime) -> int:
    """Hand the jobs that a worker left half done, and what waits in the outbox, out again.

    For the one worker of the embedded default, as it starts: its queue of files forgets a message
    once it is read. Redis gives such messages back by itself. Returns how many were resumed.
    """
    left = Job.objects.filter(state=Job.State.RUNNING)
    with transaction.atomic():
        for job in left:
            publish(job.task, at=now, job=str(job.uid))
    flush(now)
    return left.count()
