"""Shapes of roles, of the log and of jobs."""

from datetime import UTC, datetime
from typing import Any

from rest_framework import serializers

from seeding.entries.models import Role
from seeding.journal.models import Act, Job
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]
ROLES = Role.Name.values
STATES = Job.State.values


class RoleSerializer(serializers.Serializer[Any]):
    """Who may do what in the tournament."""

    username = serializers.CharField()
    role = serializers.ChoiceField(ROLES)


class RolesSerializer(serializers.Serializer[Any]):
    """Everybody with a role."""

    seq = serializers.IntegerField()
    items = RoleSerializer(many=True)


class GiveRoleSerializer(StrictSerializer):
    """A role for somebody who can sign in already."""

    role = serializers.ChoiceField(ROLES)


class NewPersonSerializer(StrictSerializer):
    """Somebody new who may sign in, with a first password and a role."""

    username = serializers.RegexField(r"^[\w.@+-]+$", max_length=150)
    password = serializers.CharField(
        max_length=128, trim_whitespace=False, style={"input_type": "password"}
    )
    role = serializers.ChoiceField(ROLES)


class ActSerializer(serializers.Serializer[Any]):
    """One act of the log, in ids: names never stand there."""

    seq = serializers.IntegerField()
    verb = serializers.CharField()
    subject = serializers.DictField(child=serializers.JSONField())
    actor = serializers.IntegerField(help_text="The user's id; 0 is the operator.")
    at = serializers.DateTimeField()
    previous = serializers.CharField(help_text="The digest of the act before.")
    digest = serializers.CharField()


class ActsSerializer(serializers.Serializer[Any]):
    """Acts in order, without a gap."""

    seq = serializers.IntegerField(help_text="The newest of the whole log.")
    next = serializers.CharField(allow_null=True, help_text="Where the acts go on.")
    items = ActSerializer(many=True)


class ActsQuerySerializer(StrictSerializer):
    """Query parameters of the log."""

    after = serializers.IntegerField(
        default=0, min_value=0, max_value=2**62, help_text="The newest `seq` that you know."
    )
    limit = serializers.IntegerField(default=200, min_value=1, max_value=500)


class JobSerializer(serializers.Serializer[Any]):
    """A long piece of work: how far it is, and what it found."""

    uid = serializers.UUIDField()
    task = serializers.CharField()
    state = serializers.ChoiceField(STATES)
    done = serializers.IntegerField()
    total = serializers.IntegerField()
    report = serializers.DictField(child=serializers.JSONField())
    created_at = serializers.DateTimeField()
    finished_at = serializers.DateTimeField(allow_null=True)


class JobsSerializer(serializers.Serializer[Any]):
    """The jobs of a tournament, newest first."""

    count = serializers.IntegerField()
    next = serializers.CharField(allow_null=True)
    items = JobSerializer(many=True)


def moment(at: datetime) -> str:
    """A moment in UTC."""
    return at.astimezone(UTC).isoformat().replace("+00:00", "Z")


def role_item(row: Role) -> Item:
    """Who may do what."""
    return {"username": row.user.username, "role": row.name}


def act_item(row: Act) -> Item:
    """One act of the log."""
    return {
        "seq": row.seq,
        "verb": row.verb,
        "subject": row.subject,
        "actor": row.actor,
        "at": moment(row.at),
        "previous": row.previous,
        "digest": row.digest,
    }


def job_item(row: Job) -> Item:
    """A job as it stands."""
    return {
        "uid": str(row.uid),
        "task": row.task,
        "state": row.state,
        "done": row.done,
        "total": row.total,
        "report": row.report,
        "created_at": moment(row.created_at),
        "finished_at": moment(row.finished_at) if row.finished_at else None,
    }
