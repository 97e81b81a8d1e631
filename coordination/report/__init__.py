"""Findings into words: text, markdown, the machine-readable answer, tables, cards, errors.

The only stage that makes text for people; it judges nothing. Import the module that is wanted
(`text`, `markdown`, `answer`, ...): each command pays for its own only.
"""
