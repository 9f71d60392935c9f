"""Shapes of the order of seeds and of the season's file."""

from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from rest_framework import serializers

from seeding.entries.serializers.people import moment
from seeding.journal.serializers import StrictSerializer
from seeding.models import Override
from seeding.queries import Order
from seeding.queries.evidence import Why
from seeding.queries.lots import drawn
from seeding.queries.places import Place, circles, places
from seeding.serializers.evidence import STEPS, NumbersSerializer, texts

Item = dict[str, Any]


class DeskSeedSerializer(serializers.Serializer[Any]):
    """An entry in the order; `seed` counts from 1, those past the seeded ones have none."""

    place = serializers.IntegerField()
    seed = serializers.IntegerField(allow_null=True)
    entry = serializers.CharField()
    wrestler = serializers.CharField()
    name = serializers.CharField()
    team = serializers.CharField()
    proposed = serializers.IntegerField(help_text="Where the criteria alone put the entry.")


class ReasonSerializer(serializers.Serializer[Any]):
    """Why one stands above the next."""

    above = serializers.IntegerField(help_text="The place of the one above.")
    step = serializers.ChoiceField(STEPS)
    criterion = serializers.CharField(help_text="What decided.")
    text = serializers.CharField()


class DeskReasonSerializer(ReasonSerializer):
    """Why one stands above the next, with the evidence that stands beside the order."""

    against = serializers.BooleanField(help_text="The committee put the two the other way round.")
    numbers = NumbersSerializer(many=True)
    bouts = texts("The first bouts of the evidence; the pair has all.")
    more = serializers.IntegerField(help_text="How many bouts more the pair has.")


class CircleSerializer(serializers.Serializer[Any]):
    """A circle: no order agrees with all its bouts."""

    names = texts()
    round = texts("A shortest round of it.")
    settled = serializers.CharField()
    against = texts("What the order as it stands goes against.")


class MoveSerializer(serializers.Serializer[Any]):
    """A move by the committee."""

    id = serializers.IntegerField()
    entry = serializers.CharField()
    before = serializers.IntegerField(help_text="The place from which it was moved; 0: not known.")
    to = serializers.IntegerField()
    reason = serializers.CharField()
    author = serializers.CharField(allow_null=True)
    at = serializers.DateTimeField()


class OrderSerializer(serializers.Serializer[Any]):
    """The order of a weight as it stands, with its evidence."""

    seq = serializers.IntegerField()
    weight = serializers.CharField()
    version = serializers.IntegerField()
    adopted = serializers.BooleanField()
    items = DeskSeedSerializer(many=True)
    reasons = DeskReasonSerializer(many=True)
    moves = MoveSerializer(many=True)
    flags = texts("Where a lower one has beaten a higher one.")
    circles = CircleSerializer(many=True)
    undecided = serializers.ListField(
        child=texts(), help_text="Entries whom the list leaves to the committee, group by group."
    )
    drawn = serializers.ListField(
        child=texts(),
        help_text="Entries whom only the lot could part, group by group, as they came out.",
    )
    lot_seed = serializers.CharField()
    lot_version = serializers.IntegerField()


class NewMoveSerializer(StrictSerializer):
    """Put an entry at a place of the order, and say why."""

    entry = serializers.CharField(max_length=40)
    to = serializers.IntegerField(min_value=1, max_value=999)
    reason = serializers.CharField(max_length=300)


class InputSerializer(StrictSerializer):
    """What no bout tells of an entry."""

    entry = serializers.CharField(max_length=40)
    rank = serializers.IntegerField(min_value=1, max_value=9999, allow_null=True)
    qualifying_place = serializers.IntegerField(min_value=1, max_value=9999, allow_null=True)


class InputsSerializer(StrictSerializer):
    """Ranks and qualifying places of entries of one weight."""

    items = InputSerializer(many=True, max_length=256)  # type: ignore[call-arg]


class SeasonFileSerializer(StrictSerializer):
    """The season's bouts as CSV or XLSX, one bout a row."""

    file = serializers.FileField(max_length=200, allow_empty_file=True)


def order_item(order: Order, weight: str) -> Item:
    """The order as the desk sees it."""
    lines = places(order)

    def keys(groups: Iterable[Iterable[str]]) -> list[list[str]]:
        return [[order.entries[uid].key for uid in group] for group in groups]

    return {
        "weight": weight,
        "version": order.version,
        "adopted": order.adopted,
        "items": [_seed_item(line) for line in lines],
        "reasons": [_reason_item(line.number, line.why) for line in lines if line.why],
        "moves": [move_item(row) for row in order.overrides],
        "flags": [flag.text for line in lines for flag in line.flags],
        "circles": [asdict(circle) for circle in circles(order)],
        "undecided": keys(order.undecided),
        "drawn": keys([ball.uid for ball in group.balls] for group in drawn(order)),
        "lot_seed": order.proposal.lot_seed,
        "lot_version": order.proposal.lot_version,
    }


def _seed_item(line: Place) -> Item:
    return {
        "place": line.number,
        "seed": line.number if line.seeded else None,
        "entry": line.entry.key,
        "wrestler": line.uid,
        "name": line.name,
        "team": line.entry.team.key,
        "proposed": line.proposed,
    }


def _reason_item(above: int, why: Why) -> Item:
    return {
        "above": above,
        "step": why.step,
        "criterion": why.criterion,
        "text": why.text,
        "against": why.against,
        "numbers": [asdict(one) for one in why.totals],
        "bouts": [bout.text for bout in why.few],
        "more": why.more,
    }


def move_item(row: Override) -> Item:
    """A move by the committee."""
    return {
        "id": row.pk,
        "entry": row.entry.key,
        "before": row.before,
        "to": row.to,
        "reason": row.reason,
        "author": row.author.username if row.author else None,
        "at": moment(row.at),
    }
