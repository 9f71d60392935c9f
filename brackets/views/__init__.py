"""Pages about brackets."""
