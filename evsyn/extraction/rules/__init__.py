"""One check a file. To add one: write its file, its test, and a line in the list below."""

from evsyn.extraction.rules import (
    arms_nest,
    citation_thin,
    course_known,
    dates_in_order,
    denominator_assumed,
    derivation_differs,
    events_within_total,
    flow_in_order,
    invented_marked,
    names_known,
    names_unique,
    overlap_possible,
    overlaps_known,
    parts_differ,
    percentage_fits,
    place_missing,
    share_fits,
    sum_differs,
    total_above_patients,
    unit_names,
    unit_sums,
)

#: Order of weight: the first findings shown are those of the first rules here.
REVIEW_RULES = (
    names_known.RULE,
    course_known.RULE,
    names_unique.RULE,
    events_within_total.RULE,
    arms_nest.RULE,
    dates_in_order.RULE,
    overlaps_known.RULE,
    invented_marked.RULE,
    percentage_fits.RULE,
    parts_differ.RULE,
    derivation_differs.RULE,
    total_above_patients.RULE,
    flow_in_order.RULE,
    overlap_possible.RULE,
    sum_differs.RULE,
    share_fits.RULE,
    denominator_assumed.RULE,
    place_missing.RULE,
    citation_thin.RULE,
)

UNIT_RULES = (unit_names.RULE, unit_sums.RULE)
