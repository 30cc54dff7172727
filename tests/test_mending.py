"""``mend``: safe repairs as a patch that git takes, or made in place; nothing lost, nothing overwritten by surprise."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from maker import FURTHER, make, slip

from stepwarrant.checker import audit
from stepwarrant.checker.mending import applied, mend, patch
from stepwarrant.checker.places import Change
from stepwarrant.grammar.statements import Span

ROOT = Path(__file__).parent.parent
SLIPS = sorted((ROOT / "example_paths" / "one-slip").glob("*.path"))
SOUND = sorted((ROOT / "example_paths" / "sound").glob("*.path"))
PATH = """grid: .23. .... ..4. .3.1

steps:
r2c1 = 3 because hidden single in b3
r1c1 = 1 because hidden single in r1
"""
MENDED = PATH.replace("b3", "b1")


def run(*arguments: str, folder: Path, stdin: str = "") -> subprocess.CompletedProcess[str]:
    command = Path(sys.executable).with_name("stepwarrant")
    return subprocess.run([command, *arguments], cwd=folder, capture_output=True, text=True, input=stdin, check=False)


def graver(text: str) -> list[str]:
    return [finding.code for finding in audit(text).findings if finding.severity != "note"]


# The patch


def test_the_patch_and_the_outcome(tmp_path: Path) -> None:
    (tmp_path / "two.path").write_text(PATH, encoding="utf-8")
    done = run("mend", "two.path", folder=tmp_path)
    assert done.returncode == 0
    assert done.stderr == (
        "two.path: 1 repair in the patch (line 4); then the audit finds nothing to mend; the path stops short.\n"
    )
    assert (tmp_path / "two.path").read_text(encoding="utf-8") == PATH
    subprocess.run(["git", "apply", "-"], cwd=tmp_path, input=done.stdout, text=True, check=True)
    assert (tmp_path / "two.path").read_text(encoding="utf-8") == MENDED


@pytest.mark.parametrize("name", ["two words.path", 'a "quoted" one.path', "below/here.path", "brontë.path"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("last", [True, False])
@pytest.mark.parametrize("inside", [True, False])
def test_git_takes_the_patch(tmp_path: Path, name: str, end: str, last: bool, inside: bool) -> None:
    """Whatever the name and the line ends, with and without an end of line at the end, inside a repository and outside."""
    if inside:
        subprocess.run(["git", "init", "-q"], cwd=tmp_path, check=True)
    text = (PATH if last else PATH.removesuffix("\n")).replace("\n", end)
    (tmp_path / name).parent.mkdir(exist_ok=True)
    (tmp_path / name).write_bytes(text.encode())
    command = [Path(sys.executable).with_name("stepwarrant"), "mend", name]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, check=False)
    subprocess.run(["git", "apply", "-"], cwd=tmp_path, input=done.stdout, check=True)
    assert (tmp_path / name).read_bytes() == text.replace("in b3", "in b1").encode()


def test_no_patch_where_nothing_changes() -> None:
    assert patch("x.path", PATH, PATH) == ""


# In place


@pytest.mark.parametrize("path", SLIPS, ids=lambda path: path.stem)
def test_a_safe_repair_leaves_a_file_that_audits_clean(path: Path, tmp_path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    findings = [finding for finding in audit(text).findings if finding.severity != "note"]
    repairs = [[repair.applies for repair in finding.repairs] for finding in findings]
    mended = mend(text, audit)
    if findings and all("safe" in applies for applies in repairs):
        assert graver(mended.text) == []
    if any("safe" in applies for applies in repairs):
        assert mended.made and len(graver(mended.text)) < len(findings)
    else:
        assert mended.text == text


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_a_sound_example_is_left_alone(path: Path, tmp_path: Path) -> None:
    copy = tmp_path / path.name
    copy.write_bytes(path.read_bytes())
    stamp = copy.stat().st_mtime_ns
    done = run("mend", "--write", path.name, folder=tmp_path)
    assert done.returncode == 0
    assert copy.read_bytes() == path.read_bytes()
    assert copy.stat().st_mtime_ns == stamp


@settings(max_examples=12, deadline=None)
@given(st.integers(0, 10**6), st.sampled_from([4, 6]))
def test_mend_never_changes_a_sound_file(seed: int, size: int) -> None:
    text = make(seed, size).text
    assert mend(text, audit).text == text


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 10**6))
def test_a_mended_file_has_no_new_findings(seed: int) -> None:
    walk = make(seed, 6)
    for slipped in [slip(walk, seed), *(makes(walk, seed) for makes in FURTHER.values())]:
        if slipped is not None:
            assert len(graver(mend(slipped.text, audit).text)) <= len(graver(slipped.text))


def test_encoding_and_line_ends_are_kept(tmp_path: Path) -> None:
    before = ("\ufeff" + PATH.replace("steps:", "title: die Brücke\nsteps:")).replace("\n", "\r\n").encode()
    (tmp_path / "x.path").write_bytes(before)
    (tmp_path / "x.path").chmod(0o640)
    done = run("mend", "--write", "x.path", folder=tmp_path)
    assert done.returncode == 0
    assert (tmp_path / "x.path").read_bytes() == before.replace(b"in b3", b"in b1")
    assert (tmp_path / "x.path").stat().st_mode & 0o777 == 0o640
    assert [path.name for path in tmp_path.iterdir()] == ["x.path"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real.path").write_text(PATH, encoding="utf-8")
    (tmp_path / "link.path").symlink_to("real.path")
    assert run("mend", "--write", "link.path", folder=tmp_path).returncode == 0
    assert (tmp_path / "link.path").is_symlink()
    assert (tmp_path / "real.path").read_text(encoding="utf-8") == MENDED


def test_a_read_only_file_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "x.path").write_text(PATH, encoding="utf-8")
    (tmp_path / "x.path").chmod(0o444)
    done = run("mend", "--write", "x.path", folder=tmp_path)
    assert (done.returncode, done.stderr) == (2, "stepwarrant: x.path: read-only; nothing was written\n")
    assert (tmp_path / "x.path").read_text(encoding="utf-8") == PATH


def test_a_file_that_changed_meanwhile_is_left_alone(tmp_path: Path) -> None:
    from stepwarrant.checker.mending import write
    from stepwarrant.checker.report import Unusable

    (tmp_path / "x.path").write_text(PATH + "# more", encoding="utf-8")
    with pytest.raises(Unusable, match="changed while it was being audited; nothing was written"):
        write(str(tmp_path / "x.path"), PATH.encode(), MENDED.encode())
    assert (tmp_path / "x.path").read_text(encoding="utf-8") == PATH + "# more"
    assert [path.name for path in tmp_path.iterdir()] == ["x.path"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["mend", "none.path"], "stepwarrant: none.path: No such file or directory\n"),
        (["mend", "."], "stepwarrant: .: Is a directory\n"),
    ],
)
def test_a_file_that_cannot_be_used(arguments: list[str], said: str, tmp_path: Path) -> None:
    done = run(*arguments, folder=tmp_path)
    assert (done.returncode, done.stderr) == (2, said)


# Asking

TWO_WAYS = PATH.replace("b3", "b2")


@pytest.mark.parametrize(
    ("answer", "left"),
    [("1\n", MENDED), ("2\n", PATH.replace("b3", "r2")), ("n\n", TWO_WAYS), ("q\n", TWO_WAYS), ("", TWO_WAYS)],
)
def test_all_asks_where_several_changes_would_do(answer: str, left: str, tmp_path: Path) -> None:
    (tmp_path / "x.path").write_text(TWO_WAYS, encoding="utf-8")
    done = run("mend", "--write", "--all", "x.path", folder=tmp_path, stdin=answer)
    assert (tmp_path / "x.path").read_text(encoding="utf-8") == left
    assert "  1  line 4: r2c1 = 3 because hidden single in b1\n" in done.stderr
    assert done.returncode == (0 if answer in ("1\n", "2\n") else 1)
    assert "Traceback" not in done.stderr


def test_what_was_left_stays_left(tmp_path: Path) -> None:
    """Also where other repairs make it the only one that will do."""
    text = TWO_WAYS.replace("r1c1 = 1 because hidden single in r1", "r1c1 = 4 because hidden single in r1")
    (tmp_path / "x.path").write_text(text, encoding="utf-8")
    done = run("mend", "--write", "--all", "x.path", folder=tmp_path, stdin="n\nn\nn\n")
    assert "r2c1 = 3 because hidden single in b2" in (tmp_path / "x.path").read_text(encoding="utf-8")
    assert done.returncode == 1


def test_without_all_nothing_is_asked(tmp_path: Path) -> None:
    (tmp_path / "x.path").write_text(TWO_WAYS, encoding="utf-8")
    done = run("mend", "--write", "x.path", folder=tmp_path)
    assert done.stderr == (
        "x.path: no repair that can be made without asking; 1 finding is left (line 4), which `stepwarrant audit` shows; "
        "the path stops short.\n"
    )
    assert (tmp_path / "x.path").read_text(encoding="utf-8") == TWO_WAYS


# Changes in a text


def test_changes_are_made_whatever_their_order() -> None:
    changes = [Change(Span(1, 2, 3), "b", "B"), Change(Span(2, 1, 1), "", "new\n"), Change(Span(1, 1, 2), "a", "")]
    assert applied("abc\r\ndef", changes) == "Bc\r\nnew\r\ndef"
