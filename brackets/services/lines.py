"""The lines of a bracket and its bouts: laid out at the draw, changed after it."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from django.db.models import F

from brackets.core.errors import LineChangeUnfit
from brackets.core.graph import LineUp
from brackets.core.late import LineChange, after_all, changed, drawn_rightly
from brackets.models import Bout, Drawn
from brackets.models import LineChange as Row
from brackets.queries import bracket, line_up
from seeding.entries.models import User
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call


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
        author_id=call.author,
    )
    return fresh


def load_changes(drawn: Drawn, items: Iterable[Mapping[str, Any]], where: str) -> None:
    """Keep what a tournament file says was changed after the draw.

    Refuses changes that do not make the lines of what was drawn, and a lot that fell otherwise.
    """
    rows = [_loaded(drawn, item) for item in items]
    if not rows:
        return
    changes = [row.value for row in rows]
    try:
        found = after_all(line_up(drawn.drawn_lines), changes)
        fair = all(drawn_rightly(one, drawn.weight_class.key) for one in changes)
    except LineChangeUnfit as refusal:
        raise Invalid([Problem(where, str(refusal))]) from refusal
    if found != line_up(drawn.lines):
        raise Invalid([Problem(where, "They do not make these lines of those that were drawn.")])
    if not fair:
        raise Invalid([Problem(where, "The lot of a late entry does not give this line.")])
    Row.objects.bulk_create(rows)


def _loaded(drawn: Drawn, item: Mapping[str, Any]) -> Row:
    return Row(
        drawn=drawn,
        given=LineChange.read(item).plain(),
        reason=item["reason"],
        at=datetime.fromisoformat(item["at"]),
        author=User.objects.filter(username=item.get("author", "")).first(),
    )
