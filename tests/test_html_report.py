"""The page as text: one file that asks nothing of the network, with every word of the input as text."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from html.parser import HTMLParser
from itertools import combinations
from pathlib import Path

import pytest

from stepwarrant.checker import audit, audit_file
from stepwarrant.checker.drawing import DARK, KINDS, LIGHT, Sheet, over, sheet
from stepwarrant.checker.html_report import render
from stepwarrant.checker.scenes import given_cells

EXAMPLES = Path(__file__).parent.parent / "example_paths"
GRID = "grid: .23. .... ..4. .3.1\n"
MARKUP = "</script><script>document.title='taken'</script><img src=x onerror=alert(1)> \"&amp;\" ]]> <!-- {{ 7*7 }}"


class Parts(HTMLParser):
    """What a browser would make of a page: its elements with their attributes, and the text in each kind of element."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.text: dict[str, list[str]] = {}
        self._open: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if self._open:
            self.text.setdefault(self._open[-1], []).append(data)

    def names(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.elements if name == tag]


def page_data(page: str) -> list[dict[str, object]]:
    return [json.loads(text) for text in re.findall(r'<script type="application/json" class="data">(.*?)</script>', page, re.S)]


@pytest.mark.parametrize("path", sorted((EXAMPLES / "one-slip").glob("*.path")), ids=lambda path: path.stem)
def test_every_finding_is_on_the_page_with_its_step_and_repairs(path: Path) -> None:
    report = audit_file(path)
    page = Parts(render([report]))
    articles = page.names("article")
    assert [attributes["class"] for attributes in articles] == [f"finding {finding.severity}" for finding in report.findings]
    links = {attributes.get("href") for attributes in page.names("a")}
    assert {f"#step-{finding.step}" for finding in report.findings if finding.step} <= links
    targets = {attributes.get("id") for _, attributes in page.elements}
    assert {link[1:] for link in links if link} <= targets
    changes = [change for finding in report.findings for repair in finding.repairs for change in repair.changes]
    assert page.text.get("ins", []) == [change.text for change in changes if change.text]


def test_every_word_of_the_input_is_text() -> None:
    steps = f"say: {MARKUP}\nr2c1 = 3 because {MARKUP}\nr1c4 = 4 because naked single  # {MARKUP}\n"
    page = render([audit(f"title: {MARKUP}\n{GRID}steps:\n{steps}", name=f"{MARKUP}.path")])
    parts = Parts(page)
    assert len(parts.names("script")) == 2 and not parts.names("img")
    assert parts.text["title"] == [f"{MARKUP}: audit"]
    assert parts.text["h1"] == [MARKUP]
    (data,) = page_data(page)
    told = data["steps"]
    assert isinstance(told, list)
    assert "".join(part for part, _ in told[1]["words"]) == f"r1c4 = 4 because naked single  # {MARKUP}"
    assert MARKUP in "".join(parts.text["p"])


def test_a_path_cannot_turn_the_text_around_it() -> None:
    page = render([audit(f"title: a\u202eb\x1b[31mc\u0000d\ud800\n{GRID}steps:\nr2c1 = 3 because hidden single in b1\n")])
    assert "a\ufffdb\ufffd[31mc\ufffdd\ufffd" in page
    page.encode("utf-8")


def test_nothing_is_loaded_and_nothing_else_may_run() -> None:
    page = render([audit_file(EXAMPLES / "sound" / "lamp-room-04.path")])
    parts = Parts(page)
    addresses = [value for _, attributes in parts.elements for name, value in attributes.items() if name in ("src", "href")]
    assert addresses and all(value is not None and value.startswith("#") for value in addresses)
    assert not re.search(r"https?://(?!www\.w3\.org/2000/svg)", page) and "@import" not in page
    assert not any(name.startswith("on") or name == "style" for _, attributes in parts.elements for name in attributes)
    policy = next(attributes["content"] for attributes in parts.names("meta") if "http-equiv" in attributes)
    assert policy is not None and policy.startswith("default-src 'none';") and "unsafe" not in policy
    for tag in ("style", "script"):
        text = re.findall(rf"<{tag}>(.*?)</{tag}>", page, re.S)[0]
        assert f"{tag}-src 'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'" in policy


def replayed(page: str, at: int) -> set[tuple[str, str, str]]:
    """The pieces that the page's script would show on board ``at``."""
    found = re.findall(
        r'<use href="#(b\d+-[a-z]+\d+)" x="([\d.]+)" y="([\d.]+)" data-cell="\d+" data-from="(\d+)" data-to="(\d+)"', page
    )
    return {(symbol, x, y) for symbol, x, y, first, end in found if int(first) <= at < int(end)}


@pytest.mark.parametrize(
    "name", ["sound/lamp-room-01", "sound/lamp-room-06", "one-slip/half-a-line", "one-slip/told-too-early"]
)
def test_the_pieces_of_a_page_add_up_to_every_board(name: str) -> None:
    report = audit_file(EXAMPLES / f"{name}.path")
    page = render([report])
    givens = given_cells(report)
    boards = [report.steps[0].board, *(step.after for step in report.steps)]
    assert [step.board for step in report.steps] == boards[:-1]
    drawing = sheet(boards[0].geometry)
    for at, board in enumerate(boards):
        uses = "".join(map(drawing.use, drawing.board(board, givens)))
        assert replayed(page, at) == set(re.findall(r'href="#([^"]*)" x="(\d+)" y="(\d+)"', uses))


def test_several_files_stand_on_one_page_and_none_at_all_is_said() -> None:
    names = ("no-grid", "half-a-line", "no-digit", "wrong-box")
    reports = [audit_file(EXAMPLES / "one-slip" / f"{name}.path") for name in names]
    parts = Parts(render(reports))
    named = [attributes["id"] for _, attributes in parts.elements if "id" in attributes]
    assert len(named) == len(set(named))
    assert {attributes.get("href") for attributes in parts.names("a")} >= {f"#{at}-walk" for at in range(1, len(reports) + 1)}
    assert "None of the files could be read." in render([])


def test_a_page_is_the_same_each_time() -> None:
    report = audit_file(EXAMPLES / "sound" / "lamp-room-03.path")
    assert render([report]) == render([report])
    assert render([audit_file(EXAMPLES / "sound" / "lamp-room-03.path")]) == render([report])


@pytest.mark.parametrize("line", ["r1c1 = = 5 becase", "r1c1 r2c2 not 5 because naked pair 5 6 at r3c3 r4c4 in b1"])
def test_five_thousand_errors_stay_below_ten_megabytes(line: str) -> None:
    text = (EXAMPLES / "sound" / "lamp-room-04.path").read_text(encoding="utf-8")
    report = audit(text.partition("steps:")[0] + "steps:\n" + f"{line}\n" * 5000)
    assert len(report.steps) == len(report.findings) == 5000
    assert len(render([report]).encode()) < 10_000_000


# Colours. The matrices simulate full colour blindness: Machado, Oliveira, Fernandes, "A Physiologically-based Model for
# Simulation of Color Vision Deficiency", 2009 (values from memory). Contrast: WCAG 2, relative luminance.

SEEN_BY = {
    "everybody": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "protanopes": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deuteranopes": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritanopes": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
}
MARKS = ("fact", "proved", "unproved", "refuted", "other")


def linear(colour: str) -> tuple[float, float, float]:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return red, green, blue


def lab(colour: tuple[float, ...]) -> tuple[float, float, float]:
    """CIELAB under D65, by the usual formulas."""
    red, green, blue = (min(1, max(0, part)) for part in colour)
    x = (0.4124 * red + 0.3576 * green + 0.1805 * blue) / 0.9505
    y = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    z = (0.0193 * red + 0.1192 * green + 0.9505 * blue) / 1.089
    fx, fy, fz = (value ** (1 / 3) if value > 0.008856 else 7.787 * value + 16 / 116 for value in (x, y, z))
    return 116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)


def luminance(colour: str) -> float:
    return sum(share * part for share, part in zip((0.2126, 0.7152, 0.0722), linear(colour)))


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_colours_stand_out_from_the_paper(colours: dict[str, str]) -> None:
    for name in ("ink", "faint", *MARKS):
        for ground in ("paper", "given"):
            light, dark = sorted((luminance(colours[name]), luminance(colours[ground])), reverse=True)
            assert (light + 0.05) / (dark + 0.05) >= 4.5, (name, ground)


@pytest.mark.parametrize("matrix", SEEN_BY.values(), ids=SEEN_BY)
@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_the_colours_of_what_matters_most_differ_for_every_eye(
    colours: dict[str, str], matrix: tuple[tuple[float, ...], ...]
) -> None:
    seen = {name: lab(tuple(sum(a * b for a, b in zip(row, linear(colours[name]))) for row in matrix)) for name in MARKS}
    for one, other in combinations(("fact", "proved", "unproved", "refuted"), 2):
        distance = sum((a - b) ** 2 for a, b in zip(seen[one], seen[other])) ** 0.5
        assert distance > 11, (one, other, distance)


@pytest.mark.parametrize("size", [4, 6, 9, 16])
def test_marks_differ_in_shape_and_not_in_colour_alone(size: int) -> None:
    from stepwarrant.grammar.vocabulary import geometry

    symbols = Sheet(geometry(size)).symbols
    assert symbols.keys() >= {f"given{size}", f"candidate{size}", "fact", "fact-r", "lack", "lack-b"}
    for family in ("badge", "shape"):
        drawn = {kind: re.sub(r' class="[^"]*"', "", symbols[f"{family}-{kind}"]) for kind in ("proved", "unproved", "refuted")}
        assert len(set(drawn.values())) == 3
    signs = {re.sub(r' class="[^"]*"', "", symbols[f"badge-{kind}"]) for kind in KINDS}
    assert len(signs) == len(KINDS)
    assert {name for name in symbols if over(name)} >= {"badge-proved", "strike-refuted", "tagA"}
