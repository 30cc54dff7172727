"""For development: a harbour clerk. Fair-copied prose, cells by the column first and in words, argued in several sentences."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count, pairwise
from random import Random
from typing import ClassVar, NamedTuple

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, PLURALS, listed, opened
from .layout import Laid, Piece, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

LONE = ("comma", "comma", "cell in", "genitive", "hyphen", "meets", "of")
"""How a cell is named where it stands alone."""

SEVERAL = ("plain", "plain", "hyphen", "genitive", "of")
"""How cells are named where there are many; a comma inside a name would blur the list."""

BOXES = (
    "top-left",
    "top-middle",
    "top-right",
    "middle-left",
    "central",
    "middle-right",
    "bottom-left",
    "bottom-middle",
    "bottom-right",
)

LOSSES = (
    ("{all} {go} from {place}", "{all} from {place}"),
    ("{place} {is} rid of {all}", "{place} {is} rid of {all}"),
    ("{place} can no longer be {any}", "{place} can no longer be {any}"),
    ("{all} must leave {place}", "{all} must leave {place}"),
    ("{all} {are} out of the question in {place}", "{all} in {place}"),
    ("{place} {has} to do without {all}", "{place} without {all}"),
    ("{all} {drop} out of {place}", "{all} out of {place}"),
    ("there is no room for {any} in {place}", "none for {any} in {place}"),
    ("{place} will not be {any}", "{place} will not be {any}"),
    ("we may take {all} out of {place}", "{all} out of {place}"),
    ("you can cancel {all} in {place}", "{all} in {place}"),
    ("{place} cannot be {any}", "{place} cannot be {any}"),
    ("{all} {are} ruled out of {place}", "{all} out of {place}"),
)
"""That candidates go: the first of several times, and the others."""

ORDERS = (
    ("clear {all} from {place}", "{all} from {place}"),
    ("delete {all} in {place}", "{all} in {place}"),
    ("scratch {all} from {place}", "{all} from {place}"),
    ("take {all} away from {place}", "{all} away from {place}"),
    ("write off {all} in {place}", "{all} in {place}"),
)

DEEDS = (
    ("clears {all} from {place}", "clearing {all} from {place}", "{all} from {place}"),
    ("rids {place} of {all}", "ridding {place} of {all}", "{place} of {all}"),
    ("rules out {all} in {place}", "ruling out {all} in {place}", "{all} in {place}"),
    ("shuts {all} out of {place}", "shutting {all} out of {place}", "{all} out of {place}"),
    ("makes {any} impossible in {place}", "making {any} impossible in {place}", "{any} impossible in {place}"),
    ("disposes of {all} in {place}", "disposing of {all} in {place}", "{all} in {place}"),
)
"""What a pattern does, in two forms of the verb, and the second time."""

LEADS = (
    "Now for something less obvious.",
    "This one took me most of a tide.",
    "Here the book needs closer reading.",
    "Bear with me for a moment.",
    "The next entry is a little longer.",
    "I had to look twice at this.",
)

TAILS = (
    "That is worth a line in the log.",
    "A small saving, but an honest one.",
    "I double-checked it.",
    "Slow work, but it pays.",
)


class _Loss(NamedTuple):
    """Candidates that go, in words. ``many``: the place is a plural; ``kept``: what is left in a single cell, if that may be said."""

    each: str
    any: str
    several: bool
    place: str
    many: bool
    kept: str = ""
    rest: str = ""

    def worded(self, template: str) -> str:
        return template.format(
            place=self.place,
            all=self.each,
            any=self.any,
            go="go" if self.several else "goes",
            drop="drop" if self.several else "drops",
            are="are" if self.several else "is",
            has="have" if self.many else "has",
            **{"is": "are" if self.many else "is"},
        )


class _Entry:
    """One step being entered in the book: its names for cells, digits and houses, and its effects or the hint at them."""

    def __init__(self, m: Matter, several: bool = True) -> None:
        self.m = m
        self.spelt = m.manner % 4 == 1
        # Spelt out, a 1 would be taken for the other kind of one.
        self.digits_spelt = m.manner % 4 == 2 and 1 not in mentioned(m)
        self.boxes_by_place = m.manner % 4 == 3 and m.manner % 3 == 0
        self.form = m.pick(*SEVERAL) if several else m.pick(*LONE)
        self.hint: Sequence[_Loss] = ()
        self.phrase = ""

    def number(self, number: int) -> str:
        return NUMBERS[number] if self.spelt else str(number)

    def d(self, digit: int) -> str:
        return NUMBERS[digit] if self.digits_spelt else str(digit)

    def a(self, digit: int) -> str:
        return f"{'an' if digit == 8 else 'a'} {self.d(digit)}"

    def ds(self, digit: int) -> str:
        return PLURALS[digit] if self.digits_spelt else f"{digit}s"

    def each(self, digits: Sequence[int]) -> str:
        return listed(map(self.d, digits))

    def any(self, digits: Sequence[int]) -> str:
        return listed(map(self.d, digits), "or")

    def cell(self, cell: int, form: str = "") -> str:
        row, column = (self.number(number + 1) for number in divmod(cell, 9))
        return {
            "comma": f"column {column}, row {row}",
            "plain": f"column {column} row {row}",
            "cell in": f"the cell in column {column}, row {row}",
            "genitive": f"column {column}'s row-{row} cell",
            "hyphen": f"the column-{column} cell of row {row}",
            "meets": f"the cell where column {column} meets row {row}",
            "of": f"column {column} of row {row}",
        }[form or self.form]

    def at(self, cell: int) -> str:
        """The cell as a place."""
        row, column = (self.number(number + 1) for number in divmod(cell, 9))
        if self.form in ("genitive", "hyphen"):
            return f"in {self.cell(cell)}"
        if self.form == "meets":
            return f"where column {column} meets row {row}"
        return self.m.pick(
            f"in column {column}, row {row}",
            f"at column {column}, row {row}",
            f"in column {column} at row {row}",
            f"down column {column} in row {row}",
            f"down column {column} at row {row}",
            f"in column {column} of row {row}",
        )

    def cells(self, cells: Sequence[int], last: str = "and", line: House | None = None) -> str:
        """Cells of one line often by the line once, always if it is ``line``; a long list by its rows."""
        joined, manner = self.m.often(0.5), self.m.rng.randrange(4)
        joined = joined or (
            line is not None and all(self.m.board.geometry.houses_of[cell][line.kind] == line for cell in cells)
        )
        rows, columns = ([*dict.fromkeys(numbers)] for numbers in zip(*(divmod(cell, 9) for cell in cells), strict=True))
        if len(cells) > 1 and joined and len(cells) == len({*cells}):
            if 1 in (len(rows), len(columns)):
                return self.run(rows, columns, last, manner)
            if last == "and" and len(cells) > 3 and len(rows) < len(cells) - 1:
                by_row = [[cell % 9 for cell in cells if cell // 9 == row] for row in rows]
                return listed((self.run([row], found, last, 0) for row, found in zip(rows, by_row, strict=True)), comma=True)
        return listed((self.cell(cell) for cell in cells), last)

    def run(self, rows: Sequence[int], columns: Sequence[int], last: str, manner: int) -> str:
        """Cells of one row or column."""
        row, column = (listed((self.number(n + 1) for n in numbers), last) for numbers in (sorted(rows), sorted(columns)))
        if len(rows) == 1:
            apart = listed((f"column-{self.number(n + 1)}" for n in sorted(columns)), last)
            if len(columns) == 1:
                return f"column {column} of row {row}"
            ways = (f"columns {column} of row {row}", f"columns {column} in row {row}", f"the {apart} cells of row {row}")
            return ways[manner % 3]
        apart = listed((f"row-{self.number(n + 1)}" for n in sorted(rows)), last)
        ways = (f"column {column}, rows {row}", f"column {column} at rows {row}", f"column {column}'s {apart} cells")
        return ways[manner % 3]

    def house(self, house: House) -> str:
        if house.kind == "b" and self.boxes_by_place:
            return f"the {BOXES[house.number - 1]} box"
        return f"{KINDS[house.kind]} {self.number(house.number)}"

    def houses(self, houses: Sequence[House], last: str = "and") -> str:
        return f"{KINDS[houses[0].kind]}s {listed((self.number(house.number) for house in houses), last)}"

    def where(self) -> str:
        kind = KINDS[self.m.house.kind]
        return self.m.pick(f"the same {kind}", f"that same {kind}") if self.m.plan.back else self.house(self.m.house)

    def line(self) -> House | None:
        """The house, where it is a row or column that has to be said."""
        return self.m.house if self.m.says("house") and self.m.house.kind != "b" else None

    def inside(self, cells: str) -> str:
        """The house with a preposition, unless it goes unsaid or the cells' names have said it."""
        house = self.where()
        named = cells.endswith((f" of {house}", f" in {house}")) or cells.startswith((f"{house},", f"{house} at", f"{house}'s"))
        return f" in {house}" if self.m.says("house") and not named else ""

    def loss(self, digits: Sequence[int], place: str, many: bool, kept: str = "", rest: str = "") -> _Loss:
        return _Loss(self.each(digits), self.any(digits), len(digits) > 1, place, many, kept, rest)

    def losses(self) -> list[_Loss]:
        if self.hint:
            return [*self.hint]
        return [self.lost_by(effect) for effect in self.m.effects if not isinstance(effect, Put)]

    def lost_by(self, effect: Strike | Clear) -> _Loss:
        m = self.m
        if isinstance(effect, Clear):
            house = self.house(effect.house)
            place, many = m.rng.choice((("the rest of", False), ("the other cells of", True), ("the remaining cells of", True)))
            return self.loss(effect.digits, f"{place} {house}", many, rest=house)
        kept = ""
        if len(effect.cells) == 1 and all(m.board.has(effect.cells[0], digit) for digit in effect.digits):
            left = [digit for digit in m.board.digits[effect.cells[0]] if digit not in effect.digits]
            kept = self.each(left) if 1 < len(left) < 5 else ""
        return self.loss(effect.digits, self.cells(effect.cells), len(effect.cells) > 1, kept)

    def seen_by(self, digit: int, ends: Sequence[str], noun: str = "") -> Sequence[_Loss]:
        """The hint at what sees both ends."""
        first, last = ends
        named = self.m.rng.choice(
            (
                (f"any cell that sees {first} as well as {last}", False),
                (f"the cells that see both {first} and {last}", True),
                (f"every cell in sight of both {first} and {last}", False),
            )
        )
        short = self.m.rng.choice((("every cell in sight of both {}", False), ("the cells that see both {}", True)))
        place, many = (short[0].format(noun), short[1]) if noun and self.m.often(0.6) else named
        return (self.loss((digit,), place, many),)

    def effects(self, orders: bool = True) -> str:
        """What follows, as a clause. ``orders``: it may be a command."""
        if self.phrase:
            return self.phrase
        said = [self.put(effect) for effect in self.m.effects if isinstance(effect, Put)] if not self.hint else []
        losses = self.losses()
        if losses:
            said.append(self.lost(losses, orders))
        return said[0] if len(said) == 1 else f"{', '.join(said[:-1])}, and {said[-1]}"

    def put(self, put: Put) -> str:
        cell, at, d = self.cell(put.cell), self.at(put.cell), self.d(put.digit)
        return self.m.pick(
            f"{cell} must be {d}",
            f"{d} goes {at}",
            f"{cell} is left with {d} alone",
            f"{cell} can only be {d}",
            f"{d} is the one digit that {cell} may hold",
            f"{cell} is {d}",
        )

    def lost(self, losses: Sequence[_Loss], orders: bool) -> str:
        m, head = self.m, losses[0]
        if len(losses) == 1:
            if head.kept and m.often(0.2):
                return m.pick(f"{head.place} is left with {head.kept}", f"{head.place} is down to {head.kept}")
            if head.rest and m.often(0.4):
                are, house = "are" if head.several else "is", head.rest
                return m.pick(
                    f"{head.each} {are} possible nowhere else in {house}",
                    f"no other cell of {house} can be {head.any}",
                    f"{head.each} {'go' if head.several else 'goes'} from everywhere else in {house}",
                )
        first, other = m.rng.choice(LOSSES + ORDERS if orders else LOSSES)
        return self.strung([head.worded(first), *(loss.worded(other) for loss in losses[1:])])

    def strung(self, said: Sequence[str]) -> str:
        if len(said) == 1:
            return said[0]
        return f"{'; '.join(said[:-1])}; and {said[-1]}"

    def deed(self, going: bool = False) -> str:
        """What follows, as the deed of what was just said. ``going``: as a participle."""
        m = self.m
        losses = self.losses()
        leaves = "leaving" if going else "leaves"
        if not losses:
            puts = [effect for effect in m.effects if isinstance(effect, Put)]
            return f"{leaves} " + listed(f"{self.cell(put.cell)} nothing but {self.d(put.digit)}" for put in puts)
        if losses[0].kept and len(losses) == 1 and m.often(0.25):
            return f"{leaves} {losses[0].place} with {losses[0].kept} only"
        finite, participle, other = m.rng.choice(
            DEEDS if len(losses) == 1 else [deed for deed in DEEDS if "rids" not in deed[0]]
        )
        head = losses[0].worded(participle if going else finite)
        return self.strung([head, *(loss.worded(other) for loss in losses[1:])])

    def follows(self, clauses: Sequence[str], nouns: Sequence[str] = (), arguments: Sequence[str] = ()) -> str:
        """The reason and its effects; the reason as a clause, as a noun, or argued in sentences of its own."""
        m = self.m
        forward = bool(m.plan.back or m.plan.natural)
        mixed = bool(self.phrase) or len({isinstance(effect, Put) for effect in m.effects}) > 1
        kind = m.rng.choice(["clause"] * 5 + ["noun"] * 2 * bool(nouns) + ["argument"] * 3 * bool(arguments))
        if kind == "argument":
            return self.framed(self.argued(m.pick(*arguments), forward))
        if kind == "noun":
            return self.framed(self.by_noun(m.pick(*nouns), forward, mixed))
        said = m.pick(*clauses)
        shapes = [self.forward, self.forward] + [self.doing] * (not mixed) + [self.backward] * (2 * (not forward))
        return self.framed(m.rng.choice(shapes)(said))

    def framed(self, text: str) -> str:
        """With a word before it or after it, now and then."""
        m = self.m
        if m.often(0.07):
            text = f"{m.pick(*LEADS)} {text}"
        return f"{text} {m.pick(*TAILS)}" if m.often(0.05) else text

    def forward(self, said: str) -> str:
        order, plain = self.effects(), self.effects(orders=False)
        return opened(
            self.m.pick(
                f"{said}, and so {plain}.",
                f"{said}, which means that {plain}.",
                f"{said}. That means {plain}.",
                f"{said}. {opened(order)}.",
                f"{said}. With that settled, {plain}.",
                f"because {said}, {set_off(said, plain)}.",
                f"seeing that {said}, {set_off(said, order)}.",
                f"observe that {said}. Thus {plain}.",
                f"{said}. What follows? {opened(plain)}.",
                f"{said}. From this I conclude that {plain}.",
                f"my next finding is that {said}. Accordingly, {order}.",
            )
        )

    def backward(self, said: str) -> str:
        order, plain = self.effects(), self.effects(orders=False)
        return opened(
            self.m.pick(
                f"{plain}, for {said}.",
                f"{plain}; after all, {said}.",
                f"{order}. My reason is that {said}.",
                f"{plain}. You will ask why. {opened(said)}.",
                f"{order}. I say so because {said}.",
                f"{plain}, and the reason is this: {said}.",
                f"the book now shows that {plain}, because {said}.",
                f"{order}, given that {said}.",
            )
        )

    def doing(self, said: str) -> str:
        deed, going = self.deed(), self.deed(going=True)
        return opened(
            self.m.pick(
                f"{said}, {going}.",
                f"{said}. This {deed}.",
                f"{said}, and that {deed}.",
                f"{said}, a fact which {deed}.",
                f"{said}, thereby {going}.",
            )
        )

    def by_noun(self, noun: str, forward: bool, mixed: bool) -> str:
        order, plain = self.effects(), self.effects(orders=False)
        shapes = [
            f"on account of {noun}, {set_off(noun, plain)}.",
            f"{noun} is the next entry in the book. {opened(order)}.",
            f"I have found {noun}. It follows that {plain}.",
            f"owing to {noun}, {set_off(noun, plain)}.",
            f"we have {noun}, and so {plain}.",
        ]
        if not forward:
            shapes += [f"{plain}, owing to {noun}.", f"{order}. The cause of it is {noun}.", f"{plain}. We owe that to {noun}."]
        if not mixed:
            shapes += [f"{noun} {self.deed()}.", f"next comes {noun}, {self.deed(going=True)}."]
        return opened(self.m.pick(*shapes))

    def argued(self, said: str, forward: bool) -> str:
        """An argument of one or more sentences, its own conclusion included."""
        order, plain = self.effects(), self.effects(orders=False)
        shapes = [
            f"{said}. So {plain}.",
            f"{said}. {opened(order)}.",
            f"{said}. For that reason {plain}.",
            f"{said}. It follows that {plain}.",
        ]
        if not forward:
            shapes += [
                f"{plain}. This is why. {opened(said)}.",
                f"{plain}, as I shall show. {opened(said)}.",
                f"{order}. The proof is short. {opened(said)}.",
            ]
        return opened(self.m.pick(*shapes))


class Harbour(Narrator):
    """Keeps the harbour books, and writes up puzzles between two tides."""

    name = "harbour"
    leaves: ClassVar = {
        "single house": 0.06,
        "its": 0.12,
        "naked house": 0.4,
        "hidden house": 0.0,
        "cover": 0.1,
        "crossing": 0.1,
        "name": 0.5,
        "effects": 0.4,
        "back": 0.3,
        "corners": 0.3,
        "recap": 0.04,
    }

    def naked_single(self, m: Matter) -> str:
        s, put = _Entry(m, several=False), filled(m)
        cell, at, d, a = s.cell(put.cell), s.at(put.cell), s.d(put.digit), s.a(put.digit)
        return opened(
            m.pick(
                f"{cell} has only {d} to its name, so we enter it.",
                f"eight of the nine digits have been turned away {at}. That leaves {d}.",
                f"I go through the digits for {cell}: none will do but {d}.",
                f"{cell} must be {d}, since nothing else is left for it.",
                f"take {cell}. One candidate remains there, and it is {d}.",
                f"we can write {d} {at}, where every other digit is already spoken for.",
                f"what is {cell}? It can be nothing except {d}.",
                f"there is a naked single {at}, namely {d}.",
                f"{d} goes {at} as a naked single.",
                f"by elimination {cell} is {d}.",
                f"{cell} has lost every digit apart from {d}, and therefore it is {d}.",
                f"only {d} fits {at}.",
                f"if you list what {cell} may still be, you write {d} and stop. Enter {a}.",
                f"{at} I am left with {d} and nothing more.",
                f"all but one of the candidates of {cell} are gone. The survivor is {d}, which I ink in.",
                f"I can make {cell} {a} with a clear conscience: it has no other candidate.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        s, put = _Entry(m, several=False), filled(m)
        cell, at, d, a = s.cell(put.cell), s.at(put.cell), s.d(put.digit), s.a(put.digit)
        if not m.says("house"):
            return opened(
                m.pick(
                    f"{d} {at} is a hidden single.",
                    f"a hidden single makes {cell} {a}.",
                    f"I spy a hidden single: {cell} is {d}.",
                    f"{cell} must be {d}, as a hidden single.",
                    f"next in the book is the hidden single {at}, {a}.",
                )
            )
        if not m.says("its"):
            kind, owner = KINDS[m.house.kind], s.cell(put.cell, "cell in")
            return opened(
                m.pick(
                    f"{cell} is the only cell of its {kind} that can be {d}.",
                    f"{d} goes {at}, for there is no other home for it in that cell's {kind}.",
                    f"look over the {kind} of {owner}. No other cell in it can be {d}, so this one is.",
                    f"no cell but {cell} can supply its {kind} with {a}.",
                    f"{cell} takes {d}, the rest of its {kind} being closed to that digit.",
                    f"in its {kind}, {cell} is alone in admitting {d}. Enter it.",
                )
            )
        row, column = (number + 1 for number in divmod(put.cell, 9))
        if m.often(0.15) and not m.plan.back and m.house in (House("c", column), House("r", row)):
            return self.by_crossing(m, s, House("r", row) if m.house.kind == "c" else House("c", column))
        house = s.where()
        return opened(
            m.pick(
                f"in {house} the {d} can only go {at}.",
                f"{house} needs {a}, and {cell} is the one place for it.",
                f"where does {d} go in {house}? Only {cell} can take it.",
                f"{d} is still to be placed in {house}. Of its open cells, {cell} alone will have it. Write it in.",
                f"{cell} is {d}, because {house} offers that digit no other place.",
                f"{house} has a single cell left for {d}: {cell}.",
                f"no cell of {house} can be {d} except {cell}.",
                f"we look for {d} in {house} and find one berth, {at}.",
                f"the {d} of {house} has to be {at}.",
                f"consider {house}. Its {d} has been shut out everywhere but {at}, so there it goes.",
                f"{d} goes {at}; that is the only cell in {house} which accepts it.",
                f"a hidden single: {house} can put its {d} {at} and nowhere else.",
                f"{d} is excluded everywhere in {house} but {at}. Hence {cell} is {d}.",
                f"{house} must have {a} somewhere. The other cells are out, so {cell} is {d}.",
                f"{cell} gets the {d} of {house}, there being no other taker.",
                f"if {cell} were not {d}, {house} would have no {d} at all.",
                f"there is but one spot for {a} in {house}, and that is {cell}.",
            )
        )

    def by_crossing(self, m: Matter, s: _Entry, across: House) -> str:
        """The cell told by the line that crosses its house."""
        house, line, digit = s.house(m.house), s.house(across), filled(m).digit
        return opened(
            m.pick(
                f"{house} can have its {s.d(digit)} only in {line}.",
                f"run along {house}: {s.d(digit)} fits in {line} and nowhere else.",
                f"the {s.d(digit)} of {house} must go in {line}, all its other cells refusing it.",
                f"{house} needs {s.a(digit)}, and only its cell in {line} can be that.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        s, put = _Entry(m, several=False), filled(m)
        cell, at, d, a = s.cell(put.cell), s.at(put.cell), s.d(put.digit), s.a(put.digit)
        if not m.says("its"):
            kind, owner = KINDS[m.house.kind], s.cell(put.cell, "cell in")
            return opened(
                m.pick(
                    f"{cell} is the last empty cell in its {kind}, and so it is {d}.",
                    f"the {kind} of {owner} is full but for that cell. It wants {d}.",
                    f"{d} goes {at} and completes the {kind} of that cell.",
                    f"nothing but {cell} is unfilled in its {kind}; the digit it lacks is {d}.",
                    f"{cell} must be {d}, the other eight cells of its {kind} being filled.",
                )
            )
        house = s.where()
        return opened(
            m.pick(
                f"only one cell of {house} is empty, {cell}, and only {d} is missing.",
                f"{house} is complete apart from {cell}, which must be {d}.",
                f"fill the last cell of {house}: {d} goes {at}.",
                f"{d} completes {house} {at}.",
                f"{cell} is {d}, being the last empty cell of {house}.",
                f"in {house} eight digits are entered. The ninth, {d}, goes {at}.",
                f"{house} lacks nothing but {a}. That goes {at}, its one empty cell.",
                f"one gap is left in {house}. It is {cell}, and {d} fills it.",
                f"the books of {house} can be closed: {cell} is {d}, the only digit outstanding.",
                f"with {d} {at} the whole of {house} is done, for that was its last blank.",
                f"what does {house} still want? {opened(a)}. Where? {opened(at)}, the last cell open.",
            )
        )

    def locked(self, m: Matter) -> str:
        assert m.crossing is not None
        s, digit, kind = _Entry(m), m.digits[0], KINDS[m.crossing.kind]
        d, ds = s.d(digit), s.ds(digit)
        house, line = s.where(), s.house(m.crossing)
        if m.plan.natural:
            far = f"that {kind}" if not m.says("crossing") else m.pick(line, f"that {kind}")
            place, many = m.rng.choice((("the rest of {}", False), ("the other cells of {}", True)))
            s.hint = (s.loss((digit,), place.format(far), many),)
        if not m.says("crossing"):
            clauses: tuple[str, ...] = (
                f"the {ds} of {house} are all in one {kind}",
                f"{house} has every {d} in the same {kind}",
                f"{d} in {house} is confined to a single {kind}",
                f"all the places for {d} in {house} share one {kind}",
                f"{house} can put its {d} in one {kind} only",
            )
            return s.follows(clauses)
        clauses = (
            f"{d} in {house} is confined to {line}",
            f"all the {ds} of {house} lie in {line}",
            f"{house} can have its {d} in {line} only",
            f"the only cells of {house} that can be {d} belong to {line}",
            f"wherever {d} goes in {house}, it goes in {line}",
            f"{house} must find its {d} within {line}",
            f"the {d} of {house} cannot be outside {line}",
        )
        arguments = (
            f"look for {d} in {house}. Every cell that can take it stands in {line}. The {d} of {line} is therefore one of those",
            f"{house} needs {s.a(digit)}. It can only come from {line}",
            f"where can {house} place {d}? In {line}, and nowhere else",
        )
        if not m.says("name"):
            return s.follows(clauses, (), arguments)
        if m.name == "pointing":
            nouns: tuple[str, ...] = (
                f"the pointing {d} of {house} in {line}",
                f"a set of pointing {ds} in {house} along {line}",
            )
            return s.follows((*clauses, f"the {ds} of {house} point along {line}"), nouns, arguments)
        nouns = (f"the claim that {house} lays to the {d} of {line}", f"a claiming {d} of {house} within {line}")
        return s.follows((*clauses, f"{house} claims the {d} of {line}"), nouns, arguments)

    def naked(self, m: Matter) -> str:
        s, size = _Entry(m), m.name.split()[1]
        cells, digits, n = s.cells(m.cells, line=s.line()), s.each(m.digits), NUMBERS[m.count]
        inside = s.inside(cells)
        if m.plan.natural:
            places = listed(f"of the {KINDS[kind]}" for kind in m.plan.kinds)
            place, many = m.rng.choice((("the rest", False), ("the other cells", True)))
            s.hint = (s.loss(m.digits, f"{place} {places}", many),)
        if m.says("name"):
            clauses: tuple[str, ...] = (
                f"{cells} are a naked {size} of {digits}{inside}",
                f"{cells} form a naked {size}{inside} on {digits}",
                f"there is a naked {size} of {digits}{inside}, made up of {cells}",
                f"{digits} are a naked {size} in {cells}{inside}",
            )
            nouns = (
                f"a naked {size} of {digits}{inside} consisting of {cells}",
                f"the naked {size} of {digits} in {cells}{inside}",
            )
            arguments: tuple[str, ...] = (
                f"look at {cells}{inside}. They are a naked {size}: {digits} are all that they can be",
                f"{cells}{inside} are down to {digits}. That is a naked {size}",
            )
            return s.follows(clauses, nouns, arguments)
        order = "in one order or the other" if m.count == 2 else "in some order"
        clauses = (
            f"{cells}{inside} are {digits} between them",
            f"{cells}{inside} can only be {digits}, {order}",
            f"{digits} are all that is left for {cells}{inside}",
            f"{cells}{inside} share {digits} and nothing else",
            f"{digits} will be used up by {cells}{inside}",
        )
        these = "these two cells" if m.count == 2 else f"these {n} cells"
        arguments = (
            f"consider {cells}{inside}. {opened(these)} are {digits} between them",
            f"{cells}{inside} can be nothing but {s.any(m.digits)}. {opened(n)} cells, {n} digits: {these} will use them up",
            f"{cells}{inside} hold no candidates but {digits}. Between them, then, {these} take all {n} of those digits"
            if m.count > 2
            else f"{cells}{inside} hold no candidates but {digits}. One of {these} is {s.d(m.digits[0])} and the other {s.d(m.digits[1])}",
        )
        return s.follows(clauses, (), arguments)

    def hidden(self, m: Matter) -> str:
        s, size, n = _Entry(m), m.name.split()[1], NUMBERS[m.count]
        cells, digits = s.cells(m.cells, line=s.line()), s.each(m.digits)
        inside = s.inside(cells)
        both = "both" if m.count == 2 else f"all {n}"
        if m.plan.natural:
            s.phrase = m.pick(
                f"every other candidate goes from {both} of them",
                f"those {n} cells can be nothing else",
                f"the {n} cells are rid of all their other candidates",
                f"{both} cells lose whatever else they had",
                f"any other candidate in those {n} cells is gone",
            )
        if m.says("name"):
            clauses: tuple[str, ...] = (
                f"{digits} are a hidden {size}{inside}, being confined to {cells}",
                f"{cells} are a hidden {size} of {digits}{inside}",
                f"{cells} form a hidden {size}{inside} on {digits}",
                f"a hidden {size} of {digits} sits in {cells}{inside}",
            )
            nouns = (
                f"a hidden {size} of {digits}{inside} consisting of {cells}",
                f"the hidden {size} of {digits} in {cells}{inside}",
            )
            arguments: tuple[str, ...] = (
                f"look for {digits}{inside}. They are found in {cells} and in no other cell, which is a hidden {size}",
                f"here is a hidden {size}. The digits are {digits}, and the only cells for them{inside} are {cells}",
            )
            return s.follows(clauses, nouns, arguments)
        clauses = (
            f"{digits}{inside} fit only in {cells}",
            f"no cells but {cells} can take {digits}{inside}",
            f"{cells} are the only places for {digits}{inside}",
            f"{digits}{inside} are confined to {cells}",
            f"{digits} must go in {cells}{inside}, every other cell refusing them",
        )
        arguments = (
            f"where can {digits} go{inside}? They have only {cells} to choose from. {opened(n)} digits and {n} cells: none is to spare",
            f"only {cells}{inside} can take {digits}. Those {n} digits will fill those {n} cells",
            f"{digits} have {n} cells left{inside}: {cells}",
        )
        return s.follows(clauses, (), arguments)

    def fish(self, m: Matter) -> str:
        s, digit = _Entry(m), m.digits[0]
        d, ds = s.d(digit), s.ds(digit)
        shown, cross = m.name.replace("x-wing", "X-wing"), KINDS[m.cover[0].kind]
        a_shown = f"{'an' if shown.startswith('X') else 'a'} {shown}"
        base, cover, n = s.houses(m.houses), s.houses(m.cover), NUMBERS[m.count]
        if m.plan.natural:
            far = cover if m.says("cover") and m.often(0.5) else f"those {cross}s"
            place, many = m.rng.choice((("the rest of {}", False), ("the other cells of {}", True)))
            s.hint = (s.loss((digit,), place.format(far), many),)
        if m.plan.corners:
            return self.by_corners(m, s, d, ds)
        if not m.says("name"):
            clauses: tuple[str, ...] = (
                f"{d} in {base} is confined to {cover}",
                f"{base} can have {d} only in {cover}",
                f"the {ds} of {base} all lie in {cover}",
                f"in {base} there is no {d} outside {cover}",
                f"{base} between them take up the {ds} of {cover}",
            )
            arguments: tuple[str, ...] = (
                f"look at {base}. In each of them {d} is to be found only in {cover}. Those {n} lines will therefore use up the {ds} of {cover}",
                f"{base} need {n} {ds}. They have only {cover} to put them in",
                f"where can {d} go in {base}? Only in {cover}. So each of {cover} gets its {d} from one of {base}",
            )
            return s.follows(clauses, (), arguments)
        if not m.says("cover"):
            clauses = (
                f"the {ds} of {base} make {a_shown}",
                f"{base} form {a_shown} on {d}",
                f"{d} makes {a_shown} in {base}",
                f"there is {a_shown} of {ds} in {base}",
            )
            nouns: tuple[str, ...] = (f"the {shown} on {d} in {base}", f"{a_shown} of {ds} in {base}")
            return s.follows(clauses, nouns)
        clauses = (
            f"the {ds} of {base} make {a_shown} with {cover}",
            f"{base} form {a_shown} on {d} in {cover}",
            f"{base} keep their {ds} in {cover}, forming {a_shown}",
            f"there is {a_shown} of {ds} in {base}, covered by {cover}",
        )
        nouns = (
            f"the {shown} on {d} that {base} form in {cover}",
            f"{a_shown} of {ds} from {base} to {cover}",
        )
        arguments = (
            f"here is {a_shown} on {d}. {opened(base)} have it only in {cover}",
            f"go along {base}. Each of them has {d} in {cover} and nowhere else. That is {a_shown}",
        )
        return s.follows(clauses, nouns, arguments)

    def by_corners(self, m: Matter, s: _Entry, d: str, ds: str) -> str:
        """An X-wing by its four cells."""
        kind = KINDS[m.houses[0].kind]
        crossings = {House(m.cover[0].kind, house.number) for house in m.cover} | {*m.houses}
        cells = [cell for cell in range(81) if {House("r", cell // 9 + 1), House("c", cell % 9 + 1)} <= crossings]
        corners = s.cells(cells)
        rows, columns = ({cell // 9 for cell in cells}, {cell % 9 for cell in cells})
        if m.often(0.4):
            corners = f"the cells where columns {listed(s.number(n + 1) for n in sorted(columns))} meet rows {listed(s.number(n + 1) for n in sorted(rows))}"
        clauses = (
            f"{corners} are the four corners of an X-wing on {d} in the {kind}s",
            f"the {ds} make an X-wing by {kind}s, with corners at {corners}",
            f"an X-wing of {ds}, based on {kind}s, has its corners at {corners}",
            f"{d} forms an X-wing in the {kind}s at {corners}",
        )
        nouns = (
            f"the X-wing on {d} in {kind}s with corners at {corners}",
            f"an X-wing of {ds} based on {kind}s with {corners} as its corners",
        )
        return s.follows(clauses, nouns)

    def finned(self, m: Matter) -> str:
        s, digit, one = _Entry(m), m.digits[0], len(m.fins) == 1
        d, ds = s.d(digit), s.ds(digit)
        shown = m.name.replace("x-wing", "X-wing")
        plain, fin = shown.removeprefix("finned "), "fin" if one else "fins"
        a_plain = f"{'an' if plain.startswith('X') else 'a'} {plain}"
        base, cover, fins = s.houses(m.houses), s.houses(m.cover), s.cells(m.fins)
        if m.plan.natural:
            s.hint = (s.loss((digit,), m.pick(f"the cells of {cover} that see {'the' if one else 'all the'} {fin}"), True),)
        clauses = (
            f"{base} make a {shown} on {d} with {cover}, and the {fin} {'is' if one else 'are'} {fins}",
            f"the {ds} of {base} would be {a_plain} in {cover}, were it not for the {fin} at {fins}",
            f"there is a {shown} of {ds} in {base}, covered by {cover}, with {fins} as {'its fin' if one else 'fins'}",
            f"but for the {fin}, {fins}, {base} would form {a_plain} on {d} in {cover}",
        )
        nouns = (
            f"the {shown} on {d} in {base} with cover {cover} and {fin} {fins}",
            f"a {shown} of {ds} from {base} to {cover} with {fins} as the {fin}",
        )
        arguments = (
            f"{base} have {d} only in {cover}, save for {fins}. If {'that fin is' if one else 'one of those fins is'} {d}, well and good; "
            f"if not, we have {a_plain}. The conclusion holds in either case",
            f"here is a {shown} on {d}. Its base is {base}, its cover is {cover} and its {fin} {'is' if one else 'are'} {fins}",
            f"either {'the fin,' if one else 'one of the fins,'} {fins}, is {d}, or {base} make {a_plain} on {d} in {cover}",
        )
        return s.follows(clauses, nouns, arguments)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        s = _Entry(m)
        pivot, wings, (first, second) = s.cell(m.pivot), s.cells(m.cells), [s.cell(cell) for cell in m.cells]
        one, other, shared = (s.d(digit) for digit in m.plan.shared)
        a_one, a_other, a_shared = (s.a(digit) for digit in m.plan.shared)
        if m.plan.natural:
            s.hint = s.seen_by(m.plan.shared[2], (first, second), "wings" if m.says("name") else "")
        cases = (
            f"{pivot} is {one} or {other}. If it is {one}, then {first} is {shared}. If it is {other}, then {second} is {shared}",
            f"suppose that {pivot} is {one}: then {first} must be {shared}. Suppose instead that it is {other}: then {second} must be {shared}",
            f"there are two cases for {pivot}. As {a_one} it makes {first} {a_shared}; as {a_other} it makes {second} {a_shared}",
            f"should {pivot} be {one}, {first} becomes {shared}; should it be {other}, {second} does",
            f"if {first} is not {shared}, it is {one}. Then {pivot} is {other}, and {second} is {shared}",
        )
        ends = (
            f". Either way {shared} is in {first} or in {second}",
            f". So {first} or {second} is {shared}",
            f". In both cases one of the two is {shared}",
            "",
        )
        if not m.says("name"):
            return s.framed(s.argued(m.pick(*cases) + m.pick(*ends), bool(m.plan.natural)))
        clauses = (
            f"{pivot} is the pivot of an XY-wing with wings {wings}",
            f"{wings} are the wings of an XY-wing, and {pivot} is its pivot",
            f"an XY-wing has its pivot in {pivot} and its wings in {wings}",
            f"{pivot} and its wings, {wings}, make an XY-wing on {shared}",
        )
        nouns = (
            f"the XY-wing that turns on {pivot}, its pivot, with wings {wings}",
            f"an XY-wing on {shared} with {pivot} as pivot and {wings} as wings",
        )
        arguments = tuple(
            f"{head}. {opened(case)}{m.pick(*ends)}"
            for head in (
                f"here is an XY-wing with pivot {pivot} and wings {wings}",
                f"{pivot} is the pivot of an XY-wing, {wings} its wings",
            )
            for case in cases
        )
        return s.follows(clauses, nouns, arguments)

    def xy_chain(self, m: Matter) -> str:
        s, end = _Entry(m), end_digit(m)
        cells = [s.cell(cell) for cell in m.cells]
        first, last = cells[0], cells[-1]
        if m.plan.natural:
            s.hint = s.seen_by(end, (first, last), "ends of the chain" if m.says("name") else "")
        links = [(m.cells[0], False, end), *((cell, True, digit) for cell, digit in zip(m.cells, m.digits[1:], strict=True))]
        walked = self.walked(m, s, links)
        ends = (
            f". One of the two ends, {first} or {last}, is therefore {s.d(end)}",
            f". So either {first} or {last} is {s.d(end)}",
            f". If {first} is not {s.d(end)}, then, {last} is",
            f". We see that {first} and {last} cannot both fail to be {s.d(end)}",
        )
        said = walked + m.pick(*ends)
        if not m.says("name"):
            return s.framed(s.argued(said, bool(m.plan.natural)))
        pairs = listed(f"{cell} ({s.d(a)} or {s.d(b)})" for cell, a, b in zip(cells, m.digits, m.digits[1:], strict=False))
        heads = (
            f"an XY-chain on {s.d(end)} runs from {first} to {last}",
            f"follow an XY-chain from {first}",
            f"here is an XY-chain that begins at {first} and finishes at {last}",
        )
        arguments = (f"{m.pick(*heads)}. {opened(said)}", f"an XY-chain goes through {pairs}. {opened(said)}")
        clauses = (
            f"{pairs} make an XY-chain with {s.d(end)} at both ends",
            f"an XY-chain on {s.d(end)} leads through {pairs}",
        )
        kind = m.rng.choice(("argument", "argument", "clause"))
        return s.framed(s.argued(m.pick(*arguments), bool(m.plan.natural))) if kind == "argument" else s.follows(clauses)

    def x_chain(self, m: Matter) -> str:
        s, digit = _Entry(m), m.digits[0]
        d, ds = s.d(digit), s.ds(digit)
        cells = [s.cell(cell) for cell in m.cells]
        first, last = cells[0], cells[-1]
        if m.plan.natural:
            s.hint = s.seen_by(digit, (first, last), "ends of the chain" if m.says("name") else "")
        pairs = [*zip(cells[::2], cells[1::2], strict=True)]
        homes = [s.house(m.board.geometry.houses_of[cell][way]) for cell, way in zip(m.cells[::2], m.plan.ways, strict=True)]
        ends = (
            f"So one of {first} and {last} is {d}",
            f"If the one end, {first}, is not {d}, the other, {last}, is",
            f"In the end {first} or {last} has to be {d}",
            f"Hence {d} is in {first} or in {last}",
        )
        twos = [
            m.pick(
                f"{home} has {d} in {a} or {b}",
                f"in {home} the {d} can only be in {a} or in {b}",
                f"{home} must place its {d} in {a} or {b}",
            )
            for home, (a, b) in zip(homes, pairs, strict=True)
        ]
        sees = [f"{b} and {a} cannot both be {d}" for (_, b), (a, _) in pairwise(pairs)]
        both_kinds = [twos[0], *(part for weak, two in zip(sees, twos[1:], strict=True) for part in (weak, two))]
        why = [f"in {home}, {b} is the only other place" for home, (_, b) in zip(homes, pairs, strict=True)]
        conditional = [f"if {a} is not {d}, then {b} is: {reason}" for (a, b), reason in zip(pairs, why, strict=True)]
        hops = [f"that {b} is {d} keeps it from {a}" for (_, b), (a, _) in pairwise(pairs)]
        laced = [conditional[0], *(part for hop, then in zip(hops, conditional[1:], strict=True) for part in (hop, then))]
        links = [(cell, bool(at % 2), digit) for at, cell in enumerate(m.cells)]
        walked = self.walked(m, s, links)
        said = m.pick(
            ". ".join(map(opened, both_kinds)),
            ". ".join(map(opened, laced)),
            walked,
            walked,
            f"{'. '.join(map(opened, twos))}. {listed((opened(see) if not at else see for at, see in enumerate(sees)), comma=True)}",
        )
        said = f"{said}. {m.pick(*ends)}"
        if not m.says("name"):
            return s.framed(s.argued(said, bool(m.plan.natural)))
        through = listed(cells)
        clauses = (
            f"an X-chain of {ds} runs through {through}",
            f"{through}, taken in that order, make an X-chain on {d}",
            f"the {ds} form an X-chain from {first} through {listed(cells[1:-1])} to {last}",
        )
        nouns = (f"the X-chain on {d} that links {through}", f"an X-chain of {ds} by way of {through}")
        if m.often(0.5):
            head = m.pick(
                f"here is an X-chain on {d}",
                f"the {ds} make an X-chain from {first} to {last}",
                f"follow the {ds} along an X-chain",
            )
            return s.framed(s.argued(f"{head}. {opened(said)}", bool(m.plan.natural)))
        return s.follows(clauses, nouns)

    def walked(self, m: Matter, s: _Entry, links: Sequence[tuple[int, bool, int]]) -> str:
        """Links of a chain, told one after the other in several sentences."""

        def flat(at: int, verb: str = "", name: str = "") -> str:
            cell, holds, digit = links[at]
            name = name or ("it" if at and cell == links[at - 1][0] else s.cell(cell))
            yes, no = {"": ("is", "is not"), "must": ("must be", "cannot be"), "would": ("would be", "would not be")}[verb]
            return f"{name} {yes if holds else no} {s.d(digit)}"

        cell, holds, digit = links[0]
        start = flat(0)
        later = range(1, len(links))
        shape = m.rng.randrange(7)
        if shape == 0:  # each link a conditional of its own
            said = [f"if {flat(at - 1, name=s.cell(links[at - 1][0]))}, then {flat(at)}" for at in later]
            return ". ".join(opened(f"{m.pick('and ', 'again, ', '', '') if at else ''}{part}") for at, part in enumerate(said))
        if shape == 1:
            joints = [m.pick("that means that", "so", "which tells us that", "it follows that") for _ in later]
            parts = [
                f"then {flat(1, 'must')}",
                *(f"{joint} {flat(at, 'must')}" for at, joint in zip(later[1:], joints, strict=False)),
            ]
            return ". ".join([f"suppose that {start}", *map(opened, parts)]).replace(
                ". Which tells us that", ", which tells us that"
            )
        if shape == 2:
            given = [f"with {s.d(n)} in {s.cell(c)}" if yes else f"without {s.d(n)} in {s.cell(c)}" for c, yes, n in links]
            parts = [f"{given[at - 1]}, {flat(at, name=s.cell(links[at][0]))}" for at in later[1:]]
            return ". ".join(map(opened, [f"if {start}, then {flat(1)}", *parts]))
        if shape == 3:
            told = [flat(at, "would") for at in later]
            halves = [told[at : at + 2] for at in range(0, len(told), 2)]
            joints = ["then ", *(m.pick("next, ", "in turn, ", "moreover, ", "") for _ in halves)]
            return f"what if {start}? " + ". ".join(
                opened(joint + ", and ".join(half)) for joint, half in zip(joints, halves, strict=False)
            )
        if shape == 4:
            no = f"{s.cell(cell)} {'is' if holds else 'is not'} {s.d(digit)}"
            yes = f"{s.cell(cell)} {'is not' if holds else 'is'} {s.d(digit)}"
            told = [flat(at) for at in later]
            joined = "; ".join(told[:-1]) + f"; and so {told[-1]}" if len(told) > 1 else told[0]
            return f"either {yes}, or it is {'' if holds else 'not'}".rstrip() + f". If {no}, then {joined}"
        if shape == 5:
            hops = [
                m.pick(
                    f"this forces the next link: {flat(at)}",
                    f"then {flat(at)}",
                    f"consequently {flat(at)}",
                    f"from there, {flat(at)}",
                )
                for at in later
            ]
            return ". ".join([f"let us say that {start}", *map(opened, hops)])
        told = [flat(at) for at in later]
        return f"say {start}. Then " + ", so ".join(told[:2]) + "".join(f". If so, {part}" for part in told[2:])

    def chain(self, m: Matter) -> str:
        s = _Entry(m)
        (first, supposed, digit), (last, holds, other) = m.links[0], m.links[-1]
        start = f"{s.cell(first)} {'is not' if supposed else 'is'} {s.d(digit)}"
        said = self.walked(m, s, m.links)
        if first == last and digit == other and holds != supposed:
            said += m.pick(
                ". But that is the opposite of what we supposed",
                ". That contradicts where we began",
                f". The supposition is therefore wrong, and {start}",
                ". Our assumption has refuted itself",
            )
            s.phrase = start if m.plan.natural else ""
        else:
            finish = f"{s.cell(last)} {'is' if holds else 'is not'} {s.d(other)}"
            said += m.pick(
                f". So either {start} or {finish}",
                f". One of two things is true, then: {start} or {finish}",
                f". Hence, unless {start}, {finish}",
                "",
            )
            if m.plan.natural:
                s.hint = s.seen_by(digit, (s.cell(first), s.cell(last)), "ends of the chain")
        return s.framed(s.argued(said, bool(m.plan.natural)))

    def facts(self, m: Matter) -> str:
        s = _Entry(m)
        if m.put and m.cited == [m.put.cell]:
            cell, d = s.cell(m.put.cell), s.d(m.put.digit)
            return opened(
                m.pick(
                    f"look at nothing but {cell}: it must be {d}.",
                    f"the candidates of {cell} settle the matter by themselves. It is {d}.",
                    f"{cell} is {d}, as that cell alone will tell you.",
                    f"{cell}, all by itself, shows that it is {d}.",
                )
            )
        items = [s.cell(item) if isinstance(item, int) else f"the {s.d(item[0])} of {s.house(item[1])}" for item in m.cited]
        said, it = listed(items), "it" if len(items) == 1 else "them"
        order, plain = s.effects(), s.effects(orders=False)
        shapes = [
            f"look at {said} and at nothing else. {opened(order)}.",
            f"{plain}, which follows from {said} alone.",
            f"from {said} we learn that {plain}.",
            f"consider {said}. Whatever becomes of {it}, {plain}.",
            f"{order}. For the reason, try out {said}.",
            f"going through all the options for {said}, I find every time that {plain}.",
        ]
        if len(m.cited) == 1:
            item = m.cited[0]
            shapes += (
                [
                    f"whatever {items[0]} turns out to be, {plain}.",
                    f"no matter which of its candidates goes into {items[0]}, {plain}.",
                ]
                if isinstance(item, int)
                else [
                    f"wherever {items[0]} goes, {plain}.",
                    f"try {items[0]} in each of its places. {opened(plain)} every time.",
                ]
            )
        return opened(m.pick(*shapes))

    def bare(self, m: Matter) -> str:
        s = _Entry(m, several=m.put is None)
        if m.put is None:
            order, plain = s.effects(), s.effects(orders=False)
            return opened(
                m.pick(
                    f"{order}.",
                    f"besides, {plain}.",
                    f"I enter here, with no reason given, that {plain}.",
                    f"it also turns out that {plain}.",
                    f"{plain}; I leave the why to you.",
                )
            )
        cell, at, d, a = s.cell(m.put.cell), s.at(m.put.cell), s.d(m.put.digit), s.a(m.put.digit)
        return opened(
            m.pick(
                f"{cell} is {d}.",
                f"write {d} {at}.",
                f"{d} goes {at}.",
                f"{at} I enter {a}, and leave the reason to you.",
                f"now {cell} can be filled in with {a}.",
                f"then {cell} must be {d}.",
                f"{cell} has to be {d}; you will see why.",
                f"next, {d} {at}.",
            )
        )

    def recap(self, m: Matter) -> str:
        s, put = _Entry(m, several=False), filled(m)
        cell, d = s.cell(put.cell), s.d(put.digit)
        return opened(
            m.pick(
                f"so {cell} is {d}, as I said.",
                f"to sum up, {cell} is {d}.",
                f"{cell} is {d}, then.",
                f"that was {d} {s.at(put.cell)}, for those taking notes.",
            )
        )

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        greeting = (
            "From the harbour office, with the Lamp Room's compliments: this week's puzzle, worked out in full. I name the column first and the row second.",
            "The tide is out and the office is quiet, so I have written up the Lamp Room's puzzle. Columns are counted from the left and rows from the top.",
            "Dear readers of the Lamp Room page, here is a fair copy of my working. In every entry the column comes before the row.",
        )
        yield Piece(rng.choice(greeting), opens=True)
        if rng.random() < 0.4:
            yield Piece(
                rng.choice(
                    (
                        "Boxes, where they have numbers, run like the lines of a page.",
                        "A sharp pencil is advised.",
                        "The easy entries come first.",
                    )
                )
            )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.1:
            remarks = (
                "So far the book balances.",
                "A coaster has come in, and I must break off for its papers. There, that is done.",
                "The fog signal has stopped at last.",
                "Let us take stock: a good many cells are filled, and nothing contradicts anything.",
                "After that it goes more easily.",
                "I own that I found this part hard.",
                "The kettle is on.",
                "This is where the keeper of the lamp gave up last week.",
                "We now have a little more to go on.",
                "Nothing here is guessed; every entry has its voucher.",
            )
            yield Piece(rng.choice(remarks), opens=rng.random() < 0.4)

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.35

    def closing(self, rng: Random) -> Iterator[Piece]:
        farewell = (
            "That closes the book for this week.",
            "There I lay down my pen. The remainder may wait for the next tide.",
            "With that my working ends. Signed and stamped at the harbour office.",
        )
        yield Piece(rng.choice(farewell), opens=True)

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        marks = {"none": "", "number": "{}. ", "entry": "Entry {}. ", "dash": "- "}[
            rng.choice(("none", "none", "none", "number", "entry", "dash"))
        ]
        heads = (marks.format(number) for number in count(1))
        head = rng.choice(("", "# Worked solution", f"The Lamp Room, puzzle {walk.seed}\n\nWorked at the harbour office"))
        return "narration", prose(pieces, rng.choice((None, 80, 100)), heads, head)


def filled(m: Matter) -> Put:
    """The one cell that is filled in."""
    assert m.put is not None
    return m.put


def set_off(said: str, conclusion: str) -> str:
    """The conclusion, set off where two figures would meet at the comma."""
    return f"it is plain that {conclusion}" if said[-1].isdigit() and conclusion[0].isdigit() else conclusion


def mentioned(m: Matter) -> set[int]:
    """Every digit that the step may have to say."""
    told = {*m.digits, *m.plan.shared, *(digit for *_, digit in m.links)}
    told |= {item[0] for item in m.cited if not isinstance(item, int)}
    for effect in m.effects:
        if isinstance(effect, Put):
            told.add(effect.digit)
        else:
            told |= {*effect.digits}
            if isinstance(effect, Strike) and len(effect.cells) == 1:
                told |= {*m.board.digits[effect.cells[0]]}
    return told


def end_digit(m: Matter) -> int:
    """The digit at the ends of a chain."""
    return m.digits[0]
