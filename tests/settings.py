"""The settings of a test run: the program's own, in a folder of their own, jobs done at once."""

import os
import tempfile

os.environ["DATA_DIR"] = os.environ.get("TEST_DATA_DIR") or tempfile.mkdtemp(prefix="headtable-")
os.environ["VENUE_HTTP"] = "1"
os.environ["STATIC_HASHED"] = "0"
os.environ["JOBS_AT_ONCE"] = "1"
os.environ["LOG_LEVEL"] = "WARNING"
os.environ["DATABASE_URL"] = os.environ.get("TEST_DATABASE_URL", "")
for name in ("REDIS_URL", "SECRET_KEY", "DEBUG", "ALLOWED_HOSTS", "DATABASE_URL"):
    if not os.environ.get(name) or name != "DATABASE_URL":
        os.environ.pop(name, None)

from deploy.settings import *  # noqa: E402, F403

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
