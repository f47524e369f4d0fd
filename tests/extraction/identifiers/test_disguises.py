"""Identifiers in disguise are refused, for the right column, and their values are never told.

943 476 5919 is the example number of the NHS Data Dictionary (from memory). Every other number,
person and place is invented; telephone numbers are of the ranges kept for drama (from memory).
"""

import re
from datetime import date, datetime

import pytest

from evsyn.extraction.identifiers.likeness import Likeness
from evsyn.terms import Severity
from tests.extraction.identifiers.sheets import AROUND, ROLES, found_in, told

NHS, HOSPITAL, BIRTH = "NHS or CHI numbers", "hospital numbers", "dates of birth"
PERSON, OPERATOR, DATE = "names or initials", "other than the roles", "full dates"
PHONE, EMAIL, ADDRESS, POSTCODE = "telephone", "e-mail", "addresses", "postcodes"
INSURANCE = "National Insurance"

_FAMILY = """
Pemberwick Oakhanger Thistlewood Quillfeather Marchbanker Dunsfold Ravensmoor Tolleshunt Wexcombe
Hathersedge Brackenrigg Yarwood
"""
_GIVEN = "Zbigniew Oonagh Perpetua Tobiah Isolde Lettice Barnaby Cosima Eluned Fenwick"
SURNAMES, GIVENS = _FAMILY.split(), _GIVEN.split()

DISGUISES = [
    # NHS and CHI numbers
    ("Ref", ["943 476 5919"], NHS),
    ("Ref", ["943\u00a0476\u00a05919"], NHS),
    ("Code", ["9434765919"], NHS),
    ("Code", [9434765919], NHS),
    ("Code", [9434765919.0], NHS),
    ("Code", ["9434765919.0"], NHS),
    ("Stent", ["943-476-5919"], NHS),
    ("Stent", ["943\u2013476\u20135919"], NHS),
    ("Length", ["９４３４７６５９１９"], NHS),
    ("Length", ["94 34 76 59 19"], NHS),
    ("Note", ["9 4 3 4 7 6 5 9 1 9"], NHS),
    ("Note", ["94\u200b3476\u200b5919"], NHS),
    ("Note", ["pt 943 476 5919 migrated"], NHS),
    ("Note", ["no. 943.476.5919, fit"], NHS),
    ("ASA", ["943476591g", "O1O1OO0105"], HOSPITAL),
    ("ASA", ["943 476 59l9"], NHS),
    ("NHS Number", ["withheld"], NHS),
    ("nhs_no", [""], NHS),
    ("N\u200bHS n\u00ba", ["x"], NHS),
    ("CHI", ["x"], NHS),
    # hospital and other record numbers
    ("MRN", ["1"], HOSPITAL),
    ("Hospital No.", ["12"], HOSPITAL),
    ("unit number", ["12"], HOSPITAL),
    ("PAS", ["12"], HOSPITAL),
    ("CRN", ["12"], HOSPITAL),
    ("HospitalNumber", ["12"], HOSPITAL),
    ("case notes", ["12"], HOSPITAL),
    ("Ref", ["K123456"], HOSPITAL),
    ("Ref", ["rx 0412345"], HOSPITAL),
    ("Code", ["55512349"], HOSPITAL),
    ("Code", [412907, 88121, 730155, 265018, 990412], HOSPITAL),
    ("Code", ["9434765918"], HOSPITAL),
    ("Code", ["943 476 5918"], HOSPITAL),
    ("Code", ["9.43477E+09"], HOSPITAL),
    ("Note", ["hosp no 40718, resected"], HOSPITAL),
    ("Ref", ["QQ 12 34 56 C", "AB123456C"], INSURANCE),
    ("Ref", ["ab 12 34 56 c"], INSURANCE),
    ("NI number", ["x"], INSURANCE),
    ("Ref", ["H/123456"], HOSPITAL),
    ("Hosp. #", ["12"], HOSPITAL),
    # birth
    ("D \u041e B", ["x"], BIRTH),
    ("YOB", ["x"], BIRTH),
    ("DOB", ["x"], BIRTH),
    ("D.O.B.", ["x"], BIRTH),
    ("D o B", ["x"], BIRTH),
    ("Date of birth", [datetime(1941, 3, 1)], BIRTH),
    ("dateOfBirth", ["x"], BIRTH),
    ("Birthday", ["x"], BIRTH),
    ("geb.", ["x"], BIRTH),
    ("Year of birth", [1941], BIRTH),
    ("Note", ["dob 17/03/41, frail"], BIRTH),
    ("Note", ["BORN 17/03/41"], BIRTH),
    ("Note", ["born 17 March 1941"], BIRTH),
    # persons
    ("Patient name", ["x"], PERSON),
    ("Surname", ["x"], PERSON),
    ("n\u00e9e", ["x"], PERSON),
    ("Initials", ["x"], PERSON),
    ("Next of kin", ["x"], PERSON),
    ("GMC", ["x"], PERSON),
    ("Code", ["Pemberwick, F"], PERSON),
    ("Code", ["Mr Pemberwick"], PERSON),
    ("Code", ["Dr A Pemberwick"], PERSON),
    ("Code", ["mrs. pemberwick"], PERSON),
    ("Code", ["Smith"], PERSON),
    ("Code", ["smithj", "jonest"], PERSON),
    ("Code", [f"{name} {name[0]}" for name in SURNAMES], PERSON),
    ("Code", [f"{name}{name[0]}" for name in SURNAMES], PERSON),
    ("Code", [f"{name[1].upper()}. {name}" for name in SURNAMES], PERSON),
    ("Ref", [f"{a} {b}" for a, b in zip(GIVENS, SURNAMES, strict=False)], PERSON),
    ("Ref", [f"{a} {b}".lower() for a, b in zip(GIVENS, SURNAMES, strict=False)], PERSON),
    ("Ref", [f"{b.upper()}, {a}" for a, b in zip(GIVENS, SURNAMES, strict=False)], PERSON),
    ("Ref", SURNAMES, PERSON),
    ("Ref", [name.lower() for name in SURNAMES], PERSON),
    ("Ref", ["J.S.", "K.T.", "A.B.", "P.Q."], PERSON),
    ("Patient", ["JS", "KT", "AB", "PQ"], PERSON),
    ("Seen by", ["JS", "KT", "JS", "JS"], PERSON),
    ("Ref", ["JS", "KT", "AB", "PQ", "RV", "LW", "ZD", "HN", "FG"], PERSON),
    ("Note", ["seen by Pemberwick"], PERSON),
    ("Note", ["seen by JWS on call"], PERSON),
    ("Note", ["discussed with pemberwick, stent fine"], PERSON),
    ("Note", ["stent fine, margaret informed"], PERSON),
    ("Note", ["brought in by Zbigniew Pemberwick in the night"], PERSON),
    ("Note", ["Mr. J. Pemberwick did it"], PERSON),
    ("Site", ["sigmoid (née Pemberwick)"], PERSON),
    ("Team", ["Pemberwick F", "Oakhanger G"] * 6, PERSON),
    ("Team", ["F. Pemberwick", "G. Oakhanger"] * 6, PERSON),
    ("Note", ["stent by F. Pemberwick"], PERSON),
    ("Note", ["stented by F Pemberwick"], PERSON),
    ("Note", ["consultant Pemberwick aware"], PERSON),
    ("Note", ["Cons: FP, no leak"], PERSON),
    ("Code", ["DrPemberwick"], PERSON),
    ("Code", ["Mr. P"], PERSON),
    ("Code", ["Sr Pemberwick"], PERSON),
    ("PATIENTNAME", ["x"], PERSON),
    ("Dr", ["Pemberwick", "Oakhanger", "Pemberwick"], PERSON),
    ("By", ["FP", "GO", "FP"], PERSON),
    # operators
    ("Op", ["surgeon", "FP"], OPERATOR),
    ("1st op.", ["surgeon", "FP"], OPERATOR),
    ("Cons", ["FP"], OPERATOR),
    ("Surgeon", ["surgeon", "Pemberwick"], OPERATOR),
    ("Operated by", ["FP", "surgeon"], OPERATOR),
    ("Endoscopist", ["Mr Pemberwick"], OPERATOR),
    ("Consultant", ["pemberwick"], OPERATOR),
    ("Performed by", ["12"], OPERATOR),
    ("Operator name", ["surgeon", "Pemberwick"], OPERATOR),
    ("Op\u00e9rator", ["Pemberwick"], OPERATOR),
    ("First operator", ["surgeon and Pemberwick"], OPERATOR),
    # reaching somebody
    ("Tel", ["x"], PHONE),
    ("Note", ["ring 01632 960983"], PHONE),
    ("Note", ["+44 (0)1632 960 983"], PHONE),
    ("Note", ["0044 1632 960983"], PHONE),
    ("Note", ["(01632) 960983"], PHONE),
    ("Code", ["07700900983"], PHONE),
    ("Note", ["daughter, bleep 4417"], PHONE),
    ("Note", ["BLEEP 4417"], PHONE),
    ("E-mail", ["x"], EMAIL),
    ("Note", ["WEXCOMBE (AT) EXAMPLE"], EMAIL),
    ("Note", ["wexcombe@example.org"], EMAIL),
    ("Note", ["wexcombe (at) example (dot) org"], EMAIL),
    ("Note", ["wexcombe at example dot org"], EMAIL),
    ("Address", ["x"], ADDRESS),
    ("Note", ["14 Quillfeather Road"], ADDRESS),
    ("Note", ["lives 14b quillfeather lane"], ADDRESS),
    ("Note", ["7 Quillfeather Close, stairs"], ADDRESS),
    ("Post code", ["x"], POSTCODE),
    ("Site", ["ZE9 9ZZ"], POSTCODE),
    ("Site", ["ze99zz"], POSTCODE),
    ("Site", ["from ZE9 9ZZ by car"], POSTCODE),
    ("Site", ["ZE9 9"], POSTCODE),
    ("Site", ["ZE1", "KW17", "IV51", "ZE3"], POSTCODE),
    ("Site", ["LS1", "LS29", "LS6", "LS17"], POSTCODE),
    ("Site", ["M3 4", "M1 7", "M14 5", "M20 2"], POSTCODE),
    ("Site", ["D02 X285"], POSTCODE),
    ("Site", ["d02 x285"], POSTCODE),
    ("Site", ["k9z 9z9"], POSTCODE),
    ("Site", ["ze9 9"], POSTCODE),
    ("Site", ["ze1", "kw17", "iv51", "ze3"], POSTCODE),
    ("Site", ["m3 4", "m1 7", "m14 5", "m20 2"], POSTCODE),
    # days
    ("Month", ["2024-03-17"], DATE),
    ("Month", ["2024-03", "17/03/24"], DATE),
    ("Month", ["17.3.2024"], DATE),
    ("Month", ["17 Mar 2024"], DATE),
    ("Month", ["17-Mar-24"], DATE),
    ("Month", ["17MAR2024"], DATE),
    ("Month", ["March 17, 2024"], DATE),
    ("Month", ["17th March 2024"], DATE),
    ("Month", ["the 17th of March"], DATE),
    ("Month", ["17-Mar"], DATE),
    ("Month", ["17.III.2024"], DATE),
    ("Month", ["2024 March 17"], DATE),
    ("Month", ["3/17/2024"], DATE),
    ("Month", ["17 M\u00e4r 2024"], DATE),
    ("Month", ["2024\u5e743\u670817\u65e5"], DATE),
    ("Month", ["17/3"], DATE),
    ("Month", ["17 03 24"], DATE),
    ("Month", ["17,03,2024"], DATE),
    ("Month", ["20240317"], DATE),
    ("Month", [20240317], DATE),
    ("Month", ["17032024"], DATE),
    ("Month", ["１７/０３/２０２４"], DATE),
    ("Month", ["2024-03-17T09:12:00"], DATE),
    ("Month", [date(2024, 3, 17)], DATE),
    ("Month", [datetime(2024, 3, 1), datetime(2024, 3, 17)], DATE),
    ("Month", [datetime(2024, 3, 1, 9)], DATE),
    ("Month", [datetime(2024, 3, 1, 0, 12)], DATE),
    ("Month", [datetime(2024, 3, 1, 0, 0, 7)], DATE),
    ("Date of stent", [45368], DATE),
    ("Date of stent", ["45368.0"], DATE),
    ("Date of stent", ["170324", "290424", "110524"], DATE),
    ("Note", ["resected 17/03/2024, well"], DATE),
    ("Note", ["leak on 17th March"], DATE),
]


def planted(heading, values):
    """Give every piece of three characters and more of the values that a message could repeat."""
    for value in values:
        text = value.isoformat() if isinstance(value, date) else str(value)
        yield from re.findall(r"\w{3,}", text)


@pytest.mark.parametrize(("heading", "values", "words"), DISGUISES)
def test_a_disguise_is_refused_for_its_column_and_nothing_of_it_is_told(heading, values, words):
    around = {name: column for name, column in AROUND.items() if name != heading}
    (found,) = found_in({**around, heading: values})
    assert (found.rule, found.severity) == ("identifier", Severity.FAULT)
    letter = "ABCDE"[len(around)]
    assert found.message.startswith((f"column {letter} (", f"column {letter} looks"))
    assert words in found.message
    said = told([found])
    for fixed in (*(words for look in Likeness for words in look.value), f'"{heading}"', *ROLES):
        said = said.replace(fixed, "") if fixed else said
    for piece in planted(heading, values):
        assert piece.lower() not in said.lower()


@pytest.mark.parametrize(("heading", "values", "words"), DISGUISES)
def test_two_disguises_are_both_told(heading, values, words):
    columns = {"Born": ["x"], heading: values, "Ward phone": ["01632 960983"]}
    likely = [found.message for found in found_in(columns)]
    assert len(likely) == 3
    assert words in likely[1]


def test_there_are_enough_of_them():
    assert len(DISGUISES) >= 50
