"""For development: a calm explainer left on a machine, which writes down what it hears. No capitals, no stops, mostly figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, ORDINALS, PLURALS
from .layout import Captioned, Laid, Piece, captions
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

SOUNDS_LIKE = {"1": "won", "2": "to", "4": "for", "6": "sicks", "8": "ate"}
"""Figures that come out as another word altogether."""

MANGLED: dict[str, tuple[float, tuple[str, ...]]] = {
    "x-wing": (1.0, ("ex wing", "x wing", "ex wing", "xwing")),
    "xy-wing": (1.0, ("x y wing", "xy wing", "ex why wing", "why wing")),
    "xy-chain": (1.0, ("x y chain", "xy chain", "ex why chain")),
    "x-chain": (1.0, ("x chain", "ex chain")),
    "swordfish": (0.7, ("sword fish", "sword fish", "sort fish")),
    "jellyfish": (0.6, ("jelly fish",)),
    "finned": (0.6, ("find", "find", "thinned")),
    "fin": (0.1, ("thin",)),
    "pivot": (0.1, ("privet",)),
    "quad": (0.1, ("quod",)),
    "pair": (0.06, ("pear",)),
    "cell": (0.03, ("sell",)),
    "cells": (0.03, ("sells",)),
    "rows": (0.03, ("rose",)),
    "their": (0.15, ("there",)),
    "sees": (0.04, ("seas",)),
    "can't": (0.1, ("cant",)),
    "it's": (0.15, ("its",)),
    "except": (0.1, ("accept",)),
    "which": (0.01, ("witch",)),
}
"""Other words: how often they come out wrong, and how."""

AREAS = (
    "top left",
    "top middle",
    "top right",
    "middle left",
    "middle",
    "middle right",
    "bottom left",
    "bottom middle",
    "bottom right",
)
"""The boxes in order, and the cells of a box."""

PAIRS = {2: "both of them", 3: "all three of them", 4: "all four of them"}


def written(text: str, rng: Random, spelt: float) -> str:
    """What the machine writes. ``spelt``: how often a figure is a word. Two throws for each word, so that a slip stays one."""
    words = []
    for word in text.split():
        throw, which = rng.random(), rng.random()
        figure = word.removesuffix("s")
        if figure.isdigit() and len(figure) == 1:
            if throw < spelt:
                word = (NUMBERS if figure == word else PLURALS)[int(figure)]
            elif throw > 0.97:
                word = SOUNDS_LIKE.get(word, word)
        elif word in MANGLED and throw < MANGLED[word][0]:
            options = MANGLED[word][1]
            word = options[int(which * len(options))]
        words.append(word)
    return " ".join(words).replace("an why wing", "a why wing")


class Voicemail(Narrator):
    """Explains slowly, with the phone on the desk."""

    name = "voicemail"
    leaves: ClassVar = {
        "its": 0.12,
        "single house": 0.05,
        "naked house": 0.4,
        "hidden house": 0.0,
        "cover": 0.12,
        "crossing": 0.1,
        "name": 0.4,
        "effects": 0.6,
        "back": 0.35,
        "corners": 0.2,
        "recap": 0.06,
    }

    def tell(self, matter: Matter) -> str:
        noise = Random(matter.rng.random())
        return written(super().tell(matter), noise, (0.06, 0.12, 0.3)[matter.manner % 3])

    # Naming.

    def plain(self, cell: int) -> str:
        return f"row {cell // 9 + 1} column {cell % 9 + 1}"

    def cell(self, m: Matter, cell: int) -> str:
        row, column, plain = cell // 9 + 1, cell % 9 + 1, self.plain(cell)
        return m.pick(
            *[plain] * 8,
            f"the cell at {plain}",
            f"the cell at {plain}",
            f"column {column} row {row}",
            f"column {column} of row {row}",
        )

    def spot(self, m: Matter, cell: int, house: House) -> str:
        """The cell within a house that has just been named: by what is still missing of its name, where it lies there."""
        full, short, place = self.cell(m, cell), m.often(0.6), m.often(0.15)
        row, column = divmod(cell, 9)
        inside = cell in m.board.geometry.cells_of[house]
        if inside and short and house.kind != "b":
            return f"column {column + 1}" if house.kind == "r" else f"row {row + 1}"
        if inside and place and house.kind == "b":
            return f"the {AREAS[row % 3 * 3 + column % 3]} cell"
        return full

    def spots(self, m: Matter, cells: Sequence[int], house: House | None = None) -> str:
        """Cells, those of one line at times by that line; of ``house``, which is named beside them, by the other one alone."""
        joined, short, turned, ands = m.often(0.7), m.often(0.85), m.often(0.4), m.often(0.3)
        rows, columns = {cell // 9 + 1 for cell in cells}, {cell % 9 + 1 for cell in cells}
        line, which, others = ("row", min(rows), "columns") if len(rows) == 1 else ("column", min(columns), "rows")
        beside = house is not None and (line, which) == (KINDS[house.kind], house.number)
        if len(cells) > 1 and (joined or beside) and 1 in (len(rows), len(columns)):
            numbers = self.run([cell % 9 + 1 if line == "row" else cell // 9 + 1 for cell in cells])
            if beside and short:
                return f"{others} {numbers}"
            return f"{others} {numbers} of {line} {which}" if turned and house is None else f"{line} {which} {others} {numbers}"
        names = [*map(self.plain, cells)]
        return " and ".join(names) if ands or len(names) < 3 else f"{' '.join(names[:-1])} and {names[-1]}"

    def run(self, numbers: Sequence[int], last: str = "and") -> str:
        words = [*map(str, numbers)]
        return words[0] if len(words) == 1 else f"{' '.join(words[:-1])} {last} {words[-1]}"

    def house(self, m: Matter, house: House) -> str:
        rare, area = m.often(0.06), m.often(0.5)
        if house.kind == "b":
            return f"the {AREAS[house.number - 1]} box" if area else f"box {house.number}"
        return f"the {ORDINALS[house.number]} {KINDS[house.kind]}" if rare else f"{KINDS[house.kind]} {house.number}"

    def where(self, m: Matter) -> str:
        same, house = m.pick("the same", "that same"), self.house(m, m.house)
        return f"{same} {KINDS[m.house.kind]}" if m.plan.back else house

    def lines(self, m: Matter, houses: Sequence[House]) -> str:
        kind, each = KINDS[houses[0].kind], m.often(0.2)
        if each and len(houses) == 2:
            return " and ".join(f"{kind} {house.number}" for house in houses)
        return f"{kind}s {self.run([house.number for house in houses])}"

    def a(self, what: int | str) -> str:
        return f"{'an' if str(what)[0] in '8x' else 'a'} {what}"

    def say(self, m: Matter, text: str, tail: bool = False) -> str:
        """With a word before it; always, where it would run on from a number. ``tail``: perhaps with a word after it."""
        lead = m.pick(
            "okay ", "now ", "right ", "all right ", "next ", "so next ", "then ", "good now ", "moving on ", "let's carry on "
        )
        quiet, after = m.often(0.4), m.often(0.15)
        end = m.pick("so in it goes", "let me write that down", "and i'm happy with that", "so we can ink it in")
        begins = text.split()[0]
        lead = "" if quiet and begins not in ("row", "rows", "column", "columns") and not begins[0].isdigit() else lead
        return f"{lead}{text}{f' {end}' if tail and after else ''}"

    # Singles.

    def naked_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        c, d, a = self.cell(m, put.cell), put.digit, self.a(put.digit)
        return self.say(
            m,
            m.pick(
                f"{c} has nothing left in it but the {d}",
                f"if we count up what's still possible in {c} it comes to one number which is {d}",
                f"every number except {d} has been ruled out in {c} so we write the {d}",
                f"what could we put in {c} it turns out {d} is all we can have",
                f"there is {a} going into {c} because that cell has run out of alternatives",
                f"{c} is a naked single and the value is {d}",
                f"i can fill in {c} since the one candidate in there is {d}",
                f"all the other candidates are out of {c} and we are left with {a}",
                f"focus on {c} for a moment this cell has one candidate and the candidate is {d}",
                f"the {d} is forced in {c} because no other number will go into that cell",
                f"we have whittled {c} down to {a}",
                f"this time it's a naked single the {d} in {c}",
                f"we've got {c} which no longer has any choice it is {a}",
            ),
            tail=True,
        )

    def hidden_single(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        c, d, a, kind = self.cell(m, put.cell), put.digit, self.a(put.digit), KINDS[m.house.kind]
        if not m.says("house"):
            said = m.pick(
                f"{c} is a hidden single and it's the {d}",
                f"there's a hidden single to write in at {c} it's {a}",
                f"we have {a} in {c} as a hidden single",
            )
        elif not m.says("its"):
            said = m.pick(
                f"{c} gets the {d} because no other cell in its {kind} can have it",
                f"the {d} at {c} is the only one possible in its {kind}",
                f"look at {c} this is the last place left for {a} in its {kind}",
                f"as far as its {kind} goes {c} is the only cell for the {d}",
                f"we write {a} in {c} the rest of its {kind} won't take it",
            )
        else:
            said = self._only_place(m, put)
        return self.say(m, said, tail=True)

    def _only_place(self, m: Matter, put: Put) -> str:
        c, s, h = self.cell(m, put.cell), self.spot(m, put.cell, m.house), self.where(m)
        d, a = put.digit, self.a(put.digit)
        return m.pick(
            f"in {h} the {d} can only go in {s}",
            f"in {h} the {d} can only go in {s}",
            f"{h} still needs {a} and the one cell that will take it is {s}",
            f"think about the {d} of {h} every cell is blocked for it apart from {s}",
            f"{c} is the one cell in {h} which can be {a}",
            f"we get {a} in {c} as there isn't any other room for it in {h}",
            f"there's a hidden single in {h} the number is {d} and it sits at {s}",
            f"if you scan {h} for the {d} you will find that it fits in {s} and nowhere else",
            f"no cell of {h} can hold {a} other than {s}",
            f"{c} is {d} the reason being that the rest of {h} won't accept it",
            f"one number we haven't placed in {h} is the {d} well it has exactly one position and that's {s}",
            f"going through {h} cell by cell {s} alone allows {a}",
            f"let's put {a} in {c} because {h} has to have it somewhere and no other cell will do",
            f"which cell of {h} takes the {d} just {s}",
        )

    def last_cell(self, m: Matter) -> str:
        put = m.put
        assert put is not None
        c, s, h = self.cell(m, put.cell), self.spot(m, put.cell, m.house), self.where(m)
        d, a, kind = put.digit, self.a(put.digit), KINDS[m.house.kind]
        if not m.says("its"):
            said = m.pick(
                f"{c} finishes its {kind} and the number we were missing is {d}",
                f"{c} is the final empty cell in its {kind} so it takes the {d}",
                f"put {a} in {c} and its {kind} is complete",
            )
        else:
            said = m.pick(
                f"{h} has eight of its nine numbers now so the missing {d} drops into {s}",
                f"we can close off {h} by writing {a} in {s}",
                f"there is a single empty cell in {h} that's {s} and what it wants is the {d}",
                f"{c} is the last cell to fill in {h} and it gets the {d}",
                f"what's missing from {h} it's the {d} and there's just {s} to put it in",
                f"{h} is nearly done we only have to add {a} at {s}",
                f"with {a} in {c} that's all of {h}",
                f"count through {h} everything is there but the {d} so {s} is {d}",
                f"all of {h} is filled in apart from {s} so this last cell is {d}",
                f"the {d} is what {h} is short of and the one gap it has is {s}",
                f"the last empty cell of {h} is {s} and that has to be {a}",
            )
        return self.say(m, said, tail=True)

    # Candidates.

    def locked(self, m: Matter) -> str:
        d, h, many, a, named = m.digits[0], self.where(m), f"{m.digits[0]}s", self.a(m.digits[0]), m.often(0.35)
        assert m.crossing is not None
        line, kind = self.house(m, m.crossing), KINDS[m.crossing.kind]
        if not m.says("crossing"):
            said = m.pick(
                f"the {many} we have left in {h} are all in the same {kind}",
                f"{h} keeps its {d} to just one {kind}",
                f"in {h} every possible {d} shares a single {kind}",
                f"the {many} in {h} line up in one {kind}",
                f"whatever happens the {d} in {h} ends up in one and the same {kind}",
                f"there's only one {kind} that gives {h} its {d}",
            )
        elif m.says("name") and named:
            pointing = m.pick(
                f"{h} has {many} pointing along {line}", f"we have pointing {many} in {h} and they point along {line}"
            )
            claiming = m.pick(f"{h} claims the {d} of {line}", f"this is a claiming pattern {h} has to use {line} for its {d}")
            said = pointing if m.name == "pointing" else claiming
        else:
            said = m.pick(
                f"{h} has to have its {d} somewhere in {line}",
                f"for {h} the {d} is only possible where it meets {line}",
                f"the only candidates for {d} in {h} are the ones in {line}",
                f"whichever cell takes the {d} of {h} it's a cell in {line}",
                f"there is no room in {h} for {a} except in {line}",
                f"the {many} in {h} all sit in {line}",
                f"{h} wants {a} and every cell it could use belongs to {line} as well",
            )
        rest = m.pick(f"the rest of {line}", f"the rest of that {kind}") if m.says("crossing") else f"the rest of that {kind}"
        return self.so(m, said, m.pick(rest, rest, f"the part of that {kind} outside {h}"))

    def naked(self, m: Matter) -> str:
        house = m.house if m.says("house") else None
        cells, digits, place = self.spots(m, m.cells, house), self.run(m.digits), f" in {self.where(m)}"
        place, size, count = place if house else "", m.name.split()[1], NUMBERS[m.count]
        tight = " ".join(map(str, m.digits))
        order = "whichever way round they go" if m.count == 2 else "in whatever order they turn out"
        if m.says("name"):
            said = m.pick(
                f"there's a naked {size} of {digits} at {cells}{place}",
                f"{cells}{place} give us a naked {size} with {digits}",
                f"we have a {tight} naked {size} and it's in {cells}{place}",
                f"{digits} are locked up as a naked {size} at {cells}{place}",
                f"{cells}{place} contain just {digits} among them which is what we call a naked {size}",
                f"here is a naked {size} which uses the cells {cells}{place} and the numbers {digits}",
                f"i can see {cells}{place} making a naked {size} {tight}",
            )
        else:
            said = m.pick(
                f"{cells}{place} have nothing in them except {digits}",
                f"the numbers for {cells}{place} are limited to {digits}",
                f"{digits} have to be shared out among {cells}{place}",
                f"in {cells}{place} we are going to use up {digits}",
                f"{cells}{place} will be {digits} {order}",
                f"there are {count} cells {cells}{place} and {count} numbers for them {digits}",
                f"i don't know which is which but {cells}{place} are {digits}",
            )
        rest = " and the rest of the ".join(KINDS[kind] for kind in m.plan.kinds)
        return self.so(m, said, m.pick(f"the rest of the {rest}", f"every other cell that sees {PAIRS[m.count]}"))

    def hidden(self, m: Matter) -> str:
        cells, digits, h = self.spots(m, m.cells, m.house), self.run(m.digits), self.where(m)
        size, count = m.name.split()[1], NUMBERS[m.count]
        if m.says("name"):
            said = m.pick(
                f"there is a hidden {size} in {h} it's {digits} at {cells}",
                f"{digits} are a hidden {size} in {h} and they live in {cells}",
                f"a hidden {size} of {digits} sits in {h} at {cells}",
                f"in {h} the cells {cells} are a hidden {size} for {digits}",
                f"in {h} i can see a hidden {size} the numbers are {digits} and the cells are {cells}",
                f"{h} has a hidden {size} {' '.join(map(str, m.digits))} in {cells}",
            )
        else:
            said = m.pick(
                f"in {h} the numbers {digits} fit in just {count} cells which are {cells}",
                f"{h} needs {digits} and for those there's only {cells}",
                f"nowhere in {h} will take {digits} apart from {cells}",
                f"if i ask where {digits} can be in {h} the answer is {cells} and that's all",
                f"in {h} we need the cells {cells} for {digits}",
                f"there are {count} numbers {digits} and only {count} cells for them in {h} namely {cells}",
            )
        return self.so(m, said, "")

    # Fish.

    def fish(self, m: Matter) -> str:
        d, many, base, cover = m.digits[0], f"{m.digits[0]}s", self.lines(m, m.houses), self.lines(m, m.cover)
        a, name, count = self.a(d), self.a(m.name), NUMBERS[m.count]
        kind, cross = f"{KINDS[m.houses[0].kind]}s", f"{KINDS[m.cover[0].kind]}s"
        those = f"the rest of those {cross}"
        if m.plan.corners:
            corners = self.spots(m, [cell for cell in range(81) if crossed(cell, m)])
            said = m.pick(
                f"there's {name} on {d} in the {kind} and its corners are {corners}",
                f"{corners} are the four corners of {name} of {many} in the {kind}",
                f"working along the {kind} the {many} make {name} with corners at {corners}",
            )
        elif not m.says("name"):
            said = m.pick(
                f"{base} can only have their {many} in {cover}",
                f"{base} put all of their {many} into {cover}",
                f"the {many} in {base} never leave {cover}",
                f"for {base} the number {d} is limited to {cover}",
                f"{count} {kind} still need {a} and those are {base} but the only {cross} on offer are {cover}",
                f"however it falls the {d} in each of {base} lands in one of {cover}",
            )
        elif not m.says("cover"):
            said = m.pick(
                f"the {many} in {base} make up {name}",
                f"{base} contain {name} of {many}",
                f"we've got {name} on {d} and it's based in {base}",
                f"there's {name} of {many} running through {base}",
                f"{name} turns up on {d} in {base}",
                f"in {base} the {many} are {name}",
            )
            those = f"the rest of the {cross} it covers"
        else:
            said = m.pick(
                f"in {base} the {many} only appear in {cover} and that is {name}",
                f"{base} give us {name} on {d} using {cover}",
                f"the {many} of {base} form {name} and it covers {cover}",
                f"there's {name} in {base} for the number {d} covering {cover}",
                f"{name} of {many} starts from {base} and lands in {cover}",
                f"every {d} in {base} is in {cover} so what we have is {name}",
            )
        those = m.pick(those, f"the rest of {cover}") if m.says("cover") and not m.plan.corners else those
        return self.so(m, said, those)

    def finned(self, m: Matter) -> str:
        d, many, base, cover = m.digits[0], f"{m.digits[0]}s", self.lines(m, m.houses), self.lines(m, m.cover)
        plain, fins, single = m.name.removeprefix("finned "), self.spots(m, m.fins), len(m.fins) == 1
        fin, is_, cross = "fin" if single else "fins", "is" if single else "are", f"{KINDS[m.cover[0].kind]}s"
        either = "either" if single else "either one of"
        said = m.pick(
            f"{base} would be {self.a(plain)} of {many} in {cover} if it weren't for the {fin} at {fins}",
            f"we have a finned {plain} on {d} in {base} it covers {cover} and the {fin} {is_} {fins}",
            f"all the {many} in {base} are in {cover} apart from {fins} and we call that a finned {plain}",
            f"the {many} of {base} form a finned {plain} across {cover} with {fins} sticking out as the {fin}",
            f"if you take away {fins} then {base} would have {self.a(plain)} on {d} in {cover} which makes this a finned {plain}",
            f"this is a finned {plain} of {many} the base is {base} the cover is {cover} and the {fin} {is_} {fins}",
            f"{either} {fins} is {d} or the {many} in {base} are a proper {plain} in {cover}",
        )
        return self.so(
            m, said, m.pick(f"the cells of {cover} which see the {fin}", f"cells in those {cross} that see the {fin} as well")
        )

    # Wings and chains.

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        hinge, (one, two), (p, q, z) = self.cell(m, m.pivot), map(self.plain, m.cells), m.plan.shared
        if m.says("name"):
            said = m.pick(
                f"this is an xy-wing we pivot on {hinge} and the two wings are {one} and {two}",
                f"{one} and {two} are the wings of an xy-wing and what links them is the pivot {hinge}",
                f"an xy-wing works here from the pivot {hinge} out to {one} and {two}",
                f"around {hinge} there's an xy-wing that reaches {one} on one side and {two} on the other",
                f"with {hinge} as the pivot {one} and {two} complete an xy-wing",
                f"the cells {self.plain(m.pivot)} {one} and {two} are an xy-wing and the first of those is the pivot",
            )
        else:
            said = m.pick(
                f"{hinge} is {p} or {q} when it's {p} {one} becomes {z} and when it's {q} {two} becomes {z}",
                f"try both values of {hinge} the {p} turns {one} into {self.a(z)} and the {q} turns {two} into {self.a(z)}",
                f"if {hinge} is {p} that makes {one} {self.a(z)} and if it's {q} that makes {two} {self.a(z)}",
                f"{hinge} is either {p} and then {one} is {z} or it is {q} and then {two} is {z} so one of these two is {z}",
                f"suppose {hinge} is {p} then {one} has to be {z} now suppose it's {q} then {two} has to be {z}",
                f"{one} is {z} if {hinge} is {p} and {two} is {z} if it's {q}",
            )
        return self.so(m, said, m.pick("every cell that sees both of the wings", "cells which see those two"), z, clause=False)

    def xy_chain(self, m: Matter) -> str:
        end, first, *digits = m.digits
        start, *cells = map(self.plain, m.cells)
        last, turns = cells[-1], [*zip(cells, digits, strict=True)]
        named = f"there's an xy-chain on {end} " if m.says("name") else ""
        either = m.pick(f"so one end or the other is {end}", f"and that way {start} or {last} is {end}", "")
        said = m.pick(
            f"if {start} is not {end} it's {first} which makes "
            + " and that makes ".join(f"{c} {self.a(d)}" for c, d in turns),
            f"suppose {start} isn't {end} then we have {first} there " + " ".join(f"so {c} has to be {d}" for c, d in turns),
            f"either {start} is {end} or it's {first} and in that case " + " and so ".join(f"{c} is {d}" for c, d in turns),
            f"without {self.a(end)} in {start} that cell is {first} "
            + " ".join(f"and that pushes {d} into {c}" for c, d in turns),
            f"start at {start} with {end} and {first} "
            + " ".join(f"go on to {c}" for c in self._held(cells, (first, *digits))),
            f"the two ends are {start} and {last} if the first one isn't {end} it's {first} "
            + " ".join(f"then {c} is {d}" for c, d in turns),
        )
        where = m.pick("every cell that sees both of the ends", "cells which see those two ends")
        return self.so(m, f"{named}{said} {either}".strip(), where, end, clause=False)

    def _held(self, cells: Sequence[str], digits: Sequence[int]) -> list[str]:
        return [f"{cell} with {before} and {after}" for cell, (before, after) in zip(cells, pairwise(digits), strict=True)]

    def x_chain(self, m: Matter) -> str:
        d, many, cells = m.digits[0], f"{m.digits[0]}s", [*map(self.plain, m.cells)]
        start, last, through = cells[0], cells[-1], " then ".join(cells[1:-1])
        if m.says("name"):
            said = m.pick(
                f"an x-chain on {d} runs from {start} to {' to '.join(cells[1:])}",
                f"follow the {many} from {start} to {' and on to '.join(cells[1:])} that's an x-chain",
                f"there is an x-chain on {d} and its cells in order are {start} {through} and last {last}",
                f"we can link up the {many} in {' and '.join(cells)} as an x-chain",
                f"starting in {start} an x-chain of {many} goes via {through} and ends in {last}",
                f"the {many} in {' then '.join(cells)} are joined up in an x-chain",
            )
        else:
            ends = m.pick(f"so {start} or {last} is {d}", f"which gives us {self.a(d)} at one end at least {start} or {last}")
            said = f"{self._link_by_link(m, cells)} {ends}"
        where = m.pick("every cell that sees both of the ends", f"cells which see both {start} and {last}")
        return self.so(m, said, where, d, clause=False)

    def _link_by_link(self, m: Matter, cells: Sequence[str]) -> str:
        """The strong links one after the other, and what joins each to the next."""
        d, a = m.digits[0], self.a(m.digits[0])
        pairs = [*zip(cells[::2], cells[1::2], (KINDS[way] for way in m.plan.ways), strict=True)]
        (p, q, way), rest = pairs[0], pairs[1:]
        joints = " and ".join(f"{one} and {other} see each other" for one, other in zip(cells[1::2], cells[2::2], strict=False))
        return m.pick(
            " and ".join(f"{p} and {q} are the only {d}s in their {way}" for p, q, way in pairs) + f" now {joints}",
            f"if {p} isn't {d} the {way} has its {d} in {q}"
            + "".join(f" which stops {p} being {d} so the {way} has its {d} in {q}" for p, q, way in rest),
            f"the {d} of one {way} is at {p} or {q}"
            + "".join(
                f" and the {d} of {'another' if kind == way else 'one'} {kind} is at {one} or {other}"
                for one, other, kind in rest
            )
            + f" and {joints}",
            f"suppose there's no {d} in {p} then its {way} must have it in {q}"
            + "".join(f" that means there's no {d} in {p} and the {way} must have it in {q}" for p, q, way in rest),
            f"say the {d} isn't in {p} and as the {way} needs {a} it's {q}"
            + "".join(f" so it isn't {p} and as the {way} needs {a} it's {q}" for p, q, way in rest),
            "one of "
            + " and one of ".join(f"{p} and {q} is {d} because their {way} has no others" for p, q, way in pairs)
            + f" and {joints}",
        )

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), *others = m.links
        start, a = self.plain(first), self.a(digit)
        is_, with_ = ("is", "with") if supposed else ("isn't", "without")
        said = m.pick(
            f"what happens if {start} {is_} {digit} well",
            f"{with_} {a} in {start}",
            f"imagine for a moment that {start} {is_} {digit}",
            f"assume {start} {is_} {a}",
            f"let's follow a chain if {start} {is_} {digit}",
            f"say {start} {is_} {digit}",
        )
        last = first
        for number, (cell, holds, other) in enumerate(others):
            glue = m.pick("then", "so", "and so", "which means", "and that means", "and then")
            said += f" {glue if number else m.pick('then', 'straight away')} {self._link(m, cell, cell == last, holds, other)}"
            last = cell
        cell, holds, other = m.links[-1]
        if (cell, other) == (first, digit) and holds != supposed:
            said += m.pick(
                " and that's the opposite of what we assumed", " but we began by saying otherwise", " that contradicts itself"
            )
            if m.plan.natural:
                ends = ("can't be", "is not") if supposed else ("has to be", "really is")
                return self.say(m, f"{said} {m.pick('so', 'therefore', 'which proves')} {start} {m.pick(*ends)} {a}")
        elif other == digit and holds and not supposed:
            said += m.pick(
                "", f" so {digit} is in {start} or in {self.plain(cell)}", f" so at one end or the other there's {a}"
            )
        where = m.pick("every cell that sees both of the ends", "cells which see the first and the last one")
        return self.so(m, said, where, digit, clause=False)

    def _link(self, m: Matter, cell: int, same: bool, holds: bool, digit: int) -> str:
        name = m.pick("this cell", "it", "that same cell") if same else self.plain(cell)
        a, there = self.a(digit), "there" if same else f"in {name}"
        if holds:
            return m.pick(
                f"{name} is {digit}", f"{name} has to be {a}", f"{name} becomes {digit}", f"the {digit} must be {there}"
            )
        return m.pick(
            f"{name} isn't {digit}", f"{name} can't be {a}", f"{name} won't be {digit}", f"there's no {digit} {there}"
        )

    # Facts, and no reason.

    def facts(self, m: Matter) -> str:
        names = [
            m.pick(self.plain(what), f"the candidates in {self.plain(what)}")
            if isinstance(what, int)
            else m.pick(f"the {what[0]} in {self.house(m, what[1])}", f"where the {what[0]} goes in {self.house(m, what[1])}")
            for what in m.cited
        ]
        cited, effects = " and ".join(names), self.effects(m)
        return self.say(
            m,
            m.pick(
                f"all we need for this is {cited} and they tell us that {effects}"
                if len(names) > 1
                else f"all we need for this is {cited} which tells us that {effects}",
                f"using just {cited} we can work out that {effects}",
                f"{effects} and to see why look at {cited}",
                f"if you think through {cited} you find that {effects}",
                f"it follows from {cited} that {effects}",
                f"keep in mind {cited} because of that {effects}",
                f"{effects} and that comes from {cited}",
            ),
        )

    def bare(self, m: Matter) -> str:
        effects = self.effects(m)
        return self.say(
            m,
            m.pick(
                effects,
                f"{effects} take my word for it",
                f"i'll just tell you that {effects}",
                f"without going into the details {effects}",
                f"{effects} i checked that earlier",
                f"i'm going to skip the reasoning here {effects}",
                f"you can see for yourselves why {effects}",
            ),
        )

    # Effects.

    def so(self, m: Matter, said: str, where: str, digit: int | None = None, clause: bool = True) -> str:
        """The pattern and its effects, in either order. ``clause``: does the pattern's telling go after ``because``?"""
        turned = m.often(0.25)
        glue = m.pick(
            "so", "and so", "which means", "that means", "and that tells us", "as a result", "from that we know", "okay so"
        )
        why = (
            m.pick("because", "since", "the reason is that") if clause else m.pick("and here's why", "and this is how we know")
        )
        if m.plan.natural:
            return self.say(m, f"{said} {glue} {self.hinted(m, where, digit)}")
        effects = self.effects(m)
        return self.say(m, f"{effects} {why} {said}" if turned and len(m.effects) < 3 else f"{said} {glue} {effects}")

    def hinted(self, m: Matter, where: str, digit: int | None) -> str:
        if m.name.startswith("hidden"):
            them = PAIRS[m.count]
            return m.pick(
                f"nothing else can be in {them}",
                f"we can clear everything else out of {them}",
                f"all the other candidates come out of {them}",
                "those cells have no room for any other number",
                "the other numbers in there are crossed off",
                "they lose every other candidate",
            )
        digits = [digit] if digit else m.digits or [m.links[0][2]]
        if len(digits) > 1:
            run, either = self.run(digits), self.run(digits, "or")
            return m.pick(
                f"{where} can't have {either}",
                f"we take {run} out of {where}",
                f"{run} get crossed off in {where}",
                f"those numbers are used up as far as {where} is concerned"
                if " and " not in where
                else f"those numbers are used up for {where}",
                f"there's no {either} left for {where}",
            )
        d, a = digits[0], self.a(digits[0])
        return m.pick(
            f"{where} can't have {a}",
            f"we rule out the {d} in {where}",
            f"any other {d} in {where} gets crossed off",
            f"there are no more {d}s in {where}",
            f"the {d} is eliminated from {where}",
            f"you can rub out {d} in {where}",
        )

    def effects(self, m: Matter) -> str:
        left, alone = self._left(m), m.often(0.3)
        said = m.pick(" and also ", " and then ", " and on top of that ", " and in addition ").join(
            self.effect(m, e) for e in m.effects
        )
        return left if left and alone else said

    def _left(self, m: Matter) -> str:
        """What a single cell keeps, which says as well what it loses; empty where that is too much or too little."""
        way = m.pick("is down to", "is left with only", "keeps just")
        effect = m.effects[0]
        if len(m.effects) > 1 or not isinstance(effect, Strike) or len(effect.cells) > 1:
            return ""
        kept = [digit for digit in m.board.digits[effect.cells[0]] if digit not in effect.digits]
        return f"{self.plain(effect.cells[0])} {way} {self.run(kept)}" if len(kept) in (2, 3) else ""

    def effect(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            cell, a = self.cell(m, effect.cell), self.a(effect.digit)
            return m.pick(
                f"{cell} is {a}", f"{cell} must be {a}", f"the {effect.digit} goes in {cell}", f"we can write {a} in {cell}"
            )
        run, either, several = self.run(effect.digits), self.run(effect.digits, "or"), len(effect.digits) > 1
        them = run if several else f"the {run}"
        if isinstance(effect, Clear):
            house = self.house(m, effect.house)
            return m.pick(
                f"the rest of {house} loses {them}",
                f"no other cell in {house} can have {either}",
                f"everywhere else in {house} we cross off {run}",
                f"{them} can be taken out of the remaining cells in {house}",
                f"{them} {'are' if several else 'is'} not possible anywhere else in {house}",
            )
        many = len(effect.cells) > 1
        cells = self.spots(m, effect.cells) if many else self.cell(m, effect.cells[0])
        return m.pick(
            f"{cells} can't be {either}",
            f"{cells} can't have {either} any more",
            f"{them} {'come' if several else 'comes'} out of {cells}",
            f"we cross off {run} in {cells}",
            f"{cells} {'lose' if many else 'loses'} {them}",
            f"{them} {'are' if several else 'is'} no longer possible in {cells}",
            f"we can eliminate {run} from {cells}",
            f"there is no {either} in {cells}",
        )

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        c, d, a = self.plain(m.put.cell), m.put.digit, self.a(m.put.digit)
        return m.pick(f"so {c} is {d}", f"there's our {d}", f"so that's {a} at {c}", f"and we have {a} in that cell now")

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "hello this is the evening class at the lamp room and tonight i'd like to take you through the puzzle on the back of the log",
                    "good evening keepers i hope you can hear me over the wind we'll go through this week's puzzle nice and slowly",
                    "hello there you have reached the lamp room i said i would explain the puzzle so here we are",
                )
            )
        )
        yield Piece(
            rng.choice(
                (
                    "have your pencil ready and stop me whenever you like",
                    "there's no hurry at all we'll go one step at a time",
                    "i've written all the candidates in already so let's begin",
                )
            )
        )

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.2:
            yield Piece(rng.choice(ASIDES))

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(
            rng.choice(
                (
                    "and there we have it the whole grid thank you for your patience and good night",
                    "and that completes the puzzle i hope some of that was useful",
                    "that's everything mind the stairs on your way down and see you next week",
                )
            )
        )

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        return "vtt", captions(pieces, Captioned(True, rng.choice((32, 40, 46)), rng.choice((1, 2, 2)), 0, 2.3), rng)


ASIDES = (
    "that's two in a row",
    "i hope that makes sense",
    "it's worth taking your time over these",
    "if you missed that just wind it back",
    "lovely",
    "the wind is getting up i can hear the shutters",
    "somebody asked me about this kind of thing last week",
    "this is the part that most people find hard",
    "we're getting there",
    "take a breath",
    "let me just find my place again",
    "i do enjoy these",
    "there's no guessing involved you see",
    "excuse me the kettle is boiling",
    "not long to go now",
    "keep your pencil marks tidy it really does help",
    "i'll give you a moment to look at that yourselves",
    "my old keeper used to do these in ink",
    "so far so good",
    "that was easy wasn't it",
    "you may want to look at that again later",
    "can you see what's coming",
)
"""Talk between the steps."""


def crossed(cell: int, m: Matter) -> bool:
    """Does the cell lie in one of the base lines and in one of the cover lines?"""
    lines = {*m.houses, *m.cover}
    return House("r", cell // 9 + 1) in lines and House("c", cell % 9 + 1) in lines
