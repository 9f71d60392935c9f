"""Texts in boxes: letters of the font only, made narrower or cut so that they fit."""

from collections.abc import Sequence

from reportlab.pdfbase.pdfmetrics import stringWidth

from seeding.journal.paper.fonts import printable

NARROWEST = 0.8
CUT = "\N{HORIZONTAL ELLIPSIS}"


def fitted(words: str, font: str, size: float, width: float) -> tuple[str, float]:
    """The words in letters of the font, and the size, at least four fifths, at which they fit.

    What is still too long is cut and ends in three dots.
    """
    shown = printable(words)
    taken = stringWidth(shown, font, size)
    if taken <= width:
        return shown, size
    smaller = size * max(NARROWEST, width / taken)
    if stringWidth(shown, font, smaller) <= width:
        return shown, smaller
    while shown and stringWidth(shown + CUT, font, smaller) > width:
        shown = shown[:-1].rstrip()
    return shown + CUT, smaller


def longest(forms: Sequence[str], font: str, size: float, width: float) -> str:
    """The first of the forms that fits; where none does, the first that fits made narrower."""
    for most in (width, width / NARROWEST):
        for form in forms:
            if stringWidth(printable(form), font, size) <= most:
                return form
    return forms[-1]
