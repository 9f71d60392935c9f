"""Shapes of the season: files, names that are alike, bouts to look at twice."""

from typing import Any

from rest_framework import serializers

from seeding.core.doubles import Likeness
from seeding.journal.serializers import StrictSerializer
from seeding.models import PriorBout
from seeding.queries.doubts import Doubt, Repeat, Trace
from seeding.services.season import Word

Item = dict[str, Any]
LIKENESS = [one.name.casefold() for one in Likeness]
MARK = 64


class KeepSeasonSerializer(StrictSerializer):
    """Whose word stands where the file contradicts known bouts."""

    word = serializers.ChoiceField([str(one) for one in Word], default=str(Word.KNOWN))
    otherwise = serializers.ListField(
        child=serializers.CharField(max_length=MARK),
        default=list,
        max_length=200,
        help_text="The `identity` of the contradictions in which the other word stands.",
    )


class TraceSerializer(serializers.Serializer[Any]):
    """What the season knows of a wrestler."""

    wrestler = serializers.CharField()
    name = serializers.CharField()
    team = serializers.CharField(allow_blank=True)
    won = serializers.IntegerField()
    lost = serializers.IntegerField()
    weights = serializers.ListField(child=serializers.CharField())
    entered = serializers.ListField(child=serializers.CharField())


class DoubleSerializer(serializers.Serializer[Any]):
    """Two wrestlers whose names are alike, with what tells them apart."""

    likeness = serializers.ChoiceField(LIKENESS)
    wrestlers = TraceSerializer(many=True)
    met = serializers.IntegerField(help_text="So often they wrestled each other.")
    elsewhere = serializers.ListField(
        child=serializers.DateField(), help_text="Days on which they wrestled at different events."
    )


class DoublesSerializer(serializers.Serializer[Any]):
    """The first pairs whose names are alike, the strongest sign first."""

    count = serializers.IntegerField(help_text="So many there are in all.")
    items = DoubleSerializer(many=True)


class PairSerializer(StrictSerializer):
    """Two wrestlers by their opaque ids."""

    one = serializers.CharField(max_length=40)
    other = serializers.CharField(max_length=40)


class MergeWrestlersSerializer(StrictSerializer):
    """One person: `keep` goes on with the bouts and entries of `gone`."""

    keep = serializers.CharField(max_length=40)
    gone = serializers.CharField(max_length=40)


class SeasonBoutSerializer(serializers.Serializer[Any]):
    """A bout of the season."""

    id = serializers.IntegerField()
    date = serializers.DateField()
    weight = serializers.CharField()
    winner = serializers.CharField()
    loser = serializers.CharField()
    how = serializers.CharField()
    event = serializers.CharField(allow_blank=True)
    struck = serializers.CharField(allow_null=True, help_text="Why it is struck, or null.")


class RepeatSerializer(serializers.Serializer[Any]):
    """Two bouts of the same two wrestlers on one day."""

    bouts = SeasonBoutSerializer(many=True)
    differs = serializers.ListField(child=serializers.CharField())


class RepeatsSerializer(serializers.Serializer[Any]):
    """Bouts that may be one bout told twice, and those that were struck."""

    items = RepeatSerializer(many=True)
    struck = SeasonBoutSerializer(many=True)


class StrikeSerializer(StrictSerializer):
    """Take a bout out of the season."""

    bout = serializers.IntegerField(min_value=1)
    reason = serializers.CharField(max_length=300)


class TwoBoutsSerializer(StrictSerializer):
    """Two bouts that both stand."""

    one = serializers.IntegerField(min_value=1)
    other = serializers.IntegerField(min_value=1)


def double_item(found: Doubt) -> Item:
    """A pair of names that are alike."""
    return {
        "likeness": found.double.likeness.name.casefold(),
        "wrestlers": [_trace(one) for one in found.traces],
        "met": len(found.met),
        "elsewhere": [day.isoformat() for day in found.elsewhere],
    }


def _trace(one: Trace) -> Item:
    return {
        "wrestler": one.wrestler.uid,
        "name": one.wrestler.name,
        "team": one.wrestler.home,
        "won": one.won,
        "lost": one.lost,
        "weights": list(one.weights),
        "entered": list(one.entered),
    }


def repeat_item(found: Repeat) -> Item:
    """Two bouts to look at twice."""
    return {"bouts": [bout_item(row) for row in found.both], "differs": list(found.differs)}


def bout_item(row: PriorBout) -> Item:
    """A bout of the season."""
    return {
        "id": row.pk,
        "date": row.date.isoformat(),
        "weight": row.weight,
        "winner": row.winner.name,
        "loser": row.loser.name,
        "how": row.how,
        "event": row.event,
        "struck": row.struck_reason if row.struck_at else None,
    }
