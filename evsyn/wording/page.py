"""The words that stand on the pages of every figure."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PageWords:
    """Page numbers and the marks of what is invented; each can be replaced."""

    page: str = "Page {page} of {pages}."
    continued: str = "{title} (continued)"
    invented: str = "INVENTED DATA: no real patients or units"
    invented_studies: str = "INVENTED STUDIES: no yardstick for a real unit"
    invented_unit: str = "INVENTED UNIT: the studies are published"
    watermark: str = "INVENTED"
