"""A tournament on the morning of its weigh-in, for tests of late changes."""

from collections.abc import Sequence

from brackets.models import Bout
from brackets.queries import drawn, line_up
from results.core.late import Newcomer, Remedy
from results.queries.weigh_in import Case
from results.services import take_out
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.journal.models import Act
from tests.results.championship import CALL, document, load

SUB = Newcomer("Sam", "Sub")


def morning() -> Tournament:
    """Twelve seeds of 125 on 16 lines, numbered; 133 is not drawn."""
    file = document(("125", "133"), 12) | {"brackets": [{"weight_class": "125"}]}
    return load(file)


def at(meet: Tournament, key: str = "125") -> WeightClass:
    rows = WeightClass.objects.select_related("division", "tournament")
    return rows.get(tournament=meet, key=key)


def entry(meet: Tournament, key: str) -> Entry:
    rows = Entry.objects.select_related("wrestler", "weight_class__division", "tournament", "team")
    return rows.get(tournament=meet, key=key)


def lines(meet: Tournament) -> Sequence[object]:
    return line_up(drawn(at(meet)).lines)


def take(meet: Tournament, key: str, remedy: Remedy, **more: object) -> Act:
    case = Case(entry(meet, key), remedy, **more)  # type: ignore[arg-type]
    return take_out(call=CALL, case=case, reason="why")


def bout(meet: Tournament, key: str) -> Bout:
    code, position = key.split("-")
    return Bout.objects.select_related("top", "bottom", "winner").get(
        drawn__weight_class=at(meet), round=code, position=position
    )


def of(meet: Tournament, key: str) -> Bout:
    """The first-round bout of an entry."""
    row = Bout.objects.filter(drawn__weight_class=at(meet), round="R1")
    return next(
        one
        for one in row.select_related("top", "bottom", "drawn")
        if key in (one.top and one.top.key, one.bottom and one.bottom.key)
    )
