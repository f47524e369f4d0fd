"""Whatever is pasted, reading ends in citations an extract can hold, or in findings."""

from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from evsyn.extraction.references.read import read_references
from evsyn.extraction.references.same import duplicates, same_paper
from evsyn.extraction.study import Citation
from evsyn.extraction.writing.text import yaml_text
from evsyn.extraction.yaml_text import parse_bytes

RECORDS = [path.read_bytes() for path in sorted((Path(__file__).parent / "records").iterdir())]
PIECES = [
    "TY  - JOUR", "ER  - ", "AU  - ", "A1  - ", "TI  - ", "T1  - ", "PY  - 2019/05//", "SP  - 1-",
    "EP  - 0", "DO  - 10.1000/", "UR  - http://[", "AN  - 1", "DB  - PubMed", "PMID- ", "PMID- 17",
    "FAU - ", "DP  - 20", "LID - 10.1000/x [doi]", "      ", "@article{", "@string{a=", "@", "{",
    "}", ",", "=", '"', "#", "\\", "\\'", '\\"{o}', "\\begin{", "\\end{x}", "$", "%", "~", "and ",
    "author={", "title={", "year=2019", "doi={10.1000/\\_}", "\\input{x}", "--", "``", "et al",
    "\n", "\r\n", "\r", "\t", " ", "\x00", "\ufeff", "\u2028", "\x85", "\u202e", "שלום", "王",
    "é", "e\u0301", "=1+1", "<b>", "null", "~", "- ", ": ", "'", "A, B", "I.", "-",
    "\ud800", "9" * 30,
]  # fmt: skip


def check(written):
    read = read_references(written, "pasted")
    assert read.citations or read.findings
    for finding in read.findings:
        assert finding.message and finding.cure
        assert finding.source.line >= 1
    for record in read.citations:
        assert record.source.line >= 1
        fields = record.citation.model_dump(exclude_none=True)
        assert fields
        assert all(str(value) == " ".join(str(value).split()) for value in fields.values())
        root = parse_bytes(yaml_text({"citation": fields}).encode()).root
        again = Citation.model_validate(root["citation"])
        assert again.model_dump() == record.citation.model_dump()
        if {"doi", "pmid"} & set(fields):
            assert same_paper(record.citation, record.citation)
    duplicates(read.citations, None)


@given(st.lists(st.sampled_from(PIECES), max_size=40).map("".join))
@settings(max_examples=150, deadline=None)
@example("@article{x, title={" + "{" * 3000 + "}" * 3000 + "}}")
@example("@article{x, title={\\" + "'{" * 30 + "}" * 30 + "}}")
@example("@article{x, author={\\}, title={t}}")
@example("@article{x, author={ and }, title={t}}")
@example("TY  - JOUR\nAU  - " + "Reed, A.; " * 2000 + "\nTI  - t\nER  - ")
@example("TY  - JOUR\nTI  - " + "long " * 2000 + "\nDO  - 10.1000/x\nER  - ")
def test_any_pieces(text):
    check(text)


@given(st.sampled_from(RECORDS), st.data())
@settings(max_examples=100, deadline=None)
def test_a_record_with_something_in_it(raw, data):
    at = data.draw(st.integers(0, len(raw)))
    cut = data.draw(st.integers(at, len(raw)))
    check(
        raw[:at] + data.draw(st.binary(max_size=6)) + raw[cut if data.draw(st.booleans()) else at :]
    )


@given(st.binary(max_size=200))
@settings(max_examples=80, deadline=None)
def test_any_bytes(raw):
    check(raw)
