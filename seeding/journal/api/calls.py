"""From a request to a call: who asks, with which key, over which version."""

import re

from django.conf import settings
from django.utils import timezone
from rest_framework import exceptions
from rest_framework.request import Request

from seeding.journal.api.documents import TAG
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call

KEY = re.compile(r"[\x21-\x7e]{1,80}")
VERSION = re.compile(r"[0-9]{1,18}")


def caller(request: Request) -> int | None:
    """The signed-in user; None for the public, whose session is never touched."""
    return request.user.pk if has_credentials(request) else None


def has_credentials(request: Request) -> bool:
    """Whether the request says who sends it: by a session, or by a name and password."""
    return settings.SESSION_COOKIE_NAME in request.COOKIES or "Authorization" in request.headers


def call_of(request: Request, *, versioned: bool = True) -> Call:
    """Who calls: the signed-in user, `Idempotency-Key`, and what `If-Match` says was seen.

    `versioned`: the subject has a version of its own, so that `If-Match` may name it.
    """
    if request.user.pk is None:
        raise exceptions.NotAuthenticated
    key = request.headers.get("Idempotency-Key", "")
    if key and not KEY.fullmatch(key):
        hint = "A key is 1 to 80 printable ASCII characters without spaces."
        raise Invalid([Problem("Idempotency-Key", hint)])
    expected, seen = seen_of(request.headers.get("If-Match", ""), versioned=versioned)
    return Call(request.user.pk, timezone.now(), key, expected, seen)


def seen_of(header: str, *, versioned: bool) -> tuple[int | None, int | None]:
    """The version of the subject and the `seq` of the document that `If-Match` names.

    Neither where it is absent or `*`.
    """
    value = header.strip().removeprefix("W/").strip('"')
    if value in {"", "*"}:
        return None, None
    if tag := TAG.fullmatch(value):
        return None, int(tag["seq"])
    if versioned and VERSION.fullmatch(value):
        return int(value), None
    own = "the number in its field `version` in quotes, or " if versioned else ""
    hint = f"This is no version. Send {own}the ETag of the document that you read."
    raise Invalid([Problem("If-Match", hint)])
