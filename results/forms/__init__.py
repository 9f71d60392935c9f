"""The forms of this app."""
