"""Who a unit's own figures are for, in words."""

from evsyn.extraction.unit import Release, Unit

INSIDE_MARK = "INSIDE THE UNIT: official-sensitive, not for circulation."
INSIDE_SHORT = "Inside the unit only."

OUTSIDE_MARK = (
    "FOR USE OUTSIDE: counts of 1 to 7, and counts that leave 1 to 7 without the event, are "
    "hidden, others rounded to the nearest 5; levels are merged, since a level could be worked "
    "back from the whole."
)
OUTSIDE_SHORT = "For use outside: small counts hidden, others rounded to the nearest 5."

STRIP_OUTSIDE = (
    "Outside, the columns of a strip would tell how many cases stand at each level. Draw the "
    "funnel around a target, or have the exact counts released."
)

RANGE_OUTSIDE = (
    "Outside, levels are merged, and a funnel around the studies is of one level. Draw the funnel "
    "around a target, or have the exact counts released."
)

NOT_RELEASED = (
    "Outside, this would show the unit's own counts, and the unit file holds no 'release' of its "
    "counts by level (who approved it, on what day, on what basis, and 'levels: true'). Leave the "
    "unit out, or have them released."
)

TWO_PERIODS_OUTSIDE = (
    "Outside, two periods side by side would give a hidden count back by subtraction. Leave "
    "--before out, or have the exact counts of both periods released."
)


def release_sentence(release: Release) -> str:
    """Say who released exact counts, when and on what basis."""
    basis = release.basis.rstrip(".")
    return (
        f"FOR USE OUTSIDE. Exact own counts released by {release.approved_by} on {release.on}: "
        f"{basis}. A count of 1 to 7 may point to a patient whom somebody knows."
    )


def outside_mark(unit: Unit) -> str:
    """Say by what rule a unit's counts are told outside, or who released them."""
    return OUTSIDE_MARK if unit.release is None else release_sentence(unit.release)


def release_sentences(*releases: Release | None) -> str:
    """Say who released the exact counts of several periods; the same words once."""
    said = (release_sentence(one) for one in releases if one is not None)
    return " ".join(dict.fromkeys(said))


def period_names(label: str) -> tuple[str, str]:
    """Name a unit's two periods without a date: the later one first."""
    return f"{label}, this period", f"{label}, the period before"
