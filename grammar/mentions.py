"""Cells, houses and digits as a sentence names them: lark finds the phrases, this gives them meaning on a board."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise, product, zip_longest
from typing import Any

from lark import Token, Tree
from lark.grammar import NonTerminal, Symbol

from .naming import NAMING, parsed, whole
from .statements import Said
from .vocabulary import Cell, Geometry, House
from .words import OF_A_LINE, Script, Word

HEADS = frozenset("ONE NUM PLU RC RX CX BX PAIR ROW COL BOX ROWS COLS BOXES CELLW BESIDE NEARBOX".split())
OF_TWO = ("have", "both", "are", "hold", "contain", "own", "do", "lack", "rule", "exclude", "share", "see", "meet")
"""Verbs of several."""
EDGE = ""
LONGEST_RUN = 40
"""Words. A longer list of names is read in parts, as far as it can be between two names."""


@dataclass(frozen=True)
class Mention:
    """One phrase: ``cells``, ``houses`` or ``digits``, and the words from ``start`` to ``end`` of its sentence.

    ``breaks``: the places in ``values`` before which ", and" stands; ``commas``: those before which a comma does. ``choice``:
    joined by ``or``. ``parts``: of every phrase of the list the place in ``values`` and the word it begins with. ``plural``:
    digits as ``the 7s``. ``last``: how many of the values the last phrase of the list stands for,
    and ``tail`` where it begins.
    """

    kind: str
    values: tuple[Said[Any], ...]
    start: int
    end: int
    choice: bool = False
    last: int = 1
    plural: bool = False
    breaks: tuple[int, ...] = ()
    tail: int = 0
    commas: tuple[int, ...] = ()
    parts: tuple[tuple[int, int], ...] = ()

    @property
    def bare(self) -> tuple[Any, ...]:
        """The values without their places."""
        return tuple(said.value for said in self.values)


def mentions(
    words: Sequence[Word], script: Script, geometry: Geometry, named: House | None = None, last: Cell | None = None
) -> tuple[list[Mention], list[Word]]:
    """The phrases of a sentence in order, and words that name what this board does not have.

    ``named``: the house that the sentences before were about, which "the fourth cell" is in if this one names none. ``last``:
    the last cell that they named, whose row "the same row" is.
    """
    # Articles tell nothing, but for "the cell in"; without them the runs are shorter, and sooner parsed.
    following = [*(word.kind for word in words[1:]), ""]
    before = ["", *(word.kind for word in words)]
    kept = [
        at
        for at, word in enumerate(words)
        if word.kind != "THE"
        or following[at] == "CELLW"
        or (before[at] == "CELLW" and following[at] == "NUM")  # "make the row-2 cell a 7"
        or (script.punctuated and before[at] in ("ROW", "COL", "BOX") and following[at] == "NUM")  # "that box the 2"
    ]
    found, astray = _without_articles([words[at] for at in kept], script, geometry, named, last)
    found = [*_without_apposed(found, [words[at] for at in kept])]
    return [
        replace(
            mention,
            start=kept[mention.start],
            end=kept[mention.end - 1] + 1,
            tail=kept[mention.tail],
            parts=tuple((number, kept[at]) for number, at in mention.parts),
        )
        for mention in found
    ], astray


def _without_apposed(found: Sequence[Mention], words: Sequence[Word]) -> Iterator[Mention]:
    """``The very first cell: r6c1``: of what house the first is said by the cell's own name, which follows."""
    for mention, following in zip_longest(found, found[1:]):
        bare = {word.kind for word in words[mention.start : mention.end]} <= {"THE", "ORD", "CELLW", "LAST"}
        between = [word.norm for word in words[mention.end : following.start]] if following is not None else []
        named = following is not None and mention.kind == following.kind == "cells" and between == [":"]
        if not (named and bare):
            yield mention


def _without_articles(
    words: Sequence[Word], script: Script, geometry: Geometry, named: House | None, last: Cell | None
) -> tuple[list[Mention], list[Word]]:
    trees = [(start, parsed(" ".join(word.kind for word in words[start:end]))) for start, end in _runs(words)]
    found, astray = _read(trees, words, script, geometry, None, last)
    if any(next(tree.find_pred(lambda part: part.data in ("here", "one", "inside")), None) is not None for _, tree in trees):
        # "Put a five in its first cell, for row 4 has no other place": the house may come after its cell.
        own = next((mention.bare[0] for mention in found if mention.kind == "houses" and len(mention.bare) == 1), named)
        of_line = any(next(tree.find_pred(lambda part: part.data in ("one", "inside")), None) is not None for _, tree in trees)
        found, astray = _read(trees, words, script, geometry, named or own if of_line else own, last)
    return found, astray


def _read(
    trees: Sequence[tuple[int, Tree[Token]]],
    words: Sequence[Word],
    script: Script,
    geometry: Geometry,
    named: House | None,
    last: Cell | None,
) -> tuple[list[Mention], list[Word]]:
    found: list[Mention] = []
    astray: list[Word] = []
    for start, tree in trees:
        reader = _PhraseReader(words, start, script, geometry, astray)
        cell = next((mention.bare[-1] for mention in reversed(found) if mention.kind == "cells"), last)
        found += [*reader.read(tree, _last_house(found) or named, cell)]
    return [*_listed_lines(found, words)], astray


def _listed_lines(found: Sequence[Mention], words: Sequence[Word]) -> Iterator[Mention]:
    """Lists of lines that were taken apart by a cell of two of them: ``rows 4, 6 and 9, column 5, column 6 and column 7``.

    A fish has as many lines one way as the other. ``The cells of row 6 in column 2, column 5 and column 8`` go on in the row.
    """
    kept = [*found]
    for at in range(len(kept) - 1):
        one, other = kept[at], kept[at + 1]
        between = [word.kind for word in words[one.end : other.start]]
        if not set(between) <= {"AND", "COMMA", "THE"} or {one.kind, other.kind} != {"cells", "houses"}:
            continue
        cells, lines = (one, other) if one.kind == "cells" else (other, one)
        kinds = {house.kind for house in lines.bare}
        if kinds not in ({"r"}, {"c"}) or one.choice or other.choice:
            continue
        kind = kinds.pop()
        numbers = [(cell.row, cell.column) for cell in cells.bare]
        along = {row if kind == "r" else column for row, column in numbers}
        across = {column if kind == "r" else row for row, column in numbers}
        spelt = {word.kind for word in words[cells.start : cells.end]}.isdisjoint(("RC", "CELLW", "PAIR"))
        equal = len(along) == 1 and len(across) == len(numbers) == len(lines.values) + 1 > 1
        if equal and spelt and along.isdisjoint(house.number for house in lines.bare):
            inner = [Said(House(kind, along.pop()), cells.values[0].span)]
            crossing = [
                Said(House("rc"[kind == "r"], c if kind == "r" else r), s.span) for s, (r, c) in zip(cells.values, numbers)
            ]
            cut = _where_lines_meet(words, cells, kind, cells is one)
            if cells is one:
                kept[at] = Mention("houses", tuple(crossing), one.start, cut)
                kept[at + 1] = Mention("houses", (*inner, *lines.values), cut, other.end)
            else:
                kept[at] = Mention("houses", (*lines.values, *inner), one.start, cut)
                kept[at + 1] = Mention("houses", tuple(crossing), cut, other.end)
        elif cells is one and len(numbers) == 1 and {"cells", "squares"} & {w.norm for w in words[one.start : one.start + 2]}:
            (row, column) = numbers[0]
            more = [
                Said(Cell(h.value.number, column) if kind == "r" else Cell(row, h.value.number), h.span) for h in lines.values
            ]
            kept[at] = replace(one, values=(*one.values, *more), end=other.end, tail=other.start)
            kept[at + 1] = replace(other, values=())
    return iter([mention for mention in kept if mention.values])


def _where_lines_meet(words: Sequence[Word], cells: Mention, kind: str, after: bool) -> int:
    """The word at which the other lines of the cells begin. ``after``: those of the list are named last."""
    own, other = {"r": (("ROW", "RX"), ("COL", "COLS", "CX")), "c": (("COL", "CX"), ("ROW", "ROWS", "RX"))}[kind]
    first, second = (other, own) if after else (own, other)
    houses = [at for at in range(cells.start, cells.end) if words[at].kind in first]
    begins = next((at for at in range(cells.start, cells.end) if words[at].kind in second), cells.end - 1)
    ends = houses[-1] if houses else cells.start
    if begins and words[begins - 1].kind in ("ORD", "V", "H", "M"):
        begins = ends + 1  # "the eighth row and the fourth, seventh and ninth columns"
        while begins < cells.end - 1 and words[begins].kind in ("AND", "COMMA", "THE", "OF", "ON"):
            begins += 1
    return begins


def _last_house(found: Sequence[Mention]) -> House | None:
    """The house that "its fourth cell" is in."""
    return next((mention.bare[0] for mention in reversed(found) if mention.kind == "houses" and len(mention.bare) == 1), None)


def _runs(words: Sequence[Word]) -> Iterator[tuple[int, int]]:
    """Stretches of words that may be phrases. They part wherever no phrase can go on: short ones are parsed sooner."""
    start = None
    for at in range(len(words) + 1):
        inside = at < len(words) and words[at].kind in NAMING
        parted = start is not None and (not inside or _too_long(words[at], at - start))
        parted = parted or (start is not None and (words[at - 1].kind, words[at].kind) not in _neighbours())
        if start is not None and parted:
            end = at
            while end > start and (words[end - 1].kind, EDGE) not in _neighbours():
                end -= 1
            if any(word.kind in HEADS for word in words[start:end]):
                yield start, end
            start = None
        if inside and start is None and (EDGE, words[at].kind) in _neighbours():
            start = at


def _too_long(word: Word, length: int) -> bool:
    return length >= (LONGEST_RUN if word.kind in ("AND", "COMMA") else 2 * LONGEST_RUN)


@cache
def _neighbours() -> frozenset[tuple[str, str]]:
    """Which kind of word may follow which within one phrase, by the grammar; ``EDGE``: which may begin and end one."""
    rules = [rule for rule in whole().rules if not rule.origin.name.startswith(("start", "__start"))]
    first: dict[Symbol, set[str]] = defaultdict(set)
    last: dict[Symbol, set[str]] = defaultdict(set)
    for ends, side in ((first, 0), (last, -1)):
        grown = True
        while grown:
            grown = False
            for rule in rules:
                symbol = rule.expansion[side]
                reached = ends[rule.origin] | ({symbol.name} if symbol.is_term else ends[symbol])
                grown = grown or reached != ends[rule.origin]
                ends[rule.origin] = reached
    pairs = {pair for rule in rules for pair in pairwise(rule.expansion)}
    item = NonTerminal("item")
    edges = {(EDGE, kind) for kind in first[item]} | {(kind, EDGE) for kind in last[item]}
    return frozenset(edges) | frozenset(
        pair
        for left, right in pairs
        for pair in product(
            [left.name] if left.is_term else last[left],
            [right.name] if right.is_term else first[right],
        )
    )


def _same(tree: Tree[Token]) -> list[Token]:
    """The words of "the same row" in a name."""
    return [token for part in tree.find_pred(lambda part: part.data == "same") for token in _tokens(part)]


class _OffBoard(Exception):
    """A number that this board does not have."""


class _Unknown(_OffBoard):
    """A box to the left of none, or of one that was not told: another may be meant."""


class _PhraseReader:
    def __init__(self, words: Sequence[Word], start: int, script: Script, geometry: Geometry, astray: list[Word]) -> None:
        self.words = words
        self.script = script
        self.geometry = geometry
        self.astray = astray
        self.named: House | None = None
        """The last single house that the sentence named."""
        self.cell: Cell | None = None
        """The last cell that it named."""
        self.places: dict[int, int] = {}
        at = 0
        for index, word in enumerate(words[start:], start):
            self.places[at] = index
            at += len(word.kind) + 1

    def read(self, tree: Tree[Token], named: House | None, cell: Cell | None) -> Iterator[Mention]:
        self.named, self.cell = named, cell
        for item in tree.children:
            if not isinstance(item, Tree):
                continue
            (phrase,) = item.children
            if not isinstance(phrase, Tree) or phrase.data == "loose":
                continue
            at = [self.places[token.start_pos or 0] for token in _tokens(phrase)]
            choice = any(word.norm == "or" for word in self.words[at[0] : at[-1] + 1])
            try:
                for mention in self.phrase(phrase, at[0], at[-1] + 1):
                    plural = any(word.kind == "PLU" for word in self.words[at[0] : at[-1] + 1])
                    if mention.kind == "houses" and len(mention.values) == 1:
                        self.named = mention.bare[0]
                    if mention.values:
                        yield replace(mention, choice=choice, plural=plural)
            except _Unknown:
                continue
            except _OffBoard:
                self.astray += self.words[at[0] : at[-1] + 1]

    def phrase(self, tree: Tree[Token], start: int, end: int) -> Iterator[Mention]:
        if tree.data == "digits":
            yield from self.digits(tree)
        elif tree.data == "houses":
            houses = tuple(said for child in tree.children if isinstance(child, Tree) for said in self.houses(child))
            yield Mention("houses", houses, start, end)
        else:
            cells: list[list[Said[Cell]]] = []
            breaks, commas, parts, count, tail = [], [], [], 0, start
            for child in tree.children:
                if isinstance(child, Tree):
                    first = self.places[_tokens(child)[0].start_pos or 0]
                    if not count and cells and start < first:
                        # "Of all the cells of row 1, the seventh cell": the house comes by itself before a cell of it.
                        yield from self.lines(tree.children[: tree.children.index(child)], start, first)
                        start = first
                    between = [word.norm for word in self.words[max(0, first - 3) : first] if word.norm not in ("the", "a")][
                        -2:
                    ]
                    if cells and between == [",", "and"]:
                        breaks.append(count)
                    if cells and between[-1:] == [","]:
                        commas.append(count)
                    cells.append(self.cells(child))
                    parts.append((count, first))
                    count, tail = count + len(cells[-1]), first
                    self.cell = cells[-1][-1].value if cells[-1] else self.cell
            if (count == 1 and self.two_lines(tree, end)) or (count > 1 and self.each_line(tree, end)):
                yield Mention("houses", tuple(self.both_lines(tree)), start, end)
            elif count:
                named = tuple(said for part in cells for said in part)
                last = len(cells[-1])
                yield Mention(
                    "cells",
                    named,
                    start,
                    end,
                    last=last,
                    tail=tail,
                    breaks=tuple(breaks),
                    commas=tuple(commas),
                    parts=tuple(parts),
                )
            elif all(
                child.data in ("one", "inside", "along")
                for child in tree.find_pred(lambda part: part.data in ("one", "inside", "along", "cell", "nth"))
            ):
                yield from self.lines([tree], start, end)

    def two_lines(self, tree: Tree[Token], end: int) -> bool:
        """Is it of two lines that something is said, and not of the cell in both: ``row 6 and column 2 have it``?"""
        joined = any(token.type == "AND" for token in _tokens(tree))
        parted = joined and any(token.type == "COMMA" for token in _tokens(tree))  # "so it's in row 4, and column 3 has an 8"
        verb = self.words[end].norm if end < len(self.words) else ""
        return joined and (verb in OF_TWO or (parted and verb in OF_A_LINE))

    def each_line(self, tree: Tree[Token], end: int) -> bool:
        """Do several lines "each have" a digit, and no cells: ``row 4, column 8 and column 9 each have one``?"""
        words = [word.norm for word in self.words[end : end + 2]]
        lines = not any(tree.find_pred(lambda part: part.data in ("next", "nth", "here", "pair")))
        alone = all(token.type != "RC" for token in _tokens(tree)) and len([*self.both_lines(tree)]) > 2
        return lines and alone and words[:1] in (["each"], ["all"]) and words[1:] == ["have"]

    def both_lines(self, tree: Tree[Token]) -> Iterator[Said[House]]:
        for line in tree.find_pred(lambda part: part.data in ("row", "col", "rows", "cols")):
            yield from self.houses(line)

    def digits(self, tree: Tree[Token]) -> Iterator[Mention]:
        """``row 3 has a 6, the 6 of that box ...``: a list names no digit twice, so another name begins there."""
        values: list[Said[int]] = []
        start = end = 0
        for token in _tokens(tree):
            said = self.digit(token)
            at = self.places[token.start_pos or 0]
            if {one.value for one in said} & {one.value for one in values}:
                yield Mention("digits", tuple(values), start, end, tail=end - 1)
                values = []
            if said:
                start, end = at if not values else start, at + 1
                values += said
        yield Mention("digits", tuple(values), start, end, tail=end - 1)

    def lines(self, trees: Sequence[Any], start: int, end: int) -> Iterator[Mention]:
        """The lines of "the cells of row 1", where no line is spoken of that they cross."""
        parts = [
            part
            for tree in trees
            if isinstance(tree, Tree)
            for part in tree.find_pred(lambda part: part.data in ("one", "inside", "along"))
        ]
        lines = [line for part in parts for line in part.children if isinstance(line, Tree) and line.data != "same"]
        if lines:
            yield Mention("houses", tuple(said for line in lines for said in self.houses(line)), start, end)

    def word(self, token: Token) -> Word:
        return self.words[self.places[token.start_pos or 0]]

    def said(self, value: Any, tokens: Sequence[Token]) -> Said[Any]:
        tokens = [token for token in tokens if token.type not in ("THE", "AND", "COMMA", "LP", "RP")] or list(tokens)
        return Said(value, self.script.span(self.word(tokens[0]).start, self.word(tokens[-1]).end))

    def number(self, number: int) -> int:
        if number < 0:  # counted from the other end
            number += self.geometry.size + 1
        if not 1 <= number <= self.geometry.size:
            raise _OffBoard
        return number

    def numbers(self, word: Word) -> tuple[int, ...]:
        """``38`` is 3 and 8 on boards with one-figure digits."""
        if word.value > self.geometry.size and self.geometry.size < 10 and len(set(word.values)) == len(word.values):
            return tuple(map(self.number, word.values))
        return (self.number(word.value),)

    def digit(self, token: Token) -> list[Said[int]]:
        if token.type not in ("NUM", "PLU"):
            return []
        return [self.said(number, [token]) for number in self.numbers(self.word(token))]

    def houses(self, tree: Tree[Token]) -> list[Said[House]]:
        tokens = _tokens(tree)
        if tree.data in ("rows", "cols", "boxes"):
            kind = {"rows": "r", "cols": "c", "boxes": "b"}[tree.data]
            return [self.said(House(kind, self.number(self.word(t).value)), [t]) for t in tokens if t.type in ("NUM", "ORD")]
        return [self.said(self.house(tree), tokens)]

    def house(self, tree: Tree[Token]) -> House:
        if tree.data == "box":
            return House("b", self.box(tree))
        kind = "r" if tree.data == "row" else "c"
        for child in tree.children:
            if isinstance(child, Tree):
                return House(kind, self.line_of_box(child, kind))
        token = next(t for t in _tokens(tree) if t.type not in ("ROW", "COL", "THE"))
        size = self.geometry.size
        if token.type in ("NUM", "ORD", "RX", "CX"):
            return House(kind, self.number(self.word(token).value))
        if token.type == "LAST":
            return House(kind, size)
        return House(kind, self.part(token, 1, size))

    def part(self, token: Token, first: int, last: int) -> int:
        """The first, middle or last of a range, by a word of place."""
        if token.type == "M":
            if (last - first) % 2:
                raise _OffBoard
            return (first + last) // 2
        word = self.word(token).norm
        return first if word.startswith(("top", "upper", "left")) else last

    def line_of_box(self, tree: Tree[Token], kind: str) -> int:
        box = next((child for child in tree.children if isinstance(child, Tree)), None)
        number = self.box(box) if box is not None else self.near_box(0, 0)
        cells = self.geometry.cells_of[House("b", number)]
        lines = sorted({cell.row if kind == "r" else cell.column for cell in cells})
        token = next(t for t in tree.children if isinstance(t, Token) and t.type in ("V", "H", "M", "ORD"))
        if token.type == "ORD":
            value = self.word(token).value
            # The fourth row of a box is no row of it, but of the grid.
            if value < 0:
                return lines[value] if -value <= len(lines) else self.number(value)
            return lines[value - 1] if value <= len(lines) else self.number(value)
        return self.part(token, lines[0], lines[-1])

    def box(self, tree: Tree[Token]) -> int:
        for token in _tokens(tree):
            if token.type in ("NUM", "ORD", "BX"):
                return self.number(self.word(token).value)
            if token.type == "NEARBOX":
                return self.near_box(*self.word(token).values)
        place, *bands = (child for child in tree.children if isinstance(child, Tree))
        across, down = self.geometry.size // self.geometry.box_width, self.geometry.size // self.geometry.box_height
        tokens = _tokens(place)
        for band in bands:
            # Of the boxes side by side, or one above the other, the first place says which.
            one, other = self.part(tokens[-1], 1, across), self.part(_tokens(band)[-2], 1, down)
            stacked = self.word(_tokens(band)[-1]).norm == "stack"
            return (one - 1) * across + other if stacked else (other - 1) * across + one
        vertical = next((t for t in tokens if t.type == "V"), None)
        level = next((t for t in tokens if t.type == "H"), None)
        middle = next((t for t in tokens if t.type == "M"), None)
        if middle is None and (vertical is None or level is None):
            return self.end_box(tokens, down, across)
        row = self.part(vertical or middle or tokens[0], 1, down)
        column = self.part(level or middle or tokens[0], 1, across)
        return (row - 1) * across + column

    def end_box(self, tokens: Sequence[Token], down: int, across: int) -> int:
        """``The box at the bottom``, of a column that was named; of none it does not say which."""
        line = self.named
        if line is None or line.kind != ("c" if tokens[0].type == "V" else "r"):
            raise _Unknown
        if line.kind == "c":
            row, column = self.part(tokens[0], 1, down) - 1, (line.number - 1) // self.geometry.box_width
        else:
            row, column = (line.number - 1) // self.geometry.box_height, self.part(tokens[0], 1, across) - 1
        return row * across + column + 1

    def near_box(self, down: int, along: int) -> int:
        """The box so many below, and to the right of, the one spoken of, or that of the last cell."""
        across, height = self.geometry.size // self.geometry.box_width, self.geometry.size // self.geometry.box_height
        near = [self.named] if self.named is not None else [*self.geometry.houses_of[self.cell]] if self.cell else []
        for house in near:
            row, column = divmod(house.number - 1, across)
            if house.kind == "b" and 0 <= row + down < height and 0 <= column + along < across:
                return (row + down) * across + column + along + 1
        raise _Unknown

    def cells(self, tree: Tree[Token]) -> list[Said[Cell]]:
        tokens = _tokens(tree)
        if tree.data == "pair" or tokens[0].type == "RC":
            word = self.word(next(token for token in tokens if token.type in ("RC", "PAIR")))
            first, second = reversed(word.values) if tree.data == "pair" and self.script.columns_first else word.values
            if self.geometry.size > 9 or tree.data == "pair":
                return [self.said(Cell(self.number(first), self.number(second)), tokens)]
            pairs = product(map(int, str(first)), map(int, str(second)))
            return [self.said(Cell(self.number(row), self.number(column)), tokens) for row, column in pairs]
        if tree.data == "nth":
            return self.nth(tree, tokens)
        if tree.data == "next":
            return self.neighbour(tree, tokens)
        if tree.data == "along":
            return self.along(tree, tokens)
        if tree.data in ("one", "inside"):
            return self.crossing(tree, tokens)
        if tree.data == "here":
            members = self.geometry.cells_of[self.named] if self.named else ()
            corners = [child for child in tree.children if isinstance(child, Tree) and child.data == "corner"]
            if corners:
                boxed = self.named is not None and self.named.kind == "b"
                return [self.said(self.at_place(corner, "box", members), _tokens(corner)) for corner in corners if boxed]
            numbers = [token for token in tokens if token.type == "ORD"] if members else []
            return [self.said(members[self.number(self.word(token).value) - 1], [token]) for token in numbers]
        rows: list[Said[House]] = []
        columns: list[Said[House]] = []
        for child in tree.children:
            if isinstance(child, Tree):
                (rows if child.data in ("row", "rows") else columns).extend(self.houses(child))
        cells = [Cell(row.value.number, column.value.number) for row, column in product(rows, columns)]
        if len(cells) == 1:
            return [self.said(cells[0], tokens)]
        spans = [(columns if len(columns) > 1 else rows)[at].span for at in range(len(cells))]
        return [Said(cell, span) for cell, span in zip(cells, spans)]

    def nth(self, tree: Tree[Token], tokens: Sequence[Token]) -> list[Said[Cell]]:
        house = next(c for c in tree.children if isinstance(c, Tree) and c.data in ("row", "col", "box", "same"))
        members = self.geometry.cells_of[self.same(house) if house.data == "same" else self.house(house)]
        said: list[Said[Cell]] = []
        for child in tree.children:
            if isinstance(child, Tree) and child.data in ("ords", "nums"):
                for token in _tokens(child):
                    if token.type in ("ORD", "NUM"):
                        said.append(self.said(members[self.number(self.word(token).value) - 1], [token]))
            elif isinstance(child, Tree) and child.data == "place":
                said.append(self.said(self.at_place(child, str(house.data), members), _tokens(child)))
            elif isinstance(child, Token) and child.type == "M":
                if len(members) % 2 == 0:
                    raise _OffBoard
                said.append(self.said(members[len(members) // 2], tokens))  # the centre of box 6
            elif isinstance(child, Token) and child.type in ("NUM", "ORD"):
                said.append(self.said(members[self.number(self.word(child).value) - 1], tokens))
        return said if len(said) > 1 else [Said(cell.value, self.said(None, tokens).span) for cell in said]

    def neighbour(self, tree: Tree[Token], tokens: Sequence[Token]) -> list[Said[Cell]]:
        """The cell next to the one that the words name, or to the last one named."""
        named = next((child for child in tree.children if isinstance(child, Tree)), None)
        cell = self.cell if named is None else self.cells(named)[0].value
        down, along = self.word(tokens[0]).values
        row, column = (cell.row + down, cell.column + along) if cell is not None else (0, 0)
        if named is None and not (0 < row <= self.geometry.size and 0 < column <= self.geometry.size):
            return []  # no cell is left to it: another was meant
        return [self.said(Cell(self.number(row), self.number(column)), tokens)]

    def along(self, tree: Tree[Token], tokens: Sequence[Token]) -> list[Said[Cell]]:
        """Where the line meets the same row or column as before; none where the line goes the same way."""
        (line,) = tree.find_pred(lambda part: part.data in ("row", "col"))
        across, same = self.house(line), "r" if any(token.type == "ROW" for token in _same(tree)) else "c"
        number = self.named.number if self.named and self.named.kind == same else 0
        if not number and self.cell is not None:
            number = self.cell.row if same == "r" else self.cell.column
        if not number or across.kind == same:
            return []
        return [self.said(Cell(number, across.number) if same == "r" else Cell(across.number, number), tokens)]

    def crossing(self, tree: Tree[Token], tokens: Sequence[Token]) -> list[Said[Cell]]:
        """The cells of the line spoken of that lie in these."""
        lines = self.houses(next(child for child in tree.children if isinstance(child, Tree)))
        about = self.named
        several = tree.data == "inside" and any(self.word(token).norm in ("cells", "squares") for token in tokens)
        if several and len(lines) == 1:
            return []  # "the cells of column 4" are all of them
        if about is None or any({about.kind, line.value.kind} != {"r", "c"} for line in lines):
            return []
        pairs = [(line.value, about) if line.value.kind == "r" else (about, line.value) for line in lines]
        cells = [Cell(row.number, column.number) for row, column in pairs]
        if len(cells) == 1:
            return [self.said(cells[0], tokens)]
        return [Said(cell, line.span) for cell, line in zip(cells, lines)]

    def same(self, tree: Tree[Token]) -> House:
        """The house of that kind that the last cell lies in; of "that row" the one named last, if the cell lies in it."""
        first, last = _tokens(tree)[0], _tokens(tree)[-1]
        kind = {"ROW": "r", "COL": "c", "BOX": "b"}[last.type]
        named = self.named if self.named is not None and self.named.kind == kind and self.word(first).norm != "same" else None
        if named is not None and (self.cell is None or self.cell in self.geometry.cells_of[named]):
            return named
        if self.cell is None:
            raise _OffBoard
        return next(house for house in self.geometry.houses_of[self.cell] if house.kind == kind)

    def at_place(self, place: Tree[Token], kind: str, members: Sequence[Cell]) -> Cell:
        tokens = _tokens(place)
        if kind != "box":
            return members[self.part(tokens[0], 1, self.geometry.size) - 1]
        vertical = next((t for t in tokens if t.type in ("V", "M")), tokens[0])
        level = next((t for t in reversed(tokens) if t.type in ("H", "M")), tokens[0])
        row = self.part(vertical, members[0].row, members[-1].row)
        return Cell(row, self.part(level, members[0].column, members[-1].column))


def _tokens(tree: Any) -> list[Token]:
    if isinstance(tree, Token):
        return [tree]
    return [token for child in tree.children for token in _tokens(child)]
