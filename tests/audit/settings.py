"""The settings under which an empty database is made: tables straight from the models."""

from django.apps.config import AppConfig

from tests.settings import *  # noqa: F403
from tests.settings import INSTALLED_APPS

MIGRATION_MODULES = {AppConfig.create(name).label: None for name in INSTALLED_APPS}
