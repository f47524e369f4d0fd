"""The report as one page that opens offline."""

from evsyn.reporting.page.document import page_html

__all__ = ["page_html"]
