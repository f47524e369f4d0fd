"""NHS numbers, by their check digit.

Ten digits, the last a check on the others by Modulus 11. Scottish CHI numbers and the Health and
Care numbers of Northern Ireland are made in the same way.
"""

import re

_SPACING = r"[\s.,\-/_:|*()']*"
_CANDIDATE = re.compile(rf"(?<!\d)(?<!\d\.)(?=((?:[\dOoIl]{_SPACING}){{9}}[\dOoIl])(?!\d))")
#: 0.123456789 is a measure, though its ten digits end in their check digit.
_DECIMAL = re.compile(r"\d{1,2}[.,]\d{8,9}")
_LETTERS = str.maketrans("OoIl", "0011")
_LEAST_DIGITS = 7


def is_nhs_number(digits: str) -> bool:
    """Whether ten digits end in their check digit.

    Parameters
    ----------
    digits : str
        Digits alone; anything but ten of them gives ``False``.

    Notes
    -----
    The first nine digits are weighted 10, 9, ..., 2; the check digit is 11 less the remainder of
    their sum by 11, with 11 written 0, and a number whose check would be 10 is never issued.

    References
    ----------
    NHS Data Dictionary, NHS NUMBER (from memory).
    """
    if len(digits) != 10 or not (digits.isascii() and digits.isdigit()):
        return False
    weighted = sum(int(digit) * (10 - place) for place, digit in enumerate(digits[:9]))
    return 11 - weighted % 11 in {int(digits[9]), int(digits[9]) + 11}


def is_all_nhs_number(text: str) -> bool:
    """Whether a text is ten digits in any spacing and nothing else, and its check digit fits."""
    bare = re.sub(_SPACING, "", text).translate(_LETTERS)
    return _enough_digits(text) and is_nhs_number(bare) and not _DECIMAL.fullmatch(text)


def holds_nhs_number(text: str) -> bool:
    """Whether ten digits somewhere in a text, in any spacing, end in their check digit.

    The letters O, I and l are read as 0 and 1 where most of the ten are digits.
    """
    for match in _CANDIDATE.finditer(text):
        found = match.group(1)
        if _enough_digits(found) and is_all_nhs_number(found):
            return True
    return False


def _enough_digits(text: str) -> bool:
    return sum(character.isdigit() for character in text) >= _LEAST_DIGITS
