"""Shapes of qualifying: the plan, the regions, the field of a weight; and its section of a file."""

from typing import Any

from django.db.models import Q
from rest_framework import serializers

from seeding.entries.models import Entry, Tournament
from seeding.entries.serializers.people import moment
from seeding.journal.serializers import StrictSerializer
from seeding.models import Berth
from seeding.queries.qualifying import (
    Candidates,
    Field,
    RegionSeen,
    Standing,
    Tally,
    berths,
    plan_of,
    regions,
)
from seeding.serializers.order import ReasonSerializer

Item = dict[str, Any]
HOW = Berth.How.values
MOST = 64


class PlanSerializer(StrictSerializer):
    """How many of each weight advance, come in beside them, and wait."""

    places = serializers.IntegerField(min_value=1, max_value=8, help_text="Of each region.")
    wild_cards = serializers.IntegerField(min_value=0, max_value=MOST)
    alternates = serializers.IntegerField(min_value=0, max_value=MOST)
    alternates_until = serializers.DateTimeField(
        allow_null=True, help_text="Alternates step in until then; null: until the draw."
    )


class RegionSerializer(StrictSerializer):
    """A region; `event` is the slug of the tournament that was its event, if it was run here."""

    letter = serializers.RegexField(r"^[A-Z]{1,2}$", max_length=2)
    name = serializers.CharField(max_length=120)
    event = serializers.CharField(max_length=50, allow_null=True)


class RegionSeenSerializer(serializers.Serializer[Any]):
    """A region, and how many entries came from it."""

    letter = serializers.CharField()
    name = serializers.CharField()
    event = serializers.CharField(allow_null=True)
    entries = serializers.IntegerField()


class TallySerializer(serializers.Serializer[Any]):
    """How many of a weight are in the field and how, and how many wait."""

    weight = serializers.CharField()
    by_place = serializers.IntegerField()
    wild_cards = serializers.IntegerField()
    stepped_in = serializers.IntegerField()
    alternates = serializers.IntegerField()
    candidates = serializers.IntegerField()


class QualifyingSerializer(serializers.Serializer[Any]):
    """The qualifying of a tournament; `plan` is null until somebody makes one."""

    seq = serializers.IntegerField()
    version = serializers.IntegerField(help_text="Of the plan.")
    plan = PlanSerializer(allow_null=True)
    regions = RegionSeenSerializer(many=True)
    weights = TallySerializer(many=True)


class HeldSerializer(serializers.Serializer[Any]):
    """An entry of the field; `spot` such as A1, or *1 for a wild card."""

    entry = serializers.CharField()
    name = serializers.CharField()
    how = serializers.ChoiceField(HOW)
    spot = serializers.CharField(allow_null=True)


class CandidateSerializer(serializers.Serializer[Any]):
    """Who did not advance: how he comes in or waits by the list, and how he is in now."""

    entry = serializers.CharField()
    name = serializers.CharField()
    proposed = serializers.ChoiceField(HOW)
    how = serializers.ChoiceField(HOW)
    order = serializers.IntegerField(allow_null=True)


class FieldSerializer(serializers.Serializer[Any]):
    """The field of a weight, and its candidates in the order of the rule book's list."""

    seq = serializers.IntegerField()
    weight = serializers.CharField()
    mark = serializers.CharField(help_text="Of the candidates' order, to accept what you read.")
    accepted = serializers.BooleanField()
    by_place = HeldSerializer(many=True)
    stepped_in = HeldSerializer(many=True)
    vacancies = HeldSerializer(many=True)
    without_place = serializers.ListField(child=serializers.CharField())
    candidates = CandidateSerializer(many=True)
    reasons = ReasonSerializer(many=True)
    first_alternate = serializers.CharField(allow_null=True)


class PlaceSerializer(StrictSerializer):
    """For which place an entry is here; a null region takes that back."""

    entry = serializers.CharField(max_length=40)
    region = serializers.CharField(max_length=2, allow_null=True)
    place = serializers.IntegerField(min_value=1, max_value=99, allow_null=True)


class PlacesByHandSerializer(StrictSerializer):
    """Places of entries of one weight."""

    items = PlaceSerializer(many=True, max_length=256)  # type: ignore[call-arg]


class MarkSerializer(StrictSerializer):
    """What was looked at: refused where it reads otherwise now."""

    mark = serializers.CharField(max_length=16)


class StepInSerializer(StrictSerializer):
    """Whom the caller saw as the first alternate."""

    alternate = serializers.CharField(max_length=40)


def plan_item(tournament: Tournament) -> Item | None:
    """The plan as the API tells it."""
    plan = plan_of(tournament)
    if plan is None:
        return None
    return {
        "places": plan.places,
        "wild_cards": plan.wild_cards,
        "alternates": plan.alternates,
        "alternates_until": moment(plan.alternates_until) if plan.alternates_until else None,
    }


def region_item(seen: RegionSeen) -> Item:
    """A region as the API tells it."""
    row = seen.region
    return {
        "letter": row.letter,
        "name": row.name,
        "event": row.source.slug if row.source else None,
        "entries": seen.entries,
    }


def tally_item(tally: Tally) -> Item:
    """A weight's counts as the API tells them."""
    return {
        "weight": tally.weight.key,
        "by_place": tally.by_place,
        "wild_cards": tally.wild_cards,
        "stepped_in": tally.stepped_in,
        "alternates": tally.alternates,
        "candidates": tally.candidates,
    }


def field_item(field: Field, found: Candidates) -> Item:
    """A weight's field and candidates as the API tells them."""
    wanted = {row.pk: how for (how, _order), row in found.wanted()}
    return {
        "weight": field.weight.key,
        "mark": found.mark,
        "accepted": found.accepted,
        "by_place": [_held(one) for one in field.by_place],
        "stepped_in": [_held(one) for one in field.stepped_in],
        "vacancies": [_held(one) for one in field.vacancies],
        "without_place": [row.key for row in field.without],
        "candidates": [_candidate(found.berths[uid], wanted) for uid in found.order],
        "reasons": [
            {
                "above": at,
                "step": str(reason.step),
                "criterion": reason.criterion,
                "text": reason.say(found.names),
            }
            for at, reason in enumerate(found.reasons(), 1)
        ],
        "first_alternate": field.first.entry.key if field.first else None,
    }


def _held(one: Standing) -> Item:
    return {
        "entry": one.berth.entry.key,
        "name": one.name,
        "how": one.berth.how,
        "spot": str(one.spot) if one.spot else None,
    }


def _candidate(row: Berth, wanted: dict[int, str]) -> Item:
    return {
        "entry": row.entry.key,
        "name": row.entry.wrestler.name,
        "proposed": wanted[row.pk],
        "how": row.how,
        "order": row.order,
    }


def qualifying_section(tournament: Tournament) -> Item:
    """`qualifying` of a tournament file: plan, regions, berths; nothing where there is no plan."""
    plan = plan_item(tournament)
    if plan is None:
        return {}
    return {
        "qualifying": {
            "plan": plan,
            "regions": [_region(seen) for seen in regions(tournament)],
            "berths": [
                _berth(row)
                for row in berths(Q(entry__tournament=tournament))
                .select_related("stepped_in_for")
                .order_by("entry__weight_class__position", "entry__key")
            ],
        }
    }


def _region(seen: RegionSeen) -> Item:
    row = seen.region
    source = {"source": row.source.slug} if row.source else {}
    return {"letter": row.letter, "name": row.name, **source}


def _berth(row: Berth) -> Item:
    came_for: Entry | None = row.stepped_in_for
    item = {
        "entry": row.entry.key,
        "how": row.how,
        "region": row.region.letter if row.region else None,
        "place": row.place,
        "order": row.order,
        "stepped_in_at": moment(row.stepped_in_at) if row.stepped_in_at else None,
        "stepped_in_for": came_for.key if came_for else None,
    }
    return {name: value for name, value in item.items() if value is not None}
