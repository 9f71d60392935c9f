"""The words of the sport on pages: `{% load sport %}`."""

from django import template
from django.utils.translation import gettext as _

from results.queries.race import Earned
from results.queries.sheets import Side

register = template.Library()


@register.filter
def round_name(code: str) -> str:
    """A round in words.

    >>> round_name("QF"), round_name("C3"), round_name("3rd"), round_name("11th")
    ('Quarterfinals', 'Consolation round 3', '3rd place', '11th place')
    """
    named = {
        "P": _("Pigtail"),
        "CP": _("Consolation pigtail"),
        "QF": _("Quarterfinals"),
        "SF": _("Semifinals"),
        "1st": _("Final"),
        "UF": _("Final of the unbeaten"),
        "1st2": _("Second final"),
        "2nd": _("True second"),
        "4th": _("True 4th place"),
        "6th": _("True 6th place"),
        "3rd": _("3rd place"),
        "5th": _("5th place"),
        "7th": _("7th place"),
        "9SF": _("Semifinals for 9th"),
        "13SF": _("Semifinals for 13th"),
        "9th": _("9th place"),
        "11th": _("11th place"),
        "13th": _("13th place"),
        "15th": _("15th place"),
    }
    return named.get(code) or _numbered(code)


def _numbered(code: str) -> str:
    letters = code.rstrip("0123456789")
    number = code[len(letters) :]
    if letters == "C":
        return _("Consolation round %(number)s") % {"number": number}
    return _("Round %(number)s") % {"number": number} if letters in ("R", "RR") else code


@register.filter
def round_brief(code: str) -> str:
    """A round as it stands beside a bout: the code, a round robin's without its letters."""
    return code.removeprefix("R") if code.startswith("RR") else code


@register.filter
def awaited(side: Side) -> str:
    """Who comes to a side on which nobody is named."""
    if side.taken:
        return _("line %(line)s") % {"line": side.line} if side.line else _("not published")
    if side.line is not None:
        return _("bye")
    if side.empty:
        return _("nobody")
    words = _("loser of %(bout)s") if side.loses else _("winner of %(bout)s")
    return words % {"bout": side.feeder}


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
