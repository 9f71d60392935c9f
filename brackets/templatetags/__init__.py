"""Words of brackets for templates."""
