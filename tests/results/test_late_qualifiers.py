"""Late changes in a field that came by place: alternates on the line, spots that are inherited."""

from dataclasses import replace
from datetime import timedelta

import pytest

from brackets.queries import drawn, line_up
from results.core.late import Remedy
from results.queries.weigh_in import Case
from results.serializers.document import check_document, dump
from results.services import draw_weight, take_out
from results.services.late import look_at_cases
from seeding.core.errors import TooLate
from seeding.core.qualifying import Spot
from seeding.entries.models import Entry
from seeding.queries.qualifying import spots
from tests.results.championship import CALL
from tests.results.late import SUB, entry
from tests.results.regions import UNTIL, by_spot, ready, two_regions

pytestmark = pytest.mark.django_db


def test_an_alternate_steps_onto_the_line_after_the_draw() -> None:
    meet = two_regions()
    field, _gone, first = ready(meet)
    draw_weight(call=CALL, weight=field)
    one = by_spot(meet, "B1")
    place = line_up(drawn(field).lines).index(one.key)
    case = Case(entry(meet, one.key), Remedy.ALTERNATE)
    seen = look_at_cases(CALL, [case])
    assert [row.after for row in seen.field if row.what.startswith(first.wrestler.name)] == [
        "entered"
    ]
    take_out(call=CALL, case=case, mark=seen.mark)
    assert line_up(drawn(field).lines)[place] == first.key
    assert spots(field)[first.key] == Spot("B", 1)
    late = replace(CALL, now=UNTIL + timedelta(seconds=1))
    with pytest.raises(TooLate):
        take_out(call=late, case=Case(by_spot(meet, "B2"), Remedy.ALTERNATE))


def test_a_substitute_of_a_qualifier_holds_his_spot() -> None:
    meet = two_regions()
    field, _gone, _first = ready(meet)
    one = entry(meet, by_spot(meet, "B1").key)
    take_out(call=CALL, case=Case(one, Remedy.SUBSTITUTE, person=SUB))
    came = Entry.objects.get(tournament=meet, wrestler__family="Sub")
    assert spots(field)[came.key] == Spot("B", 1)
    draw_weight(call=CALL, weight=field)
    assert came.key in line_up(drawn(field).lines)
    check_document(dump(meet))
