"""Shapes of what is done to results, teams and draws."""

from typing import Any

from rest_framework import serializers

from brackets.core.graph import BoutKey
from brackets.core.replay import Choice
from results.core.outcomes import Kind, Outcome, read_time
from results.models import Withdrawal
from results.queries.consequences import Choices
from results.serializers.bouts import SIDES, STATES, OutcomeSerializer
from seeding.entries.models import WeightClass
from seeding.entries.serializers.people import moment
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]
REASONS = Withdrawal.Kind.values
CHOICES = [str(one) for one in Choice]


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


class ChoiceSerializer(StrictSerializer):
    """What becomes of a wrestled bout whose two do not meet any more.

    `stands`: it keeps them and its result, by a ruling. `void`: its result counts for nothing and
    those whom the format brings now wrestle it. `again`: its result counts for nothing and the
    same two wrestle it again, by a ruling.
    """

    bout = serializers.CharField(max_length=60, help_text="Such as `125.SF-1`.")
    choice = serializers.ChoiceField(CHOICES)


class ChosenSerializer(StrictSerializer):
    """Choices about wrestled bouts, the mark of the preview that has them, and the reason."""

    choices = ChoiceSerializer(many=True, default=list, max_length=500)  # type: ignore[call-arg]
    mark = serializers.CharField(max_length=20, allow_blank=True, default="")
    reason = serializers.CharField(max_length=300, allow_blank=True, default="")


class ChoicesSerializer(StrictSerializer):
    """Choices about wrestled bouts."""

    choices = ChoiceSerializer(many=True, default=list, max_length=500)  # type: ignore[call-arg]


class WhatIfSerializer(ChoicesSerializer):
    """The result that would stand; null where it would be undone."""

    outcome = OutcomeSerializer(allow_null=True)


class CorrectionSerializer(ChosenSerializer):
    """The result that stands; null where it is undone."""

    outcome = OutcomeSerializer(allow_null=True)


class KindSerializer(StrictSerializer):
    """Why an entry would wrestle no more."""

    kind = serializers.ChoiceField(REASONS)


class WithdrawSerializer(KindSerializer):
    """Why an entry wrestles no more. `mark`: of the preview that was seen, if one was."""

    reason = serializers.CharField(max_length=300, allow_blank=True, default="")
    mark = serializers.CharField(max_length=16, allow_blank=True, default="")


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


def choices_of(data: Item, weight: WeightClass) -> Choices:
    """The choices that were sent; refuses a bout of another weight."""
    found = {}
    for at, one in enumerate(data["choices"]):
        key, _, bout = one["bout"].rpartition(".")
        if key and key != weight.key:
            hint = f"“{one['bout']}” is no bout of weight {weight.label}."
            raise Invalid([Problem(f"choices[{at}].bout", hint)])
        found[BoutKey.parse(bout)] = Choice(one["choice"])
    return found


def decided_of(data: Item, weight: WeightClass) -> dict[str, Any]:
    """What was chosen, as a service takes it."""
    return {
        "choices": choices_of(data, weight),
        "mark": data["mark"],
        "reason": data["reason"],
    }
