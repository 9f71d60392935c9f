"""Changes of lines after the draw, carried out again on the lines as drawn."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tests.audit.judge.facts import Doc

Lines = list[Any]


def changes(where: str, bracket: Doc, rules: Doc) -> Iterator[str]:
    """Where the lines are not what the changes make of the lines as drawn."""
    drawn, made = bracket.get("drawn_lines"), bracket.get("line_changes", [])
    if drawn is None:
        if made:
            yield f"{where}: lines were changed, and the lines as drawn are not there"
        return
    lines: Lines = list(drawn)
    form = bracket.get("format") or ""
    for number, change in enumerate(made, 1):
        if not carried_out(lines, change, rules, form):
            yield f"{where}: change {number} of the lines does not fit them"
            return
    if lines != bracket["lines"]:
        yield f"{where}: the changes give other lines than there are"


def closes_up(lines: Lines, rules: Doc, form: str) -> bool:
    """Whether a line goes with who leaves it, as in a round robin and in pools."""
    return form_of(lines, rules, form) in ("round-robin", "two-pools")


def form_of(lines: Lines, rules: Doc, form: str = "") -> str:
    """What so many lines are, where a field has closed up; an elimination does not."""
    if len(lines) >= 8 or form == "elimination":
        return "elimination"
    if len(lines) == 2 and rules["of_two"] == "best-of-three":
        return "best-of-three"
    return "round-robin" if len(lines) <= 5 else "two-pools"


def carried_out(lines: Lines, change: Doc, rules: Doc, form: str) -> bool:
    """Carry out a change; False where it does not fit."""
    at = [number - 1 for number in change.get("lines", [])]
    if any(index not in range(len(lines)) for index in at):
        return False
    if change["kind"] == "swapped":
        if len(at) != 2:
            return False
        lines[at[0]], lines[at[1]] = lines[at[1]], lines[at[0]]
        return True
    if change["kind"] == "filled":
        if len(at) != 1 or lines[at[0]] is not None:
            return False
        among = change.get("among")
        if among and (at[0] + 1 not in among or any(lines[n - 1] is not None for n in among)):
            return False
        lines[at[0]] = change["came"]
        return True
    came = change["came"] if change["kind"] == "replaced" else None
    if at and not any(stands(change["gone"], lines[index]) for index in at):
        return False
    return replaced(lines, change["gone"], came, closes_up(lines, rules, form))


def stands(entry: str, line: Any) -> bool:
    """Whether an entry stands on a line, alone or with another."""
    return entry in line if isinstance(line, list) else entry == line


def replaced(lines: Lines, gone: str, came: str | None, closing: bool) -> bool:
    """Somebody, or nobody, in the place of who leaves; in a pool his line goes with him."""
    for index, line in enumerate(lines):
        if isinstance(line, list) and gone in line:
            other = line[1 - line.index(gone)]
            lines[index] = other if came is None else [came if e == gone else e for e in line]
            return True
        if line == gone:
            if came is None and closing:
                del lines[index]
            else:
                lines[index] = came
            return True
    return False
