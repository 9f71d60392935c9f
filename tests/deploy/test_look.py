"""The look keeps its promises: contrast, a strict content policy, no colour alone."""

import re
from html.parser import HTMLParser
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.template.loader import render_to_string
from django.test import RequestFactory
from playwright.sync_api import Page

from seeding.journal.forms import ActForm

ROOT = Path(__file__).parents[2]
STATIC = ROOT / "deploy/static/deploy"
APPS = ("deploy", "results", "brackets", "seeding")
TEMPLATES = sorted(p for app in APPS for p in (ROOT / app).rglob("templates/**/*.html"))
STYLES = sorted(STATIC.glob("*.css"))
SCRIPTS = sorted(STATIC.glob("*.js"))

# What is written on what. WCAG 2.2, 1.4.3: text 4.5 to 1; 1.4.11: graphics and edges 3 to 1.
TEXT = [
    ("ink", "paper"), ("ink", "sheet"), ("ink", "tint"), ("ink", "red-tint"),
    ("ink", "green-tint"), ("ink-2", "paper"), ("ink-2", "sheet"), ("ink-2", "tint"),
    ("ink-2", "green-tint"), ("ink-2", "red-tint"), ("accent", "paper"), ("accent", "sheet"),
    ("accent", "tint"), ("on-accent", "accent"), ("red", "paper"), ("red", "sheet"),
    ("red", "red-tint"), ("red", "tint"), ("green", "paper"), ("green", "sheet"),
    ("green", "green-tint"), ("green", "tint"), ("sheet", "red"), ("sheet", "green"),
    ("paper", "ink"),
]  # fmt: skip
GRAPHICS = [("edge", "paper"), ("edge", "sheet"), ("accent", "paper"), ("red", "paper")]


def palette(selector: str) -> dict[str, str]:
    """The colours named in one rule of look.css."""
    text = (STATIC / "look.css").read_text()
    body = re.search(rf"^{re.escape(selector)} \{{(.*?)^\}}", text, re.DOTALL | re.MULTILINE)
    assert body, selector
    return dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", body[1]))


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_contrast_is_measured_right() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


@pytest.mark.parametrize("mode", [":root", ":root.hall"])
def test_palette_can_be_read(mode: str) -> None:
    colours = palette(mode)
    low = {(a, b): round(contrast(colours[a], colours[b]), 2) for a, b in TEXT}
    assert {pair: ratio for pair, ratio in low.items() if ratio < 4.5} == {}
    edges = {(a, b): round(contrast(colours[a], colours[b]), 2) for a, b in GRAPHICS}
    assert {pair: ratio for pair, ratio in edges.items() if ratio < 3} == {}


def test_both_modes_name_the_same_colours() -> None:
    assert palette(":root").keys() == palette(":root.hall").keys()


@pytest.mark.parametrize("path", [p for p in STYLES if p.stem not in {"look", "print"}])
def test_colours_only_by_name(path: Path) -> None:
    assert re.findall(r"#[0-9a-f]{3,8}\b|\brgba?\(|\bhsla?\(", path.read_text()) == []


@pytest.mark.parametrize("path", STYLES)
def test_styles_use_only_colours_that_exist_and_fetch_nothing(path: Path) -> None:
    text = path.read_text()
    defined = set(re.findall(r"--([\w-]+):", "".join(p.read_text() for p in STYLES)))
    assert set(re.findall(r"var\(--([\w-]+)", text)) <= defined
    assert "url(" not in text
    assert "@import" not in text


class Strict(HTMLParser):
    """Collects what a strict content policy would block."""

    def __init__(self) -> None:
        super().__init__()
        self.bad: list[str] = []
        self.script = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = dict(attrs)
        self.bad += [f"<{tag} {name}>" for name in names if name == "style" or name[:2] == "on"]
        self.bad += [f"<{tag} javascript:>" for v in names.values() if v and "javascript:" in v]
        if tag == "style" or (tag == "script" and "src" not in names):
            self.bad.append(f"<{tag}> inline")
        outside = (names.get("src") or "").startswith(("http:", "https:", "//", "data:"))
        if outside:
            self.bad.append(f"<{tag}> from elsewhere")


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda p: str(p.relative_to(ROOT)))
def test_templates_keep_the_content_policy(path: Path) -> None:
    reader = Strict()
    reader.feed(re.sub(r"\{%.*?%\}|\{\{.*?\}\}|\{#.*?#\}", " ", path.read_text()))
    assert reader.bad == []


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda p: str(p.relative_to(ROOT)))
def test_words_can_be_translated(path: Path) -> None:
    """Outside tags, a template holds no English words of its own.

    The blocks `follow` and `page_class` are parts of tags; names of formats are names.
    """
    text = re.sub(
        r"\{% (blocktranslate|comment).*?\{% end\1 %\}", " ", path.read_text(), flags=re.DOTALL
    )
    text = re.sub(
        r"\{% block (follow|page_class) %\}.*?\{% endblock %\}", " ", text, flags=re.DOTALL
    )
    text = re.sub(r"\{%.*?%\}|\{\{.*?\}\}|\{#.*?#\}", " ", text, flags=re.DOTALL)
    text = re.sub(r"<[^>]*>|&\w+;", " ", text)
    assert set(re.findall(r"[A-Za-z]{3,}", text)) <= {"Headtable", "CSV", "XLSX"}


@pytest.mark.parametrize("path", SCRIPTS)
def test_scripts_keep_the_content_policy(path: Path) -> None:
    """No code from text, no markup by string, no style attribute, and no library."""
    text = re.sub(r"/\*.*?\*/", "", path.read_text(), flags=re.DOTALL)
    pitfalls = r"\beval\b|new Function|innerHTML|outerHTML|insertAdjacentHTML|document\.write"
    assert re.findall(pitfalls, text) == []
    assert re.findall(r"""\.style\b|cssText|setAttribute\(["'](?:style|on)""", text) == []
    assert (
        re.findall(r"""setTimeout\(\s*["'`]|^import |\bimport\(|https?://""", text, re.MULTILINE)
        == []
    )


def test_icon_is_a_plain_shape() -> None:
    text = (STATIC / "icon.svg").read_text()
    assert "<text" not in text
    assert "style" not in text


def tournament(**gates: bool) -> SimpleNamespace:
    shown = {"shows_draw": False, "shows_team_points": False, **gates}
    return SimpleNamespace(slug="open", name="Valley Open", time_zone="UTC", mats=[], **shown)


def test_base_never_asks_who_is_there() -> None:
    """A public page that reads the session could not be kept by a cache."""
    request = RequestFactory().get("/", {"hall": "1"})  # has neither session nor user
    page = render_to_string("deploy/base.html", {"tournament": tournament(), "seq": 417}, request)
    assert 'class="hall ' in page
    assert "act 417" in page
    assert "csrfmiddlewaretoken" not in page


@pytest.mark.parametrize("name", ["404.html", "403.html", "403_csrf.html", "500.html"])
def test_pages_of_errors_need_nothing(name: str) -> None:
    assert "<h1>" in render_to_string(name)


@pytest.mark.parametrize(("side", "shape", "word"), [(0, "<circle", "red"), (1, "<rect", "green")])
def test_a_side_has_a_shape_and_a_word(side: int, shape: str, word: str) -> None:
    made = render_to_string("deploy/_side.html", {"side": side, "name": "A. Arden", "won": True})
    assert shape in made
    assert f"</svg>{word}</span>" in made
    assert ">won</span>" in made


def test_a_side_without_a_name_says_why() -> None:
    made = render_to_string("deploy/_side.html", {"side": 1, "otherwise": "loser of 198"})
    assert "loser of 198" in made
    assert "nobody" in made


def test_a_form_puts_its_errors_beside_the_field() -> None:
    form = ActForm({"version": "x"})
    form.fields["version"].widget = form.fields["version"].widget.__class__()
    form.add_error(None, "Bout 12 has been wrestled.")
    made = render_to_string("deploy/_form.html", {"form": form}, RequestFactory().get("/"))
    assert "Bout 12 has been wrestled." in made
    assert 'role="alert"' in made


@pytest.mark.parametrize("status", ["waiting", "ready", "decided", "bye", "provisional"])
def test_a_chip_says_its_state(status: str) -> None:
    assert f">{status}</span>" in render_to_string("deploy/_chip.html", {"status": status})


@pytest.mark.browser
def test_a_long_result_wraps_on_a_telephone(phone: Page) -> None:
    styles = "".join(path.read_text() for path in STYLES)
    result = "mat 2 by ruling wrestled: Longname Dec 17-12 (SV-1) provisional ruling §1"
    bout = f'<li><span class="no">9</span><span class="result">{result}</span></li>'
    phone.set_content(f'<style>{styles}</style><ol class="bouts">{bout}</ol>')
    assert phone.evaluate("document.documentElement.scrollWidth") <= 390
