"""The one way from refusals to HTTP, and what every endpoint shares."""

from collections.abc import Mapping
from typing import Any, cast

from django.utils import timezone
from django.utils.translation import gettext as _
from drf_standardized_errors.handler import ExceptionHandler
from drf_standardized_errors.types import ExceptionHandlerContext
from rest_framework import exceptions
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.journal.core.errors import (
    Invalid,
    KeyReused,
    NotAllowed,
    NotFound,
    Problem,
    Refusal,
    Stale,
)
from seeding.journal.models import Act
from seeding.journal.services import Call

STATUS: Mapping[type[Refusal], int] = {
    NotFound: 404,
    NotAllowed: 403,
    Stale: 412,
    KeyReused: 422,
    Invalid: 400,
    Refusal: 409,
}


def status_of(refusal: Refusal) -> int:
    """The HTTP status of a refusal: that of its nearest class in `STATUS`."""
    return next(STATUS[kind] for kind in type(refusal).__mro__ if kind in STATUS)


def text_of(refusal: Refusal) -> str:
    """The refusal in the reader's language."""
    return _(refusal.template).format(**refusal.params)


class Handler(ExceptionHandler):
    """Renders every error as `{"type", "errors": [{"code", "detail", "attr"}]}`."""

    def convert_known_exceptions(self, exc: Exception) -> Exception:
        if isinstance(exc, Invalid):
            return exceptions.ValidationError(_by_place(exc.problems), code=exc.code)
        if isinstance(exc, Refusal):
            error = exceptions.APIException(detail=text_of(exc), code=exc.code)
            error.status_code = status_of(exc)
            return error
        converted: Exception = super().convert_known_exceptions(exc)
        return converted


def _by_place(problems: tuple[Problem, ...]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for problem in problems:
        found.setdefault(problem.where or "non_field_errors", []).append(problem.message)
    return found


def handler(exc: Exception, context: dict[str, Any]) -> Response | None:
    """The exception handler named in the settings."""
    return Handler(exc, cast(ExceptionHandlerContext, context)).run()


def call_of(request: Request) -> Call:
    """Who calls the API: the signed-in user, `Idempotency-Key`, and the version in `If-Match`."""
    if request.user.pk is None:
        raise exceptions.NotAuthenticated
    return Call(
        actor=request.user.pk,
        now=timezone.now(),
        key=request.headers.get("Idempotency-Key", ""),
        expected=version_of(request.headers.get("If-Match", "")),
    )


def version_of(header: str) -> int | None:
    """The version in an `If-Match` header, None where it is absent or `*`."""
    value = header.strip().removeprefix("W/").strip('"')
    if value in {"", "*"}:
        return None
    if not value.isdigit():
        raise Invalid(
            [Problem("If-Match", f"“{header}” is no version; send the number in quotes.")]
        )
    return int(value)


def done(act: Act, status: int = 200, **more: object) -> Response:
    """The answer to an act: its `seq` in the log, and what it concerned."""
    return Response({"seq": act.seq, "verb": act.verb, "subject": act.subject, **more}, status)
