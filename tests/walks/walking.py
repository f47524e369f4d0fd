"""Walk as a new user does: the real command line, in a folder of one's own."""

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).parents[2]
PAPERS = Path(__file__).parent / "papers"


@dataclass
class Walk:
    """A folder with a copy of the demo review, and the commands typed in it."""

    folder: Path
    commands: list[str] = field(default_factory=list)

    @classmethod
    def beside_the_demo(cls, folder: Path) -> "Walk":
        shutil.copytree(ROOT / "studies" / "demo", folder / "stents")
        for paper in PAPERS.iterdir():
            shutil.copy(paper, folder)
        return cls(folder)

    @property
    def review(self) -> Path:
        return self.folder / "stents"

    def type(self, *words: str, answers: str | None = None, code: int = 0) -> str:
        """Run ``evsyn`` and return what it says; the answers are typed at its questions."""
        self.commands.append(" ".join(words))
        more = ["--ask"] if answers is not None else []
        done = subprocess.run(
            [sys.executable, "-m", "evsyn", *words, *more],
            cwd=self.folder,
            input=answers or "",
            capture_output=True,
            text=True,
            encoding="utf-8",
            env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"},
            check=False,
        )
        assert done.returncode == code, done.stdout + done.stderr
        assert "Traceback" not in done.stderr
        return done.stdout + done.stderr
