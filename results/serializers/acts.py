"""Shapes of what is done to results, teams and draws."""

from typing import Any

from rest_framework import serializers

from results.core.outcomes import Kind, Outcome, read_time
from results.models import Withdrawal
from results.queries.people import People
from results.queries.preview import Moved, Preview
from results.serializers.bouts import SIDES, STATES, OutcomeSerializer, bout_name
from results.serializers.persons import PersonSerializer, person_item
from seeding.entries.models import Entry, Team
from seeding.entries.serializers.people import moment
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]
REASONS = Withdrawal.Kind.values


class LotSerializer(StrictSerializer):
    """What the lot is drawn from; left out, it is made and recorded."""

    lot_seed = serializers.CharField(max_length=64, required=False)


class CountSerializer(serializers.Serializer[Any]):
    """How many acts were done."""

    count = serializers.IntegerField()


class StateSerializer(StrictSerializer):
    """How far a result is."""

    state = serializers.ChoiceField(STATES)


class SeenBoutSerializer(StrictSerializer):
    """A bout with the version that was seen."""

    bout = serializers.CharField(max_length=60)
    version = serializers.IntegerField(min_value=0, max_value=2**31)


class OfficialSerializer(StrictSerializer):
    """Bouts whose results are to be official."""

    bouts = SeenBoutSerializer(many=True, max_length=1000)  # type: ignore[call-arg]


class WhatIfSerializer(StrictSerializer):
    """The result that would stand; null where it would be undone."""

    outcome = OutcomeSerializer(allow_null=True)


class MovedPlaceSerializer(serializers.Serializer[Any]):
    """A place that would change; "-" is none."""

    wrestler = PersonSerializer(allow_null=True)
    before = serializers.CharField()
    after = serializers.CharField()


class MovedTeamSerializer(serializers.Serializer[Any]):
    """A team's points in this weight that would change."""

    team = serializers.CharField()
    before = serializers.CharField()
    after = serializers.CharField()


class PreviewSerializer(serializers.Serializer[Any]):
    """What would follow. `wrestled` are the later bouts that stand in the way."""

    changed = serializers.ListField(child=serializers.CharField())
    wrestled = serializers.ListField(child=serializers.CharField())
    places = MovedPlaceSerializer(many=True)
    teams = MovedTeamSerializer(many=True)


class WithdrawSerializer(StrictSerializer):
    """Why an entry wrestles no more."""

    kind = serializers.ChoiceField(REASONS)
    reason = serializers.CharField(max_length=300, allow_blank=True, default="")


class WithdrawalSerializer(serializers.Serializer[Any]):
    """An entry that wrestles no more."""

    entry = serializers.CharField()
    kind = serializers.ChoiceField(REASONS)
    reason = serializers.CharField(allow_blank=True)
    author = serializers.CharField(allow_null=True)
    at = serializers.DateTimeField()


class WithdrawalsSerializer(serializers.Serializer[Any]):
    """Who is out, the last first."""

    seq = serializers.IntegerField()
    items = WithdrawalSerializer(many=True)


class ToTeamSerializer(StrictSerializer):
    """The team that somebody goes to."""

    team = serializers.CharField(max_length=40)


class MergeSerializer(StrictSerializer):
    """The team that another becomes part of."""

    into = serializers.CharField(max_length=40)


class SplitSerializer(StrictSerializer):
    """A second team out of some entries of a first."""

    name = serializers.CharField(max_length=120)
    short = serializers.CharField(max_length=12)
    entries = serializers.ListField(
        child=serializers.CharField(max_length=40), min_length=1, max_length=200
    )


def outcome_of(data: Item) -> Outcome:
    """The core's value of what was sent."""
    side, score, time = data.get("winner"), data.get("score"), data.get("time")
    return Outcome(
        kind=Kind(data["kind"]),
        winner=None if side is None else 1 if side == SIDES[1] else 0,
        score=(score[0], score[1]) if score else None,
        time=read_time(time) if time else None,
        overtime=data.get("overtime"),
        decided_by=data.get("decided_by"),
        near_fall=data["near_fall"],
        misconduct=data["misconduct"],
    )


def withdrawal_item(row: Withdrawal) -> Item:
    """An entry that wrestles no more."""
    return {
        "entry": row.entry.key,
        "kind": row.kind,
        "reason": row.reason,
        "author": row.author.username if row.author else None,
        "at": moment(row.at),
    }


def preview_item(seen: Preview, people: People) -> Item:
    """What would follow from a change."""
    return {
        "changed": [bout_name(row.drawn.weight_class.key, row.key) for row in seen.changed],
        "wrestled": [bout_name(row.drawn.weight_class.key, row.key) for row in seen.wrestled],
        "places": [_place(moved, people) for moved in seen.places],
        "teams": [_team(moved) for moved in seen.teams],
    }


def _place(moved: Moved, people: People) -> Item:
    entry = moved.what
    person = people.by_pk.get(entry.pk) if isinstance(entry, Entry) else None
    return {
        "wrestler": person_item(person, own=True),
        "before": moved.before,
        "after": moved.after,
    }


def _team(moved: Moved) -> Item:
    key = moved.what.key if isinstance(moved.what, Team) else ""
    return {"team": key, "before": moved.before, "after": moved.after}
