"""The settings of a test run: the program's own, in a folder of their own, jobs done at once.

DATABASE_URL, where given, is the only thing taken from outside.
"""

import atexit
import os
import shutil
import tempfile

_folder = tempfile.mkdtemp(prefix="headtable-test-")
atexit.register(shutil.rmtree, _folder, ignore_errors=True)

for _name in ("REDIS_URL", "SECRET_KEY", "DEBUG", "ALLOWED_HOSTS", "HSTS_SECONDS"):
    os.environ.pop(_name, None)
os.environ |= {
    "DATA_DIR": _folder,
    "VENUE_HTTP": "1",
    "STATIC_HASHED": "0",
    "JOBS_AT_ONCE": "1",
    "LOG_LEVEL": "WARNING",
}

from deploy.settings import *  # noqa: E402, F403
from deploy.settings import DATABASES  # noqa: E402

# Tables as the models say, in a fraction of the time: the gate `migrations` holds the two
# equal, and every server that a test starts migrates a file, as PostgreSQL is below.
DATABASES["default"]["TEST"] = {"NAME": None, "MIGRATE": False}
if "postgresql" in DATABASES["default"]["ENGINE"]:
    DATABASES["default"]["TEST"] = {"NAME": f"headtable_test_{os.getpid()}"}
PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
