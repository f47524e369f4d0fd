"""A report as a talk, and its figures alone."""

from evsyn.reporting.slides.deck import slides_bytes
from evsyn.reporting.slides.paste import paste_figures
from evsyn.reporting.slides.template import TemplateError

__all__ = ["TemplateError", "paste_figures", "slides_bytes"]
