"""The steps that names can stand for, by their order alone: what is left unsaid by the words is asked of the board.

Narrators have more ways to say a thing than a grammar of phrases has rules. Where the phrases give nothing that holds, every
run of the names is tried as what a step does, and the others as the pattern that shows it. Only what could be true is looked
into: the digits and cells of an effect have to be on the board, and no solution may speak against it. So most words that deny
or affirm need not be known: of "it is 5" and "it is not 5" one is false.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise, product
from typing import Any, Protocol

from .clauses import PLACEMENTS, REMOVALS, Clause, Piece
from .crossings import meeting
from .following import Chain, followed
from .memory import KIND_WORDS, Memory
from .mentions import Mention
from .patterns import FISHES, HIDDEN, NAKED, SIZE_WORDS, SIZES, facts_of, once, put_by_turns, reason_of
from .statements import Effect, Link, Placement, Reason, Removal, RestOf, Said, Slot
from .suppositions import links
from .vocabulary import Cell, Geometry, House

LONGEST = 40
"""Names in a stretch; a longer one is not put together."""

OPEN = frozenset({"REST", "SEE_BOTH", "PICTURE", "EVERYTHING", "SAME_HOUSES", "SAME_HOUSE"})
SUPPOSING = frozenset({"IF", "EITHER", "CHAIN_NAME"})
PATTERNS = frozenset({"SUBSET", "FISH", "XY_WING", "CHAIN_NAME", "LOCKED", "PIVOT", "WINGS", "FINS"})
KEPT = re.compile(
    r"\b(only|alone|keep|keeps|kept|keeping|left|leave|leaves|leaving|remain|remains|remaining|survive|survives|surviving|"
    r"nothing but|no more than|all but|but|except|down to|reduced|retain|retains|stay|stays|still|restricts?|just|cut)\b",
    re.I,
)
"""Words of which one stands where an effect is told by the candidates that it leaves."""
REST = re.compile(r"\b(rest|others?|else\w*|remain\w*|outside|beyond|any\w*|every\w*|all|whole|entire)\b", re.I)
"""Words of which one stands where digits go from a house."""
WHY = re.compile(r"\b(because|since|as|for|after|while|whereas|given|thanks|due|owing)\b", re.I)
"""Words of which one stands where what shows a thing is told after it."""
LOCKING = re.compile(r"\b(pointing|claiming|locked)\b")
FEW = 2
"""Cells beside which a single is looked for before anything else."""
MOST_FACTS = 4
"""Facts that names are taken for; more of them prove so much that it may not be what was meant."""
NUMERAL = re.compile(r"\b(one|two|three|four|eight)\b", re.I)
"""Words that count or stand for a cell as often as they are digits."""


class Sight(Protocol):
    """What can be asked of the board that the names are of."""

    def candidates(self, cell: Cell) -> Collection[int]:
        """The digits that the cell may still hold; a filled cell's digit alone."""
        ...

    def possible(self, effect: Effect) -> bool:
        """Would the effect change the board, and is it true of its solution, as far as both are said?"""
        ...

    def leads(self, before: Link, after: Link) -> bool:
        """Does the one follow from the other, by the rules and one fact of the board?"""
        ...


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
        types = {piece.type for piece in self.pieces}
        if not LOCKING.search(self.text("LOCKED")):
            types.discard("LOCKED")  # "this points to r1c1", "so I claim": words of every day
        self.types = frozenset(types)

    def text(self, kind: str) -> str:
        """The words of the pieces of that type."""
        return " ".join(piece.text for piece in self.pieces if piece.type == kind)

    def between(self, begin: int, end: int) -> tuple[int, int]:
        """From which to before which piece nothing else is named than the names from ``begin`` to ``end``."""
        low = self.at[begin - 1] + 1 if begin else 0
        high = self.at[end] if end < len(self.at) else len(self.pieces)
        return low, high

    def without(self, dropped: Collection[int]) -> Stretch:
        """The same without the names of those numbers."""
        gone = {self.at[number] for number in dropped}
        return Stretch([piece for at, piece in enumerate(self.pieces) if at not in gone])


Told = tuple[tuple[Effect, ...], Reason]


def named(kind: str, names: Iterable[Mention]) -> list[Said[Any]]:
    """Each cell, digit or house once, in the order in which they are named."""
    return once(said for name in names if name.kind == kind for said in name.values)


@dataclass(frozen=True)
class Names:
    """The names of a stretch that tell its pattern, in order."""

    mentions: tuple[Mention, ...]

    @property
    def cells(self) -> list[Said[Cell]]:
        """Each cell once."""
        return named("cells", self.mentions)

    @property
    def digits(self) -> list[Said[int]]:
        """Each digit once."""
        return named("digits", self.mentions)

    @property
    def houses(self) -> list[Said[House]]:
        """Each house once."""
        return named("houses", self.mentions)

    @property
    def order(self) -> list[Said[Any]]:
        """All that is named, as often as it is."""
        return [said for name in self.mentions for said in name.values]


class Assembler:
    """Puts names together to steps on one board."""

    def __init__(self, geometry: Geometry, sight: Sight, spoken: bool = False) -> None:
        self.geometry = geometry
        self.sight = sight
        self.spoken = spoken
        """Is it speech without full stops? Its sentences are a guess, and more is left to the names."""
        self.chains: dict[tuple[Mention, ...], Chain] = {}
        """The chain that the board finds in these names."""

    def steps(self, stretch: Stretch, words: str) -> Iterator[Told]:
        """Every step that the stretch may tell, the likelier ones first. ``words``: its own."""
        seen: set[Told] = set()
        crossed = _crossed(stretch)
        for part in (*_variants(stretch), *(_variants(crossed) if crossed is not None else ())):
            if not part.names or len(part.names) > LONGEST:
                continue
            for told in self._told(part, words):
                if told not in seen:
                    seen.add(told)
                    yield told

    def _told(self, stretch: Stretch, words: str) -> Iterator[Told]:
        single = [] if stretch.types & PATTERNS else [*self._singles(stretch, words)]
        plain = single and len(named("cells", stretch.names)) <= FEW and not stretch.types & {"IF", "REST"}
        if plain:
            yield from single
        ways: list[tuple[int, tuple[Effect, ...], int, int]] = []
        for begin, end in _ranges(len(stretch.names)):
            ways += ((_weight(effects), effects, begin, end) for effects in self._effects(stretch, begin, end, words))
        ways.sort(key=lambda way: -way[0])  # stable: of two that say as much, the likelier place of an effect first
        for _, effects, begin, end in ways:
            outside = Names((*stretch.names[:begin], *stretch.names[end:]))
            if outside.mentions:
                for reason in self._reasons(stretch, outside):
                    if not (_unsaid(effects) and _placing(stretch, reason)):
                        yield effects, reason
                for names in self._without_witnesses(outside, effects) if _removes_all(effects) else ():
                    for reason in self._reasons(stretch, names, several=True):
                        if reason.name.value.split()[0] in ("pointing", "claiming", "naked", "hidden"):
                            yield effects, reason
                for reason in self._links(stretch, begin, end):
                    yield effects, reason
                for reason in self._followed(stretch, begin, end):
                    undone = _undoing(effects, reason)
                    if all(isinstance(effect, Removal) and effect.cells for effect in undone):
                        yield undone, reason
        if not plain:
            yield from single

    def _without_witnesses(self, names: Names, effects: Sequence[Effect]) -> Iterator[Names]:
        """The names without those that only say why others are not in question, where a pattern is left.

        ``Box 7 needs a 4: r7c3 and r8c1 see that at r2c3, and row 9 has one``: cells that have a digit or cannot hold the one
        that goes, houses that have it, and digits that no other cell named may hold.
        """
        removed = {said.value for effect in effects if isinstance(effect, Removal | RestOf) for said in effect.digits}
        (digit,) = removed if len(removed) == 1 else (None,)
        kept: list[Mention] = []
        for name in names.mentions:
            values = name.values
            if name.kind == "cells":
                values = tuple(said for said in values if len(self.sight.candidates(said.value)) > 1)
                if digit is not None:
                    values = tuple(said for said in values if digit in self.sight.candidates(said.value))
            elif name.kind == "houses" and digit is not None:
                values = tuple(said for said in values if not self._has(said.value, digit))
            kept.append(replace(name, values=values))
        cells = [cell for name in kept if name.kind == "cells" for cell in name.bare]
        may_hold = {held for cell in cells for held in self.sight.candidates(cell)}
        if may_hold:
            kept = [
                replace(name, values=tuple(said for said in name.values if said.value in may_hold))
                if name.kind == "digits"
                else name
                for name in kept
            ]
        left = Names(tuple(name for name in kept if name.values))
        if left.mentions and [name.bare for name in left.mentions] != [name.bare for name in names.mentions]:
            yield left
        lines = [said.value for said in left.houses]
        if digit is not None and len(lines) == 2 and left.cells:
            # "Column 3 has its 7 at r7c3 or r8c3, inside box 7": the cells are those of both
            both = {cell for cell in self.geometry.cells_of[lines[0]] if cell in self.geometry.cells_of[lines[1]]}
            if both and {said.value for said in left.cells} <= both:
                yield Names(tuple(name for name in left.mentions if name.kind != "cells"))

    # What is filled in for a single

    def _singles(self, stretch: Stretch, words: str) -> Iterator[Told]:
        names = Names(tuple(stretch.names))
        houses, digits = names.houses, names.digits
        cells = names.cells or _crossings(houses)
        pairs = [
            (cell, digit)
            for cell, digit in product(cells, digits)
            if all(self._no_room(other.value, digit.value) for other in cells if other.value != cell.value)
            and (
                all(other.value not in self.sight.candidates(cell.value) for other in digits if other.value != digit.value)
                or (self.spoken and _side_by_side(stretch.names, cell.value, digit.value))
            )
            and self.sight.possible(Placement(cell, digit))
        ]
        # What else is named has to speak for it: cells that cannot hold the digit, digits that the cell cannot hold.
        if len(pairs) != 1:
            return
        ((cell, digit),) = pairs
        around = [house for house in houses if cell.value in self.geometry.cells_of[house.value]]
        elsewhere = [house for house in houses if house not in around and not self._has(house.value, digit.value)]
        told = named("cells", stretch.names)
        last_or_why = not told or cell.value in (told[-1].value, told[0].value if WHY.search(words) else None)
        if (elsewhere and not around) or len(elsewhere) > 1 or not last_or_why:
            return  # another cell, or houses elsewhere, that the words put it in
        for reason in _single_reasons(stretch, around, bool(around or elsewhere)):
            yield (Placement(cell, digit),), reason

    def _no_room(self, cell: Cell, digit: int) -> bool:
        """Can the digit not be put in the cell, because another is all that it can be, or because it is there already?"""
        candidates = tuple(self.sight.candidates(cell))
        return digit not in candidates or (self.spoken and candidates == (digit,))

    def _has(self, house: House, digit: int) -> bool:
        """Does the house have the digit, so that it bears witness: ``row 3 already owns a 6``?"""
        return any(tuple(self.sight.candidates(cell)) == (digit,) for cell in self.geometry.cells_of[house])

    # What a range of names does

    def _effects(self, stretch: Stretch, begin: int, end: int, words: str) -> Iterator[tuple[Effect, ...]]:
        """What is done where the names in that range are the effect's, as far as it is possible."""
        if begin == end:
            if stretch.types & (OPEN | PATTERNS | REMOVALS):
                yield (Removal((), ()),)
            return
        low, high = stretch.between(begin, end)
        pieces = stretch.pieces[low:high]
        types = {piece.type for piece in pieces}
        outside = Names((*stretch.names[:begin], *stretch.names[end:]))
        groups = self._groups(pieces, [*stretch.pieces[:low], *stretch.pieces[high:]], outside)
        makers: list[Callable[[Part], tuple[Effect, ...]]] = []
        if not types & REMOVALS or types & PLACEMENTS:
            makers.append(_placed)
        if types & (REMOVALS | OPEN) or not types & {"PLACE", "FORCE"}:
            makers += [_removed, _by_turns]
        if KEPT.search(words):
            makers.append(self._kept)
        kinds = {kind for kind, _ in groups}
        if kinds and "cells" not in kinds and types & (REMOVALS | OPEN) and "digits" in kinds:
            yield (Removal((), once_of(said for kind, values in groups for said in values if kind == "digits")),)
        if kinds == {"cells"}:
            groups = [*groups, ("digits", ())]
        told = [groups, *([less] if len(less := _around(groups)) < len(groups) else [])]
        for maker, way in product(makers, told):
            if maker is _removed or all(kind != "houses" for kind, _ in way):
                effects = self._told_in_parts(way, maker)
                if effects and (REST.search(words) or not any(isinstance(effect, RestOf) for effect in effects)):
                    yield effects

    def _told_in_parts(self, groups: Sequence[Group], maker: Callable[[Part], tuple[Effect, ...]]) -> tuple[Effect, ...]:
        """The effects of all the groups, put together part by part so that each is possible; nothing where they cannot be."""
        found: dict[int, tuple[tuple[Effect, ...], tuple[Said[Any], ...]]] = {0: ((), ())}
        for begin in range(len(groups)):
            if begin not in found:
                continue
            effects, before = found[begin]
            for end, part in _parts(groups, begin, before):
                made = maker(part)
                if end not in found and made and all(map(self.sight.possible, made)):
                    found[end] = (*effects, *made), part[1]
        return found.get(len(groups), ((), ()))[0]

    def _groups(self, pieces: Sequence[Piece], others: list[Piece], outside: Names) -> list[Group]:
        """Kinds and values of what the pieces name in turn, ``the same row`` among it."""
        groups: list[Group] = []
        memory = Memory(self.geometry)
        memory.hear(Clause(others))
        for piece in pieces:
            if piece.mention is not None:
                kind, values = piece.mention.kind, piece.mention.values
            elif piece.type == "SAME_HOUSE":
                house = memory.same_house(piece.text, tuple(said.value for said in outside.cells))
                if house is None:
                    continue
                kind, values = "houses", (Said(house),)
            else:
                continue
            groups.append((kind, values))
        return groups

    def _kept(self, part: Part) -> tuple[Effect, ...]:
        """``r1c1 keeps only 2 and 6``: all else goes from it."""
        effects: list[Effect] = []
        kept = {said.value for said in part[1]}
        for cell in (said for kind, values in part[0] if kind == "cells" for said in values):
            live = set(self.sight.candidates(cell.value))
            gone = tuple(Said(digit, cell.span) for digit in sorted(live - kept))
            if len(kept) < 2 or not gone or not kept & live:
                return ()
            effects.append(Removal((cell,), gone))
        return tuple(effects)

    # What shows it

    def _reasons(self, stretch: Stretch, names: Names, *, several: bool = False) -> Iterator[Reason]:
        """What the names may be. ``several``: of more lines and boxes than one, any two may be those of an intersection."""
        types = stretch.types
        if types & {"FISH", "FINS", "COVER", "BASE"}:
            yield from _fishes(stretch, names)
        elif types & {"XY_WING", "PIVOT", "WINGS"}:
            yield from self._wings(names.cells)
        elif "CHAIN_NAME" in types:
            yield from self._chains(names)
        elif "SUBSET" in types:
            yield from self._subsets(stretch, names)
        else:
            if not names.cells or "LOCKED" in types:
                yield from _intersections(stretch, names, several)
            if "LOCKED" not in types:
                if names.cells and names.digits:
                    yield from self._subsets(stretch, names)
                yield from _fishes(stretch, names)
                yield from self._wings(names.cells)
                yield from self._chains(names)
                yield from _facts(names)

    def _subsets(self, stretch: Stretch, names: Names) -> Iterator[Reason]:
        cells, digits = names.cells, names.digits
        words = stretch.text("SUBSET").split()
        size = next((SIZE_WORDS[word] for word in words if word in SIZE_WORDS), len(digits) or len(cells))
        if size not in SIZES or {len(cells), len(digits)} - {0, size} or not (cells or digits):
            return
        ways = ["naked", "hidden"]
        if any(word in NAKED for word in words):
            ways = ["naked"]
        elif any(word in HIDDEN for word in words):
            ways = ["hidden"]
        around = [house for house in names.houses if {said.value for said in cells} <= set(self.geometry.cells_of[house.value])]
        if names.houses and not around:
            return
        for way in ways:
            for in_ in [[house] for house in around] or [[]]:
                yield reason_of(f"{way} {SIZES[size]}", bare=digits, at=cells, in_=in_)

    def _wings(self, cells: Sequence[Said[Cell]]) -> Iterator[Reason]:
        for at in range(3) if len(cells) == 3 else ():
            pivot, wings = cells[at], [*cells[:at], *cells[at + 1 :]]
            if all(wing.value in self.geometry.peers[pivot.value] for wing in wings):
                yield reason_of("xy-wing", pivot=[pivot], wings=wings)

    def _chains(self, names: Names) -> Iterator[Reason]:
        cells, digits = names.cells, names.digits
        if len(digits) == 1 and len(cells) == 4:
            # "Row 3 has two places, r3c1 and r3c7; column 8 has r4c8 and r1c8": in whatever order each pair is told
            for one, other in product((cells[:2], cells[1::-1]), (cells[2:], cells[:1:-1])):
                if self._linked([*one, *other]):
                    yield reason_of("x-chain", on=digits, colon=[*one, *other])
        if len(cells) < 3 or not self._linked(cells):
            return
        if len(digits) == 1 and len(cells) >= 4 and len(cells) % 2 == 0:
            yield reason_of("x-chain", on=digits, colon=cells)
        order = [said for said in names.order if not isinstance(said.value, House)]
        yield reason_of("xy-chain", bare=put_by_turns(order) or cells)
        yield reason_of("xy-chain", bare=cells)

    def _linked(self, cells: Sequence[Said[Cell]]) -> bool:
        """Does each cell see the next, or is it the same?"""
        peers = self.geometry.peers
        return all(one.value == other.value or other.value in peers[one.value] for one, other in pairwise(cells))

    def _links(self, stretch: Stretch, begin: int, end: int) -> Iterator[Reason]:
        """A chain told link by link in what does not belong to the effect.

        Piece by piece: clause by clause more chains are found, of which too many are sentences of singles.
        """
        low = stretch.at[begin] if begin < len(stretch.at) else len(stretch.pieces)
        high = stretch.at[end - 1] if end > begin else -1
        told = [Clause([piece]) for at, piece in enumerate(stretch.pieces) if at < low or at > high]
        concluded = next((at for at, clause in enumerate(told) if at > 1 and clause.has("EITHER")), len(told))
        del told[concluded:]
        for chain in (max(links(told), key=len, default=[]), _in_turn(told, True), _in_turn(told, False)):
            if len(chain) > 2 and self._linked([Said(link.value.cell) for link in chain]):
                yield Reason(Said("chain"), (Slot("", tuple(chain)),))
                if chain[0].value.cell == chain[-1].value.cell:
                    yield Reason(Said("chain"), (Slot("", tuple(chain[:-1])),))

    def _followed(self, stretch: Stretch, begin: int, end: int) -> Iterator[Reason]:
        """A chain of what is named besides the effect, as the board has one link lead to the next."""
        if stretch.types & SUPPOSING and (end == len(stretch.names) or not begin):
            names = (*stretch.names[:begin], *stretch.names[end:])
            if names not in self.chains:
                self.chains[names] = followed(names, self.sight.leads)
            if self.chains[names]:
                yield Reason(Said("chain"), (Slot("", self.chains[names]),))


def _removes_all(effects: Sequence[Effect]) -> bool:
    """Is it said of every effect what goes, and from where?"""
    return all(
        isinstance(effect, Removal | RestOf) and effect.digits and (isinstance(effect, RestOf) or effect.cells)
        for effect in effects
    )


def _unsaid(effects: Sequence[Effect]) -> bool:
    """Is nothing said of what is done?"""
    return all(isinstance(effect, Removal) and not effect.cells and not effect.digits for effect in effects)


def _placing(stretch: Stretch, reason: Reason) -> bool:
    """Are digits put in cells, and no pair, triple or quad named that these could be?"""
    subset = reason.name.value.split()[0] in ("naked", "hidden") and "SUBSET" not in stretch.types
    return subset and bool(stretch.types & {"ONLY_PLACE", "PLACE", "FORCE", "LAST_CELL"})


def _undoing(effects: tuple[Effect, ...], reason: Reason) -> tuple[Effect, ...]:
    """The effects; where no cell is told of them and the chain refutes what it begins with, that this is undone."""
    (chain,) = (slot.values for slot in reason.slots)
    first, last = chain[0].value, chain[-1].value
    assert isinstance(first, Link) and isinstance(last, Link)
    refuted = last == first._replace(holds=not first.holds)
    refuted = refuted or (first.cell == last.cell and first.holds and last.holds and first.digit != last.digit)
    unsaid = all(isinstance(effect, Removal) and not effect.cells for effect in effects)
    if not (refuted and unsaid and first.holds):
        return effects
    return (Removal((Said(first.cell, chain[0].span),), (Said(first.digit, chain[0].span),)),)


def _variants(stretch: Stretch) -> Iterator[Stretch]:
    """The stretch, and then without the numerals that may count or mean a cell: ``only one``, ``these two``."""
    yield stretch
    counts = [
        number
        for number, name in enumerate(stretch.names)
        if name.kind == "digits" and len(name.values) == 1 and NUMERAL.fullmatch(stretch.pieces[stretch.at[number]].text)
    ]
    if counts:
        yield stretch.without(counts)
        ones = [number for number in counts if stretch.names[number].bare == (1,)]
        if ones and ones != counts:
            yield stretch.without(ones)


def _crossed(stretch: Stretch) -> Stretch | None:
    """The stretch with cells for lines that cross the one that is spoken of; None where there is no such line.

    ``For the rest of that row, column two isn't a nine, and column six isn't either``
    """
    pieces: list[Piece] = []
    known: dict[str, House | None] = {}
    spoken_of: House | None = None
    found = False
    for piece in stretch.pieces:
        mention = piece.mention
        if mention is not None and mention.kind == "cells":
            for kind, numbers in (("r", {cell.row for cell in mention.bare}), ("c", {cell.column for cell in mention.bare})):
                known[kind] = House(kind, *numbers) if len(numbers) == 1 else None
        elif piece.type == "SAME_HOUSE":
            kind = KIND_WORDS.get(piece.text.split()[-1], "")
            spoken_of = known.get(kind) or spoken_of
        elif mention is not None and mention.kind == "houses":
            kinds = {house.kind for house in mention.bare}
            if spoken_of is not None and kinds == {{"r": "c", "c": "r"}[spoken_of.kind]}:
                cells = tuple(Said(meeting(said.value, spoken_of), said.span) for said in mention.values)
                piece = replace(piece, type="CELLS", mention=replace(mention, kind="cells", values=cells))
                found = True
            elif len(mention.values) == 1 and mention.bare[0].kind != "b":
                known[mention.bare[0].kind] = mention.bare[0]
        pieces.append(piece)
    return Stretch(pieces) if found else None


def _ranges(count: int) -> Iterator[tuple[int, int]]:
    """Of ``count`` names, those of the effect: at the end, at the beginning, then between; the longest last."""
    for begin in range(count, 0, -1):
        yield begin, count
    for end in range(1, count):
        yield 0, end
    for length in range(1, count - 1):
        for begin in range(count - 1 - length, 0, -1):
            yield begin, begin + length


def _weight(effects: Sequence[Effect]) -> int:
    """How much is said of them: most by the claims that are spelt out."""
    weight = 0
    for effect in effects:
        if isinstance(effect, Placement):
            weight += 10
        elif isinstance(effect, Removal):
            weight += 9 * len(effect.cells) * len(effect.digits) + len(effect.digits)
        elif isinstance(effect, RestOf):
            weight += len(effect.digits)
    return weight


def _crossings(houses: Sequence[Said[House]]) -> list[Said[Cell]]:
    """``in row 4 only column 2 is left for it``."""
    rows = [said for said in houses if said.value.kind == "r"]
    columns = [said for said in houses if said.value.kind == "c"]
    return [Said(Cell(row.value.number, column.value.number), column.span) for row in rows for column in columns]


Group = tuple[str, tuple[Said[Any], ...]]
Part = tuple[tuple[Group, ...], tuple[Said[Any], ...]]
"""Targets, as cells or houses, and the digits that go with them."""


def _parts(groups: Sequence[Group], begin: int, before: tuple[Said[Any], ...]) -> Iterator[tuple[int, Part]]:
    """Where the first part of what is told from that place on ends, and the part: targets and their digits, in either order."""
    kinds = [kind == "digits" for kind, _ in groups]
    turn = begin
    while turn < len(groups) and kinds[turn] == kinds[begin]:
        turn += 1
    after = turn
    while after < len(groups) and kinds[after] != kinds[begin]:
        after += 1
    for end in range(after, turn, -1):
        first, second = tuple(groups[begin:turn]), tuple(groups[turn:end])
        targets, digits = (second, first) if kinds[begin] else (first, second)
        yield end, (targets, once_of(said for _, values in digits for said in values))
    if before and not kinds[begin]:
        for end in range(turn, begin, -1):
            yield end, (tuple(groups[begin:end]), before)  # "3 from r1c1, and from r2c2 too"


def _placed(part: Part) -> tuple[Effect, ...]:
    (_, cells), *others = part[0]
    single = not others and len(cells) == len(part[1]) == 1 and isinstance(cells[0].value, Cell)
    return (Placement(cells[0], part[1][0]),) if single else ()


def _removed(part: Part) -> tuple[Effect, ...]:
    effects: list[Effect] = []
    for kind, values in part[0]:
        if kind == "cells":
            effects.append(Removal(once_of(values), part[1]))
        else:
            effects += (RestOf(house, part[1]) for house in values)
    return tuple(effects)


def _by_turns(part: Part) -> tuple[Effect, ...]:
    """``r1c1 and r2c2 lose 3 and 4``, each its own."""
    (kind, cells), *others = part[0]
    if others or kind != "cells" or not 1 < len(cells) == len(part[1]):
        return ()
    return tuple(Removal((cell,), (digit,)) for cell, digit in zip(cells, part[1]))


def _around(groups: Sequence[Group]) -> list[Group]:
    """What is named without a house that only says once more where the cell beside it lies."""
    kept: list[Group] = []
    for at, (kind, values) in enumerate(groups):
        beside = [said.value for other, cells in groups[max(at - 1, 0) : at + 2] if other == "cells" for said in cells]
        if kind == "houses" and len(values) == 1 and any(_lies(cell, values[0].value) for cell in beside):
            continue
        kept.append((kind, values))
    return kept


def _lies(cell: Cell, house: House) -> bool:
    return house.kind == "b" or (cell.row if house.kind == "r" else cell.column) == house.number


def once_of(values: Iterable[Said[Any]]) -> tuple[Said[Any], ...]:
    """The first of each value."""
    return tuple(once(values))


def _side_by_side(names: Sequence[Mention], cell: Cell, digit: int) -> bool:
    """Is the digit named right after the cell, or right before it, and none after it: ``r1c1 is the 6 and the 5 ...``?"""
    told = [name.bare for name in names if name.kind != "houses"]
    at = next((at for at in range(len(told) - 1, -1, -1) if told[at] == (cell,)), None)
    if at is None:
        return False
    after = next(iter(told[at + 1 : at + 2]), ())
    before = told[at - 1] if at else ()
    return after == (digit,) or (before == (digit,) and not all(isinstance(value, int) for value in after or (None,)))


def _single_reasons(stretch: Stretch, around: Sequence[Said[House]], housed: bool) -> Iterator[Reason]:
    by_digit = bool(stretch.types & {"ONLY_DIGIT", "ALL_ELSE"}) and "ONLY_PLACE" not in stretch.types
    hidden = [reason_of("hidden single", in_=[house]) for house in around]
    last = [reason_of("last cell", in_=[house]) for house in around]
    if not housed or (by_digit and not around):
        hidden, last = [reason_of("hidden single")], [reason_of("last cell")]
    naked = [] if "ONLY_PLACE" in stretch.types and "ONLY_DIGIT" not in stretch.types else [reason_of("naked single")]
    yield from (*naked, *hidden, *last) if by_digit else (*hidden, *last, *naked)


def _intersections(stretch: Stretch, names: Names, several: bool) -> Iterator[Reason]:
    digits, houses = names.digits, names.houses
    boxes = [said for said in houses if said.value.kind == "b"]
    lines = [said for said in houses if said.value.kind != "b"]
    if len(digits) != 1 or not (boxes or lines) or (not several and (len(boxes) > 1 or len(lines) > 1)):
        return
    text = stretch.text("LOCKED")
    for box, line in product([[said] for said in boxes] or [[]], [[said] for said in lines] or [[]]):
        pointing = reason_of("pointing", bare=digits, in_=box, along=line)
        claiming = reason_of("claiming", bare=digits, in_=line, within=box)
        if "claim" in text:
            yield claiming
        elif "point" in text:
            yield pointing
        else:
            yield from (pointing, claiming) if houses[0].value.kind == "b" else (claiming, pointing)


def _fishes(stretch: Stretch, names: Names) -> Iterator[Reason]:
    cells, digits, houses = names.cells, names.digits, names.houses
    if len(digits) != 1:
        return
    rows = [said for said in houses if said.value.kind == "r"]
    columns = [said for said in houses if said.value.kind == "c"]
    text = stretch.text("FISH").replace(" ", "")
    size = next((size for word, size in (("wing", 2), ("sword", 3), ("jelly", 4)) if word in text), 0)
    if not rows and not columns and len(cells) > 3 and "FINS" not in stretch.types:
        # Told by its corners: its lines are theirs.
        rows = once(Said(House("r", said.value.row), said.span) for said in cells)
        columns = once(Said(House("c", said.value.column), said.span) for said in cells)
        cells = []
    size = size or max(len(rows), len(columns))
    if size not in FISHES or {len(rows), len(columns)} - {0, size} or not (rows or columns):
        return
    finned = text.startswith(("fin", "sashimi")) or "FINS" in stretch.types
    if cells and not finned:
        return
    name, fins = (f"finned {FISHES[size]}", {"fins": cells}) if finned else (FISHES[size], {})
    first_row = not columns or (bool(rows) and houses and houses[0].value.kind == "r")
    for base, cover in ((rows, columns), (columns, rows)) if first_row else ((columns, rows), (rows, columns)):
        yield reason_of(name, on=digits, in_=base, cover=cover, **fins)


def _in_turn(clauses: Sequence[Clause], holds: bool) -> list[Said[Any]]:
    """Cells and digits in turn as the links of a chain, of which the first is supposed to hold or not, and the others do."""
    chain: list[Said[Any]] = []
    cell: Said[Any] | None = None
    for clause in clauses:
        for mention in (piece.mention for piece in clause.pieces if piece.mention is not None):
            if mention.kind == "houses":
                continue
            if len(mention.values) != 1:
                return []
            (said,) = mention.values
            if mention.kind == "cells":
                cell = said
            elif cell is not None:
                link = Said(Link(cell.value, said.value, holds if not chain else True), cell.span)
                chain += [] if chain and chain[-1].value[:2] == link.value[:2] else [link]
    return chain


def _facts(names: Names) -> Iterator[Reason]:
    """No pattern: what the cells may hold, and where the digits may go."""
    facts = facts_of(names.order)
    if 0 < len(facts) <= MOST_FACTS:
        yield reason_of("facts", bare=facts)
