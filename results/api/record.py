"""Results: enter, correct, undo, confirm, and what a correction would change."""

from brackets.models import Bout
from brackets.queries import bout_named
from results.queries.insiders import insiders
from results.queries.preview import preview
from results.serializers.acts import (
    CorrectionSerializer,
    CountSerializer,
    OfficialSerializer,
    StateSerializer,
    WhatIfSerializer,
    choices_of,
    decided_of,
    outcome_of,
)
from results.serializers.bouts import OutcomeSerializer
from results.serializers.previews import PreviewSerializer, preview_item
from results.services import confirm_result, correct_result, enter_result, make_official
from seeding.entries.permissions import Right, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, acts, asks
from seeding.journal.models import Act
from seeding.journal.services import Call


def _bout(call: Call, slug: str, bout: str) -> Bout:
    seen = sight(call.actor, slug)
    seen.need(Right.RECORD)
    return bout_named(seen.tournament, bout)


class BoutResult(Endpoint):
    """The result of a bout."""

    @acts(OutcomeSerializer, status=201, versioned=True)
    def post(self, call: Call, data: Data, slug: str, bout: str) -> Act:
        """Enter the result of an open bout; both wrestlers move on at once, provisionally."""
        row = _bout(call, slug, bout)
        return enter_result(call=call, bout=row, outcome=outcome_of(dict(data)))

    @acts(OutcomeSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str, bout: str) -> Act:
        """Correct a result.

        Refused where a later bout that would change hands has been wrestled, with the list of
        those bouts; a correction with choices says what becomes of them. An official result needs
        the right to direct.
        """
        row = _bout(call, slug, bout)
        return correct_result(call=call, bout=row, outcome=outcome_of(dict(data)))

    @acts(versioned=True)
    def delete(self, call: Call, data: Data, slug: str, bout: str) -> Act:
        """Undo a result; the bout can be wrestled again."""
        return correct_result(call=call, bout=_bout(call, slug, bout), outcome=None)


class ResultCorrection(Endpoint):
    """A correction that says what becomes of later bouts."""

    @acts(CorrectionSerializer, versioned=True)
    def post(self, call: Call, data: Data, slug: str, bout: str) -> Act:
        """Correct or undo a result whatever was wrestled since, as one step.

        Every later bout whose two would not meet any more needs a choice; `mark` is that of the
        preview with these choices. Choices need the right to direct and a reason.
        """
        row = _bout(call, slug, bout)
        sent = data["outcome"]
        return correct_result(
            call=call,
            bout=row,
            outcome=outcome_of(sent) if sent is not None else None,
            **decided_of(dict(data), row.drawn.weight_class),
        )


class ResultState(Endpoint):
    """How far a result is."""

    @acts(StateSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str, bout: str) -> Act:
        """Raise a result to confirmed or official, or bring it back to entered."""
        return confirm_result(call=call, bout=_bout(call, slug, bout), state=data["state"])


class ResultPreview(Endpoint):
    """What a correction would change."""

    @asks(PreviewSerializer, WhatIfSerializer)
    def post(self, call: Call, data: Data, slug: str, bout: str) -> dict[str, object]:
        """Look what would follow from another result, or from none; nothing is written."""
        seen = sight(call.actor, slug)
        seen.need(Right.RECORD)
        sent = data["outcome"]
        row = bout_named(seen.tournament, bout)
        found = preview(
            row,
            outcome_of(sent) if sent is not None else None,
            choices_of(dict(data), row.drawn.weight_class),
        )
        return preview_item(found, insiders(seen.tournament))


class Official(Endpoint):
    """Results that are official."""

    @asks(CountSerializer, OfficialSerializer, writes=True)
    def post(self, call: Call, data: Data, slug: str) -> dict[str, int]:
        """Make many results official, each an act of its own.

        A bout that was changed since the version named is passed over.
        """
        by = sight(call.actor, slug)
        by.need(Right.DIRECT)
        seen = {bout_named(by.tournament, one["bout"]).pk: one["version"] for one in data["bouts"]}
        return {"count": make_official(call=call, tournament=by.tournament, seen=seen)}
