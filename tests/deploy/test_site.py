"""The navigation: who is shown which way."""

from types import SimpleNamespace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.test import RequestFactory, override_settings
from django.urls import path

from deploy.templatetags.site import DESK, PUBLIC, desk_links, mat_links, public_links, word


def view(request: HttpRequest, **rest: str) -> HttpResponse:
    """Stands for every page."""
    return HttpResponse()


urlpatterns = [
    *(path(f"t/<slug>/{s.name}/", view, name=s.name) for s in PUBLIC),
    *(path(f"desk/<slug>/{s.name}/", view, name=s.name) for s in DESK if s.name != "desk-seeding"),
    path("desk/<slug>/seeding/<weight>/", view, name="desk-seeding"),
    path("desk/<slug>/mats/<mat>/", view, name="mat-table"),
]


def context(*rights: str, at: str = "", mat: str = "", **gates: bool) -> dict[str, Any]:
    request: Any = RequestFactory().get("/")
    request.resolver_match = SimpleNamespace(url_name=at, kwargs={"mat": mat} if mat else {})
    request.rights = frozenset(rights)
    weights = SimpleNamespace(first=lambda: SimpleNamespace(key="125"))
    shown = {"shows_draw": False, "shows_team_points": False, **gates}
    event = SimpleNamespace(slug="open", mats=["1", "2"], weights=weights, **shown)
    return {"request": request, "tournament": event}


def words(links: list[Any]) -> list[str]:
    return [str(link.label) for link in links]


@override_settings(ROOT_URLCONF=__name__)
def test_public_links_follow_the_gates() -> None:
    assert words(public_links(context())) == ["Overview"]
    assert words(public_links(context(shows_draw=True))) == ["Overview", "Bouts"]
    assert words(public_links(context(shows_team_points=True))) == ["Overview", "Team points"]


@override_settings(ROOT_URLCONF=__name__)
def test_desk_links_follow_the_rights() -> None:
    assert words(desk_links(context())) == []
    assert words(desk_links(context("read"))) == [
        "Overview", "Entries", "Bouts", "Team points", "Log",
    ]  # fmt: skip
    assert len(desk_links(context("own", "direct", "seed", "record", "read"))) == len(DESK)


@override_settings(ROOT_URLCONF=__name__)
def test_the_seeding_room_is_entered_at_the_lightest_weight() -> None:
    links = {str(link.label): link.url for link in desk_links(context("seed"))}
    assert links["Seeding"] == "/desk/open/seeding/125/"


@override_settings(ROOT_URLCONF=__name__)
def test_a_link_says_where_one_is() -> None:
    here = {str(link.label): link.here for link in desk_links(context("read", at="desk-bout"))}
    assert here["Bouts"] == "true"
    assert [link.here for link in public_links(context(at="front"))] == ["page"]


@override_settings(ROOT_URLCONF=__name__)
def test_mat_tables_are_for_those_who_record() -> None:
    assert mat_links(context("read")) == []
    assert [(m.label, m.here) for m in mat_links(context("record", at="mat-table", mat="2"))] == [
        ("Mat 1", ""), ("Mat 2", "page"),
    ]  # fmt: skip


def test_an_unknown_state_is_shown_as_it_is() -> None:
    assert word("waiting") == "waiting"
    assert word("something else") == "something else"
