"""``python -m tests.readme_picture``: the picture of the page that the README opens with, made by the tool and Chromium.

It is written to ``example_paths/page.png``. Look at it before it is committed.
"""

from __future__ import annotations

import re
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from stepwarrant.checker import audit
from stepwarrant.checker.html_report import render

from .test_browser import CHROMIUM, FLAGS, REFUTED

TARGET = Path(__file__).parent.parent / "example_paths" / "page.png"


def main() -> None:
    """Show a step with a refuted effect, and take the picture."""
    text = re.sub(r" *# expect:.*", "", REFUTED.read_text(encoding="utf-8"))
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        file = Path(folder) / "page.html"
        file.write_text(render([audit(text, name="lamp-room.path")]), encoding="utf-8")
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        page = browser.new_page(viewport={"width": 1200, "height": 1060})
        page.goto(f"{file.as_uri()}#step-8")
        page.evaluate("window.scrollTo(0, 0)")
        page.screenshot(path=TARGET)
        browser.close()
    print(f"{TARGET}: {TARGET.stat().st_size:,} bytes")


if __name__ == "__main__":
    main()
