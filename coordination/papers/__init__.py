"""The set of papers that is handed over: one page of HTML, or the same as PDF.

`report_page` is the stage from findings to a page, `pdf.printed` from the page to a PDF. Sentences
about findings are those of `coordination.report`; all other words, and every translation, are those
of `coordination.languages`.
"""

from coordination.papers.page import Asked, report_page
from coordination.papers.sections import ALWAYS, SECTIONS

__all__ = ["ALWAYS", "SECTIONS", "Asked", "report_page"]
