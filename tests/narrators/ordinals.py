"""Kept aside: ordinals and words only. A courteous guide in the imperative, without one numeral; boxes go by their place.

Whoever writes the reader does not see this narrator, so that the figures on it are honest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, ORDINALS, PLURALS, an, listed, opened
from .layout import Captioned, Laid, Piece, captions, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

DOWN = ("top", "middle", "bottom")
ACROSS = ("left", "centre", "right")


class Ordinals(Narrator):
    """Shows visitors round the grid."""

    name = "ordinals"
    leaves: ClassVar = {
        "single house": 0.02,
        "its": 0.12,
        "naked house": 0.45,
        "hidden house": 0.05,
        "cover": 0.1,
        "crossing": 0.1,
        "name": 0.5,
        "effects": 0.75,
        "back": 0.4,
        "recap": 0.05,
    }

    # Naming.

    def cell(self, m: Matter, cell: int) -> str:
        row, column = ORDINALS[cell // 9 + 1], ORDINALS[cell % 9 + 1]
        return m.pick(
            f"the cell in the {row} row and {column} column",
            f"the {column} cell of the {row} row",
            f"the cell where the {row} row meets the {column} column",
            f"the {row} row's {column} cell",
            f"the square in the {row} row, {column} column",
        )

    def short(self, cell: int) -> str:
        return f"the {ORDINALS[cell % 9 + 1]} cell of the {ORDINALS[cell // 9 + 1]} row"

    def cells(self, m: Matter, cells: Sequence[int]) -> str:
        rows, columns = {cell // 9 for cell in cells}, {cell % 9 for cell in cells}
        joined, first = m.often(0.8), m.often(0.5)
        if len(cells) > 1 and joined and len(rows) == 1:
            words = listed([ORDINALS[cell % 9 + 1] for cell in cells])
            row = ORDINALS[min(rows) + 1]
            return f"the {words} cells of the {row} row" if first else f"the cells of the {row} row in the {words} columns"
        if len(cells) > 1 and joined and len(columns) == 1:
            words = listed([ORDINALS[cell // 9 + 1] for cell in cells])
            column = ORDINALS[min(columns) + 1]
            return (
                f"the {words} cells of the {column} column"
                if first
                else f"the cells of the {column} column in the {words} rows"
            )
        if len(cells) == 1:
            return self.cell(m, cells[0])
        return listed([self.short(cell) for cell in cells], "and", True)

    def house(self, house: House) -> str:
        if house.kind != "b":
            return f"the {ORDINALS[house.number]} {KINDS[house.kind]}"
        down, across = divmod(house.number - 1, 3)
        return "the centre box" if house.number == 5 else f"the {DOWN[down]}-{ACROSS[across]} box"

    def where(self, m: Matter) -> str:
        return f"the {m.pick('same', 'very same')} {KINDS[m.house.kind]}" if m.plan.back else self.house(m.house)

    def houses(self, houses: Sequence[House]) -> str:
        return f"the {listed([ORDINALS[house.number] for house in houses])} {KINDS[houses[0].kind]}s"

    def a(self, digit: int) -> str:
        return an(NUMBERS[digit]).replace("an one", "a one")

    def say(self, *sentences: str) -> str:
        return " ".join(opened(sentence) for sentence in sentences if sentence)

    # Steps.

    def naked_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, a, word = self.cell(m, put.cell), self.a(put.digit), NUMBERS[put.digit]
        return self.say(
            m.pick(
                f"kindly turn to {cell}; {a} is the only thing it will accept.",
                f"write {a} in {cell}, for it has no other possibility.",
                f"of the nine digits, {cell} can hold nothing but {a}.",
                f"in {cell}, the possibilities have dwindled to {word} alone.",
                f"{cell} is bound to be {a}: each of the remaining digits is in its sight.",
                f"{word} is the one possibility remaining to {cell}. Enter it.",
                f"do you see {cell}? Eight digits are excluded from it, which leaves {word}.",
                f"observe {cell}. What may stand there? Merely {a}.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, a, word = self.cell(m, put.cell), self.a(put.digit), NUMBERS[put.digit]
        kind = KINDS[m.house.kind]
        if not m.says("house"):
            return self.say(f"{cell} is a hidden single; enter {a} there.")
        if not m.says("its"):
            return self.say(
                m.pick(
                    f"{cell} is the only one in its {kind} that may be {a}. Enter it.",
                    f"enter {a} in {cell}; nowhere else in its {kind} is there a possibility for it.",
                )
            )
        house = self.where(m)
        return self.say(
            m.pick(
                f"the {word} of {house} belongs in {cell}, since no other cell there admits it.",
                f"{house} calls for {a}. It may stand solely in {cell}.",
                f"pray, where shall {house} keep its {word}? In {cell}, and there alone.",
                f"enter {a} in {cell}: {house} has no second possibility.",
                f"as for {house}, its {word} finds room only in {cell}.",
                f"{cell} is where {house} must have its {word}.",
                f"within {house}, {a} is admissible only in {cell}.",
                f"seek the {word} in {house}: all the cells but {cell} are out of the question.",
                f"{house} conceals a hidden single. Its {word} stands in {cell}.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, a, word = self.cell(m, put.cell), self.a(put.digit), NUMBERS[put.digit]
        if not m.says("its"):
            return self.say(f"{cell} is the final vacancy in its {KINDS[m.house.kind]}. {opened(a)} belongs there.")
        house = self.where(m)
        return self.say(
            m.pick(
                f"{house} has a single vacancy, {cell}, and lacks a single digit, {word}. Marry the two.",
                f"crown {house} with {a} in {cell}, its final vacancy.",
                f"but one cell of {house} stands empty, {cell}; it is {a}.",
                f"{house} wants only {a} to be complete. Enter it in {cell}.",
                f"to conclude {house}, enter {a} in {cell}.",
            )
        )

    def locked(self, m: Matter) -> str:
        digit, house = m.digits[0], self.where(m)
        assert m.crossing is not None
        line, kind, many = self.house(m.crossing), KINDS[m.crossing.kind], PLURALS[digit]
        if not m.says("crossing"):
            said = m.pick(
                f"the {many} of {house} are all of one {kind}", f"in {house} a single {kind} contains every {NUMBERS[digit]}"
            )
        elif m.says("name") and m.often(0.5):
            said = (
                f"the {many} in {house} point {'down' if m.crossing.kind == 'c' else 'along'} {line}"
                if m.name == "pointing"
                else f"{house} claims its {NUMBERS[digit]} within {line}"
            )
        else:
            said = m.pick(
                f"the {many} of {house} are found in {line} without exception",
                f"whichever cell of {house} is {self.a(digit)}, it belongs to {line}",
                f"as {house} must place its {NUMBERS[digit]} within {line}",
                f"{house} can have its {NUMBERS[digit]} only where it crosses {line}",
                f"the possibilities for {self.a(digit)} in {house} share {line}",
            )
            if said.startswith("as "):
                said = said[3:]
        return self.so(
            m,
            said,
            m.pick(
                f"the rest of {line}" if m.says("crossing") else f"the rest of that {kind}", f"the remainder of that {kind}"
            ),
        )

    def naked(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), listed([NUMBERS[digit] for digit in m.digits]), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        place = f" in {house}" if m.says("house") else ""
        if m.says("name"):
            said = m.pick(
                f"{cells} constitute a naked {size} of {digits}{place}",
                f"please note a naked {size}{place}, consisting of {digits}, in {cells}",
            )
        else:
            said = m.pick(
                f"{cells}{place} admit {digits} alone",
                f"between them, {cells}{place} hold {digits}",
                f"{cells}{place} are reserved for {digits}",
                f"{count} digits, {digits}, are shared out among {cells}{place}",
            )
        both = "both" if m.count == 2 else f"all {count}"
        kinds = " and the ".join(KINDS[kind] for kind in m.plan.kinds)
        return self.so(m, said, m.pick(f"the remainder of the {kinds}", f"any cell that beholds {both} of them"))

    def hidden(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), listed([NUMBERS[digit] for digit in m.digits]), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        place = f" in {house}" if m.says("house") else ""
        if m.says("name"):
            said = m.pick(
                f"{digits} constitute a hidden {size}{place}, lodged in {cells}",
                f"a hidden {size} of {digits} dwells in {cells}{place}",
            )
        else:
            said = m.pick(
                f"{digits}{place} find room only in {cells}",
                f"for {digits}{place}, no cells are available besides {cells}",
                f"{cells} must receive {digits}{place}, which find room nowhere else",
            )
        return self.so(m, said, m.pick("the pair of cells", "both cells") if m.count == 2 else f"these {count} cells")

    def fish(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m.houses), self.houses(m.cover)
        many, cross = PLURALS[digit], f"{KINDS[m.cover[0].kind]}s"
        shown = m.name.replace("x-wing", "X-wing")
        if not m.says("name"):
            said = m.pick(
                f"the {many} of {base} belong to {cover}, every one of them",
                f"{base} offer their {many} no place outside {cover}",
            )
        elif not m.says("cover"):
            said = m.pick(f"{base} contain {an(shown)} of {many}", f"admire the {shown} of {many} in {base}")
        else:
            said = m.pick(
                f"admire the {shown} of {many}, stretched between {base} and {cover}",
                f"{an(shown)} of {many} rests in {base}; it spans {cover}",
                f"as the {many} of {base} occupy {cover} only, behold {an(shown)}",
            )
        return self.so(
            m,
            said,
            m.pick(f"the remainder of {cover}", f"the remainder of those {cross}")
            if m.says("cover")
            else f"the remainder of those {cross}",
        )

    def finned(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m.houses), self.houses(m.cover)
        many, shown = PLURALS[digit], m.name.removeprefix("finned ").replace("x-wing", "X-wing")
        fins, one = self.cells(m, m.fins), len(m.fins) == 1
        fin = "fin" if one else "fins"
        said = m.pick(
            f"{base} contain {an(shown)} of {many} across {cover}, spoilt only by the {fin} in {fins}",
            f"a finned {shown} of {many} rests in {base}; it spans {cover}, and {fins} {'is its fin' if one else 'are its fins'}",
            f"were the {many} absent from {fins}, {base} would hold {an(shown)} with {cover}",
        )
        return self.so(m, said, f"the cells of {cover} that behold the {fin}")

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        pivot = self.cell(m, m.pivot)
        first, second = map(self.short, m.cells)
        one, other, both = (NUMBERS[digit] for digit in m.plan.shared)
        if m.says("name"):
            said = m.pick(
                f"an XY-wing turns upon {pivot}, its pivot; its wings are {first} and {second}",
                f"behold an XY-wing. Its hinge is {pivot}, its pincers {first} and {second}",
            )
        else:
            said = m.pick(
                f"should {pivot} be {one}, {first} is {both}; should it be {other}, {second} is {both}",
                f"{pivot} may be {one}, which turns {first} into {both}, or {other}, which turns {second} into {both}",
            )
        return self.so(
            m, said, m.pick("any cell that beholds both wings", "whatever cell both of them behold"), m.plan.shared[2]
        )

    def xy_chain(self, m: Matter) -> str:
        end = NUMBERS[m.digits[0]]
        names = [*map(self.short, m.cells)]
        head = m.pick("an XY-chain, if you please.", "Now for an XY-chain.") if m.says("name") else ""
        said = f"should {names[0]} not be {end}, it is {NUMBERS[m.digits[1]]}"
        for name, digit in zip(names[1:], m.digits[2:], strict=True):
            said += m.pick(
                f"; {name} is then {NUMBERS[digit]}",
                f", which turns {name} into {NUMBERS[digit]}",
                f", whereupon {name} is {NUMBERS[digit]}",
            )
        tail = m.pick(
            f"either the first or the last of these cells is therefore {end}",
            f"{names[0]} or {names[-1]} is {end}, come what may",
        )
        return self.so(
            m,
            self.say(head, said + ".", tail),
            m.pick("any cell that beholds both ends", "whatever cell both ends behold"),
            m.digits[0],
        )

    def x_chain(self, m: Matter) -> str:
        digit = m.digits[0]
        names = [*map(self.short, m.cells)]
        pairs = [*zip(names[::2], names[1::2], m.plan.ways, strict=True)]
        head = f"an X-chain of {PLURALS[digit]}, if you please." if m.says("name") else ""
        said = [
            f"the {KINDS[way]} shared by {a} and {b} has its {NUMBERS[digit]} in the former or the latter."
            if at
            else f"{a} and {b} share a {KINDS[way]}, and one of the two is its {NUMBERS[digit]}."
            for at, (a, b, way) in enumerate(pairs)
        ]
        tail = f"{names[0]} or {names[-1]} is therefore {self.a(digit)}"
        return self.so(
            m, self.say(head, *said, tail), m.pick("any cell that beholds both ends", "whatever cell both behold"), digit
        )

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), *others = m.links
        said = m.pick(
            f"imagine {self.short(first)} to be {'' if supposed else 'other than '}{NUMBERS[digit]}",
            f"should {self.short(first)}{'' if supposed else ' not'} be {NUMBERS[digit]}",
        )
        last = first
        for at, (cell, holds, other) in enumerate(others):
            it = m.pick("it", "the said cell") if cell == last else self.short(cell)
            glue = ", then" if not at else m.pick(", whereupon", ", so that", "; consequently,")
            said += f"{glue} {it} {m.pick('is', 'must be') if holds else m.pick('is not', 'cannot be')} {NUMBERS[other]}"
            last = cell
        cell, holds, other = m.links[-1]
        if cell == first and other == digit and holds != supposed:
            said += m.pick(". This refutes what we imagined", ", contrary to what we supposed")
            if m.plan.natural:
                return self.say(said + ".", f"accordingly {self.short(first)} is{' not' if supposed else ''} {NUMBERS[digit]}.")
        elif m.plan.natural:
            said += f". Hence {self.short(first)} or {self.short(cell)} is {NUMBERS[digit]} at all events"
        return self.so(m, said, "any cell that beholds both", digit)

    def facts(self, m: Matter) -> str:
        said = [
            self.short(what) if isinstance(what, int) else f"the {NUMBERS[what[0]]} of {self.house(what[1])}"
            for what in m.cited
        ]
        return self.so(m, m.pick("reflect upon ", "kindly consider ", "weigh the possibilities for ") + listed(said), "")

    def bare(self, m: Matter) -> str:
        return self.say(self.effects(m) + ".")

    # Effects.

    def so(self, m: Matter, said: str, where: str, digit: int | None = None) -> str:
        tail = self.hinted(m, where, digit) if m.plan.natural else self.effects(m)
        return self.say(f"{said}.", m.pick("", "", "accordingly, ", "in consequence, ", "for that reason, ") + tail + ".")

    def hinted(self, m: Matter, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            return m.pick(
                f"dismiss every other possibility from {where}",
                f"{where} are closed to all other digits",
                f"all the rest is to be dismissed from {where}",
            )
        digits = [digit] if digit else m.digits or [m.links[0][2]]
        if len(digits) == 1:
            many = PLURALS[digits[0]]
            return m.pick(
                f"banish the {many} from {where}",
                f"dismiss {NUMBERS[digits[0]]} from {where}",
                f"there can be no {NUMBERS[digits[0]]} in {where}",
            )
        words = listed([NUMBERS[digit] for digit in digits])
        return m.pick(
            f"banish these digits from {where}", f"dismiss {words} from {where}", f"{words} are banished from {where}"
        )

    def effects(self, m: Matter) -> str:
        said = [self.effect(m, effect) for effect in m.effects]
        return "; ".join(said)

    def effect(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell, a = self.cell(m, effect.cell), self.a(effect.digit)
            return m.pick(f"enter {a} in {cell}", f"{cell} is {a}", f"{a} belongs in {cell}")
        digits = listed([NUMBERS[digit] for digit in effect.digits])
        either = listed([NUMBERS[digit] for digit in effect.digits], "or")
        if isinstance(effect, Clear):
            house = self.house(effect.house)
            return m.pick(
                f"dismiss {digits} from the remainder of {house}",
                f"banish {digits} from the rest of {house}",
                f"the other cells of {house} may not be {either}",
            )
        cells = self.cells(m, effect.cells)
        one = len(effect.cells) == 1
        return m.pick(
            f"dismiss {digits} from {cells}",
            f"{cells} may not be {either}",
            f"banish {digits} from {cells}",
            f"{digits} {'is' if len(effect.digits) == 1 else 'are'} ruled out for {cells}",
            f"{cells} {'is' if one else 'are'} closed to {digits}",
        )

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "Ladies and gentlemen, do mind the stairs. From the gallery I shall lead you through the Lamp Room's latest grid.",
                    "Dear visitors, be welcome at the lighthouse. The tour of the grid begins at once.",
                )
            ),
            opens=True,
        )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.12:
            yield Piece(
                rng.choice(
                    (
                        "This way, please.",
                        "How the lens glitters today!",
                        "Do keep together.",
                        "A most pleasing view, is it not?",
                        "Of our seven lamps, one is lit.",
                        "Mind your heads, the beam is low here.",
                        "Let us proceed.",
                        "I see a question at the back; in a moment, if I may.",
                    )
                ),
                opens=rng.random() < 0.5,
            )

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.4

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        return m.pick(
            f"There it is, {self.a(m.put.digit)}.",
            f"{opened(self.short(m.put.cell))} is now {self.a(m.put.digit)}, as you see.",
        )

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece("Here the tour ends. The guest book is by the door.", opens=True)

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        if rng.random() < 0.4:
            return "srt", captions(pieces, Captioned(False, 44, 2, 0.1, 2.6), rng)
        return "narration", prose(pieces, rng.choice((None, 70)), iter(lambda: "", None))
