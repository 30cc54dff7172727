"""What a clause is, by its pieces and by the step that is being told: a reason, an effect, a supposition or an aside."""

from __future__ import annotations

import re
from dataclasses import replace

from . import patterns
from .carrying import is_seen
from .clauses import PATTERNS, PLACEMENTS, REASONS, REMOVALS, Clause, Piece, Sentence
from .frame import Frame
from .memory import Memory
from .mentions import Mention
from .statements import Placement, Removal
from .suppositions import links, told_by_cases
from .vocabulary import Geometry
from .words import Script

NAMED = ("SUBSET", "FISH", "XY_WING", "CHAIN_NAME")
EITHER_WAY = ("either way", "in either", "in each", "in any", "in both", "both ways", "whichever", "no matter")
ANNOUNCING = {"reason", "reasons", "proof", "argument", "explanation", "demonstration", "justification", "grounds"}
DISJOINING = ("or else", "one of two", "one of the two", "at least one", "exactly one", "one or the other")

ACTING = "clears|takes|denies|excludes|bars|removes|keeps|forbids|strips|robs|rules|eliminates|kills|deprives|strikes|costs"
THIRD_PERSON = re.compile(rf"({ACTING})\b")
KEEPING_OUT = re.compile(rf"({ACTING}|stops|prevents|shuts|locks|blocks)\b")
CLEARING = re.compile(r"(clears|bars|shuts|locks|blocks|empties|covers)\b")
BESIDE = (":", ";", "so", "then", "next", "now", "and", "also")
LESSENED = re.compile(r"\b(left|down|reduced|narrowed|whittled|stripped|cut|leaves|leaving)\b")


class Kinds:
    """Tells what clauses are. What was told so far is kept by who takes them in."""

    def __init__(self, script: Script, geometry: Geometry) -> None:
        self.script = script
        self.geometry = geometry
        self.memory = Memory(geometry)
        self.frame = Frame()
        self.kinds: list[str] = []
        """Of every sentence so far: ``claim``, ``talk`` or ``unread``."""
        self.sentences: list[Sentence] = []
        self.asked = False
        """Was the sentence before a question?"""
        self.opens = True
        """Does the sentence open a paragraph?"""

    def _no_others(self, clause: Clause) -> bool:
        """``The 2 of row 1 is in box 2. No other cell in that box may be 2``: is it what goes, and no reason?"""
        barred = any(piece.text.startswith("no other cell") for piece in clause.of("ONLY_PLACE"))
        digits = {*clause.values("digits")}
        of_it = [
            told for told in self.frame.reasons if {*told.values("digits")} == digits and len({*told.values("houses")}) > 1
        ]
        confined = (of_it or any(told.has("CONFINED", "LOCKED") for told in self.frame.reasons)) and not self.frame.complete
        return barred and bool(confined) and clause.has("SAME_HOUSE") and clause.has("DIGITS")

    def _kind(self, clause: Clause, sentence: Sentence) -> str:
        """``hypothesis``, ``reason``, ``removal``, ``placement``, ``both``, ``support``, ``sifted``, ``mark`` or ``aside``."""
        if clause.has("MARK") and not clause.has("CELLS", "DIGITS"):
            return "mark"
        if clause.has("DONE") and not clause.has("CELLS", "HOUSES", *REASONS, *REMOVALS):
            return "aside"  # "and that is the 5 done"
        if _premise(clause, sentence):
            clause.pieces.append(Piece("LEAN", "known facts", clause.pieces[-1].start, clause.pieces[-1].end))
            return "reason"
        if clause.has("WHETHER") and not clause.has(*REASONS, *REMOVALS) and _weighed(clause):
            return "support"  # "either r1c1 is 2, or it is not"
        if self._all_but_one(clause):
            # "r5c2 cannot be 1, 2, 3, 4, 5, 6, 7 or 9. So it is an 8.": that is all that it can be
            clause.pieces = [
                replace(p, type="ONLY_DIGIT") if p.type in ("DENY", "SEE") else p for p in clause.pieces if p.type != "DIGITS"
            ]
            return "both"
        ends = any(piece.text.endswith("ends with") for piece in clause.of("LAST_CELL"))
        if ends and self._wanted() == {*clause.values("digits")} and not clause.has("CELLS"):
            return "support"  # "column four still wants a four | row seven ends with a four"
        if self._left(clause):
            return "removal"
        if (
            clause.has("NO")
            and clause.has("SAME_HOUSES")
            and clause.has("REST")
            and clause.has("DIGITS")
            and not clause.has("CELLS")
        ):
            return "removal"  # "so outside the corners no cell of these two rows can be 6"
        if self._no_others(clause):
            clause.pieces = [replace(piece, type="DENY") if piece.type == "ONLY_PLACE" else piece for piece in clause.pieces]
            return "removal"
        if _bears_witness(clause, sentence):
            clause.pieces = [replace(piece, type="ALREADY") if piece.type == "CONFINED" else piece for piece in clause.pieces]
            return "support"
        if self._in_it_goes(clause):
            return "placement"
        if _has_its(clause, sentence):
            clause.pieces = [replace(piece, type="PLACE") if piece.type == "CONFINED" else piece for piece in clause.pieces]
            return "placement"
        if [piece.type for piece in clause.pieces] == ["HOUSES", "PLACE", "THAT_DIGIT", "CELLS"] and len(
            self.memory.digits
        ) == 1:
            at = clause.pieces[0].start  # "since r6c3 may not repeat the 5 of its row, box 4 puts that digit at r4c3"
            digit = Mention("digits", self.memory.digits, at, at)
            clause.pieces = [p if p.type != "THAT_DIGIT" else Piece("DIGITS", "", p.start, p.end, digit) for p in clause.pieces]
            return "placement"
        if self._missing_digit(clause):
            return "placement"
        if sentence.asked and [p.type for p in clause.pieces if p.type != "QUESTION"] == ["CELLS"] and self.frame.told_out:
            return "aside"  # "r2c5 and r3c5 can't be 3. And r6c5 and r9c5? They lose the 3 and the 6"
        if self._says_which(clause):
            clause.pieces = [Piece("GONE", "", clause.pieces[0].start, clause.pieces[0].start), *clause.of("CELLS")]
            return "removal"
        if self._needed_there(clause):
            clause.pieces = [replace(piece, type="ONLY_PLACE") if piece.type == "NEEDED" else piece for piece in clause.pieces]
            return "reason"
        if self._all_else_there(clause):
            clause.pieces = [Piece("ONLY_DIGIT", "all else is out", clause.pieces[0].start, clause.pieces[-1].end)]
            return "reason"
        if clause.has("ALL_ELSE") or (clause.has("ONLY_DIGIT") and not clause.has("DIGITS") and self._subset_waits()):
            if not (self._subset_waits() or any(map(self._subset, self.frame.reasons)) or clause.has("SUBSET")):
                return "reason"
            barred = any(piece.text.startswith("no other") for piece in clause.of("ONLY_DIGIT", "ALL_ELSE"))
            if "BECAUSE" in clause.joints and clause.has("ALL_ELSE"):
                return "reason"  # "a naked quad, because those four have nothing else in them"
            if barred and "BECAUSE" not in clause.joints and clause.has("PRONOUNS", "CELLS") and not self._one_cell(clause):
                return "removal"  # "No other digit can stay in those two cells"
            return "both" if clause.has(*REASONS) else "removal"
        if self._answers(clause) or self._fills_in(clause) or self._left_over(clause):
            return "placement"
        if self._lists_places(clause):
            return "reason"
        lacks = any("<H> cannot" in piece.text for piece in clause.of("ONLY_PLACE")) and self._wanted()
        if lacks and not self.frame.complete and not clause.has("CELLS"):
            return "sifted"  # "Where does the 9 of box 4 go? Row 6 cannot have it."
        if self._sifts(clause) or self._why_sifted(clause, sentence):
            return "sifted"
        out = clause.has("REST") and clause.has("GONE", "DENY", "ALREADY") and not clause.has("CELLS", "DIGITS", "HOUSES")
        if out and self._wanted() and not self.frame.complete:
            return "support"  # "Who can take the 1? All the other places are out."
        if self.script.punctuated and _merely_both(clause, sentence) and not self.frame.hypotheses:
            return "placement"  # "The fourth cell of row 1, a 3. Nothing else survives there."
        if self._answers_not(clause):
            return "support"
        if (
            [p.type for p in clause.pieces if p.type != "FROM"] == ["DENY", "CELLS"]
            and self._wanted()
            and not self.frame.complete
        ):
            return "sifted"  # "Where may its 5 go? Not in r3c2, because r2c3 is a 5"
        if not self.script.punctuated and _put_because(clause, sentence) and not self.frame.hypotheses:
            return "placement"
        if _keeps_out(clause) and not self.frame.hypotheses:
            known = (*REMOVALS, "SEE_BOTH")
            clause.pieces = [replace(piece, type="ALREADY") if piece.type in known else piece for piece in clause.pieces]
            return "support"  # "the 8 in r3c1 keeps it out of r7c1"
        if clause.witness and (clause.has("ALREADY") or not self.frame.reasoned or _so_placed(clause, sentence)):
            return "support"  # "the 6 may not stand in column 7, nor in row 9, so it goes in r8c8"
        if self._names_digit_asked(clause) or is_seen(clause):
            return "support"
        named = clause.names or clause.has("PRONOUN", "PRONOUNS", "OTHER_ONE", "THOSE_DIGITS", "THAT_DIGIT", "SAME_HOUSE")
        if sentence.asked and clause.has("IF") and clause.names:
            return "hypothesis"
        doubted = [piece.type for piece in clause.pieces] == ["CELLS", "DENY", "DIGITS", "QUESTION"] and _only_one_each(clause)
        if doubted and sentence.asked and len(sentence.clauses) == 1 and self.frame.complete and not self.frame.reasoned:
            return "hypothesis"  # "r3c7 keeps 1 and 5. Why? r2c7 isn't 2? Then it is 1, ..."
        if self._by_turns(sentence) and not clause.has(*REMOVALS):
            return "aside"
        if sentence.asked and clause.has(*NAMED) and not clause.has("PLACE", "FORCE"):
            return "reason"
        needed = clause.has("NEEDED") and not clause.has(*REASONS) and not self._puts(clause) and not self._subset(clause)
        if sentence.asked or needed:
            return "support" if clause.names else "aside"
        left = any(piece.text.startswith("leaves <C> with") for piece in clause.of("ONLY_DIGIT"))
        if left and clause.first and self.frame.reasoned and not self.frame.told_out and self._one_cell(clause):
            return "placement"  # "this leaves r1c1 with a 3"
        case = any(piece.text.startswith("in the") for told in sentence.clauses for piece in told.of("WHETHER"))
        if case and not clause.has(*REMOVALS) and (clause.has("WHETHER") or not clause.joints & {"SO"}):
            return "reason"  # "r1c1 is 3 or 5. In the first case r1c5 is 7, in the second r4c1 is"
        if clause.has("IF") and clause.has("FISH", "FINS"):
            # "if the fin is no 2, we have the jellyfish": how such a pattern works
            told = any(c.has("FISH", "FINS") for c in self.frame.reasons)
            if told and not clause.has("CELLS"):
                self.frame.of_fin = len(self.kinds)
                return "aside"
            return "reason"
        if self.frame.of_fin == len(self.kinds) and not clause.has("EITHER", "REST") and not _lost_from_cells(clause):
            return "aside"  # "If the fin is not the 3, the 3 of column 2 is in row 4, and so on"
        counted = any(piece.text.startswith(("the first", "the last")) for piece in clause.pieces)
        if clause.has("IF") and counted and any(told.has("CHAIN_NAME") for told in self.frame.reasons):
            return "aside"  # "If the first of these is not a 3, the last one is": how a chain works
        if clause.has("IF") and clause.names:
            return "hypothesis"
        linked = bool(self.frame.hypotheses) or any(map(self._choice, self.frame.reasons))
        begun = not self._supposed_here() or _weighs_by(clause, sentence)  # "if ..., then ..., so that either ... or ..."
        if linked and begun and _disjoins(sentence) and not clause.has("REMOVE", "TAKE", "GONE", "REST", "SEE_BOTH"):
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
        if excepted and clause.first and _of_every_cell(sentence) and clause.has("DENY") and self._one_cell(clause):
            # "every empty cell of box 4 except r5c3 is closed to the 9"
            clause.pieces = [piece for piece in clause.pieces if piece.type != "DENY"]
            return "both"
        if excepted and self._fish(*(earlier for earlier, _ in self.frame.clauses), *sentence.clauses):
            return "reason"
        finned = any(told.has("FINS") and told.has("EITHER", "FISH") for told in self.frame.reasons)
        if finned and not self.frame.complete and clause.has("BE") and _only_digit(clause):
            return "reason"  # "either the fin, r6c8, is a two, or ..."
        several = len({*clause.values("cells")}) > 1
        chain = any(c.has("CHAIN_NAME") for c in self.frame.reasons) and not self.frame.complete
        if several and chain and not clause.has("DIGITS", *REMOVALS):
            return "reason"
        follows = clause.has("LEADS") or (bool(clause.joints & {"SO", "THEN"}) and not clause.has("DENY"))
        linked = chain and clause.has("DIGITS") and follows
        supposed = bool(self.frame.hypotheses) or (linked and not clause.has("CHAIN_NAME"))
        alone = clause.has("ONLY_DIGIT") and not clause.has("DIGITS")  # "as that is its only other candidate"
        if supposed and "BECAUSE" in clause.joints and (several_digits(clause) or alone) and not clause.has("CELLS", *REMOVALS):
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
            # "What if r1c1 is 5? Well, r1c5 is 7.", "... And so? r1c5 is 7."
            answers = self.asked and self.frame.sentences[-1:] in ([len(self.kinds) - 2], self._before_mere_question())
            goes_on = inside or answers or self._supposing(clause) or self._goes_from(clause) or self._takes_one(clause)
            goes_on = goes_on or self._still_supposed(clause)
            if spoken_of and not hard and goes_on:
                return "hypothesis"
            if hard and clause.joints == {"BREAK"} and clause.has("CELLS") and clause.has("DIGITS"):
                self.frame.concluded = True  # "...; 1 goes from r8c8; r9c8 loses 2": and so do those told after it
        if (
            self.frame.complete
            and self._fills(clause)
            and clause.has("BE", "FORCE", "PLACE", "ONLY_DIGIT")
            and not clause.has(*REMOVALS)
        ):
            return "placement"
        if (self._no_other_cell(clause) and not _so_placed(clause, sentence)) or self._opens_others(clause, sentence):
            return "removal"
        if _not_there(clause) or _out(clause) or _inside_only(clause):
            return "support"
        if self.frame.hypotheses and not self.frame.complete and not self.opens and _of_two_places(clause):
            return "support"  # "That was one of only two homes for the 2 in that column, so r2c7 becomes the 2"
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
        if self._subset(clause) or self._choice(clause) or self._all_places(clause) or self._cells_of_subset(clause):
            return "reason"
        if self._fish(clause) or self._intersection(clause) or clause.has("FISH", "PIVOT", "WINGS", "FINS", "COVER"):
            return "reason"
        placed = clause.has(*PLACEMENTS) or clause.has("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "SINGLE_NAME")
        digits = clause.digits
        plural = any(mention.plural for mention in clause.named("digits"))
        if (
            placed
            and len(digits) == 1
            and not (plural and not clause.has("CELLS"))
            and not clause.has("SEE", "SEE_BOTH", "ALREADY", "CHAIN_NAME", "XY_WING", "LOCKED")
            and not (clause.has("CONFINED") and not (clause.has("ONLY_PLACE") and self._one_cell(clause)))
        ):
            cells = [c for mention in clause.named("cells") for c in mention.values]
            lines = [house for mention in clause.named("houses") for house in mention.values]
            if not cells and self._crosses(clause):
                return "support"  # "Where does the 1 of row 2 go? ... So column 3 takes the 1."
            if len(cells) == 1 or (not cells and len(lines) < 2 and self._anaphor(clause)):
                return "both" if reason else "placement"
            if len(cells) > 1 and not reason:
                return "reason" if plural and len(cells) > 3 else "placement"  # eights in r1c4, r1c5, r9c4 and r9c5: corners
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

    def _missing_digit(self, clause: Clause) -> bool:
        """``Row 8 has one empty cell left. The missing number is 6.``: the digit of the last cell."""
        types = [piece.type for piece in clause.pieces if piece.type != "PRONOUN"]
        told = types == ["THAT_DIGIT", "BE", "DIGITS"] or (types[:2] == ["NEEDED", "DIGITS"] and clause.has("PRONOUN"))
        told = told or (types == ["FORCE", "DIGITS"] and not clause.first and not self.frame.hypotheses)
        waits = any(told.has("LAST_CELL") for told in self.frame.reasons) and not self.frame.complete
        return told and waits and len(clause.digits) == 1

    def _says_which(self, clause: Clause) -> bool:
        """``Any cell that sees both can't be 8. That's r1c2 and r1c3.``: the cells of the effect told last."""
        told = [piece.type for piece in clause.pieces if piece.type not in ("ALSO", "AGAIN", "ONLY")]
        if self.asked and told and {*told} == {"CELLS"}:
            told = ["PRONOUN", "BE", "CELLS"]  # "Anybody who sees both ends can't be 5. Who's that? r4c4 and r4c5"
        last = self.frame.effects[-1] if self.frame.effects else None
        is_open = isinstance(last, Removal) and bool(last.digits) and not last.cells
        if told and {*told} == {"CELLS"} and self.sentences[-1].words[0].norm == "and" and len(self.frame.effects) > 1:
            told = ["PRONOUN", "BE", "CELLS"]  # "Who's that? Row 1 column 3, for one. And row 8 column 1."
            is_open = isinstance(last, Removal) and bool(last.cells) and not last.digits
        return is_open and told in (["PRONOUN", "BE", "CELLS"], ["PRONOUNS", "BE", "CELLS"]) and clause.first

    def _before_mere_question(self) -> list[int]:
        """The sentence before the last one, where the last is ``And so?``, ``What next?``."""
        return [len(self.kinds) - 3] if len(self.sentences) > 1 and not self.sentences[-2].names else []

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
        known = {d for earlier, _ in self.frame.clauses for d in earlier.values("digits")}
        told = {*clause.values("digits")}
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
        cells = {cell for told in earlier for cell in told.values("cells")}
        houses = clause.values("houses")
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

    def _needed_there(self, clause: Clause) -> bool:
        """``r7c6 has to be 5. Row 7 needs a 5, and the other cells can't take one``: why, said of the digit just placed."""
        effects, types = self.frame.effects, [piece.type for piece in clause.pieces]
        effect = effects[0] if len(effects) == 1 and not self.frame.reasoned else None
        if types != ["HOUSES", "NEEDED", "DIGITS"] or not isinstance(effect, Placement) or not effect.cell or not effect.digit:
            return False
        houses = clause.values("houses")
        around = len(houses) == 1 and effect.cell.value in self.geometry.cells_of[houses[0]]
        return around and [said.value for said in clause.digits] == [effect.digit.value] and not self.sentences[-1].asked

    def _all_else_there(self, clause: Clause) -> bool:
        """``A 4 goes in r1c1. All the other digits are ruled out there``: why, said of the cell just filled."""
        effects = self.frame.effects
        placed = len(effects) == 1 and isinstance(effects[0], Placement) and not self.frame.reasoned
        there = clause.has("PRONOUN") and not clause.has("CELLS", "DIGITS", "HOUSES")
        return placed and there and clause.has("ALL_ELSE") and clause.has("REMOVE", "GONE", "DENY", "ALREADY")

    def _fills_in(self, clause: Clause) -> bool:
        """``One candidate. The 6.``, ``Its last gap is r8c9, and it needs a 1``: the digit of a cell that can have but one."""
        types = [piece.type for piece in clause.pieces if piece.type not in ("PRONOUN", "ALSO")]
        mere = types == ["DIGITS"] and clause.first
        told = any(reason.has("ONLY_DIGIT", "LAST_CELL") and not reason.has("DIGITS") for reason in self.frame.reasons)
        awaited = self._fills(clause) or (told and self._cell_awaits())
        return (mere or types == ["NEEDED", "DIGITS"]) and len(clause.digits) == 1 and awaited

    def _left_over(self, clause: Clause) -> bool:
        """``Where does the 5 go in box 5? Everywhere else is blocked. So that leaves r5c5``, ``One place for the 6. r3c6.``"""
        bare = [piece.type for piece in clause.pieces] == ["CELLS"] and self._one_cell(clause)
        told = [other for other, _ in self.frame.clauses]
        sifted = any(other.has("NEEDED") for other in told) and any(other.witness for other in told)  # "... Row 2 has one."
        if bare and clause.first and self._digit_awaits() and (sifted or any(other.has("ONLY_PLACE") for other in told)):
            return not any(other.has("CELLS") for other in told)
        return bare and "SO" in clause.joints and bool(self._wanted()) and not self.frame.complete and not self.frame.hypotheses

    def _lists_places(self, clause: Clause) -> bool:
        """``Where can the 9 go? In column 4, row 1, 3 or 9. In column 8, ...``: the places in one line after another."""
        types = [piece.type for piece in clause.pieces if piece.type != "FROM"]
        named = clause.named("cells")
        several = types == ["CELLS"] and named[0].choice and len(named[0].values) > 1
        return several and len(self._wanted()) == 1 and not self.frame.complete

    def _sifts(self, clause: Clause) -> bool:
        """``Where can the 9 go in row 3? Not in r3c1, not in column 4``: places that the digit asked for does not go in."""
        frame = self.frame
        wanted = self._wanted()
        if not wanted or frame.complete or frame.reasoned or clause.has("REMOVE", "TAKE", "GONE", "IF", "EITHER", "REST"):
            return False
        digits = {*clause.values("digits")}
        return len(wanted) == 1 and digits <= wanted and clause.has("DENY") and clause.has("CELLS", "HOUSES")

    def _wanted(self) -> set[int]:
        """The digits that a place is looked for, as last told."""
        asked = [told for told, _ in self.frame.clauses if told.has("NEEDED") and told.has("DIGITS")]
        if not asked:
            return set()
        at = max(at for at, piece in enumerate(asked[-1].pieces) if piece.type == "NEEDED")
        after = {*Clause(asked[-1].pieces[at:]).values("digits")}  # "hold the 7 in your head and look for the 1"
        return after or {*asked[-1].values("digits")}

    def _in_it_goes(self, clause: Clause) -> bool:
        """``Where is the 5 of row 5? It can't be in r5c2; it's in r5c3.``: is the digit spoken of put in a cell?"""
        types = [piece.type for piece in clause.pieces]
        told = types == ["PRONOUN", "BE", "FROM", "CELLS"] and clause.pieces[0].text == "it" and self._one_cell(clause)
        if not told or not self.script.punctuated or self.frame.hypotheses or self.frame.complete:
            return False
        named = [mention for earlier, _ in self.frame.clauses for mention in earlier.named("digits")]
        if not named or len(named[-1].values) != 1 or any(earlier.has(*PATTERNS) for earlier, _ in self.frame.clauses):
            return False
        pronoun, *others = clause.pieces
        clause.pieces = [Piece("DIGITS", "", pronoun.start, pronoun.end, named[-1]), *others]
        return True

    def _names_digit_asked(self, clause: Clause) -> bool:
        """Is it ``It is 8``, after ``Which digit is missing from row 9?``: no cell is spoken of yet."""
        before = [word.norm for word in self.sentences[-2].words[:2]] if len(self.sentences) > 1 else []
        types = [piece.type for piece in clause.pieces]
        asked = self.asked and before in (["which", "digit"], ["what", "digit"], ["which", "number"], ["what", "number"])
        alone = asked and types in (["PRONOUN", "BE", "DIGITS"], ["BE", "DIGITS"]) and clause.first
        return (
            alone and len(self.sentences[-1].clauses) > 1 and not any(told.has("CELLS") for told in self.sentences[-2].clauses)
        )

    def _crosses(self, clause: Clause) -> bool:
        """Is it a line, for a digit that is looked for in another: the two give the cell?"""
        lines = {*clause.values("houses")}
        sought = [told for told, _ in self.frame.clauses if told.has("NEEDED")]
        where = {house for told in sought for house in told.values("houses")}
        kinds = sorted(house.kind for house in lines | where)
        last = self.frame.clauses[-1][0] if self.frame.clauses else clause
        bare = [piece.type for piece in clause.pieces] in (["PRONOUN", "BE", "DIGITS"], ["BE", "DIGITS"])
        if bare and not last.has("CELLS", "NEEDED"):  # "What is left is row 5. So that one is an 8."
            left = {*last.values("houses")}
            return len(left) == 1 and sorted(house.kind for house in left | where) == ["c", "r"]
        asked = any(told.has("QUESTION", "DIGITS") for told in sought)
        return asked and len(lines) == 1 and kinds == ["c", "r"] and not clause.has("PRONOUN", "OTHER_ONE", *REASONS)

    def _why_sifted(self, clause: Clause, sentence: Sentence) -> bool:
        """``Not in row 4, because there's a 6 in it``, ``not in column 2, which has its 4 already``"""
        at = next((at for at, told in enumerate(sentence.clauses) if told.pieces == clause.pieces), 0)
        frame = self.frame
        if not at or not frame.sifted or frame.complete or frame.reasoned or clause.has("CELLS", "HOUSES", "PLACE", "FORCE"):
            return False
        digits = {*clause.values("digits")}
        return sentence.clauses[at - 1].has("DENY") and digits == self._wanted() and bool(clause.joints & {"BECAUSE", "SO"})

    def _answers_not(self, clause: Clause) -> bool:
        """Is it where the digit looked for does not go: ``Where can the 4 go in row 3? Not r3c1, because box 1 has one``?"""
        frame = self.frame
        asked = [told for told in frame.support if told.has("QUESTION", "NEEDED")]
        if not asked or frame.complete or frame.reasons or frame.hypotheses or clause.has("IF"):
            return False
        if clause.witness or ("BECAUSE" in clause.joints and clause.has("LEAN") and not clause.has("CELLS", "DIGITS")):
            return True
        where, what = asked[0].has("DIGITS"), asked[0].has("CELLS")
        sought, other = ("CELLS", "DIGITS") if where and not what else ("DIGITS", "CELLS") if what and not where else ("", "")
        out = where and clause.has("GONE") and clause.has("HOUSES") and not clause.has("CELLS", "DIGITS", "REST")
        return out or (bool(sought) and clause.has("DENY") and clause.has(sought) and not clause.has(other, *REASONS))

    @staticmethod
    def _puts(clause: Clause) -> bool:
        """``The missing 8 drops into r6c4``, ``the 5 it needs goes in row 1``, ``r9c2 is the 8 that box 7 was missing``."""
        places = [value for kind in ("cells", "houses") for mention in clause.named(kind) for value in mention.values]
        digits = [digit for mention in clause.named("digits") for digit in mention.values]
        missing = any(piece.text in ("missing", "needed") for piece in clause.of("NEEDED"))
        if missing and [piece.type for piece in clause.pieces[:3]] == ["CELLS", "BE", "DIGITS"] and clause.has("HOUSES"):
            return len(digits) == 1 and len(places) == 2
        # "..., so it takes the missing 2", "..., the missing 1 goes in there"
        it = any(piece.text == "it" for piece in clause.of("PRONOUN")) or any("there" in p.text for p in clause.of("PLACE"))
        it = it and not places
        return missing and len(digits) == 1 and (len(places) == 1 or it) and clause.has("PLACE", "FORCE")

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
        told = [clause for clause, _ in self.frame.clauses]
        if not any(clause.has("ONLY_PLACE", "CONFINED", "FACT", "NEEDED") for clause in told):
            return False
        cells, digits = ({value for clause in told for value in clause.values(kind)} for kind in ("cells", "digits"))
        return len(cells) == len(digits) > 1

    def _all_but_one(self, clause: Clause) -> bool:
        """Is one cell said not to be any digit but one? On a board of four digits a removal may well name three of them."""
        digits = {*clause.values("digits")}
        every = len(digits) == self.geometry.size - 1 > 3 and self._one_cell(clause)
        return every and clause.has("DENY", "SEE") and not clause.has("IF", "REMOVE", "TAKE", "GONE", *REASONS)

    def _left(self, clause: Clause) -> bool:
        """Is it told by what is left in some cells that everything else goes from them?"""
        frame = self.frame
        digits = {*clause.values("digits")}
        cells = {*clause.values("cells")}
        if (clause.has("PRONOUNS") or (clause.has("KEEPS") and frame.reasoned)) and not cells:
            cells = {said.value for said in self.memory.several}
        if clause.has("SUBSET") or not cells or len(digits) < 2 or not clause.has("KEEPS", "ONLY_DIGIT"):
            return False
        named = {cell for told in frame.reasons for cell in told.values("cells")}
        waits = frame.concluded or any(of_pattern(told) and not self._one_cell(told) for told in frame.reasons)
        waits = waits or any(told.has("WHETHER") for told in frame.reasons)
        lessened = clause.has("KEEPS") or any(LESSENED.search(piece.text) for piece in clause.of("ONLY_DIGIT"))
        going_on = not frame.complete or any(isinstance(effect, Removal) and effect.kept for effect in frame.effects[-1:])
        inside = frame.complete and bool(frame.sentences) and frame.sentences[-1] == len(self.kinds) - 1
        if lessened and inside and going_on and clause.has("CELLS"):
            return True  # "so r1c8 keeps nothing but 5 and 6, and r2c8 is down to 6 and 8"
        if (
            waits
            and lessened
            and going_on
            and cells.isdisjoint(named)
            and clause.has("CELLS")
            and "BECAUSE" not in clause.joints
        ):
            return True  # "the 2s of box 4 point along row 3: r3c8 is down to 4 and 5"
        if frame.complete or not (frame.reasoned or frame.hypotheses):
            return clause.has("KEEPS") and len(cells) != len(digits)
        names = " ".join(piece.text for told in frame.reasons for piece in told.of("SUBSET", "HOW"))
        if any(word in names for word in patterns.NAKED):
            return False  # such cells hold nothing else as it is
        if frame.hypotheses:
            return clause.has("KEEPS") or (frame.concluded and clause.has("ONLY_DIGIT"))
        hidden = any(word in names for word in patterns.HIDDEN) or self._places_told()
        return hidden or bool(clause.joints & {"SO", "THEN"}) or (not names and clause.has("KEEPS"))

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
        kinds = sorted(house.kind for house in clause.values("houses"))
        digits = {*clause.values("digits")}
        return kinds in (["b", "c"], ["b", "r"]) and len(digits) == 1 and not clause.has("CELLS", "LEAN", "FACT")

    def _all_places(self, clause: Clause) -> bool:
        """Are as many cells named as digits were before, for these to go in?"""
        cells = {*clause.values("cells")}
        told = [earlier for earlier, _ in self.frame.clauses if earlier not in self.frame.effective]
        digits = {d for earlier in told for d in earlier.values("digits")}
        waits = not self.frame.told_out and len(cells) == len(digits) > 1 and not clause.has("DIGITS")
        return waits and clause.has("FORCE", "PLACE", "ONLY", "ONLY_PLACE", "CONFINED", "BE")

    def _cells_of_subset(self, clause: Clause) -> bool:
        """``... because there is a hidden pair on 6 and 7, and it is in r7c2 and r7c5``: the cells, after all else was told."""
        named = [told for told in self.frame.reasons if told.has("SUBSET")]
        if not named or any(told.has("CELLS") for told in self.frame.reasons) or not clause.has("BE", "PLACE", "ONLY"):
            return False
        cells = {*clause.values("cells")}
        digits = {digit for told in named for digit in told.values("digits")}
        return len(cells) == len(digits) > 1 and not clause.has("DIGITS", *REMOVALS)

    @staticmethod
    def _choice(clause: Clause) -> bool:
        """One of two cells is the digit: a link of a chain of places."""
        digits = clause.values("digits")
        pair = any(mention.choice and len(mention.values) == 2 for mention in clause.named("cells"))
        return pair and len(digits) <= 1

    @staticmethod
    def _one_cell(clause: Clause) -> bool:
        return len({*clause.values("cells")}) == 1

    def _digit_awaits(self) -> bool:
        """Was one digit spoken of, and no cell yet, in the step that is being told?"""
        if self.frame.complete:
            return False
        last = self.frame.clauses[-1][0] if self.frame.clauses else None
        if last is not None and last.witness and last.has("DENY") and len({*last.values("digits")}) == 1:
            return True  # "Column 9 needs 4 and 7. The 4 won't go in row 4, so it's r6c9"
        told = [clause for clause, _ in self.frame.clauses if not clause.has("CELLS")]
        told = [clause for clause in told if "BECAUSE" not in clause.joints] or told  # "..., since the others allow 2 and 4"
        return len({d for clause in told for d in clause.values("digits")}) == 1 or len(self._wanted()) == 1

    def _cell_awaits(self) -> bool:
        """Was one cell spoken of in the step that is being told, and no digit put there yet?"""
        if self.frame.complete:
            return False
        cells = {c for clause, _ in self.frame.clauses for c in clause.values("cells")}
        return len(cells) == 1

    @staticmethod
    def _fish(*clauses: Clause) -> bool:
        """Are as many rows as columns named, two at least?"""
        kinds = [house.kind for clause in clauses for house in clause.values("houses")]
        return kinds.count("r") == kinds.count("c") >= 2

    def _comes_to(self, clause: Clause) -> bool:
        """Are both ends of the chain named, or is it said that it follows?"""
        told = [clause for clause, _ in self.frame.clauses]
        before = told[: told.index(self.frame.hypotheses[0])] if self.frame.hypotheses[0] in told else []
        spoken_of = [said for clause in before for mention in clause.named("cells") for said in mention.values]
        chains = links(self.frame.hypotheses, spoken_of[-1] if spoken_of else None)
        cells = {*clause.values("cells")}
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
        cells = clause.values("cells")
        digits = {*clause.values("digits")}
        return len(cells) in (1, 2) and cells[0] == last.cell and last.digit in digits

    def _still_supposed(self, clause: Clause) -> bool:
        """Does it fill a cell for no reason of its own, right after a supposition that nothing was concluded from yet?"""
        frame = self.frame
        told = self.script.punctuated and bool(frame.hypotheses) and not frame.complete and not self.opens
        near = told and frame.sentences[-1] >= len(self.kinds) - 2
        return near and clause.has(*PLACEMENTS) and clause.has("DIGITS") and not clause.has(*REASONS, *REMOVALS)

    def _supposing(self, clause: Clause) -> bool:
        # "that puts a 6 in r4c4"
        puts = any(piece.text.startswith(("puts", "leaves")) for piece in clause.of("PLACE", "ONLY_DIGIT"))
        puts = puts and clause.first and self.sentences[-1].words[0].norm in ("that", "this", "which", "it")
        return puts or bool(clause.joints & {"SO", "THEN"}) or clause.has("LEADS", "THEN", "FORCE")

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

    @staticmethod
    def _opens_others(clause: Clause, sentence: Sentence) -> bool:
        """Is it "no other cell of row 4 may be 5; r1c1 cannot be 3 ...", one effect before others?"""
        others = [told for told in sentence.clauses if told is not clause]
        more = bool(others) and all(told.has(*REMOVALS) and told.has("CELLS") and told.has("DIGITS") for told in others)
        # "No other cell of row 4 can be 5, because 5 and 6 fit only in r4c1 and r4c2"
        shown = bool(others) and "BECAUSE" in others[0].joints and any(map(of_pattern, others))
        return clause.first and (more or shown) and house_without(clause)

    def _fills(self, clause: Clause) -> bool:
        """Was a placement told with its cell or its digit left open, which this clause gives?"""
        if len(self.frame.effects) != 1:
            return False
        (effect,) = self.frame.effects
        cells = {*clause.values("cells")}
        digits = {*clause.values("digits")}
        if not isinstance(effect, Placement) or len(cells) > 1 or len(digits) > 1:
            return False
        if effect.cell is None and effect.digit is not None:
            return bool(cells) and digits <= {effect.digit.value}
        if effect.digit is None and effect.cell is not None:
            return bool(digits) and cells <= {effect.cell.value}
        return False


def _put_because(clause: Clause, sentence: Sentence) -> bool:
    """``a two in row five column six because that is the only digit that fits there``"""
    types = [piece.type for piece in clause.pieces if piece.type != "FROM"]
    after = sentence.clauses[next((at for at, told in enumerate(sentence.clauses) if told is clause), 0) + 1 :][:1]
    why = any("BECAUSE" in told.joints and told.has("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL") for told in after)
    return types == ["DIGITS", "CELLS"] and why and _only_one_each(clause)


def _so_placed(clause: Clause, sentence: Sentence) -> bool:
    """``Nothing else in row 8 can be a 2, so r8c9 has to be``: is it why a digit is placed, and no effect?"""
    after = sentence.clauses[next((at for at, told in enumerate(sentence.clauses) if told is clause), 0) + 1 :]
    placed = [told for told in after if "SO" in told.joints and told.has("CELLS", "HOUSES") and told.has(*PLACEMENTS)]
    return any(not told.has(*REMOVALS, "REST") for told in placed)


def _weighs_by(clause: Clause, sentence: Sentence) -> bool:
    """Has the sentence come to its "either" with this clause?"""
    at = next((at for at, told in enumerate(sentence.clauses) if told.pieces == clause.pieces), len(sentence.clauses))
    return any(told.has("EITHER") for told in sentence.clauses[: at + 1])


def _disjoins(sentence: Sentence) -> bool:
    """Is it said that of two things one is true: ``r1c1 is a three, or else r4c5 is a six``, ``if r1c1 is no 5, r4c5 is``?"""
    texts = [piece.text.strip() for clause in sentence.clauses for piece in clause.of("EITHER")]
    if "either" in texts and "or" in texts:
        return True  # "either r1c1 is 6, then, or r4c5 is 9"
    if any(
        [piece.type for piece in clause.pieces if piece.type not in ("BE", "PLACE", "FORCE")]
        == ["CELLS", "DIGITS", "EITHER", "CELLS", "DIGITS"]
        for clause in sentence.clauses
    ):
        return True  # "so r1c1 is 9 or r4c5 is 9"
    verbs = ("BE", "PLACE", "FORCE")
    told = [[piece.type for piece in clause.pieces if piece.type not in verbs] for clause in sentence.clauses]
    if told == [["CELLS", "DIGITS"], ["EITHER", "CELLS", "DIGITS"]] and texts == ["or"]:
        return True  # "so r1c1 is 9, or r4c5 is 9"
    return any(text.startswith(DISJOINING) or text.endswith(" if") for text in texts)


def _has_its(clause: Clause, sentence: Sentence) -> bool:
    """``Column 4, with r5c4 no longer available, has its 5 at r8c4``: where a reason is given, that places the digit."""
    types = [piece.type for piece in clause.pieces if piece.type not in ("FROM", "LEADS", "ALSO")]
    told = [kind for kind in types if kind != "ASIDE"] in (
        ["HOUSES", "CONFINED", "DIGITS", "CELLS"],
        ["SAME_HOUSE", "CONFINED", "DIGITS", "CELLS"],
    )
    why = "ASIDE" in types or any("BECAUSE" in other.joints for other in sentence.clauses[1:])
    text = any(piece.text.startswith("has ") for piece in clause.of("CONFINED"))
    return told and why and text and clause.first and _only_one_each_digit(clause)


def _bears_witness(clause: Clause, sentence: Sentence) -> bool:
    """``Column 1 has its 5 in r2c1, so this is the 7``: where another digit is told of what was spoken of before."""
    types = [piece.type for piece in clause.pieces if piece.type != "FROM"]
    told = types == ["HOUSES", "CONFINED", "DIGITS", "CELLS"] and clause.first and _only_one_each_digit(clause)
    following = [other for other in sentence.clauses if "SO" in other.joints]
    if not told or "SO" in clause.joints or len(sentence.clauses) != 2 or len(following) != 1:
        return False
    (so,) = following
    of_it = [piece.type for piece in so.pieces] in (["PRONOUN", verb, "DIGITS"] for verb in ("BE", "FORCE"))
    return of_it and {*so.values("digits")}.isdisjoint(clause.values("digits"))


def _only_one_each_digit(clause: Clause) -> bool:
    return len(clause.digits) == len({*clause.values("cells")}) == 1


def _not_there(clause: Clause) -> bool:
    """``The three in column 8 cannot be in row 4``: where in one house a digit is not, by another; so it is elsewhere."""
    houses = {*clause.values("houses")}
    digits = clause.named("digits")
    one = len(digits) == 1 and len(digits[0].values) == 1 and not digits[0].plural
    barred = ("CELLS", "REMOVE", "TAKE", "GONE", "REST", "SAME_HOUSE", "SAME_HOUSES", "PICTURE", "SEE_BOTH", "EVERYTHING")
    return one and len(houses) > 1 and clause.has("DENY") and not clause.has(*barred, *REASONS)


def _out(clause: Clause) -> bool:
    """``Column 9 is out``: a house where the digit that is looked for is not."""
    told = [piece for piece in clause.pieces if piece.type not in ("BE", "FROM", "AGAIN", "ALREADY")]
    return [piece.type for piece in told] == ["HOUSES", "GONE"]


def _keeps_out(clause: Clause) -> bool:
    """``The 8 in r3c1 keeps it out of r7c1``: what a digit that stands does to the cells that see it."""
    told = [piece for piece in clause.pieces if piece.type not in ("FROM", "LOOK", "AGAIN", "ALREADY", "LEAN")]
    own = [piece.type for piece in told if piece.type != "ENDS"]
    if own in (
        ["DIGITS", "REMOVE", "HOUSES"],
        ["DIGITS", "HOUSES", "REMOVE", "CELLS"],
        ["DIGITS", "HOUSES", "REMOVE", "HOUSES"],
    ):
        (verb,) = clause.of("REMOVE")  # "this 2 clears the upper part of column 9, the 2 in row 5 clears r5c9"
        return CLEARING.match(verb.text) is not None and len(clause.digits) == 1
    if [piece.type for piece in told[:2]] != ["DIGITS", "CELLS"] or len(told) < 3 or clause.has("IF", "EITHER", *REASONS):
        return False
    one = all(piece.mention is not None and len(piece.mention.values) == 1 for piece in told[:2])
    same = all(set(mention.bare) <= set(clause.named("digits")[0].bare) for mention in clause.named("digits"))
    verb = told[2]
    kept = len(clause.named("cells")) > 1 or clause.has("HOUSES")
    seen = verb.type == "SEE_BOTH" and "BECAUSE" in clause.joints and verb.text.endswith(("it", "them"))
    seen = seen or (verb.type == "SEE" and (kept or clause.has("PRONOUN", "PRONOUNS")))  # "because the 8 at r2c9 sees it"
    out = verb.type in REMOVALS and bool(KEEPING_OUT.match(verb.text)) and kept
    return one and same and (seen or out)


def _inside_only(clause: Clause) -> bool:
    """``Nine is in the box``: that a house of a cell has the digit, and not that the cell is it."""
    told = [piece.type for piece in clause.pieces if piece.type not in ("FROM", "ALREADY", "AGAIN", "PRONOUN")]
    pronoun = any(piece.type == "PRONOUN" and piece.text not in ("there", "here") for piece in clause.pieces)
    return told in (["DIGITS", "BE", "SAME_HOUSE"], ["BE", "DIGITS", "SAME_HOUSE"]) and not pronoun


def _of_two_places(clause: Clause) -> bool:
    """Is it told how many places a digit has, and none of them named?"""
    return clause.has("FACT") and clause.has("ONLY") and clause.has("DIGITS") and not clause.has("CELLS")


def _lost_from_cells(clause: Clause) -> bool:
    """Do cells lose a digit?"""
    return clause.has(*REMOVALS) and clause.has("CELLS") and clause.has("DIGITS")


def weighs(sentence: Sentence) -> bool:
    """Does it tell of two things, of which one is true or both are not?"""
    return any(clause.has("EITHER") for clause in sentence.clauses)


def house_without(clause: Clause) -> bool:
    """Is it "no other cell of row 4 may be 5", with no cell named?"""
    return _of_others(clause) and clause.has("HOUSES", "SAME_HOUSE") and clause.has("DIGITS") and not clause.has("CELLS")


def announces_reason(sentence: Sentence) -> bool:
    """Is it ``Here is the reason.``, ``The proof is short.``?"""
    words = {word.norm for word in sentence.words}
    return len(sentence.words) < 9 and bool(words & ANNOUNCING) and not words & {"no", "not", "without", "another"}


def _names_cells(sentence: Sentence) -> bool:
    """Does it name a cell?"""
    return any(clause.has("CELLS") for clause in sentence.clauses)


def _only_digit(clause: Clause) -> bool:
    """Is one digit all that is named: ``and it would not be 5``?"""
    digits = {*clause.values("digits")}
    return len(digits) == 1 and not clause.has("CELLS", "HOUSES", "REST", "SAME_HOUSE", "REMOVE", "TAKE", "GONE")


def several_digits(clause: Clause) -> bool:
    """Is more than one digit named?"""
    return len({*clause.values("digits")}) > 1


def _only_one_each(clause: Clause) -> bool:
    """Are one cell and one digit all that is named?"""
    cells = {*clause.values("cells")}
    digits = {*clause.values("digits")}
    return len(cells) == len(digits) == 1 and not clause.has("HOUSES")


KNOWN = re.compile(r"(so )?(here|this) is what (we|i|you) (already |now )?(know|have|can see)\b")
ALONE = re.compile(r"\b(from|by) (that|this|those|these|them|it) (alone|only|by itself)\b")


def _of_every_cell(sentence: Sentence) -> bool:
    """Does it begin with ``every cell``, or the like?"""
    return sentence.words[0].norm in ("every", "each", "all") and any(word.kind == "CELLW" for word in sentence.words[1:4])


def _premise(clause: Clause, sentence: Sentence) -> bool:
    """Is it what another thing follows from: ``Here is what we know: r1c1 can only be 5``, ``..., and from that alone ...``?"""
    if not clause.names or clause.has("IF", "LEAN", *NAMED):
        return False
    norms = [word.norm for word in sentence.words]
    alone = ALONE.search(" ".join(norms))
    after = alone is not None and clause.pieces[-1].end <= len(" ".join(norms)[: alone.start()].split())
    return after or KNOWN.match(" ".join(norms)) is not None


def _merely_both(clause: Clause, sentence: Sentence) -> bool:
    """Are a cell and a digit named, one of each, and no other word said?"""
    named = {at for piece in clause.pieces if piece.mention for at in range(piece.start, piece.end)}
    mere = all(
        word.kind in ("COMMA", "THE") or word.norm in (*BESIDE, "a", "an", "at", "in", "for")
        for at, word in enumerate(sentence.words)
        if at not in named
    )
    named_so = sorted(piece.type for piece in clause.pieces if piece.type != "FROM") == ["CELLS", "DIGITS"]
    return mere and named_so and _only_one_each(clause)


def _weighed(clause: Clause) -> bool:
    """Are one digit and a cell, or a few, all that is named: ``either r1c1 or r1c2 is 3, or neither of them is``?"""
    digits = {*clause.values("digits")}
    return clause.has("CELLS") and len(digits) == 1 and not clause.has("HOUSES")


def whole(sentence: Sentence) -> bool:
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


def of_pattern(clause: Clause) -> bool:
    """Is a pattern told, and no single?"""
    return clause.has(*NAMED, "LOCKED", "CONFINED") or several_digits(clause) or Kinds._fish(clause)


def _pattern_in_full(clause: Clause) -> bool:
    """Is a pattern named, and the cells, digits or lines that it is made of?"""
    return clause.has(*NAMED, "LOCKED") and _several(clause)


def _several(clause: Clause) -> bool:
    """Are several cells, digits or lines named?"""
    return any(len({*clause.values(kind)}) > 1 for kind in ("cells", "digits", "houses"))


def _no_other(clause: Clause) -> bool:
    return any(piece.text.startswith(("no other",)) for piece in clause.of("REST"))
