"""Wiring of the app."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _


class DeployConfig(AppConfig):
    """Settings, the site's own pages and the commands of the operator; has no tables."""

    name = "deploy"
    label = "deploy"
    verbose_name = _("deployment")

    def ready(self) -> None:
        """Make ours the current Celery app, so that every process can send tasks."""
        from deploy import celery  # noqa: F401, PLC0415
