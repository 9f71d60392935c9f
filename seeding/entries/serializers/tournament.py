"""Shapes of tournaments and of who holds them."""

from typing import Any

from rest_framework import serializers

from seeding.entries.models import Organisation, Tournament
from seeding.entries.permissions import Right, Sight
from seeding.journal.serializers import PageSerializer, StrictSerializer

Item = dict[str, Any]
GATES = ("entries", "seeds", "draw", "results", "team_points")


class GatesSerializer(StrictSerializer):
    """What the public sees. A gate that is not named stays as it is."""

    entries = serializers.BooleanField(required=False)
    seeds = serializers.BooleanField(required=False)
    draw = serializers.BooleanField(required=False)
    results = serializers.BooleanField(required=False)
    team_points = serializers.BooleanField(required=False)


class TournamentSerializer(serializers.Serializer[Any]):
    """A tournament. `version` and `rights` are told to those who have a role in it."""

    slug = serializers.CharField()
    name = serializers.CharField()
    organisation = serializers.CharField(help_text="The slug of who holds it.")
    starts_on = serializers.DateField()
    time_zone = serializers.CharField(help_text="Such as America/Chicago.")
    mats = serializers.ListField(child=serializers.CharField())
    published = GatesSerializer(help_text="What the public sees.")
    newest = serializers.IntegerField(help_text="The newest `seq` of its log.")
    version = serializers.IntegerField(required=False)
    rights = serializers.ListField(
        child=serializers.ChoiceField([str(one) for one in Right]), required=False
    )


class TournamentDocumentSerializer(TournamentSerializer):
    """A tournament as a document of its own."""

    seq = serializers.IntegerField()


class TournamentsSerializer(serializers.Serializer[Any]):
    """Tournaments, newest first."""

    count = serializers.IntegerField()
    next = serializers.CharField(allow_null=True)
    items = TournamentSerializer(many=True)


class TournamentsQuerySerializer(PageSerializer):
    """Query parameters of the tournaments."""

    organisation = serializers.CharField(required=False, max_length=50)


class EditTournamentSerializer(StrictSerializer):
    """What of the frame can change; what is not named stays."""

    name = serializers.CharField(max_length=120, required=False)
    starts_on = serializers.DateField(required=False)
    time_zone = serializers.CharField(max_length=64, required=False)
    mats = serializers.ListField(
        child=serializers.CharField(max_length=20), required=False, min_length=1, max_length=64
    )


class NewTournamentSerializer(StrictSerializer):
    """A new tournament; its address is `/t/<slug>/`."""

    slug = serializers.SlugField(max_length=50)
    name = serializers.CharField(max_length=120)
    starts_on = serializers.DateField()
    time_zone = serializers.CharField(max_length=64, default="UTC")
    mats = serializers.ListField(
        child=serializers.CharField(max_length=20), min_length=1, max_length=64
    )
    organisation = serializers.SlugField(
        max_length=50, required=False, help_text="Left out: the organisation that you belong to."
    )


class OrganisationSerializer(serializers.Serializer[Any]):
    """Who holds tournaments."""

    slug = serializers.CharField()
    name = serializers.CharField()


class OrganisationsSerializer(serializers.Serializer[Any]):
    """The organisations that the caller may hold tournaments for."""

    items = OrganisationSerializer(many=True)


class NewOrganisationSerializer(StrictSerializer):
    """A new organisation."""

    name = serializers.CharField(max_length=120)


def gates_item(row: Tournament) -> Item:
    """What the public sees."""
    return {kind: getattr(row, f"shows_{kind}") for kind in GATES}


def tournament_item(seen: Sight) -> Item:
    """A tournament as whoever looks may see it."""
    row = seen.tournament
    item: Item = {
        "slug": row.slug,
        "name": row.name,
        "organisation": row.organisation.slug,
        "starts_on": row.starts_on.isoformat(),
        "time_zone": row.time_zone,
        "mats": row.mats,
        "published": gates_item(row),
        "newest": row.log.seq,
    }
    if seen.own:
        item |= {"version": row.version, "rights": sorted(seen.rights)}
    return item


def organisation_item(row: Organisation) -> Item:
    """Who holds tournaments."""
    return {"slug": row.slug, "name": row.name}
