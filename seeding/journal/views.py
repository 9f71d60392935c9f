"""What every page that writes shares."""

from collections.abc import Callable
from typing import TypeVar

from django.http import HttpRequest
from django.utils import timezone

from seeding.journal.api import text_of
from seeding.journal.core.errors import Invalid, NotAllowed, Refusal
from seeding.journal.forms import ActForm
from seeding.journal.services import Call

T = TypeVar("T")


def call_of(request: HttpRequest, form: ActForm | None = None) -> Call:
    """Who presses the button, and with what key and version."""
    if request.user.pk is None:
        raise NotAllowed(right="signed in")
    data = form.cleaned_data if form else {}
    return Call(
        actor=request.user.pk,
        now=timezone.now(),
        key=data.get("key") or "",
        expected=data.get("version"),
    )


def submit(request: HttpRequest, form: ActForm, do: Callable[[Call], T]) -> T | None:
    """Validate the form and do the act; None, with the reasons in the form, where it is refused.

    What the person typed stays in the form.
    """
    if not form.is_valid():
        return None
    try:
        return do(call_of(request, form))
    except Refusal as refusal:
        refuse(form, refusal)
        return None


def refuse(form: ActForm, refusal: Refusal) -> None:
    """Put a refusal where the person looks: beside the field, else above the form."""
    if not isinstance(refusal, Invalid):
        form.add_error(None, text_of(refusal))
        return
    for problem in refusal.problems:
        beside = problem.where in form.fields
        form.add_error(
            problem.where if beside else None, problem.message if beside else str(problem)
        )
