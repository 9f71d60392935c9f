"""The font of all paper, and what happens to letters that it lacks.

DejaVu Sans Condensed covers Latin with every accent, Greek and Cyrillic, and may be passed on; its
licence lies beside it. A letter is looked for as it is, then without its accent, and what is still
lacking is printed as `LACKING`, so that nobody's name is cut short unseen. Letters that run from
right to left count as lacking: reportlab would print them backwards.
"""

import unicodedata
from functools import cache
from pathlib import Path
from typing import Final, cast

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont, TTFontFace

FOLDER: Final = Path(__file__).parent / "fonts"
REGULAR, BOLD = "DejaVuSansCondensed", "DejaVuSansCondensed-Bold"
LACKING: Final = "\N{REPLACEMENT CHARACTER}"
BACKWARDS = frozenset({"R", "AL"})
UNSEEN: Final = "Cf"


@cache
def face() -> TTFontFace:
    """The regular face, after both are known to reportlab."""
    for name in (REGULAR, BOLD):
        pdfmetrics.registerFont(TTFont(name, FOLDER / f"{name}.ttf"))
    pdfmetrics.registerFontFamily(
        REGULAR, normal=REGULAR, bold=BOLD, italic=REGULAR, boldItalic=BOLD
    )
    regular = pdfmetrics.getFont(REGULAR)
    return cast(TTFont, regular).face


def has(letter: str) -> bool:
    """Whether the font has the letter and prints it where it belongs."""
    if unicodedata.bidirectional(letter) in BACKWARDS or unicodedata.category(letter) == UNSEEN:
        return False
    return letter.isspace() or ord(letter) in face().charToGlyph


def printable(words: str) -> str:
    """The text in letters of the font: composed, else without accent, else `LACKING`."""
    return "".join(_printable(letter) for letter in unicodedata.normalize("NFC", words))


def _printable(letter: str) -> str:
    if has(letter):
        return letter
    base = unicodedata.normalize("NFKD", letter)
    kept = "".join(part for part in base if has(part) and not unicodedata.combining(part))
    if kept:
        return kept
    return "" if unicodedata.category(letter) in {UNSEEN, "Mn"} else LACKING
