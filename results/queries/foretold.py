"""What a preview tells of bouts, in words, for the desk."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from django.utils.translation import gettext as _

from brackets.core.graph import BoutKey
from brackets.core.standing import EMPTY
from brackets.models import Bout, Drawn
from brackets.queries import bracket
from results.queries.consequences import Affected, Pair, Preview
from results.queries.desk import open_side
from results.queries.late import Moved, named
from results.queries.words import awaited
from seeding.entries.models import Entry

Meeting = Callable[[BoutKey, Pair], str]
"""Who meets in a bout, or who or what is awaited there."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A wrestled bout about which is asked: who wrestled it, and who would meet in it."""

    affected: Affected
    wrestled: str
    then: str


def asked(seen: Preview) -> list[Asked]:
    """The wrestled bouts about which something has to be chosen."""
    if not seen.affected:
        return []
    meeting = _meeting(seen.affected[0].bout.drawn)
    return [
        Asked(one, _wrestled(one.bout), meeting(one.bout.key, one.after)) for one in seen.affected
    ]


def hands(seen: Preview) -> list[Moved]:
    """The bouts that change hands, with who meets there now and then."""
    if not seen.changed:
        return []
    meeting = _meeting(seen.changed[0].bout.drawn)
    return [
        Moved(
            weight="",
            what=f"{one.bout.number} ({one.bout.round})",
            before=meeting(one.bout.key, one.before),
            after=meeting(one.bout.key, one.after),
        )
        for one in seen.changed
    ]


def _wrestled(bout: Bout) -> str:
    return " - ".join(named(one) for one in (bout.top, bout.bottom) if one)


def _meeting(drawn: Drawn) -> Meeting:
    built = bracket(drawn)
    rows = Bout.objects.filter(drawn=drawn).values_list("round", "position", "number")
    numbers = {BoutKey(code, position): number for code, position, number in rows}

    def said(key: BoutKey, pair: Pair) -> str:
        if pair == (EMPTY, EMPTY):
            return _("nobody")
        sides = []
        for slot, one in enumerate(pair):
            if isinstance(one, Entry):
                sides.append(named(one))
            else:
                side = open_side(built, key, slot, numbers.get)
                sides.append(awaited(replace(side, empty=one is EMPTY)))
        return " - ".join(sides)

    return said
