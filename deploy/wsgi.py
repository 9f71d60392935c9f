"""The WSGI application, for gunicorn behind a proxy that serves the static files."""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "deploy.settings")

application = get_wsgi_application()
