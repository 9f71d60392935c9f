"""Wrestlers who leave a group formed after weigh-in for another."""

from results.queries.regroup import Change, regrouped
from results.serializers.groups import (
    Item,
    LeavingSerializer,
    RegroupedSerializer,
    RegroupSerializer,
    regrouped_item,
)
from results.services import regroup
from seeding.entries import queries
from seeding.entries.models import Tournament, WeightClass
from seeding.entries.permissions import Right, sight
from seeding.entries.queries.groups import waiting_of
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, acts, asks
from seeding.journal.models import Act
from seeding.journal.services import Call


def _target(tournament: Tournament, data: Data) -> WeightClass | None:
    return queries.weight(tournament, data["target"]) if data["target"] else None


class WeightRegrouping(Endpoint):
    """Changes of a group until its first bout has a result."""

    @acts(RegroupSerializer, gone="groups.merged")
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Move entries to another group or a new one; draws of both groups are taken back.

        Everybody to another group: the two are merged. A limit that would be broken needs a
        reason, which stays at the desk.
        """
        tournament = sight(call.actor, slug).tournament
        return regroup(
            call=call,
            group=queries.weight(tournament, weight),
            entries=data["entries"],
            target=_target(tournament, data),
            reason=data["reason"],
        )


class RegroupingPreview(Endpoint):
    """What would follow from a change of groups."""

    @asks(RegroupedSerializer, LeavingSerializer)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Item:
        """Tell what would follow, with every limit broken; needs the right to direct."""
        seen = sight(call.actor, slug)
        seen.need(Right.DIRECT)
        group = queries.weight(seen.tournament, weight)
        waiting_of(group.division)
        target = _target(seen.tournament, data)
        change = Change(group.division, group, tuple(data["entries"]), target)
        return regrouped_item(regrouped(change))
