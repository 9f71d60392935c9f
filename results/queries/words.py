"""What pages and paper say of sides and of parts of a sheet."""

from django.utils.translation import gettext as _

from brackets.core.graph import Beaten, Exit, From, Needed, Ranked
from brackets.queries.words import round_name
from results.queries.desk import DeskBout, DeskSide
from results.queries.drawing import Span
from results.queries.seen import Seen, Side


def awaited(side: Side | DeskSide) -> str:
    """Who comes to a side on which nobody is named."""
    return _open(side) or _coming(side, _("beaten in %(round)s by the winner of %(bout)s"))


def awaited_brief(side: Side | DeskSide) -> str:
    """The same so short that it fits a box of the sheet."""
    return _open(side) or _coming(side, _("lost %(round)s to winner %(bout)s"))


def _open(side: Side | DeskSide) -> str:
    if side.taken:
        return _("line %(line)s") % {"line": side.line} if side.line else _("not published")
    if side.line is not None or side.coming.nobody:
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


def overruled_words(bout: Seen | DeskBout) -> str:
    """The result that a ruling went before, with who had won it; "" where there is none."""
    told = bout.overruled
    if told is None or not told.written:
        return ""
    words = _("wrestled: %(result)s") if told.wrestled else _("entered: %(result)s")
    if told.winner is None:
        return words % {"result": told.written}
    name = _called(bout.sides[told.winner], bout.sides[1 - told.winner])
    return words % {"result": f"{name} {told.written}"}


def _called(side: Side | DeskSide, other: Side | DeskSide) -> str:
    """The shortest form of a name that is not the opponent's too; his side where it has none."""
    if not side.forms:
        return _("green") if side.slot else _("red")
    return next((form for form in side.forms[::-1] if form not in other.forms), side.forms[0])


def ranks() -> tuple[str, ...]:
    """The ranks in a pool in words."""
    return _("first"), _("second"), _("third"), _("fourth"), _("fifth")


def needed_words(needed: Needed) -> str:
    """When a bout is wrestled that may turn out not to be needed."""
    return {
        Needed.LEVEL: _("if neither has won both"),
        Needed.UNMET: _("if they have not met"),
        Needed.UPSET: _("if the unbeaten lost"),
    }[needed]


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
