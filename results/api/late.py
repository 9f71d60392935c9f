"""The weigh-in of a tournament and late changes; every act has its preview."""

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from results.core.late import Newcomer, Remedy
from results.queries.weigh_in import Case, concerned, cut_offs, sheet
from results.serializers.acts import KindSerializer
from results.serializers.late import (
    AppliedSerializer,
    CasesSerializer,
    CutOffSerializer,
    FollowsSerializer,
    Item,
    LateEnteredSerializer,
    LateEntrySerializer,
    RedrawnSerializer,
    RemovalSerializer,
    RemovedSerializer,
    SheetSerializer,
    SwappedSerializer,
    SwapSerializer,
    WeighInsSerializer,
    concerned_item,
    cut_off_item,
    follows_item,
    line_item,
)
from results.services import (
    apply_weigh_in,
    enter_late,
    redraw,
    set_cut_off,
    swap_lines,
    take_out,
)
from results.services.late import (
    LateEntry,
    look_at_cases,
    look_at_late_entry,
    look_at_redraw,
    look_at_swap,
)
from results.services.withdraw import look_at_withdrawal
from seeding.entries import queries
from seeding.entries.models import Tournament, WeightClass
from seeding.entries.permissions import Right, sight
from seeding.entries.services import record_weigh_in
from seeding.entries.services.weighing import Weighed
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, acts, asks, reads
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer, NothingSerializer
from seeding.journal.services import Call


def _directed(call: Call, slug: str) -> Tournament:
    """The tournament, for those who direct it."""
    seen = sight(call.actor, slug)
    seen.need(Right.DIRECT)
    return seen.tournament


def _weight(call: Call, slug: str, key: str) -> WeightClass:
    return queries.weight(sight(call.actor, slug).tournament, key)


def _case(tournament: Tournament, key: str, data: Data) -> Case:
    named = data["family"].strip()
    return Case(
        entry=queries.entry(tournament, key),
        remedy=Remedy(data["remedy"]) if data["remedy"] else None,
        weight=queries.weight(tournament, data["weight"]) if data["weight"] else None,
        person=Newcomer(data["given"], data["family"]) if named else None,
        kind=data["kind"],
    )


def _cases(tournament: Tournament, data: Data) -> list[Case]:
    return [_case(tournament, one["entry"], one) for one in data["items"]]


class WeighIn(Endpoint):
    """The weigh-in of a tournament."""

    @reads(SheetSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """Read the sheet, and about whom something has to be done; needs the right to direct."""
        seen = sight(caller(request), slug)
        seen.need(Right.DIRECT)
        at = seen.tournament
        return document(request, at.log, lambda: _sheet(at), own=True, after=asked.get("after"))

    @acts(WeighInsSerializer)
    def put(self, call: Call, data: Data, slug: str) -> Act:
        """Record the weigh-in of many entries; what follows from it is another act.

        Licensed medical staff and the local code decide whether anyone may wrestle.
        """
        tournament = sight(call.actor, slug).tournament
        items = {
            one["entry"]: Weighed(
                state=one["state"],
                weight=queries.weight(tournament, one["weight"]) if one["weight"] else None,
                seen=one["version"],
            )
            for one in data["items"]
        }
        return record_weigh_in(call=call, tournament=tournament, items=items)


def _sheet(tournament: Tournament) -> Item:
    rows = cut_offs(tournament)
    return {
        "cut_offs": [
            cut_off_item(row.division.key if row.division else None, row.at) for row in rows
        ],
        "items": [line_item(row) for row in sheet(tournament)],
        "concerned": [concerned_item(one) for one in concerned(tournament, timezone.now())],
    }


class WeighInApplication(Endpoint):
    """What is done about those whom the weigh-in leaves without their weight."""

    @acts(AppliedSerializer)
    def post(self, call: Call, data: Data, slug: str) -> Act:
        """Apply the weigh-in: all misses, wrong weights and no-shows in one step.

        Refused as a whole where one of it is refused. Licensed medical staff and the local code
        decide whether anyone may wrestle.
        """
        tournament = sight(call.actor, slug).tournament
        return apply_weigh_in(
            call=call,
            tournament=tournament,
            cases=_cases(tournament, data),
            reason=data["reason"],
            mark=data["mark"],
        )


class WeighInApplicationPreview(Endpoint):
    """What would follow from applying the weigh-in."""

    @asks(FollowsSerializer, CasesSerializer)
    def post(self, call: Call, data: Data, slug: str) -> Item:
        """Tell what would follow; needs the right to direct."""
        return follows_item(look_at_cases(call, _cases(_directed(call, slug), data)))


class EntryRemoval(Endpoint):
    """An entry that does not wrestle on its line."""

    @acts(RemovedSerializer, versioned=True)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Take an entry out, before the draw, after it or during the event.

        Nothing wrestled is lost: who has a result can only be withdrawn. Licensed medical staff
        and the local code decide about injury and return.
        """
        case = _case(sight(call.actor, slug).tournament, key, data)
        return take_out(call=call, case=case, reason=data["reason"], mark=data["mark"])


class EntryRemovalPreview(Endpoint):
    """What would follow from taking an entry out."""

    @asks(FollowsSerializer, RemovalSerializer)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Item:
        """Tell what would follow; needs the right to direct."""
        return follows_item(look_at_cases(call, [_case(_directed(call, slug), key, data)]))


class EntryWithdrawalPreview(Endpoint):
    """What the withdrawal of an entry would change."""

    @asks(FollowsSerializer, KindSerializer)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Item:
        """Tell what would follow; needs the right to direct."""
        entry = queries.entry(_directed(call, slug), key)
        return follows_item(look_at_withdrawal(call, entry, data["kind"]))


def _late(weight: WeightClass, data: Data) -> LateEntry:
    return LateEntry(
        team=queries.team(weight.tournament, data["team"]),
        person=Newcomer(data["given"], data["family"]),
        line=data["line"],
        lot_seed=data["lot_seed"],
        redraw=data["redraw"],
    )


class LateEntries(Endpoint):
    """Who comes late."""

    @acts(LateEnteredSerializer, status=201, versioned=True)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Enter somebody without a seed; after the draw onto a free line or with a redraw."""
        at = _weight(call, slug, weight)
        told = {"reason": data["reason"], "mark": data["mark"]}
        return enter_late(call=call, weight=at, late=_late(at, data), **told)


class LateEntryPreview(Endpoint):
    """What would follow from a late entry."""

    @asks(FollowsSerializer, LateEntrySerializer)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Item:
        """Tell what would follow but for the lot, which no preview tells; needs the right to
        direct.
        """
        at = queries.weight(_directed(call, slug), weight)
        return follows_item(look_at_late_entry(call, at, _late(at, data)))


class LineSwap(Endpoint):
    """Two lines that change places."""

    @acts(SwappedSerializer, versioned=True)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Swap two lines of a drawn weight while nobody on them has a result."""
        return swap_lines(
            call=call,
            weight=_weight(call, slug, weight),
            lines=(data["one"], data["other"]),
            reason=data["reason"],
            mark=data["mark"],
        )


class LineSwapPreview(Endpoint):
    """What would follow from a swap."""

    @asks(FollowsSerializer, SwapSerializer)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Item:
        """Tell what would follow; needs the right to direct."""
        at = queries.weight(_directed(call, slug), weight)
        return follows_item(look_at_swap(call, at, (data["one"], data["other"])))


class WeightRedraw(Endpoint):
    """A weight that is drawn anew."""

    @acts(RedrawnSerializer, versioned=True)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Take a draw back of which nothing is wrestled, and draw again; who is out stays out."""
        return redraw(call=call, weight=_weight(call, slug, weight), **data)


class WeightRedrawPreview(Endpoint):
    """What would follow from a redraw."""

    @asks(FollowsSerializer, NothingSerializer)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Item:
        """Tell what would follow but for the lot; needs the right to direct."""
        at = queries.weight(_directed(call, slug), weight)
        return follows_item(look_at_redraw(call, at))


class CutOff(Endpoint):
    """From when on an empty place is a forfeit and not a bye."""

    @acts(CutOffSerializer)
    def put(self, call: Call, data: Data, slug: str) -> Act:
        """State the cut-off of the weigh-in, for all divisions or for one; null takes it back."""
        tournament = sight(call.actor, slug).tournament
        division = queries.division(tournament, data["division"]) if data["division"] else None
        return set_cut_off(call=call, tournament=tournament, division=division, at=data["at"])
