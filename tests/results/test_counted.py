"""One count of bouts for desk and public pages, also after late byes of a numbered weight."""

import pytest
from django.test import Client

from brackets.models import Bout
from brackets.queries.stages import Stage, mat_loads, stages
from results.core.late import Remedy
from results.queries.gates import Gates
from results.queries.overview import overview
from results.queries.people import People
from results.queries.sheets import Sheet, sheets
from results.services import take_back_draw
from seeding.entries.models import Tournament
from tests.results.championship import CALL, document, load, wrestle
from tests.results.desk import buttons, text
from tests.results.late import at, take
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

DESK = "/desk/spring/"


@pytest.fixture
def meet() -> Tournament:
    """Eight seeds of 125 with numbers; then 3 and 6, who met first, and 7 leave byes."""
    return load(document(entries=8))


def stage(meet: Tournament) -> Stage:
    return next(one for one in stages(meet) if one.weight.key == "125")


def public(meet: Tournament) -> Sheet:
    Tournament.objects.update(shows_draw=True, shows_results=True)
    meet.refresh_from_db()
    gates = Gates.of(meet)
    return sheets(meet, gates, People.of(meet, gates))[0]


def leave(meet: Tournament, *seeds: int) -> None:
    for seed in seeds:
        take(meet, f"125-{seed}", Remedy.BYE)


def test_bouts_that_became_byes_are_not_counted_whatever_their_numbers(meet: Tournament) -> None:
    leave(meet, 3, 6, 7)
    now = stage(meet)
    assert (now.bouts, now.numbered, now.unnumbered) == (6, 6, 0)
    assert (public(meet).total, public(meet).left) == (6, 6)
    assert "<dt>Quarterfinals</dt><dd>0 of 2</dd>" in text(Client().get("/t/spring/"))


def test_desk_and_public_count_the_same_to_the_end(meet: Tournament) -> None:
    leave(meet, 3, 6)
    for _ in range(20):
        desk, sheet, counts = stage(meet), public(meet), overview(meet).counts
        assert sheet.total == desk.bouts == counts.bouts == 8
        assert sheet.left == counts.ready + counts.waiting == 8 - desk.wrestled
        loads = mat_loads(meet)
        assert (sum(one.bouts for one in loads), sum(one.left for one in loads)) == (8, sheet.left)
        bout = Bout.objects.filter(status="ready").order_by("number").first()
        if bout is None:
            break
        wrestle(bout, 0)
    assert (sheet.done, desk.wrestled) == (8, 8)


def test_nothing_is_to_number_where_every_bout_has_its_number(meet: Tournament) -> None:
    leave(meet, 3, 6)
    wrestle(Bout.objects.get(round="QF", position=1), 0)
    director = signed_in("director", meet)
    page = text(director.get(DESK))
    assert 'id="step-numbers" class="done"' in page
    assert "8 bouts are numbered on 8 mats" in page
    assert ">1 of 8<" in page
    assert "number" not in buttons(director, f"{DESK}draw/")


def test_what_has_no_number_is_counted_and_not_a_difference() -> None:
    """125 has more numbers than bouts; 133 has none for its fourteen."""
    meet = load(document(("125", "133"), entries=8))
    leave(meet, 3, 6)
    Bout.objects.filter(drawn__weight_class=at(meet, "133")).update(number=None, mat="")
    director = signed_in("director", meet)
    assert "14 bouts have no number and no mat" in text(director.get(DESK))
    assert [one.unnumbered for one in stages(meet)] == [0, 14]


def test_a_draw_that_is_taken_back_leaves_no_count(meet: Tournament) -> None:
    take_back_draw(call=CALL, weight=at(meet), reason="again")
    now = stage(meet)
    assert (now.bouts, now.numbered, now.unnumbered, now.wrestled) == (0, 0, 0, 0)
