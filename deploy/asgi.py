"""The ASGI application: static files first, then Django."""

import os

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "deploy.settings")

from django.conf import settings
from django.core.asgi import get_asgi_application
from servestatic import ServeStaticASGI

application = ServeStaticASGI(
    get_asgi_application(),
    root=settings.STATIC_ROOT,
    prefix=settings.STATIC_URL,
    max_age=60,
    immutable_file_test=r"\.[0-9a-f]{12}\.\w+$",
    allow_all_origins=False,
)
