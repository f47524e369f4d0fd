"""The text of a CSV file, whatever program saved it.

A file with a byte-order mark says how it is written. One without is UTF-16 if about every second
byte is nought, UTF-8 if it can be, and else the Windows code page of western Europe, in which
spreadsheets save "CSV" there. (Which programs save what: common practice, no source.)
"""

from evsyn.extraction.case_log.refused import RefusedError

_MARKS = (
    (b"\xef\xbb\xbf", "utf-8-sig"),
    (b"\xff\xfe", "utf-16"),
    (b"\xfe\xff", "utf-16"),
)
_AGAIN = "Save it again as 'CSV UTF-8'."


def text_of(raw: bytes) -> str:
    """Return the text of a file.

    Raises
    ------
    RefusedError
        If it is not text in any of the encodings.
    """
    for name in _candidates(raw):
        try:
            text = raw.decode(name)
        except UnicodeDecodeError:
            continue
        if "\x00" in text:
            break
        return text
    raise RefusedError("the file is not text that can be read", _AGAIN, 1)


def _candidates(raw: bytes) -> tuple[str, ...]:
    for mark, name in _MARKS:
        if raw.startswith(mark):
            return (name,)
    if 3 * raw.count(0) > len(raw):
        return ("utf-16-be",) if raw[:1] == b"\x00" else ("utf-16-le",)
    return ("utf-8", "cp1252")
