"""Static files, gathered again only when one of them changed."""

import hashlib
from pathlib import Path

from django.conf import settings
from django.contrib.staticfiles.finders import get_finders
from django.core.management import call_command


def fingerprint() -> str:
    """Changes with every name, size, time and place of a static file."""
    digest = hashlib.sha256(settings.STORAGES["staticfiles"]["BACKEND"].encode())
    for finder in get_finders():
        for name, storage in finder.list([]):
            path = Path(storage.path(name))
            found = path.stat()
            digest.update(f"{path} {found.st_size} {found.st_mtime_ns}\n".encode())
    return digest.hexdigest()


def collect_static() -> None:
    """Gather the static files in STATIC_ROOT, unless what is there is up to date."""
    stamp, now = Path(settings.STATIC_ROOT).with_suffix(".stamp"), fingerprint()
    if stamp.exists() and stamp.read_text() == now:
        return
    call_command("collectstatic", interactive=False, clear=True, verbosity=0)
    stamp.write_text(now)
