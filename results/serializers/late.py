"""Shapes of the weigh-in and of late changes, for those who direct."""

from typing import Any

from rest_framework import serializers

from results.core.late import Phase, Remedy
from results.models import Withdrawal
from results.queries.late import Follows, Moved
from results.queries.weigh_in import Concerned
from seeding.entries.models import Entry
from seeding.entries.serializers.people import moment
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]
REMEDIES = [one.value for one in Remedy]
NAME = {"max_length": 80, "allow_blank": True, "default": ""}
REASON = {"max_length": 300, "allow_blank": True, "default": ""}
MARK = {
    "max_length": 16,
    "allow_blank": True,
    "default": "",
    "help_text": "Of the preview that was seen: refused where something else would follow now.",
}


class CutOffSerializer(StrictSerializer):
    """From when on an empty place is a forfeit and not a bye.

    `division` null: all divisions that have none of their own. `at` null: nothing is stated.
    """

    division = serializers.CharField(max_length=40, allow_null=True)
    at = serializers.DateTimeField(allow_null=True)


class WeighedSerializer(StrictSerializer):
    """What the weigh-in of an entry came to; never a figure.

    `weight`: with "wrong weight" the one that he made. `version`: of the entry that was seen.
    """

    entry = serializers.CharField(max_length=40)
    state = serializers.ChoiceField(Entry.WeighIn.values)
    weight = serializers.CharField(max_length=40, allow_null=True, default=None)
    version = serializers.IntegerField(min_value=0, max_value=2**31, allow_null=True, default=None)


class WeighInsSerializer(StrictSerializer):
    """The weigh-in of many entries."""

    items = WeighedSerializer(many=True, max_length=1000)  # type: ignore[call-arg]


class SheetLineSerializer(serializers.Serializer[Any]):
    """An entry on the sheet of the weigh-in."""

    entry = serializers.CharField()
    weight = serializers.CharField()
    state = serializers.ChoiceField(Entry.WeighIn.values)
    made = serializers.CharField(allow_null=True, help_text="Another weight that he made.")
    version = serializers.IntegerField()


class ConcernedSerializer(serializers.Serializer[Any]):
    """An entry that does not wrestle where it was entered, and what can be done about it."""

    entry = serializers.CharField()
    phase = serializers.ChoiceField([one.value for one in Phase])
    offered = serializers.ListField(child=serializers.ChoiceField(REMEDIES))
    usual = serializers.ChoiceField(REMEDIES)
    weights = serializers.ListField(
        child=serializers.CharField(), help_text="Undrawn weights that are open to him."
    )
    alternate = serializers.CharField(allow_null=True)


class SheetSerializer(serializers.Serializer[Any]):
    """The weigh-in of a tournament; `concerned`: about whom something has to be done."""

    seq = serializers.IntegerField()
    cut_offs = CutOffSerializer(many=True)
    items = SheetLineSerializer(many=True)
    concerned = ConcernedSerializer(many=True)


class RemovalSerializer(StrictSerializer):
    """What is done about one entry; without `remedy` what is usual as things stand.

    `weight`: where he is entered instead. `given`, `family`: who comes in his place. `kind`: why he
    withdraws.
    """

    remedy = serializers.ChoiceField(REMEDIES, allow_null=True, default=None)
    weight = serializers.CharField(max_length=40, allow_null=True, default=None)
    given = serializers.CharField(**NAME)  # type: ignore[arg-type]
    family = serializers.CharField(**NAME)  # type: ignore[arg-type]
    kind = serializers.ChoiceField(Withdrawal.Kind.values, default=Withdrawal.Kind.MEDICAL.value)


class RemovedSerializer(RemovalSerializer):
    """The same, to be done; a redraw needs a reason."""

    reason = serializers.CharField(**REASON)  # type: ignore[arg-type]
    mark = serializers.CharField(**MARK)  # type: ignore[arg-type]


class CaseSerializer(RemovalSerializer):
    """The same with its entry."""

    entry = serializers.CharField(max_length=40)


class CasesSerializer(StrictSerializer):
    """What is done about many entries in one step."""

    items = CaseSerializer(many=True, max_length=1000)  # type: ignore[call-arg]


class AppliedSerializer(CasesSerializer):
    """The same, to be done; a redraw needs a reason."""

    reason = serializers.CharField(**REASON)  # type: ignore[arg-type]
    mark = serializers.CharField(**MARK)  # type: ignore[arg-type]


class LateEntrySerializer(StrictSerializer):
    """Who comes late, and onto what.

    After the draw: onto the free `line`, or with `redraw`, or, with neither, onto one by lot, whose
    seed is `lot_seed` or made and recorded.
    """

    team = serializers.CharField(max_length=40)
    given = serializers.CharField(**NAME)  # type: ignore[arg-type]
    family = serializers.CharField(max_length=80)
    line = serializers.IntegerField(min_value=1, max_value=256, allow_null=True, default=None)
    redraw = serializers.BooleanField(default=False)
    lot_seed = serializers.CharField(max_length=64, allow_blank=True, default="")


class LateEnteredSerializer(LateEntrySerializer):
    """The same, to be done; after the draw it needs a reason."""

    reason = serializers.CharField(**REASON)  # type: ignore[arg-type]
    mark = serializers.CharField(**MARK)  # type: ignore[arg-type]


class SwapSerializer(StrictSerializer):
    """Two lines that change places, from 1, top to bottom."""

    one = serializers.IntegerField(min_value=1, max_value=256)
    other = serializers.IntegerField(min_value=1, max_value=256)


class SwappedSerializer(SwapSerializer):
    """The same, to be done."""

    reason = serializers.CharField(max_length=300)
    mark = serializers.CharField(**MARK)  # type: ignore[arg-type]


class RedrawnSerializer(StrictSerializer):
    """Why a weight is drawn anew, and from what seed; left out, it is made and recorded."""

    reason = serializers.CharField(max_length=300)
    lot_seed = serializers.CharField(max_length=64, allow_blank=True, default="")
    mark = serializers.CharField(**MARK)  # type: ignore[arg-type]


class MovedWordsSerializer(serializers.Serializer[Any]):
    """Something that changes at a weight, in words; empty is nothing or nobody."""

    weight = serializers.CharField()
    what = serializers.CharField()
    before = serializers.CharField(allow_blank=True)
    after = serializers.CharField(allow_blank=True)


class FollowsSerializer(serializers.Serializer[Any]):
    """What would follow. `anew`: weights that are drawn anew by lot afterwards."""

    field = MovedWordsSerializer(many=True)
    seeds = MovedWordsSerializer(many=True)
    lines = MovedWordsSerializer(many=True)
    bouts = MovedWordsSerializer(many=True)
    places = MovedWordsSerializer(many=True)
    teams = MovedWordsSerializer(many=True)
    anew = serializers.ListField(child=serializers.CharField())
    mark = serializers.CharField()


def follows_item(found: Follows) -> Item:
    """What would follow."""
    parts = ("field", "seeds", "lines", "bouts", "places", "teams")
    told: Item = {part: [_moved(one) for one in getattr(found, part)] for part in parts}
    return told | {"anew": list(found.anew), "mark": found.mark}


def _moved(one: Moved) -> Item:
    return {"weight": one.weight, "what": one.what, "before": one.before, "after": one.after}


def line_item(row: Entry) -> Item:
    """An entry on the sheet."""
    return {
        "entry": row.key,
        "weight": row.weight_class.key,
        "state": row.weigh_in,
        "made": row.weighed_as.key if row.weighed_as else None,
        "version": row.version,
    }


def concerned_item(one: Concerned) -> Item:
    """An entry with what can be done about it."""
    return {
        "entry": one.entry.key,
        "phase": one.phase.value,
        "offered": [remedy.value for remedy in one.offered],
        "usual": one.usual.value,
        "weights": [row.key for row in one.weights],
        "alternate": one.alternate.key if one.alternate else None,
    }


def cut_off_item(division: str | None, at: Any) -> Item:
    """A stated cut-off."""
    return {"division": division, "at": moment(at)}
