"""Pictures of steps: as stored, without fonts, at the size asked for, and clear words where there is nothing to draw."""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from stepwarrant.checker import audit, audit_file
from stepwarrant.checker.drawing import describe
from stepwarrant.checker.pictures import NoRenderer, drawn, picture, png
from stepwarrant.grammar.vocabulary import Cell

EXAMPLES = Path(__file__).parent.parent / "example_paths"
STORED = Path(__file__).parent / "data" / "pictures"
COMMAND = str(Path(sys.executable).with_name("stepwarrant"))
SVG = "{http://www.w3.org/2000/svg}"
SHOWN = {
    "unproved": ("one-slip/true-but-unproved.path", 1, False),
    "refuted": ("one-slip/finned-x-wing-wrong-column.path", 8, False),
    "refuted-after": ("one-slip/finned-x-wing-wrong-column.path", 8, True),
    "six": ("sound/lamp-room-01.path", 10, False),
}
"""``python -m tests.test_pictures`` draws them anew; look at them before they are stored."""


def shown(name: str) -> str:
    file, step, after = SHOWN[name]
    report = audit_file(EXAMPLES / file)
    return picture(report, report.steps[step - 1], 240, after=after)


@pytest.mark.parametrize("name", SHOWN)
def test_pictures_are_as_stored(name: str) -> None:
    assert shown(name) == (STORED / f"{name}.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", SHOWN)
def test_images_are_as_stored(name: str) -> None:
    """Another version of the renderer may shade an edge otherwise, and no more than that."""
    pytest.importorskip("resvg_py", reason="resvg-py, which makes PNG images, is not installed")
    chops, image = (pytest.importorskip(f"PIL.{part}", reason="Pillow is not installed") for part in ("ImageChops", "Image"))
    made = image.open(io.BytesIO(png(shown(name), 240))).convert("RGB")
    stored = image.open(STORED / f"{name}.png").convert("RGB")
    assert made.size == stored.size == (240, 240)
    counts = chops.difference(made, stored).convert("L").histogram()
    assert sum(counts[64:]) < 0.005 * 240 * 240
    blank = image.new("RGB", stored.size, stored.getpixel((0, 0)))
    assert sum(chops.difference(blank, stored).convert("L").histogram()[64:]) > 0.05 * 240 * 240  # the comparison sees lines


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*/*.path"))[::6], ids=lambda path: path.stem)
def test_every_step_is_a_picture_without_text(path: Path) -> None:
    report = audit_file(path)
    if not report.steps:
        return
    pictures = dict(drawn(report, None, 100, "svg"))
    assert len(pictures) == len(report.steps)
    for step, svg in zip(report.steps, pictures.values()):
        root = ElementTree.fromstring(svg)
        assert root.get("width") == root.get("height") == "100"
        assert not root.findall(f".//{SVG}text")
        defined = {element.get("id") for element in root.findall(f"{SVG}defs/{SVG}g")}
        assert {f"#{name}" for name in defined} == {use.get("href") for use in root.iter(f"{SVG}use")}
        assert describe(step.board) in (root.findtext(f"{SVG}desc") or "")


def test_a_board_in_words() -> None:
    report = audit("grid: .23. .... ..4. .3.1\nsteps:\nr2c1 = 3 because hidden single in b1\n")
    assert describe(report.steps[0].board).startswith("Row 1: 1 or 4, 2, 3, 4. Row 2: 1 or 3 or 4, 1 or 4, 1 or 2, 2 or 4.")
    assert describe(report.steps[0].after).startswith("Row 1: 1 or 4, 2, 3, 4. Row 2: 3, 1 or 4,")
    assert report.steps[0].after.digit(Cell(2, 1)) == 3


def test_words_of_a_path_are_text_in_a_picture() -> None:
    report = audit("grid: .23. .... ..4. .3.1\nsteps:\nr2c1 = 3 </desc><script/> & \x0c\n")
    root = ElementTree.fromstring(picture(report, report.steps[0], 100))
    assert "</desc><script/> &" in (root.findtext(f"{SVG}desc") or "") and root.find(f".//{SVG}script") is None


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    done = subprocess.run([COMMAND, "picture", *arguments], capture_output=True, text=True, timeout=120, check=False)
    assert "Traceback" not in done.stderr
    return done


SMALL = str(EXAMPLES / "one-slip" / "true-but-unproved.path")


def test_one_picture(tmp_path: Path) -> None:
    done = run(SMALL, "--step", "1", "--size", "240")
    assert (done.returncode, done.stderr) == (0, "") and done.stdout == shown("unproved")
    assert run(SMALL, "--step", "1", "--size", "240", "--output", str(tmp_path / "a.svg")).returncode == 0
    assert (tmp_path / "a.svg").read_text() == done.stdout
    assert run(SMALL, "--step", "2", "--after", "--output", str(tmp_path)).returncode == 0
    assert (tmp_path / "step-02-after.svg").exists()


def test_all_pictures(tmp_path: Path) -> None:
    pytest.importorskip("resvg_py", reason="resvg-py, which makes PNG images, is not installed")
    assert run(SMALL, "--output", str(tmp_path), "--format", "png", "--size", "64").returncode == 0
    assert [path.name for path in sorted(tmp_path.iterdir())] == [f"step-{step:02}.png" for step in range(1, 13)]
    image = (tmp_path / "step-01.png").read_bytes()
    assert image.startswith(b"\x89PNG") and int.from_bytes(image[16:20]) == int.from_bytes(image[20:24]) == 64


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--step", "13"], "there is no step 13; the steps are counted from 1 to 12"),
        (["--step", "0"], "there is no step 0"),
        (["--step", "x"], "'x' is not a valid integer"),
        ([], "pictures of all steps go into a folder that is there"),
        (["--output", "none"], "pictures of all steps go into a folder that is there"),
        (["--step", "1", "--output", "none/x.svg"], "none/x.svg: No such file or directory"),
        (["--step", "1", "--output", "/dev/full"], "/dev/full: No space left on device"),
        (["--step", "1", "--size", "7"], "'--size'"),
    ],
)
def test_nothing_to_draw_and_nowhere_to_put_it(arguments: list[str], said: str) -> None:
    done = run(SMALL, *arguments)
    assert done.returncode == 2 and done.stdout == "" and said in done.stderr


def test_a_path_without_steps() -> None:
    for name in ("no-grid", "givens-clash"):
        done = run(str(EXAMPLES / "one-slip" / f"{name}.path"), "--step", "1")
        assert done.returncode == 2 and "no step was replayed" in done.stderr
    assert run("none.path", "--step", "1").stderr == "stepwarrant: none.path: No such file or directory\n"


def test_without_the_renderer_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "resvg_py", None)
    with pytest.raises(NoRenderer, match=r"pip install 'stepwarrant\[pictures\]'"):
        png(shown("unproved"), 64)


def test_a_good_picture_stays_where_a_new_one_cannot_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from stepwarrant.checker import deliver

    target = tmp_path / "a.png"
    target.write_bytes(b"good")

    def full(self: Path, other: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(OSError, match="No space left"):
        deliver.deliver(b"new", str(target))
    assert target.read_bytes() == b"good" and list(tmp_path.iterdir()) == [target]


if __name__ == "__main__":
    for name in SHOWN:
        (STORED / f"{name}.svg").write_text(shown(name), encoding="utf-8")
        (STORED / f"{name}.png").write_bytes(png(shown(name), 240))
