"""The tournament file, its schema, and the file of all sheets."""

from django.http import FileResponse, HttpResponseBase
from django.urls import reverse
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiResponse, extend_schema
from rest_framework.request import Request
from rest_framework.response import Response

from results.serializers.document import check_document, dump, schema
from results.serializers.file import (
    JsonSchemaSerializer,
    TournamentFileSerializer,
)
from results.services import load_tournament
from results.services.papers import order_sheets
from seeding.entries.permissions import Right, holder, sight
from seeding.entries.serializers.people import JobSerializer, job_item
from seeding.journal.api.bodies import Data, JsonDocument
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import OWN
from seeding.journal.api.endpoint import Endpoint, Made, acts, orders, reads, refusals
from seeding.journal.core.errors import NotFound
from seeding.journal.queries import job as job_of
from seeding.journal.services import Call

HOUR = {"Cache-Control": "public, max-age=3600"}


class FileSchema(Endpoint):
    """The JSON Schema of the tournament file."""

    @reads(JsonSchemaSerializer)
    def get(self, request: Request, asked: Data) -> Response:
        """Read the JSON Schema of the tournament file."""
        return Response(schema(), headers=HOUR)


class Files(Endpoint):
    """Tournament files."""

    parser_classes = (JsonDocument,)

    @acts(TournamentFileSerializer, status=201)
    def post(self, call: Call, data: Data) -> Made:
        """Load a tournament file as a new tournament: all of it, or nothing.

        It belongs to the organisation named, else to the caller's own.
        """
        document = data["document"]
        check_document(document)
        organisation = holder(call.actor, data.get("organisation", ""))
        act = load_tournament(call=call, organisation=organisation, document=document)
        slug = document["tournament"]["slug"]
        return Made(act, slug, reverse("api-tournament", args=[slug]))


class OneFile(Endpoint):
    """A tournament as a tournament file."""

    @reads(JsonSchemaSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """Write the tournament as a tournament file; it names everybody, so it needs to direct."""
        seen = sight(caller(request), slug)
        seen.need(Right.DIRECT)
        return Response(dump(seen.tournament), headers={"Cache-Control": OWN})


class Sheets(Endpoint):
    """All sheets in one file."""

    @orders(JobSerializer)
    def post(self, call: Call, data: Data, slug: str) -> dict[str, object]:
        """Let all sheets be drawn into one ZIP file; the job says when it can be fetched."""
        job = order_sheets(call=call, tournament=sight(call.actor, slug).tournament)
        job.refresh_from_db()
        return job_item(job)


class JobProduct(Endpoint):
    """What a job has made."""

    @extend_schema(
        summary="Fetch the file that a job has made; needs a role",
        responses={
            (200, "application/octet-stream"): OpenApiResponse(OpenApiTypes.BINARY),
            **refusals(400, 401, 403, 404),
        },
    )
    def get(self, request: Request, slug: str, uid: str) -> HttpResponseBase:
        seen = sight(caller(request), slug)
        seen.need(Right.READ)
        row = job_of(uid)
        if row.log_id != seen.tournament.log_id or not row.product:
            raise NotFound(what="file", name=str(uid))
        name = str(row.product.name).rpartition("/")[2]
        return FileResponse(row.product.open("rb"), as_attachment=True, filename=name)
