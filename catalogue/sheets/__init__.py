"""Sheets of parts as CSV, XLSX and JSON: read with all that is wrong in them, written whole."""
