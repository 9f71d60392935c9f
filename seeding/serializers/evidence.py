"""Shapes of the evidence: why between two, and the order of fewest violations."""

from dataclasses import asdict
from typing import Any

from rest_framework import serializers

from seeding.core.reasons import Step
from seeding.journal.serializers import StrictSerializer
from seeding.queries.evidence import Why
from seeding.queries.order import Order
from seeding.queries.violations import Violations

Item = dict[str, Any]
STEPS = [str(step) for step in Step]


def texts(help_text: str = "") -> serializers.ListField:
    """A list of sentences."""
    return serializers.ListField(child=serializers.CharField(), help_text=help_text)


class TwoSerializer(StrictSerializer):
    """Query parameters: two entries of the weight by their ids."""

    a = serializers.CharField(max_length=40)
    b = serializers.CharField(max_length=40)


class NumbersSerializer(serializers.Serializer[Any]):
    """A sum of the list, of the upper and of the lower one."""

    name = serializers.CharField()
    above = serializers.CharField()
    below = serializers.CharField()


class VerdictSerializer(serializers.Serializer[Any]):
    """What one criterion says of the two."""

    criterion = serializers.CharField()
    above = serializers.CharField()
    below = serializers.CharField()
    better = serializers.CharField(allow_blank=True, help_text="Empty: it decides nothing.")
    text = serializers.CharField()
    decided = serializers.BooleanField()
    bouts = texts("Date, winner, loser, how, weight and event.")


class PairSerializer(serializers.Serializer[Any]):
    """Why one of two stands above the other by the criteria, with every number and bout."""

    seq = serializers.IntegerField()
    above = serializers.CharField(help_text="The entry above, by its id.")
    below = serializers.CharField()
    step = serializers.ChoiceField(STEPS)
    criterion = serializers.CharField(help_text="What decided.")
    text = serializers.CharField()
    against = serializers.BooleanField(help_text="The committee put the two the other way round.")
    numbers = NumbersSerializer(many=True)
    verdicts = VerdictSerializer(many=True)
    bouts = texts("Evidence of what decided.")
    flags = texts("Where the lower one has beaten the higher one.")


class ViolationLineSerializer(serializers.Serializer[Any]):
    """One place of the order of fewest violations."""

    number = serializers.IntegerField()
    name = serializers.CharField()
    team = serializers.CharField()
    stands = serializers.IntegerField(help_text="His place in the order as it is.")


class LevelSerializer(serializers.Serializer[Any]):
    """Wrestlers whom circles bind, and the orders of them that are equally good."""

    names = texts()
    count = serializers.IntegerField(allow_null=True, help_text="Null: not counted.")
    tied = serializers.ListField(child=texts(), help_text="Neighbours who could change places.")
    alternatives = serializers.ListField(child=texts(), help_text="Some of those orders.")


class ViolationsSerializer(serializers.Serializer[Any]):
    """How often the order, and the best possible one, goes against a bout between two."""

    seq = serializers.IntegerField()
    now = serializers.IntegerField()
    fewest = serializers.IntegerField()
    bound = serializers.IntegerField(help_text="No order has fewer; proven where it is `fewest`.")
    proven = serializers.BooleanField()
    count = serializers.IntegerField(allow_null=True, help_text="Orders equally good in circles.")
    lines = ViolationLineSerializer(many=True)
    broken = texts("What even that order goes against.")
    levels = LevelSerializer(many=True)


def pair_item(order: Order, found: Why) -> Item:
    """Why between two, with all the bouts."""
    two = {found.above_id, found.below_id}
    return {
        "above": order.entries[found.above_id].key,
        "below": order.entries[found.below_id].key,
        "step": found.step,
        "criterion": found.criterion,
        "text": found.text,
        "against": found.against,
        "numbers": [asdict(one) for one in found.totals],
        "verdicts": [
            {
                "criterion": one.criterion,
                "above": one.above,
                "below": one.below,
                "better": one.better,
                "text": one.sentence,
                "decided": one.decided,
                "bouts": [bout.text for bout in one.bouts],
            }
            for one in found.says
        ],
        "bouts": [bout.text for bout in found.bouts],
        "flags": [
            flag.sentence.say(order.names)
            for flag in order.flags
            if {flag.above, flag.below} == two
        ],
    }


def violations_item(found: Violations) -> Item:
    """The order of fewest violations."""
    return {**asdict(found), "proven": found.proven}
