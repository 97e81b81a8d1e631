"""Fusewright's engine: from a system file to findings with their reasoning."""

__version__ = "0.1.0"
