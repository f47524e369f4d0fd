"""How much dearer the tool is than the least any tool could do, in the same run.

``make bench`` prints ratios of whole processes: the tool over a floor that only starts Python,
imports numpy and scipy.special and reads the same files, or draws the same counts. Ratios hold
where seconds do not.
"""

import statistics
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks.many_studies import many_studies

ROOT = Path(__file__).parent.parent.parent
RUNS = 5
FLOOR = (
    "import pathlib, sys, numpy, scipy.special, yaml\n"
    "for path in pathlib.Path(sys.argv[1]).glob('*.yaml'):\n"
    "    yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader)\n"
)
VERBS = {
    "check": ("check", "{review}"),
    "pool one outcome": ("pool", "{review}", "perforation"),
    "pool all outcomes": ("pool", "{review}"),
    "forest": ("forest", "{review}", "perforation", "-o", "{out}"),
}
#: Ten thousand reviews of 20 studies, over drawing their counts and doing nothing with them.
COUNTS = (
    "import numpy, scipy.special\n"
    "rng = numpy.random.default_rng(74)\n"
    "own = scipy.special.expit(-3 + 0.6 * rng.standard_normal((10_000, 20)))\n"
    "rng.binomial(60, own)\n"
)
CALIBRATE = (
    "calibrate", "--studies", "20", "--size", "60", "--rate", "5%", "--tau", "0.6",
    "--replications", "10000", "--exact-replications", "20", "--workers", "1",
)  # fmt: skip


def seconds(command: list[str], runs: int = RUNS) -> float:
    """Return the median wall time of a whole process."""
    taken = []
    for _ in range(runs):
        start = time.perf_counter()
        subprocess.run(command, check=True, cwd=ROOT, stdout=subprocess.DEVNULL)
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def main() -> None:
    """Print one line a verb and review: its ratio to the floor."""
    out = ROOT / "outputs" / "benchmark.svg"
    for name in ("demo", "published"):
        review = str(ROOT / "studies" / name)
        floor = seconds([sys.executable, "-c", FLOOR, review])
        for verb, words in VERBS.items():
            filled = [word.format(review=review, out=out) for word in words]
            ratio = seconds([sys.executable, "-m", "evsyn", *filled]) / floor
            print(f"{name:10} {verb:18} {ratio:6.2f} times the floor")
    ratio = seconds([sys.executable, "-m", "evsyn", *CALIBRATE])
    ratio /= seconds([sys.executable, "-c", COUNTS])
    print(f"{'typed':10} {'calibrate':18} {ratio:6.2f} times the floor")
    with TemporaryDirectory() as place:
        sheets(Path(place))


def sheets(place: Path) -> None:
    """Print what a workbook of 2,000 studies costs: made, and read into an empty review."""
    many, empty = many_studies(place / "many", 2000), many_studies(place / "empty", 0)
    book = place / "many.xlsx"
    floor = seconds([sys.executable, "-c", FLOOR, str(many)], 1)
    for verb, words in (
        ("sheet make", ["sheet", "make", str(many), "-o", str(book)]),
        ("sheet read", ["sheet", "read", str(empty), str(book), "--dry"]),
    ):
        taken = seconds([sys.executable, "-m", "evsyn", *words], 1)
        print(f"{'2,000':10} {verb:18} {taken / floor:6.2f} times the floor, {taken:.0f} s")


main()
