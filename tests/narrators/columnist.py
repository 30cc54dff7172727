"""For development: a terse columnist. Prose, r4c7, few words, plain names of patterns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, listed, opened
from .layout import Laid, Piece, prose
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator


class Columnist(Narrator):
    """Writes for the back page."""

    name = "columnist"
    leaves: ClassVar = {
        "single house": 0.08,
        "its": 0.15,
        "naked house": 0.5,
        "hidden house": 0.1,
        "cover": 0.15,
        "crossing": 0.1,
        "name": 0.3,
        "effects": 0.7,
        "back": 0.3,
        "corners": 0.25,
    }

    def cell(self, cell: int) -> str:
        row, column = divmod(cell, 9)
        return f"r{row + 1}c{column + 1}"

    def cells(self, m: Matter, cells: Sequence[int], last: str = "and") -> str:
        """Cells of one line at times as one word, the numbers run together."""
        rows, columns = {cell // 9 for cell in cells}, {cell % 9 for cell in cells}
        joined = m.often(0.4)
        if len(cells) > 1 and joined:
            if len(rows) == 1:
                return f"r{min(rows) + 1}c{''.join(str(cell % 9 + 1) for cell in cells)}"
            if len(columns) == 1:
                return f"r{''.join(str(cell // 9 + 1) for cell in cells)}c{min(columns) + 1}"
        return listed([*map(self.cell, cells)], last)

    def house(self, house: House) -> str:
        return f"{KINDS[house.kind]} {house.number}"

    def houses(self, m: Matter, houses: Sequence[House]) -> str:
        numbers = [str(house.number) for house in houses]
        return f"{KINDS[houses[0].kind]}{'s' if len(houses) > 1 else ''} {listed(numbers)}"

    def where(self, m: Matter) -> str:
        kind = KINDS[m.house.kind]
        return f"the same {kind}" if m.plan.back else self.house(m.house)

    def digits(self, m: Matter, digits: Sequence[int], last: str = "and") -> str:
        return listed([*map(str, digits)], last)

    def naked_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, digit = self.cell(put.cell), put.digit
        return opened(
            m.pick(
                f"{cell} can only be {digit}.",
                f"{cell} is down to a single candidate: {digit}.",
                f"Nothing but {digit} is left for {cell}.",
                f"Naked single: {cell} is {digit}.",
                f"{cell} must be {digit}; everything else is ruled out there.",
                f"Only {digit} fits in {cell}.",
                f"{cell} has one candidate left. It is {digit}.",
                f"{cell}={digit}, the last candidate standing.",
                f"That leaves {cell} with {digit} alone. In it goes.",
            )
        )

    def hidden_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, digit = self.cell(put.cell), put.digit
        if not m.says("house"):
            return m.pick(f"Hidden single: {digit} at {cell}.", f"{cell} is {digit}, a hidden single.")
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return m.pick(
                f"{opened(cell)} is the only place for {digit} in its {kind}.",
                f"{digit} has nowhere else to go in its {kind}: {cell}.",
                f"{opened(cell)} holds the only {digit} left in its {kind}.",
            )
        house = self.where(m)
        return opened(
            m.pick(
                f"the only place for {digit} in {house} is {cell}.",
                f"{digit} in {house} goes to {cell}.",
                f"in {house}, {digit} fits nowhere but {cell}.",
                f"{house} needs {article(digit)}, and {cell} is the last spot for it.",
                f"{house}: {digit} only at {cell}.",
                f"hidden single in {house}: {cell} is {digit}.",
                f"{cell} is {digit}, since {house} has no other home for it.",
                f"{cell} takes the {digit} of {house}.",
                f"where does {digit} go in {house}? Only {cell} will do.",
                f"one cell in {house} can still take {article(digit)}: {cell}.",
            )
        )

    def last_cell(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        cell, digit = self.cell(put.cell), put.digit
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return f"{opened(cell)} is the last gap in its {kind}. It is {digit}."
        house = self.where(m)
        return opened(
            m.pick(
                f"{house} lacks only {article(digit)}, which goes to {cell}.",
                f"{cell} is {digit}, the last empty cell of {house}.",
                f"{digit} at {cell} completes {house}.",
                f"one gap left in {house}: {cell} is {digit}.",
                f"{house} is full but for {cell}. That is {digit}.",
                f"fill the last cell of {house}, {cell}, with {digit}.",
                f"{cell} finishes off {house}: {digit}.",
            )
        )

    def locked(self, m: Matter) -> str:
        digit, house = m.digits[0], self.where(m)
        assert m.crossing is not None
        line = self.house(m.crossing)
        kind = KINDS[m.crossing.kind]
        if not m.says("crossing"):
            said = m.pick(
                f"the {digit}s of {house} all lie in one {kind}",
                f"in {house} the {digit}s keep to a single {kind}",
            )
        elif m.says("name") and m.often(0.4):
            if m.name == "pointing":
                said = m.pick(f"pointing {digit}s in {house}, along {line}", f"the {digit}s in {house} point along {line}")
            else:
                said = m.pick(f"{house} claims its {digit} in {line}", f"claiming: {digit} of {house} within {line}")
        else:
            said = m.pick(
                f"the {digit} of {house} must lie in {line}",
                f"all {digit}s of {house} are in {line}",
                f"{house} has its {digit}s only in {line}",
                f"in {house}, {digit} is confined to {line}",
                f"{digit} in {house} is restricted to {line}",
                f"{house} can have its {digit} only in {line}",
                f"within {house}, {line} holds every {digit}",
                f"every {digit} left in {house} falls in {line}",
            )
        return self.so(m, said, f"the rest of {m.pick(line, f'that {kind}') if m.says('crossing') else f'that {kind}'}")

    def naked(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), self.digits(m, m.digits), self.where(m)
        place = f" in {house}" if m.says("house") else ""
        size = m.name.split()[1]
        kinds = [KINDS[kind] for kind in m.plan.kinds]
        rest = "the rest of the " + " and the ".join(kinds)
        count = NUMBERS[m.count]
        if not m.says("name"):
            order = m.pick(" in some order", " between them", "" if m.count == 2 else " between them")
            said = m.pick(
                f"{cells}{place} are {digits}{order}",
                f"{cells}{place} must be {digits}{order}",
                f"{cells}{place} share {digits} between them",
                f"{digits} are taken up by {cells}{place}",
                f"{cells}{place} hold nothing but {digits}",
                f"the {count} cells {cells}{place} have only {digits} to choose from",
            )
        else:
            run = "".join(map(str, m.digits))
            said = m.pick(
                f"{cells}{place} form a naked {size} of {digits}",
                f"naked {size} {run} at {cells}{place}",
                f"there is a naked {size} {'/'.join(map(str, m.digits))}{place} at {cells}",
                f"{cells} make {digits} a naked {size}{place}",
                f"{size} of {digits} at {cells}{place}" if not m.often(0.5) else f"a {size}, {digits}, sits at {cells}{place}",
            )
        return self.so(m, said, rest)

    def hidden(self, m: Matter) -> str:
        cells, digits, house = self.cells(m, m.cells), self.digits(m, m.digits), self.where(m)
        place = f" in {house}" if m.says("house") else ""
        size = m.name.split()[1]
        if not m.says("name"):
            said = m.pick(
                f"{digits}{place} fit only in {cells}",
                f"only {cells} can take {digits}{place}",
                f"the only places for {digits}{place} are {cells}",
                f"{digits}{place} are confined to {cells}",
                f"{digits} go nowhere{place} but {cells}",
                f"{cells} must take {digits}{place}",
            )
        else:
            said = m.pick(
                f"hidden {size} {''.join(map(str, m.digits))} at {cells}{place}",
                f"{digits} are a hidden {size} at {cells}{place}",
                f"{cells} hide the {size} {digits}{place}"
                if m.often(0.5)
                else f"{cells} hold a hidden {size}, {digits}{place}",
            )
        return self.so(m, said, "")

    def fish(self, m: Matter) -> str:
        digit, base = m.digits[0], self.houses(m, m.houses)
        cover = self.houses(m, m.cover)
        cross = f"{KINDS[m.cover[0].kind]}s"
        shown = {"x-wing": "X-wing"}.get(m.name, m.name)
        if m.plan.corners:
            corners = [row for row in range(81) if _crossed(row, m)]
            return self.so(
                m,
                f"{m.pick('X-wing', 'there is an X-wing')} on {digit} in the {KINDS[m.houses[0].kind]}s, corners {self.cells(m, corners)}",
                f"the rest of both {cross}",
            )
        if not m.says("name"):
            said = m.pick(
                f"in {base} the {digit}s fall only in {cover}",
                f"{base} both have their {digit}s in {cover}"
                if len(m.houses) == 2
                else f"{base} have their {digit}s in {cover}",
                f"the {digit}s of {base} take up {cover}",
                f"{base} see {digit} only in {cover}",
                f"no {digit} of {base} lies outside {cover}",
            )
        elif not m.says("cover"):
            said = m.pick(f"{shown} of {digit}s in {base}", f"the {digit}s in {base} make {article(shown)}")
        else:
            said = m.pick(
                f"{shown} on {digit} in {base}, {cover}",
                f"the {digit}s in {base} form {article(shown)} with {cover}",
                f"{digit} has {article(shown)} in {base} against {cover}",
                f"{shown}: {digit} in {base} lies in {cover}",
                f"{base} hold {article(shown)} of {digit}s in {cover}",
            )
        return self.so(
            m,
            said,
            m.pick(f"the rest of {cover}", f"the rest of those {cross}") if m.says("cover") else f"the rest of those {cross}",
        )

    def finned(self, m: Matter) -> str:
        digit, base, cover = m.digits[0], self.houses(m, m.houses), self.houses(m, m.cover)
        shown = m.name.replace("x-wing", "X-wing")
        fins = self.cells(m, m.fins)
        fin = "fin" if len(m.fins) == 1 else "fins"
        plain = shown.removeprefix("finned ")
        said = m.pick(
            f"{shown} on {digit} in {base}, cover {cover}, {fin} {fins}",
            f"but for the {fin} {fins}, the {digit}s of {base} would be {article(plain)} in {cover}",
            f"{base} and {cover} make {article(plain)} on {digit}, {fin} at {fins}",
            f"{shown}: {digit} in {base} lies in {cover}, save the {fin} {fins}",
        )
        return self.so(
            m,
            said,
            f"cells of {cover} that see the {fin}"
            if m.often(0.5)
            else f"whatever the {fin} see{'s' if len(m.fins) == 1 else ''} in {cover}",
        )

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        pivot, wings = self.cell(m.pivot), self.cells(m, m.cells)
        one, other, both = m.plan.shared
        if not m.says("name"):
            first, second = map(self.cell, m.cells)
            said = m.pick(
                f"if {pivot} is {one}, {first} is {both}; if {other}, {second} is {both}",
                f"whichever of {one} and {other} {pivot} is, {first} or {second} is {both}",
            )
        else:
            said = m.pick(
                f"XY-wing, pivot {pivot}, wings {wings}",
                f"{pivot} is the hinge of an XY-wing with {wings}",
                f"an XY-wing hinges on {pivot}, its wings at {wings}",
                f"XY-wing on {both}: {pivot} with {wings}",
            )
        return self.so(m, said, m.pick("any cell that sees both wings", "cells seen by both"), both)

    def xy_chain(self, m: Matter) -> str:
        end = m.digits[0]
        words = [self.cell(m.cells[0])]
        for cell, digit in zip(m.cells[1:], m.digits[1:], strict=False):
            words += [f"{digit}", self.cell(cell)]
        first, last = self.cell(m.cells[0]), self.cell(m.cells[-1])
        if not m.says("name"):
            steps = "; ".join(
                f"then {self.cell(cell)} is {digit}" for cell, digit in zip(m.cells[1:], m.digits[2:], strict=True)
            )
            said = f"if {first} is not {end}, it is {m.digits[1]}; {steps}"
            said += m.pick(f". Either way {first} or {last} is {end}", "")
        else:
            dashes = f"{end}-" + "-".join(f"{self.cell(c)}-{d}" for c, d in zip(m.cells, m.digits[1:], strict=True))
            said = m.pick(
                f"XY-chain {dashes}",
                f"XY-chain on {end} from {first} to {last}: {dashes}",
                f"the XY-chain {dashes} puts {end} at one end or the other",
            )
        return self.so(m, said, m.pick("any cell that sees both ends", "cells that see both ends"), end)

    def x_chain(self, m: Matter) -> str:
        digit = m.digits[0]
        cells = [self.cell(cell) for cell in m.cells]
        if not m.says("name"):
            links = [
                f"{a} or {b} is {digit} in their {KINDS[way]}" if at == 0 else f"so is {a} or {b} in their {KINDS[way]}"
                for at, (a, b, way) in enumerate(zip(cells[::2], cells[1::2], m.plan.ways, strict=True))
            ]
            said = "; ".join(links) + f". So one of {cells[0]} and {cells[-1]} is {digit}"
        else:
            said = m.pick(
                f"X-chain on {digit}: {', '.join(cells)}",
                f"chain of {digit}s {'-'.join(cells)}",
                f"the {digit}s chain from {cells[0]} through {', '.join(cells[1:-1])} to {cells[-1]}",
            )
        return self.so(m, said, m.pick("any cell that sees both ends", "cells that see both ends"), digit)

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), *others = m.links
        said = [f"if {self.cell(first)} is{'' if supposed else ' not'} {digit}"]
        last = first
        for cell, holds, other in others:
            name = "it" if cell == last else self.cell(cell)
            said.append(f"{name} is{'' if holds else ' not'} {other}")
            last = cell
        glue = m.pick(", then ", ", so ", "; so ")
        text = said[0] + ", " + listed(said[1:]) if m.often(0.3) else said[0] + m.pick(", then ", ", ") + glue.join(said[1:])
        cell, holds, end = m.links[-1]
        if cell == first and end == digit and holds != supposed:
            text += m.pick(", a contradiction", ", which cannot be", "")
            if m.plan.natural:
                return opened(text) + f". So {self.cell(first)} is{' not' if supposed else ''} {digit}."
        return self.so(m, text, m.pick("any cell that sees both ends", "cells that see both"), digit)

    def facts(self, m: Matter) -> str:
        said = [self.cell(what) if isinstance(what, int) else f"the {what[0]} of {self.house(what[1])}" for what in m.cited]
        words = listed(said)
        text = m.pick(
            f"look at {words}",
            f"consider {words}",
            f"take {words} together" if len(said) > 1 else f"take {words}",
            f"wherever it falls, look at {words}" if len(said) > 5 else f"start from {words}",
        )
        return f"{opened(text)}: {self.effects(m)}."

    def bare(self, m: Matter) -> str:
        return opened(self.effects(m)) + "."

    def so(self, m: Matter, said: str, where: str, digit: int | None = None) -> str:
        """The pattern, then its effects."""
        tail = self.hinted(m, where, digit) if m.plan.natural else self.effects(m)
        return opened(m.pick(f"{said}, so {tail}.", f"{said}. {opened(tail)}.", f"{said}; {tail}.", f"{said}. So {tail}."))

    def hinted(self, m: Matter, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            return m.pick(
                f"everything else goes from those {NUMBERS[m.count]}",
                "their other candidates go",
                "no other digit fits there",
                f"strike all else from the {NUMBERS[m.count]} cells",
            )
        if m.often(0.08):
            return m.pick("the usual strikes follow", "the usual candidates go")
        digits = [digit] if digit else m.digits
        if not digits:
            digits = [m.links[0][2]]
        if len(digits) == 1:
            what = m.pick(str(digits[0]), f"the {digits[0]}s")
            goes = "goes" if what[0].isdigit() else "go"
        else:
            what, goes = m.pick(self.digits(m, digits), "those", "they"), "go"
        return m.pick(f"{what} {goes} from {where}", f"{what} can be struck from {where}", f"{what} {goes} from {where}")

    def effects(self, m: Matter) -> str:
        said = [self.effect(m, effect) for effect in m.effects]
        short = (
            isinstance(effect, Put) or (isinstance(effect, Strike) and len(effect.cells) == len(effect.digits) == 1)
            for effect in m.effects
        )
        if all(short) and m.often(0.6):
            return listed(said)
        return m.pick("; ", ", and also ").join(said) if len(said) < 3 else "; ".join(said)

    def effect(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell = self.cell(effect.cell)
            return m.pick(f"{cell} is {effect.digit}", f"{cell} must be {effect.digit}", f"{effect.digit} goes to {cell}")
        digits = self.digits(m, effect.digits)
        several = len(effect.digits) > 1
        if isinstance(effect, Clear):
            house = self.house(effect.house)
            return m.pick(
                f"{digits} go{'' if several else 'es'} from the rest of {house}",
                f"the rest of {house} loses {digits}",
                f"no other cell of {house} can be {self.digits(m, effect.digits, 'or')}",
                f"strike {digits} elsewhere in {house}",
            )
        cells = self.cells(m, effect.cells)
        these = len(effect.cells) > 1
        either = self.digits(m, effect.digits, "or")
        return m.pick(
            f"{cells} {'are' if these else 'is'} not {either}",
            f"{cells} lose{'' if these else 's'} {digits}",
            f"{cells} cannot be {either}",
            f"{digits} go{'' if several else 'es'} from {cells}",
            f"strike {digits} from {cells}",
            f"{digits} cannot stand at {cells}",
            f"out {'go' if several else 'goes'} {digits} from {cells}",
            f"no {either} at {cells}",
        )

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "This week's Lamp Room has a gentle start and a foggy middle.",
                    "A stiff one from the gallery. Sharpen two pencils.",
                    "Last week's grid was kind. This one is not.",
                )
            ),
            opens=True,
        )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.06:
            yield Piece(
                rng.choice(
                    (
                        "A pause for tea.",
                        "One for the keepers.",
                        "Trim the lamp and read on.",
                        "The fog lifts a little.",
                        "Now it gets interesting.",
                        "Solvers who got this far unaided may take a bow.",
                    )
                ),
                opens=True,
            )

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.35

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(rng.choice(("Done.", "The rest is the sea.", "Next week: a smaller lamp and a larger grid.")), opens=True)

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        def heads() -> Iterator[str]:
            clock = 0
            while True:
                yield f"[{clock // 60}:{clock % 60:02}] " if marked else ""
                clock += rng.randint(10, 70)

        marked = rng.random() < 0.25
        head = rng.choice(("", f"# The Lamp Room, no. {walk.seed}", f"# Back page\n\n## The Lamp Room {walk.seed}"))
        return "narration", prose(pieces, rng.choice((None, 72, 88)), heads(), head)


def article(what: int | str) -> str:
    """With ``a`` or ``an``."""
    return f"{'an' if str(what)[:1] in '8X' else 'a'} {what}"


def _crossed(cell: int, m: Matter) -> bool:
    row, column = cell // 9 + 1, cell % 9 + 1
    rows = {house.number for house in (*m.houses, *m.cover) if house.kind == "r"}
    columns = {house.number for house in (*m.houses, *m.cover) if house.kind == "c"}
    return row in rows and column in columns
