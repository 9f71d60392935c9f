"""Shapes of persons, entries, seeds and places as they are published."""

from typing import Any

from rest_framework import serializers

from results.queries.people import Person
from seeding.core.reasons import Step
from seeding.entries.models import Entry
from seeding.journal.serializers import FollowedPageSerializer, FollowingSerializer

Item = dict[str, Any]


class PersonSerializer(serializers.Serializer[Any]):
    """A wrestler by the name that may be published.

    `entry` is told to those who have a role; `seed` where seeds are published.
    """

    wrestler = serializers.CharField(help_text="The id in this tournament's addresses.")
    name = serializers.CharField(help_text="In full, initials, or a number, as he may be shown.")
    team = serializers.CharField(help_text="The key of the team.")
    seed = serializers.IntegerField(allow_null=True)
    out = serializers.BooleanField(
        help_text="He wrestles no more; told where results are published, and never why."
    )
    entry = serializers.CharField(required=False)


class EntrySerializer(PersonSerializer):
    """An entry. `version` and what follows it is told to those who have a role."""

    weight = serializers.CharField()
    scoring = serializers.BooleanField(help_text="Whether the entry scores for the team.")
    version = serializers.IntegerField(required=False)
    status = serializers.ChoiceField(Entry.Status.values, required=False)
    publish = serializers.ChoiceField(Entry.Publish.values, required=False)
    weigh_in = serializers.ChoiceField(Entry.WeighIn.values, required=False)


class EntriesSerializer(serializers.Serializer[Any]):
    """Who is entered, by weight."""

    seq = serializers.IntegerField()
    count = serializers.IntegerField()
    next = serializers.CharField(allow_null=True)
    items = EntrySerializer(many=True)


class EntriesQuerySerializer(FollowedPageSerializer):
    """Query parameters of the entries."""

    weight = serializers.CharField(required=False, max_length=40)
    team = serializers.CharField(required=False, max_length=40)


class WhySerializer(serializers.Serializer[Any]):
    """Why a seed stands above the next."""

    above = serializers.IntegerField(help_text="The seed of the one above.")
    step = serializers.ChoiceField([*(str(step) for step in Step), "committee"])
    criterion = serializers.CharField()
    text = serializers.CharField()


class SeedsSerializer(serializers.Serializer[Any]):
    """The seeds of a weight, with reasons where they are still those of the order."""

    seq = serializers.IntegerField()
    weight = serializers.CharField()
    items = PersonSerializer(many=True)
    reasons = WhySerializer(many=True)


class PlaceSerializer(serializers.Serializer[Any]):
    """A place that is certain; a shared place stands more than once."""

    weight = serializers.CharField()
    place = serializers.IntegerField()
    wrestler = PersonSerializer(allow_null=True)


class PlacesSerializer(serializers.Serializer[Any]):
    """The places of a tournament, light to heavy."""

    seq = serializers.IntegerField()
    items = PlaceSerializer(many=True)


class PlacesQuerySerializer(FollowingSerializer):
    """Query parameters of the places."""

    weight = serializers.CharField(required=False, max_length=40)


def person_item(person: Person | None, *, own: bool) -> Item | None:
    """Somebody as published."""
    if person is None:
        return None
    item: Item = {
        "wrestler": person.handle,
        "name": person.name,
        "team": person.team.key,
        "seed": person.seed,
        "out": person.out,
    }
    return item | {"entry": person.key} if own else item


def entry_item(person: Person, row: Entry | None) -> Item:
    """An entry as published; `row` for those who have a role."""
    item: Item = {
        **(person_item(person, own=row is not None) or {}),
        "weight": person.weight.key,
        "scoring": person.scoring,
    }
    if row is None:
        return item
    return item | {
        "version": row.version,
        "status": row.status,
        "publish": row.publish,
        "weigh_in": row.weigh_in,
    }


def place_item(weight: str, place: int, person: Person | None, *, own: bool) -> Item:
    """A place that is certain."""
    return {"weight": weight, "place": place, "wrestler": person_item(person, own=own)}
