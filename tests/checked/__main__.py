"""Writes the page: `python -m tests.checked`."""

from tests.checked.page import PAGE, page

PAGE.write_text(page(), "utf-8")
print(f"{PAGE} is written")
