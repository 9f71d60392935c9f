"""What all public pages share: gates, freshness, caching, and the live update.

A public page never touches the session, so that any cache may keep it: everybody sees the same.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import wraps
from hashlib import sha256
from typing import Any

from django.contrib.staticfiles.storage import staticfiles_storage
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.template.loader import render_to_string
from django.utils.cache import get_conditional_response
from django.utils.translation import get_language
from django.views.decorators.http import require_safe

from results.queries.gates import Gates
from seeding.entries import queries
from seeding.entries.models import Tournament
from seeding.journal.core.errors import NotFound

FRESH = "public, max-age=2, stale-while-revalidate=30, stale-if-error=600"
ASKED = "public, max-age=2"  # who asks what is newer, or anew, must not be given an old answer
LONG = 20  # digits that no sequence has


@dataclass(frozen=True, slots=True)
class Page:
    """A template, the partial that is the inside of its `main`, and what they are filled with."""

    template: str
    partial: str
    context: Mapping[str, Any]


View = Callable[..., Page | HttpResponse]


def public(view: View) -> Callable[..., HttpResponseBase]:
    """Serve a view `(request, tournament, gates, ...)` to everybody.

    `?after=<seq>` is answered 204 where nothing is newer, else with the partial. What is not
    published is not found. A view may answer with a file instead of a page.
    """

    @require_safe
    @wraps(view)
    def page(request: HttpRequest, slug: str, **rest: str) -> HttpResponseBase:
        tournament = _found(slug)
        gates, seq = Gates.of(tournament), tournament.log.seq
        after = request.GET.get("after")
        if after and len(after) < LONG and after.isdecimal() and int(after) >= seq:
            return _stamped(HttpResponse(status=204), seq, ASKED)
        etag = tag(request, f"{tournament.log.key}:{seq}:{gates}:{after is not None}")
        policy = FRESH if after is None and "again" not in request.GET else ASKED
        known = get_conditional_response(request, etag=etag)
        if known is not None:
            return _stamped(known, seq, policy)
        try:
            made = view(request, tournament, gates, **rest)
        except NotFound as refusal:
            raise Http404(str(refusal)) from refusal
        context = {"tournament": tournament, "gates": gates, "seq": seq}
        response = _answer(request, made, context, partly=after is not None)
        response.headers["ETag"] = etag
        return _stamped(response, seq, policy)

    return page


def _answer(
    request: HttpRequest, made: Page | HttpResponse, context: dict[str, Any], *, partly: bool
) -> HttpResponse:
    if isinstance(made, HttpResponse):
        return made
    address = {"address": request.build_absolute_uri(request.path)}
    name = made.partial if partly else made.template
    return HttpResponse(render_to_string(name, {**made.context, **context, **address}, request))


def tag(request: HttpRequest, version: str) -> str:
    """A weak validator: what is shown, in which language, and the state of the site's own files."""
    built = getattr(staticfiles_storage, "manifest_hash", "")
    text = f"{version}:{get_language()}:{built}:{request.build_absolute_uri()}"
    return f'W/"{sha256(text.encode()).hexdigest()[:20]}"'


def _found(slug: str) -> Tournament:
    try:
        return queries.tournament(slug)
    except NotFound as refusal:
        raise Http404(str(refusal)) from refusal


def _stamped(response: HttpResponseBase, seq: int, policy: str) -> HttpResponseBase:
    response.headers["Cache-Control"] = policy
    response.headers["X-Seq"] = str(seq)
    return response
