"""A browser without a window, where there is one, and what it makes of a page."""

import shutil
import subprocess
from pathlib import Path

import pytest

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")


def browser() -> str:
    """Return the browser's path, or skip: a page is then read as text only."""
    found = next((path for name in NAMES if (path := shutil.which(name))), None)
    if found is None:
        pytest.skip("no Chromium found; the page is not opened in a browser here")
    return found


def opened(page: Path, fragment: str = "", *, width: int = 1280) -> str:
    """Return the document as it stands after its scripts have run."""
    command = [
        browser(),
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-background-networking",
        f"--user-data-dir={page.parent / 'profile'}",
        f"--window-size={width},900",
        "--dump-dom",
        f"{page.as_uri()}{fragment}",
    ]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
    if not done.stdout.rstrip().endswith("</html>"):
        pytest.skip(f"the browser does not run here: {done.stderr[-300:]}")
    return done.stdout
