"""English about a grid to readings: the reader of narrations, whose parts are words, mentions, clauses and telling."""

from __future__ import annotations

from .clauses import taken_apart
from .passages import Transcript
from .reading import Heard, Narration
from .telling import Teller
from .vocabulary import Geometry
from .words import Script


def read_narration(transcript: Transcript, geometry: Geometry) -> Narration:
    """Every step told, with all its readings, and what each sentence is. Never raises for what the words say."""
    script = Script(transcript)
    teller = Teller(script, geometry)
    heard: dict[tuple[int, int], Heard] = {}
    for words in script.sentences():
        teller.tell(taken_apart(words, script, geometry))
        for word in words:
            if word.sounded is not None:
                meant = f"{heard[word.start, word.end].meant} {word.norm}" if (word.start, word.end) in heard else word.norm
                heard[word.start, word.end] = Heard(script.span(word.start, word.end), word.sounded, meant)
    teller.finish()
    return Narration(tuple(teller.readings), tuple(teller.kinds), tuple(heard.values()))
