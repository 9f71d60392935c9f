"""Shapes of bouts, results and brackets as they are published."""

from typing import Any

from rest_framework import serializers

from brackets.core.graph import Beaten, BoutKey, Exit, Format, From, Needed, Ranked, Section
from brackets.core.standing import Status
from results.core.outcomes import MANNERS, RIDING_TIME, Kind, notation, write_time
from results.models import Result
from results.queries.seen import Seen, Side
from results.queries.sheets import Sheet
from results.serializers.persons import PersonSerializer, PlaceSerializer, person_item, place_item
from seeding.entries.serializers.people import moment
from seeding.journal.serializers import FollowedPageSerializer, StrictSerializer

Item = dict[str, Any]
SIDES = ("top", "bottom")
EXITS = [str(one) for one in Exit]
STATES = Result.State.values
KINDS = [str(one) for one in Kind]
STATUSES = [str(one) for one in Status]
NEEDED = [str(one) for one in Needed]
POOLS = ("A", "B")


class FeederSerializer(serializers.Serializer[Any]):
    """Who comes to a side: the winner or loser of an earlier bout."""

    bout = serializers.CharField()
    exit = serializers.ChoiceField(EXITS)


class BeatenSerializer(serializers.Serializer[Any]):
    """Who comes to a side: whom the winner of a bout beat on his way there."""

    by = serializers.CharField(help_text="The bout whose winner beat him.")
    round = serializers.CharField(help_text="The round in which he beat him.")


class RankedSerializer(serializers.Serializer[Any]):
    """Who comes to a side: who has a rank in a pool."""

    pool = serializers.ChoiceField(POOLS)
    rank = serializers.IntegerField()


class SideSerializer(serializers.Serializer[Any]):
    """A side of a bout: red is the top one, green the bottom one."""

    side = serializers.ChoiceField(SIDES)
    wrestler = PersonSerializer(allow_null=True, help_text="Null also where he is not published.")
    taken = serializers.BooleanField(help_text="Somebody stands here.")
    empty = serializers.BooleanField(help_text="Nobody will come.")
    won = serializers.BooleanField()
    line = serializers.IntegerField(allow_null=True, help_text="The starting line of the draw.")
    feeder = FeederSerializer(allow_null=True)
    beaten = BeatenSerializer(allow_null=True)
    ranked = RankedSerializer(allow_null=True)


class ResultSerializer(serializers.Serializer[Any]):
    """A result in the rule book's notation and in its parts.

    Until it is official it is provisional. `misconduct` is told to those who have a role.
    """

    text = serializers.CharField(help_text="Such as `MD 11-1`.")
    kind = serializers.ChoiceField(KINDS)
    winner = serializers.ChoiceField(SIDES, allow_null=True)
    score = serializers.ListField(
        child=serializers.IntegerField(), allow_null=True, help_text="Winner first."
    )
    time = serializers.CharField(allow_null=True, help_text="m:ss at the end.")
    overtime = serializers.CharField(allow_null=True)
    decided_by = serializers.CharField(allow_null=True)
    near_fall = serializers.BooleanField()
    state = serializers.ChoiceField(STATES)
    official = serializers.BooleanField()
    implied = serializers.BooleanField(help_text="Follows from a withdrawal, was not entered.")
    occurred_at = serializers.DateTimeField(allow_null=True)
    received_at = serializers.DateTimeField(allow_null=True)
    misconduct = serializers.BooleanField(required=False)


class BoutSerializer(serializers.Serializer[Any]):
    """A bout. `version` is told to those who have a role."""

    id = serializers.CharField(help_text="Weight, round and position, such as `125.R1-9`.")
    weight = serializers.CharField()
    round = serializers.CharField()
    position = serializers.IntegerField()
    section = serializers.ChoiceField([str(one) for one in Section])
    places = serializers.ListField(
        child=serializers.IntegerField(),
        allow_null=True,
        help_text="What winner and loser of a placing bout take.",
    )
    number = serializers.IntegerField(allow_null=True)
    mat = serializers.CharField(allow_blank=True)
    status = serializers.ChoiceField(STATUSES)
    sides = SideSerializer(many=True)
    result = ResultSerializer(allow_null=True)
    winner_to = serializers.CharField(allow_null=True, help_text="The bout that follows.")
    loser_to = serializers.CharField(allow_null=True)
    loser_may_to = serializers.CharField(
        allow_null=True, help_text="Where the loser goes if the man who beat him goes on."
    )
    needed = serializers.ChoiceField(
        NEEDED,
        allow_null=True,
        help_text="When it is wrestled: while neither has won two, if the two have not met, if the "
        "unbeaten lost the bout before; null for always. One not needed has the status `spared`.",
    )
    ruled = serializers.BooleanField(
        help_text="A ruling is about it or about a place that it gives; see the rulings."
    )
    by_ruling = serializers.BooleanField(
        help_text="A ruling decided it, without its result or against it."
    )
    version = serializers.IntegerField(required=False)


class BoutDocumentSerializer(BoutSerializer):
    """A bout as a document of its own."""

    seq = serializers.IntegerField()


class BoutsSerializer(serializers.Serializer[Any]):
    """Numbered bouts in the order of their numbers."""

    seq = serializers.IntegerField()
    count = serializers.IntegerField()
    next = serializers.CharField(allow_null=True)
    items = BoutSerializer(many=True)


class BoutsQuerySerializer(FollowedPageSerializer):
    """Query parameters of the bouts."""

    mat = serializers.CharField(required=False, max_length=20)
    weight = serializers.CharField(required=False, max_length=40)
    status = serializers.ChoiceField(STATUSES, required=False)


class RoundSerializer(serializers.Serializer[Any]):
    """A round in the running order."""

    code = serializers.CharField()
    section = serializers.ChoiceField([str(one) for one in Section])
    column = serializers.IntegerField()


class BracketSerializer(serializers.Serializer[Any]):
    """The bracket of a weight: every bout and bye in running order, and the certain places."""

    seq = serializers.IntegerField()
    weight = serializers.CharField()
    format = serializers.ChoiceField([str(one) for one in Format])
    lines = serializers.IntegerField(help_text="How many starting lines it has.")
    rounds = RoundSerializer(many=True)
    bouts = BoutSerializer(many=True)
    places = PlaceSerializer(many=True)


class OutcomeSerializer(StrictSerializer):
    """How a bout ended. What belongs to a kind, the rule book says."""

    kind = serializers.ChoiceField(KINDS)
    winner = serializers.ChoiceField(SIDES, allow_null=True, required=False)
    score = serializers.ListField(
        child=serializers.IntegerField(min_value=0, max_value=999),
        min_length=2,
        max_length=2,
        allow_null=True,
        required=False,
        help_text="Winner first.",
    )
    time = serializers.RegexField(
        r"^[0-9]{1,2}:[0-5][0-9]$", allow_null=True, required=False, help_text="m:ss"
    )
    overtime = serializers.CharField(max_length=8, allow_null=True, required=False)
    decided_by = serializers.ChoiceField([RIDING_TIME], allow_null=True, required=False)
    near_fall = serializers.BooleanField(default=True)
    misconduct = serializers.BooleanField(default=False)


def bout_name(weight: str, key: BoutKey) -> str:
    """A bout's identity in the tournament."""
    return f"{weight}.{key}"


def bout_item(bout: Seen, row: Result | None, *, own: bool, version: int | None = None) -> Item:
    """A bout as published, `row` being its result where results are."""
    weight = bout.weight.key
    item: Item = {
        "id": bout_name(weight, bout.key),
        "weight": weight,
        "round": bout.key.round,
        "position": bout.key.position,
        "section": str(bout.round.section),
        "places": list(bout.round.places) if bout.round.places else None,
        "number": bout.number,
        "mat": bout.mat,
        "status": str(bout.status),
        "sides": [_side(weight, side, own=own) for side in bout.sides],
        "result": _result(row, own=own) if row else _implied(bout),
        "winner_to": bout_name(weight, bout.winner_to) if bout.winner_to else None,
        "loser_to": bout_name(weight, bout.loser_to) if bout.loser_to else None,
        "loser_may_to": bout_name(weight, bout.loser_may_to) if bout.loser_may_to else None,
        "needed": str(bout.round.needed) if bout.round.needed else None,
        "ruled": bool(bout.rulings),
        "by_ruling": bout.overruled is not None,
    }
    return item if version is None else item | {"version": version}


def _side(weight: str, side: Side, *, own: bool) -> Item:
    came = side.came
    return {
        "side": SIDES[side.slot],
        "wrestler": person_item(side.person, own=own),
        "taken": side.taken,
        "empty": side.empty,
        "won": side.won,
        "line": side.line,
        "feeder": {"bout": bout_name(weight, came.bout), "exit": str(came.exit)}
        if isinstance(came, From)
        else None,
        "beaten": {"by": bout_name(weight, came.by), "round": came.round}
        if isinstance(came, Beaten)
        else None,
        "ranked": {"pool": POOLS[came.pool], "rank": came.rank}
        if isinstance(came, Ranked)
        else None,
    }


def _result(row: Result, *, own: bool) -> Item:
    outcome = row.outcome
    item: Item = {
        "text": notation(outcome),
        "kind": str(outcome.kind),
        "winner": None if outcome.winner is None else SIDES[outcome.winner],
        "score": list(outcome.score) if outcome.score else None,
        "time": None if outcome.time is None else write_time(outcome.time),
        "overtime": outcome.overtime,
        "decided_by": outcome.decided_by,
        "near_fall": outcome.near_fall,
        "state": row.state,
        "official": row.state == Result.State.OFFICIAL,
        "implied": False,
        "occurred_at": moment(row.occurred_at),
        "received_at": moment(row.received_at),
    }
    return item | {"misconduct": outcome.misconduct} if own else item


FORFEIT = MANNERS[Kind.FORFEIT].notation


def _implied(bout: Seen) -> Item | None:
    """A win over somebody who is out already."""
    if not bout.result:
        return None
    return {
        "text": bout.result,
        "kind": str(Kind.FORFEIT if bout.result == FORFEIT else Kind.MEDICAL),
        "winner": next((SIDES[side.slot] for side in bout.sides if side.won), None),
        "score": None,
        "time": None,
        "overtime": None,
        "decided_by": None,
        "near_fall": True,
        "state": str(Result.State.OFFICIAL),
        "official": True,
        "implied": True,
        "occurred_at": None,
        "received_at": None,
    }


def bracket_item(sheet: Sheet, bouts: list[Item], *, own: bool) -> Item:
    """The bracket of a weight."""
    weight = sheet.weight.key
    return {
        "weight": weight,
        "format": str(sheet.bracket.format),
        "lines": len(sheet.bracket.lines),
        "rounds": [
            {"code": one.code, "section": str(one.section), "column": one.column}
            for one in sheet.bracket.rounds
        ],
        "bouts": bouts,
        "places": [place_item(weight, place, who, own=own) for place, who in sheet.places],
    }
