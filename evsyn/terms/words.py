"""Words that every room shares and that no plan may redefine."""

from enum import StrEnum


class Better(StrEnum):
    """Which way an outcome should go."""

    FEWER = "fewer"
    MORE = "more"


class CountedBy(StrEnum):
    """What one unit of a denominator is."""

    PATIENT = "patient"
    PROCEDURE = "procedure"
    DEVICE = "device"


class Audience(StrEnum):
    """Who is to see a unit's own figures."""

    INSIDE = "inside"
    OUTSIDE = "outside"


class TextRead(StrEnum):
    """How much of a paper the extractor read."""

    FULL_TEXT = "full_text"
    ABSTRACT = "abstract"
    SECOND_HAND = "second_hand"


class Covers(StrEnum):
    """Whether an arm's counts are those of the whole study or of a part of it."""

    WHOLE_STUDY = "whole_study"
    PART = "part"


#: A denominator whose basis the paper does not name; a window or level it does not state.
AS_PRINTED = "as_printed"
NOT_STATED = "not_stated"
MIXED = "mixed"

#: The level that gathers mixed and not-stated arms; shown, and left out of tests of difference.
UNPLACED = "mixed_or_not_stated"

#: The analysis over all studies.
OVERALL = "overall"
