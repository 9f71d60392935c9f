"""What a job has staged is kept by one short step, or nothing of it."""

from collections.abc import Collection, Iterable, Sequence
from enum import StrEnum
from typing import Any

from django.db import IntegrityError, connection, transaction
from django.db.models import Q, QuerySet

from seeding.core.errors import SeasonKept, SeasonMoved, SeasonNotReady
from seeding.entries.models import Tournament, Wrestler
from seeding.entries.permissions import Right, require
from seeding.journal.models import Job
from seeding.journal.publish import publish
from seeding.journal.services import Call, Deed, act
from seeding.models import StagedBout
from seeding.queries.season import season_changed
from seeding.services.season.staging import CHUNK, CLEAR

Says = StagedBout.Says


class Word(StrEnum):
    """Whose word stands where a file contradicts a known bout."""

    KNOWN = "known"
    FILE = "file"


@act
def commit_season(
    *,
    call: Call,
    tournament: Tournament,
    job: Job,
    word: Word = Word.KNOWN,
    otherwise: Collection[str] = (),
) -> Deed:
    """Keep what a job has staged: all of it, or nothing.

    Where it contradicts known bouts the `word` stands; `otherwise` are the identities of those in
    which the other one does.
    """
    require(call, tournament.pk, Right.DIRECT)
    report: dict[str, Any] = Job.objects.values_list("report", flat=True).get(pk=job.pk)
    if job.state != Job.State.DONE or report.get("problems"):
        raise SeasonNotReady
    if report.get("kept"):
        raise SeasonKept
    _add_wrestlers(tournament, report["wrestlers"])
    corrected = _switch(tournament, job, _passed_over(job, word, otherwise))
    Job.objects.filter(pk=job.pk).update(report={**report, "kept": True})
    publish(CLEAR, at=call.now, job=str(job.uid))
    new = {"bouts": report["counts"]["new"], "new": len(report["wrestlers"])}
    return Deed(tournament.log_id, "season.committed", {**new, "corrected": corrected})


def _passed_over(job: Job, word: Word, otherwise: Collection[str]) -> QuerySet[StagedBout]:
    """The contradictions in which the known word stands."""
    rows = StagedBout.objects.filter(job=job, says=Says.OTHER)
    chosen = Q(identity__in=list(otherwise))
    return rows.filter(chosen if word is Word.FILE else ~chosen)


def _add_wrestlers(tournament: Tournament, people: Iterable[Sequence[str]]) -> None:
    """The new wrestlers; refused where one of them came in between."""
    rows = [
        Wrestler(
            organisation_id=tournament.organisation_id,
            uid=uid,
            given=given,
            family=family,
            home=home,
        )
        for uid, given, family, home in people
    ]
    try:
        with transaction.atomic():
            Wrestler.objects.bulk_create(rows, batch_size=CHUNK)
    except IntegrityError as error:
        raise SeasonMoved from error


def _switch(tournament: Tournament, job: Job, passed_over: QuerySet[StagedBout]) -> int:
    """Put the staged bouts into the season; how many known ones are corrected by it."""
    passed_over.delete()
    staged = StagedBout.objects.filter(job=job)
    corrected = staged.filter(says=Says.OTHER).count()
    old = staged.exclude(says=Says.NEW).count()
    if old and season_changed(tournament, job):
        raise SeasonMoved
    if _upsert(tournament, job, _KNOWN, "DO UPDATE SET " + _TAKEN) != old:
        raise SeasonMoved
    if _upsert(tournament, job, _NEW, "DO NOTHING") != staged.count() - old:
        raise SeasonMoved
    return corrected


_COLUMNS = [
    "date",
    "weight",
    "kind",
    "score",
    "event",
    "time",
    "level",
    "winner_division",
    "loser_division",
]
_TAKEN = ", ".join(
    f"{name} = excluded.{name}"
    for name in ("winner_id", "loser_id", "kind", *_COLUMNS[3:])
    if name != "event"
)
_NEW = "s.says = 'new'"
_KNOWN = """s.says <> 'new' AND EXISTS (
    SELECT 1 FROM seeding_priorbout p
    WHERE p.organisation_id = w.organisation_id AND p.identity = s.identity)"""


def _upsert(tournament: Tournament, job: Job, which: str, conflict: str) -> int:
    names = ", ".join(_COLUMNS)
    staged = ", ".join(f"s.{name}" for name in _COLUMNS)
    statement = f"""
        INSERT INTO seeding_priorbout
            (organisation_id, identity, winner_id, loser_id, {names},
             given_as, struck_reason)
        SELECT w.organisation_id, s.identity, w.id, l.id, {staged}, '', ''
        FROM seeding_stagedbout s
        JOIN entries_wrestler w ON w.organisation_id = %s AND w.uid = s.winner
        JOIN entries_wrestler l ON l.organisation_id = w.organisation_id AND l.uid = s.loser
        WHERE s.job_id = %s AND {which}
        ORDER BY s.id
        ON CONFLICT (organisation_id, identity) {conflict}
        """  # noqa: S608  every part is a constant of this file
    with connection.cursor() as cursor:
        cursor.execute(statement, [tournament.organisation_id, job.pk])
        return int(cursor.rowcount)
