"""Reading the log."""

from django.db.models import QuerySet

from seeding.journal.core.chain import GENESIS, digest
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Act, Job, Log

PAGE = 500


def acts_after(log: int, after: int, most: int = PAGE) -> QuerySet[Act]:
    """The acts with a `seq` above `after`, in order, `most` at a time."""
    return (
        Act.objects.filter(log_id=log, seq__gt=after).select_related("log").order_by("seq")[:most]
    )


def seq_of(log: int) -> int:
    """The newest `seq`: the version of everything that the log's tournament shows."""
    return Log.objects.values_list("seq", flat=True).get(pk=log)


def job(uid: str) -> Job:
    """The job with that opaque id."""
    try:
        return Job.objects.select_related("log").get(uid=uid)
    except (Job.DoesNotExist, ValueError) as error:
        raise NotFound(what="job", name=str(uid)) from error


def first_break(log: int) -> int | None:
    """The first `seq` whose act does not fit the chain, or None where the whole chain holds."""
    previous, expected = GENESIS, 1
    for row in Act.objects.filter(log_id=log).select_related("log").order_by("seq").iterator():
        fits = row.seq == expected and row.previous == previous
        if not fits or row.digest != digest(previous, row.fields()):
            return expected
        previous, expected = row.digest, expected + 1
    return None
