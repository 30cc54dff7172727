"""Clauses put together to steps: which effect goes with which reason, across sentences."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations
from typing import Any

from . import patterns
from .clauses import PLACEMENTS, REASONS, REMOVALS, Clause, Sentence
from .crossings import with_cells
from .effects import placements, removals
from .memory import KIND_WORDS, Memory
from .mentions import Mention
from .reading import Reading
from .statements import Effect, Marking, Placement, Reason, Removal, RestOf, Said, Span, Step, Unsaid
from .suppositions import links, told_by_cases
from .vocabulary import Cell, Geometry, House
from .words import Script, Word

SINGLES = ("naked single", "hidden single", "last cell", "facts")
NAMED = ("SUBSET", "FISH", "XY_WING", "CHAIN_NAME")
FRESH = {
    "now",
    "next",
    "okay",
    "ok",
    "right",
    "well",
    "alright",
    "moving",
    "then",
    "ooh",
    "look",
    "here",
    "there",
    "oh",
    "um",
    "uh",
    "let",
    "all",
}
"""A sentence that begins so does not go on with the effects of the one before."""
SEEING_WHY = [["to", "see", "why"], ["to", "see", "it"], ["to", "see", "this"], ["to", "see", "that"]]
GROUNDS = {"because", "reason", "cause", "ground", "grounds", "owe"}
"""Near the beginning of a sentence one of these says that it gives the reason of what was told: ``My reason is that ...``."""
CONTINUING = {"also", "and", "plus", "moreover", "likewise", "similarly", "besides", "furthermore", "additionally"}
EITHER_WAY = ("either way", "in either", "in each", "in any", "in both", "both ways", "whichever", "no matter")
PROMISING = re.compile(
    r"\b(as (i|we) (shall|will|can|am about to|hope to) (now )?(show|prove|explain|demonstrate)( you)?"
    r"|(the|my) (proof|argument|reasoning|explanation) (is|goes|runs|follows|comes)( (short|simple|easy|like this|so))?"
    r"|(this|here|that) is (why|how)|for the following reason|why is that|(you|some) (will|may|might) ask (me )?why"
    r"|how so|how come|how do (i|we|you) know)( \?| [;:,])?"
)
"""A sentence that says so, and that of which it ends so, is explained by the next."""
GOING_ON = {"and", "which", "so", "because", "meaning", "that", "therefore", "hence", "but", "with"}
"""A sentence that begins so goes on with what was told, whatever was said between."""
ANNOUNCING = {"reason", "reasons", "proof", "argument", "explanation", "demonstration", "justification", "grounds"}
CARRYING_ON = {"this", "that", "so", "they", "these", "those", "its", "it", "then", "consequently", "therefore", "thus"}
"""A sentence that begins so goes on with a reason that was announced."""
THIRD_PERSON = re.compile(
    r"(takes|denies|excludes|bars|removes|keeps|forbids|strips|robs|rules|eliminates|kills|deprives|strikes|costs)\b"
)
EXPLAINING = {"because", "since", "after", "why", "reason", "as", "remember"}


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


class Teller:
    """Takes sentences one by one and gives readings."""

    def __init__(self, script: Script, geometry: Any) -> None:
        self.script = script
        self.geometry = geometry
        self.memory = Memory(geometry)
        self.frame = Frame()
        self.told: Frame | None = None
        self.kinds: list[str] = []
        self.readings: list[Reading] = []
        self.words: list[tuple[int, int]] = []
        self.opens = True
        self.talked = False
        """Was nothing named yet in this paragraph?"""
        self.sentences: list[Sentence] = []
        self.explaining = False
        """Was the last sentence a mere "Why?"?"""
        self.turn = ""
        """The first word of the talk just before in run-on speech, where it turns to something else: "let us see"."""
        self.asked = False
        """Was the sentence before a question?"""

    def tell(self, sentence: Sentence) -> None:
        """The next sentence."""
        number = len(self.kinds)
        self.asked = bool(self.sentences) and self.sentences[-1].asked
        self.kinds.append("talk")
        self.sentences.append(sentence)
        self.words.append((sentence.words[0].start, sentence.words[-1].end) if sentence.words else (0, 0))
        if sentence.astray:
            self.flush()
            self._unread(number)
            return
        opening = sentence.words[0].norm if sentence.words else ""
        first = sentence.clauses[0].joints if sentence.clauses else set()
        early = any(word.norm in GROUNDS for word in sentence.words[1:7]) and "BECAUSE" in first
        if self.explaining or early or [word.norm for word in sentence.words[:3]] in SEEING_WHY:
            opening = "because"
        promised = PROMISING.search(" ".join(word.norm for word in sentence.words))
        asked_why = "why" in (opening, *(word.norm for word in sentence.words[-1:]))
        self.explaining = not sentence.names and (asked_why or _announces_reason(sentence))
        ends_so = promised is not None and (not sentence.names or promised.end() == promised.endpos)
        self.explaining = self.explaining or ends_so
        if [word.norm for word in sentence.words[:2]] == ["all", "of"]:
            opening = "of"  # "all of them": they were spoken of before
        opening = self._turning(sentence, opening)
        if opening in ("since", "as") and self._tells_own(sentence):
            self.flush()
            opening = ""
        if [word.norm for word in sentence.words[:2]] == ["there", "goes"]:
            opening = "goes"  # that is an effect, and opens nothing
        if not self.script.opens_at(sentence.words[0].start if sentence.words else 0) and self._carries_on(sentence):
            opening = "because"
        self.opens = self.talked or (bool(sentence.words) and self.script.opens_at(sentence.words[0].start))
        alone = sentence.names and any(clause.has("NO_REASON") for clause in sentence.clauses)
        if alone:
            self.flush()  # it does not go on with the step before, whose reason it would take
        for at, clause in enumerate(sentence.clauses):
            if at and not clause.joints and not self.script.punctuated:
                # Run-on speech: what begins here is a sentence of its own.
                number, opening = len(self.kinds), ""
                self.kinds.append("talk")
                self.sentences.append(sentence)
                self.words.append((sentence.words[clause.pieces[0].start].start, self.words[-1][1]))
            if at == 0 and self.frame.complete and (self.frame.reasoned or opening not in CONTINUING) and _whole(sentence):
                self.flush()
            if not self.script.punctuated:
                clause = with_cells(self._answered(clause), [told for told, _ in self.frame.clauses if not self.frame.complete])
            kind = self._kind(clause, sentence)
            self._feed(clause, kind, number, opening, first=at == 0)
            self.memory.hear(clause)
        if _announces_reason(sentence) and not sentence.names:
            self._announced()
        waits = self.frame.explained and not self.frame.reasoned and number not in self.frame.told_in
        if opening == "because" and waits:
            self.explaining = True  # "Here is the reason. Consider r1c1 and r1c2. They are a pair."
        if alone:
            self.flush()
        fed = sentence.names or number in self.frame.sentences or self.explaining
        self.talked = self.opens and self.script.punctuated and not fed
        if promised is not None:
            self._leave_only(number)
        if opening == "because" and self.frame.complete and not self.frame.reasoned:
            self.explaining = True  # what was looked at first is not all of the reason

    def _leave_only(self, number: int) -> None:
        """``r7c8 is down to 4, 6 and 8. You will ask why.``: what is left is what is shown."""
        frame = self.frame
        if len(frame.clauses) == 1 and frame.complete:
            frame.reasons.clear()  # "r9c4 is left with 3 alone, as I shall show": the reason is to come
        told = frame.clauses[-1][0] if len(frame.clauses) == 1 and not frame.effects else None
        if told is None or not self._one_cell(told) or not _several_digits(told) or not told.has("ONLY_DIGIT", "KEEPS"):
            return
        cells = tuple(said for mention in told.named("cells") for said in mention.values)
        frame.effects.append(Removal(cells, ()))
        frame.effective.append(told)
        frame.reasons.clear()
        frame.effect_at = frame.sentences[-1] if frame.sentences else number

    def overhear(self, words: tuple[Word, ...]) -> None:
        """A sentence that claims nothing, whatever it says."""
        self.kinds.append("talk")
        self.sentences.append(Sentence(words, [], [], asked=False))
        self.words.append((words[0].start, words[-1].end))

    def _turning(self, sentence: Sentence, opening: str) -> str:
        """The word that the sentence opens with, or that of the talk before it, unless it goes on with what was told."""
        turn, self.turn = self.turn, ""
        if self.script.punctuated or opening in GOING_ON:
            return opening
        if not sentence.names and not sentence.asked and opening in FRESH:
            self.turn = opening
        return turn or opening

    def _answered(self, clause: Clause) -> Clause:
        """``Where can the 3 go? Only r8c8.``"""
        if not self.asked or not clause.first or clause.has(*REASONS, *REMOVALS) or not clause.has("CELLS"):
            return clause
        pieces = [replace(piece, type="ONLY_PLACE") if piece.type == "ONLY" else piece for piece in clause.pieces]
        return Clause(pieces, clause.joints, clause.first)

    def finish(self) -> None:
        """The end of the narration."""
        self.flush()

    # What a clause is

    def _kind(self, clause: Clause, sentence: Sentence) -> str:
        """``hypothesis``, ``reason``, ``removal``, ``placement``, ``both``, ``support``, ``mark`` or ``aside``."""
        if clause.has("MARK") and not clause.has("CELLS", "DIGITS"):
            return "mark"
        if clause.has("DONE") and not clause.has("CELLS", "HOUSES", *REASONS, *REMOVALS):
            return "aside"  # "and that is the 5 done"
        if clause.has("WHETHER") and not clause.has(*REASONS, *REMOVALS) and _only_one_each(clause):
            return "support"  # "either r1c1 is 2, or it is not"
        if self._left(clause):
            return "removal"
        if clause.has("ALL_ELSE") or (clause.has("ONLY_DIGIT") and not clause.has("DIGITS") and self._subset_waits()):
            if not (self._subset_waits() or any(map(self._subset, self.frame.reasons)) or clause.has("SUBSET")):
                return "reason"
            return "both" if clause.has(*REASONS) else "removal"
        if self._answers(clause):
            return "placement"
        named = clause.names or clause.has("PRONOUN", "PRONOUNS", "OTHER_ONE", "THOSE_DIGITS", "THAT_DIGIT", "SAME_HOUSE")
        if sentence.asked and clause.has("IF") and clause.names:
            return "hypothesis"
        if self._by_turns(sentence) and not clause.has(*REMOVALS):
            return "aside"
        if sentence.asked and clause.has(*NAMED) and not clause.has("PLACE", "FORCE"):
            return "reason"
        if sentence.asked or (clause.has("NEEDED") and not clause.has(*REASONS) and not self._puts(clause)):
            return "support" if clause.names else "aside"
        left = any(piece.text.startswith("leaves <C> with") for piece in clause.of("ONLY_DIGIT"))
        if left and clause.first and self.frame.reasoned and not self.frame.told_out and self._one_cell(clause):
            return "placement"  # "this leaves r1c1 with a 3"
        if any(piece.text.startswith("in the") for piece in clause.of("WHETHER")) and not clause.has(*REMOVALS):
            return "reason"  # "r1c1 is 3 or 5. In the first case r1c5 is 7, in the second r4c1 is"
        if clause.has("IF") and clause.has("FISH", "FINS"):
            # "if the fin is no 2, we have the jellyfish": how such a pattern works
            told = any(c.has("FISH", "FINS") for c in self.frame.reasons)
            return "aside" if told and not clause.has("CELLS") else "reason"
        if clause.has("IF") and clause.names:
            return "hypothesis"
        linked = bool(self.frame.hypotheses) or any(map(self._choice, self.frame.reasons))
        if linked and _disjoins(sentence) and not clause.has("REMOVE", "TAKE", "GONE", "REST", "SEE_BOTH"):
            self.frame.concluded = True
            return "support"  # "so r1c1 is a three, or else r4c5 is a six"
        if clause.has("CHAIN_NAME") and self.frame.hypotheses and not clause.has("IF"):
            self.frame.concluded = True  # "that is an X-chain"
        if (
            self.frame.hypotheses
            and self._choice(clause)
            and not clause.has(*REMOVALS)
            and clause.has("DIGITS")
            and self._comes_to(clause)
        ):
            self.frame.concluded = True
            return "support"  # "thus r1c1 or r4c5 is a five": what the chain comes to
        if clause.has("EITHER") and (self.frame.hypotheses or any(c.has("CHAIN_NAME") for c in self.frame.reasons)):
            self.frame.concluded = True
        if clause.has("FOLLOWS") and self.frame.reasoned:
            return "removal"
        if "SO" in clause.joints and self._removes(clause) and not clause.has("IF") and self._cases_meet():
            self.frame.concluded = True
        excepted = any("except" in piece.text or "apart" in piece.text for piece in clause.of("ONLY_PLACE"))
        if excepted and self._fish(*(earlier for earlier, _ in self.frame.clauses), clause):
            return "reason"
        finned = any(told.has("FINS") and told.has("EITHER", "FISH") for told in self.frame.reasons)
        if finned and not self.frame.complete and clause.has("BE") and _only_digit(clause):
            return "reason"  # "either the fin, r6c8, is a two, or ..."
        several = len({cell for mention in clause.named("cells") for cell in mention.bare}) > 1
        chain = any(c.has("CHAIN_NAME") for c in self.frame.reasons) and not self.frame.complete
        if several and chain and not clause.has("DIGITS", *REMOVALS):
            return "reason"
        follows = clause.has("LEADS") or (bool(clause.joints & {"SO", "THEN"}) and not clause.has("DENY"))
        linked = chain and clause.has("DIGITS") and follows
        supposed = bool(self.frame.hypotheses) or (linked and not clause.has("CHAIN_NAME"))
        if supposed and "BECAUSE" in clause.joints and _several_digits(clause) and not clause.has("CELLS", *REMOVALS):
            return "support"  # "then r7c6 is a 5, since 4 and 5 are all it has"
        going_on = self._supposed_here() or not self.frame.complete
        going_on = going_on or (self.frame.explained and not clause.has(*REASONS))
        if supposed and going_on and not self.frame.concluded and not clause.has("EITHER"):
            inside = self.frame.sentences[-1:] == [len(self.kinds) - 1]
            hard = (clause.has("REMOVE", "TAKE", "GONE") and not self._takes_one(clause)) or clause.has(
                "REST", "SEE_BOTH", "PICTURE"
            )
            spoken_of = clause.has("CELLS", "PRONOUN", "OTHER_ONE")
            spoken_of = spoken_of or (inside and clause.has("DENY", "BE") and _only_digit(clause))
            goes_on = inside or self._supposing(clause) or self._goes_from(clause) or self._takes_one(clause)
            if spoken_of and not hard and goes_on:
                return "hypothesis"
        if (
            self.frame.complete
            and self._fills(clause)
            and clause.has("BE", "FORCE", "PLACE", "ONLY_DIGIT")
            and not clause.has(*REMOVALS)
        ):
            return "placement"
        if self._no_other_cell(clause) or self._opens_others(clause, sentence):
            return "removal"
        reason = clause.has(*REASONS)
        if clause.has("ONLY_DIGIT") and not (clause.has("CELLS") and clause.has("DIGITS")) and not clause.has("DIGITS"):
            return "both" if self._one_cell(clause) else "reason"
        if not clause.has("REMOVE", "GONE", "TAKE"):
            named = clause.has("CELLS", "DIGITS", "THOSE_DIGITS")
        removal = self._removes(clause) and (named or clause.has("REST", "PICTURE", "SEE_BOTH", "EVERYTHING"))
        if removal and self._shut(clause):
            return "support"
        if removal and clause.has("ALREADY") and not clause.has("REMOVE", "TAKE", "GONE"):
            return "support"
        if "BECAUSE" in clause.joints and self._tells_digit(clause):
            return "both"
        if "BECAUSE" in clause.joints and not clause.first and (clause.names or clause.has("SAME_HOUSE")):
            return "reason"
        if "BECAUSE" in clause.joints and clause.has("REST") and len(clause.named("digits")) == 1 and not clause.has("CELLS"):
            return "reason"
        if removal and reason and not clause.has("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "CONFINED"):
            return "both"
        if removal and not (reason and not clause.has("REMOVE", "TAKE", "GONE")):
            return "removal" if not reason else "both"
        if self._choice(clause) and any(piece.text.startswith(EITHER_WAY) for piece in clause.of("EITHER")):
            return "support"  # what two cases come to is not all of the reason
        if self._subset(clause) or self._choice(clause) or self._all_places(clause):
            return "reason"
        if self._fish(clause) or self._intersection(clause) or clause.has("FISH", "PIVOT", "WINGS", "FINS", "COVER"):
            return "reason"
        placed = clause.has(*PLACEMENTS) or clause.has("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "SINGLE_NAME")
        digits = [d for mention in clause.named("digits") for d in mention.values]
        plural = any(mention.plural for mention in clause.named("digits"))
        if (
            placed
            and len(digits) == 1
            and not (plural and not clause.has("CELLS"))
            and not clause.has("SEE", "ALREADY", "CHAIN_NAME", "XY_WING")
            and not (clause.has("CONFINED") and not (clause.has("ONLY_PLACE") and self._one_cell(clause)))
        ):
            cells = [c for mention in clause.named("cells") for c in mention.values]
            if len(cells) == 1 or (not cells and self._anaphor(clause)):
                return "both" if reason else "placement"
            if len(cells) > 1 and not reason:
                return "placement"
        singles = clause.has("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "SINGLE_NAME")
        if singles and len(digits) == 1 and not clause.has("CELLS") and not clause.has("HOUSES") and self._cell_awaits():
            return "both"
        if (
            singles
            and not digits
            and self._one_cell(clause)
            and (self._digit_awaits() or clause.has("ONLY_DIGIT", "THAT_DIGIT"))
        ):
            return "both"
        if reason:
            if not digits and len(clause.named("cells")) == 1 and clause.has("PRONOUN", "THAT_DIGIT") and self.frame.reasoned:
                return "reason" if clause.has("LEAN", "FACT") else "placement"
            return "reason"
        if placed and not digits and (self._one_cell(clause) or clause.has("OTHER_ONE")) and self._digit_awaits():
            return "placement"
        two = len(digits) == len(clause.named("digits")) == len(clause.named("cells")) == 2
        if placed and two and not clause.has("EITHER"):
            return "placement"
        if clause.has("ALREADY", "SEE", "SEE_BOTH") and clause.names:
            return "support"
        return "support" if clause.names or clause.has("SAME_HOUSE") else "aside"

    def _supposed_here(self) -> bool:
        """Was something supposed earlier in the sentence?"""
        told = {id(clause) for clause in self.frame.hypotheses}
        return any(id(clause) in told for clause, number in self.frame.clauses if number == len(self.kinds) - 1)

    def _no_other_cell(self, clause: Clause) -> bool:
        """Said after a pattern, "no other cell of row 2 can be 7" is its effect and no reason of a single."""
        others = _of_others(clause)
        waits = self.frame.clauses and not any(isinstance(effect, Placement) for effect in self.frame.effects)
        if waits and self.frame.told_out and self.frame.reasoned and len(self.kinds) - 1 - self.frame.sentences[-1] > 1:
            return False  # something was said between: it begins anew
        known = {d for earlier, _ in self.frame.clauses for mention in earlier.named("digits") for d in mention.bare}
        told = {digit for mention in clause.named("digits") for digit in mention.bare}
        return bool(
            others
            and "BECAUSE" not in clause.joints
            and waits
            and ((self.frame.reasoned and told <= known) or self._follows(clause) or self._around_looked_at(clause))
            and clause.has("HOUSES", "SAME_HOUSE", "SAME_HOUSES")
            and clause.has("DIGITS")
            and not clause.has("CELLS")
        )

    def _around_looked_at(self, clause: Clause) -> bool:
        """Are it the other cells of a house of the one that is looked at: ``Think about r7c7: no other cell of row 7 is 5``?"""
        earlier = [told for told, _ in self.frame.clauses]
        cells = {cell for told in earlier for mention in told.named("cells") for cell in mention.bare}
        houses = [house for mention in clause.named("houses") for house in mention.bare]
        looks = any(told.has("LEAN", "FACT") for told in earlier) and not any(told.has("DIGITS", "HOUSES") for told in earlier)
        around = bool(houses) and all(cells <= set(self.geometry.cells_of[house]) for house in houses)
        return looks and len(cells) == 1 and around

    def _cases_meet(self) -> bool:
        """Were two cases told that put the same digit in one cell or another?"""
        chains = links(self.frame.hypotheses)
        if len(chains) != 2 or not told_by_cases(chains):
            return False
        one, two = (chain[-1].value for chain in chains)
        return bool(one.digit == two.digit and one.cell != two.cell and one.holds and two.holds)

    def _by_turns(self, sentence: Sentence) -> bool:
        """Is it how a pair works: ``If one of them is 4, the other one is 9``?"""
        pair = any(clause.has("SUBSET") or self._subset(clause) for clause in self.frame.reasons)
        supposed = any(clause.has("IF") and clause.has("EITHER", "PRONOUN") for clause in sentence.clauses)
        return pair and supposed and any(clause.has("OTHER_ONE") for clause in sentence.clauses) and not _names_cells(sentence)

    def _answers(self, clause: Clause) -> bool:
        """Is it a digit and nothing more, after a question: ``So what's left for r1c1? A nine!``, ``Which? A nine in r1c1.``"""
        names = [piece.mention for piece in clause.pieces if piece.type != "FROM"]
        bare = all(mention is not None and len(mention.values) == 1 for mention in names)
        kinds = sorted(mention.kind for mention in names if mention is not None)
        if (
            kinds == ["cells", "digits"]
            and clause.joints <= {"THEN", "COMMA"}
            and "THEN" in clause.joints
            and not self.frame.hypotheses
        ):
            return bare and clause.first  # "next, 7 at r6c3"
        answers = kinds == ["cells", "digits"] or (kinds == ["digits"] and self._cell_awaits())
        return bare and clause.first and self.asked and answers

    @staticmethod
    def _puts(clause: Clause) -> bool:
        """``The missing 8 drops into r6c4``, ``the 5 it needs goes in row 1``."""
        places = [value for kind in ("cells", "houses") for mention in clause.named(kind) for value in mention.values]
        digits = [digit for mention in clause.named("digits") for digit in mention.values]
        missing = any(piece.text in ("missing", "needed") for piece in clause.of("NEEDED"))
        return missing and len(places) == len(digits) == 1 and clause.has("PLACE", "FORCE")

    def _tells_digit(self, clause: Clause) -> bool:
        """``... since the one candidate in there is 4``: the digit of the cell that is to be filled."""
        digits = [digit for mention in clause.named("digits") for digit in mention.values]
        return clause.has("ONLY_DIGIT") and len(digits) == 1 and not clause.has("CELLS", "HOUSES") and self._cell_awaits()

    def _shut(self, clause: Clause) -> bool:
        """Said of a digit just placed, "every other cell in box 9 is out" is why."""
        placed = any(isinstance(effect, Placement) for effect in self.frame.effects)
        return placed and "BECAUSE" in clause.joints and clause.has("REST") and not clause.has("CELLS", "DIGITS", "PRONOUNS")

    def _follows(self, clause: Clause) -> bool:
        """Is it what comes of a cell that was looked at: ``whatever you do with r7c7, no other cell of row 7 can be 5``?"""
        leaning = [piece for reason in self.frame.reasons for piece in reason.of("LEAN")]
        either_way = any(piece.text.startswith(("whatever", "whichever", "however")) for piece in leaning)
        return bool(leaning) and not self.frame.complete and ("SO" in clause.joints or either_way)

    def _subset_waits(self) -> bool:
        """Was a pair, triple or quad told and its effect not yet?"""
        told = any(clause.has("SUBSET") or self._subset(clause) or self._all_places(clause) for clause in self.frame.reasons)
        return (told or self._places_told()) and not self.frame.complete

    def _places_told(self) -> bool:
        """Were as many cells as digits named, and these said to have no other place?"""
        if not any(clause.has("ONLY_PLACE", "CONFINED", "FACT") for clause in self.frame.reasons):
            return False
        cells, digits = (
            {value for clause in self.frame.reasons for mention in clause.named(kind) for value in mention.bare}
            for kind in ("cells", "digits")
        )
        return len(cells) == len(digits) > 1

    def _left(self, clause: Clause) -> bool:
        """Is it told by what is left in some cells that everything else goes from them?"""
        frame = self.frame
        digits = {digit for mention in clause.named("digits") for digit in mention.bare}
        cells = {cell for mention in clause.named("cells") for cell in mention.bare}
        if (clause.has("PRONOUNS") or (clause.has("KEEPS") and frame.reasoned)) and not cells:
            cells = {said.value for said in self.memory.several}
        if clause.has("SUBSET") or not cells or len(digits) < 2 or not clause.has("KEEPS", "ONLY_DIGIT"):
            return False
        if frame.complete or not (frame.reasoned or frame.hypotheses):
            return clause.has("KEEPS") and len(cells) != len(digits)
        names = " ".join(piece.text for told in frame.reasons for piece in told.of("SUBSET", "HOW"))
        if any(word in names for word in patterns.NAKED):
            return False  # such cells hold nothing else as it is
        if frame.hypotheses:
            return clause.has("KEEPS") or (frame.concluded and clause.has("ONLY_DIGIT"))
        hidden = any(word in names for word in patterns.HIDDEN) or self._places_told()
        return hidden or "SO" in clause.joints or (not names and clause.has("KEEPS"))

    @staticmethod
    def _removes(clause: Clause) -> bool:
        hidden = any(word in piece.text for piece in clause.of("SUBSET", "HOW") for word in patterns.HIDDEN)
        if clause.has("REMOVE", "GONE", "TAKE", "ALL_ELSE") or (hidden and clause.has("KEEPS")):
            return True
        return clause.has("DENY") or (
            clause.has("REST") and clause.has("NO", "REST") and clause.has("DIGITS") and _no_other(clause)
        )

    def _anaphor(self, clause: Clause) -> bool:
        if clause.has("SAME_HOUSES", "CONFINED", "SEE", "PRONOUNS"):
            return False
        return clause.has("PRONOUN", "OTHER_ONE") or self._cell_awaits()

    @staticmethod
    def _intersection(clause: Clause) -> bool:
        """Is a digit's place told by a line and a box, and by no cell?"""
        kinds = sorted(house.kind for mention in clause.named("houses") for house in mention.bare)
        digits = {digit for mention in clause.named("digits") for digit in mention.bare}
        return kinds in (["b", "c"], ["b", "r"]) and len(digits) == 1 and not clause.has("CELLS", "LEAN", "FACT")

    def _all_places(self, clause: Clause) -> bool:
        """Are as many cells named as digits were before, for these to go in?"""
        cells = {cell for mention in clause.named("cells") for cell in mention.bare}
        told = [earlier for earlier, _ in self.frame.clauses if earlier not in self.frame.effective]
        digits = {d for earlier in told for mention in earlier.named("digits") for d in mention.bare}
        waits = not self.frame.told_out and len(cells) == len(digits) > 1 and not clause.has("DIGITS")
        return waits and clause.has("FORCE", "PLACE", "ONLY", "ONLY_PLACE", "CONFINED", "BE")

    @staticmethod
    def _choice(clause: Clause) -> bool:
        """One of two cells is the digit: a link of a chain of places."""
        digits = [digit for mention in clause.named("digits") for digit in mention.bare]
        pair = any(mention.choice and len(mention.values) == 2 for mention in clause.named("cells"))
        return pair and len(digits) <= 1

    @staticmethod
    def _one_cell(clause: Clause) -> bool:
        return len({cell for mention in clause.named("cells") for cell in mention.bare}) == 1

    def _digit_awaits(self) -> bool:
        """Was one digit spoken of, and no cell yet, in the step that is being told?"""
        if self.frame.complete:
            return False
        told = [clause for clause, _ in self.frame.clauses if not clause.has("CELLS")]
        return len({d for clause in told for mention in clause.named("digits") for d in mention.bare}) == 1

    def _cell_awaits(self) -> bool:
        """Was one cell spoken of in the step that is being told, and no digit put there yet?"""
        if self.frame.complete:
            return False
        cells = {c for clause, _ in self.frame.clauses for mention in clause.named("cells") for c in mention.bare}
        return len(cells) == 1

    @staticmethod
    def _fish(*clauses: Clause) -> bool:
        """Are as many rows as columns named, two at least?"""
        kinds = [house.kind for clause in clauses for mention in clause.named("houses") for house in mention.bare]
        return kinds.count("r") == kinds.count("c") >= 2

    def _comes_to(self, clause: Clause) -> bool:
        """Are both ends of the chain named, or is it said that it follows?"""
        chains = links(self.frame.hypotheses)
        cells = {cell for mention in clause.named("cells") for cell in mention.bare}
        ends = {chain[at].value.cell for chain in chains[-1:] for at in (0, -1)}
        return "SO" in clause.joints or cells == ends

    def _long_since(self, number: int) -> bool:
        """Were several sentences of talk said since the step was told? In speech such words mean little."""
        return self.script.punctuated and number - self.frame.sentences[-1] > 2

    def _goes_from(self, clause: Clause) -> bool:
        """Does it start from the link told last: ``With 3 in r5c6, r6c6 is not 3``?"""
        chains = links(self.frame.hypotheses)
        if not chains or clause.has(*REASONS):
            return False
        last = chains[-1][-1].value
        cells = [cell for mention in clause.named("cells") for cell in mention.bare]
        digits = {digit for mention in clause.named("digits") for digit in mention.bare}
        return len(cells) in (1, 2) and cells[0] == last.cell and last.digit in digits

    def _supposing(self, clause: Clause) -> bool:
        return bool(clause.joints & {"SO", "THEN"}) or clause.has("LEADS", "THEN", "FORCE")

    @staticmethod
    def _subset(clause: Clause) -> bool:
        """Are as many cells as digits named, two at least, and said to be them?"""
        cells = list(clause.named("cells"))
        digits = list(clause.named("digits"))
        return (
            len(cells) <= 1
            and len(digits) == 1
            and len(digits[0].values) > 1
            and ((bool(cells) and len(cells[0].values) > 1) or clause.has("PRONOUNS"))
        )

    # What becomes of it

    def _feed(self, clause: Clause, kind: str, number: int, opening: str, first: bool) -> None:
        frame = self.frame
        if kind == "aside":
            return
        if kind == "mark":
            self._marked(number)
            return
        same = bool(frame.sentences) and frame.sentences[-1] == number
        if not same:
            _crossed(frame)
        looked_at = not same and not frame.complete and not frame.reasoned and bool(frame.support)
        elsewhere = kind == "support" and clause.has("NEEDED", "QUESTION")
        if looked_at and (self.opens or number - frame.sentences[-1] > 2 or elsewhere):
            self.frame = frame = Frame()  # what was only looked at is soon forgotten
        if self.opens and first and not frame.complete and frame.reasoned and not clause.joints & {"SO", "THEN"}:
            self.flush()
            frame = self.frame
        if self.opens and first and frame.complete and kind != "hypothesis" and not self._explains(kind, opening):
            self.flush()
            frame = self.frame
        fresh = first and opening in FRESH and kind != "hypothesis" and not self._goes_on(opening, kind)
        if first and frame.complete and kind in ("removal", "placement", "both") and self._long_since(number):
            self.flush()  # after so much talk another step begins
            frame = self.frame
        said = {value for mention in (p.mention for p in clause.pieces) if mention for value in mention.bare}
        other = frame.reasoned and kind != "removal" and said and not said & frame.values()
        if fresh and (frame.complete or other):
            self.flush()
            frame = self.frame
        if frame.complete and kind in ("reason", "both", "placement") and self._elaborates(clause):
            frame.clauses.append((clause, number))
            frame.reasons.append(clause)
            if number not in frame.sentences:
                frame.sentences.append(number)
            return
        entered = (
            first and kind in ("placement", "support") and clause.has("PLACE") and not clause.has("CELLS", "NEEDED", "QUESTION")
        )
        if ((same and kind == "placement") or (entered and not self.opens)) and self._repeats(clause):
            frame.clauses.append((clause, number))
            return
        also = "ALSO" in clause.joints and same and kind in ("placement", "removal")
        if frame.complete and (also or (kind in ("placement", "both") and self._fills(clause))):
            pass
        elif (frame.complete and self._new_step(clause, kind, number, opening, first, same)) or (
            not frame.complete and not same and self._other_reason(clause, kind, self.sentences[number].asked)
        ):
            self.flush()
            frame = self.frame
        if frame.complete and kind == "support" and not same and not self._told_after(opening) and opening not in EXPLAINING:
            self.flush()
            frame = self.frame
        if kind == "reason" and clause.has("PRONOUNS") and not clause.has("CELLS") and self.memory.several:
            # What "these cells" are is settled as it is said.
            at = next(i for i, piece in enumerate(clause.pieces) if piece.type == "PRONOUNS")
            piece = clause.pieces[at]
            here = {said.value for said in self.memory.several} <= frame.values()
            if here or "cell" in piece.text or "square" in piece.text:
                mention = Mention("cells", self.memory.several, piece.start, piece.end)
                clause.pieces[at] = replace(piece, type="CELLS", mention=mention)
        _name_first_cell(clause, frame.hypotheses)
        frame.clauses.append((clause, number))
        if number not in frame.sentences:
            frame.sentences.append(number)
        if kind == "support":
            frame.support.append(clause)
            return
        if kind == "hypothesis":
            frame.explained = frame.explained or (frame.complete and not frame.reasoned)
            frame.hypotheses.append(clause)
            frame.explained = frame.explained or frame.complete
            return
        if kind in ("reason", "both"):
            frame.reasons.append(clause)
        found: list[Effect] = []
        if kind == "removal" or (kind == "both" and self._removes(clause)):
            found = list(removals(clause, self.memory, self._pattern_cells(frame), frame.values()))
        if not found and kind in ("placement", "both"):
            found = list(placements(clause, self.memory, self._subject(frame, clause)))
        if found:
            cleared = isinstance(found[0], Placement) and not also and all(map(_everything_else, frame.effects))
            if self._fills(clause) or cleared:
                frame.effects.clear()
                frame.told_in.clear()
            frame.effects += found
            frame.told_in += [number] * len(found)
            if kind == "removal":
                frame.effective.append(clause)
            elif kind == "placement":
                frame.placing.append(clause)
            frame.effect_at = number

    def _told_after(self, opening: str) -> bool:
        """Is it part of what explains the effects that were told before?"""
        frame = self.frame
        return (frame.explained and frame.concluded) or (opening == "because" and not frame.reasoned) or self._only_called()

    def _new_step(self, clause: Clause, kind: str, number: int, opening: str, first: bool, same: bool) -> bool:
        """Does the clause begin another step?"""
        frame = self.frame
        if kind == "support":
            return False
        if kind == "hypothesis" and frame.explained:
            return bool(frame.hypotheses) and clause.has("IF") and not self._other_case(clause)
        if kind == "hypothesis":
            if self._told_first() and any(told.has("CHAIN_NAME") for told in frame.reasons):
                return False
            return not (frame.explained or self._supposed_here()) and (frame.reasoned or opening not in EXPLAINING)
        if same:
            if kind == "reason" and not self.script.punctuated:
                return frame.reasoned and "BECAUSE" not in clause.joints and clause.names
            if kind == "reason":
                return (
                    frame.reasoned
                    and "BECAUSE" not in clause.joints
                    and clause.has("DIGITS")
                    and bool(clause.joints & {"SO", "THEN"})
                )
            if kind == "placement" or kind == "both":
                if any(isinstance(effect, Placement) for effect in frame.effects):
                    return frame.reasoned or kind == "both"
                return kind == "both" and frame.reasoned and clause.has("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "SINGLE_NAME")
            return not any(not isinstance(effect, Placement) for effect in frame.effects)
        if kind == "removal" and any(not isinstance(effect, Placement) for effect in frame.effects):
            return (opening in FRESH and not self._goes_on(opening, kind)) or self.opens
        if kind == "reason" and not frame.reasoned:
            if any(word in piece.text.split() for piece in clause.of("LEAN") for word in ("it", "this", "that")):
                return False
            return opening not in EXPLAINING and not clause.has("PRONOUN", "PRONOUNS")
        called = clause.has(*NAMED) and not clause.names and clause.has("PRONOUN", "PRONOUNS")  # "that is an X-wing"
        return not (kind == "reason" and (opening in EXPLAINING or called or self._only_called() or self._links_on(clause)))

    def _links_on(self, clause: Clause) -> bool:
        """Is it one more house with two places, of a chain told after what it shows?"""
        frame = self.frame
        chain = any(told.has("CHAIN_NAME") or self._choice(told) for told in frame.reasons)
        return chain and self._choice(clause) and self._told_first()

    def _told_first(self) -> bool:
        """Were the effects told first, and then the reason?"""
        frame = self.frame
        numbers = [number for clause, number in frame.clauses if clause in frame.reasons]
        return frame.complete and bool(numbers) and numbers[0] > frame.effect_at

    def _only_called(self) -> bool:
        """Was a pattern called by name after its effects, and nothing said of what it is made of: ``It is a hidden quad``?"""
        frame = self.frame
        bare = not any(clause.has("CELLS", "HOUSES") for clause in frame.reasons)
        return self._told_first() and bare and not frame.hypotheses

    def _tells_own(self, sentence: Sentence) -> bool:
        """Does it give a reason and its own effect, ``Since ..., we may strike off 3 in r1c1``?"""
        told = self.frame.values()
        for clause in sentence.clauses[1:]:
            cells = {cell for mention in clause.named("cells") for cell in mention.bare}
            acts = clause.has("REMOVE", "TAKE", "GONE", "DENY", "PLACE", "FORCE", "BE") and "BECAUSE" not in clause.joints
            if self.frame.complete and acts and (cells - told or (clause.has("REST") and clause.has("HOUSES", "SAME_HOUSE"))):
                return True
        return False

    def _takes_one(self, clause: Clause) -> bool:
        """``..., which takes the 4 from r1c1``, said of what was found last: a link, and no effect as long as more follow."""
        at = next((at for at, piece in enumerate(clause.pieces) if piece.type in ("REMOVE", "TAKE")), -1)
        before, verb = clause.pieces[: max(at, 0)], clause.pieces[at]
        causing = next(
            (on for on in range(at + 1, len(clause.pieces)) if clause.pieces[on].type == "LEADS"), len(clause.pieces)
        )
        own = Clause(clause.pieces[max(at, 0) : causing])
        cells, digits = (sum(len(mention.values) for mention in own.named(kind)) for kind in ("cells", "digits"))
        one_each = digits == 1 and (cells == 1 or (cells == 0 and clause.has("PRONOUN")))
        subject = self.sentences[-1].words[:1]
        said_so = "SO" in clause.joints or (clause.first and bool(subject) and subject[0].norm in ("that", "this", "which"))
        said_so = (said_so and not before) or any(piece.type == "LEADS" for piece in before)
        return at >= 0 and one_each and said_so and verb.type in ("REMOVE", "TAKE") and bool(THIRD_PERSON.match(verb.text))

    def _carries_on(self, sentence: Sentence) -> bool:
        """Does it go on with a reason that was announced, told after its effect?"""
        first = [word.norm for word in sentence.words[:2]]
        return (
            self.frame.explained and bool(first) and (first[0] in CARRYING_ON or first == ["the", "same"] or _weighs(sentence))
        )

    @staticmethod
    def _opens_others(clause: Clause, sentence: Sentence) -> bool:
        """Is it "no other cell of row 4 may be 5; r1c1 cannot be 3 ...", one effect before others?"""
        others = [told for told in sentence.clauses if told is not clause]
        more = bool(others) and all(told.has(*REMOVALS) and told.has("CELLS") and told.has("DIGITS") for told in others)
        return clause.first and more and _house_without(clause)

    def _announced(self) -> None:
        """``Here is the reason.``: what was told before it is an effect."""
        frame = self.frame
        if not frame.complete and len(frame.clauses) == 1 and len(frame.reasons) == 1 and _house_without(frame.reasons[0]):
            (clause,) = frame.reasons
            frame.effects += removals(clause, self.memory, set(), frame.values())
            frame.told_in += [frame.sentences[-1]] * len(frame.effects)
            frame.reasons.clear()
            frame.effective.append(clause)
            frame.effect_at = frame.sentences[-1]
        self._part_before(frame.sentences[-1] if frame.sentences else 0)
        frame = self.frame
        frame.explained = frame.explained or (frame.complete and not frame.reasoned)

    def _part_before(self, last: int) -> None:
        """End a step that was told out before the sentence whose effects a reason is announced for."""
        frame = self.frame
        of_last = [clause for clause, number in frame.clauses if number == last]
        mere = all(clause in frame.effective or clause in frame.placing for clause in of_last)
        if not (frame.reasoned and mere and last in frame.told_in and any(number < last for number in frame.told_in)):
            return
        after = Frame(clauses=[(clause, last) for clause in of_last], sentences=[last], effect_at=last)
        after.effects = [effect for effect, number in zip(frame.effects, frame.told_in) if number == last]
        after.told_in = [last] * len(after.effects)
        after.effective = [clause for clause in of_last if clause in frame.effective]
        after.placing = [clause for clause in of_last if clause in frame.placing]
        frame.effects = frame.effects[: len(frame.effects) - len(after.effects)]
        frame.told_in = frame.told_in[: len(frame.effects)]
        frame.clauses = frame.clauses[: len(frame.clauses) - len(of_last)]
        frame.sentences = [number for number in frame.sentences if number != last]
        frame.effective = [clause for clause in frame.effective if clause not in of_last]
        frame.placing = [clause for clause in frame.placing if clause not in of_last]
        frame.effect_at = max(frame.told_in)
        self.flush()
        self.frame = after

    def _other_case(self, clause: Clause) -> bool:
        """Is something else supposed of the cell of which something was supposed first?"""
        first = [cell for told in self.frame.hypotheses[:1] for mention in told.named("cells") for cell in mention.bare]
        cells = [cell for mention in clause.named("cells") for cell in mention.bare]
        return not self.frame.concluded and (cells[:1] == first[:1] or not cells or clause.has("PRONOUN"))

    @staticmethod
    def _goes_on(opening: str, kind: str) -> bool:
        """Do such words open one more effect: ``There's no 5 in r1c1``, ``Oh, and r1c1 loses 3``?"""
        return opening in ("there", "oh", "all") and kind == "removal"

    def _elaborates(self, clause: Clause) -> bool:
        """Does it say again, or why, that the digit just placed has no other place, or the cell no other digit?"""
        placed = {e.digit.value for e in self.frame.effects if isinstance(e, Placement) and e.cell and e.digit}
        cells = {e.cell.value for e in self.frame.effects if isinstance(e, Placement) and e.cell and e.digit}
        digits = {digit for mention in clause.named("digits") for digit in mention.bare}
        named = {cell for mention in clause.named("cells") for cell in mention.bare}
        if not placed or not clause.has("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL") or self.opens:
            return False
        if not digits and not named:
            houses = [house for mention in clause.named("houses") for house in mention.bare]
            around = all(cells <= set(self.geometry.cells_of[house]) for house in houses)
            return around or clause.has("PRONOUN")
        return digits <= placed and named <= cells

    def _repeats(self, clause: Clause) -> bool:
        """Is it the placement just told once more: ``so 5 it is``?"""
        told = {(e.cell.value, e.digit.value) for e in self.frame.effects if isinstance(e, Placement) and e.cell and e.digit}
        cells = {cell for mention in clause.named("cells") for cell in mention.bare}
        digits = {digit for mention in clause.named("digits") for digit in mention.bare}
        again = len(told) == len(self.frame.effects) == 1 and bool(digits) and not clause.has("HOUSES", "IF")
        return again and all(cells <= {cell} and digits == {digit} for cell, digit in told)

    def _fills(self, clause: Clause) -> bool:
        """Was a placement told with its cell or its digit left open, which this clause gives?"""
        if len(self.frame.effects) != 1:
            return False
        (effect,) = self.frame.effects
        cells = {cell for mention in clause.named("cells") for cell in mention.bare}
        digits = {digit for mention in clause.named("digits") for digit in mention.bare}
        if not isinstance(effect, Placement) or len(cells) > 1 or len(digits) > 1:
            return False
        if effect.cell is None and effect.digit is not None:
            return bool(cells) and digits <= {effect.digit.value}
        if effect.digit is None and effect.cell is not None:
            return bool(digits) and cells <= {effect.cell.value}
        return False

    def _explains(self, kind: str, opening: str) -> bool:
        return kind == "reason" and opening in EXPLAINING

    def _other_reason(self, clause: Clause, kind: str, asked: bool) -> bool:
        """Does another step begin, though the one before was told without an effect?"""
        frame = self.frame
        if not frame.reasoned or clause.has("EITHER", "PRONOUN", "PRONOUNS", "SAME_HOUSES"):
            return False
        looks = clause.has("NEEDED", "LEAN") and not self._puts(clause)
        if clause.first and looks and clause.names and not self._complements(clause):
            return True
        if frame.hypotheses:
            return kind in ("reason", "both") or (kind == "support" and asked)
        if clause.has("SINGLE_NAME") and any(c.has("SINGLE_NAME") and c.has("CELLS", "DIGITS") for c in frame.reasons):
            return not (clause.has("CELLS", "DIGITS") and self._complements(clause))
        names = {piece.type for earlier in frame.reasons for piece in earlier.of(*NAMED)}
        others = {piece.type for piece in clause.of(*NAMED)}
        return bool(names and others and names != others) or (kind == "support" and asked)

    def _complements(self, clause: Clause) -> bool:
        """Does it name only what was named in this step already?"""
        return {v for piece in clause.pieces if piece.mention for v in piece.mention.bare} <= self.frame.values()

    @staticmethod
    def _pattern_cells(frame: Frame) -> set[Any]:
        return {value for clause in frame.reasons for mention in clause.named("cells") for value in mention.bare}

    def _subject(self, frame: Frame, clause: Clause) -> dict[str, Any]:
        """The cell and the digit that were spoken of in this step before."""
        cells: list[Any] = []
        digits: list[Any] = []
        for earlier, _ in frame.clauses[:-1]:
            if earlier is clause:
                continue
            for mention in earlier.named("cells"):
                cells = list(mention.values) if not earlier.has("ALREADY") else cells
            for mention in earlier.named("digits"):
                digits = list(mention.values) if not earlier.has("ALREADY", "SEE") else digits
        return {"cells": cells, "digits": digits}

    def flush(self) -> None:
        """End the step that is being told."""
        frame, self.frame = self.frame, Frame()
        if not frame.clauses:
            return
        _crossed(frame)
        options = list(self._options(frame))
        if not options:
            self._leave(frame)
            return
        for number in frame.sentences:
            self.kinds[number] = "claim"
        # What leaves out a name, or takes one from the sentences before, is not the only thing that the words can mean.
        borrowed = _claimed(options[0]) - frame.values() - frame.crossing
        told = used(options[0]) | _crossings(options[0], self.geometry) | _of_cases(options[0], frame)
        frame.loose = frame.loose or bool(_named(frame) - told or borrowed)
        first = frame.sentences[0]
        at = frame.effect_at if frame.effect_at >= 0 else first
        start, end = self.words[first][0], max(self.words[number][1] for number in frame.sentences)
        spans = {"effect": self.script.span(*self.words[at]), "reason": self._reason_span(frame)}
        time = self.script.passage(start).time
        steps = tuple(tuple(placed_at(step, spans, time) for step in option) for option in dict.fromkeys(options))
        text = self.script.text[start:end].replace("\n", " ")
        self.readings.append(Reading(steps, spans["effect"], text, time, tuple(frame.sentences), not frame.loose))
        self.told = frame

    def _marked(self, number: int) -> None:
        """Candidates are marked: a step of its own."""
        self.flush()
        start, end = self.words[number]
        span, time = self.script.span(start, end), self.script.passage(start).time
        text = self.script.text[start:end].replace("\n", " ")
        self.kinds[number] = "claim"
        self.readings.append(Reading((), span, text, time, (number,), marking=Marking(time=time, span=span)))

    def _reason_span(self, frame: Frame) -> Span:
        """Where the reason's name stands, or the first of its clauses."""
        for clause in (*frame.reasons, *frame.hypotheses, *(clause for clause, _ in frame.clauses)):
            number = next(number for other, number in frame.clauses if other is clause)
            words = self.sentences[number].words
            for piece in (*clause.of(*REASONS), *clause.pieces):
                return self.script.span(words[piece.start].start, words[min(piece.end, len(words)) - 1].end)
        raise AssertionError("a step has clauses")

    def _leave(self, frame: Frame) -> None:
        """Nothing came of it: an aside, or a claim that was not understood?"""
        for clause, number in frame.clauses:
            strong = clause.has(
                "REMOVE", "GONE", "SUBSET", "FISH", "XY_WING", "CHAIN_NAME", "FORCE", "ONLY_PLACE", "ONLY_DIGIT"
            )
            if strong and clause.names and self.kinds[number] == "talk":
                self._unread(number)

    def _unread(self, number: int) -> None:
        self.kinds[number] = "unread"
        start, end = self.words[number]
        span = self.script.span(start, end)
        text = self.script.text[start:end].replace("\n", " ")
        self.readings.append(Reading((), span, text, self.script.passage(start).time, (number,)))

    def _options(self, frame: Frame) -> Iterator[tuple[Step, ...]]:
        """Every reading of a told step, the most literal first."""
        reasons = list(patterns.reasons(frame, self.geometry, self.memory))
        effects = tuple(frame.effects)
        if not effects:
            # A pattern without an effect may have been misunderstood; a single says what it says.
            frame.loose = not all(reason is not None and reason.name.value in SINGLES for reason in reasons)
            yield from patterns.without_effect(frame, reasons)
            return
        for reason in reasons:
            yield (Step(_of_its_line(effects, reason, frame), reason),)
        if all(isinstance(effect, Placement) for effect in effects) and frame.effect_at != frame.sentences[0]:
            # A pattern whose effect went unsaid, and then a placement for which no reason is given.
            for reason in reasons:
                if reason is not None and reason.name.value not in SINGLES and all(map(_plain, effects)):
                    yield Step((Removal((), ()),), reason), Step(effects, None)
        if not reasons and (patterns.without_reason(frame) or all(map(_plain, effects))):
            yield (Step(effects, None),)


DISJOINING = ("or else", "one of two", "one of the two", "at least one", "exactly one", "one or the other")


def _disjoins(sentence: Sentence) -> bool:
    """Is it said that of two things one is true: ``r1c1 is a three, or else r4c5 is a six``, ``if r1c1 is no 5, r4c5 is``?"""
    texts = [piece.text for clause in sentence.clauses for piece in clause.of("EITHER")]
    return any(text.startswith(DISJOINING) or text.endswith(" if") for text in texts)


def _weighs(sentence: Sentence) -> bool:
    """Does it tell of two things, of which one is true or both are not?"""
    return any(clause.has("EITHER") for clause in sentence.clauses)


def _house_without(clause: Clause) -> bool:
    """Is it "no other cell of row 4 may be 5", with no cell named?"""
    return _of_others(clause) and clause.has("HOUSES", "SAME_HOUSE") and clause.has("DIGITS") and not clause.has("CELLS")


def _of_its_line(effects: tuple[Effect, ...], reason: Reason | None, frame: Frame) -> tuple[Effect, ...]:
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


def _name_first_cell(clause: Clause, hypotheses: Sequence[Clause]) -> None:
    """What "the cell we began with" is, where something was supposed of one."""
    told = [mention for earlier in hypotheses for mention in earlier.named("cells")]
    for at, piece in enumerate(clause.pieces):
        if piece.type == "FIRST_CELL" and told:
            mention = Mention("cells", told[0].values[:1], piece.start, piece.end)
            clause.pieces[at] = replace(piece, type="CELLS", mention=mention)


def _announces_reason(sentence: Sentence) -> bool:
    """Is it ``Here is the reason.``, ``The proof is short.``?"""
    words = {word.norm for word in sentence.words}
    return len(sentence.words) < 9 and bool(words & ANNOUNCING) and not words & {"no", "not", "without", "another"}


def _names_cells(sentence: Sentence) -> bool:
    """Does it name a cell?"""
    return any(clause.has("CELLS") for clause in sentence.clauses)


def _only_digit(clause: Clause) -> bool:
    """Is one digit all that is named: ``and it would not be 5``?"""
    digits = {digit for mention in clause.named("digits") for digit in mention.bare}
    return len(digits) == 1 and not clause.has("CELLS", "HOUSES", "REST", "SAME_HOUSE", "REMOVE", "TAKE", "GONE")


def _several_digits(clause: Clause) -> bool:
    """Is more than one digit named?"""
    return len({digit for mention in clause.named("digits") for digit in mention.bare}) > 1


def _only_one_each(clause: Clause) -> bool:
    """Are one cell and one digit all that is named?"""
    cells = {cell for mention in clause.named("cells") for cell in mention.bare}
    digits = {digit for mention in clause.named("digits") for digit in mention.bare}
    return len(cells) == len(digits) == 1 and not clause.has("HOUSES")


def _of_cases(steps: Sequence[Step], frame: Frame) -> set[Any]:
    """The digits of the pivot, through which an XY-wing was told case by case."""
    if not frame.hypotheses or not any(step.reason and step.reason.name.value == "xy-wing" for step in steps):
        return set()
    return {digit for clause in frame.hypotheses for mention in clause.named("digits") for digit in mention.bare}


def _crossings(steps: Sequence[Step], geometry: Geometry) -> set[Any]:
    """The cells where the houses of a reason cross, which are told with them: the corners of an X-wing."""
    said = [said.value for step in steps for slot in (step.reason.slots if step.reason else ()) for said in slot.values]
    houses = {value for value in said if isinstance(value, House)}
    return {cell for one, two in combinations(houses, 2) for cell in {*geometry.cells_of[one]} & {*geometry.cells_of[two]}}


def _whole(sentence: Sentence) -> bool:
    """Does the sentence tell a named pattern, with what it is made of, and an effect? Then it is a step of its own."""
    removes = any(
        (clause.has(*REMOVALS) or _of_others(clause))
        and clause.has("CELLS", "HOUSES", "SAME_HOUSE", "SAME_HOUSES")
        and clause.has("DIGITS")
        for clause in sentence.clauses
    )
    told = [clause for clause in sentence.clauses if not clause.has(*REMOVALS)]
    apart = any(clause.has(*NAMED) for clause in told) and any(map(_several, told))
    return removes and not sentence.asked and (apart or any(map(_pattern_in_full, sentence.clauses)))


def _of_others(clause: Clause) -> bool:
    """Is it "no other cell", "nothing else" or "nowhere else" that may be a digit?"""
    openings = ("no other", "nothing else", "any other", "nobody", "none", "nowhere else")
    return any("anywhere else" in p.text or p.text.strip().startswith(openings) for p in clause.of("ONLY_PLACE"))


def _pattern_in_full(clause: Clause) -> bool:
    """Is a pattern named, and the cells, digits or lines that it is made of?"""
    return clause.has(*NAMED, "LOCKED") and _several(clause)


def _several(clause: Clause) -> bool:
    """Are several cells, digits or lines named?"""
    return any(
        len({value for mention in clause.named(kind) for value in mention.bare}) > 1 for kind in ("cells", "digits", "houses")
    )


def _everything_else(effect: Effect) -> bool:
    """Said of a cell before its digit is told."""
    return isinstance(effect, Removal) and len(effect.cells) == 1 and not effect.digits


def _crossed(frame: Frame) -> None:
    """``In row 4 the 7 can only go in column 2``: the cell of a placement told by the two lines that meet in it."""
    told = [clause for clause, _ in frame.clauses if clause.has("REST") or not clause.has("ALREADY", "SEE")]
    if frame.crossing or frame.hypotheses:
        return
    if any(clause.has("CELLS", "OTHER_ONE", "LOCKED", "FISH", "SUBSET") for clause in told):
        return
    houses = {said.value: said for clause in told for mention in clause.named("houses") for said in mention.values}
    digits = {said.value: said for clause in told for mention in clause.named("digits") for said in mention.values}
    if sorted(house.kind for house in houses) != ["c", "r"] or len(digits) != 1:
        return
    fills = len(frame.effects) == 1 and isinstance(frame.effects[0], Placement) and frame.effects[0].cell is None
    says = any(clause.has("ONLY_PLACE", "LAST_CELL", "FORCE", "CONFINED", "ONLY") for clause in told)
    if not fills and (frame.effects or not (says or any(clause.has("PLACE") for clause in told))):
        return
    if any(clause.has(*REMOVALS) for clause in told):
        return
    frame.loose = frame.loose or not says
    lines = {house.kind: house.number for house in houses}
    frame.crossing = {Cell(lines["r"], lines["c"])}
    frame.line = next(iter(houses.values()))
    (digit,) = digits.values()
    frame.effects = [Placement(Said(Cell(lines["r"], lines["c"]), [*houses.values()][-1].span), digit)]
    frame.effect_at = frame.effect_at if frame.effect_at >= 0 else frame.sentences[-1]


def _plain(effect: Effect) -> bool:
    """Is everything said of the effect?"""
    if isinstance(effect, Placement):
        return effect.cell is not None and effect.digit is not None
    return isinstance(effect, Removal) and bool(effect.cells and effect.digits)


def _named(frame: Frame) -> set[Any]:
    """The cells and digits that a step's claims name."""
    told = [
        clause for clause, _ in frame.clauses if clause not in frame.support and not clause.has("EITHER", "SEE_BOTH", "ALREADY")
    ]
    return {v for clause in told for p in clause.pieces if p.mention and p.mention.kind != "houses" for v in p.mention.bare}


def _claimed(steps: tuple[Step, ...]) -> set[Any]:
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
                values |= {said.value for said in effect.cells} if isinstance(effect, Removal) else set()
        for slot in step.reason.slots if step.reason else ():
            for said in slot.values:
                value = said.value
                values |= {value, getattr(value, "cell", None), getattr(value, "digit", None)}
    return values


def _no_other(clause: Clause) -> bool:
    return any(piece.text.startswith(("no other",)) for piece in clause.of("REST"))


def placed_at(step: Step, spans: Mapping[str, Span], time: float | None) -> Step:
    """The step with a place for everything that has none of its own."""
    effects = tuple(replace(effect, span=spans["effect"]) for effect in step.effects)
    reason = step.reason
    if reason is not None:
        reason = replace(reason, name=Said(reason.name.value, spans["reason"]), span=spans["reason"])
    return Step(effects, reason, None, time, None, spans["effect"])
