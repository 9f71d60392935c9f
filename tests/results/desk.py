"""A person at the desk, without a browser: reads a page's forms and presses their buttons."""

from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

from django.test import Client


@dataclass
class Form:
    """A form as it stands on the page: what would be sent, and the `do` of its buttons."""

    method: str
    values: dict[str, Any] = field(default_factory=dict)
    buttons: list[str] = field(default_factory=list)


class Forms(HTMLParser):
    """The forms of a page."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: list[Form] = []
        self.inside: Form | None = None
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag == "form":
            self.inside = Form(given.get("method") or "get")
            self.found.append(self.inside)
        if self.inside is None or not given.get("name"):
            return
        name, value = str(given["name"]), given.get("value") or ""
        if tag == "button":
            self.inside.buttons.append(value)
        elif tag == "input":
            ticked = given.get("type") not in ("radio", "checkbox") or "checked" in given
            if ticked:
                self.inside.values[name] = value

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self.inside = None


class Selected(HTMLParser):
    """What each select of a page stands on: by its name the value chosen first."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: dict[str, str] = {}
        self.inside = ""
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag == "select":
            self.inside = given.get("name") or ""
        elif tag == "option" and ("selected" in given or self.inside not in self.found):
            self.found[self.inside] = given.get("value") or ""


def text(answer: Any) -> str:
    """The page that came."""
    found: str = answer.content.decode()
    return found


def buttons(client: Client, url: str) -> set[str]:
    """What can be pressed on a page."""
    return {name for form in Forms(text(client.get(url))).found for name in form.buttons}


def form(page: str, do: str) -> dict[str, Any]:
    """What the form with that button holds."""
    return next(one.values for one in Forms(page).found if do in one.buttons)


def press(client: Client, url: str, do: str, **typed: Any) -> Any:
    """Open a page, fill in its form and press the button; the answer after any redirect."""
    sent = {**form(text(client.get(url)), do), "do": do, **typed}
    return client.post(url, sent, follow=True)
