"""What a ruling would change, and what taking one back would."""

from collections.abc import Callable
from dataclasses import replace

from brackets.core.drafting import Wanted, draft
from brackets.core.errors import RulingUnfit
from brackets.core.rulings import Ruling as Value
from brackets.core.rulings import Rulings
from brackets.core.standing import Standing
from brackets.models import Drawn
from brackets.queries import bout_name, bouts, bracket
from results.core.errors import NoSuchRuling
from results.models import Ruling
from results.queries.consequences import Choices, Preview
from results.queries.facts import facts
from results.queries.preview import compare, replayed
from results.queries.standing import standing_of
from seeding.entries.models import Entry, Tournament


def look_at_ruling(
    drawn: Drawn, wanted: Wanted, choices: Choices | None = None
) -> tuple[Value, Preview]:
    """The ruling that does what is wanted, and what follows from it."""
    ruling = drafted(drawn, wanted)
    return ruling, look_at_drafted(drawn, ruling, choices)


def drafted(drawn: Drawn, wanted: Wanted) -> Value:
    """The ruling that does what is wanted."""
    known = facts(drawn)
    before = standing_of(drawn, known)

    def played(more: Rulings) -> Standing:
        changed = replace(known, rulings=(*known.rulings, *more))
        return replayed(drawn, before, changed).standing if more else before

    try:
        return draft(bracket(drawn), played, wanted)
    except RulingUnfit as unfit:
        raise unfit.called(_called_in(drawn)) from unfit


def _called_in(drawn: Drawn) -> Callable[[object], str]:
    """How people call the entries and bouts of a weight."""
    people = Entry.objects.filter(weight_class_id=drawn.weight_class_id).select_related("wrestler")
    names: dict[object, str] = {row.key: row.wrestler.name for row in people}
    names |= {row.key: bout_name(row) for row in bouts(drawn)}
    return lambda one: names.get(one, f"“{one}”")


def look_at_drafted(drawn: Drawn, ruling: Value, choices: Choices | None = None) -> Preview:
    """What follows from a ruling."""
    known = facts(drawn)
    changed = replace(known, rulings=(*known.rulings, ruling))
    return compare(drawn, known, changed, choices)


def look_at_taking_back(ruling: Ruling, choices: Choices | None = None) -> Preview:
    """What follows where the format holds again."""
    drawn = ruling.drawn
    known = facts(drawn)
    left = Ruling.objects.filter(drawn=drawn).exclude(pk=ruling.pk)
    changed = replace(known, rulings=tuple(row.value for row in left))
    return compare(drawn, known, changed, choices)


def ruling_of(tournament: Tournament, ruling: int) -> Ruling:
    """A ruling of a tournament."""
    rows = Ruling.objects.filter(drawn__weight_class__tournament=tournament, pk=ruling)
    found = rows.select_related(
        "author", "drawn__weight_class__division", "drawn__weight_class__tournament"
    ).first()
    if not found:
        raise NoSuchRuling(ruling=ruling)
    return found
