"""Under every list of the program: the same words everywhere, circles and open groups shown."""

import re

import pytest

from seeding.entries.models import Division, Tournament
from seeding.queries import order_of
from seeding.queries.minutes import signable
from seeding.rulebooks import lists
from seeding.services.lists import use_list
from tests.results.interface import with_role
from tests.seeding.entries.desks import CALL, enter, signed_in
from tests.seeding.rooms import CIRCLE, beat, room, three
from tests.seeding.test_minutes import paper, words

pytestmark = pytest.mark.django_db

API = "/tournaments/spring/weights/125/order"


@pytest.fixture
def tournament() -> Tournament:
    """A circle of three, two below it, and one whom nobody has met."""
    made = three(CIRCLE)
    enter(made, "125", "Abe Yarrow", "Lou Umber", "Max Tarn")
    beat(made, 9, "Quill", "Yarrow")
    beat(made, 10, "Yarrow", "Umber")
    return made


def use(tournament: Tournament, name: str) -> None:
    use_list(call=CALL, division=Division.objects.get(tournament=tournament), name=name)


@pytest.mark.parametrize("name", lists())
def test_every_list_is_told_in_one_voice(tournament: Tournament, name: str) -> None:
    use(tournament, name)
    weight = tournament.weights.get(key="125")
    api, client = with_role(tournament, "reader"), signed_in("committee", tournament)
    page = words(client.get(room()).content.decode())
    told, found = api.get(f"{API}/"), signable(weight).minutes
    minuted, on_paper = words(client.get(room("desk-minutes")).content.decode()), paper(weight)
    assert len(told["reasons"]) == len(found.order) - 1 == 5
    for reason, line in zip(told["reasons"], found.order, strict=False):
        assert (reason["text"], tuple(reason["bouts"])) == (line.why, line.bouts)
        assert "?" not in reason["text"]
        for text in (line.why, *line.bouts):
            assert text in page
            assert text in minuted
            assert text in on_paper
    for circle in found.circles:
        for text in (circle.settled, *circle.round, *circle.against):
            assert text in page
            assert text in minuted
            assert text in on_paper
    assert [list(group) for group in found.undecided] == [
        [line.name for key in group for line in found.order if line.entry == key]
        for group in told["undecided"]
    ]
    for path in ("desk-grid", "desk-violations"):
        assert client.get(room(path)).status_code == 200
    assert found.rules.name in minuted
    assert not re.search(r"\{\w+\}", minuted)


def test_a_circle_names_the_bout_that_the_order_goes_against(tournament: Tournament) -> None:
    told = []
    for name in lists():
        use(tournament, name)
        order = order_of(tournament.weights.get(key="125"))
        if not order.proposal.circles:
            continue
        told.append(name)
        found = signable(tournament.weights.get(key="125")).minutes
        circle = found.circles[0]
        assert set(circle.names) == {"Ira Holm", "Tom Reed", "Sam Quill"}
        assert len(circle.round) == 3
        assert all("beat" in line for line in circle.round)
        assert circle.against
        flags = [flag for line in found.order for flag in line.flags]
        assert any("In the circle of" in flag for flag in flags), name
    assert told
