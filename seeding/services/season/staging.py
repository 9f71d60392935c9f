"""A season file is read by a job, which reports on it and stages its bouts."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime

from seeding.core.intake import SeasonSheet, read_season
from seeding.core.people import Identified, Person, identify
from seeding.core.repeats import Fresh, fresh, identity
from seeding.core.season import PriorBout as Known
from seeding.entries.core.spelling import folded
from seeding.entries.core.table import glance, read_table
from seeding.entries.models import Tournament
from seeding.entries.models.people import opaque
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import Problem, Refusal
from seeding.journal.models import Job
from seeding.journal.services import Call, finish_job, job_progress, queue_job
from seeding.models import StagedBout
from seeding.queries.season import known_bouts, people_of

READ = "seeding.tasks.read_season"
CLEAR = "seeding.tasks.clear_stage"
CHUNK = 500
LISTED = 200
"""So many contradictions are listed, each with a choice of its own."""
Says = StagedBout.Says


def queue_season(*, call: Call, tournament: Tournament, name: str, data: bytes) -> Job:
    """Hand a season file to the worker; a file that is no table is refused at once."""
    require(call, tournament.pk, Right.DIRECT)
    glance(data, name)
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
    people = people_of(tournament.organisation_id)
    found = identify(sheet, people, _teams(tournament), opaque)
    bouts = [bout for _, bout in found.bouts]
    parts = fresh(bouts, known_bouts(tournament, {bout.date for bout in bouts}))
    report = _report(sheet, found, parts, [*people, *found.new])
    if not report["problems"]:
        against = [bout for bout, _ in parts.contradicted]
        says = ((Says.NEW, parts.new), (Says.MORE, parts.more), (Says.OTHER, against))
        _stage(job, [_row(job, bout, word) for word, some in says for bout in some])
    return report


def _stage(job: Job, rows: Sequence[StagedBout]) -> None:
    for start in range(0, len(rows), CHUNK):
        StagedBout.objects.bulk_create(rows[start : start + CHUNK])
        job_progress(job=job, done=min(start + CHUNK, len(rows)), total=len(rows))


def _row(job: Job, bout: Known, says: str) -> StagedBout:
    return StagedBout(
        job=job,
        says=says,
        identity=identity(bout),
        date=bout.date,
        weight=bout.weight,
        winner=bout.winner,
        loser=bout.loser,
        kind=bout.kind,
        score=[int(points) for points in bout.score.split("-")] if bout.score else None,
        time=bout.time,
        event=bout.event,
        level=bout.level,
        winner_division=bout.winner_division,
        loser_division=bout.loser_division,
    )


def _teams(tournament: Tournament) -> Mapping[str, str]:
    return {
        folded(word): team.name
        for team in tournament.teams.filter(merged_into=None)
        for word in (team.short, *team.members, team.name)
    }


def _report(
    sheet: SeasonSheet, found: Identified, parts: Fresh, people: Iterable[Person]
) -> dict[str, object]:
    rows: dict[str, int] = {}
    for row, bout in found.bouts:
        rows.setdefault(identity(bout), row)
    at = {bout: row for row, bout in found.bouts}
    against = (_against(at[bout], rows[identity(other)]) for bout, other in parts.inside)
    return {
        "counts": {
            "new": len(parts.new),
            "more": len(parts.more),
            "contradicted": len(parts.contradicted),
            "known": len(parts.known),
            "repeated": len(sheet.repeated) + len(parts.repeated),
        },
        "wrestlers": [[one.uid, one.given, one.family, one.home] for one in found.new],
        "problems": _written([*sheet.problems, *found.problems, *against]),
        "warnings": _written([*sheet.warnings, *found.warnings]),
        "contradicted": _contradictions(parts, rows, {one.uid: one for one in people}),
    }


def _against(row: int, earlier: int) -> Problem:
    message = f"it reports the bout of row {earlier} with another result; correct one of them"
    return Problem(f"row {row}", message)


def _contradictions(
    parts: Fresh, rows: Mapping[str, int], people: Mapping[str, Person]
) -> list[dict[str, str]]:
    """The first of them, each with both readings."""
    return [
        {
            "identity": identity(bout),
            "where": f"row {rows[identity(bout)]}",
            "known": _read(before, people),
            "reported": _read(bout, people),
        }
        for bout, before in parts.contradicted[:LISTED]
    ]


def _read(bout: Known, people: Mapping[str, Person]) -> str:
    told = f"{people[bout.winner].name} over {people[bout.loser].name}: {bout}"
    return ", ".join(filter(None, (told, bout.level)))


def _written(problems: Iterable[Problem]) -> list[dict[str, str]]:
    return [{"where": one.where, "message": one.message} for one in problems]


def clear_stage(*, job: Job) -> None:
    """Throw away what a job has staged."""
    StagedBout.objects.filter(job=job).delete()
