"""Mechanical changes: what is changed, and what is left alone."""

import ast
import sys
from pathlib import Path

import pytest

from tests.audit.mutants import UNSEEN, every, mutants, proofs, unseen
from tests.audit.operators import changes
from tests.audit.overlay import overlay


@pytest.mark.parametrize(
    ("line", "changed"),
    [
        ("return a < b", ["return a <= b"]),
        ("return a == 3", ["return a != 3", "return a == 4", "return a == 2"]),
        ("return a and not b", ["return a or not b", "return a and b"]),
        ("return a + b", ["return a - b"]),
        ("return Exit.WINNER", ["return Exit.LOSER"]),
        ("return min(a, b)", ["return max(a, b)"]),
        ("return f(a, b)", ["return f(b, a)"]),
        ("return (a, b)", ["return (b, a)"]),
        ("return a if b else c", ["return c if b else a"]),
        ("return [x for x in a if x]", ["return [x for x in a]"]),
        ("a += b", ["pass"]),
        ("f(a)", ["pass"]),
        ("return True", ["return False"]),
        ("'''Words.'''", []),
        ("raise Bad(a, b)", []),
    ],
)
def test_a_line_is_changed(line: str, changed: list[str]) -> None:
    source = f"def f(a, b, c):\n    {line}\n"
    made = [one.made(source).split("\n", 1)[1].strip() for one in changes(source)]
    assert made == changed


def test_a_branch_is_never_taken() -> None:
    source = "def f(a):\n    if a:\n        return b\n    return c\n"
    (one,) = changes(source)
    assert (one.name, one.function, one.line) == ("branch", "f", 2)
    assert "if False:" in one.made(source)


def test_fields_annotations_and_constants_of_a_module_are_left_alone() -> None:
    fields = "LIMIT = 3\nclass A:\n    x: int = 1\n"
    source = f"{fields}    def f(self, y: int = 2) -> int | None:\n        return y\n"
    assert not list(changes(source))


def test_a_module_is_read_from_another_file(tmp_path: Path) -> None:
    other = tmp_path / "other.py"
    other.write_text("VALUE = 7\n")
    before = list(sys.meta_path)
    try:
        overlay("tests.audit.no_such_module", str(other))
        import tests.audit.no_such_module as found  # type: ignore[import-not-found]  # noqa: PLC0415

        assert found.VALUE == 7
        with pytest.raises(RuntimeError, match="imported already"):
            overlay("tests.audit.no_such_module", str(other))
    finally:
        sys.meta_path[:] = before
        sys.modules.pop("tests.audit.no_such_module", None)


def test_every_change_of_a_text_is_a_text() -> None:
    source = Path(__file__).read_text()
    for one in list(changes(source))[:40]:
        ast.parse(one.made(source))


def test_every_proof_is_of_a_bug_that_can_be_planted() -> None:
    assert proofs()
    assert proofs().keys() <= {one.name for one in mutants()}


def test_what_is_left_out_names_changes_that_there_are() -> None:
    assert set(UNSEEN) == {named for one in every() for named in unseen(one)}
