"""What the committee did travels in the tournament file."""

from typing import Any

import pytest

from results.serializers.document import check_document, dump
from results.services import load_tournament
from seeding.entries.models import Entry, Organisation, Tournament, User
from seeding.entries.services import give_role
from seeding.journal.core.errors import Invalid
from seeding.journal.services import Call
from seeding.models import Challenge, Override, OwnTeam, SeedOrder, Signature
from seeding.queries.minutes import signable
from seeding.services import (
    adopt_order,
    challenge,
    grant_challenge,
    move_seed,
    open_challenges,
    set_own_teams,
    sign_minutes,
)
from tests.seeding.entries.desks import CALL, NOW
from tests.seeding.rooms import three

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]


def entry(family: str) -> Entry:
    return Entry.objects.get(wrestler__family=family)


@pytest.fixture
def tournament() -> Tournament:
    """A weight that was moved in, challenged, adopted and signed."""
    made = three()
    kim = User.objects.create(username="kim", organisation=made.organisation)
    give_role(call=CALL, tournament=made, user=kim, name="committee")
    call, weight = Call(kim.pk, NOW), made.weights.get(key="125")
    set_own_teams(call=CALL, tournament=made, user=kim, teams=[made.teams.get(name="Team Reed")])
    open_challenges(call=call, weight=weight, until=None)
    challenge(call=call, entry=entry("Quill"), over=entry("Holm"), by="Coach Bly", reason="Jan 8")
    grant_challenge(call=CALL, challenge=Challenge.objects.get(), answer="Yes")
    move_seed(call=CALL, entry=entry("Holm"), to=1, reason="No")
    adopt_order(call=call, weight=weight)
    digest = signable(weight).digest
    sign_minutes(call=call, weight=weight, name="Kim Aldous", digest=digest)
    return made


def again(file: dict[str, Any], call: Call = CALL) -> Tournament:
    """The file loaded beside the first tournament."""
    check_document(file)
    file = file | {"tournament": file["tournament"] | {"slug": "copy"}}
    load_tournament(call=call, organisation=Organisation.objects.get(), document=file)
    return Tournament.objects.get(slug="copy")


def test_out_and_in_again(tournament: Tournament) -> None:
    file = dump(tournament)
    loaded = again(file)
    told = dump(loaded)
    assert told["own_teams"] == file["own_teams"] == [{"user": "kim", "teams": ["team-reed"]}]
    mine = [
        next(one for one in each["weight_classes"] if one["id"] == "125") for each in (file, told)
    ]
    assert mine[0]["seeding"] == mine[1]["seeding"]
    order = SeedOrder.objects.get(weight_class__tournament=loaded)
    assert order.adopted_by == User.objects.get(username="kim")
    moves = Override.objects.filter(order=order)
    assert [(row.before, row.to) for row in moves] == [(3, 1), (2, 1)]
    assert Challenge.objects.get(order=order).move == moves[0]
    found = signable(loaded.weights.get(key="125"))
    assert found.signatures[0].stands
    assert found.minutes == signable(tournament.weights.get(key="125")).minutes


def test_a_signature_in_a_file_is_only_a_claim(tournament: Tournament) -> None:
    founder = User.objects.create(
        username="founder", organisation=tournament.organisation, founds=True
    )
    loaded = again(dump(tournament), Call(founder.pk, NOW))
    assert not Signature.objects.filter(order__weight_class__tournament=loaded).exists()


def test_people_who_cannot_sign_in_here_are_passed_over(tournament: Tournament) -> None:
    file = dump(tournament)
    User.objects.filter(username="kim").update(username="other")
    loaded = again(file)
    assert not OwnTeam.objects.filter(tournament=loaded).exists()
    assert Challenge.objects.get(order__weight_class__tournament=loaded).author is None


@pytest.mark.parametrize(
    ("field", "value", "where"),
    [
        ("adopted_at", "2026-13-41T10:00", "seeding.adopted_at"),
        ("challenges_until", "2026-03-19T10:00", "seeding.challenges_until"),
        ("challenges", [{"move": 7}], "seeding.challenges[0].move"),
        ("challenges", [{"over": "nobody"}], "seeding.challenges[0].over"),
        ("inputs", [{"value": 3, "weight": "133"}], "seeding.inputs[0]"),
        ("inputs", [{"value": 0}], "seeding.inputs[0]"),
    ],
)
def test_what_is_wrong_is_named(tournament: Tournament, field: str, value: Any, where: str) -> None:
    file = dump(tournament)
    kept = next(one for one in file["weight_classes"] if one["id"] == "125")["seeding"]
    rank = {"entry": entry("Holm").key, "kind": "ranking", "table": "coaches"}
    base = {"challenges": kept["challenges"][0], "inputs": rank}
    kept[field] = [base[field] | value[0]] if field in base else value
    with pytest.raises(Invalid) as refusal:
        again(file)
    assert refusal.value.problems[0].where.endswith(where)
