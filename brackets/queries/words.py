"""The words of brackets, for pages and paper."""

from django.utils.translation import gettext as _

from brackets.core.rules import Wrestleback


def round_name(code: str) -> str:
    """A round in words.

    >>> round_name("QF"), round_name("C3"), round_name("3rd"), round_name("11th")
    ('Quarterfinals', 'Consolation round 3', '3rd place', '11th place')
    """
    named = {
        "P": _("Pigtail"),
        "CP": _("Consolation pigtail"),
        "RR": _("Pool"),
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


def wrestlebacks() -> dict[Wrestleback, str]:
    """The ways back in words."""
    return {
        Wrestleback.EVERYONE: _("everyone, to 3rd at best"),
        Wrestleback.TO_FIFTH: _("everyone, to 5th at best"),
        Wrestleback.QUARTERFINAL_WINNERS: _("whom a quarterfinal winner beat"),
        Wrestleback.FOLLOW_THE_LEADER: _("follow the leader"),
        Wrestleback.FINALISTS: _("whom a finalist beat"),
        Wrestleback.NOBODY: _("nobody"),
        Wrestleback.DOUBLE_ELIMINATION: _("double elimination"),
    }


def crossing_name(crossing: str) -> str:
    """A crossing in words; one that has no name as the order of its bouts."""
    named = {
        "as-set": _("as the rule book says"),
        "latest": _("the latest, found by search"),
        "straight": _("straight"),
        "reversed": _("reversed"),
        "half-swap": _("halves swapped"),
        "within-half": _("reversed within each half"),
    }
    return named.get(crossing, crossing)


def consolation_at(number: int, lines: int) -> str:
    """Consolation round `number` of a bracket of so many lines, the placing bouts being the last.

    >>> consolation_at(5, 32), consolation_at(7, 32)
    ('Consolation round 5', 'bouts for places')
    """
    last = 2 * (lines.bit_length() - 1) - 3
    return _("bouts for places") if number >= last else round_name(f"C{number}")
