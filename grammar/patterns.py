"""The reasons that a step's words support: patterns by name or by what is said of them, with the parts that were said."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, product
from typing import TYPE_CHECKING, Any

from .clauses import Clause, Piece
from .memory import KIND_WORDS, Memory
from .mentions import Mention
from .statements import Effect, Link, Placement, Reason, Removal, RestOf, Said, Slot, Step
from .suppositions import links, told_by_cases
from .vocabulary import Cell, CellFact, Geometry, House, PlaceFact

if TYPE_CHECKING:
    from .frame import Frame

SIZES = {2: "pair", 3: "triple", 4: "quad"}
SIZE_WORDS = {
    "pair": 2, "pairs": 2, "couple": 2, "double": 2, "twin": 2, "twins": 2, "duo": 2, "twosome": 2,
    "triple": 3, "triplet": 3, "trio": 3, "threesome": 3, "triples": 3,
    "quad": 4, "quadruple": 4, "quartet": 4, "foursome": 4, "quads": 4,
}  # fmt: skip
FISHES = {2: "x-wing", 3: "swordfish", 4: "jellyfish"}
ITS_HOUSE = re.compile(r"\b(its|that|this|the same) (own )?(row|column|box)\b")
NAKED = ("naked", "open", "plain", "bare", "exposed", "visible", "obvious")
HIDDEN = ("hidden", "concealed", "buried")


class Told:
    """What the clauses of a step's reason name, by role."""

    def __init__(
        self, clauses: Iterable[Clause], effects: Sequence[Effect], memory: Memory, everything: Sequence[Clause] = ()
    ) -> None:
        self.memory = memory
        self.everything = everything
        self.clauses = list(clauses)
        self.pieces: list[Piece] = [piece for clause in self.clauses for piece in _of_reason(clause)]
        self.roles: dict[str, list[Said[Any]]] = {}
        self.cells: list[Said[Any]] = []
        self.digits: list[Said[Any]] = []
        self.houses: list[Said[Any]] = []
        self.order: list[Said[Any]] = []
        for clause in self.clauses:
            self._take(_of_reason(clause))

    def _take(self, pieces: Sequence[Piece]) -> None:
        for at, piece in enumerate(pieces):
            mention = piece.mention
            if mention is None:
                if piece.type == "SAME_HOUSE":
                    house = self.memory.same_house(piece.text, tuple(said.value for said in self.cells))
                    if house is not None:
                        self.houses = _add(self.houses, [Said(house)])
                continue
            self.order += mention.values
            role = _role(pieces, at)
            if mention.kind != ("houses" if role in ("cover", "in") else "cells"):
                role = ""
            if role:
                self.roles[role] = _add(self.roles.get(role, []), mention.values)
            elif mention.kind == "cells":
                self.cells = _add(self.cells, mention.values)
            elif mention.kind == "digits":
                self.digits = _add(self.digits, mention.values)
            else:
                self.houses = _add(self.houses, mention.values)

    def texts(self, *types: str) -> list[Piece]:
        """The pieces of those types."""
        return [piece for piece in self.pieces if piece.type in types]


def _of_reason(clause: Clause) -> list[Piece]:
    """The pieces of a clause without those that belong to a removal told in it."""
    for at, piece in enumerate(clause.pieces):
        if piece.type in ("REMOVE", "TAKE", "GONE", "DENY") and any(p.type in _NAMES for p in clause.pieces[:at]):
            return clause.pieces[:at]
    return clause.pieces


_NAMES = ("SUBSET", "FISH", "XY_WING", "CHAIN_NAME", "LOCKED", "PIVOT", "WINGS", "FINS", "CONFINED", "BECAUSE")
TAKEN = ("for ", "as ", "(")
"""Words before a role that what stands before them has: ``r1c1 for its pivot``."""
ROLES = {"PIVOT": "pivot", "WINGS": "wings", "FINS": "fins", "COVER": "cover", "BASE": "in"}


def _role(pieces: Sequence[Piece], at: int) -> str:
    """The role word before a mention, back to the mention before it; else one right after (``r1c1 is the pivot``)."""
    for back in range(at - 1, -1, -1):
        mention = pieces[back].mention
        if mention is not None and mention.kind != "digits" and not _in_list(pieces[:back]):
            break
        if pieces[back].type in ROLES and not _taken_before(pieces, back):
            return ROLES[pieces[back].type]
    for on in range(at + 1, len(pieces)):
        if pieces[on].type in ROLES:
            later = next((p for p in pieces[on + 1 : on + 3] if p.mention and p.mention.kind != "digits"), None)
            between = [p.type for p in pieces[at + 1 : on]]
            if pieces[on].text.startswith(TAKEN):
                return ROLES[pieces[on].type]
            return ROLES[pieces[on].type] if ("BE" in between or not later) and not _is_next(pieces, on) else ""
        if pieces[on].mention is not None:
            break
    return ""


def _in_list(pieces: Sequence[Piece]) -> bool:
    """Does a list go on here, of a role that several have: ``pincers r1c9 (3 and 8) and r9c8 (6 and 8)``?"""
    last = next((at for at in range(len(pieces) - 1, -1, -1) if pieces[at].mention is None and pieces[at].type != "BE"), -1)
    listing = last >= 0 and pieces[last].type == "WINGS" and not _taken_before(pieces, last)
    return listing and all(piece.type in ("CELLS", "DIGITS", "BE") for piece in pieces[last + 1 :])


def _taken_before(pieces: Sequence[Piece], role: int) -> bool:
    """Does the role word belong to what stands before it: ``r1c1 is the pivot``, ``r1c1 as pivot``?"""
    if pieces[role].text.startswith(TAKEN):
        return True
    at = role - 1
    while at > 0 and pieces[at].type in ("BE", "PRONOUN", "PRONOUNS"):
        at -= 1
    mention = pieces[at].mention if 0 <= at < role - 1 else None
    return mention is not None and mention.kind == "cells"


def _is_next(pieces: Sequence[Piece], role: int) -> bool:
    return role + 1 < len(pieces) and pieces[role + 1].type in ("BE", "FROM")


def _add(values: Sequence[Said[Any]], more: Iterable[Said[Any]]) -> list[Said[Any]]:
    """What is named again is meant again; but of one list every item counts, told twice or not."""
    known = {said.value for said in values}
    return [*values, *(said for said in more if said.value not in known)]


def reasons(frame: Frame, geometry: Geometry, memory: Memory) -> Iterator[Reason | None]:
    """The reasons that the words support, the most literal first; nothing where they give none."""
    if without_reason(frame):
        return
    if frame.hypotheses:
        yield from _supposed(frame)
        return
    clauses = frame.reasons or []
    told = Told(clauses, frame.effects, memory)
    focus = Told(
        [
            clause
            for clause, _ in frame.clauses
            if clause not in frame.effective
            and clause not in frame.placing
            and not (clause.witness and clause.has("ALREADY") and frame.reasons)
        ],
        frame.effects,
        memory,
        [c for c, _ in frame.clauses],
    )
    placed = [effect for effect in frame.effects if isinstance(effect, Placement)]
    if any("facts" in piece.text for piece in focus.texts("LEAN")):
        yield from _facts(focus)
        return
    if any("wing" in piece.text for piece in focus.texts("LEAN")):
        wing = [*focus.roles.get("pivot", []), *focus.roles.get("wings", [])]
        wing = wing or [said for said in told.order if isinstance(said.value, Cell)]
        yield reason_of("facts", bare=facts_of(wing or _described(frame)))
        return
    if frame.crossing:
        yield from _singles(frame, told, geometry)
        return
    found = list(_patterns(told, focus, geometry, frame))
    if found:
        yield from found
        if placed and not told.texts("SUBSET", "FISH", "XY_WING", "CHAIN_NAME", "LOCKED"):
            yield from _singles(frame, told, geometry)
        return
    shown = any("SO" in clause.joints for clause in (*frame.effective, *frame.placing))
    if len(focus.texts("FACT")) > 1 and placed:
        yield from _facts(focus)  # "From the candidates of r1c1 and of r1c5 it follows that r1c7 can only be 3"
    if (
        (focus.texts("LEAN") or shown)
        and focus.texts("FACT")
        and not told.texts("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "SINGLE_NAME")
    ):
        yield from _facts(focus)
    if placed or told.texts("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "SINGLE_NAME"):
        yield from _singles(frame, told, geometry)
        return
    if clauses or frame.support:
        yield from _facts(told if told.order else focus)


def without_reason(frame: Frame) -> bool:
    """Is it said that no reason is given?"""
    return any(clause.has("NO_REASON") for clause, _ in frame.clauses)


def reason_of(name: str, **parts: Iterable[Said[Any]]) -> Reason:
    """The reason with the parts that were said; ``bare`` for those without a word, ``colon`` for those after a colon."""
    words = {"bare": "", "colon": ":"}
    slots = []
    for key, values in parts.items():
        said = tuple(values)
        if said:
            slots.append(Slot(words.get(key, key.rstrip("_")), said))
    return Reason(Said(name), tuple(slots))


def _line_by_line(told: Told, focus: Told) -> Iterator[Reason]:
    """``In column 4 the 3 goes in row 3 or 7, in column 6 in row 1 or 7. Those two columns have only rows 1, 3 and 7``"""
    digits = {said.value for said in told.digits}
    by_cells = len(told.cells) > 3 and bool(told.houses) and bool(focus.texts("FISH", "SAME_HOUSES"))
    if len(digits) != 1 or not by_cells or any(said.value.kind == "b" for said in told.houses) or told.texts("FINS"):
        return
    rows, columns = (
        once([*(said for said in told.houses if said.value.kind == kind), *(Said(House(kind, at), span) for at, span in lines)])
        for kind, lines in (
            ("r", [(said.value.row, said.span) for said in told.cells]),
            ("c", [(said.value.column, said.span) for said in told.cells]),
        )
    )
    if len(rows) == len(columns) and len(rows) in FISHES:
        kind = told.houses[0].value.kind
        for base, cover in ((rows, columns), (columns, rows)) if kind == "r" else ((columns, rows), (rows, columns)):
            yield reason_of(FISHES[len(rows)], on=told.digits[:1], in_=base, cover=cover)


def _patterns(told: Told, focus: Told, geometry: Geometry, frame: Frame) -> Iterator[Reason]:
    fish = list(_line_by_line(told, focus))
    if fish:
        yield from fish
        return
    pairs = [
        p.mention for p in told.pieces if p.type == "CELLS" and p.mention and p.mention.choice and len(p.mention.values) == 2
    ]
    if len(pairs) > 1 and len({said.value for said in told.digits}) <= 1 and not told.texts("FISH", "XY_WING"):
        cells = once(said for pair in pairs for said in pair.values)
        yield reason_of("x-chain", on=told.digits, colon=cells)
        return
    wings = list(_wing_by_cases(told, focus, geometry, frame))
    strong = [] if wings or told.texts("FISH", "XY_WING", "SUBSET") else list(_strong_links(told, focus, geometry))
    if wings or strong:
        yield from wings or strong
    elif told.texts("FISH") or told.roles.get("fins"):
        yield from _fish(told, focus)
    elif told.texts("XY_WING") or told.roles.get("pivot"):
        yield from _wing(told, focus)
    elif told.texts("CHAIN_NAME"):
        yield from _chain_named(told, focus)
    elif told.texts("SUBSET"):
        yield from _subset_named(told, focus, geometry)
    elif _lines(told.houses) or (
        _lines(focus.houses)
        and _only_placed(frame, focus)
        and len(focus.digits) == 1
        and not any(said.value.kind == "b" for said in told.houses)
    ):
        yield from _fish(told, focus)
    elif (_crossing(told, focus, geometry) and not _placed(frame)) or told.texts("LOCKED") or _confined(told, focus):
        yield from _intersection(told, focus, frame, geometry)
    elif _lined_up(told, geometry):
        yield from _intersection_of_cells(told, geometry)
    elif answered := _answered(told, focus, geometry):
        yield from answered
    else:
        yield from _subset_described(told, focus, geometry)


def _confined(told: Told, focus: Told) -> bool:
    """Is a digit said to lie in a house, with the other house named before or not at all?"""
    if not told.texts("CONFINED"):
        return False
    houses = told.houses if len(told.houses) > 1 else focus.houses
    return _meets(houses) or (len(told.digits or focus.digits) == 1 and not told.cells)


def _lined_up(told: Told, geometry: Geometry) -> list[House]:
    """Where one house's places for a digit are told by their cells: the house, and another that they share."""
    if not told.texts("CONFINED", "ONLY_PLACE", "ONLY") or len(told.houses) != 1 or len(told.digits) != 1:
        return []
    cells = [said.value for said in told.cells]
    if not 1 < len(cells) < 4:
        return []
    common = geometry.common_houses(cells)
    (said,) = told.houses
    others = [house for house in common if (house.kind == "b") != (said.value.kind == "b")]
    return [said.value, *others] if said.value in common and others else []


def _intersection_of_cells(told: Told, geometry: Geometry) -> Iterator[Reason]:
    house, other = _lined_up(told, geometry)[:2]
    digits, first, second = told.digits, [Said(house, told.houses[0].span)], [Said(other, told.cells[0].span)]
    if house.kind == "b":
        yield reason_of("pointing", bare=digits, in_=first, along=second)
    else:
        yield reason_of("claiming", bare=digits, in_=first, within=second)
        # "One box to the right, the 3 has to sit on row 8, in r8c5 or r8c6": of which house all the places are told goes unsaid
        yield reason_of("pointing", bare=digits, in_=second, along=first)


def _answered(told: Told, focus: Told, geometry: Geometry) -> list[Reason]:
    """``Where does box 6 keep its 7? In r4c7 or r4c8.``: all the places, of the digit and the house that were asked for."""
    choices = [p.mention.bare for p in told.pieces if p.type == "CELLS" and p.mention and p.mention.choice]
    asked = focus.texts("NEEDED") and len(focus.houses) == len(focus.digits) == 1 and not told.houses
    if len(choices) != 1 or not asked or not set(choices[0]) <= set(geometry.cells_of[focus.houses[0].value]):
        return []
    (house,) = focus.houses
    others = [o for o in geometry.common_houses(choices[0]) if (o.kind == "b") != (house.value.kind == "b")]
    at = told.cells[0].span
    name, word = ("pointing", "along") if house.value.kind == "b" else ("claiming", "within")
    return [reason_of(name, bare=focus.digits, in_=[house], **{word: [Said(other, at)]}) for other in others]


def _crossing(told: Told, focus: Told, geometry: Geometry) -> bool:
    """Are one digit, one box and one line named, and no cell, or the places in the first of them: ``either r9c7 or r9c8``?"""
    both = told if len(told.houses) > 1 else focus
    places = all(mention.choice for piece in both.pieces if (mention := piece.mention) and mention.kind == "cells")
    inside = both.houses and all(said.value in geometry.cells_of[both.houses[0].value] for said in both.cells)
    crossing = len(both.houses) == 2 and _meets(both.houses) and len(both.digits) == 1
    return bool(not told.texts("LEAN") and places and inside and crossing)


def _only_placed(frame: Frame, focus: Told) -> bool:
    """Is no cell named but those that are filled?"""
    placed = {effect.cell.value for effect in frame.effects if isinstance(effect, Placement) and effect.cell}
    return {said.value for said in focus.cells} <= placed


def _placed(frame: Frame) -> bool:
    return any(isinstance(effect, Placement) for effect in frame.effects)


def _meets(houses: Sequence[Said[Any]]) -> bool:
    kinds = [said.value.kind for said in houses]
    return "b" in kinds and ("r" in kinds or "c" in kinds)


def _lines(houses: Sequence[Said[Any]]) -> bool:
    kinds = [said.value.kind for said in houses]
    return kinds.count("r") == kinds.count("c") >= 2


def _one_of(
    told: Told, boxes: Sequence[Said[Any]], lines: Sequence[Said[Any]], geometry: Geometry
) -> Iterator[tuple[Said[Any], Said[Any]]]:
    """The boxes and lines that "the twos of box 5 share a row" may mean: which row is left to the board."""
    words = {word for piece in told.texts("LINE") for word in piece.text.split()}
    kinds = [kind for kind, names in {"r": ("row", "line"), "c": ("column", "line"), "b": ("box", "block")}.items()
             if words & {*names}]  # fmt: skip
    (named,) = (*boxes, *lines)[:1]
    inside = geometry.cells_of[named.value]
    houses = dict.fromkeys(house for cell in inside for house in geometry.houses_of[cell] if house.kind in kinds)
    for house in houses:
        other = Said(house, named.span)
        if boxes and house.kind != "b":
            yield named, other
        elif lines and house.kind == "b":
            yield other, named


def _intersection(told: Told, focus: Told, frame: Frame, geometry: Geometry) -> Iterator[Reason]:
    houses = told.houses if len(told.houses) > 1 else focus.houses
    digits = told.digits or focus.digits
    digits = digits[:1] if len(digits) == 1 else digits
    boxes = [said for said in houses if said.value.kind == "b"]
    lines = [said for said in houses if said.value.kind != "b"]
    crossed = [said for said in focus.houses if said.value.kind != "b" and said.value not in {line.value for line in lines}]
    crossed = [said for said in crossed if lines and said.value.kind != lines[0].value.kind]
    along = [said for said in lines if said.value.kind == lines[0].value.kind]
    if len(along) > 1 and len(lines) <= len(along) + 1 and len(crossed) == 1:
        lines = crossed  # "the 8s of column 9 are confined to rows 7 and 8, which lie inside box 9"
    name = " ".join(piece.text for piece in told.texts("LOCKED"))
    amiss = len(houses) == 2 and not (boxes and lines)
    rest = next((effect.house for effect in frame.effects if isinstance(effect, RestOf)), None)
    if not lines and rest is not None and rest.value.kind != "b":
        lines = [rest]
    if not boxes and rest is not None and rest.value.kind == "b":
        boxes = [rest]
    if told.texts("CONFINED") and len(boxes[:1]) + len(lines[:1]) == 1:
        unsaid = list(_one_of(told, boxes, lines, geometry))
        frame.loose = frame.loose or bool(unsaid)
        for box, line in unsaid:
            if boxes:
                yield reason_of("pointing", bare=digits[:1], in_=[box], along=[line])
            else:
                yield reason_of("claiming", bare=digits[:1], in_=[line], within=[box])
        if unsaid:
            return
    pointing = [reason_of("pointing", bare=digits[:1], in_=[box], along=lines[:1]) for box in boxes[:1] or ()]
    claiming = [reason_of("claiming", bare=digits[:1], in_=[line], within=boxes[:1]) for line in lines[:1] or ()]
    if lines and not boxes:
        pointing = [reason_of("pointing", bare=digits[:1], along=lines[:1])]  # "the 2 of the trio lies in row 8"
    if not boxes and not lines:
        pointing, claiming = [reason_of("pointing", bare=digits[:1])], [reason_of("claiming", bare=digits[:1])]
    if amiss and name.startswith(("pointing", "claiming")):
        # Two lines or two boxes: one of them was told wrong.
        pointing = [reason_of("pointing", bare=digits[:1], in_=houses[:1], along=houses[1:])]
        claiming = [reason_of("claiming", bare=digits[:1], in_=houses[:1], within=houses[1:])]
    if "claim" in name or "line" in name:
        yield from claiming or [reason_of("claiming", bare=digits[:1], within=boxes[:1])]
        return
    if "point" in name:
        yield from pointing or [reason_of("pointing", bare=digits[:1], along=lines[:1])]
        return
    first = houses[0].value.kind if houses else "b"
    yield from (*pointing, *claiming) if first == "b" else (*claiming, *pointing)


def _subset_named(told: Told, focus: Told, geometry: Geometry) -> Iterator[Reason]:
    text = told.texts("SUBSET")[0].text.split()
    size = SIZE_WORDS[text[-1]]
    how = next((word for word in [*text, *_words(told.texts("HOW"))] if word in NAKED + HIDDEN), "")
    hidden = [False] if how in NAKED else [True] if how in HIDDEN else [False, True]
    if not how and told.texts("ONLY_PLACE", "CONFINED"):
        hidden = [True, False]
    digits, cells = _of_size(size, told.digits, focus.digits), _of_size(size, told.cells, focus.cells)
    clauses = told.clauses if told.digits else focus.clauses
    listed = [mention.values for clause in clauses for mention in clause.named("digits") if len(mention.values) == size]
    if len(digits) > size and listed:
        digits = [*listed[-1]]  # "three in a bed: r1c5, r5c5 and r9c5 make a naked triple of 6, 8 and 9"
    # "4 and 8 can go only in rows 2 and 9 of this column": the house is the one that holds the cells.
    houses = (_around(cells, told.houses, geometry) if len(told.houses) > 1 else []) or told.houses[-1:]
    houses = houses or _around(cells, focus.houses, geometry)
    if 0 < len(cells) == size - 1 and any(piece.text in ("it", "itself") for piece in focus.texts("PRONOUN")):
        cells = [*cells, Said(None)]  # "together with r6c1 and r6c3 it makes a naked triple"
    for way in hidden:
        name = f"{'hidden' if way else 'naked'} {SIZES[size]}"
        yield reason_of(name, bare=digits, at=cells, in_=houses)


def _of_size(size: int, told: list[Said[Any]], focus: list[Said[Any]]) -> list[Said[Any]]:
    """What the pattern is made of: of all that is named, where the reason alone does not name as many as there are in it."""
    return focus if not told or (len(told) < size == len(focus)) else told


def _words(pieces: Sequence[Piece]) -> list[str]:
    return [word for piece in pieces for word in piece.text.split()]


def _around(cells: Sequence[Said[Any]], houses: Sequence[Said[Any]], geometry: Geometry) -> list[Said[Any]]:
    """Of the houses spoken of before, the last one that holds all the cells."""
    members = {said.value for said in cells}
    return [house for house in houses if members <= set(geometry.cells_of[house.value])][-1:]


def _subset_described(told: Told, focus: Told, geometry: Geometry) -> Iterator[Reason]:
    cells, digits = told.cells, told.digits or (focus.digits if len(told.cells) == len(focus.digits) else [])
    if not cells and len(focus.cells) == len(digits) > 1 and not told.texts("LEAN"):
        cells = focus.cells
    if not cells and told.texts("PRONOUNS"):
        cells = list(told.memory.several)
    if len(cells) not in SIZES or len(digits) != len(cells):
        return
    order = [said.value for said in told.order]
    named = digits[0].value in order and cells[0].value in order
    digits_first = named and order.index(digits[0].value) < order.index(cells[0].value)
    hidden_first = (
        bool(told.texts("ONLY_PLACE", "CONFINED", "FACT")) or not told.digits or (digits_first and not told.texts("ONLY_DIGIT"))
    )
    houses = told.houses[-1:] or _around(cells, focus.houses, geometry)
    for way in (True, False) if hidden_first else (False, True):
        name = f"{'hidden' if way else 'naked'} {SIZES[len(cells)]}"
        yield reason_of(name, bare=digits, at=cells, in_=houses)


def _fish(told: Told, focus: Told) -> Iterator[Reason]:
    piece = next(iter(told.texts("FISH")), None)
    houses = [*told.roles.get("in", []), *told.houses] if told.roles.get("in") else told.houses
    houses = houses or focus.houses
    if not _lines(houses) and _lines(focus.houses):
        houses = focus.houses
    lines = [said for said in houses if said.value.kind != "b"] or houses
    covers = told.roles.get("cover", [])
    if not lines and len(told.cells) >= 4 and not covers:
        yield from _corners(told, focus)
        return
    base = [said for said in lines if said.value not in {cover.value for cover in covers}]
    if len({said.value.kind for said in lines}) == 1:
        base = lines
    text = piece.text.replace(" ", "") if piece else ""
    size = (
        2
        if "xwing" in text
        else 3
        if "sword" in text
        else 4
        if "jelly" in text
        else max(map([said.value.kind for said in base].count, "rc"))
    )
    if size not in FISHES:
        return
    fins = told.roles.get("fins", [])
    finned = bool(fins or told.texts("FINS") or text.startswith(("fin", "sashimi")))
    if finned and not fins:
        fins = told.cells
    digit = (told.digits or focus.digits)[:1]
    first = base[0].value.kind if base else "r"
    of_first = [said for said in base if said.value.kind == first]
    of_other = [said for said in base if said.value.kind != first]
    if of_other and covers and {cover.value.kind for cover in covers} != {of_other[0].value.kind}:
        of_first, of_other = of_other, of_first
    if finned and piece is not None and not covers and not told.roles.get("in"):
        of_other = _without_fins(of_other, fins, size)
    name = f"{'finned ' if finned else ''}{FISHES[size]}"
    ways = [(of_first, covers or of_other)]
    if finned and not fins and not covers and not told.roles.get("in") and len(of_first) == size < len(of_other):
        # "row five and row nine; and row five as well, and then this one in row seven": which line is the fin's goes unsaid
        ways = [(of_first, [*found]) for found in combinations(of_other, size)]
    if not covers and of_other and not told.roles.get("in"):
        ways.append((of_other, of_first))
    if not covers and not of_other:
        ways.append(([], of_first))
    kind = _covered(focus)
    kept = [way for way in ways if not way[1] or way[1][0].value.kind == kind]
    for base_lines, cover_lines in kept if kind and kept else ways:
        parts = {"on": digit, "in_": base_lines, "cover": cover_lines}
        yield reason_of(name, **parts, **({"fins": fins} if finned else {}))


def _without_fins(lines: list[Said[Any]], fins: Sequence[Said[Any]], size: int) -> list[Said[Any]]:
    """``In column 2 they live at rows 4 and 7 ... an X-wing on rows 4 and 9, r7c2 a fin``: row 7 was told for the fin alone."""
    spare = {House(kind, at) for said in fins for kind, at in (("r", said.value.row), ("c", said.value.column))}
    left = [said for said in lines if said.value not in spare]
    return left if len(lines) > size == len(left) else lines


def _covered(focus: Told) -> str:
    """Which lines the digit goes from: ``from the rest of those rows``; nothing where that is not said."""
    for clause in focus.everything:
        for piece in clause.of("SAME_HOUSES"):
            if clause.has("REST", "ONLY_PLACE") and clause.has("REMOVE", "TAKE", "GONE", "DENY", "REST"):
                return {"rows": "r", "columns": "c"}.get(piece.text.split()[-1], "")
    return ""


def _corners(told: Told, focus: Told) -> Iterator[Reason]:
    """A fish told by its cells: its lines are theirs, one way or the other."""
    rows = once(Said(House("r", said.value.row), said.span) for said in told.cells)
    columns = once(Said(House("c", said.value.column), said.span) for said in told.cells)
    if len(rows) != len(columns) or len(rows) not in FISHES:
        return
    for base, cover in ((rows, columns), (columns, rows)):
        yield reason_of(FISHES[len(rows)], on=(told.digits or focus.digits)[:1], in_=base, cover=cover)


def _wing(told: Told, focus: Told) -> Iterator[Reason]:
    pivot, wings = told.roles.get("pivot", []), told.roles.get("wings", [])
    rest = [said for said in told.cells if said.value not in {other.value for other in (*pivot, *wings)}]
    if pivot:
        wings = wings or rest[:2]
        yield reason_of("xy-wing", pivot=pivot, wings=wings)
        return
    if wings:
        yield reason_of("xy-wing", pivot=rest[:1], wings=wings)
        return
    rest = rest or focus.cells
    if len(rest) == 3:
        for at in range(3):
            yield reason_of("xy-wing", pivot=[rest[at]], wings=rest[:at] + rest[at + 1 :])
    else:
        yield reason_of("xy-wing", pivot=rest[:1], wings=rest[1:3])


def _wing_by_cases(told: Told, focus: Told, geometry: Geometry, frame: Frame) -> Iterator[Reason]:
    """An XY-wing by what its cells may be: ``r1c1 is 3 or 5, r1c5 3 or 7 and r4c1 5 or 7``, ``whether r1c1 is 3 or 5``."""
    if told.texts("SUBSET", "FISH", "CHAIN_NAME", "XY_WING") or focus.roles.get("pivot"):
        return
    for clause in focus.clauses:
        pivot = [said for mention in clause.named("cells") for said in mention.values]
        others = [other for other in focus.clauses if other is not clause and not other.has("REMOVE", "TAKE", "GONE", "DENY")]
        ends = once(said for other in others for mention in other.named("cells") for said in mention.values)
        whether = any(not piece.text.startswith("in the") for piece in clause.of("WHETHER"))
        if whether and len(pivot) == 1 and len(ends) == 2:
            yield reason_of("xy-wing", pivot=pivot, wings=ends)
            return
    cases = [clause for clause in focus.clauses if any(piece.text.startswith("in the") for piece in clause.of("WHETHER"))]
    ends = once(said for clause in cases for mention in clause.named("cells") for said in mention.values)
    asked = [
        said for said, _ in either_or([piece for clause in focus.clauses if clause not in cases for piece in clause.pieces])
    ]
    weighed = [clause for clause in focus.clauses if clause not in cases and clause.has("EITHER")]
    either = once(said for clause in weighed[:1] for mention in clause.named("cells") for said in mention.values)
    if len(ends) == 2 and len(asked or either) == 1:
        yield reason_of("xy-wing", pivot=asked or either, wings=ends)
        return
    held = once(said for clause in focus.clauses for mention in clause.named("digits") for said in mention.values)
    if len(ends) == len(either) == 1 and ends[0].value != either[0].value and len(held) == 2:
        # "Either r1c1 is 5 or it is 8. In the first case r1c6 is 8, in the second it is 5."
        yield reason_of("naked pair", bare=held, at=[*either, *ends])
        return
    pairs = either_or(focus.pieces)
    digits = [digit for _, both in pairs for digit in both]
    if len(pairs) != 3 or len({said.value for said, _ in pairs}) != 3 or sorted(map(digits.count, set(digits))) != [2, 2, 2]:
        return
    gone = {said.value for effect in frame.effects if isinstance(effect, Removal) for said in effect.digits}
    for pivot_cell, both in pairs:
        wings = [said for said, _ in pairs if said.value != pivot_cell.value]
        seen = all(said.value in geometry.peers[pivot_cell.value] for said in wings)
        if seen and not (len(gone) == 1 and gone <= set(both)):
            yield reason_of("xy-wing", pivot=[pivot_cell], wings=wings)


def either_or(pieces: Sequence[Piece]) -> list[tuple[Said[Any], tuple[int, int]]]:
    """Each single cell right before two digits, with them: ``r1c1 is 3 or 5``, ``r1c1 (3/5)``."""
    found: list[tuple[Said[Any], tuple[int, int]]] = []
    cell: Said[Any] | None = None
    for piece in pieces:
        if piece.mention is None:
            continue
        values = piece.mention.values
        if piece.mention.kind == "digits" and len(values) == 2 and cell is not None:
            found.append((cell, (values[0].value, values[1].value)))
        cell = values[0] if piece.mention.kind == "cells" and len(values) == 1 else None
    return found


def _strong_links(told: Told, focus: Told, geometry: Geometry) -> Iterator[Reason]:
    """Houses with two places each for a digit: an X-wing if they form a rectangle, else an X-chain."""
    digits = told.digits or focus.digits
    pairs = [pair for clause in told.clauses if (pair := _two_places(clause, geometry)) is not None]
    cells = once(said for pair in pairs for said in pair)
    if len(pairs) < 2 or len({said.value for said in digits}) != 1 or len(cells) != 2 * len(pairs):
        return
    if len(pairs) == 2 and len({said.value.row for said in cells}) == len({said.value.column for said in cells}) == 2:
        kind = told.houses[0].value.kind if told.houses else "r"
        rows = [House("r", row) for row in sorted({said.value.row for said in cells})]
        columns = [House("c", column) for column in sorted({said.value.column for said in cells})]
        base, cover = (rows, columns) if kind == "r" else (columns, rows)
        yield reason_of("x-wing", on=digits[:1], in_=map(Said, base), cover=map(Said, cover))
    for turns in product((False, True), repeat=len(pairs)):
        ordered = [said for pair, turned in zip(pairs, turns) for said in (reversed(pair) if turned else pair)]
        inner = ordered[1:-1]
        if all(two.value in geometry.peers[one.value] for one, two in zip(inner[::2], inner[1::2])):
            yield reason_of("x-chain", on=digits[:1], colon=ordered)
            return


def _two_places(clause: Clause, geometry: Geometry) -> tuple[Said[Any], Said[Any]] | None:
    """The only two places in a house: ``in row 3 the 4s are only in r3c1 and r3c7``."""
    cells = [said for mention in clause.named("cells") for said in mention.values]
    houses = clause.values("houses")
    if len(cells) == 2 and not houses:
        kinds = {KIND_WORDS.get(piece.text.split()[-1]) for piece in clause.of("SAME_HOUSE") if "their" in piece.text}
        houses = [house for house in geometry.common_houses([said.value for said in cells]) if house.kind in kinds]
    if len(cells) != 2 or len(houses) != 1 or not clause.has("ONLY_PLACE", "CONFINED", "ONLY"):
        return None
    inside = {said.value for said in cells} <= set(geometry.cells_of[houses[0]])
    return (cells[0], cells[1]) if inside else None


def _chain_named(told: Told, focus: Told) -> Iterator[Reason]:
    text = told.texts("CHAIN_NAME")[0].text
    digits = told.digits or focus.digits
    cells = told.cells or focus.cells
    by_turns = put_by_turns([said for said in told.order if not hasattr(said.value, "kind")])
    xy = text.startswith(("xy", "x y"))
    if told.texts("VIA"):
        cells = _by_way_of(told)
    if not digits and not cells and not text.strip().startswith("x"):
        yield reason_of("chain")
        return
    turns = _by_pairs(either_or(told.pieces))
    if turns and not text.startswith("x chain"):
        yield reason_of("xy-chain", bare=turns)
        return
    if not xy and len({said.value for said in digits}) <= 1:
        yield reason_of("x-chain", on=digits[:1], colon=cells)
        return
    all_told = {said.value for said in cells} <= {said.value for said in by_turns}
    yield reason_of("xy-chain", bare=by_turns if by_turns and all_told else cells)


def _by_pairs(pairs: Sequence[tuple[Said[Any], tuple[int, int]]]) -> list[Said[Any]]:
    """An XY-chain by its cells and their two candidates each: ``r1c5 (2, 7), r8c5 (7, 4), r8c4 (4, 2)``."""
    if len(pairs) < 3:
        return []
    # Of two cells with the same two candidates the order in which they are told says which is at the end.
    first = set(pairs[0][1]) - set(pairs[1][1]) or {pairs[0][1][0]}
    if len(first) != 1:
        return []
    (digit,) = first
    turns = [Said(digit, pairs[0][0].span)]
    for cell, both in pairs:
        if digit not in both:
            return []
        digit = sum(both) - digit
        turns += [cell, Said(digit, cell.span)]
    return turns if turns[0].value == turns[-1].value else []


def _by_way_of(told: Told) -> list[Said[Any]]:
    """``from r1c1 to r2c6 by way of r5c1 and r5c6``: the last cell before those words is the end of the chain.

    ``from r1c1 by way of r5c1 and r5c6 to r2c6`` names them in order.
    """
    before: list[Said[Any]] = []
    after: list[Said[Any]] = []
    via = False
    for piece in told.pieces:
        via = via or piece.type == "VIA"
        if piece.mention is not None and piece.mention.kind == "cells":
            (after if via else before).extend(piece.mention.values)
    return once([*before[:-1], *after, *before[-1:]]) if len(before) > 1 else once([*before, *after])


def put_by_turns(order: Sequence[Said[Any]]) -> list[Said[Any]]:
    """The longest stretch of digit, cell, digit, cell ... digit."""
    best: list[Said[Any]] = []
    run: list[Said[Any]] = []
    for said in order:
        digit = isinstance(said.value, int)
        if run and digit == isinstance(run[-1].value, int):
            run = []
        if not run and not digit:
            continue
        run.append(said)
        best = list(run) if len(run) > len(best) else best
    return best[:-1] if best and not isinstance(best[-1].value, int) else best


def _supposed(frame: Frame) -> Iterator[Reason | None]:
    order = [id(clause) for clause, _ in frame.clauses]
    begin = order.index(id(frame.hypotheses[0])) if id(frame.hypotheses[0]) in order else len(order)
    led_up = {id(clause) for clause in (*frame.support, *frame.reasons)}
    earlier = [clause for clause, _ in frame.clauses[:begin] if id(clause) in led_up]
    before = [said for clause in earlier for mention in clause.named("cells") for said in mention.values]
    chains = links(frame.hypotheses, before[-1] if before else None)
    flat = [link for chain in chains for link in chain]
    if not flat:
        return
    by_cases = told_by_cases(chains)
    cells = once(Said(link.value.cell, link.span) for link in flat)
    if by_cases:
        if len(cells) == 3 and len(chains) == 2:
            pivot = Said(chains[0][0].value.cell, chains[0][0].span)
            yield reason_of("xy-wing", pivot=[pivot], wings=[cell for cell in cells if cell.value != pivot.value])
        yield reason_of("facts", bare=[Said(CellFact(cell.value), cell.span) for cell in cells])
    names = " ".join(piece.text for clause, _ in frame.clauses for piece in clause.of("CHAIN_NAME"))
    for chain in sorted(chains, key=len, reverse=True)[:1]:
        chain = [*_begun(chain, frame), *chain]
        yield from _as_named(chain, names)
        if len(chain) > 1:
            yield Reason(Said("chain"), (Slot("", tuple(chain)),))


def _begun(chain: Sequence[Said[Any]], frame: Frame) -> list[Said[Any]]:
    """``r1c1 is either a 5 or a 9. If it is a 9, ...``: that is so where it is not a 5."""
    first = chain[0].value
    for clause in (*frame.support, *frame.reasons):
        cells = clause.values("cells")
        digits = clause.values("digits")
        if first.holds and cells == [first.cell] and len(digits) == 2 and first.digit in digits:
            return [Said(Link(first.cell, sum(digits) - first.digit, False), chain[0].span)]
    return []


def _as_named(chain: Sequence[Said[Any]], names: str) -> Iterator[Reason]:
    """A chain told link by link that was called an XY-chain or an X-chain, as those are told."""
    first, *rest = chain
    if first.value.holds or not rest:
        return
    if "xy" in names or "x y" in names:
        found = [link for link in rest if link.value.holds]
        if found and found[0].value.cell == first.value.cell:
            turns: list[Said[Any]] = [Said(first.value.digit, first.span)]
            for link in found:
                turns += [Said(link.value.cell, link.span), Said(link.value.digit, link.span)]
            yield reason_of("xy-chain", bare=turns)
    elif names.strip().startswith("x") and len({link.value.digit for link in chain}) == 1:
        digit = Said(first.value.digit, first.span)
        yield reason_of("x-chain", on=[digit], colon=[Said(link.value.cell, link.span) for link in chain])


def once(values: Iterable[Said[Any]]) -> list[Said[Any]]:
    """The first of each value."""
    first: dict[Any, Said[Any]] = {}
    for said in values:
        first.setdefault(said.value, said)
    return list(first.values())


def _described(frame: Frame) -> list[Said[Any]]:
    """The cells of which it was told what they may be: ``r5c3 is 1, 2 or 9, r4c3 is 1 or 9``."""
    told = [clause for clause, _ in frame.clauses if clause not in frame.effective and clause.has("DIGITS")]
    return once(said for clause in told for mention in clause.named("cells") for said in mention.values)


def _house_of_its_digit(witness: Clause) -> list[Mention]:
    """``The 3 in column 8 cannot be in row 4``: column 8, for which a place is looked for; row 4 only shows where it is not."""
    pieces = witness.pieces
    denied = next((at for at, piece in enumerate(pieces) if piece.type == "DENY"), 0)
    return [
        piece.mention
        for at, piece in enumerate(pieces[:denied])
        if piece.mention is not None and piece.mention.kind == "houses" and any(p.type == "DIGITS" for p in pieces[:at])
    ]


def _singles(frame: Frame, told: Told, geometry: Geometry) -> Iterator[Reason | None]:
    placed = [effect for effect in frame.effects if isinstance(effect, Placement)]
    cell = next((effect.cell.value for effect in placed if effect.cell), None)
    if cell is None and len(told.cells) == 1:
        cell = told.cells[0].value
    said = _clauses_with(frame, "ONLY_PLACE", "LAST_CELL", "SINGLE_NAME")
    houses = [h for clause in said for mention in clause.named("houses") for h in mention.values]
    others = [
        h
        for clause, _ in frame.clauses
        if not clause.has("ALREADY", "SEE") and clause not in said and clause not in frame.effective
        for mention in (_house_of_its_digit(clause) if clause in frame.support and clause.witness else clause.named("houses"))
        for h in mention.values
    ]
    houses = [frame.line] if frame.line else once([*houses, *others])
    asked = [clause for clause, _ in frame.clauses if clause.has("NEEDED") and clause.has("DIGITS")]
    spoken_of = [clause for clause in (*said, *asked, *_near(frame)) if not _just_filled(frame, clause)]
    here = {house for clause in spoken_of for house in clause.values("houses")}
    if cell is not None:
        # A house spoken of a while before need not be meant: it is, if the cell lies in it.
        houses = [house for house in houses if house.value in here or cell in geometry.cells_of[house.value]]
    for clause in (*said, *(clause for clause, _ in frame.clauses)):
        for piece in clause.of("SAME_HOUSE", "ONLY_PLACE", "LAST_CELL"):
            words = ITS_HOUSE.search(piece.text) if piece.type != "SAME_HOUSE" else re.search(".*", piece.text)
            found = told.memory.same_house(words.group().strip(), (cell,) if cell else ()) if words else None
            if found is not None and not houses:
                houses = [Said(found)]
    types = {piece.type for clause, _ in frame.clauses for piece in clause.pieces}
    named = " ".join(
        piece.text for clause, _ in frame.clauses for piece in clause.of("SINGLE_NAME", "ONLY_PLACE", "ONLY_DIGIT")
    )
    hidden = [reason_of("hidden single", in_=[house]) for house in houses] or [reason_of("hidden single")]
    last = [reason_of("last cell", in_=[house]) for house in houses] or [reason_of("last cell")]
    naked = [reason_of("naked single")]
    if "hidden single" in named:
        yield from hidden
    elif "naked single" in named:
        yield from naked
    elif "full house" in named or "last cell" in named:
        yield from last
    elif "LAST_CELL" in types and any(len({*clause.values("digits")}) > 1 for clause in said if clause.has("LAST_CELL")):
        yield from (*hidden, *naked)  # "Column 9 is short of a 4 and a 7"
    elif "LAST_CELL" in types:
        yield from last
        if "ONLY_PLACE" in types:
            yield from hidden
        if not houses:
            yield from naked
    elif "ONLY_PLACE" in types and "ONLY_DIGIT" in types:
        yield from (*hidden, *naked, *last)
    elif "ONLY_PLACE" in types:
        yield from hidden
        if any(
            "left" in p.text or "remaining" in p.text or "open" in p.text or "last" in p.text for p in told.texts("ONLY_PLACE")
        ):
            yield from last
    elif types & {"ONLY_DIGIT", "ALL_ELSE"}:
        yield from naked
        if any("left" in p.text or "last" in p.text or "remaining" in p.text for p in told.texts("ONLY_DIGIT")):
            yield from last
    elif cell is not None and _elsewhere(frame, cell, geometry):
        yield from (*hidden, *last)  # "box 9 gets its 8 at r8c5": without box 9 it is another claim
    else:
        yield from (*hidden, *last, *naked, None) if houses else (*naked, *hidden, *last, None)


def _elsewhere(frame: Frame, cell: Cell, geometry: Geometry) -> bool:
    """Is the cell said to be filled in houses of which none holds it?"""
    told = [clause for clause, _ in frame.clauses if clause in frame.placing or clause.has("NEEDED", "QUESTION")]
    houses = [house for clause in told for house in clause.values("houses")]
    return bool(houses) and all(cell not in geometry.cells_of[house] for house in houses)


def _just_filled(frame: Frame, clause: Clause) -> bool:
    """``We've just put a seven in the top row, so ...``: where the digit was put before, and is not put now."""
    before = clause.has("ALREADY") or any(piece.text == "just" for piece in clause.of("ONLY"))
    told = clause in frame.support and before and clause.has("DIGITS")
    return told and not clause.has("NEEDED", "QUESTION", "LEAN", "CELLS")


def _near(frame: Frame) -> list[Clause]:
    """The clauses of the effect's sentence and of the one before it."""
    return [clause for clause, number in frame.clauses if 0 <= frame.effect_at - number <= 1]


def _clauses_with(frame: Frame, *types: str) -> list[Clause]:
    return [clause for clause, _ in frame.clauses if clause.has(*types)]


def _facts(told: Told) -> Iterator[Reason]:
    """No pattern: the facts that the words cite. A cell that is said to see others is what loses something."""
    seers = [clause for clause in told.clauses if clause.has("SEE_BOTH")]
    seeing = {cell for clause in seers for cell in clause.values("cells")}
    facts = facts_of([said for said in told.order if said.value not in seeing])
    if facts:
        yield reason_of("facts", bare=facts)


def facts_of(order: Sequence[Said[Any]]) -> list[Said[Any]]:
    """What the cells may hold, and where the digits may go in the houses named beside them."""
    facts: list[Said[Any]] = []
    digits: list[Said[Any]] = []
    houses: list[Said[Any]] = []
    for said in order:
        value = said.value
        if isinstance(value, int):
            if houses and digits:
                facts += [Said(PlaceFact(d.value, h.value), d.span) for d in digits for h in houses]
                digits, houses = [], []
            elif houses and not digits:
                facts += [Said(PlaceFact(value, h.value), said.span) for h in houses]
                houses = []
                continue
            digits.append(said)
        elif hasattr(value, "kind"):
            houses.append(said)
        else:
            facts.append(Said(CellFact(value), said.span))
    facts += [Said(PlaceFact(d.value, h.value), d.span) for d in digits for h in houses]
    return once(facts)


def without_effect(frame: Frame, found: Sequence[Reason | None]) -> Iterator[tuple[Step, ...]]:
    """A pattern told with no effect: whatever it proves; a single without its filling: as much of it as was said."""
    chained = [reason for reason in found if reason is not None]
    if frame.hypotheses and chained:
        yield from _concluded(chained)
        return
    singles = ("hidden single", "naked single", "last cell")
    told = [clause for clause in frame.reasons if clause.has("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "SINGLE_NAME")]
    for reason in chained:
        if reason.name.value in singles:
            cells = once(c for clause in told for mention in clause.named("cells") for c in mention.values)
            digits = once(d for clause in told for mention in clause.named("digits") for d in mention.values)
            everything = [mention for clause, _ in frame.clauses for mention in clause.named("cells")]
            cells = cells or once(said for mention in everything for said in mention.values)
            # "Box 8 still needs a 4, and since r9c6 is the only cell there that can take it, ..."
            asked = [clause for clause, _ in frame.clauses if clause.has("NEEDED")]
            digits = digits or once(d for clause in asked for mention in clause.named("digits") for d in mention.values)
            if len(cells) <= 1 and len(digits) <= 1 and (cells or digits):
                yield (Step((Placement(cells[0] if cells else None, digits[0] if digits else None),), reason),)
        elif reason.name.value != "facts" and any(slot.values for slot in reason.slots):
            yield (Step((Removal((), ()),), reason),)


def _concluded(found: Sequence[Reason]) -> Iterator[tuple[Step, ...]]:
    """A chain whose last link is what it shows, or that shows what it may."""
    for reason in found:
        if reason.name.value != "chain":
            yield (Step((Removal((), ()),), reason),)
            continue
        chain = reason.slots[0].values
        *rest, last = chain
        link, begun = last.value, chain[0].value
        back = isinstance(link, Link) and isinstance(begun, Link) and (not link.holds or link.cell == begun.cell)
        if isinstance(link, Link) and back and len(rest) > 1:
            cell, digit = Said(link.cell, last.span), Said(link.digit, last.span)
            effect: Effect = Placement(cell, digit) if link.holds else Removal((cell,), (digit,))
            yield (Step((effect,), Reason(reason.name, (Slot("", tuple(rest)),))),)
            yield (Step((effect,), reason),)
        else:
            yield (Step((Removal((), ()),), reason),)
