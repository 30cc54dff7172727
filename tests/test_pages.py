"""Every code has a page whose first example fires it and whose second one does not."""

import pytest

from stepwarrant.checker import audit
from stepwarrant.checker.findings import SEVERITY
from stepwarrant.checker.pages import pages
from stepwarrant.grammar.captions import read_srt, read_vtt
from stepwarrant.sat.oracle import BUDGET

PAGES = pages()
BESIDES = {"contradictory-warrant": {"no-solution"}}
"""Codes that cannot fire alone: facts contradict each other only on a puzzle without a solution."""


@pytest.mark.parametrize("code", SEVERITY)
def test_examples_of_the_page(code: str) -> None:
    page = PAGES[code]
    if page.kind in ("srt", "vtt"):
        read = {"srt": read_srt, "vtt": read_vtt}[page.kind]
        assert [problem.code for problem in read(page.fires).problems] == [code]
        assert read(page.silent).problems == ()
        return
    budget, advice = 1 if "--conflicts 1" in page.text else BUDGET, "--advice" in page.text
    grid = "none" if "`--grid none`" in page.text else None
    fired = audit(page.fires, grid=grid, conflicts=budget, advice=advice, kind=page.kind).findings
    grave = {finding.code for finding in fired if finding.severity != "note"}
    assert code in {finding.code for finding in fired}
    assert grave <= {code} | BESIDES.get(code, set())
    silent = audit(page.silent, advice=advice, kind=page.kind)
    assert code not in {finding.code for finding in silent.findings}
    assert silent.worst in (None, "note")


def test_one_page_a_code_and_no_other() -> None:
    assert list(PAGES) == list(SEVERITY)
    for page in PAGES.values():
        assert page.title.endswith(".")
        assert "```" not in page.text
