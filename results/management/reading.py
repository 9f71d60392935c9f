"""Files that commands read."""

import sys
from pathlib import Path

from django.core.management.base import CommandError


def bytes_of(name: str) -> bytes:
    """The bytes of a file, "-" being standard input."""
    if name == "-":
        return sys.stdin.buffer.read()
    try:
        return Path(name).read_bytes()
    except OSError as error:
        raise CommandError(f"{name} cannot be read: {error.strerror}.") from error
