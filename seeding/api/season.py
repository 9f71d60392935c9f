"""The season's bouts: hand a file to the worker, then keep what it has read."""

from rest_framework.parsers import MultiPartParser

from seeding.entries.core.table import MOST_BYTES
from seeding.entries.permissions import sight
from seeding.entries.serializers.people import JobSerializer, job_item
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, acts, orders
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Act
from seeding.journal.queries import job as job_of
from seeding.journal.services import Call
from seeding.serializers.order import SeasonFileSerializer
from seeding.serializers.season import KeepSeasonSerializer
from seeding.services.season import READ, Word, commit_season, queue_season


class Season(Endpoint):
    """The season's file."""

    parser_classes = (MultiPartParser,)

    @orders(JobSerializer, SeasonFileSerializer)
    def post(self, call: Call, data: Data, slug: str) -> dict[str, object]:
        """Let a season file be read and staged; the job says what is wrong and what is new."""
        tournament = sight(call.actor, slug).tournament
        file = data["file"]
        read = file.read(MOST_BYTES + 1)
        job = queue_season(call=call, tournament=tournament, name=file.name, data=read)
        job.refresh_from_db()
        return job_item(job)


class KeptSeason(Endpoint):
    """A season file that was read."""

    @acts(KeepSeasonSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str, uid: str) -> Act:
        """Keep what the job has staged: all of it, or nothing.

        Where it contradicts known bouts these stay, unless the file is said to be right.
        """
        tournament = sight(call.actor, slug).tournament
        job = job_of(uid)
        if job.log_id != tournament.log_id or job.task != READ:
            raise NotFound(what="season file", name=uid)
        return commit_season(
            call=call,
            tournament=tournament,
            job=job,
            word=Word(data["word"]),
            otherwise=data["otherwise"],
        )
