"""A step being told: its clauses, by what they are, and what they name."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations
from typing import Any

from .clauses import REMOVALS, Clause
from .memory import KIND_WORDS
from .mentions import Mention
from .statements import Effect, Placement, Reason, Removal, RestOf, Said, Span, Step, Unsaid
from .vocabulary import Cell, Geometry, House


@dataclass
class Frame:
    """A step being told."""

    clauses: list[tuple[Clause, int]] = field(default_factory=list)
    reasons: list[Clause] = field(default_factory=list)
    effects: list[Effect] = field(default_factory=list)
    told_in: list[int] = field(default_factory=list)
    """Of each effect, the number of its sentence."""
    hypotheses: list[Clause] = field(default_factory=list)
    sentences: list[int] = field(default_factory=list)
    support: list[Clause] = field(default_factory=list)
    effective: list[Clause] = field(default_factory=list)
    placing: list[Clause] = field(default_factory=list)
    concluded: bool = False
    explained: bool = False
    """Was its effect told before what shows it?"""
    effect_at: int = -1
    loose: bool = False
    crossing: set[Any] = field(default_factory=set)
    line: Said[Any] | None = None
    sifted: bool = False
    """Were places named that a digit does not go in, so that one is left?"""
    of_fin: int = 0
    """The sentence, from 1, in which a fin of the pattern is supposed to be the digit, or not to be it."""

    @property
    def complete(self) -> bool:
        return bool(self.effects)

    @property
    def told_out(self) -> bool:
        """Is its effect told, with nothing supposed for it since?"""
        return self.complete and not self.explained

    @property
    def reasoned(self) -> bool:
        return bool(self.reasons or self.hypotheses)

    def values(self) -> set[Any]:
        """Everything named in it."""
        return {value for clause, _ in self.clauses for p in clause.pieces if p.mention for value in p.mention.bare}


def of_its_line(effects: tuple[Effect, ...], reason: Reason | None, frame: Frame) -> tuple[Effect, ...]:
    """``The twos of box 5 lie in one row; the rest of that row has none``: that row is the reason's."""
    (effect,) = effects if len(effects) == 1 else (None,)
    open_effect = isinstance(effect, Removal) and bool(effect.digits) and not effect.cells
    told = [piece.text.split()[-1] for clause in frame.effective if clause.has("REST") for piece in clause.of("SAME_HOUSE")]
    if reason is None or not open_effect or not told or reason.name.value not in ("pointing", "claiming"):
        return effects
    assert isinstance(effect, Removal)
    lines = (said for slot in reason.slots if slot.word in ("along", "within") for said in slot.values)
    houses = [Said(said.value, said.span) for said in lines if isinstance(said.value, House)]
    if len(houses) == 1 and KIND_WORDS.get(told[0]) == houses[0].value.kind:
        return (RestOf(houses[0], effect.digits),)
    return effects


def name_first_cell(clause: Clause, hypotheses: Sequence[Clause]) -> None:
    """What "the cell we began with" is, where something was supposed of one."""
    told = [mention for earlier in hypotheses for mention in earlier.named("cells")]
    for at, piece in enumerate(clause.pieces):
        if piece.type == "FIRST_CELL" and told:
            mention = Mention("cells", told[0].values[:1], piece.start, piece.end)
            clause.pieces[at] = replace(piece, type="CELLS", mention=mention)


def of_cases(steps: Sequence[Step], frame: Frame) -> set[Any]:
    """The digits of the pivot, through which an XY-wing was told case by case."""
    if not frame.hypotheses or not any(step.reason and step.reason.name.value == "xy-wing" for step in steps):
        return set()
    return {digit for clause in frame.hypotheses for digit in clause.values("digits")}


def crossing_cells(steps: Sequence[Step], geometry: Geometry) -> set[Any]:
    """The cells where the houses of a reason cross, which are told with them: the corners of an X-wing."""
    said = [said.value for step in steps for slot in (step.reason.slots if step.reason else ()) for said in slot.values]
    houses = {value for value in said if isinstance(value, House)}
    return {cell for one, two in combinations(houses, 2) for cell in {*geometry.cells_of[one]} & {*geometry.cells_of[two]}}


def everything_else(effect: Effect) -> bool:
    """Said of a cell before its digit is told."""
    return isinstance(effect, Removal) and len(effect.cells) == 1 and not effect.digits


def cross(frame: Frame, ended: bool = False) -> None:
    """``In row 4 the 7 can only go in column 2``: the cell of a placement told by the two lines that meet in it.

    ``ended``: nothing more is told of it, so that ``the 4 of row 8 is in column 3`` is no line of a fish.
    """
    told = [clause for clause, _ in frame.clauses if clause.has("REST") or not clause.has("ALREADY", "SEE")]
    sought = [clause for clause in told if clause.has("NEEDED")]
    if sought:  # "column 2 is out"
        told = [clause for clause in told if clause in sought or not clause.has("GONE", "DENY") or clause.has("REST", "CELLS")]
    if frame.sifted:
        told = [clause for clause in told if "BECAUSE" not in clause.joints]  # "it can't be column 5, thanks to the 9 in r2c5"
    if frame.crossing or frame.hypotheses:
        return
    if any(clause.has("CELLS", "OTHER_ONE", "LOCKED", "FISH", "SUBSET") for clause in told):
        return
    houses = {said.value: said for clause in told for mention in clause.named("houses") for said in mention.values}
    if {"r", "c"} <= {house.kind for house in houses}:
        mere = [clause for clause in told if [piece.type for piece in clause.pieces] == ["HOUSES"]]
        boxes = {house for clause in mere for house in clause.values("houses") if house.kind == "b"}
        houses = {house: said for house, said in houses.items() if house not in boxes}  # "box 9 has one, too"
    digits = {said.value: said for clause in told for mention in clause.named("digits") for said in mention.values}
    if len(houses) > 2:
        # "Box 8 is done, and column 6 lacks only its 8, in row 2"
        houses = {h.value: h for clause in told if clause.has("DIGITS") for m in clause.named("houses") for h in m.values}
    if sorted(house.kind for house in houses) != ["c", "r"] or len(digits) != 1:
        return
    lines = {house.kind: house.number for house in houses}
    meeting = Cell(lines["r"], lines["c"])
    (effect,) = frame.effects if len(frame.effects) == 1 else (None,)
    fills = isinstance(effect, Placement) and (effect.cell is None or effect.cell.value == meeting)
    saying = ("ONLY_PLACE", "LAST_CELL", "SINGLE_NAME", "FORCE", "CONFINED", "ONLY")
    answered = bool(told) and [piece.type for piece in told[-1].pieces if piece.type != "FROM"] == ["HOUSES"]
    answered = answered and any(clause.has("QUESTION") and (clause.has("NEEDED") or clause.names) for clause in told[:-1])
    witnessed = bool(sought) and any(clause.has("ALREADY", "GONE") and not clause.has("REST") for clause, _ in frame.clauses)
    says = frame.sifted or answered or witnessed or any(clause.has(*saying) for clause in told)
    placed = any(clause.has("PLACE") or (ended and _in_line(clause)) for clause in told)
    if not fills and (frame.effects or not (says or placed)):
        return
    if any(clause.has(*REMOVALS) for clause in told):
        return
    frame.loose = frame.loose or not says
    frame.crossing = {meeting}
    frame.line = _line_of_last(told) or next(iter(houses.values()))
    (digit,) = digits.values()
    frame.effects = [Placement(Said(meeting, [*houses.values()][-1].span), digit)]
    frame.effect_at = frame.effect_at if frame.effect_at >= 0 else frame.sentences[-1]


def _in_line(clause: Clause) -> bool:
    """``The 4 of row 8 is in column 3``, ``Row 8 sends its 4 to column 3``: a digit and two lines, and nothing else."""
    types = [piece.type for piece in clause.pieces if piece.type not in ("BE", "FROM", "LEADS", "ALSO", "THEN")]
    may_be = any(piece.text == "be" for piece in clause.of("BE"))
    return sorted(types) == ["DIGITS", "HOUSES", "HOUSES"] and not may_be


def _line_of_last(told: Sequence[Clause]) -> Said[House] | None:
    """The line that lacks one cell: column 4, of ``Row 7 is the last of column 4``, and of ``Column 4 has one gap, row 7``."""
    for clause in told:
        types = [piece.type for piece in clause.pieces if piece.type in ("HOUSES", "LAST_CELL")]
        if types == ["HOUSES", "LAST_CELL", "HOUSES"]:
            (line, other) = clause.named("houses")
            has_one = clause.of("LAST_CELL")[0].text.startswith(("one ", "a single ", "single "))
            return (line if has_one else other).values[0]  # "row 4 has one gap left, column 7"
    return None


def plain(effect: Effect) -> bool:
    """Is everything said of the effect?"""
    if isinstance(effect, Placement):
        return effect.cell is not None and effect.digit is not None
    return isinstance(effect, Removal) and bool(effect.cells and effect.digits)


def named_in(frame: Frame) -> set[Any]:
    """The cells and digits that a step's claims name."""
    told = [
        clause for clause, _ in frame.clauses if clause not in frame.support and not clause.has("EITHER", "SEE_BOTH", "ALREADY")
    ]
    cells = {cell for clause in told for cell in clause.values("cells")}
    return cells | {said.value for clause in told for said in clause.digits}


def claimed(steps: tuple[Step, ...]) -> set[Any]:
    """The cells and digits that the statements place or take away."""
    return used(tuple(replace(step, reason=None) for step in steps))


def used(steps: Sequence[Step]) -> set[Any]:
    """The cells, digits and houses that come into the statements."""
    values: set[Any] = set()
    for step in steps:
        for effect in step.effects:
            if isinstance(effect, Placement):
                values |= {said.value for said in (effect.cell, effect.digit) if said is not None}
            elif not isinstance(effect, Unsaid):
                values |= {said.value for said in effect.digits}
                values |= {said.value for said in (*effect.cells, *effect.kept)} if isinstance(effect, Removal) else set()
        for slot in step.reason.slots if step.reason else ():
            for said in slot.values:
                value = said.value
                values |= {value, getattr(value, "cell", None), getattr(value, "digit", None)}
    return values


def placed_at(step: Step, spans: Mapping[str, Span], time: float | None) -> Step:
    """The step with a place for everything that has none of its own."""
    effects = tuple(replace(effect, span=spans["effect"]) for effect in step.effects)
    reason = step.reason
    if reason is not None:
        reason = replace(reason, name=Said(reason.name.value, spans["reason"]), span=spans["reason"])
    return Step(effects, reason, None, time, None, spans["effect"])
