"""The door of the desk: who may enter a page of a tournament, and how a refusal looks."""

from collections.abc import Callable
from functools import wraps

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse, QueryDict
from django.http.response import HttpResponseBase
from django.shortcuts import render

from seeding.entries import queries
from seeding.entries.permissions import Right, rights
from seeding.journal.api import status_of, text_of
from seeding.journal.core.errors import NotAllowed, NotFound, Refusal
from seeding.journal.forms import ActForm
from seeding.journal.services import Call
from seeding.journal.views import submit

View = Callable[..., HttpResponseBase]


def desk(right: Right) -> Callable[[View], View]:
    """Open a desk page to those who hold `right` in the tournament named by `slug`.

    The view gets `(request, tournament, ...)`; the page's template finds `rights` on the request.
    Who has no role at all sees "not found": a private tournament does not say that it exists.
    """

    def wrap(view: View) -> View:
        @login_required
        @wraps(view)
        def page(request: HttpRequest, slug: str, **rest: object) -> HttpResponseBase:
            try:
                tournament = queries.tournament(slug)
                held = rights(request.user.pk, tournament.pk)
                if not held:
                    raise NotFound(what="tournament", name=slug)
                if right not in held:
                    raise NotAllowed(right=right)
                request.rights = held  # type: ignore[attr-defined]
                return view(request, tournament, **rest)
            except Refusal as refusal:
                return refused(request, refusal)

        return page

    return wrap


def posted(request: HttpRequest, do: str) -> QueryDict | None:
    """What was sent, where the button pressed is called `do`; else None, for an empty form."""
    sent = request.method == "POST" and request.POST.get("do") == do
    return request.POST if sent else None


def carried(request: HttpRequest, form: ActForm, do: Callable[[Call], object]) -> bool:
    """Whether the form was sent, was right, and its act is done; else its errors say why not."""
    return form.is_bound and submit(request, form, do) is not None


def refused(request: HttpRequest, refusal: Refusal) -> HttpResponse:
    """The page of a refusal that no form can show."""
    context = {"text": text_of(refusal)}
    return render(request, "entries/refused.html", context, status=status_of(refusal))
