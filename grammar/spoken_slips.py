"""Every telling that differs from a given one by one word told wrong: a number, an ordinal, a row and column swapped, a name.

Each change keeps to the narrator's own way of saying it: ``fifth`` for ``fourth``, ``the 7s`` for ``the 6s``, ``r4c7`` for
``r4c8``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from .slips import Edit
from .words import NUMBERS, ORDINALS, PLURALS, Word

WORDS_OF = {kind: {value: word for word, value in words.items()} for kind, words in
            (("NUM", NUMBERS), ("ORD", ORDINALS), ("PLU", PLURALS))}  # fmt: skip
HOUSE_WORDS = ({"row": "row", "column": "column", "box": "box"}, {"row": "rows", "column": "columns", "box": "boxes"})
PLACES = (("top", "middle", "bottom"), ("left", "middle", "right"))
NAMES = (
    ("naked", "hidden"),
    ("pair", "triple", "quad"),
    ("pairs", "triples", "quads"),
    ("x-wing", "swordfish", "jellyfish"),
)
ARTICLE = re.compile(r"\b([Aa])(n?)(\s+)$")
VOWEL = re.compile(r"8|11|18|eigh|ele", re.I)


def spoken_edits(text: str, words: Sequence[Word], size: int) -> Iterator[Edit]:
    """The changes of one word. Columns are places in the text, from 1. ``words``: those of the text, in order."""
    for at, word in enumerate(words):
        if at and word.start == words[at - 1].start:
            continue  # the second half of "isn't"
        before = words[at - 1].kind if at else ""
        # "column 3, column 7" names no cell: in a cell's name the kinds of house are no slip.
        around = (other.kind for other in (*words[max(0, at - 4) : at], *words[at + 1 : at + 5]))
        in_cell = word.kind in ("ROW", "COL", "ROWS", "COLS") and any(kind[:3] in ("ROW", "COL") for kind in around)
        if not in_cell:
            yield from (_with_article(text, edit) for edit in _word(text, word, before, size))
    yield from _swapped(text, words)
    yield from _names(text, words)


def _word(text: str, word: Word, before: str, size: int) -> Iterator[Edit]:
    said = text[word.start : word.end]
    if word.kind in ("RC", "PAIR", "RX", "CX", "BX"):
        yield from _figures(said, word, size, "house" if word.kind.endswith("X") else "cell")
    elif word.kind == "NUM" and said.isdigit():
        yield from _figures(said, word, size, _part(before))
    elif word.kind == "PLU" and said[0].isdigit():
        yield from _figures(said, word, size, "digit")
    elif word.kind == "ORD" and said[0].isdigit():
        for other in range(1, size + 1):
            if other != word.value:
                ending = {1: "st", 2: "nd", 3: "rd"}.get(other, "th")
                yield _edit(word, f"{other}{ending}", "cell", abs(other - word.value))
    elif word.kind in WORDS_OF:
        spelt = WORDS_OF[word.kind]
        kind = _part(before) if word.kind == "NUM" else "cell" if word.kind == "ORD" else "digit"
        for other in range(1, size + 1):
            if other != word.value and other in spelt:
                yield _edit(word, _as(said, spelt[other]), kind, abs(other - word.value))
    elif word.kind in ("ROW", "COL", "BOX", "ROWS", "COLS", "BOXES"):
        spelt_kinds = HOUSE_WORDS[word.kind.endswith("S")]
        for noun in spelt_kinds.values():
            if noun[:3] != word.norm[:3]:
                yield _edit(word, _as(said, noun), "house-kind")
    elif word.kind in ("V", "H", "M"):
        for places in PLACES:
            if word.norm in places:
                yield from (_edit(word, _as(said, other), "house") for other in places if other != word.norm)


def _part(before: str) -> str:
    """What a number stands for after such a word."""
    if before in ("ROW", "COL"):
        return "cell"
    return "house" if before in ("BOX", "ROWS", "COLS", "BOXES") else "digit"


def _figures(said: str, word: Word, size: int, kind: str) -> Iterator[Edit]:
    """Each figure of the word replaced by every other one of the board."""
    for at, figure in enumerate(said):
        for other in range(1, size + 1) if figure.isdigit() else ():
            if str(other) != figure and other < 10:
                yield _edit(word, f"{said[:at]}{other}{said[at + 1 :]}", kind, abs(other - int(figure)))
    numbers = re.findall(r"\d+", said)
    if kind == "cell" and len(numbers) == 2 and numbers[0] != numbers[1]:
        first, second = numbers
        swapped = re.sub(r"\d+", lambda match: second if match.start() == said.index(first) else first, said)
        yield _edit(word, swapped, "swapped")


def _swapped(text: str, words: Sequence[Word]) -> Iterator[Edit]:
    """``row 4, column 7`` and ``the fourth row and seventh column`` with their numbers exchanged."""
    lines, numbers = ("ROW", "COL"), ("NUM", "ORD")
    for at in range(len(words) - 3):
        run = [word for word in words[at : at + 7] if word.kind not in ("COMMA", "AND", "THE", "OF")][:4]
        if len(run) < 4:
            continue
        kinds = [word.kind for word in run]
        one, other = (run[1], run[3]) if kinds[0] in lines and kinds[1] in numbers else (run[0], run[2])
        named = {run[0].kind, run[2].kind} if one is run[1] else {run[1].kind, run[3].kind}
        same = one.kind == other.kind and one.kind in numbers and one.value != other.value
        if named == set(lines) and same and words[at] is run[0]:
            first, second = text[one.start : one.end], text[other.start : other.end]
            between = text[one.end : other.start]
            yield Edit(one.start + 1, other.end + 1, f"{_as(first, second)}{between}{_as(second, first)}", "swapped")


def _names(text: str, words: Sequence[Word]) -> Iterator[Edit]:
    if not words:
        return
    for names in NAMES:
        for far, name in enumerate(names):
            pattern = rf"\b{name}\b".replace("-", "[- ]?")
            for match in re.finditer(pattern, text[words[0].start :], re.I):
                start, end = match.start() + words[0].start, match.end() + words[0].start
                for other_far, other in enumerate(names):
                    if other != name:
                        edit = Edit(start + 1, end + 1, _as(match[0], other), "name", abs(other_far - far))
                        yield _with_article(text, edit)


def _edit(word: Word, text: str, kind: str, far: int = 0) -> Edit:
    return Edit(word.start + 1, word.end + 1, text, kind, far)


def _as(said: str, other: str) -> str:
    """The other word, with a capital where this one has one."""
    return other[:1].upper() + other[1:] if said[:1].isupper() else other


def _with_article(text: str, edit: Edit) -> Edit:
    """``an eight`` becomes ``a seven``."""
    article = ARTICLE.search(text[: edit.column - 1])
    needed = "n" if VOWEL.match(edit.text) or edit.text.lower().startswith("x-") else ""
    if article is None or article[2] == needed:
        return edit
    return edit._replace(column=article.start() + 1, text=f"{article[1]}{needed}{article[3]}{edit.text}")
