"""Shapes of a committed draw, and of draws made again."""

from typing import Any

from rest_framework import serializers

from brackets.models import Commitment
from brackets.serializers.verification import Checked, Fault, Outcome, Sealed, Verification
from seeding.entries.serializers.people import moment
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]
FAULTS = [one.name.lower() for one in Fault]


class ReasonSerializer(StrictSerializer):
    """Why a draw is taken back; needed where it was committed to, and published then."""

    reason = serializers.CharField(max_length=300, allow_blank=True, default="")


class CommitmentSerializer(serializers.Serializer[Any]):
    """What was published of the draw's secret, and the secret once it is revealed.

    `digest` is the SHA-256 of `draw commitment/1|<secret>`; the seed of the n-th draw of a weight
    that of `draw seed/1|<secret>|<weight>|<n>`. All null where there is no commitment.
    """

    seq = serializers.IntegerField()
    digest = serializers.CharField(allow_null=True)
    at = serializers.DateTimeField(allow_null=True)
    secret = serializers.CharField(allow_null=True)
    revealed_at = serializers.DateTimeField(allow_null=True)


class CheckedSerializer(serializers.Serializer[Any]):
    """One weight drawn again.

    `outcome`: `given` where the lines came with a file and nobody drew them. `committed`: whether
    the seed is the commitment's. `certified`: it is proven that no draw keeps apart better.
    `changed`: lines were changed after the draw; those drawn are compared.
    """

    weight = serializers.CharField()
    lines = serializers.IntegerField()
    outcome = serializers.ChoiceField([one.lower() for one in Outcome])
    seed = serializers.CharField(allow_blank=True)
    number = serializers.IntegerField(help_text="Which draw of the weight.")
    committed = serializers.ChoiceField([str(one) for one in Sealed])
    certified = serializers.BooleanField()
    changed = serializers.BooleanField()
    faults = serializers.ListField(child=serializers.ChoiceField(FAULTS))


class VerificationSerializer(serializers.Serializer[Any]):
    """Every drawn weight drawn again and compared; `same`: nothing differs."""

    seq = serializers.IntegerField()
    same = serializers.BooleanField()
    commitment = serializers.CharField(allow_blank=True)
    items = CheckedSerializer(many=True)


def commitment_item(kept: Commitment | None, *, is_open: bool) -> Item:
    """A commitment; the secret where it is revealed and the draw is published."""
    if kept is None:
        return dict.fromkeys(("digest", "at", "secret", "revealed_at"))
    told = kept.revealed_at if is_open and kept.told else None
    return {
        "digest": kept.digest,
        "at": moment(kept.at),
        "secret": kept.told if told else None,
        "revealed_at": moment(told) if told else None,
    }


def verification_item(found: Verification) -> Item:
    """What drawing again came to."""
    return {
        "same": found.holds,
        "commitment": found.commitment,
        "items": [_checked(one) for one in found.weights],
    }


def _checked(one: Checked) -> Item:
    return {
        "weight": one.weight,
        "lines": one.lines,
        "outcome": one.outcome.lower(),
        "seed": one.seed,
        "number": one.number,
        "committed": str(one.sealed),
        "certified": one.certified,
        "changed": one.changed,
        "faults": [fault.name.lower() for fault in one.faults],
    }
