"""Shapes of the minutes of a weight."""

from dataclasses import asdict
from typing import Any

from rest_framework import serializers

from seeding.journal.serializers import StrictSerializer
from seeding.queries.minutes import Signable
from seeding.serializers.evidence import texts
from seeding.serializers.order import CircleSerializer

Item = dict[str, Any]


class ListUsedSerializer(serializers.Serializer[Any]):
    """The list of the weight in words."""

    book = serializers.CharField(
        allow_blank=True, help_text="The rule book, where its own list is in use."
    )
    name = serializers.CharField()
    source = serializers.CharField()  # type: ignore[assignment]
    shape = serializers.CharField()
    totals = serializers.CharField(help_text="What the numbers beside the order mean.")
    settings = texts()
    criteria = texts("Strongest first, with their settings.")
    counted = texts("Which results count as what.")
    bouts = serializers.IntegerField(help_text="How many bouts of the season were looked at.")
    first = serializers.CharField(allow_blank=True)
    last = serializers.CharField(allow_blank=True)


class PutInSerializer(serializers.Serializer[Any]):
    """What no bout tells, as people put it in."""

    rankings = texts()
    places = texts()
    ballots = texts()


class MinutedMoveSerializer(serializers.Serializer[Any]):
    """A move by the committee."""

    entry = serializers.CharField()
    name = serializers.CharField()
    before = serializers.IntegerField()
    to = serializers.IntegerField()
    reason = serializers.CharField()
    author = serializers.CharField()
    at = serializers.CharField()


class MinutedChallengeSerializer(serializers.Serializer[Any]):
    """A challenge and what became of it."""

    name = serializers.CharField()
    over = serializers.CharField()
    by = serializers.CharField()
    reason = serializers.CharField()
    recorded_by = serializers.CharField()
    at = serializers.CharField()
    state = serializers.CharField()
    answer = serializers.CharField(allow_blank=True)
    answered_by = serializers.CharField(allow_blank=True)
    answered_at = serializers.CharField(allow_blank=True)


class RecusedSerializer(serializers.Serializer[Any]):
    """A member of the committee, his teams, and whom of the weight he has no say over."""

    member = serializers.CharField()
    teams = texts()
    wrestlers = texts()


class MinutedLineSerializer(serializers.Serializer[Any]):
    """One place of the order, and why it is above the next."""

    place = serializers.IntegerField()
    seed = serializers.IntegerField(help_text="0: not seeded.")
    entry = serializers.CharField()
    name = serializers.CharField()
    team = serializers.CharField()
    proposed = serializers.IntegerField()
    record = serializers.CharField()
    numbers = texts()
    flags = texts()
    criterion = serializers.CharField(allow_blank=True)
    why = serializers.CharField(allow_blank=True)
    bouts = texts()
    more = serializers.IntegerField()


class MinutesSerializer(serializers.Serializer[Any]):
    """What is signed: its canonical JSON (sorted keys, no spaces, ASCII) is what is digested."""

    tournament = serializers.CharField()
    starts_on = serializers.CharField()
    time_zone = serializers.CharField()
    division = serializers.CharField()
    weight = serializers.CharField()
    state = serializers.CharField()
    adopted_at = serializers.CharField(allow_blank=True)
    adopted_by = serializers.CharField(allow_blank=True)
    rules = ListUsedSerializer()
    put_in = PutInSerializer()
    lot_seed = serializers.CharField()
    lot_version = serializers.IntegerField()
    drawn = serializers.ListField(child=texts())
    proposal = texts()
    circles = CircleSerializer(many=True)
    undecided = serializers.ListField(child=texts())
    moves = MinutedMoveSerializer(many=True)
    challenges_until = serializers.CharField(allow_blank=True)
    challenges = MinutedChallengeSerializer(many=True)
    recusals = RecusedSerializer(many=True)
    order = MinutedLineSerializer(many=True)


class SignatureSerializer(serializers.Serializer[Any]):
    """A signature; it stands as long as its digest is that of the minutes."""

    name = serializers.CharField()
    username = serializers.CharField()
    at = serializers.CharField()
    digest = serializers.CharField()
    stands = serializers.BooleanField()


class SignableSerializer(serializers.Serializer[Any]):
    """The minutes of a weight with their digest and the signatures."""

    seq = serializers.IntegerField()
    version = serializers.IntegerField(help_text="That of the order.")
    minutes = MinutesSerializer()
    digest = serializers.CharField(help_text="SHA-256 of `minutes` in canonical JSON.")
    locked = serializers.BooleanField(help_text="The weight is drawn.")
    signatures = SignatureSerializer(many=True)


class SignSerializer(StrictSerializer):
    """A signature under the minutes with that digest."""

    name = serializers.CharField(max_length=120)
    digest = serializers.RegexField(r"^[0-9a-f]{64}$", max_length=64)


def signable_item(found: Signable) -> Item:
    """The minutes as they read now."""
    return asdict(found)
