"""A board as a drawing (SVG), for the page and for pictures alike: what can be drawn, and where it goes.

A drawing is a frame (paper, lines, the numbers of rows and columns) and *pieces* put on it: a piece is a symbol, drawn once,
and the place it goes to. So a program that can put a symbol in a place can show every step of a walkthrough, and knows no more
of drawing than that. Nothing here needs a font.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from functools import cache, cached_property
from typing import NamedTuple

from ..grammar.vocabulary import Candidate, Cell, Geometry, House
from .board import Board
from .glyphs import FIGURES, HEIGHT, LETTERS, SIGNS, WIDTH

LIGHT = {
    "paper": "#fffdf8",
    "given": "#e9e6dc",
    "line": "#aaa899",
    "wall": "#1b2a3a",
    "ink": "#17222e",
    "faint": "#5b6470",
    "fact": "#1a66a8",
    "proved": "#12694a",
    "unproved": "#9a5200",
    "refuted": "#a80038",
    "other": "#5b6470",
}
DARK = {
    "paper": "#101c28",
    "given": "#22303d",
    "line": "#5d6b78",
    "wall": "#d9d3c2",
    "ink": "#f1ecdf",
    "faint": "#aab4bd",
    "fact": "#5aa9f5",
    "proved": "#86efd2",
    "unproved": "#f5b041",
    "refuted": "#ff6fa8",
    "other": "#aab4bd",
}
"""What each colour is for, by day and by night. Every mark has a shape and a sign of its own besides."""

KINDS = ("proved", "unproved", "refuted", "idle", "unknown", "fallen")
"""What may have become of an effect: the kinds of marks."""

LEAD, TAIL = 30, 28
"""Room before the board for the numbers of rows and columns, and after it for tags."""

SLOT, EDGE, CREST = 20, 7, 10
"""The side of a candidate's place; the room left and right of the places in a cell; the room above them, for badges."""


class Piece(NamedTuple):
    """A symbol, by name, and the number of the place it is put in."""

    symbol: str
    place: int


Where = Cell | Candidate | House


class Sheet:
    """The drawing of one kind of board: its measures, its symbols and its places.

    ``side``: of the whole drawing, in its own units. ``places``: the top left corner of every cell, candidate and house, and
    the middle of every tag (of a cell or a house) and badge (of a cell).
    """

    def __init__(self, geometry: Geometry) -> None:
        self.geometry = geometry
        self.cell = max(geometry.box_width, geometry.box_height, 3) * SLOT + 2 * EDGE
        self.side = LEAD + geometry.size * self.cell + TAIL
        self.prefix = f"b{geometry.size}-"
        inner = self.cell - 2 * EDGE
        self.slot = (inner // geometry.box_width, inner // geometry.box_height)
        self.places: list[tuple[int, int]] = []
        self._numbers: dict[tuple[str, Where], int] = {}
        for cell in geometry.cells:
            x, y = self._corner(cell)
            self._put("cell", cell, x, y)
            self._put("tag", cell, x + 8, y + 8)
            self._put("badge", cell, x + self.cell - 8, y + 8)
            for digit in geometry.digits:
                down, across = divmod(digit - 1, geometry.box_width)
                left, top = x + EDGE + across * self.slot[0], y + CREST + down * self.slot[1]
                self._put("candidate", Candidate(cell, digit), left, top)
        for house, cells in geometry.cells_of.items():
            x, y = self._corner(cells[0])
            self._put("house", house, x, y)
            self._put("tag", house, *self._house_tag(house, x, y))

    def _put(self, kind: str, where: Where, x: int, y: int) -> None:
        self._numbers[kind, where] = len(self.places)
        self.places.append((x, y))

    def _corner(self, cell: Cell) -> tuple[int, int]:
        return LEAD + (cell.column - 1) * self.cell, LEAD + (cell.row - 1) * self.cell

    def _house_tag(self, house: House, x: int, y: int) -> tuple[int, int]:
        """Rows have their tag at the right of the board, columns below it, boxes in the middle of their upper edge."""
        length, half = self.geometry.size * self.cell, self.cell // 2
        if house.kind == "r":
            return x + length + TAIL // 2, y + half
        if house.kind == "c":
            return x + half, y + length + TAIL // 2
        return x + self.geometry.box_width * half, y + 8

    def piece(self, symbol: str, kind: str, where: Where) -> Piece:
        """The symbol, put in the place of that kind (``cell``, ``candidate``, ``house``, ``tag``, ``badge``)."""
        return Piece(symbol, self._numbers[kind, where])

    def cell_of(self, piece: Piece) -> int:
        """In which cell, from 0 in reading order, a digit or candidate is. Cells have the same number of places each."""
        return piece.place // (self.geometry.size + 3)

    def board(self, board: Board, givens: Collection[Cell]) -> list[Piece]:
        """What a board shows: digits in the cells that are filled, candidates in the others. ``givens`` look like print."""
        pieces = []
        for cell in board.geometry.cells:
            if cell in board.filled:
                kind = "given" if cell in givens else "digit"
                pieces += [self.piece(f"{kind}{digit}", "cell", cell) for digit in board.candidates(cell)]
            else:
                candidates = board.candidates(cell)
                pieces += [self.piece(f"candidate{digit}", "candidate", Candidate(cell, digit)) for digit in candidates]
        return pieces

    @cached_property
    def symbols(self) -> dict[str, str]:
        """Every symbol by name, as SVG drawn from the place it will be put in."""
        return dict(_digits(self)) | _cell_marks(self) | _candidate_marks(self) | _labels()

    def definitions(self, names: Collection[str]) -> str:
        """The symbols of these names, as SVG elements that ``use`` elements refer to."""
        return "".join(f'<g id="{self.prefix}{name}">{drawn}</g>' for name, drawn in self.symbols.items() if name in names)

    def frame(self, givens: Collection[Cell]) -> str:
        """Paper (tinted where the givens are), lines, and the numbers of rows and columns."""
        size, cell, length = self.geometry.size, self.cell, self.geometry.size * self.cell
        end = LEAD + length
        corners = [self._corner(given) for given in sorted(givens)]
        tint = "".join(f"M{x} {y}h{cell}v{cell}h-{cell}Z" for x, y in corners)
        lines: list[str] = []
        walls: list[str] = []
        numbers = []
        for at in range(size + 1):
            place = LEAD + at * cell
            (walls if at % self.geometry.box_width == 0 else lines).append(f"M{place} {LEAD}V{end}")
            (walls if at % self.geometry.box_height == 0 else lines).append(f"M{LEAD} {place}H{end}")
        for at in range(size):
            middle = LEAD + at * cell + cell // 2
            numbers.append(_figures(str(at + 1), LEAD // 2, middle, 0.8) + _figures(str(at + 1), middle, LEAD // 2, 0.8))
        return (
            f'<path class="paper" d="M{LEAD} {LEAD}H{end}V{end}H{LEAD}Z"/><path class="print" d="{tint}"/>'
            f'<path class="line" d="{"".join(lines)}"/><path class="wall" d="{"".join(walls)}"/>'
            f'<g class="axis">{"".join(numbers)}</g>'
        )

    def use(self, piece: Piece, more: str = "") -> str:
        """One piece, as an SVG element; ``more``: further attributes."""
        x, y = self.places[piece.place]
        return f'<use href="#{self.prefix}{piece.symbol}" x="{x}" y="{y}"{more}/>'

    def layers(self, board: Iterable[Piece], marks: Collection[Piece]) -> str:
        """A board with marks on it: outlines and hatching below the digits, labels and strokes over them."""
        below = [piece for piece in marks if not over(piece.symbol)]
        above = [piece for piece in marks if over(piece.symbol)]
        return "".join(f'<g class="layer">{"".join(map(self.use, pieces))}</g>' for pieces in (below, board, above))


@cache
def sheet(geometry: Geometry) -> Sheet:
    """The sheet for a kind of board, made once."""
    return Sheet(geometry)


def over(symbol: str) -> bool:
    """Is the mark drawn over the digits? Outlines and hatching lie below them, so that they can be read."""
    return symbol.startswith(("strike", "badge", "tag", "lacktag"))


def describe(board: Board) -> str:
    """The board in words, a row a sentence."""

    def told(cell: Cell) -> str:
        return " or ".join(map(str, board.candidates(cell))) or "nothing"

    rows = [board.geometry.cells_of[House("r", row)] for row in board.geometry.digits]
    return " ".join(f"Row {row}: {', '.join(map(told, cells))}." for row, cells in enumerate(rows, 1))


def style(colours: Mapping[str, str]) -> str:
    """The style rules of a drawing, in these colours (by what they are for, as in ``LIGHT``)."""
    rules = [
        ".ground{fill:%(paper)s}",
        ".paper{fill:%(paper)s}",
        ".print{fill:%(given)s}",
        ".line{fill:none;stroke:%(line)s;stroke-width:1}",
        ".wall{fill:none;stroke:%(wall)s;stroke-width:2.6;stroke-linecap:square}",
        ".pen{fill:none;stroke:%(ink)s;stroke-linecap:round;stroke-linejoin:round}",
        ".axis .pen{stroke:%(faint)s}",
        ".lost .pen{stroke:%(faint)s;stroke-dasharray:2 2}",
        ".plain{fill:none;stroke-width:2.4;stroke-linejoin:round}",
        ".hatch{fill:none;stroke-width:1.1;stroke-opacity:.7}",
        ".strike{fill:none;stroke-width:2.2;stroke-linecap:round}",
        ".dashed{stroke-dasharray:7 4}",
        ".dotted{stroke-dasharray:1 4;stroke-linecap:round}",
        ".sign{fill:none;stroke:%(paper)s;stroke-width:1.9;stroke-linecap:round;stroke-linejoin:round}",
        ".tag .sign{stroke-width:2.2}",
        ".hollow{fill:%(paper)s;stroke-width:1.6}",
    ]
    for kind in ("fact", *KINDS):
        colour = colours[kind if kind in colours else "other"]
        rules.append(f".k-{kind}{{stroke:{colour}}}.f-{kind}{{fill:{colour}}}")
    return "".join(rules) % colours


# Symbols


def _figures(text: str, x: float, y: float, scale: float, weight: float = 1.7) -> str:
    """A number or a letter, its middle at x, y."""
    width = len(text) * (WIDTH + 1) - 1
    left, top = x - width * scale / 2, y - HEIGHT * scale / 2
    return "".join(
        f'<path class="pen" stroke-width="{weight:g}" d="{FIGURES.get(letter) or LETTERS[letter]}" '
        f'transform="translate({left + at * (WIDTH + 1) * scale:g} {top:g}) scale({scale:g})"/>'
        for at, letter in enumerate(text)
    )


def _digits(sheet: Sheet) -> Iterator[tuple[str, str]]:
    """Digits by name: of a given, of a filled cell, of a candidate, and of a candidate that is gone (named all the same)."""
    (width, height), cell, many = sheet.slot, sheet.cell, sheet.geometry.size > 9
    for digit in sheet.geometry.digits:
        big = cell / 74 * (1.9 if many else 2.6)
        middle = cell / 2, cell / 2 + 1
        yield f"given{digit}", _figures(str(digit), *middle, big, 2.1)
        yield f"digit{digit}", _figures(str(digit), *middle, big, 1.25)
        small = _figures(str(digit), width / 2, height / 2, 0.7 if many else 0.84)
        yield f"candidate{digit}", small
        yield f"lost{digit}", f'<g class="lost">{small}</g>'


def _cell_marks(sheet: Sheet) -> dict[str, str]:
    """Outlines of cells and houses: of facts, of facts that are missing, of cells to be filled, filled, or in the way."""
    cell, geometry = sheet.cell, sheet.geometry
    drawn = {
        "fact": _box(3, 3, cell - 6, cell - 6, 7, "plain k-fact"),
        "lack": _box(3, 3, cell - 6, cell - 6, 7, "plain dashed k-unproved")
        + _hatched(5, 5, cell - 10, cell - 10, "k-unproved", 11),
        "astray": _box(4, 4, cell - 8, cell - 8, 0, "plain dotted k-refuted")
        + _hatched(4, 4, cell - 8, cell - 8, "k-refuted", 9),
    }
    sides = {"r": (geometry.size, 1), "c": (1, geometry.size), "b": (geometry.box_width, geometry.box_height)}
    for kind, (across, down) in sides.items():
        width, height = across * cell - 3, down * cell - 3
        drawn[f"fact-{kind}"] = _box(1.5, 1.5, width, height, 9, "plain k-fact")
        drawn[f"lack-{kind}"] = _box(1.5, 1.5, width, height, 9, "plain dashed k-unproved")
        drawn[f"astray-{kind}"] = _box(1.5, 1.5, width, height, 0, "plain dotted k-refuted")
    for kind in KINDS:
        drawn[f"fill-{kind}"] = _box(3, 3, cell - 6, cell - 6, 2, f"plain k-{kind}") + _box(
            7.5, 7.5, cell - 15, cell - 15, 1, f"hatch k-{kind}"
        )
    return drawn


def _candidate_marks(sheet: Sheet) -> dict[str, str]:
    """Marks on one candidate: a place that a fact speaks of, and by what became of an effect, a shape and a stroke through it,
    which leaves the digit to be read."""
    width, height = sheet.slot
    x, y = width / 2, height / 2
    ring = f"M{x - 9.2:g} {y:g}a9.2 9.2 0 1 1 18.4 0a9.2 9.2 0 1 1 -18.4 0Z"
    square = f"M{x - 8.6:g} {y - 8.6:g}h17.2v17.2h-17.2Z"
    diamond = f"M{x:g} {y - 11.4:g}l11.4 11.4l-11.4 11.4l-11.4-11.4Z"
    lines = _hatched(x - 8.6, y - 8.6, 17.2, 17.2, "k-unproved", 4.3)
    crossed = "".join(f"M{x - 11.4 + at:g} {y + at:g}l11.4-11.4M{x - at:g} {y - 11.4 + at:g}l11.4 11.4" for at in (3.8, 7.6))
    shapes = {
        "proved": f'<path class="plain k-proved" d="{ring}"/>',
        "unproved": f'<path class="plain k-unproved" d="{square}"/>{lines}',
        "refuted": f'<path class="plain k-refuted" d="{diamond}"/><path class="hatch k-refuted" d="{crossed}"/>',
    }
    plain = {kind: f'<path class="plain dotted k-{kind}" d="{ring}"/>' for kind in KINDS if kind not in shapes}
    drawn = {
        "ring": f'<path class="hatch k-fact" stroke-width="1.4" d="{ring}"/>',
        "lackring": f'<path class="plain dotted k-unproved" d="{ring}"/>',
    }
    for kind, shape in (shapes | plain).items():
        drawn[f"shape-{kind}"] = shape
        drawn[f"strike-{kind}"] = f'<path class="strike k-{kind}" d="M{x - 9.5:g} {y + 9.5:g}l6-6m7-7l6-6"/>'
        drawn[f"gone-{kind}"] = f'<path class="strike k-{kind}" d="M{x - 4:g} {y:g}h8"/>'
    return drawn


def _labels() -> dict[str, str]:
    """Badges that say what became of an effect, and the lettered tags of facts; centred."""
    grounds = {
        "proved": "M-7.5 0a7.5 7.5 0 1 1 15 0a7.5 7.5 0 1 1 -15 0Z",
        "unproved": "M-7-7H7V7H-7Z",
        "refuted": "M0-9.6 9.6 0 0 9.6-9.6 0Z",
    }
    drawn = {}
    for kind in KINDS:
        ground = grounds.get(kind, "M-7 0-4-6.4H4L7 0 4 6.4H-4Z")
        drawn[f"badge-{kind}"] = f'<path class="f-{kind}" d="{ground}"/><path class="sign" d="{SIGNS[kind]}"/>'
    for letter, data in LETTERS.items():
        sign = f'<path class="sign" transform="translate(-3 -4.8) scale(.6)" d="{data}"/>'
        drawn[f"tag{letter}"] = f'<g class="tag"><path class="f-fact" d="{_rounded(-7, -7, 14, 14, 4)}"/>{sign}</g>'
        mark = f'<path class="plain k-unproved" transform="translate(-3 -4.8) scale(.6)" d="{data}"/>'
        ground = _rounded(-7, -7, 14, 14, 0)
        drawn[f"lacktag{letter}"] = f'<path class="hollow k-unproved" d="{ground}"/>{mark}'
    return drawn


def _box(x: float, y: float, width: float, height: float, radius: float, looks: str) -> str:
    return f'<path class="{looks}" d="{_rounded(x, y, width, height, radius)}"/>'


def _rounded(x: float, y: float, width: float, height: float, radius: float) -> str:
    """Path data of a box with round corners."""
    across, down = width - 2 * radius, height - 2 * radius
    if not radius:
        return f"M{x:g} {y:g}h{width:g}v{height:g}h{-width:g}Z"
    turn = f"a{radius:g} {radius:g} 0 0 1 "
    return (
        f"M{x + radius:g} {y:g}h{across:g}{turn}{radius:g} {radius:g}v{down:g}{turn}{-radius:g} {radius:g}"
        f"h{-across:g}{turn}{-radius:g} {-radius:g}v{-down:g}{turn}{radius:g} {-radius:g}Z"
    )


def _hatched(x: float, y: float, width: float, height: float, looks: str, gap: float) -> str:
    """Slanting lines that fill a box and end at its edges."""
    lines = []
    along = gap / 2
    while along < width + height:
        # The line x + y = along, cut off where it leaves the box.
        low, high = max(0.0, along - height), min(width, along)
        lines.append(f"M{x + low:.4g} {y + along - low:.4g}L{x + high:.4g} {y + along - high:.4g}")
        along += gap
    return f'<path class="hatch {looks}" d="{"".join(lines)}"/>'
