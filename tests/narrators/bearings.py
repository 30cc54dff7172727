"""For development: the host of a video, as captions. Column first ("c4r7"), boxes by their place, questions to the viewer."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, PLURALS, listed, opened
from .layout import Captioned, Laid, Piece, captions
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

BOXES = (
    ("top-left",),
    ("top-middle", "top-centre"),
    ("top-right",),
    ("middle-left",),
    ("centre", "middle"),
    ("middle-right",),
    ("bottom-left",),
    ("bottom-middle", "bottom-centre"),
    ("bottom-right",),
)

HELLO = (
    "Hello hello, and welcome back to the Lamp Room!",
    "Hi everybody! It's foggy out there, so let's stay in and solve something.",
    "Good evening, keepers! Have I got a puzzle for you.",
)
BEFORE_WE_START = (
    "I always give the column first and then the row, so get your bearings.",
    "Pause the video if you want to try it yourself, I'll wait.",
    "I haven't looked at this before, honest. Shall we?",
)
ASIDES = (
    "Isn't that nice?",
    "Ooh, I like this.",
    "Okay, what's next?",
    "That's two in a row!",
    "Are you still with me?",
    "Let me just top up the lamp.",
    "I can hear the foghorn, can you?",
    "If you saw that before I did, tell me in the comments.",
    "Bear with me for a second.",
    "Hmm, let's have a look around.",
    "We're on a roll now!",
    "I've got to be honest, that took me a while.",
    "One step at a time.",
    "Whoever set this has a wicked sense of humour.",
    "Right, where were we?",
    "The gulls are laughing at me, but we're getting there.",
)
GOODBYE = (
    "And there we go! What a cracker. See you next time in the Lamp Room!",
    "That's as far as I'll take it today. Thanks for watching, and mind the stairs!",
    "Phew! Did you enjoy that? I did. Keep the light burning, bye bye!",
)


class _Words:
    """How cells, digits and houses are named while one step is told: mostly in one manner, as people do."""

    def __init__(self, m: Matter) -> None:
        self.m = m
        self.manner = m.pick("short", "short", "words", "numerals")
        self.spelt = m.often(0.5)

    def number(self, number: int) -> str:
        spelt = self.manner == "words" if self.manner != "short" else self.spelt
        return NUMBERS[number] if spelt else str(number)

    def digit(self, digit: int) -> str:
        """Never a bare "one", which might be anyone."""
        return NUMBERS[digit] if self.spelt != self.m.often(0.15) and digit > 1 else str(digit)

    def a(self, digit: int) -> str:
        return _article(NUMBERS[digit] if self.spelt != self.m.often(0.15) else str(digit))

    def plural(self, digit: int) -> str:
        return PLURALS[digit] if self.spelt else f"{digit}s"

    def digits(self, digits: Sequence[int], last: str = "and") -> str:
        return listed([NUMBERS[digit] if self.spelt and [*digits] != [1] else str(digit) for digit in digits], last)

    def run(self, digits: Sequence[int]) -> str:
        return self.m.pick("-", "/").join(map(str, digits)) if not self.spelt else "-".join(NUMBERS[d] for d in digits)

    def cell(self, cell: int, comma: bool = True) -> str:
        row, column = cell // 9 + 1, cell % 9 + 1
        if self.manner == "short" or self.m.often(0.1):
            return f"c{column}r{row}"
        pause = "," if comma and self.manner == "words" and self.m.often(0.5) else ""
        return f"column {self.number(column)}{pause} row {self.number(row)}"

    def cells(self, cells: Sequence[int], last: str = "and") -> str:
        """Cells of one line at times by that line; many of them column by column."""
        cells = sorted(cells, key=lambda cell: (cell % 9, cell))
        if len(cells) == 1:
            return self.cell(cells[0], comma=False)
        if self.manner == "short":
            return listed([f"c{cell % 9 + 1}r{cell // 9 + 1}" for cell in cells], last)
        if len({cell // 9 for cell in cells}) == 1:
            columns = listed([self.number(cell % 9 + 1) for cell in cells], last)
            return f"columns {columns} {self.m.pick('of', 'in')} row {self.number(cells[0] // 9 + 1)}"
        groups = [[*group] for _, group in groupby(cells, lambda cell: cell % 9)]
        if len(groups) == 1 and self.m.often(0.4):
            return f"{self._rows(cells, last)} {self.m.pick('of', 'in')} column {self.number(cells[0] % 9 + 1)}"
        told = [f"column {self.number(group[0] % 9 + 1)} {self._rows(group, last)}" for group in groups]
        return listed(told, last, comma=True) if len(groups) > 2 or len(groups) == len(cells) else f", {last} ".join(told)

    def _rows(self, cells: Sequence[int], last: str) -> str:
        return f"row{'s' if len(cells) > 1 else ''} {listed([self.number(cell // 9 + 1) for cell in cells], last)}"

    def house(self, house: House) -> str:
        if house.kind != "b":
            return f"{KINDS[house.kind]} {self.number(house.number)}"
        names = BOXES[house.number - 1]
        name = names[self.m.manner % len(names)]
        return f"the {name} box" if self.m.often(0.8) else f"the box in the {name.replace('-', ' ')}"

    def houses(self, houses: Sequence[House], last: str = "and") -> str:
        kind = KINDS[houses[0].kind]
        if self.m.often(0.15):
            return listed([f"{kind} {self.number(house.number)}" for house in houses], last)
        return f"{kind}{'s' if len(houses) > 1 else ''} {listed([self.number(house.number) for house in houses], last)}"

    def where(self) -> str:
        kind = KINDS[self.m.house.kind]
        return self.m.pick(f"that same {kind}", f"the same {kind}") if self.m.plan.back else self.house(self.m.house)

    def spot(self, cell: int, share: float = 0.5) -> str:
        """The cell as seen along its column or row: the other number is enough."""
        row, column = cell // 9 + 1, cell % 9 + 1
        house = self.m.house
        if self.m.often(share):
            if house == ("c", column):
                return f"row {self.number(row)}"
            if house == ("r", row):
                return f"column {self.number(column)}"
        return self.cell(cell)

    def spots(self) -> str:
        """The cells of a pair, triple or quad, by their rows or columns alone where the line they lie in is named."""
        cells, kind = self.m.cells, self.m.house.kind
        same = {cell % 9 if kind == "c" else cell // 9 for cell in cells} == {self.m.house.number - 1}
        if self.manner == "short" or not self.m.says("house") or kind == "b" or not same or len(cells) < 2:
            return self.cells(cells)
        if kind == "c":
            return self._rows(cells, "and")
        return f"columns {listed([self.number(cell % 9 + 1) for cell in cells])}"


class Bearings(Narrator):
    """Hosts the Lamp Room's videos, and can't wait for the next step."""

    name = "bearings"
    leaves: ClassVar = {
        "single house": 0.05,
        "its": 0.12,
        "naked house": 0.4,
        "hidden house": 0.1,
        "cover": 0.12,
        "crossing": 0.12,
        "name": 0.45,
        "effects": 0.6,
        "back": 0.5,
        "corners": 0.3,
        "recap": 0.1,
    }

    def tell(self, matter: Matter) -> str:
        return _spoken(super().tell(matter))

    def naked_single(self, m: Matter) -> str:
        assert m.put is not None
        w = _Words(m)
        cell, digit = m.put
        c, d, a = w.cell(cell), w.digit(digit), w.a(digit)
        options = [
            f"what can go in {c}? Only {a}!",
            f"{c} has run out of options, it's {a}",
            f"look at {c}. There's just one number it can be, and that's {d}",
            f"every other candidate's gone from {c}, so it's got to be {a}",
            f"I'm putting {a} into {c}, because that's all it's got left",
            f"nothing but {a} works in {c}",
            f"we can fill in {c}! It can't be anything except {d}",
            f"naked single at {c}, so this cell's {a}",
            f"that's a naked single: {a} in {c}",
            f"how about {c}? All that's left in there is {a}",
            f"could {c} be anything other than {a}? Nope! In it goes",
            f"take everything away that {c} can't be, which leaves only the {d}",
            f"remember {c}? This cell's down to its last candidate, {a}, so let's write it in",
        ]
        seen = sorted({m.board.digits[peer][0] for peer in m.board.geometry.peers[cell] if peer in m.board.filled})
        if len({*seen} - {digit}) == 8 and digit not in seen:
            options += [
                f"{c} sees {w.digits(seen)}. So what's left? {_article(d)}!",
                f"count what {c} can see: {w.digits(seen)}. So it's {a}",
            ]
        return m.pick(*options)

    def hidden_single(self, m: Matter) -> str:
        assert m.put is not None
        w = _Words(m)
        cell, digit = m.put
        c, d, a, many = w.cell(cell), w.digit(digit), w.a(digit), w.plural(digit)
        if not m.says("house"):
            return m.pick(
                f"{a} in {c}, and that's a hidden single",
                f"did you catch the hidden single? {c} is {a}",
                f"hidden single! {c} has to be {a}",
            )
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return m.pick(
                f"{c} is the only cell in its {kind} that'll take {a}",
                f"look at everything {c} shares its {kind} with. None of it can be {a}, so that's where it goes",
                f"why's {c} {a}? Because there's nowhere else for it in its {kind}",
                f"nobody else in its {kind} can be {a}, so {c} is {d}",
                f"{a} goes in {c}: its {kind} hasn't got any other place for one",
                f"{c} is a hidden single in its {kind}, and it's {a}",
            )
        house, s = w.where(), w.spot(cell)
        return m.pick(
            f"where can the {d} go in {house}? Only in {s}!",
            f"{house} still needs {a}, and {s} is the only place that'll take it",
            f"have a look at {house}. There's nowhere to put the {d} apart from {s}",
            f"{c} has to be {a}, it's the last home for {many} in {house}",
            f"no other cell in {house} can take {a}, so {c} gets it",
            f"I'm after the {d} in {house}, and there's exactly one spot for it, {s}",
            f"can you find the {d} in {house}? It's in {s}, and it can't be anywhere else",
            f"all the other cells in {house} are blocked for {many}, so it's {a} in {s}",
            f"there's a hidden single in {house}! That's {a} in {c}",
            f"the only cell in {house} that can be {a} is {s}",
            f"that's {a} in {s}, since {house} can't fit it anywhere else",
            f"{house} wants its {d}, and it hasn't got a choice: {s}",
            f"we can place {a} in {house} now. It's {s}, isn't it?",
            f"{c} is the one cell in {house} that's still got {a} in it, so this cell's the {d}",
            f"what about {many} in {house}? There's just {s} left for them",
        )

    def last_cell(self, m: Matter) -> str:
        assert m.put is not None
        w = _Words(m)
        cell, digit = m.put
        c, d, a = w.cell(cell), w.digit(digit), w.a(digit)
        if not m.says("its"):
            kind = KINDS[m.house.kind]
            return m.pick(
                f"{c} is the last empty cell in its {kind}, and it's {a}",
                f"{c} finishes its {kind} with {a}",
                f"everything else in its {kind} is in, so {c} is {a}",
                f"what's the last number in its {kind}? {c} is {a}",
                f"pop {a} in {c}, and its {kind} is full",
                f"there's one gap left in its {kind}, so {c} must be {d}",
            )
        house, s = w.where(), w.spot(cell)
        return m.pick(
            f"there's a single gap left in {house}, and what's missing is {a}. So {s} is {d}",
            f"{house} is all but finished. What's missing? The {d}! And it goes in {s}",
            f"what does {house} still need? Just {a}, in {s}",
            f"and look, that's {house} done, with {a} in {c}",
            f"eight down in {house}, one to go: {a} in {s}",
            f"{c} is the last empty cell in {house}, it's {a}",
            f"we can close out {house}. Pop {a} in {c}",
            f"let's finish {house}: {c} is {d}",
            f"only {s} is still open in {house}, and it'll be {a}",
            f"everything in {house} is filled except {s}, which must be {a}",
            f"{house} has one hole and one number left over. {a} in {s}, lovely",
            f"don't you love filling up {house}? {c} is {a}, and that's the lot",
        )

    def locked(self, m: Matter) -> str:
        w = _Words(m)
        digit = m.digits[0]
        d, a, many, house = w.digit(digit), w.a(digit), w.plural(digit), w.where()
        assert m.crossing is not None
        line, kind = w.house(m.crossing), KINDS[m.crossing.kind]
        if not m.says("crossing"):
            clauses = [
                f"the {many} in {house} are all in the same {kind}",
                f"{house} has all its {many} in a single {kind}",
                f"the {d} in {house} can't leave this one {kind}",
                f"whichever cell takes the {d} in {house}, it's in the same {kind}",
                f"all the places for {a} in {house} share a {kind}",
                f"{house} only has {many} in one {kind}",
            ]
            heads = [f"look at the {many} in {house}. They all share one {kind}"]
            return self.reasoned(m, w, clauses, heads, f"that {kind}")
        clauses = [
            f"the {many} in {house} are all in {line}",
            f"{house} has to get its {d} in {line}",
            f"wherever the {d} goes in {house}, it'll be in {line}",
            f"{house} can't put {a} anywhere outside {line}",
            f"there isn't {a} in {house} that's not also in {line}",
            f"the {d} in {house} is stuck in {line}",
            f"{line} is the only part of {house} that can still hold {a}",
            f"every spot for {a} in {house} is in {line}",
        ]
        heads = [
            f"where are the {many} in {house}? They're all in {line}",
            f"try putting {a} in {house}. You can only do it in {line}",
            f"where's the {d} in {house}? We don't know which cell, but it's in {line}",
        ]
        if m.says("name"):
            clauses.append(
                f"the {many} in {house} point along {line}" if m.name == "pointing" else f"{house} claims the {d} of {line}"
            )
            heads.append(f"{'pointing' if m.name == 'pointing' else 'claiming'} {many}! {house} has them only in {line}")
        return self.reasoned(m, w, clauses, heads, m.pick(line, line, f"that {kind}"))

    def naked(self, m: Matter) -> str:
        w = _Words(m)
        cells, digits, either = w.spots(), w.digits(m.digits), w.digits(m.digits, "or")
        place = f" in {w.where()}" if m.says("house") else ""
        rest = " and that ".join(KINDS[kind] for kind in m.plan.kinds)
        if m.says("name"):
            return self.reasoned(m, w, *self._named_set(m, w, cells, digits, place), f"that {rest}")
        count = NUMBERS[len(m.cells)]
        clauses = [
            f"{cells}{place} can't be anything but {either}",
            f"{cells}{place} have only got {digits} between them",
            f"{digits} have to be shared out between {cells}{place}",
            f"{cells}{place} use up the {digits}",
            f"{cells}{place} will take {digits}, in whatever order",
            f"all you'll find in {cells}{place} is {either}",
        ]
        heads = [
            f"what can go in {cells}{place}? Only {digits}",
            f"I see {count} cells{place}, {cells}, and just {NUMBERS[len(m.digits)]} numbers for them, {digits}",
        ]
        if len(m.cells) == len(m.digits) == 2:
            heads.append(
                f"look at {cells}{place}. If this one's {w.a(m.digits[0])}, the other one's {w.a(m.digits[1])}, and the other way round"
            )
            clauses.append(f"both {cells}{place} are {either}")
        return self.reasoned(m, w, clauses, heads, f"that {rest}")

    def hidden(self, m: Matter) -> str:
        w = _Words(m)
        cells, digits, either = w.spots(), w.digits(m.digits), w.digits(m.digits, "or")
        place = f" in {w.where()}" if m.says("house") else ""
        if m.says("name"):
            return self.reasoned(m, w, *self._named_set(m, w, cells, digits, place), "")
        many = listed([w.plural(digit) for digit in m.digits])
        clauses = [
            f"the {many}{place} can only be in {cells}",
            f"{cells} are the only places{place} that'll take {either}",
            f"there's nowhere{place} for {digits} except {cells}",
            f"{digits}{place} have to live in {cells}",
            f"nothing{place} apart from {cells} can be {either}",
            f"{cells} have to hold the {digits}{place}",
        ]
        heads = [
            f"where can {digits} go{place}? Only in {cells}",
            f"hunt for {many}{place}, and you'll only find them in {cells}",
        ]
        return self.reasoned(m, w, clauses, heads, "")

    def _named_set(self, m: Matter, w: _Words, cells: str, digits: str, place: str) -> tuple[list[str], list[str]]:
        """A pair, triple or quad by its name: clauses, and what only stands at the head."""
        name, run = m.name, w.run(m.digits)
        clauses = [
            f"{cells} make {_article(name)} of {digits}{place}",
            f"there's {_article(name)}{place}, {digits} in {cells}",
            f"we've got {_article(name)} on {run} in {cells}{place}",
            f"{digits} are {_article(name)}{place}, sitting in {cells}",
        ]
        heads = [
            f"do you see the {name}{place}? It's {digits}, in {cells}",
            f"{name} alert! {digits}{place}, in {cells}",
            f"I've found {_article(name)}{place}. The cells are {cells} and the numbers are {digits}",
            f"let me show you {_article(name)}: {cells}{place}, that's {run}",
            f"check out {cells}{place}. They're {_article(name)}, {run}",
        ]
        return clauses, heads

    def fish(self, m: Matter) -> str:
        w = _Words(m)
        digit = m.digits[0]
        d, a, many = w.digit(digit), w.a(digit), w.plural(digit)
        base, cover, cross = w.houses(m.houses), w.houses(m.cover), KINDS[m.cover[0].kind]
        along = KINDS[m.houses[0].kind]
        shown = m.name.replace("x-wing", "X-wing")
        rest = m.pick(cover, f"those {cross}s") if m.says("cover") else f"those {cross}s"
        if m.plan.corners:
            corners = w.cells([cell for cell in range(81) if _crossed(cell, m)])
            heads = [
                f"there's an X-wing on {many} in the {along}s, with its corners at {corners}",
                f"see this rectangle of {many}? {corners}, and that's an X-wing in the {along}s",
                f"{corners}: what do they make? An X-wing on {d}, going by the {along}s",
                f"join up {corners} and you've got an X-wing of {many} in the {along}s",
            ]
            return self.reasoned(m, w, [], heads, rest)
        if not m.says("name"):
            clauses = [
                f"the {many} in {base} only fall in {cover}",
                f"{base} can't put their {many} anywhere but {cover}",
                f"every {d} you'll find in {base} is in {w.houses(m.cover, 'or')}",
                f"the {many} of {base} are going to fill up {cover}",
                f"{base} keep all their {many} in {cover}",
                f"no {d} in {base} is outside {cover}",
            ]
            heads = [
                f"where can the {many} go in {base}? Just {cover}",
                f"run your eye over {base} and look for {many}. They're all in {cover}",
            ]
            return self.reasoned(m, w, clauses, heads, rest)
        against = m.pick(f" and {cover}", f", with {cover}", f" across {cover}") if m.says("cover") else ""
        clauses = [
            f"there's {_article(shown)} on {many} in {base}{against}",
            f"the {many} in {base} make {_article(shown)}{f' in {cover}' if against else ''}",
            f"{base} give us {_article(shown)} on {d}{f', and it lives in {cover}' if against else ''}",
        ]
        heads = [
            f"{shown} time! It's on {many}, in {base}{against}",
            f"can you see the {shown}? The number's {d}, and we're in {base}{against}",
            f"oh, this is a beauty: {_article(shown)} of {many}, {base}{against}",
            f"start with {base}. {a} in each, and {f'they only fit in {cover}' if against else 'they line up'}: that's {_article(shown)}",
        ]
        return self.reasoned(m, w, clauses, heads, rest)

    def finned(self, m: Matter) -> str:
        w = _Words(m)
        digit = m.digits[0]
        d, a, many = w.digit(digit), w.a(digit), w.plural(digit)
        base, cover, fins = w.houses(m.houses), w.houses(m.cover), w.cells(m.fins)
        name = m.name.replace("x-wing", "X-wing")
        plain = name.removeprefix("finned ")
        several = len(m.fins) > 1
        fin, is_ = ("fins", "are") if several else ("fin", "is")
        clauses = [
            f"the {many} in {base} would be {_article(plain)} in {cover} if it weren't for the {fin} at {fins}",
            f"there's a {name} on {d} in {base} and {cover}, and the {fin} {is_} {fins}",
            f"either {'one of the fins' if several else 'the fin'}, {w.cells(m.fins, 'or')}, is {a}, or {base} have {_article(plain)} of {many} in {cover}",
            f"{base} make a {name} on {many} in {cover}, {fin} at {fins}",
        ]
        heads = [
            f"this is nearly {_article(plain)}! The {many} in {base} are all in {cover}, apart from {fins}, which {is_} the {fin}",
            f"here's a fun one, a {name}. The number's {d}, we're in {base} against {cover}, and the {fin} {is_} {fins}",
            f"ever seen a {name}? Take the {many} in {base} and {cover}, then add the {fin} {fins}",
            f"{plain} on {many}, {base} and {cover}, only there's {f'a bit extra at {fins}' if not several else f'extra stuff at {fins}'}. So it's got {'fins' if several else 'a fin'}",
        ]
        seen = m.pick(
            f"{cover} that can see the {fin}", f"{cover} within sight of {'all the fins' if several else 'the fin'}"
        )
        return self.reasoned(m, w, clauses, heads, seen)

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        w = _Words(m)
        pivot, wings = w.cell(m.pivot, comma=False), w.cells(m.cells)
        first, second = (w.cell(cell, comma=False) for cell in m.cells)
        one, other, both = (w.digit(digit) for digit in m.plan.shared)
        rest = m.pick("both wings", "both of them") if m.says("name") else f"both {first} and {second}"
        if not m.says("name"):
            clauses = [
                f"if {pivot} is {one}, {first} is {both}, and if it's {other}, {second} is {both}",
                f"{pivot} is {one} or {other}, and that makes either {first} or {second} {_article(both)}",
                f"whatever {pivot} turns out to be, {one} or {other}, we'll get {_article(both)} in {first} or {second}",
            ]
            heads = [
                f"what's {pivot}? If it's {one}, then {first} is {both}. If it's {other}, then {second} is {both}",
                f"try both in {pivot}. With {one}, {first} becomes {both}; with {other}, {second} becomes {both}",
                f"either {first} or {second} has to be {both}. Why? Because {pivot} is {one} or {other}",
            ]
            return self.reasoned(m, w, clauses, heads, rest)
        clauses = [
            f"there's an XY-wing with its pivot at {pivot} and its wings at {wings}",
            f"{pivot} is the pivot of an XY-wing, and {wings} are the wings",
            f"{wings} are the wings of an XY-wing on {both}, with {pivot} for a pivot",
            f"we've got an XY-wing: {pivot} in the middle, {wings} on the sides",
        ]
        heads = [
            f"XY-wing! Stand on {pivot}, that's your pivot, and look at {wings}, those are your wings",
            f"want to see an XY-wing? Pivot, {pivot}. Wings, {wings}. And it's all about the {both}",
            f"start at {pivot}. It's the pivot of an XY-wing, {one} to {first}, {other} to {second}",
        ]
        return self.reasoned(m, w, clauses, heads, rest)

    def xy_chain(self, m: Matter) -> str:
        w = _Words(m)
        cells = [w.cell(cell, comma=False) for cell in m.cells]
        digits = [w.digits([digit]) for digit in m.digits]
        first, last, end = cells[0], cells[-1], digits[0]
        rest = m.pick("both ends", "both ends of the chain", f"both {first} and {last}")
        if m.says("name"):
            path = f"{end}, " + ", ".join(f"{cell}, {digit}" for cell, digit in zip(cells, digits[1:]))
            dashed = f"{m.digits[0]}-" + "-".join(f"c{c % 9 + 1}r{c // 9 + 1}-{d}" for c, d in zip(m.cells, m.digits[1:]))
            route = m.pick(path, dashed)
            heads = [
                f"here's an XY-chain for you: {route}",
                f"there's an XY-chain on {end} from {first} to {last}. It goes {route}",
                f"ready for an XY-chain? {route}. So {end} is at one end or the other",
                f"follow the XY-chain with me, {route}",
                f"{first} and {last} are the ends of an XY-chain on {end}, and it runs {route}",
                f"what joins {first} to {last}? An XY-chain, {route}",
            ]
            return self.reasoned(m, w, [], heads, rest)
        turns = [f"{cell} is {digit}" for cell, digit in zip(cells[1:], digits[2:])]
        return self.reasoned(
            m,
            w,
            [],
            [
                f"if {first} isn't {end}, it's {digits[1]}, so {', so '.join(turns)}. One end or the other is {end}",
                f"what if {first} is not {end}? Then it's {digits[1]}, and {', and then '.join(turns)}",
                f"say {first} isn't {end}. It'd be {digits[1]}. Then {'. Then '.join(turns)}. So it's {end} in {first} or {last}",
                f"{first} is either {end}, and we're happy, or it's {digits[1]}. And then {', then '.join(turns)}",
                f"take the {end} out of {first}, just to see. It's {digits[1]}, which means {', which means '.join(turns)}",
                f"either {first} or {last} is {end}. How come? If {first} isn't, it's {digits[1]}, then {', then '.join(turns)}",
            ],
            rest,
        )

    def x_chain(self, m: Matter) -> str:
        w = _Words(m)
        digit = m.digits[0]
        d, a, many = w.digit(digit), w.a(digit), w.plural(digit)
        cells = [w.cell(cell, comma=False) for cell in m.cells]
        first, last = cells[0], cells[-1]
        rest = m.pick("both ends", "both ends of the chain", f"both {first} and {last}")
        if m.says("name"):
            route = m.pick(", then ".join(cells), ", ".join(cells), " to ".join(cells))
            heads = [
                f"there's an X-chain on {many}: {route}",
                f"who's for an X-chain? The number's {d}, and we go {route}",
                f"the {many} make an X-chain, {route}",
                f"X-chain on {d}! Start at {first}, then {', '.join(cells[1:-1])}, and finish at {last}",
                f"hop along the {many} with me: {route}. That's an X-chain",
                f"an X-chain on {d} takes us from {first} to {last}, by way of {listed(cells[1:-1])}",
            ]
            return self.reasoned(m, w, [], heads, rest)
        pairs = [*zip(cells[::2], cells[1::2], m.plan.ways)]
        strong = [f"{one} or {two} is the {d} in their {KINDS[way]}" for one, two, way in pairs]
        turns = [f"it's in {two}, the only other place in that {KINDS[way]}" for _, two, way in pairs]
        hops = [f"it's not in {one}, so {turn}" if at else turn for at, ((one, *_), turn) in enumerate(zip(pairs, turns))]
        heads = [
            f"{', and '.join(strong)}. So {first} or {last} has to be {a}",
            f"think about {many}. Either {', and either '.join(strong)}. One of {first} and {last} must be {a}, then",
            f"where's the {d}? If it's not in {first}, {'. Then '.join(hops)}",
            f"suppose {first} isn't {a}. Then {'; then '.join(hops)}. So it's {first} or {last}",
            f"{first} or {last} is {a}, and here's why: {', and '.join(strong)}",
            f"if {first} isn't {d}, then {', and then '.join(hops)}",
        ]
        return self.reasoned(m, w, [], heads, rest)

    def chain(self, m: Matter) -> str:
        w = _Words(m)
        (first, supposed, digit), *others = m.links
        start, d, a = w.cell(first, comma=False), w.digit(digit), w.a(digit)
        steps: list[str] = []
        last = first
        for cell, holds, other in others:
            name = "it" if cell == last else w.cell(cell, comma=False)
            verb = m.pick("is", "must be", "has to be") if holds else m.pick("isn't", "can't be")
            steps.append(f"{name} {verb} {m.pick(w.digit(other), w.a(other))}")
            last = cell
        isnt, is_ = ("", "is") if supposed else ("not ", "isn't")
        told = m.pick(
            f"what if {start} is {isnt}{a}? Then {', then '.join(steps)}",
            f"suppose {start} {is_} {d}. Then {'. Then '.join(steps)}",
            f"if {start} is {isnt}{d}, {', so '.join(steps)}",
            f"follow me here: {start} {is_} {d}, okay? {'. So '.join(steps)}",
            f"let's imagine {start} is {isnt}{a}. That means {', which means '.join(steps)}",
            f"say {start} is {isnt}{a}: {listed(['then ' + steps[0], *steps[1:]], 'and so')}",
        )
        cell, holds, end = m.links[-1]
        if (cell, end) == (first, digit) and holds != supposed:
            told += m.pick(
                ". But hang on, that can't be", ", and that's impossible", ". Oops! We've tripped over ourselves", ""
            )
            if m.plan.natural:
                verdict = m.pick(f"{start} isn't {a}", f"{start} can't be {a} after all") if supposed else f"{start} is {a}"
                return f"{told}. {m.pick('So', 'That tells us')} {verdict}"
        return self.reasoned(m, w, [], [told], m.pick("both ends", "both ends of it"))

    def facts(self, m: Matter) -> str:
        w = _Words(m)
        words = listed([self._cited(m, w, of) for of in m.cited])
        these, them = ("these", "them") if len(m.cited) > 1 else ("this", "it")
        effects = self.effects(m, w)
        return m.pick(
            f"just look at {words}. {effects}",
            f"think about {words}, and you'll see that {effects}",
            f"what does {words} tell us? That {effects}"
            if them == "it"
            else f"what do {words} tell us together? That {effects}",
            f"{effects}. How do I know? From {words}, whichever way {'it goes' if them == 'it' else 'they go'}",
            f"go through the options for {words}. Every time, {effects}",
            f"keep your eye on {words}. With {these} alone we know that {effects}",
            f"{effects}, and all you need for that is {words}",
        )

    def _cited(self, m: Matter, w: _Words, of: int | tuple[int, House]) -> str:
        if isinstance(of, int):
            return w.cell(of, comma=False)
        digit, house = of
        return f"{m.pick('', '', 'the spot for ')}the {w.digit(digit)} in {w.house(house)}"

    def bare(self, m: Matter) -> str:
        effects = self.effects(m, _Words(m))
        return m.pick(
            effects,
            f"and now {effects}",
            f"I'll let you work out why, but {effects}",
            f"can you see that {effects}?",
            f"oh, and {effects}",
            f"next up, {effects}",
            f"here {effects}",
        )

    def reasoned(self, m: Matter, w: _Words, clauses: list[str], heads: list[str], rest: str) -> str:
        """The pattern and its effects. ``clauses`` bear a because before them; ``heads`` only stand first."""
        so = self.hinted(m, w, rest) if m.plan.natural else self.effects(m, w)
        chosen = m.pick(*clauses, *heads)
        if chosen in clauses:
            return m.pick(
                f"{chosen}, so {so}",
                f"{chosen}. So {so}",
                f"{chosen}, which means {so}",
                f"{chosen}. That tells us {so}",
                f"since {chosen}, {so}",
                f"see how {chosen}? Well, {so}",
                *(
                    []
                    if m.plan.natural or len(m.effects) > 2
                    else [f"{so}, because {chosen}", f"{so}. Why? Because {chosen}"]
                ),
            )
        return m.pick(
            f"{chosen}. So {so}",
            f"{chosen}. {so}",
            f"{chosen}. And what does that do? {so}!",
            f"{chosen}, which means {so}",
        )

    def hinted(self, m: Matter, w: _Words, rest: str) -> str:
        """All that the pattern removes, without a name of a cell."""
        if m.name.startswith("hidden"):
            return m.pick(
                "they can't be anything else",
                "everything else comes out of those cells",
                f"whatever else was in {'both of them' if len(m.cells) == 2 else 'there'} is gone",
                f"{'both' if len(m.cells) == 2 else 'all'} of them lose their other candidates",
                "there's no room for any other number in there",
                f"you can clean up {'both' if len(m.cells) == 2 else 'all'} of those cells: no other candidates",
            )
        digits = m.plan.shared[-1:] or (m.digits[:1] if m.name.endswith("chain") else m.digits) or [m.links[0][2]]
        what, either, many = w.digits(digits), w.digits(digits, "or"), listed([w.plural(digit) for digit in digits])
        are = "is" if len(digits) == 1 else "are"
        if rest.startswith("both"):
            return m.pick(
                f"any cell that sees {rest} loses its {what}",
                f"nothing that sees {rest} can be {either}",
                f"the {many} come out of every cell that {rest} can see"
                if rest.startswith(("both e", "both w"))
                else f"no cell seen by {rest} can be {either}",
                f"{what} {are} gone from whatever sees {rest}",
                f"we can cross out {what} in anything that sees {rest}",
            )
        if "fin" in rest:
            return m.pick(
                f"the other cells in {rest} can't be {either}",
                f"{what} is gone from the other cells in {rest}",
                f"we lose the other {many} in {rest}",
            )
        return m.pick(
            f"no other cell in {rest} can be {either}",
            f"the rest of {rest} can't have any {many}",
            f"you can cross out the other {many} in {rest}",
            f"{what} {are} gone from everywhere else in {rest}",
            f"all the other {many} in {rest} come out",
            f"nobody else in {rest} gets to be {either}",
        )

    def effects(self, m: Matter, w: _Words) -> str:
        said = [self.effect(m, w, effect) for effect in m.effects]
        if len(said) == 1:
            return said[0]
        if len(said) == 2:
            return m.pick(", and ", ". Also, ", ", plus ").join(said)
        return m.pick(", and ".join(said), ". And ".join(said), f"{', '.join(said[:-1])}, and last of all {said[-1]}")

    def effect(self, m: Matter, w: _Words, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            return self._filled(m, w, effect)
        if isinstance(effect, Strike):
            return self._struck(m, w, effect)
        house, what, either = w.house(effect.house), w.digits(effect.digits), w.digits(effect.digits, "or")
        many = listed([w.plural(digit) for digit in effect.digits])
        return m.pick(
            f"no other cell in {house} can be {either}",
            f"the {many} come out of the rest of {house}",
            f"{what} {'is' if len(effect.digits) == 1 else 'are'} gone from everywhere else in {house}",
            f"the rest of {house} loses its {many}",
            f"we can cross out every other {either} in {house}",
            f"there can't be another {either} in {house}",
        )

    def _filled(self, m: Matter, w: _Words, put: Put) -> str:
        c, d, a = w.cell(put.cell), w.digit(put.digit), w.a(put.digit)
        return m.pick(
            f"{c} has got to be {a}",
            f"we get {a} in {c}",
            f"{c} is {d}",
            f"{a} drops right into {c}",
            f"the {d} goes in {c}",
            f"we can write {a} in {c}",
            f"it's {a} in {c}",
        )

    def _struck(self, m: Matter, w: _Words, strike: Strike) -> str:
        cells, what, either = w.cells(strike.cells), w.digits(strike.digits), w.digits(strike.digits, "or")
        several, many = len(strike.cells) > 1, len(strike.digits) > 1
        options = [
            f"{cells} can't be {either}",
            f"{cells} lose{'' if several else 's'} {what}",
            f"the {what} come{'' if many else 's'} out of {cells}",
            f"we can strike {what} from {cells}",
            f"{what} {'are' if many else 'is'} gone from {cells}",
            f"you can cross {what} out in {cells}",
            f"there's no {either} in {cells}",
            f"{what} can be removed from {cells}",
        ]
        if several and not many:
            options.append(f"{'neither' if len(strike.cells) == 2 else 'none'} of {cells} can be {w.a(strike.digits[0])}")
        live = m.board.digits[strike.cells[0]]
        left = [digit for digit in live if digit not in strike.digits]
        if len(m.effects) == 1 and not several and 2 <= len(left) < min(len(live), 4):
            options += [f"only {w.digits(left)} are left in {cells}", f"{cells} is left with just {w.digits(left)}"] * 2
        return m.pick(*options)

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        w = _Words(m)
        c, a = w.cell(m.put.cell), w.a(m.put.digit)
        return _spoken(
            m.pick(
                f"so that's {a} in {c}",
                f"{c}, {a}, done!",
                f"let's write that down: {c} is {a}",
                f"got that? {a} in {c}",
                f"okay, {c} is {a}",
                f"there it is, our {w.digit(m.put.digit)} in {c}",
            )
        )

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(rng.choice(HELLO), opens=True)
        yield Piece(rng.choice(BEFORE_WE_START))

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.16:
            yield Piece(rng.choice(ASIDES))

    def opens(self, rng: Random) -> bool:
        return rng.random() < 0.3

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(rng.choice(GOODBYE), opens=True)

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        vtt = rng.random() < 0.6
        cut = Captioned(
            vtt,
            width=rng.choice((32, 37, 42)),
            rows=rng.choice((1, 2, 2)),
            breath=rng.choice((0.2, 0.5, 0.8)),
            rate=3.1,
            voice="<v Host>" if vtt and rng.random() < 0.3 else "",
            numbered=rng.random() < 0.3,
        )
        return "vtt" if vtt else "srt", captions(pieces, cut, rng)


def _article(word: str) -> str:
    return f"{'an' if word.startswith(('8', 'eight', 'X')) else 'a'} {word}"


def _spoken(text: str) -> str:
    """Every sentence with a capital at its head, a cell's name aside, and a stop at its end."""
    sentences = re.split(r"(?<=[.?!]) +", text)
    return " ".join(map(opened, sentences)) + ("" if text.endswith((".", "?", "!")) else ".")


def _crossed(cell: int, m: Matter) -> bool:
    lines = {*m.houses, *m.cover}
    return House("r", cell // 9 + 1) in lines and House("c", cell % 9 + 1) in lines
