"""What a stretch of sentences may tell, by what it names and in which order, whatever words stand between.

Narrators have more ways to say a thing than a grammar of phrases has rules. Where the phrases give nothing that holds, the
names themselves are put together in every way that a pattern can be told by, with none left over; the board decides. Nothing is
ever held against a narrator from here: what is found this way either holds, or was not read.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from .clauses import REMOVALS, Clause, Piece, Sentence, parted
from .effects import removals
from .memory import Memory
from .mentions import Mention
from .patterns import FISHES, HIDDEN, NAKED, SIZE_WORDS, SIZES, once, put_by_turns, reason_of
from .reading import Reading
from .statements import Effect, Placement, Reason, Removal, Said, Slot, Step
from .suppositions import links
from .telling import Teller, placed_at
from .vocabulary import Cell, Geometry, House
from .words import Script

LONGEST = 22
"""Names in a stretch; a longer one is not put together."""

OPEN = {"REST", "SEE_BOTH", "PICTURE", "EVERYTHING", "SAME_HOUSES", "SAME_HOUSE"}
MIDWAY = {"FROM", "GONE", "BE", "PRONOUN", "PRONOUNS"}
"""Pieces of speech that no step begins with."""
UNFINISHED = {"FROM", "REMOVE", "TAKE", "ONLY", "IF", "NO", "FORCE", "PLACE"}
"""Pieces of speech that no step ends with."""
SUPPOSING = {"IF", "CHAIN_NAME", "EITHER", "LEADS"}
WIDEST = 26
"""Pieces of speech that one step is looked for in."""


@dataclass
class Stretch:
    """Pieces taken together, and the names among them, each with its place in ``pieces``."""

    pieces: Sequence[Piece]
    at: list[int] = field(init=False)
    names: list[Mention] = field(init=False)
    types: frozenset[str] = field(init=False)

    def __post_init__(self) -> None:
        self.at = [at for at, piece in enumerate(self.pieces) if piece.mention is not None]
        self.names = [piece.mention for piece in self.pieces if piece.mention is not None]
        self.types = frozenset(piece.type for piece in self.pieces)

    def named(self, kind: str, names: Sequence[Mention] | None = None) -> list[Said[Any]]:
        """Each cell, digit or house once, in the order in which they are named."""
        return once(said for name in (self.names if names is None else names) if name.kind == kind for said in name.values)

    def text(self, kind: str) -> str:
        """The words of the pieces of that type."""
        return " ".join(piece.text for piece in self.pieces if piece.type == kind)


class Gatherer:
    """Puts together what stretches of one narration name. ``words``: where each sentence begins and ends in the script."""

    def __init__(
        self, script: Script, sentences: Sequence[Sentence], words: Sequence[tuple[int, int]], geometry: Geometry
    ) -> None:
        self.script = script
        self.sentences = sentences
        self.words = words
        self.geometry = geometry
        self.pieces: list[Piece] = []
        self.sentence_of: list[int] = []
        self.clause_of: dict[int, int] = {}
        """Of each piece, by its identity, the number of its clause."""
        self.begins: list[int] = []
        """For each sentence, the place in ``pieces`` of its first piece; at the end, their number."""
        for number, sentence in enumerate(sentences):
            self.begins.append(len(self.pieces))
            if number and sentence is sentences[number - 1]:
                continue  # run-on speech counts one stretch of words as several sentences
            for clause in sentence.clauses:
                self.clause_of.update((id(piece), len(self.clause_of)) for piece in clause.pieces)
                self.pieces += clause.pieces
            self.sentence_of += [number] * (len(self.pieces) - len(self.sentence_of))
        self.begins.append(len(self.pieces))

    @property
    def whole(self) -> bool:
        """Are its sentences those that were written? Speech without full stops is parted by guess."""
        return self.script.punctuated

    def names(self, number: int) -> bool:
        """Does the sentence name a cell, a digit or a house, and not ask for it?"""
        sentence = self.sentences[number]
        return sentence.names and not sentence.asked

    def cells(self, number: int) -> set[Any]:
        """The cells that the sentence names."""
        told = (mention for clause in self.sentences[number].clauses for mention in clause.named("cells"))
        return {cell for mention in told for cell in mention.bare}

    def named(self, numbers: Iterable[int]) -> set[Any]:
        """The cells and digits that the sentences name, but for what the board shows already or is only looked at."""
        told = [
            clause for at in numbers for clause in self.sentences[at].clauses if not clause.has("ALREADY", "SEE", "SEE_BOTH")
        ]
        kinds = ("cells", "digits")
        return {value for clause in told for kind in kinds for mention in clause.named(kind) for value in mention.bare}

    def reading(self, numbers: tuple[int, ...]) -> Reading:
        """The sentences, as a reading that nothing was made of yet."""
        start, end = self.words[numbers[0]][0], self.words[numbers[-1]][1]
        text = self.script.text[start:end].replace("\n", " ")
        time = self.script.passage(start).time
        return Reading((), self.script.span(start, end), text, time, numbers, extent=(start, end))

    def told_apart(self, numbers: Sequence[int]) -> list[Reading]:
        """The readings of these sentences by themselves."""
        teller = Teller(self.script, self.geometry)
        back: list[int] = []
        for number in dict.fromkeys(numbers):
            if back and self.sentences[number] is self.sentences[back[-1]]:
                continue  # run-on speech counts one stretch of words as several sentences
            teller.tell(self.sentences[number])
            back += [number] * (len(teller.kinds) - len(back))
        teller.finish()
        readings = []
        for reading in teller.readings:
            own = tuple(dict.fromkeys(back[number] for number in reading.sentences))
            start, end = self.words[own[0]][0], self.words[own[-1]][1]
            readings.append(replace(reading, sentences=own, extent=(start, end)))
        return readings

    def windows(self, first: int, last: int) -> Iterator[tuple[int, int]]:
        """Stretches of pieces within the sentences from ``first`` to ``last`` that may be one step, the likelier first.

        Written sentences are whole; speech without full stops may begin and end anywhere.
        """
        if self.script.punctuated:
            for length in range(last - first, -1, -1):
                for begin in range(last - length, first - 1, -1):
                    if self.begins[begin] < self.begins[begin + length + 1]:
                        yield self.begins[begin], self.begins[begin + length + 1]
            return
        low, high = self.begins[first], self.begins[last + 1]
        for begin in range(low, high):
            if self.pieces[begin].type in MIDWAY:
                continue
            for end in range(min(high, begin + WIDEST), begin + 1, -1):
                if self.pieces[end - 1].type not in UNFINISHED:
                    yield begin, end

    def steps(self, begin: int, end: int) -> Iterator[Step]:
        """Every step that the pieces may tell, the likelier ones first."""
        stretch = Stretch(self.pieces[begin:end])
        if not stretch.names or len(stretch.names) > LONGEST:
            return
        last, first = self.sentence_of[end - 1], self.sentence_of[begin]
        span = self.script.span(*self.words[last])
        time = self.script.passage(self.words[first][0]).time
        seen: set[tuple[Any, ...]] = set()
        for effects, reason in self._told(stretch):
            if (effects, reason) in seen:
                continue
            seen.add((effects, reason))
            yield placed_at(Step(effects, reason), {"effect": span, "reason": span}, time)

    def _told(self, stretch: Stretch) -> Iterator[tuple[tuple[Effect, ...], Reason]]:
        removes = bool(stretch.types & REMOVALS)
        named = bool(stretch.types & {"SUBSET", "FISH", "XY_WING", "CHAIN_NAME", "LOCKED", "PIVOT", "WINGS", "FINS"})
        if not named:
            yield from self._placements(stretch)
        if removes or named or stretch.types & OPEN:
            yield from self._removals(stretch)

    # What is filled in

    def _placements(self, stretch: Stretch) -> Iterator[tuple[tuple[Effect, ...], Reason]]:
        houses = stretch.named("houses")
        digits = stretch.named("digits")
        cells = stretch.named("cells") or self._crossings(houses)
        if len(cells) != 1 or len(digits) != 1:
            return
        around = [house for house in houses if cells[0].value in self.geometry.cells_of[house.value]]
        for reason in _single_reasons(stretch, around, bool(houses)):
            yield (Placement(cells[0], digits[0]),), reason

    def _crossings(self, houses: Sequence[Said[House]]) -> list[Said[Cell]]:
        """``in row 4 only column 2 is left for it``."""
        rows = [said for said in houses if said.value.kind == "r"]
        columns = [said for said in houses if said.value.kind == "c"]
        return [Said(Cell(row.value.number, column.value.number), column.span) for row in rows for column in columns]

    # What is taken out

    def _removals(self, stretch: Stretch) -> Iterator[tuple[tuple[Effect, ...], Reason]]:
        names = stretch.names
        told = [at for at, piece in enumerate(stretch.pieces) if piece.type in REMOVALS | OPEN]
        verbs = [sum(name < at for name in stretch.at) for at in told]
        for begin, end in _ranges(len(names)):
            if not any(begin <= verb <= end for verb in verbs):
                continue
            outside = [*names[:begin], *names[end:]]
            if not outside:
                continue
            effects = self._effects(stretch, begin, end)
            if effects:
                for reason in self._reasons(stretch, outside):
                    yield effects, reason
                if stretch.types & SUPPOSING:
                    for reason in self._links(stretch, begin, end):
                        yield effects, reason

    def _links(self, stretch: Stretch, begin: int, end: int) -> Iterator[Reason]:
        """A chain told link by link in what does not belong to the effect."""
        low = stretch.at[begin] if begin < len(stretch.at) else len(stretch.pieces)
        high = stretch.at[end - 1] if end else -1
        clauses: dict[int, Clause] = {}
        for at, piece in enumerate(stretch.pieces):
            if not low <= at <= high and piece.type != "EITHER":
                clauses.setdefault(self.clause_of[id(piece)], Clause([])).pieces.append(piece)
        chains = links([*clauses.values()])
        chain = max(chains, key=len, default=[])
        if len(chain) > 2:
            yield Reason(Said("chain"), (Slot("", tuple(chain)),))
            if len({link.value.cell for link in chain[:-1]}) == len(chain) - 1 and chain[0].value.cell == chain[-1].value.cell:
                yield Reason(Said("chain"), (Slot("", tuple(chain[:-1])),))

    def _effects(self, stretch: Stretch, begin: int, end: int) -> tuple[Effect, ...]:
        """What is taken away where the names in that range are the effect's."""
        if begin == end:
            return (Removal((), ()),) if stretch.types & OPEN else ()
        low = stretch.at[begin - 1] + 1 if begin else 0
        high = stretch.at[end] if end < len(stretch.at) else len(stretch.pieces)
        memory = Memory(self.geometry)
        memory.hear(Clause([*stretch.pieces[:low], *stretch.pieces[high:]]))
        pattern = {said.value for said in stretch.named("cells", [*stretch.names[:begin], *stretch.names[end:]])}
        found: list[Effect] = []
        for part in parted(list(stretch.pieces[low:high])):
            clause = Clause([piece for piece in part if piece.type not in ("LEAN", "FACT")])
            if not clause.has(*REMOVALS, *OPEN):
                return ()
            found += removals(clause, memory, pattern, set())
        return tuple(found)

    def _reasons(self, stretch: Stretch, names: Sequence[Mention]) -> Iterator[Reason]:
        cells, digits, houses = (stretch.named(kind, names) for kind in ("cells", "digits", "houses"))
        types = stretch.types
        if types & {"FISH", "FINS", "COVER", "BASE"}:
            yield from _fishes(stretch, cells, digits, houses)
        elif types & {"XY_WING", "PIVOT", "WINGS"}:
            yield from _wings(cells)
        elif "CHAIN_NAME" in types:
            yield from _chains(names, cells, digits)
        elif "SUBSET" in types:
            yield from self._subsets(stretch, cells, digits, houses)
        elif "LOCKED" in types:
            yield from _intersections(stretch, digits, houses)
        else:
            yield from _intersections(stretch, digits, houses) if not cells or len(digits) == 1 else ()
            yield from self._subsets(stretch, cells, digits, houses)
            yield from _fishes(stretch, cells, digits, houses)
            yield from _wings(cells)
            if types & SUPPOSING:
                yield from _chains(names, cells, digits)

    def _subsets(
        self, stretch: Stretch, cells: Sequence[Said[Cell]], digits: Sequence[Said[int]], houses: Sequence[Said[House]]
    ) -> Iterator[Reason]:
        words = stretch.text("SUBSET").split()
        size = next((SIZE_WORDS[word] for word in words if word in SIZE_WORDS), len(digits) or len(cells))
        if size not in SIZES or {len(cells), len(digits)} - {0, size} or not (cells or digits):
            return
        ways = ["naked", "hidden"]
        if any(word in NAKED for word in words):
            ways = ["naked"]
        elif any(word in HIDDEN for word in words):
            ways = ["hidden"]
        around = [house for house in houses if {said.value for said in cells} <= set(self.geometry.cells_of[house.value])]
        if houses and not around:
            return
        for way in ways:
            for in_ in [[house] for house in around] or [[]]:
                yield reason_of(f"{way} {SIZES[size]}", bare=digits, at=cells, in_=in_)


def _ranges(count: int) -> Iterator[tuple[int, int]]:
    """Of ``count`` names, those of the effect: at the end, at the beginning, then between; the longest last."""
    for begin in range(count, 0, -1):
        yield begin, count
    for end in range(1, count):
        yield 0, end
    for length in range(1, count - 1):
        for begin in range(count - 1 - length, 0, -1):
            yield begin, begin + length


def _single_reasons(stretch: Stretch, around: Sequence[Said[House]], housed: bool) -> Iterator[Reason]:
    by_digit = bool(stretch.types & {"ONLY_DIGIT", "ALL_ELSE"}) and "ONLY_PLACE" not in stretch.types
    hidden = [reason_of("hidden single", in_=[house]) for house in around]
    last = [reason_of("last cell", in_=[house]) for house in around]
    if not housed or (by_digit and not around):
        hidden, last = [reason_of("hidden single")], [reason_of("last cell")]
    naked = [] if "ONLY_PLACE" in stretch.types and "ONLY_DIGIT" not in stretch.types else [reason_of("naked single")]
    yield from (*naked, *hidden, *last) if by_digit else (*hidden, *last, *naked)


def _intersections(stretch: Stretch, digits: Sequence[Said[int]], houses: Sequence[Said[House]]) -> Iterator[Reason]:
    boxes = [said for said in houses if said.value.kind == "b"]
    lines = [said for said in houses if said.value.kind != "b"]
    if len(digits) != 1 or len(boxes) > 1 or len(lines) > 1 or not (boxes or lines):
        return
    text = stretch.text("LOCKED")
    pointing = reason_of("pointing", bare=digits, in_=boxes, along=lines)
    claiming = reason_of("claiming", bare=digits, in_=lines, within=boxes)
    if "claim" in text:
        yield claiming
    elif "point" in text:
        yield pointing
    else:
        yield from (pointing, claiming) if houses[0].value.kind == "b" else (claiming, pointing)


def _fishes(
    stretch: Stretch, cells: Sequence[Said[Cell]], digits: Sequence[Said[int]], houses: Sequence[Said[House]]
) -> Iterator[Reason]:
    rows = [said for said in houses if said.value.kind == "r"]
    columns = [said for said in houses if said.value.kind == "c"]
    text = stretch.text("FISH").replace(" ", "")
    size = next(
        (size for word, size in (("wing", 2), ("sword", 3), ("jelly", 4)) if word in text), max(len(rows), len(columns))
    )
    if len(digits) != 1 or size not in FISHES or {len(rows), len(columns)} - {0, size} or not (rows or columns):
        return
    finned = text.startswith(("fin", "sashimi")) or "FINS" in stretch.types
    if cells and not finned:
        return
    name, fins = (f"finned {FISHES[size]}", {"fins": cells}) if finned else (FISHES[size], {})
    first_row = not columns or (bool(rows) and houses.index(rows[0]) < houses.index(columns[0]))
    for base, cover in ((rows, columns), (columns, rows)) if first_row else ((columns, rows), (rows, columns)):
        yield reason_of(name, on=digits, in_=base, cover=cover, **fins)


def _wings(cells: Sequence[Said[Cell]]) -> Iterator[Reason]:
    if len(cells) == 3:
        for at in range(3):
            yield reason_of("xy-wing", pivot=[cells[at]], wings=[*cells[:at], *cells[at + 1 :]])


def _chains(names: Sequence[Mention], cells: Sequence[Said[Cell]], digits: Sequence[Said[int]]) -> Iterator[Reason]:
    if len(digits) == 1 and len(cells) >= 4 and len(cells) % 2 == 0:
        yield reason_of("x-chain", on=digits, colon=cells)
    order = [said for name in names if name.kind != "houses" for said in name.values]
    if len(cells) > 2:
        yield reason_of("xy-chain", bare=put_by_turns(order) or cells)
        yield reason_of("xy-chain", bare=cells)
