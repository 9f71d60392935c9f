"""The forms of the desk pages."""
