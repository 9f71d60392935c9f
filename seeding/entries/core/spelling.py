"""Names as people spell them: when two are the same, when they look like one, how to part one."""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from functools import lru_cache

from rapidfuzz import fuzz, process

ALIKE = 90
LISTED = 30
NEAREST = 8
_APOSTROPHES = str.maketrans(dict.fromkeys("\u2018\u2019\u00b4\u02bc\u02b9`", "'"))
_PLAIN = str.maketrans({"ø": "o", "ł": "l", "đ": "d", "ð": "d", "æ": "ae", "œ": "oe", "þ": "th"})
_PARTICLES = re.compile(
    r"(al|ap|bin|da|das|de|del|della|den|der|di|do|dos|du|el|ibn|la|le|ten|ter|van|von|zu)$",
    re.IGNORECASE,
)
_SUFFIX = re.compile(r"(jr|sr|ii|iii|iv|v)\.?$", re.IGNORECASE)


def tidied(text: str) -> str:
    """The text in one Unicode form, with single spaces and without invisible characters.

    >>> tidied(" Ira\\n  Holm\\u200b ")
    'Ira Holm'
    """
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    joined = " ".join(unicodedata.normalize("NFC", text).split())
    return "".join(sign for sign in joined if unicodedata.category(sign) not in ("Cc", "Cf"))


@lru_cache(maxsize=16_384)
def folded(text: str) -> str:
    """What two spellings of the same name have in common: case and kind of apostrophe aside.

    >>> folded("O\\u2019DELL") == folded("o'dell"), folded("José") == folded("Jose")
    (True, False)
    """
    return tidied(text).translate(_APOSTROPHES).casefold()


def plain(text: str) -> str:
    """The folded text without accents, to see what looks alike.

    >>> plain("Łukasz Nuñez-Ødegård")
    'lukasz nunez-odegard'
    """
    if text.isascii():
        return folded(text)
    parts = unicodedata.normalize("NFD", folded(text).translate(_PLAIN))
    return "".join(sign for sign in parts if not unicodedata.combining(sign))


def alike(text: str, others: Iterable[str]) -> tuple[str, ...]:
    """Those of the others that look like a slip of the pen for `text`, most alike first.

    Compares without accents and in any order of words, by the share of letters that agree
    (Indel distance, common practice, no source for the threshold); equal ones are left out.

    >>> alike("Jon Holm", ["John Holm", "Holm, Jon", "Ida Holm"])
    ('Holm, Jon', 'John Holm')
    """
    known = [other for other in others if folded(other) != folded(text)]
    found = process.extract(
        text,
        known,
        scorer=fuzz.token_sort_ratio,
        processor=lambda name: plain(name).replace(",", " "),
        score_cutoff=ALIKE,
        limit=5,
    )
    return tuple(name for name, _, _ in found)


def parted(name: str) -> tuple[str, str]:
    """A whole name as (given, family), from "Family, Given" or from "Given Family".

    Without a comma the last word is the family name, together with a suffix behind it and with
    particles before it. A single word is a family name.

    >>> parted("Holm, Ira"), parted("Anna Lena Holm"), parted("Holm")
    (('Ira', 'Holm'), ('Anna Lena', 'Holm'), ('', 'Holm'))
    >>> parted("Tom van der Aa"), parted("Holm, Ira, Jr."), parted("Ira Holm III")
    (('Tom', 'van der Aa'), ('Ira', 'Holm Jr.'), ('Ira', 'Holm III'))
    """
    family, comma, given = name.partition(",")
    if comma:
        given, _, suffix = given.partition(",")
        if _SUFFIX.match(given.strip()):
            given, suffix = suffix, given
        return tidied(given), tidied(f"{family} {suffix}")
    words = tidied(name).split()
    at = len(words) - 1
    if at > 1 and _SUFFIX.match(words[at]):
        at -= 1
    while at > 1 and _PARTICLES.match(words[at - 1]):
        at -= 1
    return " ".join(words[: max(at, 0)]), " ".join(words[max(at, 0) :])


def listed(name: str, known: Sequence[str]) -> str:
    """The names that are known, in one line; of many only those most like the one written."""
    if len(known) <= LISTED:
        return ", ".join(known)
    near = get_close_matches(name, known, NEAREST, 0)
    return f"{', '.join(near)} and {len(known) - len(near)} more"
