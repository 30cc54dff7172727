"""For development: a retired surveyor. Dry prose, the column before the row (c7r3), no two sentences built alike."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count, pairwise
from random import Random
from typing import ClassVar, NamedTuple

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, an, listed, opened
from .layout import Laid, Piece, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

FORMS = (
    ("code", "code", "code", "comma", "cross"),
    ("comma", "comma", "bracket", "inside", "cross"),
    ("code", "comma", "words", "bracket", "inside", "cross"),
)
"""How cells are named, by the narration's manner."""

COMPACT = {"comma": "plain", "inside": "plain", "cross": "bracket"}
"""What those become where commas or long names would blur a pattern."""

ENDS = (("the cells that see both {}", True), ("the cells in view of both {}", True), ("whatever sees both {}", False))

LOSSES = (
    ("{place} lose{s} {all}", "{place} lose{s} {all}"),
    ("{all} come{ds} out of {place}", "{all} out of {place}"),
    ("{all} {are} struck from {place}", "{all} from {place}"),
    ("{place} can't be {any}", "nor can {place} be {any}"),
    ("there is no {any} in {place}", "no {any} in {place}"),
    ("{all} {are} gone from {place}", "{all} from {place}"),
    ("{place} may not hold {any}", "nor may {place} hold {any}"),
    ("{place} part{s} with {all}", "{place} with {all}"),
    ("{all} cannot stay in {place}", "{all} cannot stay in {place}"),
    ("{place} give{s} up {all}", "{place} give{s} up {all}"),
)
"""That candidates go: the first of several times, and the others."""

ORDERS = (
    ("cross out {all} in {place}", "{all} in {place}"),
    ("remove {all} from {place}", "{all} from {place}"),
    ("strike {all} out of {place}", "{all} out of {place}"),
    ("rub out {all} in {place}", "{all} in {place}"),
)

DEEDS = (
    ("removes", "removing", "{all} from {place}"),
    ("takes", "taking", "{all} out of {place}"),
    ("strikes", "striking", "{all} from {place}"),
    ("costs", "costing", "{place} the {all}"),
    ("bars", "barring", "{all} from {place}"),
    ("leaves", "leaving", "no {any} in {place}"),
)
"""What a pattern does, in two forms of the verb."""


class _Loss(NamedTuple):
    """Candidates that go. ``many``: the place is a plural; ``kept``: what is left in a single cell, if that may be said."""

    digits: Sequence[int]
    place: str
    many: bool
    kept: Sequence[int] = ()

    def worded(self, template: str) -> str:
        several = len(self.digits) > 1
        return template.format(
            place=self.place,
            all=both(self.digits),
            any=either(self.digits),
            s="" if self.many else "s",
            ds="" if several else "s",
            are="are" if several else "is",
        )


class _Sheet:
    """One step being written up: what its cells are called, and its effects, the hint at them where that is all."""

    def __init__(self, m: Matter, pattern: bool = True) -> None:
        """``pattern``: cells are many, and their names short."""
        self.m = m
        self.form = m.pick(*FORMS[m.manner % len(FORMS)])
        if pattern:
            crowd = sum(len(effect.cells) for effect in m.effects if isinstance(effect, Strike)) + len(m.fins)
            self.form = COMPACT.get(self.form, self.form) if crowd < 5 and not m.links else "code"
        self.hint: Sequence[_Loss] = ()
        self.phrase = ""

    def number(self, number: int) -> str:
        return NUMBERS[number] if self.form == "words" else str(number)

    def cell(self, cell: int) -> str:
        row, column = (self.number(number + 1) for number in divmod(cell, 9))
        return {
            "code": f"c{column}r{row}",
            "comma": f"column {column}, row {row}",
            "words": f"column {column} row {row}",
            "plain": f"column {column} row {row}",
            "bracket": f"(column {column}, row {row})",
            "inside": f"the cell in column {column} at row {row}",
            "cross": f"the cell where column {column} crosses row {row}",
        }[self.form]

    def at(self, cell: int) -> str:
        said = self.cell(cell).removeprefix("the cell ")
        return said if self.form in ("cross", "inside") else f"{'in' if self.form == 'words' else 'at'} {said}"

    def cells(self, cells: Sequence[int], last: str = "and") -> str:
        """Cells of one line at times by its name once and their numbers in it."""
        joined = self.m.often(0.45)
        rows, columns = ([*dict.fromkeys(numbers)] for numbers in zip(*(divmod(cell, 9) for cell in cells), strict=True))
        if len(cells) > 1 and joined and len(cells) == len({*cells}) and 1 in (len(rows), len(columns)):
            return self.run(rows, columns, last)
        return listed(map(self.cell, cells), last)

    def run(self, rows: Sequence[int], columns: Sequence[int], last: str) -> str:
        if self.form == "code" and last == "and":
            return f"c{''.join(str(n + 1) for n in columns)}r{''.join(str(n + 1) for n in rows)}"
        row, column = (listed((self.number(n + 1) for n in numbers), last) for numbers in (rows, columns))
        return f"column {column} rows {row}" if len(columns) == 1 else f"columns {column} of row {row}"

    def house(self, house: House) -> str:
        return f"{KINDS[house.kind]} {self.number(house.number)}"

    def houses(self, houses: Sequence[House], last: str = "and") -> str:
        return f"{KINDS[houses[0].kind]}s {listed((self.number(house.number) for house in houses), last)}"

    def where(self) -> str:
        kind = KINDS[self.m.house.kind]
        return self.m.pick(f"the same {kind}", f"that {kind}") if self.m.plan.back else self.house(self.m.house)

    def inside(self, cells: str) -> str:
        """The house with a preposition, unless it goes unsaid or the cells' names have said it."""
        house = self.where()
        named = cells.endswith(f" of {house}") or cells.startswith(f"{house} rows ")
        return f" in {house}" if self.m.says("house") and not named else ""

    def target(self, cell: int) -> str:
        """A cell that the effects are about; the only one at times by a longer name."""
        was, long = self.form, self.m.pick("cross", "inside", *[self.form] * 5)
        self.form = long if len(self.m.effects) == 1 else was
        said = self.cell(cell)
        self.form = was
        return said

    def losses(self) -> list[_Loss]:
        if self.hint:
            return [*self.hint]
        return [self.loss(effect) for effect in self.m.effects if not isinstance(effect, Put)]

    def loss(self, effect: Strike | Clear) -> _Loss:
        m = self.m
        if isinstance(effect, Clear):
            place = m.pick("the rest", "the other cells", "the remainder") + f" of {self.house(effect.house)}"
            return _Loss(effect.digits, place, "other" in place)
        kept: tuple[int, ...] = ()
        if len(effect.cells) == 1 and all(m.board.has(effect.cells[0], digit) for digit in effect.digits):
            kept = tuple(digit for digit in m.board.digits[effect.cells[0]] if digit not in effect.digits)
        place = self.target(effect.cells[0]) if len(effect.cells) == 1 else self.cells(effect.cells)
        return _Loss(effect.digits, place, len(effect.cells) > 1, kept if 1 < len(kept) < 5 else ())

    def seen_by_both(self, digit: int, ends: str) -> list[_Loss]:
        place, many = self.m.rng.choice(ENDS)
        return [_Loss((digit,), place.format(ends), many)]

    def effects(self, orders: bool = True) -> str:
        """What follows, as a sentence. ``orders``: it may be a command."""
        if self.phrase:
            return self.phrase
        said = [self.put(effect) for effect in self.m.effects if isinstance(effect, Put)] if not self.hint else []
        losses = self.losses()
        if losses:
            said.append(self.lost(losses, orders))
        return listed(said)

    def put(self, put: Put) -> str:
        cell, digit = self.target(put.cell), put.digit
        return self.m.pick(
            f"{cell} is {digit}",
            f"{digit} stands {self.at(put.cell)}",
            f"{cell} must be {digit}",
            f"only {digit} is left for {cell}",
            f"{cell} can be nothing but {digit}",
            f"{digit} is the value of {cell}",
        )

    def lost(self, losses: Sequence[_Loss], orders: bool) -> str:
        m, head = self.m, losses[0]
        if len(losses) == 1:
            if head.kept and m.often(0.25):
                return m.pick(f"{head.place} keeps only {both(head.kept)}", f"{both(head.kept)} alone survive in {head.place}")
            for rest in ("the rest of ", "the other cells of "):
                if head.place.startswith(rest) and m.often(0.4):
                    house = head.place.removeprefix(rest)
                    return m.pick(
                        f"no other cell of {house} may be {either(head.digits)}",
                        f"{either(head.digits)} is possible nowhere else in {house}",
                        f"elsewhere in {house} there can be no {either(head.digits)}",
                    )
        first, other = m.rng.choice(LOSSES + ORDERS if orders else LOSSES)
        return self.strung([head.worded(first), *(loss.worded(other) for loss in losses[1:])], losses)

    def strung(self, said: Sequence[str], losses: Sequence[_Loss]) -> str:
        if said[-1].startswith("nor "):
            return ", ".join(said)
        nested = any(loss.many or len(loss.digits) > 1 for loss in losses)
        return "; ".join(said) if nested and len(said) > 1 else listed(said)

    def deed(self, going: bool = False) -> str:
        """What follows, as the deed of what was just said. ``going``: as a participle."""
        m = self.m
        puts = [effect for effect in m.effects if isinstance(effect, Put)]
        losses = self.losses()
        if not losses:
            said = [
                m.pick(f"only {p.digit} for {self.cell(p.cell)}", f"{self.cell(p.cell)} with {p.digit} alone") for p in puts
            ]
            return f"{'leaving' if going else 'leaves'} {listed(said)}"
        if losses[0].kept and len(losses) == 1 and m.often(0.3):
            return f"{'leaving' if going else 'leaves'} only {both(losses[0].kept)} in {losses[0].place}"
        finite, participle, object_ = m.rng.choice(DEEDS)
        return f"{participle if going else finite} " + self.strung([loss.worded(object_) for loss in losses], losses)

    def follows(self, clauses: Sequence[str], nouns: Sequence[str] = ()) -> str:
        """The reason, told as a clause or by its noun, and its effects."""
        m = self.m
        forward = m.plan.back or bool(m.plan.natural)
        mixed = self.phrase or len({isinstance(effect, Put) for effect in m.effects}) > 1
        pattern = m.pick(*nouns) if nouns and m.often(0.5) else ""
        if pattern:
            shapes = [self.by_name] if mixed else [self.by_name, self.by_deed]
            return m.rng.choice(shapes)(pattern, forward)
        said = m.pick(*clauses)
        if ". " in said or ";" in said or ":" in said:
            return self.after_argument(said, forward)
        deed = [] if mixed else [self.with_deed]
        return m.rng.choice([self.reason_first, self.reason_first, *deed, *([] if forward else [self.conclusion_first])])(said)

    def reason_first(self, said: str) -> str:
        m, effects, plain = self.m, self.effects(), self.effects(orders=False)
        return opened(
            m.pick(
                f"{said}, so {effects}.",
                f"{said}. Hence {plain}.",
                f"{said}. {opened(effects)}.",
                f"as {said}, {plain}.",
                f"given that {said}, {plain}.",
                f"{said}. It follows that {plain}.",
                f"note that {said}; therefore {plain}.",
                f"{said}, and in consequence {plain}.",
                f"once it is seen that {said}, it is plain that {plain}.",
            )
        )

    def with_deed(self, said: str) -> str:
        deed, going = self.deed(), self.deed(going=True)
        return opened(
            self.m.pick(f"{said}, which {deed}.", f"{said}, {going}.", f"{said}. This {deed}.", f"{said}. That {deed}.")
        )

    def conclusion_first(self, said: str) -> str:
        effects, plain = self.effects(), self.effects(orders=False)
        return opened(
            self.m.pick(
                f"{plain}, because {said}.",
                f"{effects}: {said}.",
                f"{effects}, seeing that {said}.",
                f"{effects}. The ground for it is that {said}.",
                f"{plain}. Why? Because {said}.",
                f"{plain}, since {said}.",
            )
        )

    def by_name(self, pattern: str, forward: bool) -> str:
        effects, plain = self.effects(), self.effects(orders=False)
        later = () if forward else (f"{plain}, thanks to {pattern}.", f"{effects}. That is owed to {pattern}.")
        return opened(
            self.m.pick(
                f"{pattern}: {effects}.",
                f"because of {pattern}, {plain}.",
                f"enter on the plan {pattern}. {opened(effects)}.",
                f"we have {pattern}. Accordingly {plain}.",
                f"by virtue of {pattern}, {plain}.",
                *later,
            )
        )

    def by_deed(self, pattern: str, forward: bool) -> str:
        return opened(self.m.pick(f"{pattern} {self.deed()}.", f"I find {pattern}, {self.deed(going=True)}."))

    def after_argument(self, said: str, forward: bool) -> str:
        effects, plain = self.effects(), self.effects(orders=False)
        later = () if forward else (f"{plain}. The argument runs: {said}.", f"{effects}. For consider: {said}.")
        return opened(
            self.m.pick(
                f"{said}. So {plain}.",
                f"{said}. {opened(effects)}.",
                f"{said}. In either case {plain}." if "either" in said.lower() else f"{said}. Consequently {plain}.",
                *later,
            )
        )


class Surveyor(Narrator):
    """Writes a column of prose, as he once wrote field notes."""

    name = "surveyor"
    leaves: ClassVar = {
        "single house": 0.07,
        "its": 0.13,
        "naked house": 0.4,
        "hidden house": 0.1,
        "cover": 0.12,
        "crossing": 0.12,
        "name": 0.4,
        "effects": 0.5,
        "back": 0.3,
        "corners": 0.25,
        "recap": 0.02,
    }

    def naked_single(self, m: Matter) -> str:
        s, put = _Sheet(m, pattern=False), filled(m)
        cell, at, digit = s.cell(put.cell), s.at(put.cell), put.digit
        return opened(
            m.pick(
                f"{cell} has run out of choices: {digit}.",
                f"every digit but {digit} is excluded {at}, so {digit} it is.",
                f"eight digits are out of the question {at}. The ninth is {digit}.",
                f"what can still stand {at}? Only {digit}.",
                f"a lone {digit} remains {at}; ink it in.",
                f"a naked single {at} gives {digit}.",
                f"{digit} {at}: naked single.",
                f"having lost all its other candidates, {cell} becomes {digit}.",
                f"turn to {cell}, where a single candidate survives. Write {digit} in this cell.",
                f"{cell} cannot be anything other than {digit}.",
                f"with the rest crossed out {at}, {digit} is all that's left.",
                f"we may set down {digit} {at}, for no other digit is admitted there.",
                f"I can read only one candidate off {cell}, namely {digit}.",
                f"the list {at} is down to one entry, and that entry is {digit}.",
                f"{cell} is a naked single, value {digit}.",
                f"{digit} wins {cell} by default, there being no rival.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        s, put = _Sheet(m, pattern=False), filled(m)
        cell, at, digit = s.cell(put.cell), s.at(put.cell), put.digit
        if not m.says("house"):
            return self.unhoused(m, cell, at, digit)
        if not m.says("its"):
            return self.alone_in_its(m, cell, at, digit)
        short = m.often(0.15)
        row, column = (number + 1 for number in divmod(put.cell, 9))
        if short and not m.plan.back and m.house in (House("c", column), House("r", row)):
            along = House("r", row) if m.house.kind == "c" else House("c", column)
            return self.along(m, s.house(m.house), s.house(along), digit)
        house = s.where()
        return opened(
            m.pick(
                f"{house} still wants {an(str(digit))}, and of its open cells only {cell} will have it.",
                f"there is one berth for {digit} in {house}: {cell}.",
                f"{digit} belongs {at}, nowhere else in {house} being open to it.",
                f"search {house} for {an(str(digit))} and you end up {at}.",
                f"where can {house} put its {digit}? {opened(at)} and nowhere else.",
                f"{cell} is {digit}. No other cell of {house} can be.",
                f"since all other cells of {house} refuse {digit}, {cell} must accept it.",
                f"{house} offers {digit} a single home, namely {cell}.",
                f"the {digit} in {house} is forced into {cell}.",
                f"hidden single: {house} has its {digit} {at}.",
                f"a hidden single in {house} comes to light {at}: {digit}.",
                f"take {house} next. Its {digit} can't go anywhere except {cell}, so there it goes.",
                f"put the {digit} of {house} {at}; the other cells are closed to it.",
                f"every cell of {house} but one has ruled {digit} out. The exception is {cell}.",
                f"in {house} I count one place for {digit}, {at}.",
                f"nothing in {house} takes {digit} apart from {cell}; enter it.",
                f"{cell} gets {digit}, as it is the last cell in {house} that can.",
            )
        )

    def along(self, m: Matter, house: str, across: str, digit: int) -> str:
        """The cell told by the line that crosses the house."""
        return opened(
            m.pick(
                f"{house} can place its {digit} in {across} only.",
                f"walk along the cells of {house}: {digit} fits where {across} crosses it, and nowhere else.",
                f"the {digit} of {house} has to be in {across}, every other cell being closed to it.",
                f"in {house}, {digit} is left with the cell in {across}.",
            )
        )

    def unhoused(self, m: Matter, cell: str, at: str, digit: int) -> str:
        return opened(
            m.pick(
                f"{digit} {at} is a hidden single.",
                f"a hidden single puts {digit} {at}.",
                f"{cell} must be {digit}: hidden single.",
                f"one more hidden single: {digit} goes to {cell}.",
                f"look for the hidden single {at}. It is {digit}.",
                f"{cell} conceals a hidden single, and it reads {digit}.",
            )
        )

    def alone_in_its(self, m: Matter, cell: str, at: str, digit: int) -> str:
        kind = KINDS[m.house.kind]
        return opened(
            m.pick(
                f"{cell} is alone in its {kind} in being able to hold {digit}.",
                f"{digit} {at}: its {kind} has no second place for it.",
                f"look over the {kind} of {cell}. {digit} fits in this cell and in no other.",
                f"{cell} takes {digit}, there being no alternative in its {kind}.",
                f"no neighbour in its {kind} can relieve {cell} of the {digit}.",
                f"{digit} has to go to {cell} because the rest of its {kind} will not have it.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        s, put = _Sheet(m, pattern=False), filled(m)
        cell, at, digit = s.cell(put.cell), s.at(put.cell), put.digit
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return opened(
                m.pick(
                    f"{cell} is the last open cell of its {kind}: {digit}.",
                    f"with its {kind} otherwise full, {cell} must be {digit}.",
                    f"write {digit} {at}, which was the only blank in its {kind}.",
                    f"the {kind} of {cell} is complete but for this cell. It takes {digit}.",
                    f"{digit} closes the {kind} of {cell}, its one remaining gap.",
                    f"nothing else is empty in its {kind}, so {cell} is {digit}.",
                )
            )
        house = s.where()
        return opened(
            m.pick(
                f"{house} has one vacancy, {cell}. The missing digit is {digit}.",
                f"eight of nine stand in {house}; {digit} closes it {at}.",
                f"{cell} rounds off {house} with {an(str(digit))}.",
                f"to close {house}, write {digit} {at}.",
                f"only {cell} is still blank in {house}, and only {digit} is still absent.",
                f"{house} is one short. It lacks {digit}, which belongs {at}.",
                f"{digit} {at}, and {house} is full.",
                f"what {house} is missing is {digit}; what is empty there is {cell}.",
                f"count through {house}: all present save {digit}. Its last gap, {cell}, receives it.",
                f"the final cell of {house} is {cell}, hence {digit}.",
                f"{cell} is {digit} because nothing else in {house} is empty.",
            )
        )

    def locked(self, m: Matter) -> str:
        assert m.crossing is not None
        s, digit, kind = _Sheet(m), m.digits[0], KINDS[m.crossing.kind]
        house, line = s.where(), s.house(m.crossing)
        far = f"that {kind}" if not m.says("crossing") else m.pick(line, f"that {kind}")
        s.hint = [_Loss((digit,), f"the rest of {far}", False)] if m.plan.natural else ()
        if not m.says("crossing"):
            clauses: tuple[str, ...] = (
                f"all the {digit}s of {house} fall in one {kind}",
                f"{house} keeps its {digit}s within a single {kind}",
                f"a single {kind} contains each {digit} of {house}",
                f"the {digit}s in {house} never stray from one {kind}",
                f"there is but one {kind} in which {house} can have its {digit}",
                f"no two {kind}s share the {digit}s of {house}, one having them all",
            )
            return s.follows(clauses)
        clauses = (
            f"every place left for {digit} in {house} lies in {line}",
            f"{house} has to put its {digit} inside {line}",
            f"{house} can't place {digit} outside {line}",
            f"the {digit} of {house} is held to {line}",
            f"whichever cell of {house} gets {digit}, it is a cell of {line}",
            f"the {digit} that {house} owes sits where it overlaps {line}",
            f"{line} holds all the {digit}s that {house} has left",
        )
        if not m.says("name"):
            return s.follows(clauses)
        if m.name == "pointing":
            nouns: tuple[str, ...] = (
                f"the pointing {digit} in {house} along {line}",
                f"a pointing pattern of {digit}s, {house} on {line}",
            )
            return s.follows((*clauses, f"the {digit}s in {house} point along {line}"), nouns)
        nouns = (f"the claim of {house} on the {digit} of {line}", f"a claiming {digit}, {house} within {line}")
        return s.follows((*clauses, f"{house} claims the {digit} of {line}"), nouns)

    def naked(self, m: Matter) -> str:
        s, size = _Sheet(m), m.name.split()[1]
        cells, digits = s.cells(m.cells), both(m.digits)
        inside = s.inside(cells)
        run = m.pick("/", "-", "").join(map(str, m.digits))
        if m.plan.natural:
            places = listed(f"of the {KINDS[kind]}" for kind in m.plan.kinds)
            s.hint = [_Loss(m.digits, *m.rng.choice(((f"the rest {places}", False), (f"the other cells {places}", True))))]
        if m.says("name"):
            clauses: tuple[str, ...] = (
                f"{cells} make a naked {size} of {digits}{inside}",
                f"a naked {size}, {digits}, occupies {cells}{inside}",
                f"{digits} form a naked {size} at {cells}{inside}",
                f"with {digits} as its digits, a naked {size} is set up{inside} by {cells}",
            )
            nouns = (
                f"the naked {size} {run} at {cells}{inside}",
                f"a naked {size} of {digits}{inside} at {cells}",
                f"the naked {size} that {cells} form{inside} with {digits}",
            )
            return s.follows(clauses, nouns)
        n = NUMBERS[m.count]
        clauses = (
            f"{cells}{inside} have nothing but {digits} to share",
            f"between them {cells} use up {digits}{inside}",
            f"{digits} must be divided among {cells}{inside}",
            f"there are but {n} digits, {digits}, for the {n} cells {cells}{inside}",
            f"none of {cells}{inside} admits anything outside {digits}"
            if m.count > 2
            else f"neither of {cells}{inside} admits anything outside {digits}",
            f"one of {cells}{inside} is {m.digits[0]} and the other one is {m.digits[1]}"
            if m.count == 2
            else f"{cells}{inside} will be {digits}, in whatever order",
        )
        return s.follows(clauses)

    def hidden(self, m: Matter) -> str:
        s, size, n = _Sheet(m), m.name.split()[1], NUMBERS[m.count]
        cells, digits = s.cells(m.cells), both(m.digits)
        inside = s.inside(cells)
        run = m.pick("/", "-", "").join(map(str, m.digits))
        if m.plan.natural:
            s.phrase = m.pick(
                f"all other candidates come out of these {n} cells",
                f"nothing else may stay in {'either' if m.count == 2 else 'any'} of them",
                f"the {n} cells keep those {n} digits and lose the rest",
                "whatever else was pencilled there goes",
                f"the {n} cells are cleared of everything else",
                f"{'both' if m.count == 2 else 'all'} of them shed their other candidates",
            )
        if m.says("name"):
            clauses: tuple[str, ...] = (
                f"a hidden {size} of {digits} lies at {cells}{inside}",
                f"{digits} make a hidden {size} of {cells}{inside}",
                f"{cells}{inside} conceal a hidden {size}, {digits}",
                f"{inside.strip() or 'here'} the digits {digits} are a hidden {size} at {cells}",
            )
            nouns = (
                f"the hidden {size} {run} at {cells}{inside}",
                f"a hidden {size} ({digits}){inside} at {cells}",
                f"the hidden {size} that {digits} form{inside} at {cells}",
            )
            return s.follows(clauses, nouns)
        clauses = (
            f"{digits}{inside} can only go in {cells}",
            f"there is room for {digits}{inside} at {cells} and nowhere else",
            f"outside {cells} there is no place{inside} for {either(m.digits)}",
            f"the {n} digits {digits} have {n} cells to go to{inside}, {cells}",
            f"{cells} are the only cells{inside} open to {digits}",
            f"{cells} must find room for {digits}{inside}, no other cell being available",
        )
        return s.follows(clauses)

    def fish(self, m: Matter) -> str:
        s, digit = _Sheet(m), m.digits[0]
        shown, cross = m.name.replace("x-wing", "X-wing"), KINDS[m.cover[0].kind]
        base, cover = s.houses(m.houses), s.houses(m.cover)
        if m.plan.natural:
            s.hint = [_Loss((digit,), f"the rest of {cover if m.says('cover') and m.often(0.5) else f'those {cross}s'}", False)]
        if m.plan.corners:
            return self.cornered(m, s)
        if not m.says("name"):
            clauses: tuple[str, ...] = (
                f"the {digit}s of {base} occupy only {cover}",
                f"{base} can have {digit} nowhere but in {cover}",
                f"each of {base} puts its {digit} into one of {cover}",
                f"whichever way {digit} falls in {base}, it falls in {cover}",
                f"between them {base} use up the {digit}s of {cover}",
                f"no {digit} in {base} lies off {cover}",
                f"{digit} is limited in {base} to {cover}",
            )
            return s.follows(clauses)
        if not m.says("cover"):
            clauses = (
                f"{digit} makes {an(shown)} in {base}",
                f"{base} show {an(shown)} of {digit}s",
                f"{an(shown)} on {digit} has {base} for its base",
                f"the {digit}s of {base} are lined up as {an(shown)}",
            )
            return s.follows(clauses, (f"the {shown} on {digit} in {base}", f"{an(shown)} of {digit}s based on {base}"))
        clauses = (
            f"{digit} in {base} forms {an(shown)} over {cover}",
            f"{base} and {cover} meet in {an(shown)} on {digit}, the base being {base}",
            f"{an(shown)} of {digit}s runs in {base} through {cover}",
            f"{base} hold {an(shown)} on {digit}, covered by {cover}",
            f"with {base} as base and {cover} as cover, {digit} makes {an(shown)}",
        )
        nouns = (
            f"the {shown} on {digit} in {base} with cover {cover}",
            f"the {shown} of {digit}s, {base} against {cover}",
            f"{an(shown)} that takes the {digit}s of {base} to {cover}",
        )
        return s.follows(clauses, nouns)

    def cornered(self, m: Matter, s: _Sheet) -> str:
        """An X-wing by its four cells."""
        digit, kind = m.digits[0], KINDS[m.houses[0].kind]
        crossings = {House(m.cover[0].kind, house.number) for house in m.cover} | {*m.houses}
        lines = [cell for cell in range(81) if {House("r", cell // 9 + 1), House("c", cell % 9 + 1)} <= crossings]
        cells = s.cells(lines)
        clauses = (
            f"{cells} are the corners of an X-wing on {digit} in the {kind}s",
            f"{digit} makes an X-wing in the {kind}s with its corners at {cells}",
            f"an X-wing of {digit}s, seen in the {kind}s, is staked out by {cells}",
            f"the four corners {cells} carry an X-wing on {digit}, read by {kind}s",
        )
        nouns = (f"the {kind}-wise X-wing on {digit} with corners {cells}", f"an X-wing on {digit} in the {kind}s, {cells}")
        return s.follows(clauses, nouns)

    def finned(self, m: Matter) -> str:
        s, digit, one = _Sheet(m), m.digits[0], len(m.fins) == 1
        shown = m.name.replace("x-wing", "X-wing")
        plain, fin = shown.removeprefix("finned "), "fin" if one else "fins"
        base, cover, fins = s.houses(m.houses), s.houses(m.cover), s.cells(m.fins)
        if m.plan.natural:
            s.hint = [
                _Loss((digit,), f"the cells of {cover} that see the {fin}", True),
                _Loss((digit,), f"whatever in {cover} the {fin} can see", False),
            ][m.rng.randrange(2) :][:1]
        clauses = (
            f"{base} would make {an(plain)} on {digit} with {cover} if it weren't for the {fin}, {fins}",
            f"apart from the {fin} {fins}, the {digit}s of {base} form {an(plain)} over {cover}",
            f"a {shown} on {digit} has the base {base}, the cover {cover} and the {fin} {fins}",
            f"either the {plain} of {digit}s in {base} against {cover} holds, or the {digit} is in the {fin}, {fins}",
            f"{digit} in {base} keeps to {cover} but for the {fin} {fins}, and that makes it a {shown}",
            f"{an(plain)} on {digit}, {base} by {cover}, is spoilt only by the {fin} at {fins}",
        )
        nouns = (
            f"the {shown} on {digit} in {base}, cover {cover}, {fin} {fins}",
            f"a {shown} of {digit}s with {base} as base, {cover} as cover and {fins} as {fin}",
        )
        return s.follows(clauses, nouns)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        s = _Sheet(m)
        pivot, wings, (first, second) = s.cell(m.pivot), s.cells(m.cells), map(s.cell, m.cells)
        one, other, shared = m.plan.shared
        if m.plan.natural:
            s.hint = s.seen_by_both(shared, "wings")
        if m.says("name"):
            clauses: tuple[str, ...] = (
                f"{pivot} is the pivot of an XY-wing whose wings are {wings}",
                f"an XY-wing spreads from its pivot {pivot} to {wings}",
                f"{wings} are the wings of an XY-wing and {pivot} is its pivot",
                f"the pivot {pivot}, {one} or {other}, leaves {shared} for one of the wings {wings} of an XY-wing",
            )
            nouns = (
                f"the XY-wing with pivot {pivot} and wings {wings}",
                f"an XY-wing, {wings} about the pivot {pivot}",
                f"an XY-wing on {shared} with {pivot} as pivot and {wings} as wings",
            )
            return s.follows(clauses, nouns)
        clauses = (
            f"if {pivot} is {one}, then {first} is {shared}; if it is {other}, then {second} is {shared}",
            f"{pivot} is either {one}, which makes {first} {shared}, or {other}, which makes {second} {shared}",
            f"one of two cells has to be {shared}: {one} at {pivot} makes it {first}, {other} makes it {second}",
            f"suppose {first} is not {shared}. Then it is {one}, {pivot} is {other} and {second} is {shared}",
            f"{pivot} can be {one} or {other}. Either way {an(str(shared))} turns up, at {first} or at {second} respectively",
            f"{an(str(one))} at {pivot} sends {shared} to {first}; {an(str(other))} there sends it to {second}",
        )
        return s.follows(clauses)

    def xy_chain(self, m: Matter) -> str:
        s, end, (start, *others) = _Sheet(m), m.digits[0], m.digits[1:]
        s.form = "code" if s.form != "words" else "words"
        cells = [s.cell(cell) for cell in m.cells]
        first, last = cells[0], cells[-1]
        steps = [*zip(cells[1:], others, strict=True)]
        if m.plan.natural:
            s.hint = s.seen_by_both(end, "ends")
        if m.says("name"):
            dashes = f"{end}-" + "-".join(f"{cell}-{digit}" for cell, digit in zip(cells, m.digits[1:], strict=True))
            pairs = listed(f"{c} ({a}/{b})" for c, a, b in zip(cells, m.digits, m.digits[1:], strict=False))
            clauses: tuple[str, ...] = (
                f"an XY-chain on {end} runs through {pairs}",
                f"{pairs} are linked in an XY-chain with {end} at its ends",
                f"an XY-chain leads from {first} to {last}: {dashes}",
                f"{end} is at one end or the other of an XY-chain, {first} to {last}: {dashes}",
            )
            return s.follows(clauses, (f"the XY-chain {dashes}", f"an XY-chain on {end}, {pairs}"))
        makes = ", ".join(f"that makes {cell} {digit}" for cell, digit in steps)
        then = listed(f"{cell} is {digit}" for cell, digit in steps)
        clauses = (
            f"if {first} is not {end}, it is {start}; {makes}",
            f"{first} is {end}, or else it is {start}, {then}",
            f"suppose {first} is not {end}. Then it is {start}, {then}",
            f"take {end} away from {first} and this cell is {start}; " + "; ".join(f"{c} is then {d}" for c, d in steps),
            f"either {first} is {end} or {start} stands there, in which case {then}. One of the two ends is {end}",
            f"assume that {first} isn't {end}. It must be {start}. " + ". ".join(f"So {c} must be {d}" for c, d in steps),
        )
        return s.follows(clauses)

    def x_chain(self, m: Matter) -> str:
        s, digit = _Sheet(m), m.digits[0]
        s.form = "code" if s.form != "words" else "words"
        cells = [s.cell(cell) for cell in m.cells]
        if m.plan.natural:
            s.hint = s.seen_by_both(digit, "ends")
        if m.says("name"):
            clauses: tuple[str, ...] = (
                f"an X-chain on {digit} goes from {cells[0]} by way of {listed(cells[1:-1])} to {cells[-1]}",
                f"{listed(cells)}, in this order, are an X-chain of {digit}s",
                f"the {digit}s make an X-chain: {' - '.join(cells)}",
                f"linked as an X-chain, the {digit}s run through {listed(cells)}",
            )
            return s.follows(clauses, (f"the X-chain on {digit} {'-'.join(cells)}", f"an X-chain of {digit}s, {listed(cells)}"))
        pairs = [*zip(cells[::2], cells[1::2], m.plan.ways, strict=True)]
        homes = [m.board.geometry.houses_of[cell][way] for cell, way in zip(m.cells[::2], m.plan.ways, strict=True)]
        weak = "; ".join(f"then {a} isn't, so {b} is" for a, b, _ in pairs[1:])
        ends = f"Therefore {cells[0]} or {cells[-1]} is {digit}"
        clauses = (
            "; ".join(f"{s.house(home)} has its {digit} at {a} or {b}" for home, (a, b, _) in zip(homes, pairs, strict=True)),
            "; ".join(f"one of {a} and {b} is {digit}, their {KINDS[way]} having no other" for a, b, way in pairs)
            + f". {ends}",
            f"if {cells[0]} isn't {digit}, {cells[1]} is; {weak}",
            f"{digit} goes to {cells[0]} or {cells[1]} in their {KINDS[pairs[0][2]]}; "
            + "; ".join(f"likewise to {a} or {b} in their {KINDS[way]}" for a, b, way in pairs[1:])
            + f". {ends}",
            f"suppose {cells[0]} is not {digit}. Then {cells[1]} is; {weak}",
            f"deny {digit} to {cells[0]} and {cells[1]} must be {digit}; "
            + "; ".join(f"this denies it to {a} and makes {b} {digit}" for a, b, _ in pairs[1:]),
        )
        return s.follows(clauses)

    def chain(self, m: Matter) -> str:
        s = _Sheet(m)
        (first, supposed, digit), (last, holds, end) = m.links[0], m.links[-1]
        start, be = s.cell(first), "is" if supposed else "is not"
        loop = first == last and digit == end and holds != supposed
        said = self.argument(m, s, start, be)
        if loop:
            said += m.pick(", against the assumption", ", which is a contradiction", ". The assumption refutes itself")
            s.phrase = f"{start} {'is not' if supposed else 'is'} {digit}" if m.plan.natural else ""
        elif m.plan.natural:
            s.hint = s.seen_by_both(digit, "ends")
        return s.after_argument(said, forward=True)

    def argument(self, m: Matter, s: _Sheet, start: str, be: str) -> str:
        """The links of a chain, one after the other."""
        digit = m.links[0][2]
        cells = [cell for cell, *_ in m.links]
        names = ["it" if cell == before else s.cell(cell) for before, cell in pairwise(cells)]
        told = [(name, holds, other) for name, (_, holds, other) in zip(names, m.links[1:], strict=True)]
        flat = [f"{name} {'is' if holds else 'is not'} {other}" for name, holds, other in told]
        would = [f"{name} would {'' if holds else 'not '}be {other}" for name, holds, other in told]
        must = [f"{name} {'must' if holds else 'cannot'} be {other}" for name, holds, other in told]
        terse = [f"{s.cell(cell)} {'is' if holds else 'not'} {other}" for cell, holds, other in m.links]
        return m.pick(
            f"if {start} {be} {digit}, then " + ", so ".join(flat),
            f"suppose {start} {be} {digit}. Then {listed(flat)}",
            f"were {start} {'' if be == 'is' else 'not '}to be {digit}, {listed(would)}",
            f"assume that {start} {be} {digit}. " + ". ".join(f"So {step}" for step in flat),
            f"{' -> '.join(terse)}",
            f"let us say {start} {be} {digit}: {must[0]}" + "".join(f"; then {step}" for step in must[1:]),
            f"in the case that {start} {be} {digit}, " + ", therefore ".join(must),
        )

    def facts(self, m: Matter) -> str:
        s = _Sheet(m)
        items = [s.cell(item) if isinstance(item, int) else f"the {item[0]} of {s.house(item[1])}" for item in m.cited]
        if m.put and m.cited == [m.put.cell]:
            return self.by_itself(m, items[0], m.put.digit)
        said, these = listed(items), "it" if len(items) == 1 else "them"
        effects, plain = s.effects(), s.effects(orders=False)
        return opened(
            m.pick(
                f"consult {said}. {opened(effects)}.",
                f"{said}: whatever becomes of {these}, {plain}.",
                f"try {said} every way you like; {plain}.",
                f"{plain}, as can be seen from {said}.",
                f"from {said} alone it follows that {plain}.",
                f"{effects}. To see why, work through {said}.",
                f"go through the possibilities for {said}, and it turns out that {plain}.",
                f"taking stock of {said}, I conclude that {plain}.",
            )
        )

    def by_itself(self, m: Matter, cell: str, digit: int) -> str:
        """A cell whose own candidates settle it."""
        return opened(
            m.pick(
                f"consult {cell}. It must be {digit}.",
                f"{cell}, taken on its own, can be nothing but {digit}.",
                f"from {cell} alone it follows that {digit} stands there.",
                f"write {digit} into {cell} on the evidence of this cell alone.",
                f"ask no one but {cell} itself: {digit}.",
                f"{cell} is {digit}. To see why, look at this cell and no further.",
            )
        )

    def bare(self, m: Matter) -> str:
        s = _Sheet(m, pattern=m.put is None)
        if m.put is None:
            effects, plain = s.effects(), s.effects(orders=False)
            return opened(
                m.pick(
                    f"{effects}.",
                    f"also, {plain}.",
                    f"I note without proof that {plain}.",
                    f"moreover {plain}.",
                    f"{plain}, though I give no reason.",
                    f"take it from me that {plain}.",
                )
            )
        cell, at, digit = s.cell(m.put.cell), s.at(m.put.cell), m.put.digit
        return opened(
            m.pick(
                f"{cell} is {digit}.",
                f"enter {digit} {at}.",
                f"into {cell}, without argument, goes {an(str(digit))}.",
                f"{digit} goes to {cell}; the proof is left to the reader.",
                f"for {cell} I have noted {digit}.",
                f"set down {an(str(digit))} {at}.",
                f"that {cell} is {digit} I leave you to verify.",
                f"{at} stands {an(str(digit))}.",
                f"{cell} reads {digit}.",
                f"next, {digit} {at}.",
            )
        )

    def recap(self, m: Matter) -> str:
        s, put = _Sheet(m, pattern=False), filled(m)
        cell, digit = s.cell(put.cell), put.digit
        return opened(
            m.pick(f"To repeat: {cell} is {digit}.", f"So much for {cell}, now {digit}.", f"For the record, {cell} is {digit}.")
        )

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        greeting = (
            "Good morning from the Lamp Room. I give the column first and the row second, as one reads a map.",
            "A note on bearings before we start: columns run from the left, rows from the top, and the column is named first.",
            "This week's sheet came in by the supply boat, slightly damp. My notes follow, column before row.",
        )
        yield Piece(rng.choice(greeting), opens=True)
        if rng.random() < 0.4:
            yield Piece(
                rng.choice(("Bring an eraser.", "The going is firm at first and marshy later.", "Let us take our first sight."))
            )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.09:
            remarks = (
                "That's two in a row.",
                "So far, so level.",
                "I pause here to sharpen the pencil.",
                "The ground gets softer from here on.",
                "The lamp was lit at this point, and the tea made.",
                "My assistant found this one, and has not stopped mentioning it.",
                "It is not pretty, but it closes.",
                "Readers of a nervous disposition may skip ahead.",
                "Let us look back over the ground: steady progress, no regrets.",
                "A gull has sat on the theodolite. We carry on.",
            )
            yield Piece(rng.choice(remarks), opens=rng.random() < 0.4)

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.3

    def closing(self, rng: Random) -> Iterator[Piece]:
        farewell = (
            "The survey closes.",
            "Thus the sheet. The keeper may have his table back.",
            "That is all there is to measure today.",
        )
        yield Piece(rng.choice(farewell), opens=True)

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        marks = {"none": "", "list": "- ", "sheet": "**Sheet {}.** "}[rng.choice(("none", "none", "list", "sheet"))]
        heads = (marks.format(number) for number in count(1))
        head = rng.choice(("", f"# The Lamp Room, sheet {walk.seed}", f"The Lamp Room, {walk.seed}\n========"))
        return "narration", prose(pieces, rng.choice((None, 76, 90)), heads, head)


def filled(m: Matter) -> Put:
    """The one cell that is filled in."""
    assert m.put is not None
    return m.put


def both(digits: Sequence[int]) -> str:
    """``3 and 8``."""
    return listed(map(str, digits))


def either(digits: Sequence[int]) -> str:
    """``3 or 8``."""
    return listed(map(str, digits), "or")
