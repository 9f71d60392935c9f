"""Single settings of a rule book as people write them, one a line: `team_points.byes = none`."""

import json
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation

from seeding.entries.core.rulebook import names, override, whole
from seeding.entries.core.upgrades import Snapshot
from seeding.journal.core.errors import Problem, Refusal

Settings = dict[str, object]


def read_settings(text: str, base: Snapshot) -> tuple[Settings, tuple[Problem, ...]]:
    """The settings that the lines name, and everything that is wrong with the lines.

    A value must be of the kind that stands in `base`: a number, true or false, a list, or text. A
    list may be written as words with commas, or as its one word; a word that stands alone beside
    it in its table (crossings "latest") stands for itself.

    >>> read_settings("team_points.byes = all", {"team_points": {"byes": "none"}})
    ({'team_points.byes': 'all'}, ())
    """
    found: Settings = {}
    problems: list[Problem] = []
    for number, line in enumerate(text.splitlines(), 1):
        name, sign, value = (part.strip() for part in line.partition("="))
        if not name and not sign:
            continue
        wrong = _wrong_name(base, name) if sign else "write it as: name = value"
        said = None if wrong else _value(value, base, name)
        if said is None:
            wrong = wrong or f"{name} must be {_wanted(value_of(base, name))}; it is “{value}”"
            problems.append(Problem(f"line {number}", wrong))
        else:
            found[name] = said
    return found, tuple(problems)


def placed(text: str, where: str, said: str) -> Problem:
    """What is said of the setting `where`, at the lines that set it, else those of its table.

    >>> str(placed("weights.groups.least = 9", "weights.groups.size", "It is too small."))
    'line 1: It is too small.'
    """
    named = [(n, line.partition("=")[0].strip()) for n, line in enumerate(text.splitlines(), 1)]
    for table in (where, where.rpartition(".")[0], where.partition(".")[0]):
        lines = [str(n) for n, name in named if table and f"{name}.".startswith(f"{table}.")]
        if lines:
            return Problem(f"line{'s' if len(lines) > 1 else ''} {', '.join(lines)}", said)
    return Problem("", said)


def written(settings: Mapping[str, object]) -> str:
    """The lines that `read_settings` reads back.

    >>> written({"bracket.places": 6, "team_points.byes": "none"})
    'bracket.places = 6\\nteam_points.byes = none'
    """
    return "\n".join(f"{name} = {_said(value)}" for name, value in settings.items())


def single(settings: Mapping[str, object]) -> dict[str, object]:
    """The settings without those that are whole sections."""
    sections = whole(settings)
    return {name: value for name, value in settings.items() if name not in sections}


def value_of(base: Mapping[str, object], name: str) -> object:
    """What stands under the dotted name; None where nothing does."""
    at: object = base
    for key in name.split("."):
        if isinstance(at, list):
            at = {str(item.get("name", n)): item for n, item in enumerate(at)}
        if not isinstance(at, Mapping):
            return None
        at = at.get(key)
    return at


def _wrong_name(base: Snapshot, name: str) -> str:
    """Why the name cannot be set; empty when it can."""
    if name in names(base):
        return ""
    try:
        override({**base}, {name: 0})
    except Refusal as refusal:
        return str(refusal)
    return ""


def _said(value: object) -> str:
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def _beside(base: Snapshot, name: str) -> set[str]:
    """The words that stand alone in the same table."""
    table = value_of(base, name.rpartition(".")[0])
    values = table.values() if isinstance(table, Mapping) else ()
    return {value for value in values if isinstance(value, str)}


def _value(text: str, base: Snapshot, name: str) -> object | None:
    """The text as a value of the kind that stands under the name; None where it is none.

    In a table by number (of lines, of places) words with commas are a list whatever stands there.
    """
    present, numbered = value_of(base, name), name.rpartition(".")[2].isdecimal()
    plain = _number(text)
    if isinstance(present, bool):
        return {"true": True, "yes": True, "false": False, "no": False}.get(text.casefold())
    if _is_number(present):
        return plain
    if text.startswith("["):
        return _list(text)
    if isinstance(present, list) or (numbered and "," in text):
        return text if text in _beside(base, name) else _words(text)
    return plain if present is None and plain is not None else text or None


def _number(text: str) -> int | str | None:
    """A whole number as such, any other as the text that snapshots hold."""
    try:
        value = Decimal(text)
    except InvalidOperation:
        return None
    if not value.is_finite():
        return None
    return int(value) if value == value.to_integral_value() else str(value)


def _is_number(value: object) -> bool:
    return isinstance(value, int) or (isinstance(value, str) and _number(value) is not None)


def _list(text: str) -> list[object] | None:
    try:
        value = json.loads(text)
    except ValueError:
        return None
    return value if isinstance(value, list) else None


def _words(text: str) -> list[object] | None:
    """Words or numbers between commas; None where one is missing."""
    words = [word.strip() for word in text.split(",")]
    if not all(words):
        return None
    return [word if (n := _number(word)) is None else n for word in words]


def _wanted(present: object) -> str:
    if isinstance(present, bool):
        return "true or false"
    if isinstance(present, list):
        said = ", ".join(map(str, present)) or "[]"
        return f"a list such as {said}"
    return "a number" if _is_number(present) else "a value"
