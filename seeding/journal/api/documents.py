"""Documents: what is read, in the state that the log's `seq` names.

Everybody without a role gets the same bytes, so that any cache may keep them. Whoever has a role
gets his own, which no shared cache keeps.
"""

import re
from collections.abc import Callable, Mapping
from typing import Any

from django.utils.http import parse_etags
from django.utils.translation import get_language
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.journal.models import Log

FRESH = "public, max-age=2, stale-while-revalidate=30, stale-if-error=600"
ASKED = "public, max-age=2"  # who asks what is newer must not be given an old "nothing"
OWN = "private, no-cache"
TAG = re.compile(r"seq(?P<seq>[0-9]{1,18})\.[0-9a-z.-]+")


def document(
    request: Request,
    log: Log,
    build: Callable[[], Mapping[str, Any]],
    *,
    own: bool,
    after: int | None = None,
) -> Response:
    """The document that `build` makes, with its `seq`; 304 or 204 where the reader has it already.

    `own`: for somebody with a role. `after`: the newest `seq` that the reader knows of.
    """
    asked = after is not None
    policy = OWN if own else ASKED if asked else FRESH
    headers = {"Cache-Control": policy, "ETag": tag(log, own=own), "X-Seq": str(log.seq)}
    if after is not None and after >= log.seq:
        return Response(status=204, headers=headers)
    if _known(request, headers["ETag"]):
        return Response(status=304, headers=headers)
    return Response({"seq": log.seq, **build()}, headers=headers)


def listing(request: Request, version: str, build: Callable[[], Any], *, own: bool) -> Response:
    """A document over several logs; `version` changes with every one of them."""
    headers = {"Cache-Control": OWN if own else FRESH, "ETag": f'W/"{version}"'}
    if _known(request, headers["ETag"]):
        return Response(status=304, headers=headers)
    return Response(build(), headers=headers)


def tag(log: Log, *, own: bool) -> str:
    """The entity tag of a log's documents."""
    reader = "own" if own else "all"
    return f'W/"seq{log.seq}.{log.key.hex[:8]}.{reader}.{get_language() or ""}"'.lower().replace(
        "w/", "W/", 1
    )


def _known(request: Request, etag: str) -> bool:
    known = parse_etags(request.headers.get("If-None-Match", ""))
    return "*" in known or etag.removeprefix("W/") in {one.removeprefix("W/") for one in known}
