"""Pieces of talk set as prose or as captions, with the place of every step."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from random import Random
from typing import NamedTuple


class Piece(NamedTuple):
    """Words in one go. ``step``: whose they are, counted from 0; None for talk. ``opens``: a paragraph begins here."""

    text: str
    step: int | None = None
    opens: bool = False


@dataclass(frozen=True)
class Place:
    """Where a step stands. Lines and columns from 1; ``end`` is the column after its last word."""

    first: int
    column: int
    last: int
    end: int

    def within(self, line: int, column: int) -> bool:
        """Does that place lie in this one?"""
        return (self.first, self.column) <= (line, column) < (self.last, self.end)


Laid = tuple[str, dict[int, Place]]
"""The text and the place of each step."""


class _Page:
    """Lines being filled, and the places of the steps' words."""

    def __init__(self) -> None:
        self.lines: list[str] = []
        self.places: dict[int, Place] = {}

    def word(self, word: str, step: int | None) -> None:
        """Set a word on the last line."""
        gap = " " if self.lines[-1] and not self.lines[-1].endswith(" ") else ""
        column = len(self.lines[-1]) + len(gap) + 1
        self.lines[-1] += gap + word
        if step is not None:
            begun = self.places.get(step)
            at = (begun.first, begun.column) if begun else (len(self.lines), column)
            self.places[step] = Place(*at, len(self.lines), column + len(word))


def prose(pieces: Iterable[Piece], width: int | None, heads: Iterator[str], head: str = "") -> Laid:
    """Paragraphs. ``width``: lines are broken there; ``heads``: what stands before each paragraph; ``head``: atop the page."""
    page = _Page()
    page.lines += head.splitlines()
    for piece in pieces:
        if piece.opens or not page.lines:
            page.lines += ["", next(heads)] if page.lines else [next(heads)]
        for word in piece.text.split():
            if width and len(page.lines[-1]) + 1 + len(word) > width and page.lines[-1].strip():
                page.lines.append("")
            page.word(word, piece.step)
    return "\n".join(page.lines) + "\n", page.places


@dataclass(frozen=True)
class Captioned:
    """How captions are cut. ``breath``: how often a cue ends with its sentence. ``rate``: words a second."""

    vtt: bool
    width: int = 38
    rows: int = 2
    breath: float = 0.3
    rate: float = 2.7
    voice: str = ""
    numbered: bool = False


def captions(pieces: Iterable[Piece], cut: Captioned, rng: Random) -> Laid:
    """SubRip or WebVTT; sentences run on from cue to cue."""
    page = _Page()
    if cut.vtt:
        page.lines += ["WEBVTT" + rng.choice(("", " - The Lamp Room")), ""]
    clock = rng.uniform(0.2, 3)
    for number, words in enumerate(_cues(pieces, cut, rng), 1):
        length = max(0.8, len(words) / cut.rate)
        if not cut.vtt or cut.numbered:
            page.lines.append(str(number))
        page.lines.append(f"{_clock(clock, cut.vtt)} --> {_clock(clock + length, cut.vtt)}")
        page.lines.append(cut.voice)
        for word, step in words:
            if len(page.lines[-1]) + 1 + len(word) > cut.width + len(cut.voice):
                page.lines.append("")
            page.word(word, step)
        page.lines.append("")
        clock += length + (rng.uniform(0.3, 4) if rng.random() < 0.2 else 0.04)
    return "\n".join(page.lines), page.places


def _cues(pieces: Iterable[Piece], cut: Captioned, rng: Random) -> Iterator[list[tuple[str, int | None]]]:
    cue: list[tuple[str, int | None]] = []
    rows, used = 1, 0
    for piece in pieces:
        for word in piece.text.split():
            if used and used + 1 + len(word) > cut.width:
                rows, used = rows + 1, 0
            if rows > cut.rows:
                yield cue
                cue, rows = [], 1
            cue.append((word, piece.step))
            used += len(word) + (1 if used else 0)
            if word[-1] in ".?!" and rng.random() < cut.breath:
                yield cue
                cue, rows, used = [], 1, 0
    if cue:
        yield cue


def _clock(seconds: float, vtt: bool) -> str:
    thousandths = round(seconds * 1000)
    minutes, rest = divmod(thousandths, 60000)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{rest // 1000:02}{'.' if vtt else ','}{rest % 1000:03}"
