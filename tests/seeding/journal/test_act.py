"""One write is one act: once per key, never over somebody else's change, in an unbroken chain."""

from dataclasses import replace
from typing import Any

import pytest

from seeding.entries.models import Tournament
from seeding.entries.services import edit_tournament, set_gates
from seeding.journal.core.errors import KeyReused, NotAllowed, Stale
from seeding.journal.models import Act, Log
from seeding.journal.queries import acts_after, first_break
from tests.results.championship import CALL, document, load

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]
GATES = {"gates": {"entries": True}}


@pytest.fixture
def tournament() -> Tournament:
    return load(document(entries=8))


def seq(of: Tournament) -> int:
    return Log.objects.get(pk=of.log_id).seq


def test_the_same_key_with_the_same_request_is_one_act(tournament: Tournament) -> None:
    call = replace(CALL, key="k1")
    first = set_gates(call=call, tournament=tournament, **GATES)
    again = set_gates(call=call, tournament=tournament, **GATES)
    assert first.pk == again.pk
    assert seq(tournament) == 2


def test_the_same_key_with_another_request_is_refused(tournament: Tournament) -> None:
    call = replace(CALL, key="k1")
    set_gates(call=call, tournament=tournament, **GATES)
    with pytest.raises(KeyReused, match="'k1' was already used for another request"):
        set_gates(call=call, tournament=tournament, gates={"seeds": True})


def test_keys_are_those_of_one_actor(tournament: Tournament, django_user_model: Any) -> None:
    set_gates(call=replace(CALL, key="k1"), tournament=tournament, **GATES)
    owner = django_user_model.objects.create_superuser("owner", password="x")
    set_gates(call=replace(CALL, actor=owner.pk, key="k1"), tournament=tournament, **GATES)
    assert seq(tournament) == 3


def test_an_old_version_is_refused_and_leaves_nothing(tournament: Tournament) -> None:
    set_gates(call=replace(CALL, expected=0), tournament=tournament, **GATES)
    with pytest.raises(Stale, match="The tournament was changed in the meantime"):
        set_gates(call=replace(CALL, expected=0), tournament=tournament, gates={"seeds": True})
    assert seq(tournament) == 2
    assert not Tournament.objects.get(pk=tournament.pk).shows_seeds


def test_a_refused_act_takes_no_number(tournament: Tournament, django_user_model: Any) -> None:
    stranger = django_user_model.objects.create_user("stranger")
    with pytest.raises(NotAllowed):
        set_gates(call=replace(CALL, actor=stranger.pk), tournament=tournament, **GATES)
    set_gates(call=CALL, tournament=tournament, **GATES)
    assert [act.seq for act in acts_after(tournament.log_id, 0)] == [1, 2]


def test_the_log_is_read_from_a_number_on(tournament: Tournament) -> None:
    for _ in range(3):
        set_gates(call=CALL, tournament=tournament, **GATES)
    assert [act.seq for act in acts_after(tournament.log_id, 2)] == [3, 4]


@pytest.mark.parametrize("change", ["edit", "drop", "swap"])
def test_a_changed_log_is_found_out(tournament: Tournament, change: str) -> None:
    for shown in (True, False, True):
        set_gates(call=CALL, tournament=tournament, gates={"draw": shown})
    assert first_break(tournament.log_id) is None
    acts = Act.objects.filter(log=tournament.log_id)
    if change == "edit":
        acts.filter(seq=2).update(subject={"gates": {"draw": False}})
    elif change == "drop":
        acts.filter(seq=2).delete()
    else:
        acts.filter(seq=2).update(seq=99)
        acts.filter(seq=3).update(seq=2)
        acts.filter(seq=99).update(seq=3)
    assert first_break(tournament.log_id) == 2


def test_names_stay_out_of_the_log(tournament: Tournament) -> None:
    edit_tournament(
        call=CALL,
        tournament=tournament,
        name="Secret Name",
        starts_on=tournament.starts_on,
        time_zone="UTC",
        mats=["1"],
    )
    written = " ".join(str(row.subject) for row in Act.objects.all())
    assert "Secret" not in written
    assert "Family" not in written
