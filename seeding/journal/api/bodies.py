"""What is sent: parsed within limits, and checked by a serializer that refuses what it lacks."""

import io
from collections.abc import Mapping
from typing import IO, Any

from rest_framework import exceptions
from rest_framework.parsers import JSONParser
from rest_framework.request import Request
from rest_framework.utils.serializer_helpers import ReturnDict

from seeding.journal.api.refusals import TooLarge
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.serializers import StrictSerializer

Data = Mapping[str, Any]


class JsonBody(JSONParser):
    """JSON of at most `most` bytes, of any depth that Python reads."""

    most = 1_000_000

    def parse(
        self,
        stream: IO[Any],
        media_type: str | None = None,
        parser_context: Mapping[str, Any] | None = None,
    ) -> Any:
        data = stream.read(self.most + 1)
        if len(data) > self.most:
            raise TooLarge
        try:
            found = super().parse(io.BytesIO(data), media_type, parser_context)
        except RecursionError as error:
            raise exceptions.ParseError("The JSON is nested too deeply.") from error
        _refuse_unwritable(found)
        return found


class JsonDocument(JsonBody):
    """JSON as large as a tournament file grows."""

    most = 32_000_000


def _refuse_unwritable(value: object, where: str = "") -> None:
    """Texts that no database keeps: with a null character or half of a pair."""
    if isinstance(value, dict):
        for key, item in value.items():
            _refuse_unwritable(key, where)
            _refuse_unwritable(item, f"{where}.{key}" if where else key)
    elif isinstance(value, list):
        for at, item in enumerate(value):
            _refuse_unwritable(item, f"{where}[{at}]")
    elif isinstance(value, str) and not writable(value):
        raise Invalid([Problem("", "A text has a null character or half of a surrogate pair.")])


def writable(text: str) -> bool:
    """Whether every database can keep the text."""
    return "\0" not in text and not any("\ud800" <= letter <= "\udfff" for letter in text)


def body_of(request: Request, shape: type[StrictSerializer]) -> Data:
    """What was sent, checked; unknown keys are refused with their path."""
    sent = request.data
    if hasattr(sent, "dict"):
        sent = sent.dict()
    return _checked(shape(data=sent))


def query_of(request: Request, shape: type[StrictSerializer]) -> Data:
    """The query parameters, checked; unknown ones are refused, and those allowed named."""
    return _checked(shape(data=request.query_params.dict()))


def _checked(form: StrictSerializer) -> Data:
    form.is_valid(raise_exception=True)
    found: ReturnDict[str, Any] | Any = form.validated_data
    return dict(found)
