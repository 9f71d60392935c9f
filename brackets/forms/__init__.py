"""Forms of the pages about brackets."""
