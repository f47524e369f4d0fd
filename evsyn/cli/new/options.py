"""Options that the verbs of ``evsyn new`` share."""

from collections.abc import Callable
from typing import Any

import click

ask_option = click.option(
    "--ask/--no-ask",
    "asks",
    default=None,
    help="Ask for what no option gives. Without either, it asks on a terminal alone.",
)
invented_option = click.option("--invented", is_flag=True, help="Mark the file as made up.")
level_option = click.option(
    "--level",
    "levels",
    multiple=True,
    metavar="[GROUP.]STRATUM=LEVEL",
    help="Level of a group, or of all of them, in a stratum of the plan; may be repeated.",
)


def count_option(example: str) -> Callable[[Any], Any]:
    """Return the option that gives a count, with an example of one."""
    return click.option(
        "--count",
        "counts",
        multiple=True,
        metavar="[GROUP.]OUTCOME=COUNT",
        help=f"As 'perforation={example}'; may be repeated.",
    )


_OF_STUDY = (
    click.option("--name", help="Short name of the study, and of its file."),
    click.option("--authors", help="Authors, as printed."),
    click.option("--title", help="Title, as printed."),
    click.option("--journal", help="Journal or other container."),
    click.option("--year", help="Year of publication."),
    click.option("--pages", help="Volume, issue and pages."),
    click.option("--doi", help="DOI, without http."),
    click.option("--pmid", help="PubMed number."),
    click.option("--design", help="Design, as the paper names it."),
    click.option("--country", help="Country."),
    click.option("--centres", help="Hospitals, with semicolons between them."),
    click.option("--recruited", help="As '1995-03 to 1999-12'."),
    click.option("--by", help="Initials of the reader."),
    click.option("--on", help="Day of reading; else today."),
    click.option("--from", "from_", help="full_text, abstract or second_hand."),
    click.option("--checked-by", help="Initials of a second reader."),
    click.option(
        "--fact",
        "facts",
        multiple=True,
        metavar="[GROUP.]NAME=VALUE",
        help="A fact the plan names, of a group or (without one) of the study; may be repeated.",
    ),
    click.option(
        "--arm",
        "arms",
        multiple=True,
        metavar="NAME=PATIENTS",
        help="A group of patients and their number; may be repeated.",
    ),
    click.option("--whole", help="The group that holds all patients; else the only one."),
    click.option(
        "--treatment",
        "treatments",
        multiple=True,
        metavar="[GROUP.]TREATMENT",
        help="Treatment of a group, where the plan lists them; may be repeated.",
    ),
    level_option,
    count_option("4/52 attempted 30_days at Table 2 printed 7.7%"),
    invented_option,
    ask_option,
)


def study_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a verb the options that answer what is asked of a new study."""
    for option in reversed(_OF_STUDY):
        command = option(command)
    return command
