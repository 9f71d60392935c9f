"""The API as a program uses it, every answer held to the schema that the API publishes."""

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from django.urls import resolve
from drf_spectacular.generators import SchemaGenerator
from jsonschema import Draft202012Validator
from rest_framework.test import APIClient

from seeding.entries.models import Role, Tournament, User
from seeding.entries.services import found_organisation

ROOT = "/api/v1"


@lru_cache(maxsize=1)
def published_schema() -> dict[str, Any]:
    """The OpenAPI document."""
    made = SchemaGenerator()  # type: ignore[no-untyped-call]
    found: dict[str, Any] = made.get_schema(request=None, public=True)  # type: ignore[no-untyped-call]
    return found


@lru_cache(maxsize=512)
def operation_at(path: str, method: str) -> dict[str, Any]:
    """What the schema says of the operation that answers at a path."""
    route = re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", f"/{resolve(path).route}")
    found: dict[str, Any] = published_schema()["paths"][route][method.lower()]
    return found


class Api:
    """Somebody who speaks to the API; refused answers are returned like others."""

    def __init__(self, user: User | None = None) -> None:
        self.client = APIClient(raise_request_exception=True)
        if user:
            self.client.force_login(user)

    def ask(
        self,
        method: str,
        path: str,
        body: Any = None,
        *,
        key: str = "",
        match: str = "",
        **headers: str,
    ) -> Any:
        """Send a request; the answer is checked against the schema."""
        given = {"Idempotency-Key": key, "If-Match": match, **headers}
        more: dict[str, Any] = {"headers": {name: text for name, text in given.items() if text}}
        if body is not None:
            has_file = isinstance(body, dict) and "file" in body
            more |= {"data": body, "format": "multipart" if has_file else "json"}
        answer = getattr(self.client, method)(f"{ROOT}{path}", **more)
        conforms(answer, f"{ROOT}{path}", method)
        return answer

    def get(self, path: str, status: int = 200, **headers: str) -> Any:
        """The document at a path."""
        answer = self.ask("get", path, **headers)
        assert answer.status_code == status, answer.content
        return answer.json() if answer.content else None

    def act(self, method: str, path: str, body: Any = None, status: int = 0, **more: str) -> Any:
        """Do something; the answer as JSON."""
        answer = self.ask(method, path, body, **more)
        wanted = (status,) if status else (200, 201)
        assert answer.status_code in wanted, (answer.status_code, answer.content)
        return answer.json()


def conforms(answer: Any, path: str, method: str) -> None:
    """Hold an answer to the schema: status known, every field described."""
    bare = path.partition("?")[0]
    if answer.status_code in (204, 304, 405) or resolve(bare).url_name == "api-nowhere":
        return
    responses = operation_at(bare, method)["responses"]
    assert str(answer.status_code) in responses, (path, answer.status_code, answer.content)
    content = responses[str(answer.status_code)].get("content", {})
    if "application/json" not in content:
        return
    shape = content["application/json"]["schema"]
    root = {"components": published_schema()["components"], **shape}
    data = answer.json()
    Draft202012Validator(root).validate(data)
    assert not list(undescribed(data, shape, path))


def undescribed(data: Any, shape: dict[str, Any], where: str) -> Iterator[str]:
    """Fields that the schema does not know."""
    shape = _resolved(shape)
    if isinstance(data, list) and "items" in shape:
        for at, item in enumerate(data):
            yield from undescribed(item, shape["items"], f"{where}[{at}]")
    if isinstance(data, dict) and "properties" in shape:
        for name, item in data.items():
            known = shape["properties"].get(name)
            if known is None:
                yield f"{where}.{name}"
            else:
                yield from undescribed(item, known, f"{where}.{name}")


def _resolved(shape: dict[str, Any]) -> dict[str, Any]:
    if "$ref" in shape:
        name = shape["$ref"].rpartition("/")[2]
        found: dict[str, Any] = published_schema()["components"]["schemas"][name]
        return found
    for word in ("allOf", "oneOf", "anyOf"):
        refs = [one for one in shape.get(word, ()) if "$ref" in one and "Null" not in one["$ref"]]
        if refs:
            return _resolved(refs[0])
    return shape


def user(name: str, *, organisation: str = "home") -> User:
    """Somebody who can sign in."""
    home = found_organisation(slug=organisation, name=organisation.title())
    return User.objects.create_user(name, password="a-long-word-9", organisation=home, founds=True)


def with_role(tournament: Tournament, name: str) -> Api:
    """Somebody with that role in the tournament."""
    person = user(f"{tournament.slug}-{name}")
    Role.objects.create(tournament=tournament, user=person, name=name)
    return Api(person)
