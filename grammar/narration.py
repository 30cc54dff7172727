"""English about a grid to readings: the reader of narrations, whose parts are words, mentions, clauses and telling."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import Any

from .clauses import REASONS, REMOVALS, Sentence, taken_apart
from .gathering import Gatherer
from .passages import Transcript
from .reading import Heard, Narration, Passed, Reading
from .statements import Mentioned
from .telling import Teller
from .vocabulary import Geometry
from .words import Script, Word

OPENED, CLOSED = "\N{LEFT DOUBLE QUOTATION MARK}", "\N{RIGHT DOUBLE QUOTATION MARK}"
QUOTATION = re.compile(f"{OPENED}(?:(?!\n\n)[^{OPENED}{CLOSED}])*{CLOSED}")
"""Somebody's words, which are carried along as talk."""
MEANT = re.compile(
    f'["{OPENED}](?:row|column|box|[rcb]\\d)[^"{OPENED}{CLOSED}\n]{{0,60}}["{CLOSED}]\\s*(?:means|stands for|is read|reads)\\b',
    re.I,
)
"""A quoted name of a place whose meaning is told, which claims nothing; ``The "naked pair" means ...`` may claim."""


def read_narration(transcript: Transcript, geometry: Geometry) -> Narration:
    """Every step told, with all its readings, and what each sentence is. Never raises for what the words say."""
    script = Script(transcript)
    teller = Teller(script, geometry)
    heard: dict[tuple[int, int], Heard] = {}
    quoted = _quoted(script)
    for words in script.sentences():
        if quoted(words):
            teller.overhear(words)
            continue
        teller.tell(taken_apart(words, script, geometry, teller.memory.about, teller.memory.cell))
        for word in words:
            if word.sounded is not None:
                meant = f"{heard[word.start, word.end].meant} {word.norm}" if (word.start, word.end) in heard else word.norm
                heard[word.start, word.end] = Heard(script.span(word.start, word.end), word.sounded, meant)
    teller.finish()
    readings = (_placed(reading, teller) for reading in teller.readings)
    gatherer = Gatherer(script, teller.sentences, teller.words, geometry)
    return Narration(tuple(readings), tuple(teller.kinds), tuple(heard.values()), tuple(_passed(teller)), gatherer)


def _quoted(script: Script) -> Callable[[tuple[Word, ...]], bool]:
    """Does a sentence stand in quotation marks, whole, or say what words in them mean?

    Where they are around everything, that tells nothing.
    """
    spans = [match.span() for match in QUOTATION.finditer(script.text)]
    if not QUOTATION.sub("", script.text).strip():
        spans = []
    starts = [start for start, _ in spans]
    meant = [match.start() for match in MEANT.finditer(script.text)]

    def quoted(words: tuple[Word, ...]) -> bool:
        if not words:
            return False
        if bisect_right(meant, words[-1].end) > bisect_right(meant, words[0].start - 1):
            return True
        at = bisect_right(starts, words[0].start) - 1
        return at >= 0 and words[-1].end <= spans[at][1]

    return quoted


def _placed(reading: Reading, teller: Teller) -> Reading:
    """The reading with what its sentences name, and where they stand."""
    words = [teller.words[number] for number in reading.sentences]
    mentioned = _mentioned(teller.sentences[number] for number in reading.sentences)
    return replace(reading, mentioned=mentioned, extent=(words[0][0], max(end for _, end in words)))


def _mentioned(sentences: Iterable[Sentence]) -> Mentioned:
    named: dict[str, set[Any]] = {"cells": set(), "houses": set(), "digits": set()}
    for sentence in sentences:
        for clause in sentence.clauses:
            for kind, values in named.items():
                values.update(clause.values(kind))
    return Mentioned(*map(frozenset, named.values()))


def _passed(teller: Teller) -> Iterator[Passed]:
    for number, (kind, sentence) in enumerate(zip(teller.kinds, teller.sentences)):
        # A question claims nothing; what the board shows already is said again.
        told = [clause for clause in sentence.clauses if clause.names and not clause.has("ALREADY")]
        claims = any(clause.has(*REASONS, *REMOVALS, "PLACE", "FORCE") for clause in told)
        if kind == "talk" and claims and not sentence.asked:
            start, end = teller.words[number]
            text = teller.script.text[start:end].replace("\n", " ")
            time = teller.script.passage(start).time
            yield Passed(number, teller.script.span(start, end), text, time, _mentioned([sentence]))
