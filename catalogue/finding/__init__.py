"""Finds parts among many: by words, by measure, by the beginning of an id."""
