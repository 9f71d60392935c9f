"""Shapes of rulings and void bouts."""

from collections.abc import Callable
from typing import Any

from rest_framework import serializers

from brackets.core.drafting import Wanted, WantedAdvance, WantedPlace, WantedResult, WantedSides
from brackets.core.graph import BoutKey
from brackets.core.rulings import RulingKind
from brackets.core.sources import Seat
from results.models import Ruling, VoidBout
from results.queries.ruled import Ruled, Voided
from results.serializers.acts import ChoicesSerializer, ChosenSerializer
from results.serializers.bouts import KINDS, SIDES, bout_name
from seeding.entries.serializers.people import moment
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]
RULING_KINDS = [str(one) for one in RulingKind]
NEEDED = {
    "sides": ("bout", "sides"),
    "result": ("bout", "winner"),
    "advancement": ("bout", "side", "entry"),
    "place": ("entry", "place"),
}


class WantedSerializer(StrictSerializer):
    """What is to be ruled.

    sides: `bout` and `sides`, entries or null for nobody, top first. result: `bout` and `winner`,
    null for nobody. advancement: `bout`, `side` and `entry`. place: `entry`, `place`, null for no
    place, and `shared`; unless it is shared the two change places.
    """

    weight = serializers.CharField(max_length=40)
    kind = serializers.ChoiceField(RULING_KINDS)
    bout = serializers.CharField(max_length=60, required=False, help_text="Such as `125.SF-1`.")
    sides = serializers.ListField(
        child=serializers.CharField(max_length=40, allow_null=True),
        min_length=2,
        max_length=2,
        required=False,
    )
    winner = serializers.ChoiceField(SIDES, allow_null=True, required=False)
    side = serializers.ChoiceField(SIDES, required=False)
    entry = serializers.CharField(max_length=40, allow_null=True, required=False)
    place = serializers.IntegerField(min_value=1, max_value=64, allow_null=True, required=False)
    shared = serializers.BooleanField(default=False)


class LookSerializer(WantedSerializer, ChoicesSerializer):
    """What would be ruled, with choices about wrestled bouts."""


class RuleSerializer(WantedSerializer, ChosenSerializer):
    """What is ruled, why, and what becomes of wrestled bouts."""


class RulingSerializer(serializers.Serializer[Any]):
    """A ruling in words. Reason, author and time are told to those who have a role."""

    id = serializers.IntegerField()
    weight = serializers.CharField()
    kind = serializers.ChoiceField(RULING_KINDS)
    bouts = serializers.ListField(child=serializers.CharField(), help_text="Those it is about.")
    says = serializers.ListField(child=serializers.CharField())
    reason = serializers.CharField(required=False)
    author = serializers.CharField(allow_null=True, required=False)
    at = serializers.DateTimeField(required=False)


class VoidBoutSerializer(serializers.Serializer[Any]):
    """A bout that was wrestled and counts for nothing.

    `bout` is where it was wrestled; `number` is given to no other. The reason is told to those
    who have a role.
    """

    bout = serializers.CharField()
    number = serializers.IntegerField(allow_null=True)
    mat = serializers.CharField(allow_blank=True)
    wrestlers = serializers.ListField(child=serializers.CharField(), help_text="Top first.")
    result = serializers.CharField(help_text="Such as `MD 11-1`.")
    kind = serializers.ChoiceField(KINDS)
    winner = serializers.ChoiceField(SIDES, allow_null=True)
    occurred_at = serializers.DateTimeField()
    reason = serializers.CharField(required=False)
    voided_by = serializers.CharField(allow_null=True, required=False)
    voided_at = serializers.DateTimeField()


class RulingsSerializer(serializers.Serializer[Any]):
    """What was decided against the format, and what counts for nothing."""

    seq = serializers.IntegerField()
    items = RulingSerializer(many=True)
    void = VoidBoutSerializer(many=True)


def wanted_of(data: Item) -> Wanted:
    """The core's value of what was sent; refuses what its kind lacks."""
    kind = data["kind"]
    missing = [name for name in NEEDED[kind] if name not in data]
    if missing:
        raise Invalid([Problem(name, f"A ruling on {kind} needs this.") for name in missing])
    return WANTED[kind](data)


def _bout(data: Item) -> BoutKey:
    return BoutKey.parse(data["bout"].rpartition(".")[2])


def _place(data: Item) -> Wanted:
    if data["entry"] is None:
        raise Invalid([Problem("entry", "Name the entry.")])
    return WantedPlace(data["entry"], data["place"], data["shared"])


def _result(data: Item) -> Wanted:
    winner = data["winner"]
    return WantedResult(_bout(data), None if winner is None else 1 if winner == SIDES[1] else 0)


def _advance(data: Item) -> Wanted:
    return WantedAdvance(Seat(_bout(data), SIDES.index(data["side"])), data["entry"])


def _sides(data: Item) -> Wanted:
    top, bottom = data["sides"]
    return WantedSides(_bout(data), (top, bottom))


WANTED: dict[str, Callable[[Item], Wanted]] = {
    "sides": _sides,
    "result": _result,
    "advancement": _advance,
    "place": _place,
}


def ruling_item(weight: str, one: Ruled, told: Ruling | None) -> Item:
    """A ruling as published; `told` is its row with its author for those who have a role."""
    row = one.row
    item: Item = {
        "id": row.pk,
        "weight": weight,
        "kind": row.kind,
        "bouts": sorted(bout_name(weight, key) for key in one.bouts),
        "says": list(one.says),
    }
    if told is None:
        return item
    author = told.author.username if told.author else None
    return item | {"reason": told.reason, "author": author, "at": moment(told.at)}


def void_item(weight: str, one: Voided, told: VoidBout | None) -> Item:
    """A void bout as published; `told` as in `ruling_item`."""
    row = one.row
    item: Item = {
        "bout": bout_name(weight, one.key),
        "number": row.number,
        "mat": row.mat,
        "wrestlers": list(one.sides),
        "result": one.written,
        "kind": row.kind,
        "winner": None if row.winner_side is None else SIDES[row.winner_side],
        "occurred_at": moment(row.occurred_at),
        "voided_at": moment(row.voided_at),
    }
    if told is None:
        return item
    by = told.voided_by.username if told.voided_by else None
    return item | {"reason": told.reason, "voided_by": by}
