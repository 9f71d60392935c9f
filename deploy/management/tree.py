"""What the commands find in the source tree's own tests: a module for each name."""

from collections.abc import Mapping
from importlib import import_module
from pkgutil import iter_modules
from typing import Any

from django.core.management import CommandError


def modules(package: str, what: str) -> Mapping[str, Any]:
    """The modules of the package by their name with hyphens; refuses where there is no package."""
    try:
        found = import_module(package)
    except ModuleNotFoundError as error:
        if not package.startswith(error.name or " "):
            raise
        raise CommandError(
            f"There is no {package} here. {what} are part of the source tree, in the folder "
            "tests; an installation without it has none."
        ) from error
    names = [one.name for one in iter_modules(found.__path__)]
    return {name.replace("_", "-"): import_module(f"{package}.{name}") for name in names}


def known(among: Mapping[str, Any], name: object, what: str) -> str:
    """The name, where there is such a module."""
    if name not in among:
        raise CommandError(f"There is no {what} {name!r}. There are: {', '.join(among)}.")
    return str(name)
