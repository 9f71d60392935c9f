"""A number under which only a void bout was wrestled: it says how the bout is called now."""

import re

import pytest

from brackets.core.replay import Choice
from brackets.models import Bout
from brackets.queries import numbered_bout
from results.core.errors import BoutVoid
from results.models import VoidBout
from seeding.entries.models import Role, Tournament, User
from tests.results.desk import text
from tests.results.interface import Api
from tests.results.overruled import OTHER, at, chosen, wrestled_through
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def old() -> int:
    """The old number of a semifinal that is void, because another comes to it."""
    wrestled_through()
    number = at("SF-1").number or 0
    chosen("QF-1", OTHER, other=Choice.VOID)
    return number


def said(old: int) -> str:
    return f"Bout {old} is void; it is wrestled as bout {at('SF-1').number} now."


def test_the_desk_leads_to_the_bout_that_is_wrestled_instead(old: int) -> None:
    client = signed_in("table", Tournament.objects.get())
    answer = client.get(f"/desk/spring/bouts/find/?number={old}", follow=True)
    assert answer.status_code == 404
    assert f"<h1>{said(old)}</h1>" in text(answer)
    now = f"/desk/spring/bouts/{at('SF-1').number}/"
    assert f'href="{now}"' in text(answer)
    assert client.get(now).status_code == 200
    assert "There is no bout" in text(client.get("/desk/spring/bouts/999/"))


def test_whatever_asks_for_it_is_told(old: int) -> None:
    with pytest.raises(BoutVoid, match="it is wrestled as bout"):
        numbered_bout(Tournament.objects.get(), old)


def test_where_it_has_no_number_now_its_place_in_the_bracket_is_told(old: int) -> None:
    row = VoidBout.objects.get(number=old)
    Bout.objects.filter(pk=row.bout_id).update(number=None)
    page = text(signed_in("table", Tournament.objects.get()).get(f"/desk/spring/bouts/{old}/"))
    assert f"Bout {old} is void; it is wrestled as bout SF-1 now." in page
    assert 'bouts/SF-1/"' not in page


def test_the_interface_says_it_too(old: int) -> None:
    path = f"/tournaments/spring/bouts/{old}"
    signed_in("director", Tournament.objects.get())
    director = Api(User.objects.get(username="director"))
    fall = {"kind": "fall", "winner": "top", "time": "1:00"}
    answers = [
        director.ask("get", f"{path}/"),
        director.ask("post", f"{path}/result/", fall, key="a", match='"0"'),
        director.ask("put", f"{path}/mat/", {"mat": "1"}, key="b", match='"0"'),
    ]
    for answer in answers:
        assert answer.status_code == 404, answer.content
        error = answer.json()["errors"][0]
        assert (error["code"], error["detail"]) == ("bout-void", said(old))


@pytest.mark.parametrize("results", [True, False])
def test_the_public_is_told_only_where_results_are_open(old: int, results: bool) -> None:
    Tournament.objects.update(shows_draw=True, shows_results=results)
    path = f"/tournaments/spring/bouts/{old}/"
    error = Api().get(path, 404)["errors"][0]
    plain = f"There is no bout '{old}' here."
    assert error["detail"] == (said(old) if results else plain)
    event = Tournament.objects.get()
    Role.objects.filter(tournament=event).delete()
    outsider = User.objects.create_user("outsider", organisation=event.organisation)
    sent = Api(outsider).ask("put", f"{path}mat/", {"mat": "1"}, key="c", match='"0"')
    assert sent.status_code == 403


def test_the_log_says_the_number_that_a_bout_had(old: int) -> None:
    page = text(signed_in("director", Tournament.objects.get()).get("/desk/spring/log/"))
    told = re.findall(r"(Result entered|Result corrected)\W.*?(\d[^<]*?)<", page, re.DOTALL)
    now = f"{old} (now {at('SF-1').number})"
    assert [about.strip() for verb, about in told if "entered" in verb].count(now) == 1
    (corrected,) = [about for verb, about in told if "corrected" in verb]
    assert corrected.startswith(f"{at('QF-1').number}; ")
    assert now in corrected
