"""What a scratch before the draw does to the seeds, by the rule book, and to the draw."""

import pytest
from django.db.models import Q

from brackets.core.errors import AlreadyDrawn
from brackets.queries import drawn, line_up
from results.services import draw_weight
from seeding.core.errors import (
    SeedsVoid,
)
from seeding.entries.core.errors import Locked
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.services import (
    restore_entry,
    scratch_entry,
)
from seeding.models import SeedOrder
from seeding.services import adopt_order
from tests.results.championship import CALL, document, load
from tests.results.desk import text
from tests.results.regions import BOOK, weight
from tests.seeding.entries.desks import owner

pytestmark = pytest.mark.django_db


def seeded(policy: str) -> tuple[Tournament, WeightClass]:
    file = document(entries=8, rulebook=BOOK, settings={"seeding.scratched": policy})
    file["brackets"] = []
    tournament = load(file)
    return tournament, weight(tournament)


def seeds(at: WeightClass) -> dict[str, int]:
    rows = Entry.objects.filter(weight_class=at, status="entered").exclude(seed=None)
    return {row.key: row.seed or 0 for row in rows}


def scratch(tournament: Tournament, key: str) -> None:
    scratch_entry(call=CALL, entry=tournament.entries.get(key=key))


def test_who_is_seeded_below_moves_up() -> None:
    tournament, at = seeded("move-up")
    scratch(tournament, "125-3")
    assert list(seeds(at).values()) == [1, 2, 3, 4, 5, 6, 7]
    assert seeds(at)["125-4"] == 3
    draw_weight(call=CALL, weight=at)
    assert line_up(drawn(at).lines)[:2] == ("125-1", None)


def test_a_hole_stays_empty_and_is_a_bye() -> None:
    tournament, at = seeded("hole")
    scratch(tournament, "125-3")
    assert seeds(at)["125-4"] == 4
    draw_weight(call=CALL, weight=at)
    lines = line_up(drawn(at).lines)
    assert lines[:2] == ("125-1", "125-8")
    assert lines[lines.index("125-6") ^ 1] is None


def test_a_hole_is_closed_again_when_he_is_restored() -> None:
    tournament, at = seeded("hole")
    scratch(tournament, "125-3")
    restore_entry(call=CALL, entry=tournament.entries.get(key="125-3"))
    assert seeds(at)["125-3"] == 3


def test_after_a_scratch_the_order_is_adopted_anew() -> None:
    tournament, at = seeded("redraw")
    adopt_order(call=CALL, weight=at)
    first = Entry.objects.get(weight_class=at, seed=1)
    scratch(tournament, first.key)
    assert seeds(at) == {}
    assert SeedOrder.objects.get(weight_class=at).adopted_at is None
    room = text(owner(tournament).get("/desk/spring/seeding/125/"))
    assert "The seeds are void." in room
    with pytest.raises(SeedsVoid, match="Adopt it in the seeding room"):
        draw_weight(call=CALL, weight=at)
    adopt_order(call=CALL, weight=at)
    draw_weight(call=CALL, weight=at)
    with pytest.raises((AlreadyDrawn, Locked)):
        draw_weight(call=CALL, weight=at)


def test_a_scratch_of_nobody_seeded_changes_no_seed() -> None:
    tournament, at = seeded("redraw")
    Entry.objects.filter(Q(key="125-8") | Q(key="125-7"), tournament=tournament).update(seed=None)
    scratch(tournament, "125-8")
    assert len(seeds(at)) == 6
