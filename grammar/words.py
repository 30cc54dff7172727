"""The words of a narration, normalised: numbers, ordinals, house words and cells in every spelling, each with its place.

One written word may stand for several (``isn't`` is ``is not``); they share its place.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from .parting import sentences
from .passages import Passage, Transcript
from .sounds import FILLERS, LETTERS, RANGES, STUTTERED, heard_as, is_number, names_house, owned
from .statements import Span

NUMBERS = dict(zip("one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen".split(),
                   range(1, 17)))  # fmt: skip
PLURALS = {"ones": 1, "twos": 2, "threes": 3, "fours": 4, "fives": 5, "sixes": 6, "sevens": 7, "eights": 8, "nines": 9}
ORDINALS = dict(
    zip(
        "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth "
        "sixteenth".split(),
        range(1, 17),
    )
)

CONTRACTIONS = {
    "can't": "cannot", "cant": "cannot", "couldn't": "cannot", "won't": "will not", "wont": "will not", "let's": "let us",
    "lets": "let us", "ain't": "is not", "shan't": "will not",
}  # fmt: skip
ENDINGS = {"n't": "not", "'re": "are", "'ve": "have", "'ll": "will", "'d": "would", "'m": "am"}
BARE = {
    "isnt": "is not", "arent": "are not", "doesnt": "does not", "dont": "do not", "didnt": "did not", "wouldnt": "would not",
    "thats": "that is", "theres": "there is", "whats": "what is", "wheres": "where is", "heres": "here is", "hasnt": "has not",
    "theyre": "they are", "youre": "you are", "ive": "i have", "weve": "we have", "wasnt": "was not", "havent": "have not",
}  # fmt: skip
"""Contractions without their apostrophe, as speech recognition and hasty writers leave them."""

KINDS: dict[str, str] = {}
"""The part that a word plays in naming cells, houses and digits; words that play none are not in it."""
for _kind, _words in {
    "ROW": "row",
    "ROWS": "rows",
    "COL": "column col",
    "COLS": "columns cols",
    "BOX": "box block nonet region",
    "BOXES": "boxes blocks nonets regions",
    "BAND": "band stack",
    "CELLW": "cell cells square squares",
    "V": "top bottom upper lower topmost bottommost uppermost lowermost",
    "H": "left right leftmost rightmost left-hand right-hand lefthand righthand",
    "M": "middle center central centre middlemost mid centermost",
    "OF": "of in within inside along down across",
    "ON": "on at",
    "AND": "and or & + plus nor",
    "THE": "the a an both all",
    "LAST": "last final",
    "SAME": "same",
    "POSS": "'s",
    "WHERE": "where",
    "CROSS": "crosses meets intersects cuts crossing meeting intersecting",
    "COMMA": ",",
    "LP": "(",
    "RP": ")",
}.items():
    KINDS.update(dict.fromkeys(_words.split(), _kind))

COUNTED = (
    "cells squares places spots positions candidates options possibilities homes notes digits numbers rows columns boxes "
    "houses lines ways choices values blocks cell square place spot position candidate option possibility home digit "
    "number way choice value wings pincers ends links gaps gap them these those things empty open remaining left corners "
    "fins marks times steps step moves move sides house units holes hole blank blanks of regions more missing thing ones "
    "singles pairs pair triple triples quad quads after by berth berths seat seats slot slots vacancy vacancies spaces space"
).split()
"""After a number word, these make it a count: ``two cells``, ``only one place``."""
BETWEEN = (
    "other possible remaining open empty such more different free last unsolved only single missing base cover pencil "
    "highlighted candidate end outer consecutive neighbouring neighboring adjacent green yellow red blue coloured"
).split()
HOUSES = ("ROW", "COL", "BOX", "ROWS", "COLS", "BOXES")
POINTING = ("this that each which every any single another some last next only other these those first second third").split()
"""Before ``one`` and ``ones``, these make it a pronoun."""
PRONOUN_AFTER = (
    "except save bar for see sees seeing need needs has have just but than to it at by as from exactly about contain contains "
    "had got want wants without"
).split()
"""Right after these, ``one`` stands for something named before: "the box needs one"."""
NO_NOUNS = set(
    "goes fits sits does works lands lives takes sees makes stands comes falls remains belongs appears needs leaves gets lies "
    "also plus across thus this less these those always perhaps besides whereas unless towards drops loses occurs vanishes "
    "disappears finds turns settles follows becomes gives pins solves completes finishes fills closes clears removes strikes "
    "rules eliminates kills clashes shares forms holds keeps points claims misses exists stays wins blocks excludes ends "
    "occupies appears arrives rests hides".split()
)
"""Words in -s that are no nouns: a number before any other one counts what it names."""
LABELS = (
    "step steps part puzzle episode chapter stage move figure level grid entry entries item section paragraph page exercise "
    "phase round lesson day night act scene diagram picture"
).split()
OF_SEVERAL = "belong see share form make have are sit lie stand agree".split()
"""After ``the two``, these are said of several: a digit ``belongs``."""
FILLED = ("there", "filled", "placed", "known", "in", "done", "given")
"""After ``eight are``, these make it a count of digits."""
SKIPPED = ("number", "hand", "corner", "numbered", "no")
"""Words inside a name that add nothing: ``row number four``, ``the top left corner box``."""

LISTING = ("are", "being", "namely", "numbered", ":")
"""Words between a house word in the plural and the numbers that it is told of."""

FIGURES = 10
"""Digits written as figures from which on it is a habit, if hardly one of so many is spelt."""

CHARTED = {"across": "COL", "down": "ROW"}
"""Words after the number of a column and that of a row, as on a chart."""

CLIPPED = 6
"""Cells named as ``row four seven`` from which on it is a habit, if more than one in so many is named so."""

TOKEN = re.compile(
    r"""(?P<rc>[rR]\s?\d{1,9}\s?,?\s?[cC]\s?\d{1,9}(?![\w]))
      | (?P<cr>[cC]\d{1,9}\s?,?\s?[rR]\d{1,9}(?![\w]))
      | (?P<pair>\(\s*\d{1,2}\s*,\s*\d{1,2}\s*\))
      | (?P<house>[rRcCbB]\d{1,2}(?![\w]))
      | (?P<clock>\d+:\d\d(:\d\d)?)
      | (?P<ordinal>\d+(?:st|nd|rd|th)\b)
      | (?P<plural>\d{1,2}['\u2019]?s\b)
      | (?P<numeral>\d+)
      | (?P<word>[^\W\d_]+(?:['\u2019][^\W\d_]+)*)
      | (?P<stop>[.!?\u2026]+)
      | (?P<arrow>[-=\u2013\u2014]+>|\u2192|\u21d2)
      | (?P<mark>[,;:()&+=/\u2260]|[\u2013\u2014-]+)""",
    re.X,
)


@dataclass(frozen=True)
class Word:
    """One normalised word. ``kind``: its part in naming things (a key of the phrase grammar), or ``W``. ``value``: its number.

    ``start``, ``end``: in the script's text. ``sounded``: what was written, where the word was taken by sound.
    """

    norm: str
    kind: str
    start: int
    end: int
    value: int = 0
    values: tuple[int, ...] = ()
    sounded: str | None = None


class Script:
    """A transcript as one text, with the way back to lines, columns, times and cues."""

    def __init__(self, transcript: Transcript) -> None:
        self.passages = transcript.passages
        self._starts: list[int] = []
        parts: list[str] = []
        at = 0
        for passage in transcript.passages:
            gap = "\n\n" if passage.opens and parts else "\n" if parts else ""
            at += len(gap)
            parts += [gap, passage.text]
            self._starts.append(at)
            at += len(passage.text)
        self.text = "".join(parts)

    @cached_property
    def columns_first(self) -> bool:
        """Does the narrator name a cell's column before its row?"""
        column, row = r"c(?:ol(?:umn)?)?s?\.?[ -]?\w+", r"r(?:ow)?s?\.?[ -]?\w+"
        first = re.findall(rf"\b{column},? ?{row}\b", self.text, re.I)
        return len(first) > len(re.findall(rf"\b{row},? ?{column}\b", self.text, re.I))

    def passage(self, offset: int) -> Passage:
        """The passage that holds the character."""
        return self.passages[max(0, bisect_right(self._starts, offset) - 1)]

    def span(self, start: int, end: int) -> Span:
        """The place of a stretch; of one that runs over several lines, the part on the first."""
        at = max(0, bisect_right(self._starts, start) - 1)
        passage, begin = self.passages[at], self._starts[at]
        end = min(end, begin + len(passage.text))
        column = passage.column + start - begin
        return Span(passage.line, column, max(column + 1, passage.column + end - begin))

    def opens_at(self, offset: int) -> bool:
        """Does a paragraph begin there?"""
        at = max(0, bisect_right(self._starts, offset) - 1)
        return self.passages[at].opens and not self.text[self._starts[at] : offset].strip()

    def sentences(self) -> Iterator[tuple[Word, ...]]:
        """The words, sentence by sentence, as the punctuation and the paragraphs part them."""
        if not self.punctuated:
            yield from self._unpunctuated()
            return
        words: list[Word] = []
        end = 0
        for match in TOKEN.finditer(self.text):
            if words and "\n\n" in self.text[end : match.start()]:
                yield self._sorted_out(words)
                words = []
            end = match.end()
            if match.lastgroup == "stop":
                if words and not self._abbreviated(match, words):
                    yield self._sorted_out(words, match.group().startswith("?"))
                    words = []
                continue
            words += _normalised(match, words[-1].norm if words else "")
        if words:
            yield self._sorted_out(words)

    def _sorted_out(self, words: list[Word], asked: bool = False) -> tuple[Word, ...]:
        words = [*self._in_full(words)]
        return sorted_out([*_only_counted(words)] if self.in_figures else words, asked)

    @cached_property
    def clipped(self) -> bool:
        """Does the narrator name cells as ``row four seven``? Who does not may mean the sevens of row four."""
        number = rf"(?:[1-9]|{'|'.join(name for name, value in NUMBERS.items() if value < 10)})"
        short = len(re.findall(rf"\b{self.lines_named[0]} {number} {number}\b", self.text, re.I))
        full = len(re.findall(rf"\b{self.lines_named[0]} {number},? {self.lines_named[1]}\b", self.text, re.I))
        return short >= CLIPPED and short * CLIPPED > full

    @property
    def lines_named(self) -> tuple[str, str]:
        """The words for the two lines of a cell, in the narrator's order."""
        return ("column", "row") if self.columns_first else ("row", "column")

    def _in_full(self, words: Sequence[Word]) -> Iterator[Word]:
        """``row four seven`` as ``row four column seven``; not ``in row four seven can only go in column one``."""
        first, second = (("COL", "ROW") if self.columns_first else ("ROW", "COL")) if self.clipped else ("", "")
        for at, word in enumerate(words):
            cell = [other.kind for other in words[max(0, at - 2) : at + 1]] == [first, "NUM", "NUM"]
            if cell and {"go", "goes", "fit", "fits"}.isdisjoint(other.norm for other in words[at + 1 : at + 4]):
                yield Word(self.lines_named[1], second, word.start, word.start)
            yield word

    @cached_property
    def in_figures(self) -> bool:
        """Does the narrator write every digit as a figure? Then ``r2c4 can't be one`` and ``the other two`` name none."""
        told = r"(?:a|an|the|is|are|be|no|its|of|has|for|on|with|by|only|just)"
        figures = re.findall(rf"\b{told} [1-9](?:'?s)?\b", self.text, re.I)
        counted = (
            r"(?! (?:\w+ )?(?:cells|squares|gaps|places|spots|boxes|rows|columns|lines|digits|numbers|candidates|of|others?)\b)"
        )
        spelt = re.findall(
            rf"\b(?:a|an|the|is|be|its|no) (?:three|four|five|six|seven|eight|nine)s?\b{counted}", self.text, re.I
        )
        return len(figures) >= FIGURES and len(spelt) * FIGURES <= len(figures)

    @cached_property
    def punctuated(self) -> bool:
        """Do sentences end as written ones do? Speech recognition knows no full stops, and no semicolons."""
        return len(re.findall(r"[.!?\u2026;][\u2019\u201d\"')]*(?!\S)", self.text)) * 60 >= len(self.text.split())

    def _unpunctuated(self) -> Iterator[tuple[Word, ...]]:
        """Sentences of speech without punctuation: a word that opens one parts it from the last."""
        words: list[Word] = []
        for match in TOKEN.finditer(self.text):
            if match.lastgroup != "stop":
                words += _normalised(match, words[-1].norm if words else "")
        words = list(_sided(list(self._in_full([*heard([*_contracted([*_untagged(words)])])]))))
        begins = [*self._cell_begins(words)]
        begun = 0
        for begin, end, asked in sentences([word.norm for word in words], [word.kind for word in words]):
            begin = begun or begin
            inside = begins[bisect_right(begins, begin) : bisect_left(begins, end)]
            begun = inside.pop() if inside[-1:] == [end - 2] else 0  # the sentence was parted within the cell
            for cut in inside:
                yield sorted_out(words[begin:cut])
                begin = cut
            yield sorted_out(words[begin : begun or end], asked)

    def _cell_begins(self, words: Sequence[Word]) -> Iterator[int]:
        """Where a cell follows on a line of something else: ``the only place is row five | column two row four is a six``.

        In speech only the narrator's own way tells that the first two are no cell: the column comes first, or the row does.
        """
        first, second = ("COL", "ROW") if self.columns_first else ("ROW", "COL")
        kinds = [word.kind for word in words]
        for at in range(2, len(kinds) - 3):
            apart = kinds[at - 2 : at + 4] == [second, "NUM", first, "NUM", second, "NUM"]
            # "... a three over in column seven | row five has one": of a cell that is seldom said
            has = kinds[at - 2 : at + 2] == [second, "NUM", first, "NUM"] and words[at + 2].norm in OF_A_LINE
            apart = apart or (has and kinds[max(0, at - 3)] in ("OF", "ON"))
            if apart and kinds[max(0, at - 4) : at - 2] != [first, "NUM"]:
                yield at

    def _abbreviated(self, stop: re.Match[str], words: Sequence[Word]) -> bool:
        """Is the full stop that of ``col. 3``?"""
        return (stop.group() == "." and words[-1].norm in ("col", "cols", "no", "vs", "eg", "ie")) or (
            stop.group() == "." and self.text[stop.end() : stop.end() + 1].isalnum() and words[-1].kind == "NUM"
        )


def _normalised(match: re.Match[str], before: str = "") -> Iterator[Word]:
    text, start, end = match.group(), match.start(), match.end()
    group = match.lastgroup or ""
    if before in ("this", "that") and text.lower().replace("\u2019", "'") == "one's":
        yield _word("one", start, end)
        yield _word("is", start, end)
        return
    if group in ("rc", "cr"):
        first, second = map(int, re.findall(r"\d+", text))
        yield Word(text.lower(), "RC", start, end, values=(first, second) if group == "rc" else (second, first))
    elif group == "pair":
        row, column = map(int, re.findall(r"\d+", text))
        yield Word(text, "PAIR", start, end, values=(row, column))
    elif group == "house":
        yield Word(text.lower(), text[0].upper() + "X", start, end, int(text[1:]))
    elif group == "clock":
        yield Word(text, "W", start, end)
    elif group == "ordinal":
        yield Word(text.lower(), "ORD", start, end, int(re.sub(r"\D", "", text)))
    elif group == "plural":
        yield Word(text, "PLU", start, end, int(re.sub(r"\D", "", text)))
    elif group == "numeral":
        value = int(text)
        yield Word(text, "NUM", start, end, value, tuple(map(int, text)))
    elif group == "arrow":
        yield Word("->", "W", start, end)
    elif group == "mark":
        norm = {"/": "+", "&": "and", "\u2260": "not", "=": "is"}.get(text, text)
        if set(text) <= set("\u2013\u2014-"):
            norm = "-" if text == "-" else ";"
        yield Word(norm, KINDS.get(norm, "W"), start, end)
    else:
        yield from _plain(text.lower().replace("\u2019", "'"), start, end)


def _plain(text: str, start: int, end: int) -> Iterator[Word]:
    if text in CONTRACTIONS or text in BARE:
        spelt = CONTRACTIONS.get(text) or BARE[text]
    elif "'" in text:
        head, _, tail = text.rpartition("'")
        if text.endswith("n't"):
            spelt = text[:-3] + " not"
        elif f"'{tail}" in ENDINGS:
            spelt = f"{head} {ENDINGS[f'{chr(39)}{tail}']}"
        elif tail == "s" and head in NUMBERS:
            spelt = head + "s" if head != "six" else "sixes"
        elif tail == "s" and KINDS.get(head) in ("ROW", "COL", "BOX"):
            spelt = f"{head} 's"
        elif tail == "s" and KINDS.get(head) == "CELLW":
            spelt = head
        elif tail == "s":
            spelt = f"{head} is"
        else:
            spelt = text
    else:
        spelt = text
    for norm in spelt.split():
        yield _word(norm, start, end)


def _word(norm: str, start: int, end: int) -> Word:
    if norm in NUMBERS:
        return Word(norm, "NUM", start, end, NUMBERS[norm], (NUMBERS[norm],))
    if norm in PLURALS:
        return Word(norm, "PLU", start, end, PLURALS[norm])
    if norm in ORDINALS:
        return Word(norm, "ORD", start, end, ORDINALS[norm])
    return Word(norm, KINDS.get(norm, "W"), start, end)


def _held(words: Sequence[Word]) -> Iterator[Word]:
    """``r3c8 (2, 9)``: right after a cell's name two figures in brackets are its digits, and no other cell."""
    for at, word in enumerate(words):
        before = [other.kind for other in words[max(0, at - 2) : at]]
        cell = before[-1:] == ["RC"] or before in (["ROW", "NUM"], ["COL", "NUM"])
        if word.kind != "PAIR" or not cell or not word.norm.startswith("("):
            yield word
            continue
        figures = [*re.finditer(r"\d+", word.norm)]
        for number, (figure, value) in enumerate(zip(figures, word.values, strict=True)):
            start = word.start + figure.start()
            mark, kind = (",", "COMMA") if number else ("(", "LP")
            yield replace(word, norm=mark, kind=kind, start=start - 1, end=start, values=())
            end = start + len(figure.group())
            yield replace(word, norm=figure.group(), kind="NUM", start=start, end=end, value=value, values=(value,))
        yield replace(word, norm=")", kind="RP", start=word.end - 1, values=())


def _reason_why(words: Sequence[Word]) -> Sequence[Word]:
    """``The reason why r1c1 can't be 3 is that ...``: an effect, and because of what."""
    norms = [word.norm for word in words]
    at = next((at for at, pair in enumerate(pairwise(norms)) if pair == ("is", "that")), 0)
    if norms[:3] != ["the", "reason", "why"] or at < 5:
        return words
    return [*words[3:at], replace(words[at], norm="because", kind="W", end=words[at + 1].end), *words[at + 2 :]]


def _supposing(words: Sequence[Word]) -> Sequence[Word]:
    """``Without 2 at r1c5: r1c5 = 7, ...``, ``With 3 at r5c6: ...``: what stands before such a colon is supposed."""
    norms = [word.norm for word in words[:14]]
    begins = norms[:1] in (["with"], ["without"]) and [word.kind for word in words[1:2]] == ["NUM"]
    if not begins or norms[2:3] not in (["at"], ["in"]) or ":" not in norms or "," in norms[: norms.index(":")]:
        return words
    return [replace(words[0], norm="if", kind="W"), *words[norms[0] == "with" :]]


def _serial(words: Sequence[Word]) -> Iterator[Word]:
    """``puzzle, number 12``: which one it is of many, and no digit."""
    for at, word in enumerate(words):
        before = [other.norm for other in words[max(0, at - 3) : at] if other.kind not in ("COMMA", "THE")]
        yield replace(word, kind="W") if word.kind == "NUM" and before[-1:] == ["number"] and before[-2:-1] in SERIES else word


SERIES = [[noun] for noun in (*LABELS, "walkthrough", "issue", "week", "sheet", "solution")]


def _last_listed(words: Sequence[Word]) -> Iterator[Word]:
    """``the first, fourth and last cells``: after others of a line it is the ninth, not the last that is empty."""
    for at, word in enumerate(words):
        before = [other.kind for other in words[max(0, at - 3) : at] if other.kind not in ("AND", "COMMA", "THE")]
        listed = at > 0 and words[at - 1].kind in ("AND", "COMMA", "THE") and before[-1:] == ["ORD"]
        several = [other.norm for other in words[at + 1 : at + 2]] in (["cells"], ["squares"], ["rows"], ["columns"], ["boxes"])
        yield replace(word, kind="ORD", value=-1) if word.norm == "last" and listed and several else word


def _charted(words: Sequence[Word]) -> Iterator[Word]:
    """``4 across, 7 down``, ``4, 5 and 6 across, 7 down``: column 4, row 7, and columns 4 to 6 in that row."""
    heads: dict[int, str] = {}
    ends: set[int] = set()
    for at, word in enumerate(words):
        first = _numbers_before(words, at) if word.norm in CHARTED else at
        last = next((n for n in range(at + 1, len(words)) if words[n].norm in CHARTED), at)
        second = _numbers_before(words, last)
        apart = [other.kind for other in words[at + 1 : second]]
        if first < at < second < last and word.norm != words[last].norm and apart in ([], ["COMMA"], ["AND"]):
            for begin, end in ((first, at), (second, last)):
                heads[begin] = CHARTED[words[end].norm] + ("S" if end - begin > 1 else "")
                ends.add(end)
    for at, word in enumerate(words):
        if at in heads:
            yield Word({"C": "column", "R": "row"}[heads[at][0]], heads[at], word.start, word.start)
        if at not in ends:
            yield replace(word, end=words[at + 1].end) if at + 1 in ends else word


def _numbers_before(words: Sequence[Word], end: int) -> int:
    """Where the number begins that stands there, or the numbers with an ``and`` or a ``to``; the end itself where none does."""
    kinds = ["TO" if word.norm in ("to", "through") else word.kind for word in words[:end]]
    start = end
    while start and kinds[start - 1] == "NUM":
        start -= 1
        joint = start
        while joint and kinds[joint - 1] in ("AND", "COMMA", "TO"):
            joint -= 1
        if joint == start or not joint or kinds[joint - 1] != "NUM" or {"AND", "TO"}.isdisjoint(kinds[joint : end - 1]):
            break
        start = joint
    return start


def _ranged(words: Sequence[Word]) -> Iterator[Word]:
    """``columns 4 to 6`` as what they are: columns 4, 5 and 6."""
    for at, word in enumerate(words):
        before, after = words[max(0, at - 2) : at], words[at + 1 : at + 2]
        kinds = [other.kind for other in (*before, *after)]
        through = word.norm in ("to", "through") and kinds in ([many, "NUM", "NUM"] for many in ("ROWS", "COLS", "BOXES"))
        if through and 0 < before[1].value < after[0].value:
            between = range(before[1].value + 1, after[0].value)
            yield from (replace(word, norm=str(number), kind="NUM", value=number, values=(number,)) for number in between)
        else:
            yield word


def _along(words: Sequence[Word]) -> Iterator[Word]:
    """``Slide along the row to column 7``: column 7 of the same row."""
    norms = [word.norm for word in words]
    for at, word in enumerate(words):
        same = norms[at - 1 : at] and norms[at - 1] in WAYS and word.norm in ("the", "this", "that")
        if same and _across(norms[at + 1 : at + 2], words[at + 3 : at + 4]) and norms[at + 2 : at + 3] == ["to"]:
            yield replace(word, norm="same", kind="SAME")
        elif word.norm != "to" or not (
            norms[max(0, at - 3) : at - 2] and norms[at - 3] in WAYS and _across(norms[at - 1 : at], words[at + 1 : at + 2])
        ):
            yield word


def _across(line: Sequence[str], other: Sequence[Word]) -> bool:
    """Is the one line a row, and the other a column, or the other way round?"""
    return [*line, *(word.kind for word in other)] in (["row", "COL"], ["column", "ROW"])


def _beside(words: Sequence[Word]) -> Iterator[Word]:
    """``the cell just above r5c7``, ``the one to the left of it``: words for the way from one cell to the next, as one word.

    ``NEXT`` stands before the other cell's name, ``BESIDE`` for all of "the cell below it". A cell that is named as well, as in
    "the cell below it, r6c7", needs no way. ``NEARBOX``: the same of boxes, "the box to the left of that one".
    """
    at = 0
    while at < len(words):
        way = _way(words, at) or _way_to_box(words, at)
        if way is None:
            yield words[at]
            at += 1
            continue
        end, kind, step = way
        apposed = end + ([word.kind for word in words[end : end + 1]] == ["COMMA"])
        named = _names_box(words, apposed) if kind == "NEARBOX" else _names_cell(words, apposed)
        if kind == "NEXT" or not named:
            yield replace(words[at], norm="beside", kind=kind, end=words[end - 1].end, values=step)
        at = end


def _way(words: Sequence[Word], at: int) -> tuple[int, str, tuple[int, ...]] | None:
    """Where the words for a way end that begin here, their kind, and the way, in rows down and columns to the right."""
    norms = [word.norm for word in words[at : at + 12]]
    place = int(norms[:1] in (["the"], ["that"]))
    if norms[place : place + 1] not in (["cell"], ["square"], ["one"], ["neighbour"], ["neighbor"]) or not place:
        return None
    place += 1
    while norms[place : place + 1] and norms[place] in EXACTLY:
        place += 1
    if norms[place : place + 1] and norms[place] in ABOVE_OR_BELOW:
        step, own = (ABOVE_OR_BELOW[norms[place]], 0), False
        place += 1
    else:
        place += norms[place : place + 1] in (["to"], ["on"])
        own = norms[place : place + 1] == ["its"]
        place += norms[place : place + 1] in (["the"], ["its"])
        if norms[place : place + 1] not in (["left"], ["right"]) or not (own or norms[place + 1 : place + 2] == ["of"]):
            return None
        step = (0, -1 if norms[place] == "left" else 1)
        place += 1 if own else 2
    if own:
        return at + place, "BESIDE", step
    if norms[place : place + 1] in (["it"], ["this"], ["that"]):
        place += 1 + (norms[place + 1 : place + 2] in (["one"], ["cell"], ["square"]))
        return at + place, "BESIDE", step
    return (at + place, "NEXT", step) if _names_cell(words, at + place) else None


def _way_to_box(words: Sequence[Word], at: int) -> tuple[int, str, tuple[int, ...]] | None:
    """The same for ``the box below it``, ``the box to the left of that one``, ``the box on its right``."""
    match = TO_BOX.match(" ".join(word.norm for word in words[at : at + 9]) + " ")
    if match is None:
        return None
    to = match["across"] or match["over"] or match["level"]
    step = {"left": (0, -1), "right": (0, 1)}.get(to)
    return at + len(match[0].split()), "NEARBOX", step or (ABOVE_OR_BELOW[to], 0)


def _names_box(words: Sequence[Word], at: int) -> bool:
    """Is a box named there, which needs no way?"""
    kinds = [word.kind for word in words[at : at + 4] if word.kind != "THE"]
    return kinds[:1] == ["BX"] or (bool(kinds) and kinds[0] in ("BOX", "V", "H", "M", "ORD") and "BOX" in kinds)


def _names_cell(words: Sequence[Word], at: int) -> bool:
    kinds = [word.kind for word in words[at : at + 3] if word.kind != "THE"]
    lines = (["ROW", "NUM"], ["COL", "NUM"], ["ORD", "ROW"], ["ORD", "COL"], ["ORD", "CELLW"])
    return kinds[:1] in (["RC"], ["PAIR"]) or kinds[:2] in lines


def _said_twice(words: Sequence[Word]) -> Iterator[Word]:
    """``row 4, in column 7 or column 8`` as ``row 4, columns 7 or 8``: the house word is said twice, and both are cells."""
    at = 0
    while at < len(words):
        line = at + (words[at].norm in WITHIN)
        if _two_across(words, line):
            yield replace(words[line], kind={"ROW": "ROWS", "COL": "COLS"}[words[line].kind])
            yield from (words[line + 1], words[line + 2], words[line + 4])
            at = line + 5
        else:
            yield words[at]
            at += 1


def _none_either(words: Sequence[Word]) -> Iterator[Word]:
    """``no 6 in r4c1, none in r5c1``: the digit goes from the one as from the other."""
    denied = False
    for at, word in enumerate(words):
        before = words[at - 1] if at else None
        again = word.norm == "none" and [other.norm for other in words[at + 1 : at + 2]] in (["in"], ["at"])
        denied = denied or (word.norm == "no" and [other.kind for other in words[at + 1 : at + 2]] == ["NUM"])
        if again and denied and before is not None and before.kind in ("NUM", "RC", "CX", "COMMA", "AND"):
            yield replace(word, norm="and", kind="AND")
        elif not (before is not None and before.norm == "none" and denied and word.norm in ("in", "at")):
            yield word


def _pair_named(words: Sequence[Word]) -> Iterator[Word]:
    """``a 6 and the 5 8 pair``: its digits are two, and no more of those before it; an article is not heard in a list."""
    for at, word in enumerate(words):
        if [other.kind for other in words[at - 1 : at + 1]] == ["NUM", "NUM"] and [w.norm for w in words[at + 1 : at + 2]] == [
            "pair"
        ]:
            yield replace(word, norm="and", kind="AND", value=0, values=())
        following = words[at + 1 : at + 5]
        article = bool(following) and following[0].kind == "THE"
        kinds = [other.kind for other in following[article : article + 2]]
        pair = [other.norm for other in following[article + 2 : article + 3]] in (["pair"], ["triple"])
        listed = at > 0 and words[at - 1].kind == "NUM" and word.kind in ("AND", "COMMA")
        yield replace(word, kind="W") if article and pair and listed and kinds == ["NUM", "NUM"] else word


WITHIN = ("in", "on", "at")


def _two_across(words: Sequence[Word], at: int) -> bool:
    """Are there two lines of one kind, after one that crosses them, and nothing that makes a cell of the last?"""
    kinds = [word.kind for word in words[at : at + 6]]
    across = {"ROW": "COL", "COL": "ROW"}.get(kinds[0], "") if kinds else ""
    before = [word.kind for word in words[max(0, at - 5) : at] if word.kind != "COMMA" and word.norm not in (*WITHIN, "of")]
    twice = kinds[:5] == [*kinds[:1], "NUM", "AND", *kinds[:1], "NUM"]
    return bool(across) and twice and before[-2:] == [across, "NUM"] and kinds[5:] not in ([across], ["OF"], ["AND"])


def _only_counted(words: Sequence[Word]) -> Iterator[Word]:
    """The words of who writes digits as figures: a number that is spelt counts, but where it numbers a row, column or box."""
    lines = ("ROW", "COL", "BOX", "ROWS", "COLS", "BOXES")
    numbering = False
    for at, word in enumerate(words):
        if at == 0 and word.norm != "one" and len(words) > 1 and words[1].norm in OF_ONE:
            yield word  # "Five is now impossible": a sentence begins with no figure
            continue
        numbering = word.kind in lines or ((numbering and word.kind in ("NUM", "AND", "COMMA", "THE")) or word.norm == "number")
        counts = word.kind in ("NUM", "PLU") and word.norm.rstrip("s") in NUMBERS and word.sounded is None
        yield replace(word, kind="W") if counts and not numbering else word


def sorted_out(words: Sequence[Word], asked: bool = False) -> tuple[Word, ...]:
    """The words with the kind that their neighbours give them: counts and pronouns are no digits, ``3-8`` is two of them.

    ``asked``: the sentence ends in a question mark, which is kept as its last word.
    """
    kept: list[Word] = []
    for told_so in (
        _said_twice,
        _none_either,
        _pair_named,
        _serial,
        _last_listed,
        _charted,
        _along,
        _ranged,
        _reason_why,
        _supposing,
        _held,
        _beside,
        _counted,
        _sided,
    ):
        words = [*told_so(words)]
    for at, word in enumerate(words):
        after = words[at + 1] if at + 1 < len(words) else None
        if word.norm == "-":
            if kept and after and kept[-1].kind == after.kind == "NUM":
                kept.append(replace(word, norm="and", kind="AND"))
            elif kept and after and word.start == kept[-1].end and word.end == after.start:
                continue
            else:
                kept.append(replace(word, norm=";"))
        elif word.norm in ("r", "c") and after and after.kind == "NUM" and _lettered(words, at):
            kept.append(replace(word, kind="ROW" if word.norm == "r" else "COL"))
        elif word.kind in NAMED_HOUSES and _one_of_lines(word.kind, words[at + 1 : at + 12], _kinds(kept)):
            kept.append(replace(word, kind={"ROW": "ROWS", "COL": "COLS", "BOX": "BOXES"}[word.kind]))  # column 4 or 6
        elif word.norm == "corner" and kept and kept[-1].kind in ("V", "H", "M") and after and after.kind in ("OF", "ON"):
            kept.append(replace(word, norm="cell", kind="CELLW"))  # the top-left corner of box 5
        elif word.norm in SKIPPED and kept and after and _inside(kept[-1], after):
            continue
        elif word.kind == "AND" and _one_more_line(kept, words[at + 1 : at + 5]):
            continue  # in rows 1 and 5 and 7 and 8
        elif word.norm == "and" and _two_lines(kept, words[at + 1 : at + 5]):
            kept.append(replace(word, norm=";", kind="W"))  # it's along row 4 and column 7 has one at the top
        elif word.kind == "COMMA" and _ends_lines(kept) and _one_cell(words[at + 1 : at + 4]):
            kept.append(replace(word, kind="W"))  # in columns 2 and 6, the cell of row 8 in column 2 is 4
        elif (
            word.kind == "COMMA"
            and _ends_lines(kept)
            and [other.kind for other in words[at + 1 : at + 4]] == ["AND", "THE", "NUM"]
        ):
            kept.append(replace(word, norm=";", kind="W"))  # from column 4, rows 7, 8 and 9, and the 1 at r1c6 ...
        elif (
            word.kind == "COMMA"
            and [other.norm for other in kept[-2:-1]] in (["a"], ["an"])
            and kept[-1].kind == "NUM"
            and [other.kind for other in words[at + 1 : at + 4]] == ["AND", "THE", "NUM"]
        ):
            kept.append(replace(word, norm=";", kind="W"))  # r2c4 cannot be a 9, and the 8 and 9 cannot go in r3c5
        elif word.kind == "COMMA" and _joins(reversed(kept)) == "or" and _cell_then_verb(words[at + 1 : at + 12], {"sees"}):
            kept.append(replace(word, norm=";", kind="W"))  # a six at r7c5 or r1c6, and r3c5 sees both
        elif word.kind == "COMMA" and _closed(kept) and _cell_then_verb(words[at + 1 : at + 12]):
            kept.append(replace(word, norm=";", kind="W"))  # out goes 5 from r1c8 and r3c8, and r8c7 can't be 6
        elif (
            word.kind == "COMMA"
            and (_because_of_cells(kept) or _closed(kept))
            and _cells_then_verb(words[at + 1 :], joined=False)
        ):
            kept.append(replace(word, norm=";", kind="W"))  # because of r1c6, r1c5, and r3c4, r2c4 and r2c6 cannot be 9
        elif word.kind == "COMMA" and _of_the_rest(kept) and _line_then_verb(words[at + 1 :]):
            kept.append(replace(word, norm=";", kind="W"))  # from the rest of row 9, and column 9 can't have an 8 in row 9
        elif word.kind == "COMMA" and _taken_from(kept) and _cells_then_verb(words[at + 1 :]):
            kept.append(replace(word, norm=";", kind="W"))  # 3 comes off r9c5, and r1c2, r2c6, and r8c5 can't be 7
        elif word.kind == "COMMA" and _of_another(kept, words[at + 1 : at + 7]):
            kept.append(replace(word, norm=";", kind="W"))  # it becomes 7, and the 4 of row 6 goes in r6c8
        elif word.kind == "COMMA" and _next_line(kept, words[at + 1 : at + 9]):
            kept.append(replace(word, norm=";", kind="W"))  # in column 4 the 3 goes in row 3 or 7, in column 6 in row 1 or 7
        elif word.kind == "COMMA" and _ends_choice(kept, words[at + 1 :]):
            kept.append(replace(word, kind="W"))  # no 3 in r1c1 or r1c2, r2c3 and r2c4 lose 5
        elif word.kind == "COMMA" and _ends_lines(kept) and _whole_cell(words[at + 1 : at + 7]):
            kept.append(replace(word, kind="W"))  # in rows 1, 3 and 9, column 3 of row 7 is 8
        elif _until(kept, words, at):
            continue  # down column 3 until you get to row 4
        elif word.kind in ("ROW", "COL", "BOX") and kept and kept[-1].norm == "its" and _lists_digits(words[at + 1 : at + 4]):
            kept.append(replace(word, kind="W"))  # "its row has 6 and 8, its column 9, 7 and 2"
        elif word.norm == "itself" and kept and kept[-1].kind in ("NUM", "RC", "RX", "CX", "BX"):
            continue  # "and r6c3 itself is left with 3"
        elif word.norm in EXCEPTING and kept and kept[-1].kind in LINE_OF and after and after.kind == "NUM":
            house = kept.pop()
            kept += [replace(house, kind="W"), word, replace(house, norm=house.norm.rstrip("s"), kind=LINE_OF[house.kind])]
        elif word.norm in ("and", "to") and _way_down(kept, words[at : at + 4]):
            continue  # column 9, and down to row 6
        elif word.kind == "LAST" and kept and kept[-1].norm == "at" and word.norm == "last":
            kept.append(replace(word, kind="W"))  # and at last row 3, column 9
        elif word.norm in ("in", "at", "on") and kept and kept[-1].norm == "or" and _said_before(word, kept):
            continue  # in r1c1 or in r2c2
        elif word.norm in LISTING and kept and kept[-1].kind in ("ROWS", "COLS", "BOXES") and _listed(words[at + 1 : at + 3]):
            continue  # her columns are 1, 2, 6 and 7
        elif word.norm == "its" and kept and kept[-1].kind in ("OF", "ON") and _numbered_lines(words[at + 1 : at + 3]):
            continue  # the cells in its columns 2 and 9
        elif (
            word.kind == "PLU"
            and kept
            and kept[-1].kind in ("ROW", "COL", "BOX")
            and "same" not in [w.norm for w in kept[-2:-1]]
        ):
            kept.append(replace(word, kind="NUM", values=(word.value,)))  # row 4's
        elif word.kind == "NUM" and _out_of(words, at):
            kept.append(replace(word, kind="W"))  # eight of its nine
        elif _and_the_one(words, at) or _and_the_one(words, at - 1):
            continue  # r4c7 and the one at row 5, column 7: two cells
        elif word.norm == "one" and kept and kept[-1].norm == "the" and _and_the_other(words[at + 1 :]):
            kept.append(replace(word, kind="W"))  # the one is 3, the other 4
        elif (
            word.norm in ("two", "three", "four")
            and kept
            and kept[-1].norm in ("these", "those")
            and (after is None or after.kind == "COMMA")
        ):
            kept.append(replace(word, kind="W"))  # ... be kept free for these two
        elif (
            word.norm in ("two", "three", "four")
            and kept
            and kept[-1].norm == "the"
            and (_of_several(kept, after) or [other.norm for other in kept[-3:-1]] in SOME_OF)
        ):
            kept.append(replace(word, kind="W"))  # the two belong together
        elif word.norm == "one" and [other.norm for other in words[at + 1 : at + 4]] in ONE_AND:
            kept.append(replace(word, kind="W"))
        elif (word.norm == "eight" and after and after.norm == "down") or (
            word.norm == "one" and [other.norm for other in words[at + 1 : at + 3]] in (["to", "go"], ["more", "for"])
        ):
            kept.append(replace(word, kind="W"))  # eight down, one to go; one more for box 4
        elif word.norm == "one" and kept and kept[-1].norm in HOLD and _of_which_one(kept):
            kept.append(replace(word, kind="W"))  # no other cell in box 8 can hold one
        elif word.norm == "one" and kept and kept[-1].kind == "AND" and after and after.norm == "only":
            kept.append(replace(word, kind="W"))  # one cell may be a 7, and one only
        elif word.norm == "nine" and kept and kept[-1].norm == "makes" and "down" in [w.norm for w in kept]:
            kept.append(replace(word, kind="W"))  # eight down, and r1c2 makes nine
        elif _by_the_number(word, [other.norm for other in words[at + 1 : at + 4]]):
            kept.append(replace(word, kind="W"))  # two at a time; eight of them
        elif word.norm == "one" and after and after.kind in ("OF", "ON") and [w.norm for w in kept[-2:]] == ["there", "is"]:
            kept.append(replace(word, kind="W"))  # the 9s: in column 7 there is one in row 7
        elif word.norm == "one" and at > 1 and words[at - 2].norm in ("a", "an", "this", "that") and words[at - 1].kind == "W":
            kept.append(replace(word, kind="W"))  # a fun one
        elif word.norm == "one" and _that_cell(words, at):
            kept.append(replace(word, kind="W"))  # all cells but one refuse it. The one that does not is r1c1
        elif (
            word.norm == "one"
            and [other.norm for other in kept[-2:]] == ["it", "is"]
            and _which_of_these(kept, words[at + 1 :])
        ):
            kept.append(replace(word, kind="W"))  # i don't know which cell, but it is one in row 3
        elif word.norm == "one" and _said_again(words, at):
            kept.append(replace(word, kind="W"))  # the 2 in r1c1 and the one in r2c2
        elif word.norm == "one" and _apposed(words, at):
            kept.append(replace(word, kind="W"))  # column 2 has one empty cell, the one in row 5 and column 2
        elif word.norm == "one" and _instead_of_cell(words, at):
            kept.append(replace(word, kind="W"))  # that leaves the one in column 4, row 8
        elif word.norm == "one" and _the_one_in(words, at):
            kept.append(replace(word, kind="ONE"))
        elif word.kind == "NUM" and word.value > max(NUMBERS.values()) and kept and kept[-1].kind in ("ROWS", "COLS", "BOXES"):
            kept += (replace(word, norm=str(value), value=value, values=(value,)) for value in word.values)  # columns 137
        elif word.kind == "NUM" and _numbers_lines(kept, words[at + 1 : at + 3]):
            kept.append(word)
        elif word.kind in ("NUM", "PLU") and _no_digit(
            word, kept[-1].norm if kept else "", words[at + 1 : at + 5], room=_no_room(words, at)
        ):
            kept.append(replace(word, kind="W"))
        else:
            kept.append(word)
    if asked and words:
        kept.append(Word("?", "W", words[-1].end, words[-1].end))
    return tuple(kept)


HAVING = ("has", "have", "had", "already", "needs", "wants", "gets", "got")


def _two_lines(kept: Sequence[Word], after: Sequence[Word]) -> bool:
    """Is something said of the line after ``and`` alone: ``along row 4 and column 7 has one``? Then the two name no cell."""
    before, behind = [word.kind for word in kept[-2:]], [word.kind for word in after[:2]]
    crossing = (before, behind) in ((["ROW", "NUM"], ["COL", "NUM"]), (["COL", "NUM"], ["ROW", "NUM"]))
    alone = [word.kind for word in kept[-4:-2]] not in (["COL", "NUM"], ["ROW", "NUM"])
    has = len(after) > 2 and after[2].norm in HAVING
    return crossing and alone and has and [word.norm for word in after[3:4]] != ["to"]  # "row 4 and column 7 has to be 5"


def _of_which_one(kept: Sequence[Word]) -> bool:
    """Is it known of what there is one: ``row 6 must have a 5, and the only cell that will take one is r6c5``?"""
    digits = [one.norm in ("a", "an") and other.kind == "NUM" for one, other in pairwise(kept[:-1])]
    return any(digits) or not {"other", "else"}.isdisjoint(word.norm for word in kept[-8:])


def _kinds(kept: Sequence[Word]) -> list[str]:
    """The kinds of the last words, without a comma at their end."""
    kinds = [word.kind for word in kept[-4:]]
    return kinds[:-1] if kinds[-1:] == ["COMMA"] else kinds


def _one_of_lines(kind: str, after: Sequence[Word], before: Sequence[str]) -> bool:
    """Is it a choice of numbers that one house word stands before: ``row 2, column 4 or 6``, ``column 1, 4 or 6 of row 2``?"""
    at = 0
    while at + 1 < len(after) and after[at].kind == "NUM" and after[at + 1].kind == "COMMA":
        at += 2
    at -= at > 0 and at < len(after) and after[at].norm == "or"
    choice = [word.kind for word in after[at : at + 3]] == ["NUM", "AND", "NUM"] and after[at + 1].norm == "or"
    crossing = before[-2:-1] == [{"ROW": "COL", "COL": "ROW"}.get(kind, "")] and before[-1:] == ["NUM"]
    following = [word.kind for word in after[at + 3 : at + 6] if word.kind != "THE"][:2]
    of_line = len(following) > 1 and following[0] in ("OF", "ON") and following[1] in ("ROW", "COL", "ORD", "V", "H", "M")
    rising = [word.value for word in after[: at + 3] if word.kind == "NUM"]
    ends = [word.kind for word in after[at + 3 : at + 4]] in ([], ["COMMA"])  # "its 6 in column 4, 7 or 9"
    ordered = at == 0 or crossing or (ends and before[-1:] in (["OF"], ["ON"]))
    return (
        choice
        and (of_line or (ordered and (rising == sorted(set(rising)) or (len(rising) == 2 and len(after) <= at + 3))))
        and following[:1] not in (["ROW"], ["COL"], ["CELLW"])
    )


def _one_cell(after: Sequence[Word]) -> bool:
    """Does ``the cell of`` follow? Two lines meet a third in two cells."""
    norms = [word.norm for word in after]
    return norms[:1] == ["the"] and norms[1:2] in (["cell"], ["square"]) and norms[2:3] in (["of"], ["in"], ["at"], ["on"])


def _ends_choice(before: Sequence[Word], after: Sequence[Word]) -> bool:
    """Is a list joined by ``or`` behind the comma, and one joined by ``and`` before it? They are two lists."""
    last = _joins(reversed(before))
    names = [word.kind for word in after if word.kind != "THE"][:1]
    if [[word.kind for word in before[-2:]], *names] in ([["COL", "NUM"], "ROW"], [["ROW", "NUM"], "COL"]):
        return False  # no 5 or 7 in column 2, row 3, and ...: a cell
    own = (
        bool(before)
        and before[-1].kind in ("RC", "CELLW", "NUM", "COL", "ROW")
        and names in (["RC"], ["ROW"], ["ROWS"], ["COL"], ["COLS"])
    )
    return last == "or" and own and _joins(after) == "and"


def _joins(words: Iterable[Word]) -> str:
    """The first ``and`` or ``or`` among the words of names."""
    for word in words:
        if word.kind == "AND":
            return word.norm
        if word.kind not in ("RC", "ROW", "ROWS", "COL", "COLS", "NUM", "ORD", "CELLW", "COMMA", "THE", "OF", "ON", "POSS"):
            return ""
    return ""


def _by_the_number(word: Word, after: Sequence[str]) -> bool:
    """Is it ``two at a time``, or ``eight of them``?"""
    return (word.norm in ("two", "one") and after in AT_A_TIME) or (word.norm == "eight" and after[:2] == ["of", "them"])


def _of_another(before: Sequence[Word], after: Sequence[Word]) -> bool:
    """Does ``and the 4 of row 6`` follow on a digit that has no article?"""
    kinds = [word.kind for word in after]
    bare = [word.kind for word in before[-2:]] == ["W", "NUM"]
    return bare and kinds[:4] == ["AND", "THE", "NUM", "OF"] and kinds[4:5] in ([line] for line in NAMED_HOUSES)


def _ends_lines(before: Sequence[Word]) -> bool:
    """Does a list of rows or columns end here: ``rows 1, 3 and 9``?"""
    at = len(before) - 1
    if at < 0 or before[at].kind != "NUM" or before[at - 1].kind not in ("AND", "NUM", "COMMA"):
        return False
    while at >= 0 and before[at].kind in ("NUM", "COMMA", "AND"):
        at -= 1
    return at >= 0 and before[at].kind in ("ROWS", "COLS")


def _and_the_one(words: Sequence[Word], at: int) -> bool:
    """Is it the ``one`` of ``r4c7 and the one at row 5, column 7``?"""
    if at < 3 or words[at].norm != "one" or [words[at - 2].kind, words[at - 1].norm] != ["AND", "the"]:
        return False
    at_cell = [word.kind for word in words[at + 1 : at + 2]] in (["OF"], ["ON"]) and _names_cell(words, at + 2)
    return at_cell and (words[at - 3].kind in ("RC", "CELLW") or [word.kind for word in words[at - 4 : at - 2]] in LINE_NUMBER)


EXCEPTING = ("but", "except", "save")
LINE_OF = {"COL": "COL", "COLS": "COL", "ROW": "ROW", "ROWS": "ROW"}
"""The line that a number after these words is of: ``every column but 3``."""
LINE_NUMBER = (["ROW", "NUM"], ["COL", "NUM"])
A_LINE = (*LINE_NUMBER, ["ORD", "ROW"], ["ORD", "COL"])


def _one_more_line(kept: Sequence[Word], after: Sequence[Word]) -> bool:
    """Do two more numbers of lines follow, each after ``and`` and higher than the last: ``rows 1 | and 5 and 7 and 8``?"""
    at = len(kept) - 1
    while at >= 0 and kept[at].kind == "NUM":
        at -= 1
    numbers = [*kept[at + 1 :], *(word for word in after[:3] if word.kind == "NUM")]
    rising = all(one.value < other.value for one, other in pairwise(numbers))
    more = [word.kind for word in after[:3]] == ["NUM", "AND", "NUM"] and not {word.norm for word in after[3:4]} & TELLS_OF_ONE
    return more and 0 <= at < len(kept) - 1 and kept[at].kind in ("ROWS", "COLS", "BOXES") and rising


def _next_line(kept: Sequence[Word], after: Sequence[Word]) -> bool:
    """Does the next of several lines begin, each with the lines that it crosses: ``in column 6 in row 1 or 7``?"""
    kinds = [word.kind for word in after if word.kind != "AND"]
    crossing = {"COL": ("ROW", "ROWS"), "ROW": ("COL", "COLS")}
    inside = kinds[:1] in (["OF"], ["ON"]) and kinds[2:4] in (["NUM", "OF"], ["NUM", "ON"])
    begins = inside and kinds[1] in crossing
    named = [word.kind for word in kept if word.kind in ("ROW", "COL", "ROWS", "COLS")]
    return begins and kinds[4:5] != [] and kinds[4] in crossing[kinds[1]] and kinds[1] in named and len({*named}) > 1


def _whole_cell(after: Sequence[Word]) -> bool:
    """Does ``column 3 of row 7`` follow?"""
    kinds = [word.kind for word in after if word.kind != "THE" and word.norm != "-"]
    if kinds[:2] == ["COL", "NUM"] and kinds[2:3] == ["CELLW"]:
        return True
    lines = [kinds[0:1], kinds[3:4]]
    if kinds[1:3] in (["NUM", "OF"], ["NUM", "ON"]) and [*kinds[0:1], *kinds[3:4]] in (["ROW", "COLS"], ["COL", "ROWS"]):
        return True  # "row 1 loses it in columns 4 and 5, row 3 in columns 5 and 6"
    return kinds[1:3] in (["NUM", "OF"], ["NUM", "ON"]) and lines in ([["COL"], ["ROW"]], [["ROW"], ["COL"]])


def _way_down(kept: Sequence[Word], after: Sequence[Word]) -> bool:
    """Is it ``column 9, and down to row 6``: a cell by the way to it?"""
    before = [word.kind for word in kept if word.kind != "COMMA"][-3:]
    norms, kinds = [word.norm for word in after], [word.kind for word in after]
    if norms[:3] == ["and", "down", "to"] or norms[:3] == ["and", "across", "to"]:
        return before[-2:] in (["COL", "NUM"], ["ROW", "NUM"]) and kinds[3:4] in (["ROW"], ["COL"])
    onward = kept[-1:] != [] and kept[-1].norm in ("down", "across") and before[-1:] == ["OF"]
    begun = onward and before[:2] in (["COL", "NUM"], ["ROW", "NUM"])
    return norms[:1] == ["to"] and begun and kinds[1:2] in (["ROW"], ["COL"])


IN_CELL = ("RC", "COL", "ROW", "NUM", "COMMA", "THE", "CELLW", "ON", "OF")
IN_NAMED = (*IN_CELL, "AND", "ROWS", "COLS", "POSS", "ORD", "BOX", "V", "H", "M", "LAST", "RX", "CX")
VERBS = {"cannot", "can", "loses", "lose", "is", "has", "must", "will", "may", "does"}
TELLS_OF_ONE = (VERBS - {"lose"}) | {"goes", "sits", "comes", "in", "at", "from"}


def _closed(kept: Sequence[Word]) -> bool:
    """Does a list of cells end here with its ``and``?"""
    at = len(kept) - 1
    while at >= 0 and kept[at].kind in IN_CELL:
        at -= 1
    own, before = ([word.kind for word in part if word.kind != "COMMA"] for part in (kept[at + 1 :], kept[max(0, at - 2) : at]))
    cell = own[:1] == ["RC"] or {"COL", "ROW"} <= {*own}
    return at > 0 and kept[at].kind == "AND" and cell and (before[-1:] in (["RC"], ["NUM"]))


def _cell_then_verb(after: Sequence[Word], verbs: Collection[str] = VERBS) -> bool:
    """Does ``and r8c7 cannot`` follow: one cell that something else is said of?"""
    kinds = [word.kind for word in after]
    at = 1
    while kinds[:1] == ["AND"] and at < len(after) and after[at].kind in IN_CELL:
        at += 1
    own = kinds[1:at]
    cell = own.count("RC") == 1 or (own.count("COL") == own.count("ROW") == 1 and own.count("NUM") == 2)
    return cell and at < len(after) and after[at].norm in verbs


def _of_the_rest(kept: Sequence[Word]) -> bool:
    """Does it end with a line of which something is told of all other cells?"""
    others = {"rest", "else", "elsewhere", "other"}
    return [word.kind for word in kept[-2:]] in A_LINE and any(word.norm in others for word in kept[-7:-2])


def _line_then_verb(after: Sequence[Word]) -> bool:
    """Does ``and column 9 cannot`` follow?"""
    told = [word for word in after if word.kind != "THE"][:4]
    kinds = [word.kind for word in told]
    return kinds[:1] == ["AND"] and kinds[1:3] in A_LINE and told[-1].norm in VERBS


def _taken_from(kept: Sequence[Word]) -> bool:
    """Does it end with a cell that a digit was said to go from: ``3 comes off r9c5``, ``no 4 in column 1, row 2``?"""
    at = len(kept) - 1
    while at >= 0 and kept[at].kind in IN_CELL and kept[at].norm not in OFF:
        at -= 1
    kinds = {word.kind for word in kept[at + 1 :]}
    told = {word.norm for word in kept[max(0, at - 5) : at + 1]}
    clause = next((n for n in range(at, -1, -1) if kept[n].norm in (";", ":")), -1)
    digit = any(word.kind in ("NUM", "PLU") for word in kept[clause + 1 : at])
    return (
        at > 0 and kept[at].norm in OFF and digit and not told.isdisjoint(GOING) and ("RC" in kinds or {"COL", "ROW"} <= kinds)
    )


OFF = ("off", "from", "of", "in", "at")
GOING = {
    *"no comes come goes go out gone remove removed strike struck rub cross take erase lost off delete eliminate cut".split()
}


def _because_of_cells(kept: Sequence[Word]) -> bool:
    """``Because of r1c6, r1c5, and r3c4``: is that all, and closed by its ``and``?"""
    norms = [word.norm for word in kept]
    begin = next((len(words) for words in BECAUSE_OF if norms[: len(words)] == words), 0)
    named = kept[begin:]
    whole = all(word.kind in IN_NAMED for word in named)
    last = next((at for at in range(len(named) - 1, -1, -1) if named[at].kind == "AND"), None)
    return begin > 0 and whole and last is not None and _are_cells(named[last + 1 :])


def _cells_then_verb(after: Sequence[Word], *, joined: bool = True) -> bool:
    """Does ``and r1c2, r2c6, and r8c5 cannot`` follow: cells that something else is said of? ``joined``: with an ``and``."""
    at = int(joined)
    while at < len(after) and after[at].kind in IN_NAMED:
        at += 1
    begun = not joined or [word.kind for word in after[:1]] == ["AND"]
    return begun and _are_cells(after[joined:at]) and at < len(after) and after[at].norm in {*VERBS, "are", "have", "do"}


def _are_cells(words: Sequence[Word]) -> bool:
    """Does it name cells, of all that names are made of?"""
    kinds = {word.kind for word in words}
    crossed = bool(kinds & {"COL", "COLS", "CX"}) and bool(kinds & {"ROW", "ROWS", "RX"})
    counted = "CELLW" in kinds and bool(kinds & {"ORD", "V", "H"}) and bool(kinds & {"ROW", "COL", "BOX"})
    return "RC" in kinds or crossed or counted


BECAUSE_OF = [phrase.split() for phrase in ("because of", "on account of", "owing to", "due to", "thanks to", "in view of")]


def _lists_digits(words: Sequence[Word]) -> bool:
    """Do several numbers follow, after "its column"?"""
    return [word.kind for word in words] in (["NUM", "COMMA", "NUM"], ["NUM", "AND", "NUM"])


def _until(kept: Sequence[Word], words: Sequence[Word], at: int) -> bool:
    """Is it one of the words between the two lines of ``down column 3 until you get to row 4``, ``up column 7 to row 2``?"""
    begin = at
    while begin and words[begin - 1].norm in UNTIL:
        begin -= 1
    end = at
    while end < len(words) and words[end].norm in UNTIL:
        end += 1
    way = any(word.norm in WAYS for word in kept[-4:-2])
    if at == end or not (words[begin].norm in ("until", "till") or (way and words[begin].norm in ("to", "at"))):
        return False
    lines = (_kinds(kept)[-2:], [word.kind for word in words[end : end + 1]])
    return lines in ((["COL", "NUM"], ["ROW"]), (["ROW", "NUM"], ["COL"]))


def _said_before(word: Word, kept: Sequence[Word]) -> bool:
    """Stands the word before the name that is joined by ``or`` to what comes after it?"""
    name = next((at for at in range(len(kept) - 2, -1, -1) if kept[at].kind == "W" or kept[at].norm == word.norm), -1)
    return name >= 0 and kept[name].norm == word.norm


def _listed(after: Sequence[Word]) -> bool:
    """Does a list of numbers begin?"""
    return len(after) == 2 and after[0].kind == "NUM" and (after[1].kind in ("COMMA", "AND"))


OF_A_LINE = ("has", "have", "already", "got", "needs", "wants", "ends", "starts", "begins", "lacks")
"""Verbs of a row or a column, and hardly of a cell."""
OF_ONE = ("is", "can", "cannot", "must", "has", "goes", "was", "will", "belongs")
WAYS = ("along", "down", "up", "across")
TO_BOX = re.compile(
    r"the (box|block) ((just|right|directly|immediately) )*("
    r"(to|on) (the (?P<across>left|right) of (it|that one|this one|that|this)|its (?P<over>left|right))"
    r"|(?P<level>above|below|beneath|under|underneath)( (it|that one|this one|that|this))?"
    r"(?! (the|that|this|it|row|col|r\d|b\d)\b)) "
)
"""A box that is told by the way to it."""
ABOVE_OR_BELOW = {"above": -1, "over": -1, "below": 1, "beneath": 1, "under": 1, "underneath": 1}
"""By how many rows."""
EXACTLY = ("just", "right", "directly", "immediately", "straight", "next")
UNTIL = {*"until till you we i it get gets come comes reach reaches hit hits meet meets to at".split()}
"""Between two lines, after "until"."""
ONE_AND = (["or", "the", "other"], ["and", "the", "same"])
HOLD = tuple("hold take have get accept contain offer offers supply provide spare house accommodate".split())
AT_A_TIME = (["at", "a", "time"], ["by", "two"], ["by", "one"], ["at", "once"])
REMOVING = ("out", "off", "remove", "strike", "eliminate", "erase", "delete", "drop", "clear", "take")
AUXILIARY = ("does", "do", "is", "can", "could", "cannot", "will", "would", "may", "has")
ENDS = {"left": 1, "top": 1, "right": -1, "bottom": -1, "foot": -1}
JOINED = ("CELLW", "ROW", "COL", "BOX", "NUM", "PLU", "RC", "RX", "CX", "BX")
NAMED_HOUSES = ("ROW", "COL", "BOX")


def _counted(words: Sequence[Word]) -> Iterator[Word]:
    """Ordinals as ``the third cell of row 4`` has them: from which end is counted is taken in, ``row the fourth`` is row 4."""
    kept: list[Word] = []
    at = 0
    while at < len(words):
        word = words[at]
        after = words[at + 1].kind if at + 1 < len(words) else ""
        house = [other.kind for other in kept[-2:]][:1] if kept and kept[-1].norm == "the" else []
        before = kept[-3] if len(kept) > 2 else None
        apposed = house[:1] in (["ROW"], ["COL"], ["BOX"]) and after not in (*NAMED_HOUSES, "CELLW", "POSS")
        bare = before is None or (before.kind not in ("ORD", "THE", "SAME") and before.norm not in ("this", "that", "its"))
        if word.kind == "ORD" and apposed and bare:
            kept[-1:] = [replace(word, kind="NUM", values=(word.value,))]  # row the fourth
            at += 1
            continue
        if word.norm == "ninth" and after not in (*NAMED_HOUSES, "CELLW", "POSS") and _eight_of_nine(kept):
            word = replace(word, kind="W")
        spoken_of = [other.kind for other in kept[-2:]] == ["CELLW", "OF"] and after in NAMED_HOUSES
        if word.norm in ("that", "this") and spoken_of:
            word = replace(word, kind="SAME")  # the second cell of that row
        if (
            kept
            and kept[-1].kind == "ORD"
            and _cells_in(kept)
            and word.kind not in (*NAMED_HOUSES, "CELLW", "POSS", "OF", "AND")
        ):
            kept.append(replace(kept[-1], norm="cells", kind="CELLW", value=0))  # in the first or third
        if (
            word.norm == "together"
            and [other.norm for other in words[at + 1 : at + 2]] == ["with"]
            and kept
            and kept[-1].kind in JOINED
        ):
            kept.append(replace(word, norm="and", kind="AND"))  # r1c1 together with r2c2
            at += 2
            continue
        if word.norm == "it" and [other.kind for other in kept[-3:]] in (["ROW", "NUM", "OF"], ["COL", "NUM", "OF"]):
            across = "COL" if kept[-3].kind == "ROW" else "ROW"
            kept += [replace(word, norm="same", kind="SAME"), replace(word, norm="line", kind=across)]  # row 5 of it
            at += 1
            continue
        if word.kind == "OF" and kept and kept[-1].kind == "ORD" and _cell_unsaid(kept, words[at + 1 : at + 5]):
            kept.append(replace(kept[-1], norm="cell", kind="CELLW", value=0))  # ... and the second of the third row
        length, sign = _from_end(words, at) if kept else (0, 0)
        counted = _ordinals(kept) if length else []
        if counted:
            for number in counted if sign < 0 else ():
                kept[number] = replace(kept[number], value=-abs(kept[number].value))
            if kept[-1].kind == "ORD":
                kept.append(replace(kept[-1], norm="cell", kind="CELLW", value=0))
            at += length
            continue
        kept.append(word)
        at += 1
    if kept and kept[-1].kind == "ORD" and _cells_in(kept):
        kept.append(replace(kept[-1], norm="cells", kind="CELLW", value=0))
    yield from kept


def _cells_in(kept: Sequence[Word]) -> bool:
    """Is it ``in the first or third``, after cells that were counted so?"""
    counted = any(one.kind == "ORD" and other.kind == "CELLW" for one, other in pairwise(kept))
    return counted and [word.kind for word in kept[-5:]] == ["OF", "THE", "ORD", "AND", "ORD"] and kept[-2].norm == "or"


def _cell_unsaid(kept: Sequence[Word], after: Sequence[Word]) -> bool:
    """Is it ``the second of the third row``, after a cell that was called so?"""
    counted = any(one.kind == "ORD" and other.kind == "CELLW" for one, other in pairwise(kept))
    kinds = [word.kind for word in after if word.kind != "THE"]
    house = kinds[:1] in (["ROW"], ["COL"], ["BOX"], ["RX"], ["CX"], ["BX"]) or "ROW" in kinds[1:3] or "COL" in kinds[1:3]
    house = house or "BOX" in kinds[1:3]
    listed = [word for word in kept if word.kind not in ("ORD", "AND", "COMMA")]
    return counted and house and bool(listed) and listed[-1].norm == "the"


def _eight_of_nine(kept: Sequence[Word]) -> bool:
    """Were eight digits spoken of, beside which the ninth is that one digit more?"""
    nouns = ("digits", "numbers", "candidates", "values", "figures", "others")
    return any(one.norm == "eight" and other.norm in nouns for one, other in pairwise(kept))


def _from_end(words: Sequence[Word], at: int) -> tuple[int, int]:
    """How many words from there on say from which end is counted, and 1 or -1 for the two ends; 0 if they do not."""
    norms = [word.norm for word in words[at : at + 10]]
    place = 0
    aside = norms[:1] == [","] and norms[1:2] in (["counting"], ["counted"], ["reckoned"], ["from"])
    place += aside
    place += norms[place : place + 1] in (["counting"], ["counted"], ["reckoned"])
    if norms[place : place + 1] != ["from"]:
        return 0, 0
    place += 1
    place += norms[place : place + 1] in (["the"], ["its"])
    sign = ENDS.get(norms[place], 0) if place < len(norms) else 0
    if not sign:
        return 0, 0
    place += 1
    place += norms[place : place + 1] == ["-"]
    while norms[place : place + 1] and norms[place] in ("hand", "side", "end", "edge", "margin"):
        place += 1
    if norms[place : place + 1] == ["to"] and norms[place + 1 : place + 2] and norms[place + 1] in ENDS:
        place += 2  # from left to right
    if aside and norms[place : place + 1] == [","]:
        place += 1
    return place, sign


def _ordinals(kept: Sequence[Word]) -> list[int]:
    """Where the ordinals stand that the words taken last count cells or lines by: ``the third and fourth cells``."""
    at = len(kept) - 1
    if kept[at].kind in ("CELLW", *NAMED_HOUSES, "ROWS", "COLS", "BOXES"):
        at -= 1
    found: list[int] = []
    while at >= 0 and kept[at].kind in ("ORD", "COMMA", "AND"):
        found += [at] if kept[at].kind == "ORD" else []
        at -= 1
    return found if found and found[0] >= len(kept) - 2 else []


def _out_of(words: Sequence[Word], at: int) -> bool:
    """Is it a number of ``eight of nine``, ``eight of its nine numbers``?"""
    after = [word.norm for word in words[at + 1 : at + 4] if word.norm not in ("its", "the", "their")]
    before = [word.norm for word in words[max(0, at - 3) : at] if word.norm not in ("its", "the", "their")]
    counted = len(after) > 1 and after[0] == "of" and (is_number(after[1]) or after[1] in ("cells", "squares"))
    if counted and words[at].norm in NUMBERS:
        return True
    return words[at].norm == "nine" and len(before) > 1 and before[-1] == "of" and before[-2] in NUMBERS


def _sided(words: Sequence[Word]) -> Iterator[Word]:
    """``right`` and ``left`` are places only by the side of a house: in "all right row 4" and "one left" they are not."""
    for at, word in enumerate(words):
        if word.norm in ("right", "left") and word.kind == "H" and not _is_side(words, at):
            word = replace(word, kind="W")
        yield word


def _is_side(words: Sequence[Word], at: int) -> bool:
    before = [other.kind for other in words[max(0, at - 4) : at] if other.norm != "-"]
    after = [other.kind for other in words[at + 1 : at + 4] if other.norm not in (*SKIPPED, "-")]
    determined = before[-1:] in (["V"], ["M"]) or (before[-1:] == ["THE"] and words[at - 1].norm != "all")
    if after[:1] in (["ROW"], ["COL"], ["BOX"]):
        return determined or (after[0] != "ROW" and after[1:2] != ["NUM"])
    if after[:1] in (["V"], ["M"], ["CELLW"], ["COLS"], ["BOXES"]):
        return determined or before[-1:] in (["OF"], ["ON"])
    return before[-1:] in (["V"], ["M"]) or ("BOX" in before and before[-1:] in (["ON"], ["OF"], ["THE"]))


def _numbered_lines(words: Sequence[Word]) -> bool:
    return [word.kind for word in words] in (["COL", "NUM"], ["COLS", "NUM"], ["ROW", "NUM"], ["ROWS", "NUM"])


SOME_OF = [[some, "of"] for some in ("one", "any")]
"""Before ``the three``: of what was named."""


def _of_several(kept: Sequence[Word], after: Word | None) -> bool:
    """Are several spoken of, as in ``the two belong together``? After an ``and`` they may be digits."""
    listed = [word.kind for word in kept[-2:-1]] == ["AND"]
    return after is not None and after.norm in OF_SEVERAL and not listed and kept[-1].sounded is None


def _and_the_other(after: Sequence[Word]) -> bool:
    """Is it ``the one is 3 and the other 4``?"""
    verb = [word.norm for word in after[:1]]
    other = any([one.norm, two.norm] == ["the", "other"] for one, two in pairwise(after))
    return bool(verb) and verb[0] in ("is", "has", "holds", "takes", "gets", "must", "will", "becomes") and other


def _which_of_these(kept: Sequence[Word], after: Sequence[Word]) -> bool:
    """Was it asked which of several it is, and is it told where these are?"""
    place = [word.norm for word in after[:1]] in (["in"], ["of"], ["on"], ["along"])
    return place and any(word.norm in ("which", "whichever") for word in kept)


def _said_again(words: Sequence[Word], at: int) -> bool:
    """Is it "and the one in" after a digit in figures? Who writes figures would write ``the 1``."""
    before = [word.norm for word in words[max(0, at - 2) : at]]
    figures = any(word.kind == "NUM" and word.norm.isdigit() for word in words[:at])
    return before == ["and", "the"] and figures and [word.norm for word in words[at + 1 : at + 2]] in (["in"], ["at"])


def _apposed(words: Sequence[Word], at: int) -> bool:
    """Is it ``an empty cell, the one in row 5``, or of a digit in figures: ``an 8 is impossible with the one up at r3c8``?"""
    before, after = [word.norm for word in words[max(0, at - 2) : at]], [word.norm for word in words[at + 1 : at + 3]]
    if before[-1:] != ["the"] or not after or after[0] not in ("in", "at", "up", "down", "over"):
        return False
    figures = any(word.kind in ("NUM", "PLU") and word.norm.isdigit() for word in words[:at])
    return (before == [",", "the"] and after[0] in ("in", "at")) or (figures and after[1:] in (["at"], ["in"]))


def _that_cell(words: Sequence[Word], at: int) -> bool:
    """Is it ``the one that does not is r1c1``, or ``the one is r1c1, which is 8``: the cell that was left?"""
    if at == 0 or words[at - 1].norm not in ("the", "only") or words[at].sounded is not None:
        return False
    after = [word.norm for word in words[at + 1 : at + 5]]
    if after[:1] in (["that"], ["which"]):
        verbs = [norm for norm in after[1:] if norm not in ("still", "not", "so")]
        return len(verbs) > 1 and verbs[0] in AUXILIARY and verbs[1] in ("is", ",", ":", "must", "has")
    if at > 1 and words[at - 2].norm in ("is", "was") and after[:1] in (["they"], ["it"], ["we"], ["you"]):
        return True  # that digit is the one they lack
    names = [word.kind for word in words[at + 2 : at + 4] if word.kind != "THE"]
    lines = ("ROW", "COL", "BOX", "ROWS", "COLS", "BOXES")
    digits = any(word.kind == "NUM" and words[place - 1].kind not in lines for place, word in enumerate(words) if place > at)
    return (
        after[:1] == ["is"]
        and bool(names)
        and names[0] in ("RC", "ROW", "COL", "CELLW", "ORD", "PAIR", "V", "H", "M")
        and digits
    )


def _no_room(words: Sequence[Word], at: int) -> bool:
    """Is it ``there is no place for one in row 4``, where digits are written as words?"""
    before = [word.norm for word in words[max(0, at - 3) : at]]
    told = (
        before[:1] == ["no"] and before[1:2] in (["place"], ["room"], ["space"], ["home"], ["spot"]) and before[2:] == ["for"]
    )
    figures = any(word.kind == "NUM" and word.norm.isdigit() for word in words)
    return told and not figures and [word.kind for word in words[at + 1 : at + 2]] in (["OF"], ["ON"])


def _instead_of_cell(words: Sequence[Word], at: int) -> bool:
    """Does it stand for a cell that is named in full, where no digit can stand: ``gone from the one in row 5, column 7``?"""
    before = [word.norm for word in words[max(0, at - 2) : at]]
    after = [word.kind for word in words[at + 1 : at + 7] if word.kind not in ("COMMA", "OF", "ON", "THE", "AND")]
    full = after[:4] in (["COL", "NUM", "ROW", "NUM"], ["ROW", "NUM", "COL", "NUM"]) or after[:1] == ["RC"]
    return full and before[1:] == ["the"] and before[0] in ("leaves", "leave", "leaving", "in", "from", "into", "at")


def _the_one_in(words: Sequence[Word], at: int) -> bool:
    """``the one in the ninth row``: a cell of a column spoken of before, where other words name the digit."""
    if (
        at == 0
        or words[at - 1].norm not in ("the", "only")
        or at + 1 >= len(words)
        or words[at + 1].norm not in ("in", "on", "at")
    ):
        return False
    if at > 1 and words[at - 2].norm in REMOVING and not any(word.kind in ("NUM", "PLU") for word in words[: at - 2]):
        return False  # "cross out the one in the second row, seventh column": no other digit was spoken of
    lines = [word.kind for word in words[at + 2 : at + 7] if word.kind in ("ROW", "COL", "BOX", "RX", "CX")]
    digits = any(
        word.kind in ("NUM", "PLU") and words[max(0, place - 1)].kind not in ("ROW", "COL", "BOX")
        for place, word in enumerate(words)
        if place != at
    )
    others = [word for place, word in enumerate(words) if place != at]
    if not digits and any(word.kind in ("RC", "CELLW") for word in others):
        return False  # "the one of column 5: it belongs to r9c5"
    return len(lines) == 1 and lines[0] in ("ROW", "COL") and (digits or any(word.norm == "it" for word in others))


def _lettered(words: Sequence[Word], at: int) -> bool:
    """Is the letter that of a cell spelt as ``R four, C seven``?"""
    letter, other = words[at].norm, "c" if words[at].norm == "r" else "r"
    around = [word.norm for word in (*words[max(0, at - 3) : at], *words[at + 2 : at + 4]) if word.kind != "COMMA"]
    return letter in ("r", "c") and other in around


def _inside(before: Word, after: Word) -> bool:
    houses, places = ("ROW", "COL", "BOX", "CELLW", "ROWS", "COLS", "BOXES"), ("V", "H", "M")
    return (before.kind in houses and after.kind == "NUM") or (before.kind in places and after.kind in (*houses, *places))


def _numbers_lines(before: Sequence[Word], after: Sequence[Word]) -> bool:
    """Is the number one of a list of rows, columns or boxes, as both in ``rows one and three of column eight``?"""
    at = len(before) - 1
    if at >= 0 and before[at].kind == "AND":
        at -= 1
    while at >= 0 and before[at].kind in ("NUM", "COMMA"):
        at -= 1
    if not 0 <= at < len(before) - 1 or before[at].kind not in ("ROWS", "COLS", "BOXES") or before[at + 1].kind != "NUM":
        return False
    if not after or after[0].norm != "of":
        return bool(after) and len(after) > 1 and KINDS.get(after[0].norm, "") in HOUSES and after[1].kind == "NUM"
    return len(after) > 1 and (after[1].kind in HOUSES or after[1].kind == "THE")


QUALIFIED = ("quick", "easy", "long", "short", "big", "tricky", "hard", "simple", "tough", "nice", "lovely", "final")
"""Before ``one``, these make it a step."""


def _no_digit(word: Word, before: str, after: Sequence[Word], *, room: bool = False) -> bool:
    """Is the number a count, a pronoun or a label? ``room``: it has no place somewhere, told by who writes no figures."""
    if before in LABELS or before == "#":
        return True
    listed = bool(after) and (
        after[0].kind == "NUM" or (after[0].kind in ("AND", "COMMA") and [w.kind for w in after[1:2]] == ["NUM"])
    )
    if word.norm == "one" and before == "that" and [w.kind for w in after[:2]] == ["NUM", "NUM"]:
        return False  # which means that one three five are in ...
    if word.norm in ("one", "ones") and before in POINTING and not (listed and (word.sounded or before == "only")):
        return True
    if after and after[0].norm in ("end", "side", "candidate", "option") and word.norm == "one":
        return True  # one end or the other
    if word.norm == "one" and before in ("empty", "open", "unfilled", "vacant", "blank") and not listed:
        return True  # the empty one
    if word.norm == "one" and before == "the" and after and after[0].norm in ("still", "yet") and not listed:
        return [w.norm for w in after[1:2]] in ([w] for w in ("empty", "open", "free", "left", "unfilled", "vacant"))
    if word.norm == "one" and before == "a" and after and after[0].norm in ("left", "missing", "remaining"):
        return False  # it only has a one left
    if (
        word.norm == "one"
        and before in ("get", "gets")
        and (not after or after[0].norm in ("so", "and", "okay", "right", "then", ","))
    ):
        return True  # its box does not get one
    if before == "the" and after and after[0].norm == "moves":
        return False  # the 8 moves to r1c2
    if word.norm == "one" and before == "the" and after and after[0].norm in ("it", "they"):
        return True  # the one it kept
    if word.norm == "one" and before in PRONOUN_AFTER and not listed and word.sounded is None:
        return not room
    if word.norm == "one" and before in QUALIFIED and not listed:
        return word.sounded is None  # a quick one
    if word.norm == "one" and before == "is" and [w.norm for w in after[:1]] == ["more"]:
        return True  # there is one more, in r3c5
    if word.norm == "one" and before in ("", ",") and len(after) > 1 and after[0].norm in ("more", "last", "final"):
        return after[1].kind in ("NUM", "PLU")  # one more 8
    if word.norm == "1" and before in ("last", "other", "this", "that", "each", "another") and not listed:
        return True
    if (
        len(after) > 1
        and after[0].norm == "of"
        and before == "the"
        and after[1].kind in ("ROW", "COL", "BOX", "THE", "V", "H", "M")
    ):
        return False  # the one of column 4
    if KINDS.get(before) in ("ROW", "COL", "BOX", "CELLW", "ROWS", "COLS", "BOXES"):
        return False
    listing = before in ("the", "and", "or", ",", "these", "those")
    if word.norm in NUMBERS and not listing and [w.norm for w in after[:1]] == ["are"]:
        # "the one five nine are in" is a list; "in row 4 eight are there" is none.
        return any(w.norm in FILLED and not (w.norm == "in" and is_number(before)) for w in after[1:2])
    if word.norm in NUMBERS and word.value < 5 and after and after[0].kind == "PLU":
        return True  # the two 7s
    if before == "all" and word.norm in ("two", "three", "four") and not listed and (not after or after[0].kind == "W"):
        return True  # all three
    if word.norm == "one" and not before and after and after[0].norm in ("may", "might", "need", "should", "sees", "finds"):
        return word.sounded is None  # one may now put
    if word.norm == "one" and after and after[0].norm == "short":
        return True  # row 9 is one short
    if word.norm == "one" and before not in ("the", "a", "no") and after and after[0].kind in ("ROW", "COL", "BOX"):
        return [w.kind for w in after[1:2]] not in (["NUM"], ["ORD"])  # they all lie in one row
    if before in ("these", "those") and word.norm in NUMBERS and word.value < 5 and (not after or after[0].kind == "W"):
        return True  # these two lose
    if word.norm in NUMBERS and word.value > 1 and after and _plural_noun(after[0]) and before not in ("and", "or"):
        return True  # four cups of tea; "six and seven occupies" is none
    if word.norm == "1" and len(after) > 1 and before not in ("the", "a", "no"):
        one_of_cells = after[0].norm == "of" and after[1].kind in ("ROW", "COL", "RC")
        if one_of_cells or (before in ("only", "just") and after[0].norm in ("missing", "candidate", "option", "possibility")):
            return True
    if before == "only" and word.norm in NUMBERS and after and after[0].norm in ("that", "which", "who", "able", "open"):
        return True  # the only four that take 2, 4, 7 and 8
    rest = iter(after)
    following = next((other.norm for other in rest if other.norm not in BETWEEN), "")
    if after and after[0].norm == "or" and len(after) > 1 and after[1].kind == "NUM":
        following = after[2].norm if len(after) > 2 else ""  # two or three cells
        return following in COUNTED and following not in ("of", "left", "by", "after")
    if word.kind != "NUM" or following not in COUNTED:
        return False
    if following in ("candidate", "candidates", "option", "options", "marks", "notes", "possibilities", "places", "place"):
        return word.norm in NUMBERS and word.value < 5
    if following in ("left", "missing", "more", "of", "after", "by"):
        return word.norm == "one" or (word.norm in NUMBERS and following == "of" and word.value < 5)
    if following in ("pair", "pairs", "triple", "triples", "quad", "quads"):
        return word.norm in ("one", "two") and following.endswith("s")
    return True


def _plural_noun(word: Word) -> bool:
    return word.kind == "W" and len(word.norm) > 3 and word.norm.endswith("s") and word.norm not in NO_NOUNS


def heard(words: Sequence[Word]) -> Iterator[Word]:
    """The words with those taken by sound that have no place in the sentence as they stand."""
    words = [*_smooth(words)]
    said = [word.norm for word in words]
    taken: list[str] = []
    skip = 0
    for at, word in enumerate(words):
        if skip:
            skip -= 1
            continue
        meant = heard_as(said, at, taken)
        if meant is None:
            yield word
            taken.append(word.norm)
            continue
        spelt, length = meant
        last = words[at + length - 1]
        # "r six" is spelt so, and "rows 4 to 6" said so: not misheard.
        as_spoken = word.norm in LETTERS or (word.norm in RANGES and spelt.endswith("and"))
        sounded = None if as_spoken else " ".join(said[at : at + length])
        for norm in spelt.split():
            yield replace(_word(norm, word.start, last.end), sounded=sounded)
            taken.append(norm)
        skip = length - 1


def _untagged(words: Sequence[Word]) -> Iterator[Word]:
    """The words of speech without the questions that people add to what they say: ``it's just a four isn't it``."""
    skip = 0
    for at, word in enumerate(words):
        if skip:
            skip -= 1
        elif at and _adds_question(words, at):
            skip = 2
        else:
            yield word


AFTER_IT_IS = frozenset(
    "in at on not a an the got gotta also just now either going still already over down up to my our your one's "
    "this that all gonna really very quite actually definitely clearly impossible missing down too because and so".split()
)
"""After ``its``, these tell that it is ``it's``."""


def _contracted(words: Sequence[Word]) -> Iterator[Word]:
    """The words of speech with ``its`` for "it is" taken apart, where no noun follows that could belong to it."""
    for at, word in enumerate(words):
        after = words[at + 1 : at + 3]
        line = [other.kind for other in after] in (["ROW", "NUM"], ["COL", "NUM"], ["BOX", "NUM"]) or [
            other.kind for other in after[:1]
        ] in (["RC"], ["RX"], ["CX"], ["BX"])
        if word.norm == "its" and after and (line or after[0].norm in AFTER_IT_IS):
            yield replace(word, norm="it")
            yield replace(word, norm="is")
        else:
            yield word


NEAT = frozenset("neat nice lovely great pretty clever something good fun cute handy convenient beautiful wonderful".split())


def _adds_question(words: Sequence[Word], at: int) -> bool:
    """Does ``isn't it``, ``can't they`` stand there, and neither before a name nor after a word that asks?"""
    verb, denied, who = (*words[at : at + 3], None, None, None)[:3]
    if verb is None or denied is None or who is None or denied.norm != "not" or verb.start != denied.start:
        return False
    asked = {word.norm for word in words[max(0, at - 2) : at]} & {
        "why",
        "what",
        "how",
        "where",
        "which",
        "who",
        "so",
        "because",
    }
    after = words[at + 3] if at + 3 < len(words) else None
    named = after is not None and (after.kind != "W" or after.norm in ("a", "an", "be", "go"))
    if who.norm in ("that", "this"):
        return after is not None and after.norm in NEAT
    return who.norm in ("it", "they", "we", "he", "she") and not named and not asked


def _owns(after: Sequence[Word]) -> bool:
    """``column six has``: is something said of the house itself?"""
    verb = after[2].norm if len(after) == 3 and after[1].kind == "NUM" else ""
    return verb in ("has", "have", "had", "holds", "contains", "needs", "wants", "already", "is")


def _thinks_inside(words: Sequence[Word], at: int) -> bool:
    """Does a sound of thinking stand inside a name: ``row five um column three``, ``rows 2 and uh 5``?"""
    last, after = words[at - 1], words[at + 1]
    before = words[at - 2].kind if at > 1 else ""
    told = [word.kind for word in words[max(0, at - 4) : at - 2]]
    if told in (["NUM", "OF"], ["PLU", "OF"]) and _owns(words[at + 1 : at + 4]):
        return False  # seven in row one um column six has got a seven
    if after.kind == "NUM":
        whole = [word.kind for word in words[max(0, at - 4) : at]] in (
            ["ROW", "NUM", "COL", "NUM"],
            ["COL", "NUM", "ROW", "NUM"],
        )
        return names_house(last.norm) or (last.kind in ("AND", "NUM", "COMMA") and not whole)  # row 7 column 2 um 3 and 5 are
    if after.kind == "AND" or last.kind == "AND":
        return "NUM" in (last.kind, before)
    line = words[at - 2].norm if at > 1 and last.kind == "NUM" else ""
    named = last.kind in ("RX", "CX") or names_house(line) or line in LETTERS
    return named and (after.kind in ("ROW", "RX", "COL", "CX") or after.norm == "c")


def _smooth(words: Sequence[Word]) -> Iterator[Word]:
    """Without what parts the words of a name: hyphens inside, words said twice, fillers."""
    last: Word | None = None
    for at, word in enumerate(words):
        after = words[at + 1] if at + 1 < len(words) else None
        if last is not None and after is not None:
            touching = word.start == last.end and word.end == after.start
            if word.norm == "-" and touching and not last.kind == after.kind == "NUM":
                continue
            if word.norm in FILLERS and _thinks_inside(words, at):
                continue
        if last is not None and word.norm == last.norm and word.norm in STUTTERED:
            continue
        if last is not None and last.sounded and last.start == word.start:
            continue
        own = owned([w.norm for w in words[at + 2 : at + 4]], last.norm if last is not None else "")
        if word.norm == "it" and after and after.start == word.start and own:
            word = replace(word, norm="its", sounded="it's")
        yield word
        last = word
