"""Figures of speed: each module gives rows for `sh deploy/manage benchmark`; none is a test."""
