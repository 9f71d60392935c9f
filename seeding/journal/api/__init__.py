"""What every endpoint shares: refusals as HTTP, acts, and documents that caches may keep."""

from seeding.journal.api.refusals import STATUS, Handler, handler, status_of, text_of

__all__ = ["STATUS", "Handler", "handler", "status_of", "text_of"]
