"""The one way from refusals to HTTP."""

from collections.abc import Mapping
from typing import Any, cast

from django.core.exceptions import RequestDataTooBig, SuspiciousOperation
from django.utils.translation import gettext as _
from drf_standardized_errors.handler import ExceptionHandler
from drf_standardized_errors.types import ExceptionHandlerContext
from rest_framework import exceptions
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

STATUS: Mapping[type[Refusal], int] = {
    NotFound: 404,
    NotAllowed: 403,
    Stale: 412,
    KeyReused: 422,
    Invalid: 400,
    Refusal: 409,
}


class TooLarge(exceptions.APIException):
    """The body is larger than any that is read here."""

    status_code = 413
    default_code = "too-large"
    default_detail = "The body is too large. Send it in smaller parts."


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
        if isinstance(exc, RequestDataTooBig):
            return TooLarge()
        if isinstance(exc, SuspiciousOperation):
            return exceptions.ParseError(str(exc))
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
