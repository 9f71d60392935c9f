"""What the committee may do: challenges in a window, recusal, the largest move, open groups."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from seeding.core.errors import (
    Answered,
    ChallengesOpen,
    LeftOpen,
    MoveTooFar,
    NotHeard,
    OrderChanged,
    OwnWrestler,
    WindowClosed,
)
from seeding.core.put_in import Voted
from seeding.entries.models import Entry, Tournament, User, WeightClass
from seeding.entries.services import give_role, scratch_entry
from seeding.journal.core.errors import Invalid, NotAllowed
from seeding.journal.services import Call
from seeding.models import Challenge, Override, OwnTeam, SeedOrder
from seeding.queries import order_of
from seeding.services import (
    adopt_order,
    challenge,
    close_challenges,
    grant_challenge,
    move_seed,
    open_challenges,
    refuse_challenge,
    set_inputs,
    set_own_teams,
    take_back_move,
    withdraw_challenge,
)
from seeding.services.put_in import set_ballot
from tests.seeding.entries.desks import CALL, NOW, enter, signed_in
from tests.seeding.rooms import key, room, rule, rules, three

pytestmark = pytest.mark.django_db


@pytest.fixture
def tournament() -> Tournament:
    return three()


@pytest.fixture
def weight(tournament: Tournament) -> WeightClass:
    return tournament.weights.get(key="125")


def entry(family: str) -> Entry:
    return Entry.objects.get(wrestler__family=family)


def names(weight: WeightClass) -> list[str]:
    order = order_of(weight)
    return [order.names[uid].split()[-1] for uid in order.order]


def ask(low: str = "Quill", high: str = "Holm", call: Call = CALL) -> Challenge:
    challenge(call=call, entry=entry(low), over=entry(high), by="Coach Bly", reason="January 8")
    return Challenge.objects.latest("pk")


def member(tournament: Tournament, name: str, role: str = "committee") -> Call:
    user = User.objects.create(username=name, organisation=tournament.organisation)
    give_role(call=CALL, tournament=tournament, user=user, name=role)
    return Call(user.pk, NOW)


def test_a_challenge_is_heard_only_in_its_window(weight: WeightClass) -> None:
    with pytest.raises(WindowClosed, match="none is open"):
        ask()
    open_challenges(call=CALL, weight=weight, until=None)
    hours = timedelta(hours=24)
    assert SeedOrder.objects.get().challenges_until == NOW + hours
    ask()
    with pytest.raises(WindowClosed, match="a time that is past"):
        ask(call=Call(0, NOW + hours))
    close_challenges(call=CALL, weight=weight)
    with pytest.raises(WindowClosed):
        ask()
    with pytest.raises(Invalid, match="past"):
        open_challenges(call=CALL, weight=weight, until=NOW)


def test_a_granted_challenge_moves_him_and_names_the_move(weight: WeightClass) -> None:
    open_challenges(call=CALL, weight=weight, until=None)
    row = ask()
    assert names(weight) == ["Holm", "Reed", "Quill"]
    with pytest.raises(Invalid, match="Say why"):
        grant_challenge(call=CALL, challenge=row, answer=" ")
    grant_challenge(call=CALL, challenge=row, answer="We agree")
    assert names(weight) == ["Quill", "Holm", "Reed"]
    row.refresh_from_db()
    move = Override.objects.get()
    assert (row.state, row.answer, row.move) == ("granted", "We agree", move)
    assert (move.before, move.to, move.reason) == (3, 1, "Challenge by Coach Bly: We agree")
    with pytest.raises(Answered, match="granted already"):
        refuse_challenge(call=CALL, challenge=row, answer="No")


def test_an_order_with_a_challenge_that_waits_is_not_adopted(weight: WeightClass) -> None:
    open_challenges(call=CALL, weight=weight, until=None)
    first, second = ask(), ask("Reed")
    with pytest.raises(ChallengesOpen, match="Sam Quill over Ira Holm, by Coach Bly"):
        adopt_order(call=CALL, weight=weight)
    refuse_challenge(call=CALL, challenge=first, answer="He lost the two later ones")
    withdraw_challenge(call=CALL, challenge=second)
    adopt_order(call=CALL, weight=weight)
    assert names(weight) == ["Holm", "Reed", "Quill"]


def test_only_challenges_that_the_rule_book_hears(
    tournament: Tournament, weight: WeightClass
) -> None:
    open_challenges(call=CALL, weight=weight, until=None)
    with pytest.raises(Invalid, match="stands above him"):
        ask("Holm", "Quill")
    enter(tournament, "133", "Abe Yarrow")
    with pytest.raises(Invalid, match="Both must be entered"):
        ask("Quill", "Yarrow")
    rule(tournament, challenge_needs=["head-to-head"])
    with pytest.raises(NotHeard, match="head-to-head does not speak for Sam Quill over Ira Holm"):
        ask()
    rule(tournament, challenges="none")
    with pytest.raises(NotHeard, match="hears none"):
        ask("Reed")
    weight.refresh_from_db()
    with pytest.raises(NotHeard, match="hears none"):
        open_challenges(call=CALL, weight=weight, until=None)


def test_who_may_ask_and_answer(tournament: Tournament, weight: WeightClass) -> None:
    reader = member(tournament, "reader", "reader")
    open_challenges(call=CALL, weight=weight, until=None)
    row = ask()
    for act in (
        lambda: ask(call=reader),
        lambda: grant_challenge(call=reader, challenge=row, answer="x"),
        lambda: withdraw_challenge(call=reader, challenge=row),
        lambda: close_challenges(call=reader, weight=weight),
        lambda: set_own_teams(
            call=reader, tournament=tournament, user=User.objects.get(pk=reader.actor), teams=[]
        ),
    ):
        with pytest.raises(NotAllowed):
            act()


def test_a_member_has_no_say_over_his_own(tournament: Tournament, weight: WeightClass) -> None:
    kim = member(tournament, "kim")
    user, team = User.objects.get(username="kim"), tournament.teams.get(name="Team Quill")
    set_own_teams(call=CALL, tournament=tournament, user=user, teams=[team])
    with pytest.raises(OwnWrestler, match="Sam Quill is of your own team"):
        move_seed(call=kim, entry=entry("Quill"), to=1, reason="x")
    with pytest.raises(OwnWrestler):  # past his own
        move_seed(call=kim, entry=entry("Reed"), to=3, reason="x")
    move_seed(call=kim, entry=entry("Reed"), to=1, reason="Beat Quill")
    open_challenges(call=kim, weight=weight, until=None)
    row = ask(high="Reed", call=kim)
    for answer in (grant_challenge, refuse_challenge):
        with pytest.raises(OwnWrestler):
            answer(call=kim, challenge=row, answer="x")
    with pytest.raises(OwnWrestler):
        withdraw_challenge(call=kim, challenge=row)
    move_seed(call=CALL, entry=entry("Quill"), to=1, reason="x")
    with pytest.raises(OwnWrestler):
        take_back_move(call=kim, override=Override.objects.latest("pk"))
    rule(tournament, own_wrestlers="say")
    move_seed(call=kim, entry=entry("Quill"), to=2, reason="x")


def test_own_teams_are_of_those_in_the_room(tournament: Tournament) -> None:
    team = tournament.teams.get(name="Team Quill")
    member(tournament, "table", "table")
    table = User.objects.get(username="table")
    with pytest.raises(Invalid, match="no part in the seeding room"):
        set_own_teams(call=CALL, tournament=tournament, user=table, teams=[team])
    director = signed_in("director", tournament)
    kim = User.objects.get(pk=member(tournament, "kim").actor)
    page = "/desk/spring/own-teams/"
    assert "kim" in director.get(page).content.decode()
    director.post(page, {"do": f"own-{kim.pk}", "teams": [team.key]})
    assert OwnTeam.objects.get().team == team
    client = Client()
    client.force_login(kim)
    assert client.get(page).status_code == 403
    assert "your own team: no say" in client.get(room()).content.decode()
    sent = {"do": "move", "entry": key("Quill"), "to": "1", "reason": "x"}
    assert "you have no say over his place" in client.post(room(), sent).content.decode()
    director.post(page, {"do": f"own-{kim.pk}"})
    assert not OwnTeam.objects.exists()


def test_a_move_goes_no_further_than_the_rule_book_lets_it(
    tournament: Tournament, weight: WeightClass
) -> None:
    rule(tournament, largest_move=1)
    with pytest.raises(MoveTooFar, match=r"at most 1 .* Sam Quill a place from 2 to 3"):
        move_seed(call=CALL, entry=entry("Quill"), to=1, reason="x")
    move_seed(call=CALL, entry=entry("Quill"), to=2, reason="x")
    with pytest.raises(MoveTooFar):  # nor in two steps
        move_seed(call=CALL, entry=entry("Quill"), to=1, reason="x")
    assert Override.objects.get().before == 3


def test_what_the_list_leaves_open_is_decided_by_a_move_with_its_reason(
    tournament: Tournament,
) -> None:
    rules(tournament, final="committee")
    weight = enter(tournament, "133", "Abe Yarrow", "Lou Umber", "Max Tarn")
    order = order_of(weight)
    assert len(order.undecided) == 1
    assert set(order.undecided[0]) == set(order.order)
    client = signed_in("committee", tournament)
    assert "Left to the committee." in client.get(room(weight="133")).content.decode()
    with pytest.raises(LeftOpen, match="Umber"):
        adopt_order(call=CALL, weight=weight)
    first, second, _third = (order.entries[uid] for uid in order.order)
    rule(tournament, largest_move=1)  # which binds nobody inside such a group
    move_seed(call=CALL, entry=second, to=1, reason="Seen on film")
    with pytest.raises(LeftOpen):
        adopt_order(call=CALL, weight=weight)
    move_seed(call=CALL, entry=first, to=2, reason="Stays where he stands")
    adopt_order(call=CALL, weight=weight)
    assert Entry.objects.get(pk=second.pk).seed == 1
    assert "Left to the committee." not in client.get(room(weight="133")).content.decode()


def test_who_comes_late_is_told_what_happened(tournament: Tournament, weight: WeightClass) -> None:
    kim, lee = member(tournament, "kim"), member(tournament, "lee")
    move_seed(call=kim, entry=entry("Reed"), to=1, reason="Better of late")
    move_seed(call=kim, entry=entry("Quill"), to=2, reason="Why not")
    late = Call(lee.actor, NOW, expected=1)
    with pytest.raises(OrderChanged) as refusal:
        move_seed(call=late, entry=entry("Holm"), to=3, reason="x")
    assert "10:00 kim moved Sam Quill, 125 (Qui) to place 2 (“Why not”)." in str(refusal.value)
    assert "Better of late" not in str(refusal.value)
    with pytest.raises(OrderChanged, match="Better of late"):
        adopt_order(call=Call(lee.actor, NOW, expected=0), weight=weight)


def test_who_comes_late_is_told_of_ranks_and_ballots(
    tournament: Tournament, weight: WeightClass
) -> None:
    kim, lee = member(tournament, "kim"), member(tournament, "lee")
    set_inputs(call=kim, weight=weight, values={entry("Holm").pk: (2, None)})
    ballot = Voted(weight.label, "Coach Ash", "", {key("Holm"): 1})
    set_ballot(call=kim, weight=weight, ballot=ballot)
    with pytest.raises(OrderChanged, match=r"kim put in ranks and places; .* kim put in a ballot"):
        adopt_order(call=Call(lee.actor, NOW, expected=0), weight=weight)


def test_the_page_of_challenges(tournament: Tournament, weight: WeightClass) -> None:
    client, page = signed_in("committee", tournament), room("desk-challenges")
    assert "No window has been opened yet." in client.get(page).content.decode()
    until = timezone.now() + timedelta(hours=3)
    local = until.astimezone(timezone.get_fixed_timezone(-360)).strftime("%Y-%m-%dT%H:%M")
    past = client.post(page, {"do": "window", "until": "2020-01-01T10:00"}).content.decode()
    assert "This time is past." in past
    assert client.post(page, {"do": "window", "until": local}).status_code == 302
    assert SeedOrder.objects.get().challenges_until is not None
    new = client.get(page).context["new"]
    assert (new["entry"].value(), new["over"].value()) == (key("Reed"), key("Holm"))
    sent = {"entry": key("Quill"), "over": key("Holm"), "by": "Coach Bly", "reason": "January 8"}
    assert client.post(page, {"do": "new", **sent}).status_code == 302
    row = Challenge.objects.get()
    text = client.get(page).content.decode()
    assert "Sam Quill over Ira Holm" in text
    assert "asked by Coach Bly, recorded by committee" in text
    assert "Challenges wait for an answer." in client.get(room()).content.decode()
    refused = client.post(page, {"do": f"refuse-{row.pk}", "answer": ""}).content.decode()
    assert "This field is required." in refused
    client.post(page, {"do": f"grant-{row.pk}", "answer": "Yes"})
    assert names(weight) == ["Quill", "Holm", "Reed"]
    assert "“Yes”" in client.get(page).content.decode()
    client.post(page, {"do": "close"})
    assert "The window is closed" in client.get(page).content.decode()


def test_a_scratched_wrestler_is_neither_moved_nor_answered_for(
    tournament: Tournament, weight: WeightClass
) -> None:
    open_challenges(call=CALL, weight=weight, until=None)
    row = ask()
    scratch_entry(call=CALL, entry=entry("Quill"))
    with pytest.raises(Invalid, match="scratched"):
        move_seed(call=CALL, entry=entry("Quill"), to=1, reason="x")
    with pytest.raises(Invalid, match="scratched"):
        grant_challenge(call=CALL, challenge=row, answer="x")
    withdraw_challenge(call=CALL, challenge=row)
    adopt_order(call=CALL, weight=weight)
