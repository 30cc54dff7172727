"""The page in a browser: headless Chromium, driven by Playwright; axe-core looks for what would shut a reader out.

Where one of the three is not there, these tests skip and say which. ``.ci/run`` installs them.
"""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from stepwarrant.checker import Report, audit, audit_file
from stepwarrant.checker.drawing import describe, sheet
from stepwarrant.checker.html_report import render
from stepwarrant.checker.scenes import given_cells

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

EXAMPLES = Path(__file__).parent.parent / "example_paths"
CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser"))), None)
FLAGS = (
    "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
).split()
AXE = Path(os.environ.get("AXE_CORE") or Path.home() / ".cache/stepwarrant-tests/node_modules/axe-core/axe.min.js")
MARKUP = "</script><script>document.title='taken'</script><img src=x onerror=\"document.title='taken'\"> &amp; {{ 7*7 }}"
REFUTED = EXAMPLES / "one-slip" / "finned-x-wing-wrong-column.path"
UNPROVED = EXAMPLES / "one-slip" / "true-but-unproved.path"
SLIPS = ("half-a-line", "drawn-with-a-stale-digit", "broken-chain", "misspelt-name", "told-too-early", "goes-on-after-the-end")

Opened = Callable[..., "Page"]


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    api = pytest.importorskip("playwright.sync_api", reason="Playwright is not installed: pip install 'stepwarrant[browser]'")
    if CHROMIUM is None:
        pytest.skip("Chromium is not installed: apt-get install chromium")
    with api.sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield running
        running.close()


@pytest.fixture
def opened(browser: Browser, tmp_path: Path) -> Iterator[Opened]:
    """Opens the page of reports; in the end, nothing may have left the file and nothing may have been complained of."""
    trouble: list[str] = []
    contexts = []

    def open_page(*reports: Report, at: str = "", width: int = 1360, **how: Any) -> Page:
        file = tmp_path / "page.html"
        file.write_text(render(reports), encoding="utf-8")
        context = browser.new_context(viewport={"width": width, "height": 900}, **how)
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda message: trouble.append(message.text))
        page.on("pageerror", lambda error: trouble.append(str(error)))
        page.on("request", lambda request: None if request.url.split("#")[0] == file.as_uri() else trouble.append(request.url))
        page.goto(file.as_uri() + at)
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert trouble == []


def shown_pieces(page: Page, which: str) -> set[str]:
    """The digits and candidates on a board that can be seen, with their places."""
    found: list[str] = page.eval_on_selector_all(
        f".walk:not([hidden]) .{which} use[data-from]",
        "uses => uses.filter(use => getComputedStyle(use).visibility === 'visible')"
        ".map(use => ['href', 'x', 'y'].map(name => use.getAttribute(name)).join(' '))",
    )
    return set(found)


def drawn_pieces(report: Report, after: bool, number: int) -> set[str]:
    step = report.steps[number - 1]
    drawing = sheet(step.board.geometry)
    pieces = drawing.board(step.after if after else step.board, given_cells(report))
    return {f"#{drawing.prefix}{piece.symbol} {' '.join(map(str, drawing.places[piece.place]))}" for piece in pieces}


def heading(page: Page) -> str:
    return page.locator(".walk:not([hidden]) .which .count").inner_text()


def comes_to(page: Page, count: str) -> None:
    """A new address is followed a moment later."""
    page.get_by_text(count, exact=True).first.wait_for(timeout=5000)
    assert heading(page) == count


def wide(page: Page) -> bool:
    return bool(page.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth"))


@pytest.mark.parametrize("path", [EXAMPLES / "sound" / "lamp-room-04.path", REFUTED], ids=lambda path: path.stem)
def test_the_arrow_keys_walk_through_every_step(opened: Opened, path: Path) -> None:
    report = audit_file(path)
    page = opened(report)
    count = len(report.steps)
    for step in report.steps:
        assert heading(page) == f"Step {step.step} of {count}"
        assert page.locator(".which .verdict").inner_text() == step.verdict
        assert page.locator(".telling .words").inner_text().splitlines()[0] == report.source[step.line - 1].rstrip()
        assert page.locator(".log [aria-current=step] b").all_inner_texts() == [str(step.step)]
        assert page.locator(".before details p").text_content() == describe(step.board)
        assert page.locator(".after details p").text_content() == describe(step.after)
        if step.step % 7 == 1:
            assert shown_pieces(page, "before") == drawn_pieces(report, False, step.step)
            assert shown_pieces(page, "after") == drawn_pieces(report, True, step.step)
        page.keyboard.press("ArrowRight")
    assert heading(page) == f"Step {count} of {count}"
    assert page.url.endswith(f"#step-{count}")
    for _ in range(3):
        page.keyboard.press("ArrowLeft")
    assert heading(page) == f"Step {count - 3} of {count}"
    page.keyboard.press("Home")
    assert heading(page) == f"Step 1 of {count}"
    page.keyboard.press("End")
    assert page.url.endswith(f"#step-{count}")


def test_every_control_is_reached_by_the_tab_key_and_shows_where_it_is(opened: Opened) -> None:
    page = opened(audit_file(REFUTED))
    reached = []
    for _ in range(8):
        page.keyboard.press("Tab")
        outline, what = page.evaluate(
            "() => { const here = document.activeElement;"
            " return [getComputedStyle(here).outlineWidth, here.dataset.go || here.type || here.className]; }"
        )
        reached.append(what)
        assert outline == "3px"
    assert reached[:7] == ["first", "back", "next", "last", "trouble", "range", "count"]
    page.locator("[data-go=next]").focus()
    page.keyboard.press("Enter")
    assert heading(page) == "Step 2 of 90"
    page.locator(".course input").focus()
    page.keyboard.press("ArrowRight")
    assert heading(page) == "Step 3 of 90"


def test_buttons_list_and_findings_lead_to_steps(opened: Opened) -> None:
    page = opened(audit_file(REFUTED))
    for button, where in (("last", 90), ("back", 89), ("first", 1), ("trouble", 8), ("trouble", 8), ("next", 9)):
        page.locator(f"[data-go={button}]").click()
        assert heading(page) == f"Step {where} of 90"
    page.locator(".log a").nth(29).click()
    assert heading(page) == "Step 30 of 90" and page.url.endswith("#step-30")
    page.locator(".findings .finding a").first.click()
    comes_to(page, "Step 8 of 90")
    assert page.locator(".which").bounding_box()["y"] < 900  # type: ignore[index]
    page.go_back()
    comes_to(page, "Step 30 of 90")


@pytest.mark.parametrize(
    ("at", "step"), [("#step-12", 12), ("#step-90", 90), ("#step-91", 1), ("#step-x", 1), ("#%", 1), ("", 1)]
)
def test_a_link_leads_to_its_step(opened: Opened, at: str, step: int) -> None:
    page = opened(audit_file(REFUTED), at=at)
    assert heading(page) == f"Step {step} of 90"
    assert page.locator(".log [aria-current=step]").bounding_box()["y"] < 900  # type: ignore[index]


def test_a_refuted_effect_has_the_filling_that_breaks_it(opened: Opened) -> None:
    report = audit_file(REFUTED)
    page = opened(report, at="#step-8")
    assert page.locator(".counter:visible figcaption").all_inner_texts() == ["A solution of the puzzle, against r9c3 not 1"]
    assert page.locator(".counter:visible use[href*=badge-refuted]").count() == 1
    digits = page.locator(".counter:visible g use[href*=digit], .counter:visible g use[href*=given]").count()
    assert digits == 81
    effects = ["r5c5 not 5 proved", "r6c5 not 5 proved", "r9c3 not 1 refuted", "r9c3 not 7 idle", "r9c3 not 9 unproved"]
    assert [text.strip() for text in page.locator(".effects li").all_inner_texts()] == effects
    assert page.locator(".facts li").all_inner_texts() == ["A 5 in r4", "B 5 in r9"]
    assert "r9c3 is 1 in the solution" in page.locator(".here .finding").inner_text()
    assert page.locator(".here ins").first.inner_text() == "R9C5"
    page.keyboard.press("ArrowRight")
    assert page.locator(".counter:visible").count() == 0 and page.locator(".here .finding").count() == 0


def test_an_unproved_effect_has_the_facts_that_are_missing(opened: Opened) -> None:
    page = opened(audit_file(UNPROVED), at="#step-1")
    assert page.locator(".lacking li").all_inner_texts() == ["C r3c2"]
    assert page.locator(".before use[href$=-lack]").count() == 1
    assert page.locator(".before use[href*=shape-unproved]").count() == 1
    page.keyboard.press("ArrowRight")
    assert not page.locator(".lacking").is_visible()


def test_the_narrator_is_heard(opened: Opened) -> None:
    text = "grid: .23. .... ..4. .3.1\nsteps:\nsay: Good evening.\n[0:07] r2c1 = 3 because hidden single in b1\n"
    page = opened(audit(text + "say: And <b>so</b> on.\nr1c4 = 4 because naked single\n"))
    assert page.locator(".walk > .say").inner_text() == "Good evening."
    assert page.locator(".which .aside").inner_text() == "0:07"
    assert page.locator(".saying").inner_text() == "And <b>so</b> on."
    page.keyboard.press("ArrowRight")
    assert page.locator(".saying").inner_text() == "" and page.locator(".which .aside").inner_text() == ""


def test_what_was_left_unsaid_is_spelt_out(opened: Opened) -> None:
    page = opened(audit_file(EXAMPLES / "one-slip" / "cells-left-out.path"), at="#step-1")
    assert page.locator(".spelt code").inner_text() == "r2c1 not 1 4 because naked pair 1 4 at r1c1 r2c2 in b1"
    page.keyboard.press("ArrowRight")
    assert not page.locator(".spelt").is_visible()


@pytest.mark.parametrize("path", [REFUTED, UNPROVED, EXAMPLES / "one-slip" / "no-grid.path"], ids=lambda path: path.stem)
def test_nothing_sticks_out_at_the_width_of_a_phone(opened: Opened, path: Path) -> None:
    page = opened(audit_file(path), at="#step-8", width=390)
    assert not wide(page)
    long = audit(f"title: {'x' * 300}\ngrid: .23. .... ..4. .3.1\nsteps:\n{'r1c1' * 90}\n", name="/very" * 60)
    for reports in ([long], [long, audit_file(path)]):
        assert not wide(opened(*reports, width=390))


def test_the_dark_page_is_dark(opened: Opened) -> None:
    def brightness(scheme: str) -> int:
        page = opened(audit_file(UNPROVED), color_scheme=scheme)
        colours = page.evaluate("['body', 'figure'].map(one => getComputedStyle(document.querySelector(one)).backgroundColor)")
        return max(sum(map(int, re.findall(r"\d+", colour)[:3])) for colour in colours)

    assert brightness("dark") < 150 < 600 < brightness("light")


def test_on_paper_every_step_is_listed_and_no_button_shows(opened: Opened) -> None:
    page = opened(audit_file(REFUTED), at="#step-8", color_scheme="dark")
    page.emulate_media(media="print", color_scheme="dark")
    assert page.locator(".helm").is_hidden() and page.locator(".which").is_visible()
    box = page.locator(".log ol").bounding_box()
    last = page.locator(".log li").last.bounding_box()
    assert box and last and last["y"] + last["height"] <= box["y"] + box["height"] + 1
    assert page.evaluate("getComputedStyle(document.body).color") == "rgb(23, 34, 46)"
    assert page.pdf().startswith(b"%PDF")


def test_without_scripts_findings_and_steps_can_be_read(opened: Opened) -> None:
    report = audit_file(REFUTED)
    page = opened(report, java_script_enabled=False)
    assert page.locator(".finding:visible").count() == len(report.findings)
    assert page.locator(".log li:visible").count() == len(report.steps)
    assert "needs its own script" in page.locator("body").inner_text()


def test_markup_in_names_and_titles_is_text(opened: Opened) -> None:
    text = f"title: {MARKUP}\ngrid: .23. .... ..4. .3.1\nsteps:\nr2c1 = 3 because {MARKUP}\nsay: {MARKUP}\n"
    page = opened(audit(text, name=f"{MARKUP}.path"))
    assert page.title() == f"{MARKUP}: audit" and page.locator("h1").inner_text() == MARKUP
    assert page.locator("header .file").inner_text() == f"{MARKUP}.path"
    assert MARKUP in page.locator(".telling").inner_text() and page.locator(".saying").inner_text() == MARKUP
    assert page.locator("img").count() == 0


def test_several_walkthroughs_on_one_page(opened: Opened) -> None:
    reports = [audit_file(EXAMPLES / "one-slip" / f"{name}.path") for name in (*SLIPS, "no-grid")]
    page = opened(*reports)
    assert page.locator(".walk:visible").get_attribute("id") == "1-walk"
    page.locator(".index a").nth(1).click()
    page.locator("[id='2-walk']").wait_for(timeout=5000)
    assert page.locator(".walk:visible").count() == 1
    page.keyboard.press("ArrowRight")
    assert page.url.endswith("#2-step-2")
    assert page.locator(".walk:visible .which .verdict").inner_text() == "unproved"
    page.locator(".index a").last.click()
    page.locator("[id='7-walk']").wait_for(timeout=5000)
    assert page.locator(".walk:visible .finding").count() == 1
    page.keyboard.press("ArrowRight")
    page.goto(page.url.split("#")[0] + "#3-step-4")
    comes_to(page, f"Step 4 of {len(reports[2].steps)}")
    assert page.locator(".walk:visible").get_attribute("id") == "3-walk"


def test_five_thousand_steps(opened: Opened) -> None:
    head, _, steps = (EXAMPLES / "sound" / "lamp-room-04.path").read_text(encoding="utf-8").partition("steps:")
    told = [line for line in steps.splitlines() if "because" in line]
    text = f"{head}steps:\n" + "\n".join(line for line in told for _ in range(50)) + "\n"
    report = audit(text)
    count = len(report.steps)
    assert count >= 5000
    page = opened(report, at=f"#step-{count - 50}")
    page.keyboard.press("ArrowRight")
    assert heading(page) == f"Step {count - 49} of {count}"
    assert shown_pieces(page, "before") == drawn_pieces(report, False, count - 49)
    page.keyboard.press("Home")
    assert shown_pieces(page, "before") == drawn_pieces(report, False, 1)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(
    ("name", "step"), [*((name, 2) for name in SLIPS), (UNPROVED.stem, 1), (REFUTED.stem, 8), ("no-grid", 1)]
)
def test_axe_finds_nothing(opened: Opened, scheme: str, name: str, step: int) -> None:
    if not AXE.is_file():
        pytest.skip(f"axe-core is not in {AXE.parent}: npm install --prefix ~/.cache/stepwarrant-tests axe-core")
    page = opened(audit_file(EXAMPLES / "one-slip" / f"{name}.path"), at=f"#step-{step}", color_scheme=scheme)
    look_for_violations(page)


@pytest.mark.parametrize("width", [390, 1360])
def test_axe_finds_nothing_on_a_page_of_several(opened: Opened, width: int) -> None:
    if not AXE.is_file():
        pytest.skip(f"axe-core is not in {AXE.parent}: npm install --prefix ~/.cache/stepwarrant-tests axe-core")
    page = opened(*(audit_file(EXAMPLES / "one-slip" / f"{name}.path") for name in SLIPS), width=width)
    look_for_violations(page)


def look_for_violations(page: Page) -> None:
    for details in page.locator("details:visible").all():
        details.locator("summary").click()
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate("axe.run()")
    assert found["passes"]
    assert [(rule["id"], node["html"][:120]) for rule in found["violations"] for node in rule["nodes"]] == []
