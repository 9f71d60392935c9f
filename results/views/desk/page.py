"""What the pages of the desk share: following the log, and who may press which button."""

from collections.abc import Mapping

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.journal.core.errors import NotAllowed
from seeding.journal.queries import seq_of


def may(request: HttpRequest, right: Right) -> bool:
    """Whether the role of the person at the page gives the right."""
    held: frozenset[Right] = getattr(request, "rights", frozenset())
    return right in held


def require(request: HttpRequest, right: Right) -> None:
    """Refuse a button that the page did not show."""
    if not may(request, right):
        raise NotAllowed(right=right)


def followed(
    request: HttpRequest,
    tournament: Tournament,
    page: str,
    part: str,
    shown: Mapping[str, object],
) -> HttpResponse:
    """A page that follows the log: 204 where nothing is newer than `after`, else its inside."""
    seq = seq_of(tournament.log_id)
    after = request.GET.get("after", "")
    if after.isdecimal() and int(after) >= seq:
        return HttpResponse(status=204)
    answer = render(request, part if after else page, {**shown, "seq": seq})
    answer["X-Seq"] = str(seq)
    answer["Cache-Control"] = "no-store"
    return answer
