"""Shapes of what would follow from changing a fact."""

from typing import Any

from rest_framework import serializers

from brackets.models import Bout
from results.queries.consequences import Affected, Changed, Clash, Moved, Pair, Preview
from results.queries.people import People
from results.serializers.acts import CHOICES
from results.serializers.bouts import bout_name
from results.serializers.persons import PersonSerializer, person_item
from seeding.entries.models import Entry, Team

Item = dict[str, Any]


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


class TwoSerializer(serializers.Serializer[Any]):
    """The two of a bout; null where nobody stands."""

    top = PersonSerializer(allow_null=True)
    bottom = PersonSerializer(allow_null=True)


class ChangedSerializer(serializers.Serializer[Any]):
    """A bout that changes hands: who meets there now, and who would then."""

    bout = serializers.CharField()
    before = TwoSerializer()
    after = TwoSerializer()


class AffectedSerializer(serializers.Serializer[Any]):
    """A wrestled bout about which something has to be chosen.

    `after`: who would meet there if nothing kept its two.
    """

    bout = serializers.CharField()
    result = serializers.CharField(help_text="Such as `MD 11-1`.")
    choice = serializers.ChoiceField(CHOICES, allow_null=True)
    after = TwoSerializer()


class ClashSerializer(serializers.Serializer[Any]):
    """Somebody who would stand in bouts that do not go together."""

    wrestler = PersonSerializer(allow_null=True)
    bouts = serializers.ListField(child=serializers.CharField())


class PreviewSerializer(serializers.Serializer[Any]):
    """What would follow.

    `hands` has the bouts of `changed` with who meets in each. `wrestled` are the later bouts that
    stand in the way: those of `affected` about which nothing is chosen yet. `clashes` (two open
    bouts at once), and `shared` places that a ruling gave to one alone, forbid it. `early` stand in
    an open bout then, and have wrestled the second one, which comes after it. `adrift` have nowhere
    to go then. `mark` stands for all of this.
    """

    changed = serializers.ListField(child=serializers.CharField())
    hands = ChangedSerializer(many=True)
    affected = AffectedSerializer(many=True)
    wrestled = serializers.ListField(child=serializers.CharField())
    places = MovedPlaceSerializer(many=True)
    teams = MovedTeamSerializer(many=True)
    clashes = ClashSerializer(many=True)
    shared = serializers.ListField(child=serializers.IntegerField())
    early = ClashSerializer(many=True)
    adrift = PersonSerializer(many=True)
    mark = serializers.CharField()


def preview_item(seen: Preview, people: People) -> Item:
    """What would follow from a change."""
    return {
        "changed": [_bout(one.bout) for one in seen.changed],
        "hands": [_hands(one, people) for one in seen.changed],
        "affected": [_affected(one, people) for one in seen.affected],
        "wrestled": [_bout(row) for row in seen.wrestled],
        "places": [_place(moved, people) for moved in seen.places],
        "teams": [_team(moved) for moved in seen.teams],
        "clashes": [_clash(one, people) for one in seen.clashes],
        "shared": [one.place for one in seen.shared],
        "early": [_clash(one, people) for one in seen.early],
        "adrift": [_who(entry, people) for entry in seen.adrift],
        "mark": seen.mark,
    }


def _clash(one: Clash, people: People) -> Item:
    return {"wrestler": _who(one.entry, people), "bouts": [_bout(row) for row in one.bouts]}


def _hands(one: Changed, people: People) -> Item:
    before, after = _two(one.before, people), _two(one.after, people)
    return {"bout": _bout(one.bout), "before": before, "after": after}


def _affected(one: Affected, people: People) -> Item:
    told = {"bout": _bout(one.bout), "result": one.written, "choice": one.choice}
    return {**told, "after": _two(one.after, people)}


def _two(pair: Pair, people: People) -> Item:
    top, bottom = (_who(one, people) if isinstance(one, Entry) else None for one in pair)
    return {"top": top, "bottom": bottom}


def _bout(row: Bout) -> str:
    return bout_name(row.drawn.weight_class.key, row.key)


def _who(entry: Entry, people: People) -> Item | None:
    return person_item(people.by_pk.get(entry.pk), own=True)


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
