"""Rulings: what was decided against the format, deciding, and taking it back."""

from typing import Any

from django.urls import reverse
from rest_framework.request import Request
from rest_framework.response import Response

from brackets.models import Drawn
from brackets.queries import drawn
from results.api.shown import shown, told
from results.queries.insiders import insiders
from results.queries.ruled import rulings, void_bouts
from results.queries.rulings import look_at_ruling, look_at_taking_back, ruling_of
from results.queries.sheets import sheets
from results.serializers.acts import (
    ChoicesSerializer,
    ChosenSerializer,
    choices_of,
    decided_of,
)
from results.serializers.previews import PreviewSerializer, preview_item
from results.serializers.rulings import (
    LookSerializer,
    RuleSerializer,
    RulingsSerializer,
    ruling_item,
    void_item,
    wanted_of,
)
from results.services import rule, take_back_ruling
from seeding.entries.permissions import Right, sight
from seeding.entries.queries import weight
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, Made, acts, asks, reads
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call


def _drawn(call: Call, slug: str, key: str) -> Drawn:
    return drawn(weight(sight(call.actor, slug).tournament, key))


class Rulings(Endpoint):
    """The rulings of a tournament."""

    @reads(RulingsSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List the rulings, and the bouts that count for nothing, light to heavy."""
        seen = shown(request, slug, "results")

        def build() -> dict[str, Any]:
            found = sheets(seen.tournament, seen.gates, seen.people())
            made = {row.pk: row for row in rulings(seen.tournament)} if seen.own else {}
            void = {row.pk: row for row in void_bouts(seen.tournament)} if seen.own else {}
            return {
                "items": [
                    ruling_item(sheet.weight.key, one, made.get(one.row.pk))
                    for sheet in found
                    for one in sheet.rulings
                ],
                "void": [
                    void_item(sheet.weight.key, one, void.get(one.row.pk))
                    for sheet in found
                    for one in sheet.void
                ],
            }

        return told(request, seen, asked, build)

    @acts(RuleSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Made:
        """Decide sides, the winner, who goes on, or a place against the format, as one step.

        Where that touches wrestled bouts, each needs a choice and `mark` is that of the preview
        with these choices.
        """
        row = _drawn(call, slug, data["weight"])
        sent = dict(data)
        act = rule(
            call=call, drawn=row, wanted=wanted_of(sent), **decided_of(sent, row.weight_class)
        )
        made = str(act.subject["ruling"])
        return Made(act, made, reverse("api-ruling", args=[slug, made]))


class RulingsPreview(Endpoint):
    """What a ruling would change."""

    @asks(PreviewSerializer, LookSerializer)
    def post(self, call: Call, data: Data, slug: str) -> dict[str, object]:
        """Look what would follow from a ruling; nothing is written."""
        seen = sight(call.actor, slug)
        seen.need(Right.DIRECT)
        row = drawn(weight(seen.tournament, data["weight"]))
        sent = dict(data)
        chosen = choices_of(sent, row.weight_class)
        return preview_item(
            look_at_ruling(row, wanted_of(sent), chosen)[1], insiders(seen.tournament)
        )


class OneRuling(Endpoint):
    """A ruling."""

    @acts(gone="ruling.taken-back")
    def delete(self, call: Call, data: Data, slug: str, ruling: int) -> Act:
        """Take a ruling back; refused where wrestled bouts would change hands, with their list."""
        tournament = sight(call.actor, slug).tournament
        return take_back_ruling(call=call, ruling=ruling_of(tournament, ruling))


class RulingPreview(Endpoint):
    """What taking a ruling back would change."""

    @asks(PreviewSerializer, ChoicesSerializer)
    def post(self, call: Call, data: Data, slug: str, ruling: int) -> dict[str, object]:
        """Look what would follow from taking the ruling back; nothing is written."""
        seen = sight(call.actor, slug)
        seen.need(Right.DIRECT)
        row = ruling_of(seen.tournament, ruling)
        chosen = choices_of(dict(data), row.drawn.weight_class)
        return preview_item(look_at_taking_back(row, chosen), insiders(seen.tournament))


class RulingTakingBack(Endpoint):
    """Taking a ruling back over wrestled bouts."""

    @acts(ChosenSerializer, gone="ruling.taken-back")
    def post(self, call: Call, data: Data, slug: str, ruling: int) -> Act:
        """Take a ruling back, saying what becomes of wrestled bouts that change hands."""
        row = ruling_of(sight(call.actor, slug).tournament, ruling)
        return take_back_ruling(
            call=call, ruling=row, **decided_of(dict(data), row.drawn.weight_class)
        )
