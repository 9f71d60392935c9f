"""The schema that the API publishes, and the page that shows it."""

import re
from collections.abc import Iterator
from typing import Any

import pytest
from django.test import Client
from drf_spectacular.drainage import GENERATOR_STATS
from drf_spectacular.generators import SchemaGenerator
from drf_spectacular.validation import validate_schema
from playwright.sync_api import Page, expect

from tests.conftest import Site


@pytest.fixture
def schema() -> dict[str, Any]:
    GENERATOR_STATS.reset()
    made = SchemaGenerator()  # type: ignore[no-untyped-call]
    found: dict[str, Any] = made.get_schema(request=None, public=True)  # type: ignore[no-untyped-call]
    return found


def operations(schema: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for path, methods in schema["paths"].items():
        for method, operation in methods.items():
            yield f"{method} {path}", operation


def test_the_schema_is_made_without_a_warning_and_valid(schema: dict[str, Any]) -> None:
    assert not GENERATOR_STATS._warn_cache
    assert not GENERATOR_STATS._error_cache
    assert schema["openapi"] == "3.1.0"
    validate_schema(schema)  # type: ignore[no-untyped-call]


def test_every_operation_is_explained(schema: dict[str, Any]) -> None:
    for name, operation in operations(schema):
        assert operation["summary"], name
        assert {"400", "403", "404"} <= set(operation["responses"]), name
        assert any(status.startswith("2") for status in operation["responses"]), name
        if not name.startswith("get") and "201" in operation["responses"]:
            headers = {one["name"] for one in operation["parameters"] if one["in"] == "header"}
            assert headers == {"Idempotency-Key", "If-Match"}, name


def test_every_choice_has_a_name_that_somebody_gave(schema: dict[str, Any]) -> None:
    numbered = re.compile(r"[0-9a-f]{3}Enum$")
    assert not [name for name in schema["components"]["schemas"] if numbered.search(name)]


@pytest.mark.django_db
def test_the_schema_is_served() -> None:
    answer = Client().get("/api/v1/schema/", headers={"Accept": "application/json"})
    assert answer.status_code == 200
    assert answer.json()["openapi"] == "3.1.0"


@pytest.mark.browser
def test_the_page_of_the_interface_works_under_the_strict_policy(site: Site, page: Page) -> None:
    page.goto(f"{site.address}/api/v1/docs/")
    page.locator("#operations-tag-results").click(timeout=20_000)
    expect(page.get_by_text("Enter the result of an open bout")).to_be_visible(timeout=20_000)
