"""The specification's examples: every block is a path without error or warning, every line stands in the file it names."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from stepwarrant.checker import audit, audit_file
from stepwarrant.checker.catalogue import CATALOGUE, FORMS
from stepwarrant.checker.expect import differences
from stepwarrant.grammar.line import LineReader
from stepwarrant.grammar.reader import read_path
from stepwarrant.grammar.writer import write_path

ROOT = Path(__file__).parent.parent
SPECIFICATION = (ROOT / "grammar" / "language.md").read_text(encoding="utf-8")
README = (ROOT / "README.md").read_text(encoding="utf-8")
SOUND = ROOT / "example_paths" / "sound"
BLOCKS = re.findall(r"```path\n(.*?)```", SPECIFICATION, re.S)
LINES = re.findall(r"`([^`]+)` \((lamp-room-\d+)\)", SPECIFICATION)


@pytest.mark.parametrize("block", BLOCKS)
def test_every_block_is_a_clean_path(block: str) -> None:
    report = audit(block)
    assert report.worst in (None, "note")
    if "expect:" in block:
        assert list(differences(report)) == []


@pytest.mark.parametrize(("line", "name"), LINES)
def test_every_line_stands_in_its_file(line: str, name: str) -> None:
    lines = (SOUND / f"{name}.path").read_text(encoding="utf-8").splitlines()
    assert line in {told.partition("# expect:")[0].rstrip() for told in lines}


def test_every_family_of_pattern_has_an_example() -> None:
    words = {name.removeprefix("finned ").split(" ")[-1] if "chain" not in name else name for name in CATALOGUE}
    for word in words - {"triple", "jellyfish"}:
        assert any(word in line for line, _ in LINES) or word in ("swordfish", "pair", "quad")
    assert len(BLOCKS) >= 4 and len(LINES) >= 15


@pytest.mark.parametrize("path", sorted(SOUND.glob("*.path")), ids=lambda path: path.stem)
def test_sound_examples_are_clean_solved_and_read_back(path: Path) -> None:
    report = audit_file(path)
    assert report.worst in (None, "note") and report.ending == "solved"
    reader = LineReader(FORMS)
    assert read_path(write_path(report.path), reader) == report.path


def test_sound_examples_use_every_pattern_three_times() -> None:
    told = [step.technique for path in SOUND.glob("*.path") for step in audit_file(path).steps]
    assert {name for name in CATALOGUE if told.count(name) < 3} == set()
    assert sum(len(audit_file(path).steps) >= 60 for path in SOUND.glob("*.path")) >= 5


@pytest.mark.parametrize("path", sorted((ROOT / "example_paths").rglob("*.path")), ids=lambda path: path.stem)
def test_examples_are_as_they_expect(path: Path) -> None:
    report = audit_file(path)
    assert list(differences(report)) == []
    assert (report.worst in (None, "note")) == (path.parent.name == "sound" or path.stem in NOTES)


NOTES = ("no-reason", "stops-short", "cells-left-out", "numbers-out-of-order")
"""Slips that are only worth a note."""


def test_slips_cover_every_code() -> None:
    from stepwarrant.checker.pages import pages

    paths = list((ROOT / "example_paths").rglob("*.path"))
    found = {finding.code for path in paths for finding in audit_file(path).findings}
    found |= {finding.code for path in paths for finding in audit_file(path, grid="none").findings}
    found |= {finding.code for finding in audit(SOUND.joinpath("lamp-room-07.path").read_text("utf-8"), advice=True).findings}
    # Nothing small enough for an example takes the solver to its usual limit: see the page of gave-up.
    assert {code for code, page in pages().items() if page.kind == "path"} - found == {"gave-up"}


@pytest.mark.parametrize("name", ["one-slip/wrong-box.path", "narrated/lamp-room-small.vtt"])
def test_the_readme_shows_what_the_program_prints(name: str) -> None:
    from stepwarrant.checker.text import render

    shown = re.findall(r"```text\n(.*?)```", README, re.S)
    path = f"example_paths/{name}"
    report = audit((ROOT / path).read_text(encoding="utf-8"), name=path, kind="vtt" if name.endswith("vtt") else "path")
    assert render([report]) in shown


def test_the_readme_path_is_read() -> None:
    block = re.search(r"(?:^    .*\n|^\n)+", README[README.index("    title: The Lamp Room, no. 7") :], re.M)
    assert block is not None
    text = re.sub(r"^    ", "", block[0], flags=re.M)
    report = audit(text)
    assert report.solutions == "one" and report.worst in (None, "note")
