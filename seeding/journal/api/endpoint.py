"""The base of every endpoint: documents to read, and acts to do."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import wraps
from inspect import getdoc
from typing import Any

from django.utils.cache import patch_vary_headers
from drf_spectacular.openapi import AutoSchema
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, OpenApiResponse, extend_schema
from rest_framework.negotiation import DefaultContentNegotiation
from rest_framework.parsers import BaseParser
from rest_framework.renderers import BaseRenderer
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.serializers import Serializer
from rest_framework.views import APIView

from seeding.journal.api.bodies import JsonBody, body_of, query_of, writable
from seeding.journal.api.calls import call_of, has_credentials
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Act
from seeding.journal.serializers import (
    DoneSerializer,
    ErrorsSerializer,
    NothingSerializer,
    StrictSerializer,
)
from seeding.journal.services import Call

Handle = Callable[..., Response]


@dataclass(frozen=True, slots=True)
class Made:
    """An act with what it made: how that is called here, and where it is found."""

    act: Act
    key: str
    address: str = ""


class AlwaysJson(DefaultContentNegotiation):
    """There is one form of every answer; what the reader would like is not asked."""

    def select_renderer(
        self,
        request: Request,
        renderers: Any,
        format_suffix: str | None = None,
    ) -> tuple[BaseRenderer, str]:
        renderer: BaseRenderer = next(iter(renderers))
        return renderer, str(renderer.media_type)


class EndpointSchema(AutoSchema):
    """Names operations by what they are, and sorts them by what they are about."""

    def get_operation_id(self) -> str:
        return f"{self.method.lower()}{type(self.view).__name__}"

    def get_tags(self) -> list[str]:
        # The app: with a tag for each kind of thing the docs page stops after some thirty of them.
        return [type(self.view).__module__.partition(".api")[0].rpartition(".")[2]]


class Endpoint(APIView):
    """Answers in JSON, also where it refuses; leaves the session of the public alone."""

    schema = EndpointSchema()
    content_negotiation_class = AlwaysJson
    parser_classes: Sequence[type[BaseParser]] = (JsonBody,)

    def perform_authentication(self, request: Request) -> None:
        if has_credentials(request):
            super().perform_authentication(request)

    def initial(self, request: Request, *args: Any, **kwargs: Any) -> None:
        super().initial(request, *args, **kwargs)
        for value in kwargs.values():
            if not writable(str(value)):
                raise NotFound(what="address", name="")

    def finalize_response(
        self, request: Request, response: Response, *args: Any, **kwargs: Any
    ) -> Response:
        made = super().finalize_response(request, response, *args, **kwargs)
        made.headers.setdefault("Cache-Control", "no-store")
        patch_vary_headers(made, ("Authorization", "Cookie"))
        return made


REFUSED = {
    400: "The request is wrong; every problem is listed.",
    401: "Name or password is wrong.",
    403: "Not signed in, or the role does not allow it.",
    404: "There is no such thing, or its kind is not published.",
    409: "It cannot be done as things stand.",
    412: "What `If-Match` names is not how it stands.",
    413: "The body is too large.",
    415: "The body is of a type that is not read here.",
    422: "The idempotency key was used for another request.",
}
OF_READS = (400, 401, 403, 404)
OF_QUESTIONS = (*OF_READS, 409, 413, 415)
OF_ACTS = tuple(REFUSED)
KEY = OpenApiParameter(
    "Idempotency-Key",
    OpenApiTypes.STR,
    OpenApiParameter.HEADER,
    description="The same key with the same request is the same act, however often it is sent.",
)
MATCH = OpenApiParameter(
    "If-Match",
    OpenApiTypes.STR,
    OpenApiParameter.HEADER,
    description="The ETag of the document that you read: refused where anything changed since.",
)
OWN_MATCH = OpenApiParameter(
    "If-Match",
    OpenApiTypes.STR,
    OpenApiParameter.HEADER,
    description=(
        "The `version` of the thing in quotes: refused where it changed since; "
        "or the ETag of the document that you read: refused where anything changed since."
    ),
)


def refusals(*statuses: int) -> dict[int, OpenApiResponse]:
    """The error responses of the schema."""
    return {
        status: OpenApiResponse(ErrorsSerializer, description=REFUSED[status])
        for status in statuses
    }


def reads(
    shape: type[Serializer[Any]], *, query: type[StrictSerializer] = NothingSerializer
) -> Callable[[Handle], Handle]:
    """A read: the method gets the request, the checked query, and what the address names."""

    def wrap(method: Handle) -> Handle:
        @_described(
            method,
            parameters=[] if query is NothingSerializer else [query],
            responses={200: shape, **refusals(*OF_READS)},
        )
        @wraps(method)
        def run(self: Endpoint, request: Request, **at: Any) -> Response:
            return method(self, request, query_of(request, query), **at)

        return run

    return wrap


def acts(
    body: type[StrictSerializer] = NothingSerializer,
    *,
    status: int = 200,
    versioned: bool = False,
    gone: str = "",
) -> Callable[[Callable[..., Act | Made]], Handle]:
    """An act: the method gets the call, what was sent, and what the address names.

    `gone`: the verb of an act after which the thing is not found again, so that the same key is
    still answered with the first act.
    """

    def wrap(method: Callable[..., Act | Made]) -> Handle:
        @_described(
            method,
            request=None if body is NothingSerializer else body,
            parameters=[KEY, OWN_MATCH if versioned else MATCH],
            responses={status: DoneSerializer, **refusals(*OF_ACTS)},
        )
        @wraps(method)
        def run(self: Endpoint, request: Request, **at: Any) -> Response:
            query_of(request, NothingSerializer)
            call = call_of(request, versioned=versioned)
            data = body_of(request, body)
            try:
                return done(method(self, call, data, **at), status)
            except NotFound:
                if earlier := _earlier(call, gone):
                    return done(earlier, status)
                raise

        return run

    return wrap


def asks(
    shape: type[Serializer[Any]], body: type[StrictSerializer], *, writes: bool = False
) -> Callable[[Callable[..., Mapping[str, Any]]], Handle]:
    """A question with a body, such as a dry run; or, where it `writes`, many acts at once."""

    def wrap(method: Callable[..., Mapping[str, Any]]) -> Handle:
        @_described(
            method,
            request=None if body is NothingSerializer else body,
            parameters=[KEY] if writes else [],
            responses={200: shape, **refusals(*(OF_ACTS if writes else OF_QUESTIONS))},
        )
        @wraps(method)
        def run(self: Endpoint, request: Request, **at: Any) -> Response:
            query_of(request, NothingSerializer)
            call = call_of(request)
            return Response(method(self, call, body_of(request, body), **at))

        return run

    return wrap


def orders(
    shape: type[Serializer[Any]], body: type[StrictSerializer] = NothingSerializer
) -> Callable[[Callable[..., Mapping[str, Any]]], Handle]:
    """An order for something long: the answer is the job, which goes on without the caller."""

    def wrap(method: Callable[..., Mapping[str, Any]]) -> Handle:
        @_described(
            method,
            request=None if body is NothingSerializer else body,
            parameters=[KEY],
            responses={202: shape, **refusals(*OF_QUESTIONS)},
        )
        @wraps(method)
        def run(self: Endpoint, request: Request, **at: Any) -> Response:
            query_of(request, NothingSerializer)
            call = call_of(request)
            return Response(method(self, call, body_of(request, body), **at), 202)

        return run

    return wrap


def _earlier(call: Call, verb: str) -> Act | None:
    if not (call.key and verb):
        return None
    return Act.objects.filter(actor=call.actor, key=call.key, verb=verb).first()


def done(what: Act | Made, status: int = 200) -> Response:
    """The answer to an act: its `seq` in the log, what it concerned, and what it made."""
    act = what.act if isinstance(what, Made) else what
    told: dict[str, object] = {"seq": act.seq, "verb": act.verb, "subject": act.subject}
    if isinstance(what, Act):
        return Response(told, status)
    told |= {"key": what.key, "address": what.address}
    return Response(told, status, headers={"Location": what.address} if what.address else None)


def _described(method: Callable[..., Any], **schema: Any) -> Callable[[Handle], Handle]:
    """The schema of a method: summary and description are those of its docstring."""
    summary, _, rest = (getdoc(method) or "").partition("\n")
    decorate: Callable[[Handle], Handle] = extend_schema(
        summary=summary.rstrip("."), description=rest.strip() or summary, **schema
    )
    return decorate
