"""The log of a tournament and its long jobs."""

from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries.permissions import Right, Sight, sight
from seeding.entries.serializers.people import (
    ActsQuerySerializer,
    ActsSerializer,
    JobSerializer,
    JobsSerializer,
    act_item,
    job_item,
)
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import OWN
from seeding.journal.api.endpoint import Endpoint, reads
from seeding.journal.api.paging import page
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Job
from seeding.journal.queries import acts_after
from seeding.journal.queries import job as job_of
from seeding.journal.serializers import PageSerializer


def _entered(request: Request, slug: str) -> Sight:
    seen = sight(caller(request), slug)
    seen.need(Right.READ)
    return seen


class Acts(Endpoint):
    """The log of a tournament."""

    @reads(ActsSerializer, query=ActsQuerySerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """Read the acts after a `seq`, in order and without a gap; needs a role.

        They are in ids: names never stand in the log. `next` is where they go on, also when
        there is nothing newer yet.
        """
        seen = _entered(request, slug)
        rows = list(acts_after(seen.tournament.log_id, asked["after"], asked["limit"]))
        last = rows[-1].seq if rows else asked["after"]
        told = {
            "seq": seen.tournament.log.seq,
            "next": f"{request.path}?after={last}&limit={asked['limit']}",
            "items": [act_item(row) for row in rows],
        }
        return Response(told, headers={"Cache-Control": OWN})


class Jobs(Endpoint):
    """The long jobs of a tournament."""

    @reads(JobsSerializer, query=PageSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List the jobs, newest first; needs a role."""
        seen = _entered(request, slug)
        rows = Job.objects.filter(log_id=seen.tournament.log_id).order_by("-created_at", "-pk")
        return Response(page(request, asked, rows, job_item), headers={"Cache-Control": OWN})


class OneJob(Endpoint):
    """One long job."""

    @reads(JobSerializer)
    def get(self, request: Request, asked: Data, slug: str, uid: str) -> Response:
        """Read how far a job is and what it found; needs a role."""
        row = _job(_entered(request, slug), uid)
        return Response(job_item(row), headers={"Cache-Control": OWN})


def _job(seen: Sight, uid: str) -> Job:
    row = job_of(uid)
    if row.log_id != seen.tournament.log_id:
        raise NotFound(what="job", name=uid)
    return row
