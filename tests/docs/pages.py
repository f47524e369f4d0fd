"""Markdown pages, taken apart: fenced blocks, links and headings."""

import re
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
PAGES = [
    ROOT / "README.md",
    ROOT / "DEVELOPERS.md",
    ROOT / "CHANGELOG.md",
    *sorted((ROOT / "docs").rglob("*.md")),
]

_FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.M | re.S)
_LINK = re.compile(r"\[[^\]]*\]\(([^)\s]+)\)")
_HEADING = re.compile(r"^#+ (.+)$", re.M)


@dataclass(frozen=True)
class Block:
    """A fenced block: its language, its lines, and the line of the page it starts on."""

    language: str
    lines: tuple[str, ...]
    number: int

    @property
    def text(self) -> str:
        return "\n".join(self.lines) + "\n"

    @property
    def is_of_a_review(self) -> bool:
        """Whether the file it names is an extract or a plan."""
        return (self.target("File") or self.target("At the end of")).endswith(".yaml")

    def target(self, word: str) -> str:
        """Return the path its first line names, as ``# File: stents/review.yaml``."""
        first = self.lines[0] if self.lines else ""
        return first.removeprefix(f"# {word}: ") if first.startswith(f"# {word}: ") else ""


def name_of(page: Path) -> str:
    return page.relative_to(ROOT).as_posix()


def blocks(page: Path) -> list[Block]:
    text = page.read_text(encoding="utf-8")
    return [
        Block(m[1], tuple(m[2].splitlines()), text.count("\n", 0, m.start()) + 1)
        for m in _FENCE.finditer(text)
    ]


def prose(page: Path) -> str:
    """Return a page without its fenced blocks."""
    return _FENCE.sub("", page.read_text(encoding="utf-8"))


def links(page: Path) -> list[str]:
    return _LINK.findall(prose(page))


def anchors(page: Path) -> set[str]:
    """Return the anchors of a page's headings, as Markdown viewers make them."""
    return {
        re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")
        for heading in _HEADING.findall(prose(page))
    }


def apply(block: Block, folder: Path) -> bool:
    """Write, append to or change the file a block names; say whether it names one."""
    if path := block.target("File"):
        file = folder / path
        if block.language == "diff":
            body = block.lines[1:]
            before = "".join(f"{line[1:]}\n" for line in body if not line.startswith("+"))
            after = "".join(f"{line[1:]}\n" for line in body if not line.startswith("-"))
            text = file.read_text(encoding="utf-8")
            assert before in text, f"{path} does not hold the lines to change:\n{before}"
            file.write_text(text.replace(before, after, 1), encoding="utf-8")
        else:
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(block.text, encoding="utf-8")
        return True
    if path := block.target("At the end of"):
        with (folder / path).open("a", encoding="utf-8") as file:
            file.write("\n".join(block.lines[1:]) + "\n")
        return True
    return False


def shown_in(shown: list[str], printed: list[str]) -> str:
    """Return what is wrong with a shown output; empty where it is what was printed.

    A line ``...`` stands for any lines left out; shown lines between two of them are printed one
    after the other.
    """
    place, is_anywhere = 0, False
    for part in _parts(shown):
        if part == ["..."]:
            is_anywhere = True
            continue
        spots = range(place, len(printed) - len(part) + 1) if is_anywhere else [place]
        spot = next((s for s in spots if printed[s : s + len(part)] == part), None)
        if spot is None:
            return "not printed so:\n" + "\n".join(part)
        place, is_anywhere = spot + len(part), False
    left = [line for line in printed[place:] if line]
    return "" if is_anywhere or not left else "not shown:\n" + "\n".join(left)


def _parts(shown: list[str]) -> list[list[str]]:
    """Split lines into runs, each ``...`` a run of its own."""
    parts: list[list[str]] = []
    for line in shown:
        if line == "..." or not parts or parts[-1] == ["..."]:
            parts.append([line])
        else:
            parts[-1].append(line)
    return parts
