"""A job that a worker left half done is taken up by the next one."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from django.core.files.base import ContentFile

from seeding.journal.core.errors import KeyReused
from seeding.journal.models import Job, Outbox
from seeding.journal.services import queue_job, resume_jobs
from seeding.services.season import READ
from tests.results.championship import CALL, NOW, document, load

pytestmark = pytest.mark.django_db
SEASON = Path(__file__).parents[3] / "fixtures" / "demo" / "season.csv"


def job(state: str) -> Job:
    tournament = load(document(("133", "149"), entries=8))
    row = Job(
        log=tournament.log, task=READ, arguments={"name": "season.csv"}, actor=0, created_at=NOW
    )
    row.source.save("season.csv", ContentFile(SEASON.read_bytes()), save=False)
    row.state = state
    row.save()
    return row


def test_a_job_left_running_is_done_by_the_next_worker() -> None:
    left = job(Job.State.RUNNING)
    assert resume_jobs(NOW) == 1
    left.refresh_from_db()
    assert left.state == Job.State.DONE
    assert not Outbox.objects.filter(sent_at=None).exists()


@pytest.mark.parametrize("state", [Job.State.DONE, Job.State.FAILED])
def test_a_job_that_is_over_is_left_alone(state: str) -> None:
    job(state)
    assert resume_jobs(NOW) == 0


def test_what_waits_in_the_outbox_goes_out() -> None:
    row = job(Job.State.DONE)
    queued = queue_job(
        call=CALL,
        log=row.log_id,
        task=READ,
        arguments={"name": "season.csv"},
        source=("season.csv", SEASON.read_bytes()),
    )
    assert Outbox.objects.filter(sent_at=None).count() == 1
    resume_jobs(NOW)
    queued.refresh_from_db()
    assert queued.state == Job.State.DONE


def test_the_same_key_orders_a_job_once() -> None:
    row = job(Job.State.DONE)
    order: dict[str, Any] = {"call": replace(CALL, key="k"), "log": row.log_id, "task": READ}
    first = queue_job(**order, arguments={"name": "a.csv"})
    assert queue_job(**order, arguments={"name": "a.csv"}).pk == first.pk
    with pytest.raises(KeyReused):
        queue_job(**order, arguments={"name": "b.csv"})
