"""What is written runs: the pages' commands, code, links and numbers are held here."""

import contextlib
import io
import json
import math
import re
import shlex
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

import evsyn
from evsyn.cli import cli
from evsyn.extraction.reference import checks_page, fields_page
from evsyn.pooling.beta_binomial import pool_beta_binomial
from evsyn.wording.numbers import cell
from tests.docs.pages import (
    PAGES,
    ROOT,
    Block,
    anchors,
    apply,
    blocks,
    links,
    name_of,
    prose,
    shown_in,
)

GENERATED = ROOT / "docs" / "reference"
DEVELOPERS = ROOT / "DEVELOPERS.md"
REFUSED_WORDS = ROOT / "docs" / "decisions" / "0017-no-pass-marks.md"

#: Words no page says of a unit, a device or a result, and words that sell.
NEVER = (
    r"\bsafe(ly)?\b", r"\bsignificant(ly)?\b", r"\boutliers?\b", r"meets the standard",
    r"\bpowerful\b", r"\bseamless(ly)?\b", r"\bstate-of-the-art\b", r"\bcutting-edge\b",
)  # fmt: skip


def all_pages(*languages: str) -> list:
    """Return the pages with blocks in one of these languages, as parameters named by the page."""
    having = [p for p in PAGES if any(b.language in languages for b in blocks(p))]
    return [pytest.param(page, id=name_of(page)) for page in having]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A place to work in, with the reviews of the project."""
    shutil.copytree(ROOT / "studies", tmp_path / "studies")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize("page", all_pages("console"))
def test_commands_print_what_is_shown(page: Path, folder: Path) -> None:
    wrong = []
    for block in blocks(page):
        is_record = block.language in ("ris", "bibtex")
        if is_record or (block.language in ("yaml", "diff") and block.is_of_a_review):
            apply(block, folder)
        if block.language == "console":
            wrong += [f"{name_of(page)}, line {block.number}: {said}" for said in _faults_of(block)]
    assert not wrong, "\n\n".join(wrong)


def _faults_of(block: Block) -> list[str]:
    runs: list[tuple[str, list[str]]] = []
    for line in block.lines:
        if line.startswith("$ "):
            runs.append((line[2:], []))
        else:
            runs[-1][1].append(line)
    found = []
    for command, shown in runs:
        words = shlex.split(command)
        assert words[0] == "evsyn", command
        result = CliRunner().invoke(cli, words[1:], prog_name="evsyn")
        assert result.exception is None or isinstance(result.exception, SystemExit), command
        said = shown_in(shown, [line.rstrip() for line in result.output.splitlines()])
        if said:
            found.append(f"$ {command}\n{said}")
    return found


@pytest.mark.parametrize("page", all_pages("python"))
def test_python_runs_and_prints_what_is_shown(page: Path, folder: Path) -> None:
    space: dict[str, object] = {}
    listed = blocks(page)
    for block, after in zip(listed, [*listed[1:], None], strict=True):
        if block.language == "yaml" and block.is_of_a_review:
            apply(block, folder)
        if block.language != "python" or block.target("File"):
            continue
        page_out = io.StringIO()
        with contextlib.redirect_stdout(page_out):
            exec(compile(block.text, f"{name_of(page)}:{block.number}", "exec"), space)
        if after is not None and after.language == "text":
            said = shown_in(list(after.lines), page_out.getvalue().splitlines())
            assert not said, f"{name_of(page)}, line {after.number}: {said}"


def test_recipes_for_contributors_work(tmp_path: Path) -> None:
    for part in ("evsyn", "tests", "studies", "pyproject.toml"):
        (shutil.copytree if (ROOT / part).is_dir() else shutil.copy)(ROOT / part, tmp_path / part)
    changed = [block for block in blocks(DEVELOPERS) if apply(block, tmp_path)]
    code = sorted({path for block in changed if (path := block.target("File")).endswith(".py")})
    tests = [path for path in code if path.startswith("tests/")]
    assert tests
    _run_in(tmp_path, "-m", "ruff", "check", *code)
    _run_in(tmp_path, "-m", "ruff", "format", "--check", *code)
    _run_in(tmp_path, "-m", "pytest", "-q", "-p", "no:cacheprovider", *tests)


def _run_in(folder: Path, *words: str) -> None:
    done = subprocess.run(
        [sys.executable, *words], cwd=folder, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("page", [pytest.param(page, id=name_of(page)) for page in PAGES])
def test_links_lead_somewhere(page: Path) -> None:
    for link in links(page):
        if link.startswith(("http://", "https://")):
            continue
        path, _, anchor = link.partition("#")
        target = (page.parent / path).resolve() if path else page
        assert target.exists(), f"{name_of(page)}: {link}"
        assert not anchor or anchor in anchors(target), f"{name_of(page)}: {link}"


def test_every_page_can_be_reached_from_the_readme() -> None:
    met, waiting = set(), [ROOT / "README.md"]
    while waiting:
        page = waiting.pop()
        if page in met or page.suffix != ".md":
            continue
        met.add(page)
        paths = [link.partition("#")[0] for link in links(page) if not link.startswith("http")]
        waiting += [(page.parent / path).resolve() for path in paths if path]
    assert not set(PAGES) - met


@pytest.mark.parametrize("page", [pytest.param(page, id=name_of(page)) for page in PAGES])
def test_no_page_says_what_the_tool_never_says(page: Path) -> None:
    if page == REFUSED_WORDS:
        return
    for word in NEVER:
        assert not re.search(word, page.read_text(encoding="utf-8"), re.I), word


def test_reference_pages_are_what_the_code_makes() -> None:
    for name, made in (("fields.md", fields_page()), ("checks.md", checks_page())):
        assert (GENERATED / name).read_text(encoding="utf-8") == made, "run: make reference"


# The reference of output: every field that is printed is described, and nothing else is.

AUDIT = "audit studies/demo/unit-hollowmere.yaml --against studies/demo"
CLAIM = (
    "claim studies/demo/claims.yaml --against studies/demo --unit studies/demo/unit-hollowmere.yaml"
)
OUTPUTS = {
    "check": ("check studies/demo",),
    "pool": (
        "pool studies/demo",
        "pool studies/published-trials",
        "pool studies/demo perforation --what-if 2012-quince.perforation=4/63",
        "pool studies/published laparoscopic_resection --disputed",
    ),
    "audit": (
        f"{AUDIT} --for inside --before studies/demo/hollowmere-2018-to-2022.yaml",
        f"{AUDIT} --for outside",
    ),
    "claim": (f"{CLAIM} --for inside", f"{CLAIM} --for outside"),
    "ask": (
        "ask lean studies/demo migration",
        "ask over-time studies/demo migration",
        "ask vary studies/demo migration",
        "ask differ studies/demo perforation --by intent --cross device_generation,intent",
        "ask regress studies/demo perforation --on year --on intent",
        "ask small studies/demo perforation",
        "ask small studies/published-trials clinical_success",
    ),
    "calibrate": (
        "calibrate studies/demo perforation --by intent --replications 40 --exact-replications 20",
    ),
    "reproduce": (
        "reproduce tests/reproduction/published/sun2019_ponv_rr.yaml",
        "reproduce tests/reproduction/published/peng2019_remission_rr_mh_fixed.yaml",
    ),
}


@cache
def _fields_printed(commands: tuple[str, ...]) -> frozenset[str]:
    names: set[str] = set()

    def walk(value: object, key: str) -> None:
        if isinstance(value, dict):
            if key != "rows":
                names.update(value)
            for name, inner in value.items():
                walk(inner, name)
        elif isinstance(value, list):
            for inner in value:
                walk(inner, key)

    for command in commands:
        result = CliRunner().invoke(cli, [*shlex.split(command), "--json"])
        walk(json.loads(result.output), "")
    return frozenset(names)


def test_reference_of_output_holds_every_field(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    page = (GENERATED / "output.md").read_text(encoding="utf-8")
    shared, *parts = re.split(r"^## evsyn (\w+) --json$", page, flags=re.M)
    told = {verb: _told(part) for verb, part in zip(parts[::2], parts[1::2], strict=True)}
    assert sorted(told) == sorted(OUTPUTS)
    common = _told(shared)
    for verb, commands in OUTPUTS.items():
        printed = _fields_printed(commands)
        assert not printed - told[verb] - common, f"{verb}: not described"
        assert not told[verb] - printed, f"{verb}: described and not printed"
    assert not common - frozenset().union(*map(_fields_printed, OUTPUTS.values()))


def _told(text: str) -> frozenset[str]:
    cells = re.findall(r"^\| (`[^|]*`) \|", text, re.M)
    return frozenset(name for one in cells for name in re.findall(r"`(\w+)`", one))


# Numbers that stand in sentences and tables and not in the output of a command.


def test_the_pocket_calculation_gives_the_printed_digits() -> None:
    events, total = [2, 10, 6], [50, 60, 84]
    y = [math.log(x / (n - x)) for x, n in zip(events, total, strict=True)]
    v = [1 / x + 1 / (n - x) for x, n in zip(events, total, strict=True)]
    w = [1 / one for one in v]
    mean = sum(map(math.prod, zip(w, y, strict=True))) / sum(w)
    squares = [(one - mean) ** 2 for one in y]
    q = sum(map(math.prod, zip(w, squares, strict=True)))
    c = sum(w) - sum(one**2 for one in w) / sum(w)
    tau2 = (q - 2) / c
    again = [1 / (one + tau2) for one in v]
    parts = [a * b for a, b in zip(again, y, strict=True)]
    centre, se = sum(parts) / sum(again), 1 / math.sqrt(sum(again))
    low, high = centre - 1.95996 * se, centre + 1.95996 * se
    page = prose(ROOT / "docs" / "tutorial.md")
    steps = [*y, *v, *w, sum(w), mean, *squares, q, c, tau2, *again, *parts, centre, se, low, high]
    for step in steps:
        assert f"{step:.5f}" in page
    tool = evsyn.pool_proportions(events, total)
    rates = [1 / (1 + math.exp(-one)) for one in (centre, low, high)]
    assert cell(*rates) == cell(tool.estimate, tool.low, tool.high) == "9.0 (4.0-19.3)"
    assert "`9.0 (4.0-19.3)`" in page


RARE = [0, 1, 0, 3, 2, 0, 5], [20, 45, 33, 120, 60, 15, 210]
FULL = [20, 44, 33, 115, 60], [20, 45, 33, 120, 60]


def _freeman_tukey(events: list[int], total: list[int]) -> float:
    """Pool double arcsines by the engine; back at the harmonic mean (Miller, Am Stat 1978)."""
    y = [
        (math.asin(math.sqrt(x / (n + 1))) + math.asin(math.sqrt((x + 1) / (n + 1)))) / 2
        for x, n in zip(events, total, strict=True)
    ]
    pooled = evsyn.pool_estimates(y, [1 / (4 * n + 2) for n in total]).estimate
    turned = math.sin(2 * pooled)
    n = len(total) / sum(1 / one for one in total)
    root = math.sqrt(1 - (turned + (turned - 1 / turned) / n) ** 2)
    return (1 - math.copysign(root, math.cos(2 * pooled))) / 2


def test_the_table_of_rare_events_is_what_the_engine_gives() -> None:
    page = prose(ROOT / "docs" / "explanation" / "which-row-to-read.md")
    for label, pool in {
        "DerSimonian-Laird, ordinary interval": evsyn.pool_proportions,
        "Restricted ML, Hartung-Knapp (floored)": lambda x, n: evsyn.pool_proportions(
            x, n, between="restricted_ml", interval="hartung_knapp_floor"
        ),
        "Exact binomial-normal model": evsyn.pool_binomial_normal,
        "Beta-binomial model": pool_beta_binomial,
    }.items():
        rows = [pool(*counts) for counts in (RARE, FULL)]
        cells = " | ".join(cell(row.estimate, row.low, row.high) for row in rows)
        assert f"| {label} | {cells} |" in page
    crude = " | ".join(f"{100 * sum(x) / sum(n):.1f}" for x, n in (RARE, FULL))
    assert f"| All patients added up | {crude} |" in page
    arcsines = " | ".join(f"{100 * _freeman_tukey(x, n):.1f}" for x, n in (RARE, FULL))
    assert f"| Freeman-Tukey (not offered) | {arcsines} |" in page
