"""How a person may be published: in full, by initials, or not at all.

Minors take part, so each entry says how it may be shown, and every public face asks this module.
"""

import unicodedata
from dataclasses import dataclass
from enum import StrEnum

FALLBACK = "Wrestler {number} of {team}"


class Publish(StrEnum):
    """What the public may see of a name."""

    FULL = "full"
    INITIALS = "initials"
    HIDDEN = "hidden"


@dataclass(frozen=True, slots=True)
class Shown:
    """A name as the public sees it. `given` and `family` are empty where they may not be shown."""

    given: str
    family: str
    text: str


def shown(
    given: str,
    family: str,
    publish: Publish,
    *,
    number: int,
    team: str,
    fallback: str = FALLBACK,
) -> Shown:
    """The name as it may be published.

    `number` and `team` fill the fallback of a hidden person, or of one without a name; the number
    must not come from an order by name (take the draw line or the entry's place in the file), or
    it would give the name away by its neighbours. `fallback` is the translated sentence.

    >>> shown("Ira", "Holm", Publish.FULL, number=7, team="ALD").text
    'Ira Holm'
    >>> shown("Anna Lena", "Holm", Publish.INITIALS, number=7, team="ALD").text
    'A. H.'
    >>> shown("Ira", "Holm", Publish.HIDDEN, number=7, team="ALD")
    Shown(given='', family='', text='Wrestler 7 of ALD')
    """
    parts = _parts(given, family, publish)
    text = " ".join(part for part in parts if part)
    return Shown(*parts, text or fallback.format(number=number, team=team))


def _parts(given: str, family: str, publish: Publish) -> tuple[str, str]:
    match publish:
        case Publish.FULL:
            return given.strip(), family.strip()
        case Publish.INITIALS:
            return initial(given), initial(family)
        case Publish.HIDDEN:
            return "", ""


def initial(name: str) -> str:
    """The first letter of a name and a full stop; nothing where the letter is the whole name.

    In some scripts a family name is one character, and an initial would print all of it.

    >>> initial("élodie"), initial("O'Dell"), initial("van Aalst"), initial("김"), initial("")
    ('É.', 'O.', 'V.', '', '')
    """
    letters = [letter for letter in unicodedata.normalize("NFC", name) if letter.isalpha()]
    return f"{letters[0].upper()}." if len(letters) > 1 else ""
