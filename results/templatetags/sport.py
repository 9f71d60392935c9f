"""The words of the sport on pages: `{% load sport %}`."""

from django import template
from django.utils.translation import gettext as _

from brackets.queries.words import round_name
from results.queries import foretold, words
from results.queries.people import Person
from results.queries.race import Earned
from results.queries.ruled import rulings_made
from results.queries.sheets import Sheet

register = template.Library()
register.filter(round_name)
register.filter(rulings_made)
register.filter(foretold.asked)
register.filter(foretold.hands)
register.filter(words.awaited)
register.filter(words.awaited_brief)
register.filter(words.needed_words)
register.filter(words.overruled_words)
register.filter(words.span_words)


@register.filter
def round_brief(code: str) -> str:
    """A round as it stands beside a bout: the code, a round robin's without its letters."""
    return code.removeprefix("R") if code.startswith("RR") else code


@register.filter
def place_mark(sheet: Sheet, who: Person | None) -> str:
    """The mark of what was ruled about somebody's place."""
    return sheet.place_mark(who.key) if who else ""


@register.filter
def why(part: Earned) -> str:
    """What gave a part of a team's points."""
    code = round_brief(part.round)
    at = f"{part.number} {code}" if part.number else code
    match part.item:
        case "placement" if part.reason == "running":
            text = _("place %(place)s certain") % {"place": part.place}
        case "placement":
            text = _("place %(place)s") % {"place": part.place}
        case "advancement":
            text = _("win in %(bout)s") % {"bout": at}
        case "bye":
            text = _("bye in %(bout)s") % {"bout": at}
        case "bonus":
            text = _("%(kind)s in %(bout)s") % {"kind": _(part.reason), "bout": at}
        case _:
            text = _(part.reason)
    return text
