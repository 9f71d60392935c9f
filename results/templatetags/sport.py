"""The words of the sport on pages: `{% load sport %}`."""

from django import template
from django.utils.translation import gettext as _

from brackets.core.graph import Beaten, Exit, From, Needed, Ranked
from results.queries.desk import DeskSide
from results.queries.drawing import Span
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
def awaited(side: Side | DeskSide) -> str:
    """Who comes to a side on which nobody is named."""
    return _open(side) or _coming(side, _("beaten in %(round)s by the winner of %(bout)s"))


@register.filter
def awaited_brief(side: Side | DeskSide) -> str:
    """The same so short that it fits a box of the sheet."""
    return _open(side) or _coming(side, _("%(round)s loser to winner of %(bout)s"))


def _open(side: Side | DeskSide) -> str:
    if side.taken:
        return _("line %(line)s") % {"line": side.line} if side.line else _("not published")
    if side.line is not None:
        return _("bye")
    if side.empty:
        return _("nobody")
    return ""


def _coming(side: Side | DeskSide, beaten: str) -> str:
    bout = {"bout": side.coming.bout}
    match side.coming.source:
        case Beaten(round=code):
            return beaten % {"round": code, **bout}
        case Ranked(pool=pool, rank=rank):
            return _("%(rank)s of pool %(pool)s") % {"rank": ranks()[rank - 1], "pool": "AB"[pool]}
        case From(exit=Exit.LOSER):
            return _("loser of %(bout)s") % bout
        case _:
            return _("winner of %(bout)s") % bout


def ranks() -> tuple[str, ...]:
    """The ranks in a pool in words."""
    return _("first"), _("second"), _("third"), _("fourth"), _("fifth")


@register.filter
def needed_words(needed: Needed) -> str:
    """When a bout is wrestled that may turn out not to be needed."""
    return {
        Needed.LEVEL: _("if neither has won both"),
        Needed.UNMET: _("if they have not met"),
        Needed.UPSET: _("if the unbeaten lost"),
    }[needed]


@register.filter
def span_words(span: Span) -> str:
    """Which part of a large sheet a drawing holds.

    >>> span_words(Span(2, 4, "R1", "QF")), span_words(Span(1, 1, "SF", "1st"))
    ('Quarter 2 of 4, Round 1 to Quarterfinals', 'Semifinals to Final')
    """
    named = {2: _("Half %(n)s of 2"), 4: _("Quarter %(n)s of 4"), 8: _("Eighth %(n)s of 8")}
    words = named.get(span.of, _("Part %(n)s of %(of)s")) % {"n": span.number, "of": span.of}
    rounds = _("%(first)s to %(last)s") % {
        "first": round_name(span.first),
        "last": round_name(span.last),
    }
    where = rounds if span.first != span.last else round_name(span.first)
    return f"{words}, {where}" if span.of > 1 else where


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
