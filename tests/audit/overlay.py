"""One module of the program read from another file: how a planted bug gets in."""

import sys
from collections.abc import Sequence
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec
from importlib.util import spec_from_file_location
from types import ModuleType


class _Other(MetaPathFinder):
    def __init__(self, module: str, path: str) -> None:
        self.module, self.path = module, path

    def find_spec(
        self, name: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        return spec_from_file_location(name, self.path) if name == self.module else None


def overlay(module: str, path: str) -> None:
    """From now on the module is read from that file; to be called before it is imported."""
    if module in sys.modules:
        raise RuntimeError(f"{module} is imported already.")
    sys.meta_path.insert(0, _Other(module, path))
