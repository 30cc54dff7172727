"""Kept aside: the column before the row. A keeper's log, in the past tense, of options and notes; boxes go by their place.

Whoever writes the reader does not see this narrator, so that the figures on it are honest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, an, listed, opened
from .layout import Captioned, Laid, Piece, captions, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

BOXES = (
    "top-left box",
    "top-middle box",
    "top-right box",
    "middle-left box",
    "central box",
    "middle-right box",
    "bottom-left box",
    "bottom-middle box",
    "bottom-right box",
)

OTHER_BOXES = (
    "upper left box",
    "upper centre box",
    "upper right box",
    "left centre box",
    "centre box",
    "right centre box",
    "lower left box",
    "lower centre box",
    "lower right box",
)


class ColumnFirst(Narrator):
    """Keeps the log of the night watch."""

    name = "column_first"
    leaves: ClassVar = {
        "single house": 0.04,
        "its": 0.15,
        "naked house": 0.35,
        "hidden house": 0.05,
        "cover": 0.12,
        "crossing": 0.08,
        "name": 0.4,
        "effects": 0.7,
        "back": 0.35,
        "recap": 0.04,
    }

    # Naming.

    def cell(self, m: Matter, cell: int) -> str:
        row, column = cell // 9 + 1, cell % 9 + 1
        forms = (f"column {column}, row {row}", f"column {column} row {row}", f"col {column}, row {row}", f"c{column}r{row}")
        return forms[m.manner % 4]

    def cells(self, m: Matter, cells: Sequence[int]) -> str:
        rows, columns = {cell // 9 for cell in cells}, {cell % 9 for cell in cells}
        joined = m.often(0.5)
        if len(cells) > 1 and joined and len(columns) == 1:
            return f"column {min(columns) + 1}, rows {listed([str(cell // 9 + 1) for cell in cells])}"
        if len(cells) > 1 and joined and len(rows) == 1:
            return f"columns {listed([str(cell % 9 + 1) for cell in cells])} of row {min(rows) + 1}"
        if m.manner % 4 in (0, 2) and len(cells) > 1:
            named = [f"column {cell % 9 + 1} row {cell // 9 + 1}" for cell in cells]
            return listed(named)
        return listed([self.cell(m, cell) for cell in cells])

    def house(self, m: Matter, house: House) -> str:
        if house.kind == "b":
            return "the " + (OTHER_BOXES if m.manner % 3 == 0 else BOXES)[house.number - 1]
        if house == ("r", 1) and m.manner % 2:
            return "the top row"
        if house == ("r", 9) and m.manner % 2:
            return "the bottom row"
        return f"{KINDS[house.kind]} {house.number}"

    def where(self, m: Matter) -> str:
        return m.pick("the same ", "that very ") + KINDS[m.house.kind] if m.plan.back else self.house(m, m.house)

    def houses(self, houses: Sequence[House]) -> str:
        return f"{KINDS[houses[0].kind]}s {listed([str(house.number) for house in houses])}"

    def log(self, m: Matter, text: str) -> str:
        when = m.pick("", "", "", "", "then ", "next, ", "after that, ", "by then ", "at this point ")
        if when and not text.startswith(("I ", "X")):
            text = text[0].lower() + text[1:]
        return opened(when + text) + "."

    # Steps.

    def naked_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, digit = self.cell(m, put.cell), put.digit
        return self.log(
            m,
            m.pick(
                f"{cell} was left with one option, {digit}",
                f"my notes for {cell} had shrunk to a lone {digit}",
                f"{digit} was the sole option for {cell}",
                f"{cell} had run out of options apart from {digit}",
                f"I inked {digit} into {cell}, its last remaining note",
                f"with every other option knocked out, {cell} became {digit}",
                f"there was no choice at {cell} any more: {digit}",
                f"{cell} turned out to be {digit}, since the other eight digits were all in view of it",
                f"a naked single gave me {digit} at {cell}",
            ),
        )

    def hidden_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, digit = self.cell(m, put.cell), put.digit
        kind = KINDS[m.house.kind]
        if not m.says("house"):
            return self.log(m, m.pick(f"a hidden single, {digit}, went into {cell}", f"{cell} was a hidden {digit}"))
        if not m.says("its"):
            return self.log(
                m,
                m.pick(
                    f"{cell} was the sole spot for {digit} in its {kind}",
                    f"nobody else in its {kind} had {digit} as an option, so {cell} got it",
                ),
            )
        house = self.where(m)
        return self.log(
            m,
            m.pick(
                f"{house} had a single home left for its {digit}, namely {cell}",
                f"the {digit} of {house} went into {cell}, having no other place",
                f"I looked for {digit} in {house} and found just {cell}",
                f"in {house} I could fit {digit} into {cell} and nowhere else",
                f"{cell} received the {digit}, as the others in {house} had no such option",
                f"of the notes in {house}, only {cell} showed {digit}, so I inked it",
                f"{house} wanted {digit}, and {cell} alone could host it",
                f"{digit} landed in {cell}, because {house} offered no alternative",
                f"a hidden single in {house}: {digit} at {cell}",
            ),
        )

    def last_cell(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, digit = self.cell(m, put.cell), put.digit
        kind = KINDS[m.house.kind]
        if not m.says("its"):
            return self.log(m, f"{cell} was the one blank in its {kind} and took {digit}")
        house = self.where(m)
        return self.log(
            m,
            m.pick(
                f"{house} had one blank left, {cell}, and it took {digit}",
                f"I closed {house} with {digit} in {cell}",
                f"{cell} was the last open cell of {house}; {digit} was what it lacked",
                f"with eight digits in {house} already, {cell} had to be the ninth, {digit}",
                f"{digit} filled up {house}, at {cell}",
            ),
        )

    def locked(self, m: Matter) -> str:
        digit, house = m.digits[0], self.where(m)
        assert m.crossing is not None
        line, kind = self.house(m, m.crossing), KINDS[m.crossing.kind]
        if not m.says("crossing"):
            said = f"every option for {digit} in {house} sat in one and the same {kind}"
        elif m.says("name") and m.often(0.5):
            said = (
                m.pick(f"the {digit}s of {house} pointed down {line}", f"pointing {digit}s in {house} covered {line}")
                if m.name == "pointing" and m.crossing.kind == "c"
                else m.pick(f"the {digit}s of {house} pointed along {line}", f"{house} had pointing {digit}s in {line}")
                if m.name == "pointing"
                else m.pick(f"{house} claimed {digit} in {line}", f"{digit} in {line} was claimed by {house}")
            )
        else:
            said = m.pick(
                f"{house} had its options for {digit} exclusively in {line}",
                f"the notes for {digit} in {house} were all found in {line}",
                f"{digit} was locked into {line} within {house}",
                f"wherever the {digit} of {house} was, it was in {line}",
                f"{house} kept all its {digit}s inside {line}",
            )
        return self.so(
            m, said, m.pick(f"the rest of {line}", f"elsewhere in {line}") if m.says("crossing") else f"the rest of that {kind}"
        )

    def naked(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), listed([*map(str, m.digits)]), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        place = f" in {house}" if m.says("house") else ""
        if m.says("name"):
            said = m.pick(
                f"{cells}{place} showed a naked {size} of {digits}",
                f"a naked {size} stood{place} at {cells}, made of {digits}",
                f"with options {digits} only, {cells} were a naked {size}{place}",
            )
        else:
            said = m.pick(
                f"the notes of {cells}{place} read {digits} and no more",
                f"{cells}{place} had no options besides {digits}",
                f"{cells}{place} were tied up with {digits}",
                f"{count} cells, {cells}, had to share the {count} digits {digits}{place}",
            )
        both = "both" if m.count == 2 else f"all {count}"
        kinds = " and the ".join(KINDS[kind] for kind in m.plan.kinds)
        return self.so(m, said, m.pick(f"the rest of the {kinds}", f"every cell in view of {both}"))

    def hidden(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), listed([*map(str, m.digits)]), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        place = f" in {house}" if m.says("house") else ""
        if m.says("name"):
            said = m.pick(
                f"{digits} made a hidden {size}{place}, at {cells}",
                f"behind the other notes, {cells} held a hidden {size} of {digits}{place}",
            )
        else:
            said = m.pick(
                f"{digits} had no options{place} outside {cells}",
                f"the notes for {digits}{place} occurred just in {cells}",
                f"{cells} were the sole homes for {digits}{place}",
            )
        return self.so(m, said, f"those {count} cells")

    def fish(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m.houses), self.houses(m.cover)
        cross = f"{KINDS[m.cover[0].kind]}s"
        shown = m.name.replace("x-wing", "X-Wing")
        article = "an" if shown[0] == "X" else "a"
        if not m.says("name"):
            said = m.pick(
                f"{base} had options for {digit} in {cover} and nowhere else",
                f"the notes for {digit} in {base} stayed within {cover}",
            )
        elif not m.says("cover"):
            said = m.pick(f"I saw {article} {shown} of {digit}s in {base}", f"{base} gave me {article} {shown} on {digit}")
        else:
            said = m.pick(
                f"{article} {shown} on {digit} ran through {base} and {cover}",
                f"{base} had their {digit}s in {cover}, {article} {shown}",
                f"I found {article} {shown} for {digit}: {base}, tied to {cover}",
            )
        return self.so(
            m,
            said,
            m.pick(f"elsewhere in {cover}", f"the rest of {cover}") if m.says("cover") else f"the rest of those {cross}",
        )

    def finned(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m.houses), self.houses(m.cover)
        shown = m.name.removeprefix("finned ").replace("x-wing", "X-Wing")
        article = "an" if shown[0] == "X" else "a"
        fins, one = self.cells(m, m.fins), len(m.fins) == 1
        fin = "fin" if one else "fins"
        said = m.pick(
            f"{base} almost had {article} {shown} of {digit}s in {cover}; {fins} stuck out as {'a fin' if one else 'fins'}",
            f"a finned {shown} on {digit} lay in {base} with {cover}, its {fin} at {fins}",
            f"the {digit}s of {base} stayed in {cover} but for the {fin}, {fins}, so it was a finned {shown}",
        )
        return self.so(m, said, f"the cells of {cover} in view of the {fin}")

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        pivot = self.cell(m, m.pivot)
        first, second = (self.cell(m, cell) for cell in m.cells)
        one, other, both = m.plan.shared
        if m.says("name"):
            said = m.pick(
                f"{pivot} was the pivot of an XY-Wing whose pincers were {first} and {second}",
                f"an XY-Wing showed up: hinge {pivot}, pincers {first} and {second}",
            )
        else:
            said = m.pick(
                f"{pivot} was {one} or {other}. With {one} there, {first} became {both}; with {other}, {second} did",
                f"were {pivot} {one}, {first} would be {both}; were it {other}, {second} would be {both}. One of them was {both} in any case",
            )
        return self.so(m, said, m.pick("whatever was in view of both pincers", "cells in view of both"), both)

    def xy_chain(self, m: Matter) -> str:
        end = m.digits[0]
        names = [self.cell(m, cell) for cell in m.cells]
        head = m.pick("I followed an XY-Chain. ", "An XY-Chain came next. ") if m.says("name") else ""
        said = m.pick(
            f"without {end} in {names[0]}, that cell would be {m.digits[1]}",
            f"had {names[0]} not been {end}, it would have been {m.digits[1]}",
        )
        for name, digit in zip(names[1:], m.digits[2:], strict=True):
            said += m.pick(
                f", hence {name} was {digit}", f", making {name} {an(str(digit))}", f", and that put {digit} into {name}"
            )
        tail = m.pick(
            f". So {end} was at one end or the other",
            f". Thus {names[0]} or {names[-1]} had to be {end}",
        )
        return self.so(m, head + opened(said) + tail, m.pick("cells in view of both ends", "whatever was in view of both"), end)

    def x_chain(self, m: Matter) -> str:
        digit = m.digits[0]
        names = [self.cell(m, cell) for cell in m.cells]
        pairs = [*zip(names[::2], names[1::2], m.plan.ways, strict=True)]
        head = f"an X-Chain on {digit} helped. " if m.says("name") else ""
        links = [
            m.pick(
                f"{a} and {b} were the {KINDS[way]}'s only options for {digit}",
                f"{digit} had to be in {a} or {b}, there being no third option in their {KINDS[way]}",
            )
            for a, b, way in pairs
        ]
        said = head + opened("; ".join(links)) + f". So {names[0]} or {names[-1]} was {digit}"
        return self.so(m, said, m.pick("cells in view of both ends", "whatever was in view of both"), digit)

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), *others = m.links
        said = m.pick(
            f"supposing {self.cell(m, first)} was{'' if supposed else ' not'} {digit}",
            f"I tried {self.cell(m, first)} as {'' if supposed else 'anything but '}{digit}",
        )
        last = first
        for cell, holds, other in others:
            it = m.pick("it", "the same cell") if cell == last else self.cell(m, cell)
            said += (
                f", {m.pick('so', 'hence', 'and thus')} {it} {'was' if holds else m.pick('was not', 'could not be')} {other}"
            )
            last = cell
        cell, holds, other = m.links[-1]
        if cell == first and other == digit and holds != supposed:
            said += m.pick(", which was absurd", ", against the assumption")
            if m.plan.natural:
                return self.log(m, f"{said}. So {self.cell(m, first)} was{' not' if supposed else ''} {digit}")
        elif m.plan.natural or (holds and not supposed and other == digit):
            said += f". Either way {self.cell(m, first)} or {self.cell(m, cell)} was {digit}"
        return self.so(m, said, "whatever was in view of both", digit)

    def facts(self, m: Matter) -> str:
        said = [
            self.cell(m, what) if isinstance(what, int) else f"the {what[0]} of {self.house(m, what[1])}" for what in m.cited
        ]
        words = listed(said)
        return self.so(
            m,
            m.pick(
                f"I went through every option of {words}",
                f"I weighed {words}",
                f"{words} settled the next matter" if len(said) > 1 else f"I weighed {words}",
            ),
            "",
        )

    def bare(self, m: Matter) -> str:
        return self.log(m, self.effects(m))

    # Effects.

    def so(self, m: Matter, said: str, where: str, digit: int | None = None) -> str:
        tail = self.hinted(m, where, digit) if m.plan.natural else self.effects(m)
        return self.log(
            m, m.pick(f"{said}, and so {tail}", f"{said}. Hence {tail}", f"{said}. {opened(tail)}", f"{said}; thus {tail}")
        )

    def hinted(self, m: Matter, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            return m.pick(
                f"I dropped all other notes from {where}",
                f"{where} lost their other options",
                f"no further option survived in {where}",
            )
        digits = [digit] if digit else m.digits or [m.links[0][2]]
        if m.often(0.1):
            return m.pick("the usual notes were erased", "I erased what that rules out")
        what = str(digits[0]) if len(digits) == 1 else m.pick("those digits", listed([*map(str, digits)]))
        if where.startswith("elsewhere"):
            return m.pick(f"{what} {'was' if len(digits) == 1 else 'were'} no option {where}", f"I erased {what} {where}")
        return m.pick(f"I erased {what} from {where}", f"{what} dropped out of {where}", f"I knocked {what} out of {where}")

    def effects(self, m: Matter) -> str:
        said = [self.effect(m, effect) for effect in m.effects]
        return "; ".join(said) if len(said) > 2 else m.pick("; ", ", while ").join(said)

    def effect(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell, digit = self.cell(m, effect.cell), effect.digit
            return m.pick(f"{cell} was {digit}", f"I wrote {digit} into {cell}", f"{digit} belonged in {cell}")
        digits = listed([*map(str, effect.digits)])
        either = listed([*map(str, effect.digits)], "nor" if len(effect.digits) == 2 else "or")
        neither = (
            f"neither {either}"
            if len(effect.digits) == 2
            else f"no {either}"
            if len(effect.digits) == 1
            else f"none of {digits}"
        )
        if isinstance(effect, Clear):
            house = self.house(m, effect.house)
            return m.pick(
                f"I erased {digits} from the rest of {house}",
                f"{digits} dropped out of the rest of {house}",
                f"the other cells of {house} lost {digits} as {'an option' if len(effect.digits) == 1 else 'options'}",
            )
        cells = self.cells(m, effect.cells)
        several = len(effect.cells) > 1
        return m.pick(
            f"I erased {digits} from {cells}",
            f"{cells} {'were' if several else 'was'} {neither}"
            if len(effect.digits) < 3
            else f"{cells} {'were' if several else 'was'} not {listed([*map(str, effect.digits)], 'or')}",
            f"{digits} dropped out of {cells}",
            f"I scratched the note{'s' if several or len(effect.digits) > 1 else ''} {digits} at {cells}",
            f"{digits} {'was' if len(effect.digits) == 1 else 'were'} no longer {'an option' if len(effect.digits) == 1 else 'options'} for {cells}",
        )

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "Night watch, calm sea, visibility poor. With nothing to report I took up the page from the Lamp Room.",
                    "Log of the second keeper. Wind from the west. The relief boat brought a grid, and I set to work on it.",
                )
            ),
            opens=True,
        )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.1:
            yield Piece(
                rng.choice(
                    (
                        "A steamer passed to the north.",
                        "I wound the clockwork and came back to the page.",
                        "It went easier from here.",
                        "For some while I saw nothing at all.",
                        "The first keeper looked over my shoulder and said nothing.",
                        "I cleaned up my notes.",
                        "Fog came in again.",
                    )
                ),
                opens=rng.random() < 0.4,
            )

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.3

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        return f"{opened(self.cell(m, m.put.cell))} now read {m.put.digit}."

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(("Grid complete. Relieved by the first keeper at dawn.", "That was the end of it, and of the watch.")),
            opens=True,
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        def heads() -> Iterator[str]:
            clock = 120
            while True:
                yield f"[{clock // 60:02}:{clock % 60:02}] " if marked else ""
                clock += rng.randint(5, 50)

        if rng.random() < 0.35:
            return "vtt", captions(pieces, Captioned(True, 40, 2, 0.2, 2.4, "", True), rng)
        marked = rng.random() < 0.4
        return "narration", prose(pieces, rng.choice((None, 76, 100)), heads(), rng.choice(("", "# Log of the Lamp Room")))
