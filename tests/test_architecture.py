"""Laws of the house that import contracts cannot see: what stands where, how large it grows."""

import ast
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.apps import apps
from django.db import models
from django.urls import URLPattern, URLResolver, get_resolver

ROOT = Path(__file__).resolve().parent.parent
TOP_LEVEL = {
    *("README.md", "DEVELOPERS.md", "LICENSE", "manage.py", "pyproject.toml"),
    *("brackets", "results", "seeding", "tests", "fixtures", "deploy"),
}
# From the ground up; an app knows only what stands before it.
ORDER = ("journal", "entries", "seeding", "brackets", "results", "deploy")
RANK = {label: rank for rank, label in enumerate(ORDER)}
FOLDERS = {"journal": "seeding/journal", "entries": "seeding/entries"}
Functions = ast.FunctionDef | ast.AsyncFunctionDef


def tracked(*patterns: str) -> list[Path]:
    listing = subprocess.run(
        ["git", "ls-files", "-z", "--", *patterns],
        cwd=ROOT, check=True, capture_output=True, text=True,
    ).stdout  # fmt: skip
    return [ROOT / name for name in listing.split("\0") if name and (ROOT / name).exists()]


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


PYTHON = [path for path in tracked("*.py") if "migrations" not in path.parts]
CORES = [path for path in PYTHON if "core" in path.parts and "tests" not in path.parts]
TEMPLATES = [path for path in tracked("*.html", "*.svg", "*.xml") if "templates" in path.parts]


def app_of(path: Path) -> str:
    """The label of the app whose folder holds the file."""
    name = name_of(path)
    nested = [label for label, folder in FOLDERS.items() if name.startswith(folder + "/")]
    return nested[0] if nested else name.split("/")[0]


def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def test_top_level_holds_exactly_what_the_house_names() -> None:
    found = {path.relative_to(ROOT).parts[0] for path in tracked()}
    unknown = {name for name in found - TOP_LEVEL if not name.startswith(".")}
    assert not unknown
    assert found >= TOP_LEVEL


def test_every_folder_of_tests_is_a_package() -> None:
    folders = {path.parent for path in PYTHON if path.is_relative_to(ROOT / "tests")}
    assert not [name_of(folder) for folder in folders if not (folder / "__init__.py").exists()]


def test_no_file_is_longer_than_300_lines() -> None:
    lengths = {name_of(path): len(path.read_text("utf-8").splitlines()) for path in PYTHON}
    assert not {name: length for name, length in lengths.items() if length > 300}


def length(function: Functions) -> int:
    """Lines from `def` to the end, without the docstring."""
    total = (function.end_lineno or function.lineno) - function.lineno + 1
    first = function.body[0]
    if ast.get_docstring(function, clean=False) is not None:
        total -= (first.end_lineno or first.lineno) - first.lineno + 1
    return total


def test_no_function_is_longer_than_40_lines() -> None:
    long = {
        f"{name_of(path)}:{node.lineno} {node.name}": length(node)
        for path in PYTHON
        for node in ast.walk(tree_of(path))
        if isinstance(node, Functions) and length(node) > 40
    }
    assert not long


FORBIDDEN_CALLS = re.compile(
    r"""^(
      (.+\.)?(now|utcnow|today|urandom|uuid1|uuid4|getrandbits|read_text|write_text|read_bytes)
      | (open|input|print|breakpoint|exec|eval)
      | random\.(?!Random$).+ | secrets\..+ | time\..+
      | (np|numpy)\.random\.(?!default_rng$|Generator$|SeedSequence$|PCG64$).+
    )$""",
    re.VERBOSE,
)
SEEDED = re.compile(r"^((random\.)?Random|((np|numpy)\.random\.)?default_rng)$")
OUTER_ROOMS = {
    *("django", "rest_framework", "celery", "redis", "requests", "socket", "sqlite3", "urllib"),
    *("os", "pathlib", "subprocess", "secrets", "time", "tempfile", "shutil", "asyncio", "logging"),
}


def impurities(tree: ast.AST) -> Iterator[str]:
    """What in a core would make its answer depend on more than its arguments."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            called = ast.unparse(node.func)
            unseeded = SEEDED.match(called) and not (node.args or node.keywords)
            if unseeded or FORBIDDEN_CALLS.match(called):
                yield f"{node.lineno}: {called}()"
        elif isinstance(node, ast.Import):
            yield from _outer(node.lineno, [alias.name for alias in node.names])
        elif isinstance(node, ast.ImportFrom):
            yield from _outer(node.lineno, [node.module or ""])
            if node.module == "random" and {alias.name for alias in node.names} != {"Random"}:
                yield f"{node.lineno}: from random import ..."


def _outer(line: int, names: list[str]) -> Iterator[str]:
    yield from (f"{line}: {name}" for name in names if name.split(".")[0] in OUTER_ROOMS)


def test_cores_are_pure() -> None:
    found = {name_of(path): list(impurities(tree_of(path))) for path in CORES}
    assert not {name: what for name, what in found.items() if what}


@pytest.mark.parametrize(
    "code",
    [
        "datetime.now()",
        "datetime.date.today()",
        "random.shuffle(x)",
        "random.Random()",
        "np.random.default_rng()",
        "np.random.rand(3)",
        "open('x')",
        "import django.db",
        "from pathlib import Path",
        "from random import choice",
    ],
)
def test_what_is_impure_is_noticed(code: str) -> None:
    assert list(impurities(ast.parse(code)))


@pytest.mark.parametrize("code", ["random.Random(7)", "np.random.default_rng(seed)", "time(3)"])
def test_what_is_pure_is_let_through(code: str) -> None:
    assert not list(impurities(ast.parse(code)))


def test_values_of_the_cores_are_frozen() -> None:
    loose = [
        f"{name_of(path)}:{node.lineno} {node.name}"
        for path in CORES
        for node in ast.walk(tree_of(path))
        if isinstance(node, ast.ClassDef)
        for decorator in node.decorator_list
        if "dataclass" in (text := ast.unparse(decorator)) and "frozen=True" not in text
    ]
    assert not loose


INLINE = re.compile(
    r"<script(?![^>]*\bsrc=)(?![^>]*type=[\"']application/(ld\+)?json)|<style\b"
    r"|<[^>]*\s(style|on[a-z]+|hx-on[:\w-]*)\s*=|javascript:",
    re.IGNORECASE,
)


def test_templates_hold_no_inline_script_or_style() -> None:
    found = {
        f"{name_of(path)}:{text.count(chr(10), 0, hit.start()) + 1}": hit.group()
        for path in TEMPLATES
        for text in [path.read_text("utf-8")]
        for hit in INLINE.finditer(text)
    }
    assert not found


def test_inline_script_and_style_are_noticed() -> None:
    for text in ("<p style='a'>", '<a onclick="x()">', "<style>", "<script>", "<rect style = ''>"):
        assert INLINE.search(text)
    for text in ('<script src="x" defer>', '<p class="style">', '<link rel="stylesheet" href="x">'):
        assert not INLINE.search(text)


def address_owners() -> dict[str, str]:
    """The app that owns each address, by the address's name."""
    owners: dict[str, str] = {}

    def walk(patterns: list[URLPattern | URLResolver], prefix: str) -> None:
        for pattern in patterns:
            if isinstance(pattern, URLResolver):
                inner = f"{prefix}{pattern.namespace}:" if pattern.namespace else prefix
                walk(pattern.url_patterns, inner)
            elif pattern.name:
                view = getattr(pattern.callback, "view_class", pattern.callback)
                found = apps.get_containing_app_config(view.__module__)
                owners[prefix + pattern.name] = found.label if found else ""

    walk(get_resolver().url_patterns, "")
    return owners


def climbs(label: str, owner: str) -> bool:
    return RANK.get(owner, -1) > RANK[label]


NAMED_ADDRESS = re.compile(r"""\{%\s*url\s+["']([^"']+)["']""")
NAMED_TEMPLATE = re.compile(r"""\{%\s*(?:include|extends|partial)\s+["']([^"']+)["']""")


def test_templates_name_no_address_or_template_of_a_later_app() -> None:
    """Only the frame and the small parts that every page shares come from `deploy`."""
    owners = address_owners()
    found = []
    for path in TEMPLATES:
        text, label = path.read_text("utf-8"), app_of(path)
        found += [
            f"{name_of(path)}: address {name}"
            for name in NAMED_ADDRESS.findall(text)
            if climbs(label, owners.get(name, ""))
        ]
        found += [
            f"{name_of(path)}: template {name}"
            for name in NAMED_TEMPLATE.findall(text)
            if climbs(label, name.split("/")[0]) and not name.startswith("deploy/")
        ]
    assert not found


def named_in_code(tree: ast.AST, function: str) -> Iterator[str]:
    """The first arguments, where they are texts, of every call of a function of that name."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and ast.unparse(node.func).split(".")[-1] == function:
            for argument in node.args[:1]:
                if isinstance(argument, ast.Constant) and isinstance(argument.value, str):
                    yield argument.value


def test_code_names_no_address_or_model_of_a_later_app() -> None:
    owners = address_owners()
    found = []
    for path in PYTHON:
        label = app_of(path)
        if label not in RANK:
            continue
        tree = tree_of(path)
        for function in ("reverse", "reverse_lazy", "redirect", "reverse_url"):
            names = named_in_code(tree, function)
            found += [
                f"{name_of(path)}: {name}" for name in names if climbs(label, owners.get(name, ""))
            ]
        for function in ("get_model", "ForeignKey", "OneToOneField", "ManyToManyField"):
            names = named_in_code(tree, function)
            found += [
                f"{name_of(path)}: {name}" for name in names if climbs(label, name.split(".")[0])
            ]
    assert not found


def test_foreign_keys_across_apps_point_down_and_leave_no_trace() -> None:
    found = []
    for model in apps.get_models():
        label = model._meta.app_label
        if label not in RANK:
            continue
        for field in model._meta.get_fields():
            if not isinstance(field, models.ForeignKey) or field.model is not model:
                continue
            target = field.related_model._meta.app_label
            if target == label or target not in RANK:
                continue
            kept = field.remote_field.on_delete is models.PROTECT
            if climbs(label, target) or not field.remote_field.hidden or not kept:
                found.append(f"{label}.{model.__name__}.{field.name} -> {target}")
    assert not found
