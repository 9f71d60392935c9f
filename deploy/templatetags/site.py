"""The navigation of the site and the words of states, for the templates of deploy."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django import template
from django.urls import NoReverseMatch, reverse
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, pgettext_lazy

register = template.Library()
Text = str | Promise


@dataclass(frozen=True, slots=True)
class Section:
    """One part of the site: its url name, its word, what opens it, and the pages inside it."""

    name: str
    label: Text
    needs: str = ""
    inside: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Link:
    """A section as the reader sees it: where it leads, and whether he is there.

    `here` is the word of `aria-current`: "page", "true" on a page inside the section, else "".
    """

    url: str
    label: Text
    here: str


# `needs` is the publish gate of the tournament.
PUBLIC = (
    Section("front", gettext_lazy("Overview"), inside=("sheet", "team", "wrestler")),
    Section("bouts", gettext_lazy("Bouts"), "shows_draw"),
    Section("points", gettext_lazy("Team points"), "shows_team_points"),
)
# `needs` is the right that the role gives.
DESK = (
    Section(
        "desk-home",
        gettext_lazy("Overview"),
        "read",
        ("desk-sheets", "desk-withdrawals", "desk-return", "desk-giving-back"),
    ),
    Section("desk-frame", gettext_lazy("Frame"), "direct"),
    Section(
        "desk-weights",
        gettext_lazy("Weights"),
        "direct",
        ("desk-weight", "desk-division", "desk-groups", "desk-regroup", "desk-rematches"),
    ),
    Section("desk-teams", gettext_lazy("Teams"), "direct", ("desk-team",)),
    Section(
        "desk-entries",
        gettext_lazy("Entries"),
        "read",
        ("desk-entry", "desk-weigh-in", "desk-weigh-in-apply", "desk-take-out"),
    ),
    Section(
        "desk-intake",
        gettext_lazy("Intake"),
        "direct",
        (
            *("desk-job", "desk-roster", "desk-roster-plan", "desk-season", "desk-names"),
            *("desk-names-pair", "desk-twice"),
        ),
    ),
    Section(
        "desk-seeding",
        gettext_lazy("Seeding"),
        "seed",
        (
            *("desk-compare", "desk-ranks", "desk-grid", "desk-violations"),
            *("desk-challenges", "desk-minutes", "desk-recusals"),
            *("desk-ballots", "desk-put-in", "desk-put-in-plan"),
            *("desk-criteria", "desk-list"),
        ),
    ),
    Section(
        "desk-qualifying",
        gettext_lazy("Qualifying"),
        "seed",
        ("desk-field", "desk-field-places", "desk-region", "desk-qualifiers"),
    ),
    Section(
        "desk-draw",
        gettext_lazy("Draw"),
        "direct",
        (
            *("desk-draw-weight", "desk-draw-mats", "desk-commitment"),
            *("desk-late-entry", "desk-swap", "desk-redraw"),
        ),
    ),
    Section(
        "desk-bouts",
        gettext_lazy("Bouts"),
        "read",
        ("desk-bout", "desk-rulings", "desk-ruling", "desk-rule-bout", "desk-rule-place"),
    ),
    Section("desk-points", gettext_lazy("Team points"), "read", ("desk-team-moves",)),
    Section("desk-people", gettext_lazy("People"), "own"),
    Section("desk-log", gettext_lazy("Log"), "read"),
)
WORDS: Mapping[str, Text] = {
    "waiting": pgettext_lazy("bout", "waiting"),
    "ready": pgettext_lazy("bout", "ready"),
    "decided": pgettext_lazy("bout", "decided"),
    "bye": pgettext_lazy("bout", "bye"),
    "vacant": pgettext_lazy("bout", "nobody"),
    "spared": pgettext_lazy("bout", "not needed"),
    "official": gettext_lazy("official"),
    "provisional": gettext_lazy("provisional"),
    "entered": gettext_lazy("entered"),
    "scratched": gettext_lazy("scratched"),
    "standby": gettext_lazy("stands by"),
    "not yet": gettext_lazy("not yet"),
    "made": gettext_lazy("made weight"),
    "missed": gettext_lazy("missed weight"),
    "wrong weight": gettext_lazy("another weight"),
    "no-show": gettext_lazy("did not appear"),
    "queued": gettext_lazy("queued"),
    "running": gettext_lazy("running"),
    "done": gettext_lazy("done"),
    "failed": gettext_lazy("failed"),
    "ruling": gettext_lazy("ruling"),
    "void": gettext_lazy("void"),
    "out": gettext_lazy("out"),
}


@register.filter
def word(state: str) -> Text:
    """A state in the reader's language; an unknown one as it is."""
    return WORDS.get(str(state), str(state))


def _address(name: str, *args: object) -> str:
    try:
        return reverse(name, args=args)
    except NoReverseMatch:
        return ""


def _here(context: Mapping[str, Any]) -> str:
    match = getattr(context.get("request"), "resolver_match", None)
    return getattr(match, "url_name", None) or ""


def _links(context: Mapping[str, Any], sections: tuple[Section, ...]) -> Iterator[Link]:
    tournament, here = context["tournament"], _here(context)
    for section in sections:
        url = _address(section.name, tournament.slug) or _first_weight(section.name, tournament)
        if url:
            inside = "true" if here in section.inside else ""
            yield Link(url, section.label, "page" if here == section.name else inside)


def _first_weight(name: str, tournament: Any) -> str:
    """A section with a page per weight is entered at the lightest."""
    if name != "desk-seeding":
        return ""
    weight = tournament.weights.first()
    return _address(name, tournament.slug, weight.key) if weight else ""


@register.simple_tag(takes_context=True)
def public_links(context: Mapping[str, Any]) -> list[Link]:
    """The public sections whose gate is open."""
    tournament = context.get("tournament")
    if not tournament:
        return []
    opened = tuple(s for s in PUBLIC if not s.needs or getattr(tournament, s.needs, False))
    return list(_links(context, opened))


@register.simple_tag(takes_context=True)
def desk_links(context: Mapping[str, Any]) -> list[Link]:
    """The sections of the desk that the reader's rights open."""
    held: frozenset[str] = getattr(context.get("request"), "rights", frozenset())
    if not context.get("tournament"):
        return []
    return list(_links(context, tuple(s for s in DESK if s.needs in held)))


@register.simple_tag(takes_context=True)
def mat_links(context: Mapping[str, Any]) -> list[Link]:
    """The tables at the mats, for those who may record results."""
    request, tournament = context.get("request"), context.get("tournament")
    if not tournament or "record" not in getattr(request, "rights", frozenset()):
        return []
    match = getattr(request, "resolver_match", None)
    at = str(match.kwargs.get("mat", "")) if match else ""
    found = ((mat, _address("mat-table", tournament.slug, mat)) for mat in tournament.mats)
    return [
        Link(url, _("Mat %(mat)s") % {"mat": mat}, "page" if at == mat else "")
        for mat, url in found
        if url
    ]
