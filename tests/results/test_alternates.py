"""Who steps in for whom, until when, and the way back."""

from dataclasses import replace
from datetime import timedelta

import pytest

from results.services.qualifying import take_places
from seeding.core.errors import (
    NobodyStandsBy,
    NotSteppedIn,
    PlaceHeld,
    TooLate,
)
from seeding.core.qualifying import Spot
from seeding.entries.core.errors import StandsBy
from seeding.entries.models import Entry, Tournament
from seeding.entries.services import (
    restore_entry,
    scratch_entry,
)
from seeding.journal.core.errors import Stale
from seeding.journal.models import Act
from seeding.models import Berth
from seeding.queries.qualifying import candidates, field_of, spots
from seeding.services.alternates import step_back, step_in
from seeding.services.qualifying import (
    accept_candidates,
    needed_plan,
)
from tests.results.championship import CALL
from tests.results.regions import (
    UNTIL,
    by_spot,
    plan,
    ready,
    two_regions,
    weight,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def meet() -> Tournament:
    return two_regions()


def test_after_the_stated_time_nobody_steps_in(meet: Tournament) -> None:
    _at, gone, first = ready(meet)
    late = replace(CALL, now=UNTIL + timedelta(seconds=1))
    with pytest.raises(TooLate, match=r"until 2026-03-19 12:00 \(America/Chicago\)"):
        step_in(call=late, entry=gone, alternate=first)
    step_in(call=replace(CALL, now=UNTIL), entry=gone, alternate=first)
    told = Act.objects.order_by("-pk")[0]
    assert told.verb == "alternate.stepped-in"
    assert told.subject == {"entry": first.pk, "for": gone.pk}


def test_who_steps_in_for_whom_is_refused_by_name(meet: Tournament) -> None:
    at, gone, first = ready(meet)
    with pytest.raises(PlaceHeld, match="he is not scratched"):
        step_in(call=CALL, entry=by_spot(meet, "A1"), alternate=first)
    second = Berth.objects.get(entry__weight_class=at, how="alternate", order=2).entry
    with pytest.raises(Stale):
        step_in(call=CALL, entry=gone, alternate=second)
    step_in(call=CALL, entry=gone, alternate=first)
    with pytest.raises(PlaceHeld, match="stepped in already"):
        step_in(call=CALL, entry=gone, alternate=second)
    with pytest.raises(PlaceHeld, match="take that back first"):
        restore_entry(call=CALL, entry=Entry.objects.get(pk=gone.pk))
    assert Entry.objects.get(pk=gone.pk).status == "scratched"


def test_an_alternate_who_is_scratched_too_is_replaced_by_the_next(meet: Tournament) -> None:
    at, gone, first = ready(meet)
    step_in(call=CALL, entry=gone, alternate=first)
    scratch_entry(call=CALL, entry=Entry.objects.get(pk=first.pk))
    second = field_of(at).first
    assert second
    step_in(call=CALL, entry=Entry.objects.get(pk=first.pk), alternate=second.entry)
    assert spots(at)[second.entry.key] == Spot("A", 2)
    other = by_spot(meet, "B1")
    scratch_entry(call=CALL, entry=other)
    with pytest.raises(NobodyStandsBy):
        step_in(call=CALL, entry=other, alternate=second.entry)


def test_an_alternate_goes_back_and_stands_by_again(meet: Tournament) -> None:
    at, gone, first = ready(meet)
    with pytest.raises(NotSteppedIn):
        step_back(call=CALL, entry=first)
    step_in(call=CALL, entry=gone, alternate=first)
    assert candidates(at, needed_plan(meet)).accepted
    step_back(call=CALL, entry=first)
    assert candidates(at, needed_plan(meet)).accepted
    assert Entry.objects.get(pk=first.pk).status == "standby"
    assert field_of(at).first.entry_id == first.pk  # type: ignore[union-attr]
    restore_entry(call=CALL, entry=Entry.objects.get(pk=gone.pk))
    assert spots(at)[gone.key] == Spot("A", 2)


def test_who_stands_by_is_not_restored_and_who_was_scratched_stands_by_again(
    meet: Tournament,
) -> None:
    _at, _gone, first = ready(meet)
    with pytest.raises(StandsBy):
        restore_entry(call=CALL, entry=first)
    scratch_entry(call=CALL, entry=first)
    restore_entry(call=CALL, entry=Entry.objects.get(pk=first.pk))
    assert Entry.objects.get(pk=first.pk).status == "standby"


def test_a_scratched_wild_card_whom_an_alternate_replaced_keeps_his_number(
    meet: Tournament,
) -> None:
    plan(meet, wild_cards=1, alternates=3)
    take_places(call=CALL, tournament=meet)
    at = weight(meet)
    accept_candidates(call=CALL, weight=at)
    card = Berth.objects.get(entry__weight_class=at, how="wild card").entry
    scratch_entry(call=CALL, entry=card)
    first = field_of(at).first
    assert first
    step_in(call=CALL, entry=card, alternate=first.entry)
    accept_candidates(call=CALL, weight=at)
    assert candidates(at, needed_plan(meet)).choice.wild_cards == ()
    assert spots(at)[first.entry.key] == Spot("", 1)


def test_a_scratched_wild_card_makes_room_for_the_next_when_the_order_is_accepted_anew(
    meet: Tournament,
) -> None:
    plan(meet, wild_cards=1)
    take_places(call=CALL, tournament=meet)
    at = weight(meet)
    accept_candidates(call=CALL, weight=at)
    card = Berth.objects.get(entry__weight_class=at, how="wild card").entry
    scratch_entry(call=CALL, entry=card)
    accept_candidates(call=CALL, weight=at)
    new = Berth.objects.get(entry__weight_class=at, how="wild card")
    assert new.entry_id != card.pk
    assert field_of(at).vacancies == ()
