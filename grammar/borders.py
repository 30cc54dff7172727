"""Where a step that is being told ends: at what no longer belongs to it, and before effects that the next reason shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from .clauses import REMOVALS, Clause
from .frame import Frame
from .statements import Placement, Removal, Said
from .suppositions import links

POINTING_BACK = ("PRONOUN", "PRONOUNS", "OTHER_ONE", "THAT_DIGIT", "NTH_CELL")
"""Pieces that stand for a cell or a digit named before."""


def leaves_chain(frame: Frame, clause: Clause, opening: str) -> bool:
    """Can it be neither the next link of the chain that is being told nor what it shows? Then another step begins.

    Without a word like "then", a link is in the cell of the one before or has its digit; what the chain shows is in a cell
    or of a digit of its ends. The last link may have been what it shows.
    """
    if not frame.hypotheses or not clause.first or clause.has(*POINTING_BACK):
        return False
    chains = links(frame.hypotheses)
    if clause.has("IF"):
        return _supposes_anew(frame, clause, chains)
    if opening != "now" and (clause.has("LEADS") or clause.joints & {"SO", "THEN"}):
        return False
    if len(chains) != 1 or len(chains[0]) < 3 or not clause.has("DIGITS") or not clause.has("CELLS", "HOUSES"):
        return False
    first, last = chains[0][0].value, chains[0][-1].value
    cells = {*clause.values("cells")}
    if last == first._replace(holds=not first.holds) and first.cell not in cells:
        return True  # what was supposed is refuted
    ends = [said.value for said in (chains[0][0], *chains[0][-2:])]
    near = {value for link in ends for value in (link.cell, link.digit)}
    names = {value for kind in ("cells", "digits") for value in clause.values(kind)}
    return near.isdisjoint(names)


def _supposes_anew(frame: Frame, clause: Clause, chains: Sequence[Sequence[Said[Any]]]) -> bool:
    """Is the chain's first link supposed again, or, after ``So r1c1 is not 9``, something of another cell and digit?"""
    begun = links([clause])
    if len(chains) != 1 or len(chains[0]) < 3 or len(begun) != 1:
        return False
    first, last, anew = chains[0][0].value, chains[0][-1].value, begun[0][0].value
    ended = frame.hypotheses[-1]
    concluded = "SO" in ended.joints and ended.first and ended.has(*REMOVALS)
    other = anew.cell not in (first.cell, last.cell) and anew.digit != first.digit
    undone = last == first._replace(holds=not first.holds)
    return bool(anew == first or undone or (concluded and other))


def refuted(frame: Frame) -> bool:
    """Was it supposed that a cell is a digit, and is all that was shown that it is not?"""
    chains = links(frame.hypotheses)
    if len(chains) != 1 or len(frame.effects) != 1:
        return False
    first, (effect,) = chains[0][0].value, frame.effects
    told = isinstance(effect, Removal) and [said.value for said in (*effect.cells, *effect.digits)]
    return bool(first.holds) and told == [first.cell, first.digit]


def all_told(frame: Frame) -> bool:
    """``So everything else goes from those three cells``: is that the last effect? Nothing is left to tell."""
    last = frame.effects[-1]
    concluded = bool(frame.effective) and "SO" in frame.effective[-1].joints
    return concluded and isinstance(last, Removal) and bool(last.cells) and not last.digits and frame.reasoned


def told_late(frame: Frame, first: int) -> Frame | None:
    """The effects told from that sentence on, taken out of a step that was told out before them; None if it was not."""
    late = [clause for clause, number in frame.clauses if number >= first]
    mere = all(clause in frame.effective or clause in frame.placing for clause in late)
    if not (frame.reasoned and mere and first in frame.told_in and any(number < first for number in frame.told_in)):
        return None
    count = sum(number < first for number in frame.told_in)
    after = Frame(
        clauses=frame.clauses[len(frame.clauses) - len(late) :],
        effects=frame.effects[count:],
        told_in=frame.told_in[count:],
        sentences=[number for number in frame.sentences if number >= first],
        effective=[clause for clause in late if clause in frame.effective],
        placing=[clause for clause in late if clause in frame.placing],
        effect_at=max(frame.told_in),
    )
    frame.effects, frame.told_in = frame.effects[:count], frame.told_in[:count]
    frame.clauses = frame.clauses[: len(frame.clauses) - len(late)]
    frame.sentences = [number for number in frame.sentences if number < first]
    frame.effective = [clause for clause in frame.effective if clause not in late]
    frame.placing = [clause for clause in frame.placing if clause not in late]
    frame.effect_at = max(frame.told_in)
    return after


def mere_effects(frame: Frame) -> bool:
    """Are removals all that was told, or one placement, in clauses that tell nothing else?"""
    told = all(any(clause is other for other in (*frame.effective, *frame.placing)) for clause, _ in frame.clauses)
    placed = [effect for effect in frame.effects if isinstance(effect, Placement)]
    return told and (not placed or len(frame.effects) == 1)


def shown_by(told: Frame, frame: Frame) -> Frame:
    """The effects of the one for the reason of the other."""
    told.clauses = [*told.clauses, *frame.clauses]
    told.sentences = [*told.sentences, *frame.sentences]
    told.reasons, told.hypotheses, told.support = frame.reasons, frame.hypotheses, frame.support
    told.explained = True
    return told
