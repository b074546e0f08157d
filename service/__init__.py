"""Backup Power Design Service: stateless calculations for residential battery backup design."""

__version__ = "0.2.0"
