"""The sheet for the IT department says what the installed libraries say."""

from tests.install.sheet import HEAD, PAGE, licences


def kind(licence: str) -> str:
    """Return the family of a licence: a later version may name the same one more exactly."""
    return {"PYT": "PSF"}.get(licence[:3].upper(), licence[:3].upper())


def test_the_licences_on_the_sheet_are_those_of_the_libraries() -> None:
    rows = PAGE.read_text(encoding="utf-8").partition(HEAD)[2].splitlines()
    told = dict(row.strip("| ").split(" | ") for row in rows)
    said = licences()
    assert sorted(told) == sorted(said), "run: make reference"
    for name, licence in said.items():
        assert kind(told[name]) == kind(licence), name


def test_no_library_forbids_a_hospital_to_use_or_pass_it_on() -> None:
    # Permissive licences alone; what the names mean: opensource.org, from memory.
    assert {kind(one) for one in licences().values()} <= {"MIT", "BSD", "PSF", "APA"}
