"""Shapes of challenges and of the committee's own teams."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from rest_framework import serializers

from seeding.entries.serializers.people import moment
from seeding.journal.serializers import StrictSerializer
from seeding.models import Challenge
from seeding.queries.recusal import Member

Item = dict[str, Any]
CHALLENGE_STATES = Challenge.State.values


class ChallengeSerializer(serializers.Serializer[Any]):
    """A coach asks to have `entry` put above `over`."""

    id = serializers.IntegerField()
    entry = serializers.CharField()
    over = serializers.CharField()
    by = serializers.CharField()
    reason = serializers.CharField()
    recorded_by = serializers.CharField(allow_null=True)
    at = serializers.DateTimeField()
    state = serializers.ChoiceField(CHALLENGE_STATES)
    answer = serializers.CharField(allow_blank=True)
    answered_by = serializers.CharField(allow_null=True)
    answered_at = serializers.DateTimeField(allow_null=True)
    move = serializers.IntegerField(
        allow_null=True, help_text="The move that carried it out, while that stands."
    )


class ChallengesSerializer(serializers.Serializer[Any]):
    """The challenges to an order; they are heard until a stated time."""

    seq = serializers.IntegerField()
    version = serializers.IntegerField(help_text="That of the order.")
    until = serializers.DateTimeField(allow_null=True, help_text="Null: no window was opened yet.")
    items = ChallengeSerializer(many=True)


class WindowSerializer(StrictSerializer):
    """How long challenges are heard; null: as long as the rule book says."""

    until = serializers.DateTimeField(allow_null=True)


class NewChallengeSerializer(StrictSerializer):
    """A challenge as a coach made it."""

    entry = serializers.CharField(max_length=40)
    over = serializers.CharField(max_length=40)
    by = serializers.CharField(max_length=120)
    reason = serializers.CharField(max_length=300)


class AnswerSerializer(StrictSerializer):
    """The committee's answer; granting moves the wrestler to the place of the other."""

    granted = serializers.BooleanField()
    answer = serializers.CharField(max_length=300)


class OwnTeamsSerializer(serializers.Serializer[Any]):
    """A member of the committee and the teams to which he belongs."""

    username = serializers.CharField()
    teams = serializers.ListField(child=serializers.CharField())


class RecusalsSerializer(serializers.Serializer[Any]):
    """Everybody who may act in the seeding room, with his own teams."""

    seq = serializers.IntegerField()
    items = OwnTeamsSerializer(many=True)


class SetOwnTeamsSerializer(StrictSerializer):
    """The teams to which a member belongs; none: to no team."""

    teams = serializers.ListField(child=serializers.CharField(max_length=40), max_length=64)


def challenges_item(version: int, until: datetime | None, rows: Iterable[Challenge]) -> Item:
    """The challenges to an order."""
    return {
        "version": version,
        "until": moment(until) if until else None,
        "items": [_challenge(row) for row in rows],
    }


def _challenge(row: Challenge) -> Item:
    return {
        "id": row.pk,
        "entry": row.entry.key,
        "over": row.over.key,
        "by": row.by,
        "reason": row.reason,
        "recorded_by": row.author.username if row.author else None,
        "at": moment(row.at),
        "state": row.state,
        "answer": row.answer,
        "answered_by": row.answered_by.username if row.answered_by else None,
        "answered_at": moment(row.answered_at) if row.answered_at else None,
        "move": row.move_id,
    }


def recusals_item(members: Iterable[Member]) -> Item:
    """The own teams of everybody who may act in the seeding room."""
    return {
        "items": [
            {"username": one.user.username, "teams": [team.key for team in one.teams]}
            for one in members
        ]
    }
