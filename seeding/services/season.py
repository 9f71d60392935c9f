"""A season file: read and staged by a job, looked at, then kept by one short step."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

from django.db import IntegrityError, connection, transaction

from seeding.core.errors import SeasonKept, SeasonMoved, SeasonNotReady
from seeding.core.intake import SeasonSheet, read_season
from seeding.core.people import Identified, Person, identify
from seeding.core.repeats import Fresh, fresh, identity
from seeding.core.season import PriorBout as Known
from seeding.entries.core.spelling import folded
from seeding.entries.core.table import read_table
from seeding.entries.models import Tournament, Wrestler
from seeding.entries.models.people import opaque
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import Problem, Refusal
from seeding.journal.models import Job
from seeding.journal.publish import publish
from seeding.journal.services import Call, Deed, act, finish_job, job_progress, queue_job
from seeding.models import StagedBout
from seeding.queries import known_bouts

READ = "seeding.tasks.read_season"
CLEAR = "seeding.tasks.clear_stage"
CHUNK = 500


def queue_season(*, call: Call, tournament: Tournament, name: str, data: bytes) -> Job:
    """Hand a season file to the worker; a file that is no table is refused at once."""
    require(call, tournament.pk, Right.DIRECT)
    read_table(data, name)
    return queue_job(
        call=call,
        log=tournament.log_id,
        task=READ,
        arguments={"name": name},
        source=(name, data),
    )


def stage_season(*, job: Job, now: datetime) -> None:
    """Read the job's file, report on it, and stage its new bouts in chunks.

    Run twice it does the same once more, and nothing after it is done.
    """
    if job.state in {Job.State.DONE, Job.State.FAILED}:
        return
    StagedBout.objects.filter(job=job).delete()
    try:
        report = _staged(job, Tournament.objects.get(log_id=job.log_id))
    except Refusal as refusal:
        problem = {"where": refusal.where, "message": str(refusal)}
        finish_job(job=job, now=now, report={"problems": [problem]}, failed=True)
        return
    except Exception:
        problem = {"where": "", "message": "The program made a fault; it is in the server's log."}
        finish_job(job=job, now=now, report={"problems": [problem]}, failed=True)
        raise
    finish_job(job=job, now=now, report=report, failed=False)


def _staged(job: Job, tournament: Tournament) -> dict[str, object]:
    with job.source.open("rb") as source:
        table = read_table(source.read(), job.arguments["name"])
    job_progress(job=job, done=0, total=len(table.rows))
    sheet = read_season(table, list(tournament.weights.values_list("label", flat=True)))
    found = identify(sheet, _people(tournament), _teams(tournament), opaque)
    bouts = [bout for _, bout in found.bouts]
    parts = fresh(bouts, known_bouts(tournament, {bout.date for bout in bouts}))
    report = _report(sheet, found, parts)
    if not report["problems"]:
        _stage(job, [*parts.new, *(bout for bout, _ in parts.contradicted)], len(table.rows))
    return report


def _stage(job: Job, bouts: Sequence[Known], total: int) -> None:
    for start in range(0, len(bouts), CHUNK):
        chunk = bouts[start : start + CHUNK]
        StagedBout.objects.bulk_create(_row(job, bout) for bout in chunk)
        job_progress(job=job, done=min(start + CHUNK, total), total=total)


def _row(job: Job, bout: Known) -> StagedBout:
    return StagedBout(
        job=job,
        identity=identity(bout),
        date=bout.date,
        weight=bout.weight,
        winner=bout.winner,
        loser=bout.loser,
        kind=bout.kind,
        score=[int(points) for points in bout.score.split("-")] if bout.score else None,
        event=bout.event,
    )


def _people(tournament: Tournament) -> Iterable[Person]:
    rows = Wrestler.objects.filter(organisation=tournament.organisation_id).order_by("pk")
    return [Person(*row) for row in rows.values_list("uid", "given", "family", "home")]


def _teams(tournament: Tournament) -> Mapping[str, str]:
    return {
        folded(word): team.name
        for team in tournament.teams.filter(merged_into=None)
        for word in (team.short, *team.members, team.name)
    }


def _report(sheet: SeasonSheet, found: Identified, parts: Fresh) -> dict[str, object]:
    rows = {bout: row for row, bout in found.bouts}
    new = set(parts.new)
    inside = [(bout, other) for bout, other in parts.contradicted if other in new]
    against = [
        Problem(
            f"row {rows[bout]}",
            f"it reports the bout of row {rows[other]} with another result; correct one of them",
        )
        for bout, other in inside
    ]
    corrected = [pair for pair in parts.contradicted if pair not in inside]
    return {
        "counts": {
            "new": len(parts.new),
            "corrected": len(corrected),
            "known": len(parts.known),
            "repeated": len(sheet.repeated),
        },
        "wrestlers": [[one.uid, one.given, one.family, one.home] for one in found.new],
        "problems": _written([*sheet.problems, *found.problems, *against]),
        "warnings": _written([*sheet.warnings, *found.warnings]),
        "corrected": _written(
            Problem(f"row {rows[bout]}", f"{before} → {bout}") for bout, before in corrected
        ),
    }


def _written(problems: Iterable[Problem]) -> list[dict[str, str]]:
    return [{"where": one.where, "message": one.message} for one in problems]


@act
def commit_season(*, call: Call, tournament: Tournament, job: Job) -> Deed:
    """Keep what a job has staged: all of it, by one statement, or nothing."""
    require(call, tournament.pk, Right.DIRECT)
    report: dict[str, Any] = Job.objects.values_list("report", flat=True).get(pk=job.pk)
    if job.state != Job.State.DONE or report.get("problems"):
        raise SeasonNotReady
    if report.get("kept"):
        raise SeasonKept
    _add_wrestlers(tournament, report["wrestlers"])
    _switch(tournament, job)
    Job.objects.filter(pk=job.pk).update(report={**report, "kept": True})
    publish(CLEAR, at=call.now, job=str(job.uid))
    counts = report["counts"]
    added = {"bouts": counts["new"], "corrected": counts["corrected"]}
    return Deed(tournament.log_id, "season.committed", {**added, "new": len(report["wrestlers"])})


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


def _switch(tournament: Tournament, job: Job) -> None:
    organisation = tournament.organisation_id
    with connection.cursor() as cursor:
        cursor.execute(
            """
            INSERT INTO seeding_priorbout
                (organisation_id, identity, date, weight, winner_id, loser_id, kind, score, event,
                 time, level, winner_division, loser_division)
            SELECT %s, s.identity, s.date, s.weight, w.id, l.id, s.kind, s.score, s.event,
                   s.time, s.level, s.winner_division, s.loser_division
            FROM seeding_stagedbout s
            JOIN entries_wrestler w ON w.organisation_id = %s AND w.uid = s.winner
            JOIN entries_wrestler l ON l.organisation_id = %s AND l.uid = s.loser
            WHERE s.job_id = %s
            ORDER BY s.id
            ON CONFLICT (organisation_id, identity) DO UPDATE SET
                winner_id = excluded.winner_id, loser_id = excluded.loser_id,
                kind = excluded.kind, score = excluded.score, time = excluded.time,
                level = excluded.level, winner_division = excluded.winner_division,
                loser_division = excluded.loser_division
            """,
            [organisation, organisation, organisation, job.pk],
        )


def clear_stage(*, job: Job) -> None:
    """Throw away what a job has staged."""
    StagedBout.objects.filter(job=job).delete()
