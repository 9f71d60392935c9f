"""The words of brackets, for pages and paper."""

from django.utils.translation import gettext as _


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
