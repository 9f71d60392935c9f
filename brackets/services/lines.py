"""The lines of a bracket and its bouts: laid out at the draw, changed after it."""

from django.db.models import F

from brackets.core.graph import LineUp
from brackets.core.late import LineChange, changed
from brackets.models import Bout, Drawn
from brackets.models import LineChange as Row
from brackets.queries import bracket, line_up
from seeding.journal.services import OPERATOR, Call


def stored(lines: LineUp) -> list[object]:
    """A line-up as the table keeps it."""
    return [list(line) if isinstance(line, tuple) else line for line in lines]


def lay_out(drawn: Drawn) -> None:
    """Bring the rows of bouts into line with the lines: those that stay keep row and number."""
    built = bracket(drawn)
    Drawn.objects.filter(pk=drawn.pk).update(format=built.format)
    columns = {key: built.graph.nodes[key]["round"].column for key in built.graph.nodes}
    known = {row.key: row for row in Bout.objects.filter(drawn=drawn)}
    Bout.objects.filter(
        pk__in=[row.pk for key, row in known.items() if key not in columns]
    ).delete()
    moved = [row for key, row in known.items() if columns.get(key, row.column) != row.column]
    for row in moved:
        row.column = columns[row.key]
    Bout.objects.bulk_update(moved, ["column"])
    Bout.objects.bulk_create(
        Bout(
            drawn=drawn,
            round=key.round,
            position=key.position,
            column=column,
            status=Bout.Status.WAITING,
        )
        for key, column in columns.items()
        if key not in known
    )


def change_lines(call: Call, drawn: Drawn, change: LineChange, reason: str) -> Drawn:
    """Change the lines of a drawn weight and keep what was changed and why.

    The act is a service of `results`, which looks after what was wrestled and settles the weight.
    """
    lines = changed(line_up(drawn.lines), change)
    Drawn.objects.filter(pk=drawn.pk).update(lines=stored(lines), version=F("version") + 1)
    fresh = Drawn.objects.select_related("weight_class__division").get(pk=drawn.pk)
    lay_out(fresh)
    Row.objects.create(
        drawn=fresh,
        given=change.plain(),
        reason=reason,
        at=call.now,
        author_id=None if call.actor == OPERATOR else call.actor,
    )
    return fresh
