"""Clauses put together to steps: which effect goes with which reason, across sentences."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from . import patterns
from .borders import all_told, leaves_chain, mere_effects, refuted, shown_by, told_late
from .carrying import (
    ANSWERED,
    NOT_BEING,
    PUT_IT,
    as_fin,
    asked_before,
    beside,
    counted_off,
    digit_again,
    fin_or_fish,
    for_it,
    from_the_seen,
    none_outside,
    not_there_but,
    on_lines,
    role_asked,
    spoils,
    supposed_before,
)
from .clauses import NAMES, PLACEMENTS, REASONS, REMOVALS, Clause, Piece, Sentence, told_from
from .crossings import along_line, either_place, in_line, in_turn, lost_across, with_cells
from .effects import placements, removals
from .frame import (
    Frame,
    claimed,
    cross,
    crossing_cells,
    everything_else,
    name_first_cell,
    named_in,
    of_cases,
    of_its_line,
    placed_at,
    plain,
    used,
)
from .kinds import NAMED, Kinds, announces_reason, house_without, of_pattern, several_digits, weighs, whole
from .mentions import Mention
from .reading import Reading
from .statements import Effect, Marking, Placement, Reason, Removal, RestOf, Span, Step
from .vocabulary import Geometry, House
from .words import Script, Word

SINGLES = ("naked single", "hidden single", "last cell", "facts")
ONE_LEFT = re.compile(r"\b(one|single) (\w+ )?(hole|gap|cell|square|space|blank)\b")
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
PROMISING = re.compile(
    r"\b(as (i|we) (shall|will|can|am about to|hope to) (now )?(show|prove|explain|demonstrate)( you)?"
    r"|(the|my) (proof|argument|reasoning|explanation) (is|goes|runs|follows|comes)( (short|simple|easy|like this|so))?"
    r"|(this|here|that) is (why|how)|for the following reason|why is that|(you|some) (will|may|might) ask (me )?why"
    r"|how so|how come|how do (i|we|you) know)( \?| [;:,])?"
)
"""A sentence that says so, and that of which it ends so, is explained by the next."""
LOST = re.compile(r"\b(lost|shed|given up|dropped|parted)\b")
CELLS_FOR_DIGITS = re.compile(
    r"\b(cells|squares) (for|and|with|sharing) (the |just |only )*(same )?\w+ (digits|numbers|candidates)\b"
)
HAS = re.compile(r"(has|have|holds?|contains?|shows?) ")
COUNTED_CELLS = {"former": 0, "first": 0, "second": 1, "third": 2, "fourth": 3, "latter": -1, "last": -1}
CLAIMING = re.compile(
    r"(i|we) (now )?(say|claim|maintain|assert|contend|submit)\b|(my|our) claim is\b"
    r"|(let me|let us|i will|we will|i shall|we shall|i can|we can|i am going to) (now )?(show|prove|demonstrate)\b(?! why)"
)
"""A sentence that begins so tells an effect that the next ones show."""
SAME_WAY = (["in", "the", "same", "way"], ["for", "the", "same", "reason"], ["at", "the", "same", "time"])
COUNTING = re.compile(r"there (are|is) (just|only|exactly) \w+ (cells?|squares?|places?|spots?) (for|in|left)\b")
"""A sentence that begins so tells another pattern: ``There are just four cells for 2, 4, 5 and 6``"""
SIFTING = re.compile(r"(and )?(can|could|might|may) (it|that|this) (also )?(be|go|sit|stand|fit|live)\b")
"""A question for one place of the digit that is looked for: ``Can it be in column 6?``"""
CALLED_FOR = re.compile(
    r"^((and|but|so) )?why (do|can|may|could|should) (i|we|you) (now |then )?(say|claim|write|put|know|think|maintain)\b"
    r"|\band why( so| is that)?( \?)?$"
)
"""A question that tells an effect, and that the next sentence answers: ``Why do I say that r1c1 loses 2?``"""
GOING_ON = {"and", "which", "so", "because", "meaning", "that", "therefore", "hence", "but", "with"}
"""A sentence that begins so goes on with what was told, whatever was said between."""
CARRYING_ON = {"this", "that", "so", "they", "these", "those", "its", "it", "then", "consequently", "therefore", "thus"}
"""A sentence that begins so goes on with a reason that was announced."""
SINGLE_REASONS = ("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "SINGLE_NAME")
EXPLAINING = {"because", "since", "after", "why", "reason", "as", "remember"}


def _claimed(sentence: Sentence) -> Sentence:
    """The question ``Why do I say that r1c1 loses 2?`` as the effect that it tells."""
    for clause in sentence.clauses:
        clause.pieces = [piece for piece in clause.pieces if piece.type != "QUESTION"]
    return replace(sentence, asked=False)


def _reminds(sentence: Sentence) -> bool:
    """``Remember the XY-wing?``"""
    pieces = [piece for clause in sentence.clauses for piece in clause.of("AGAIN")]
    return any(piece.text.startswith(("remember", "recall")) for piece in pieces)


def _guesses_facts(steps: Sequence[Step], frame: Frame) -> bool:
    """Are names taken for facts though no word says that the step rests on them?"""
    facts = any(step.reason is not None and step.reason.name.value == "facts" for step in steps)
    return facts and not any(clause.has("FACT", "LEAN", "LOOK") for clause, _ in frame.clauses)


class Teller(Kinds):
    """Takes sentences one by one and gives readings."""

    def __init__(self, script: Script, geometry: Geometry) -> None:
        super().__init__(script, geometry)
        self.readings: list[Reading] = []
        self.words: list[tuple[int, int]] = []
        self.talked = False
        """Was nothing named yet in this paragraph?"""
        self.explaining = False
        """Was the last sentence a mere "Why?"?"""
        self.turn = ""
        """The first word of the talk just before in run-on speech, where it turns to something else: "let us see"."""
        self.ended = Frame()
        """The step that was told before this one."""

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
        if self._sifting(sentence, number) or self._why_linked(sentence, number):
            return
        if self.script.punctuated:
            cross(self.frame)
        self._settle(sentence)
        self._why_placed(sentence)
        if self._tells_another(sentence):
            self.flush()
        text = " ".join(word.norm for word in sentence.words)
        called_for = text.endswith("?") and sentence.names and bool(CALLED_FOR.search(text))
        if called_for:
            sentence = _claimed(sentence)
            self.sentences[-1] = sentence
            self.flush()
        if self._says_where(sentence) or (sentence.asked and _reminds(sentence)):
            return
        opening = sentence.words[0].norm if sentence.words else ""
        first = sentence.clauses[0].joints if sentence.clauses else set()
        self._take_back(sentence)
        fin_or_fish(sentence)
        not_there_but(sentence, any(map(of_pattern, self.frame.reasons)) or bool(self.frame.hypotheses))
        sentence.clauses[:] = along_line(sentence.clauses)
        self._put_elsewhere(sentence)
        before = self.sentences[-1 - ANSWERED : -1]
        asked_before(sentence, before)
        role_asked(sentence, before)
        counted_off(sentence, before)
        early = any(word.norm in GROUNDS for word in sentence.words[1:7]) and "BECAUSE" in first
        if self.explaining or any(map(self._leans_back, sentence.clauses)):
            self._others_told()
        if self.explaining or early or [word.norm for word in sentence.words[:3]] in SEEING_WHY:
            opening = "because"
        promised = PROMISING.search(text)
        asked_why = "why" in (opening, *(word.norm for word in sentence.words[-1:]))
        self.explaining = not sentence.names and (asked_why or announces_reason(sentence))
        ends_so = promised is not None and (not sentence.names or promised.end() == promised.endpos)
        self.explaining = self.explaining or ends_so or called_for
        if promised is not None and promised.start() == 0:
            opening = "because"  # "The argument runs: if ..."
        if [word.norm for word in sentence.words[:2]] == ["all", "of"]:
            opening = "of"  # "all of them": they were spoken of before
        opening = self._turning(sentence, opening)
        if opening in ("since", "as", "because") and sentence.words[0].norm == opening and self._tells_own(sentence):
            self.flush()
            opening = ""
        if [word.norm for word in sentence.words[:2]] in (["after", "that"], ["after", "this"]):
            opening = "then"  # and not why
        if [word.norm for word in sentence.words[:2]] == ["there", "goes"]:
            opening = "goes"  # that is an effect, and opens nothing
        if not self.script.opens_at(sentence.words[0].start if sentence.words else 0) and self._carries_on(sentence):
            opening = "because"
        if opening == "because" and any(map(of_pattern, sentence.clauses)):
            self._others_told()
        self.opens = self.talked or (bool(sentence.words) and self.script.opens_at(sentence.words[0].start))
        shown = self.frame.complete and (self.frame.reasoned or self.frame.explained or bool(self.frame.hypotheses))
        if shown and sentence.names and (CLAIMING.match(text) or COUNTING.match(text) or self._turns(sentence, opening)):
            self.flush()  # another effect, or another pattern
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
            if at == 0 and self.frame.complete and (self.frame.reasoned or opening not in CONTINUING) and whole(sentence):
                self.flush()
            if leaves_chain(self.frame, clause, opening):
                self.flush()
            if not self.script.punctuated:
                clause = _listed_on(self._answered(clause), sentence.words)
            supposed = supposed_before(clause, before) if at == 0 else clause
            if supposed is not clause and not self.frame.complete:
                clause, self.frame = supposed, Frame(sentences=[number - 1])  # nothing is led on from it
            clause = for_it(clause, self.memory, sentence.clauses[at - 1] if at else None)
            clause = beside(clause, self.memory, self.geometry.size)
            last = sentence.clauses[at - 1] if at else _last_clause(self.sentences[-2:-1])
            clause = digit_again(from_the_seen(clause, last), last)
            clause = none_outside(clause, [told for told, _ in self.frame.clauses])
            self._spoil(clause)
            clause = on_lines(clause, [] if self.frame.complete else [told for told, _ in self.frame.clauses])
            self._name_counted(clause)
            self._suppose_it(clause)
            shown = self.frame.complete and self.frame.reasoned and not self.frame.explained
            earlier = self.frame.reasons if shown else [told for told, _ in self.frame.clauses]
            done = [*self.frame.effective, *self.frame.placing]
            told = [told for told in earlier if all(told is not other for other in done)]
            clause = with_cells(clause, told, sentence.clauses, self.memory)
            if not self.script.punctuated or (self.asked and clause.first):
                clause = either_place(clause, [other for other in told if not self._choice(other)])
            clause = self._besides(clause)
            clause = in_line(lost_across(clause), sentence.clauses[:at], self.memory)
            clause = in_turn(clause, [told for told, _ in self.frame.clauses])
            kind = self._kind(clause, sentence)
            self._feed(clause, kind, number, opening, first=at == 0)
            self.memory.hear(clause)
        if self.explaining and not sentence.names:
            self._announced()
        waits = self.frame.explained and not self.frame.reasoned and number not in self.frame.told_in
        if opening == "because" and waits:
            self.explaining = True  # "Here is the reason. Consider r1c1 and r1c2. They are a pair."
        if alone or (not sentence.names and any(clause.has("NO_REASON") for clause in sentence.clauses)):
            self.flush()
        fed = sentence.names or number in self.frame.sentences or self.explaining
        self.talked = self.opens and self.script.punctuated and not fed
        if promised is not None or called_for:
            self._leave_only(number)
        if CLAIMING.match(text) and self.frame.complete and not self.frame.reasoned:
            self.explaining = True
        if opening == "because" and self.frame.complete and not self.frame.reasoned:
            self.explaining = True  # what was looked at first is not all of the reason

    def _sifting(self, sentence: Sentence, number: int) -> bool:
        """``Can it be in column 6? No, that has a 4.``: places that the digit looked for does not go in, by questions."""
        frame = self.frame
        text = " ".join(word.norm for word in sentence.words)
        sought = bool(self._wanted()) and not frame.complete
        asked = sought and sentence.asked and bool(SIFTING.match(text)) and not sentence.clauses[0].has("CELLS", "DIGITS")
        last = " ".join(word.norm for word in self.sentences[-2].words) if len(self.sentences) > 1 else ""
        denied = sought and self.asked and bool(SIFTING.match(last)) and text.startswith("no ")
        if asked or denied:
            frame.sifted = True
            frame.sentences.append(number)
        return asked or denied

    def _why_linked(self, sentence: Sentence, number: int) -> bool:
        """``So r5c6 is a 3. The row has no other place. Then ...``: does it tell why the link before it holds?"""
        frame = self.frame
        if not frame.hypotheses or frame.concluded or frame.sentences[-1] != number - 1 or not sentence.clauses:
            return False
        known = {digit for told in frame.hypotheses for digit in told.values("digits")}
        told = Clause([piece for clause in sentence.clauses for piece in clause.pieces], sentence.clauses[0].joints)
        goes_on = bool(told.joints & {"SO", "THEN"}) or told.has("CELLS", "IF", "LEADS", "EITHER", "CHAIN_NAME", *REMOVALS)
        linked = told.has("PRONOUN", "THAT_DIGIT") and told.has("DIGITS")  # "It can only be a 3."
        why = told.has("ONLY_PLACE", "CONFINED") and told.has("SAME_HOUSE", "HOUSES")
        why = why or (told.has("ONLY_DIGIT") and not told.has("HOUSES", "PRONOUN"))
        if not why or goes_on or linked or not known.issuperset(told.values("digits")):
            return False
        frame.sentences.append(number)
        return True

    def _turns(self, sentence: Sentence, opening: str) -> bool:
        """Is it of something else than what was told and shown: a question, a step with its own proof, or another digit?"""
        if not self.script.punctuated or self.frame.hypotheses:
            return False
        if (opening == "because" and not sentence.asked) or opening in CONTINUING:
            return False
        if sentence.asked:
            return not self.asked and any(clause.has("NEEDED", "FACT") and clause.has("DIGITS") for clause in sentence.clauses)
        removing = [clause for clause in sentence.clauses if clause.has(*REMOVALS) and clause.has("DIGITS")]
        proved = any("BECAUSE" in clause.joints and of_pattern(clause) and clause.has("CELLS") for clause in sentence.clauses)
        if not removing or removing[0] is not sentence.clauses[0] or "SO" in removing[0].joints:
            return False
        digits = {digit for told in self.frame.reasons for digit in told.values("digits")}
        lost = {*removing[0].values("digits")}
        gone = {said.value for effect in self.frame.effects if isinstance(effect, Removal | RestOf) for said in effect.digits}
        of_one = any(told.has("LOCKED", "FISH") for told in self.frame.reasons) and len(digits) == 1 and gone <= digits
        return proved or (of_one and lost.isdisjoint(digits))

    def _settle(self, sentence: Sentence) -> None:
        """End a pattern that was told for the effects before it, where the sentence tells an effect of something else.

        ``r8c5 has to be 9. r1c5, r8c5 and r9c5 are a naked triple. r8c3 is 1.``
        """
        frame, opening = self.frame, sentence.words[0].norm if sentence.words else ""
        told = [clause for clause in sentence.clauses if clause.has("CELLS") and clause.has("DIGITS")]
        acts = any(clause.has(*REMOVALS, *PLACEMENTS) for clause in told)
        if not acts or not frame.reasons or frame.hypotheses or frame.complete or self.ended.reasoned:
            return
        if sentence.asked or opening in GOING_ON | CARRYING_ON:
            return
        merged = self._with_effects_before(frame)
        if merged is not frame:
            self.frame = merged
            self.flush()

    def _why_placed(self, sentence: Sentence) -> None:
        """``..., so r5c9 loses 1. No other cell in row 8 can be 1. So r8c9 is``: the one is why the other, and no effect."""
        frame = self.frame
        if not (frame.complete and frame.reasoned and self.script.punctuated and sentence.clauses):
            return
        clause, last = frame.clauses[-1]
        if not house_without(clause) or not any(clause is told for told in frame.effective) or last != len(self.kinds) - 2:
            return
        digits, houses = ({*clause.values(kind)} for kind in ("digits", "houses"))
        told = [other for other in sentence.clauses if other.has(*PLACEMENTS) and self._one_cell(other)]
        told = [other for other in told[:1] if not other.has(*REMOVALS)]
        cells = {cell for other in told for cell in other.values("cells")}
        said = {digit for other in told for digit in other.values("digits")}
        inside = any(cells <= set(self.geometry.cells_of[house]) for house in houses)
        late = told_late(frame, last) if cells and inside and said <= digits else None
        if late is not None:
            self.flush()
            self.frame = Frame(late.clauses, [clause], sentences=late.sentences)

    def _tells_another(self, sentence: Sentence) -> bool:
        """Does the sentence tell a whole step by itself, its reason and all that it shows, which the step before does not?"""
        frame = self.frame
        if not frame.clauses or not sentence.clauses or not self.script.punctuated or sentence.asked or self.explaining:
            return False
        if frame.hypotheses and (sentence.clauses[0].has("LEADS") or sentence.clauses[0].joints & {"SO", "THEN"}):
            return False
        alone = Teller(self.script, self.geometry)
        clauses = [Clause([*clause.pieces], {*clause.joints}, clause.first) for clause in sentence.clauses]
        alone.tell(replace(sentence, clauses=clauses))
        alone.finish()
        if len(alone.readings) != 1 or not alone.readings[0].forced or not alone.readings[0].alternatives:
            return False
        steps = alone.readings[0].alternatives[0]
        if len(steps) != 1 or steps[0].reason is None:
            return False
        if steps[0].reason.name.value == "facts" and not any(clause.has("FACT", "LEAN") for clause in clauses):
            return False
        if any(option[0].reason is None for option in alone.readings[0].alternatives):
            return False
        if not frame.complete and self._shares(frame, clauses):
            return False  # what is told so far may be the half of it
        headed = not frame.values() and not frame.complete and any(told.has(*NAMED) for told in frame.reasons)
        if headed and steps[0].reason.name.value not in SINGLES and not any(clause.has(*NAMED) for clause in clauses):
            return False  # "Here comes a swordfish! It's on 2s, in rows 5 and 6, ..."
        effects = steps[0].effects
        told = all(plain(effect) or (isinstance(effect, RestOf) and effect.house and effect.digits) for effect in effects)
        return told and not {*effects} & {*frame.effects}

    def _shares(self, frame: Frame, clauses: Sequence[Clause]) -> bool:
        """Is a name of the step in these clauses, or a cell of one of its houses?"""
        names = {value for clause in clauses for piece in clause.pieces if piece.mention for value in piece.mention.bare}
        told = frame.values()
        inside = {cell for house in told if isinstance(house, House) for cell in self.geometry.cells_of[house]}
        return bool(names & (told | inside))

    def _says_where(self, sentence: Sentence) -> bool:
        """``Column 9 alone has room for the 2 of row 8. That's r8c9.``: the cell that two lines just told."""
        bare = [[piece.type for piece in clause.pieces] for clause in sentence.clauses] == [["PRONOUN", "BE", "CELLS"]]
        if not bare or self.asked or len(sentence.clauses[0].named("cells")[0].values) != 1:
            return False
        (cell,) = sentence.clauses[0].named("cells")[0].bare
        told = self.sentences[-2].clauses if len(self.sentences) > 1 else []
        lines = {house for clause in told for house in clause.values("houses")}
        return {House("r", cell.row), House("c", cell.column)} <= lines

    def _leave_only(self, number: int) -> None:
        """``r7c8 is down to 4, 6 and 8. You will ask why.``: what is left is what is shown."""
        frame = self.frame
        if len(frame.clauses) == 1 and frame.complete:
            frame.reasons.clear()  # "r9c4 is left with 3 alone, as I shall show": the reason is to come
        told = frame.clauses[-1][0] if len(frame.clauses) == 1 and not frame.effects else None
        if told is None or not self._one_cell(told) or not several_digits(told) or not told.has("ONLY_DIGIT", "KEEPS"):
            return
        cells = tuple(said for mention in told.named("cells") for said in mention.values)
        frame.effects.append(Removal(cells, ()))
        frame.effective.append(told)
        frame.reasons.clear()
        frame.effect_at = frame.sentences[-1] if frame.sentences else number

    def _put_elsewhere(self, sentence: Sentence) -> None:
        """``In row 2 the 7 can't sit at r2c1 or r2c8. Pop it into r2c3.``: where it is not bore witness, and was no effect."""
        frame = self.frame
        told = [clause for clause in sentence.clauses if clause.has(*PLACEMENTS)][:1]
        denied = [cell for clause in frame.effective for cell in clause.values("cells")]
        digits = {digit for clause, _ in frame.clauses for digit in clause.values("digits")}
        mere = all(NOT_BEING.match(piece.text) for clause in frame.effective for piece in clause.of(*REMOVALS))
        if not (told and denied and mere) or frame.reasoned or frame.hypotheses or frame.placing or len(digits) != 1:
            return
        clause = told[0]
        it = any(piece.text.split()[-1:] == ["it"] for piece in clause.of("PRONOUN"))
        it = it or PUT_IT.search(clause.of(*PLACEMENTS)[0].text) is not None
        it = it or (clause.first and clause.pieces[0].type == "FORCE")  # "Has to be r8c7."
        cells = clause.values("cells")
        if not it or len(cells) != 1 or cells[0] in denied or clause.has("DIGITS", *REMOVALS):
            return
        for before in frame.effective:
            before.pieces = [replace(piece, type="ALREADY") if piece.type == "DENY" else piece for piece in before.pieces]
        frame.support += frame.effective
        frame.effective, frame.effects, frame.told_in, frame.effect_at = [], [], [], -1
        at = clause.pieces[0].start
        digit = next(piece for before, _ in reversed(frame.clauses) for piece in before.of("DIGITS"))
        clause.pieces = [replace(digit, start=at, end=at), *clause.pieces]

    def _take_back(self, sentence: Sentence) -> None:
        """``r1c1 has only 3, r1c2 has only 5. That is a naked pair.``: a pattern is described, nothing filled in."""
        last = len(self.kinds) - 2
        called = any(clause.has("SUBSET") for clause in sentence.clauses) or CELLS_FOR_DIGITS.search(
            " ".join(word.norm for word in sentence.words)
        )
        digits = {digit for clause in sentence.clauses for digit in clause.values("digits")}
        if last < 0 or not called or any(clause.has("CELLS") for clause in sentence.clauses):
            return
        told = self.sentences[last].clauses
        cells = {cell for clause in told for cell in clause.values("cells")}
        has = all(HAS.match(piece.text) for clause in told for piece in clause.pieces if piece.mention is None)
        of_it = {digit for clause in told for digit in clause.values("digits")} == digits
        if has and of_it and 1 < len(cells) == len(digits) and self.frame.sentences in ([last], []):
            while self.readings and self.readings[-1].sentences == (last,):
                self.readings.pop()
            self.frame = Frame([(clause, last) for clause in told], [*told], sentences=[last])

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

    def _besides(self, clause: Clause) -> Clause:
        """``I thought I had a jellyfish in ..., but there is r6c8``: the fin of the fish that was told."""
        types = [piece.type for piece in clause.pieces if piece.type not in ("PRONOUN", "ALSO")]
        fish = any(told.has("FISH") and told.has("HOUSES") for told in self.frame.reasons)
        if "BREAK" not in clause.joints or types != ["BE", "CELLS"] or not fish or self.frame.complete:
            return clause
        pieces = [replace(piece, type="FINS") if piece.type == "BE" else piece for piece in clause.pieces]
        return Clause(pieces, clause.joints, clause.first)

    def finish(self) -> None:
        """The end of the narration."""
        self.flush()

    # What becomes of it

    def _feed(self, clause: Clause, kind: str, number: int, opening: str, first: bool) -> None:
        frame = self.frame
        if kind == "aside":
            return
        if kind == "mark":
            self._marked(number)
            return
        same = bool(frame.sentences) and frame.sentences[-1] == number
        if kind == "sifted":
            frame.sifted = True
            if not same:
                frame.sentences.append(number)
            return
        if not same:
            cross(frame)
        looked_at = not same and not frame.complete and not frame.reasoned and bool(frame.support)
        elsewhere = kind == "support" and clause.has("NEEDED", "QUESTION")
        if elsewhere and not clause.has("HOUSES", "CELLS") and not any(told.has("DIGITS") for told, _ in frame.clauses):
            elsewhere = False  # "Let us look at row 2. Where does its 1 go?"
        if (
            elsewhere
            and not clause.has("DIGITS", "CELLS")
            and not any(told.has("CELLS", "HOUSES") for told, _ in frame.clauses)
        ):
            elsewhere = False  # "Nines now. Box 9 wants one."
        if looked_at and (self.opens or number - frame.sentences[-1] > 2 or elsewhere):
            self.frame = frame = Frame()  # what was only looked at is soon forgotten
        if self.opens and first and not frame.complete and frame.reasoned and not clause.joints & {"SO", "THEN"}:
            self.flush()
            frame = self.frame
        if self.opens and first and frame.complete and kind != "hypothesis" and not self._explains(kind, opening):
            self.flush()
            frame = self.frame
        fresh = first and opening in FRESH and kind != "hypothesis" and not self._goes_on(opening, kind)
        on = self._elaborates(clause) or self._says_more(clause)
        fresh = fresh and not (frame.complete and kind in ("reason", "both") and on)
        fresh = fresh and not (kind == "reason" and (self._shows_told(clause, number) or self._leans_back(clause)))
        if first and frame.complete and kind in ("removal", "placement", "both") and self._long_since(number):
            self.flush()  # after so much talk another step begins
            frame = self.frame
        said = {value for mention in (p.mention for p in clause.pieces) if mention for value in mention.bare}
        other = frame.reasoned and kind != "removal" and said and not said & frame.values() and not self._awaited(clause)
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
        seeks = clause.has("NEEDED") and clause.has("HOUSES") and not self._complements(clause)
        after = (self._told_after(opening) and not seeks) or opening in EXPLAINING or self._says_more(clause)
        if frame.complete and kind == "support" and not same and not after:
            self.flush()
            frame = self.frame
        if kind == "reason" and clause.has("PRONOUNS") and not clause.has("CELLS") and self.memory.several:
            # What "these cells" are is settled as it is said.
            at = next(i for i, piece in enumerate(clause.pieces) if piece.type == "PRONOUNS")
            piece = clause.pieces[at]
            here = {said.value for said in self.memory.several} <= frame.values() and not self.memory.of_lines
            if here or "cell" in piece.text or "square" in piece.text:
                mention = Mention("cells", self.memory.several, piece.start, piece.end)
                clause.pieces[at] = replace(piece, type="CELLS", mention=mention)
        self._name_in_role(clause)
        name_first_cell(clause, frame.hypotheses)
        frame.clauses.append((clause, number))
        if number not in frame.sentences:
            frame.sentences.append(number)
        if kind == "support":
            frame.support.append(clause)
            return
        if kind == "hypothesis":
            frame.hypotheses.append(clause)
            frame.explained = frame.explained or frame.complete
            return
        if kind in ("reason", "both"):
            frame.reasons.append(clause)
        found: list[Effect] = []
        if kind == "removal" or (kind == "both" and self._removes(clause)):
            found = list(removals(clause, self.memory, self._pattern_cells(frame), frame.values()))
            found = [self._denied_too(effect, clause) for effect in found]
        if not found and kind in ("placement", "both"):
            found = list(placements(clause, self.memory, self._subject(frame, clause)))
        if found:
            cleared = isinstance(found[0], Placement) and not also and all(map(everything_else, frame.effects))
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

    def _spoil(self, clause: Clause) -> None:
        """``Suppose r3c3 is not 1. Then columns 3 and 4 have an X-wing on 1``: what was supposed away is the fin."""
        frame = self.frame
        supposed = frame.hypotheses
        if len(supposed) == 1 and supposed[0] is frame.clauses[-1][0] and spoils(supposed[0], clause):
            as_fin(supposed[0])
            frame.hypotheses, frame.reasons = [], [*frame.reasons, *supposed]

    def _name_in_role(self, clause: Clause) -> None:
        """What "this cell" is where it has a role: ``so it is a finned X-wing, with this cell as fin``."""
        if not clause.has("PIVOT", "WINGS", "FINS") or clause.has("CELLS") or not self.memory.cells:
            return
        for at, piece in enumerate(clause.pieces):
            one = piece.type == "PRONOUN" and piece.text.endswith(("cell", "square", "one"))
            if one or (piece.type == "PRONOUNS" and piece.text.endswith(("cells", "squares", "two", "three"))):
                said = self.memory.cells[-1:] if one else self.memory.several
                clause.pieces[at] = replace(piece, type="CELLS", mention=Mention("cells", said, piece.start, piece.end))
                return

    def _name_counted(self, clause: Clause) -> None:
        """What "the former" and "the second of these" are, of the cells named together last."""
        for at, piece in enumerate(clause.pieces):
            word = next((word for word in piece.text.split() if word in COUNTED_CELLS), "") if piece.type == "NTH_CELL" else ""
            if word == "latter" and self.memory.cell is not None and self.memory.cells != self.memory.several:
                last = Mention("cells", self.memory.cells[-1:], piece.start, piece.end)
                clause.pieces[at] = replace(piece, type="CELLS", mention=last)
            elif word and len(self.memory.several) > max(COUNTED_CELLS[word], 1) - (word == "latter"):
                said = self.memory.several[COUNTED_CELLS[word]]
                clause.pieces[at] = replace(piece, type="CELLS", mention=Mention("cells", (said,), piece.start, piece.end))

    def _suppose_it(self, clause: Clause) -> None:
        """``Either r1c1 is 5 or it is not. Say it is not. ...``: what is supposed was told just before."""
        weighed = [told for told, _ in self.frame.clauses[-1:] if told.has("WHETHER")]
        begin = next((at for at, piece in enumerate(clause.pieces) if piece.type == "IF"), -1)
        end = next((at for at in range(begin + 1, len(clause.pieces)) if clause.pieces[at].type in ("LEADS", "CELLS")), None)
        supposed = clause.pieces[begin + 1 : end]
        bare = any(piece.type in ("DENY", "BE") for piece in supposed) and not any(p.type in NAMES for p in supposed)
        if not weighed or begin < 0 or not bare:
            return
        (told,) = weighed
        names = [piece for kind in ("CELLS", "DIGITS") for piece in told.of(kind)]
        if all(len(piece.mention.values) == 1 for piece in names if piece.mention) and len(names) == 2:
            said = [piece for piece in supposed if piece.type in ("DENY", "BE")]
            clause.pieces[begin + 1 : end] = [names[0], *said, names[1]]

    def _awaited(self, clause: Clause) -> bool:
        """``There is one spot for the 9 in box 4. Let us see: r5c3.``: the cell that the digit of a house is to go in."""
        frame = self.frame
        cells = {*clause.values("cells")}
        told = [other for other, _ in frame.clauses]
        houses = {house for other in told for house in other.values("houses")}
        digits = {digit for other in told for digit in other.values("digits")}
        if frame.complete or len(cells) != 1 or len(digits) != 1 or len(houses) != 1 or clause.has("DIGITS", "HOUSES"):
            return False
        return not any(other.has("CELLS") for other in told) and cells <= set(self.geometry.cells_of[next(iter(houses))])

    def _denied_too(self, effect: Effect, clause: Clause) -> Effect:
        """``r1c1 cannot be 5 and cannot be 8``: of which cell the last is said was told with the first."""
        last = self.frame.effects[-1] if self.frame.effects else None
        bare = [piece.type for piece in clause.pieces if piece.type not in ("BE", "PRONOUN")] == ["DENY", "DIGITS"]
        if not bare or not isinstance(effect, Removal) or effect.cells or not isinstance(last, Removal):
            return effect
        return replace(effect, cells=last.cells)

    def _told_after(self, opening: str) -> bool:
        """Is it part of what explains the effects that were told before?"""
        frame = self.frame
        return (frame.explained and frame.concluded) or (opening == "because" and not frame.reasoned) or self._only_called()

    def _new_step(self, clause: Clause, kind: str, number: int, opening: str, first: bool, same: bool) -> bool:
        """Does the clause begin another step?"""
        frame = self.frame
        named = any(told.has("FISH", "SUBSET", "LOCKED") for told in frame.reasons)
        if kind == "reason" and ((clause.has("CHAIN_NAME") and named) or self._other_subset(clause)):
            return True
        if kind == "reason" and clause.has(*NAMED, "LOCKED") and (self.sentences[number].asked or self._of_single(clause)):
            return True  # "An 8 in r4c2. That fills its row. Can you see the naked quad?"
        if kind == "support" or (kind == "reason" and (self._cells_of_subset(clause) or self._adds_role(clause))):
            return False
        if kind == "hypothesis" and frame.explained and clause.first and any(map(of_pattern, frame.reasons)):
            known = {digit for told, _ in frame.clauses for digit in told.values("digits")}
            other = known.isdisjoint(clause.values("digits"))
            if clause.has("DIGITS") and other:
                return True  # "r8c6 is 7. How come? ... Swordfish! Say there is no 6 in r6c4. ..."
        if kind == "hypothesis" and frame.explained:
            return bool(frame.hypotheses) and clause.has("IF") and not self._other_case(clause)
        if kind == "hypothesis":
            if self._told_first() and any(told.has("CHAIN_NAME") for told in frame.reasons):
                return False
            return not self._supposed_here() and (frame.reasoned or opening not in EXPLAINING)
        if same:
            last_cell = clause.has("LAST_CELL", "SINGLE_NAME") and clause.has("CELLS") and "AND_CLAUSE" in clause.joints
            last_cell = last_cell or any(ONE_LEFT.search(piece.text) for piece in clause.of("LAST_CELL"))
            if kind == "reason" and last_cell and any(isinstance(effect, Placement) for effect in frame.effects):
                return True  # "so the 8 goes in r4c9, and the last cell of the column, r5c9, is the 9"
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
                placed = {effect.digit.value for effect in frame.effects if isinstance(effect, Placement) and effect.digit}
                placing = [told for told in self.sentences[number].clauses if told.has(*PLACEMENTS) and told.has("CELLS")]
                mere = len(placing) == 2 and not weighs(self.sentences[number]) and not frame.reasoned
                so = placed and "SO" in clause.joints and clause.digits and mere
                if so and placed.isdisjoint(clause.values("digits")):
                    return True  # "so r2c8 is 2, and that makes its partner r1c8 the 9"
                if any(isinstance(effect, Placement) for effect in frame.effects):
                    return frame.reasoned or kind == "both" or self._in_own_house(clause)
                return kind == "both" and frame.reasoned and clause.has("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "SINGLE_NAME")
            return not any(not isinstance(effect, Placement) for effect in frame.effects)
        if kind == "removal" and any(not isinstance(effect, Placement) for effect in frame.effects):
            if (refuted(frame) or all_told(frame)) and opening not in CONTINUING:
                return True
            return (opening in FRESH and not self._goes_on(opening, kind)) or self.opens
        if kind == "reason" and not frame.reasoned:
            called = [piece.type for piece in clause.pieces] == ["SINGLE_NAME"] and opening in ("a", "another")
            if self._leans_back(clause) or called:
                return False  # "r2c2 is 7. A naked single."
            if self._shows_told(clause, number):
                return False
            return opening not in EXPLAINING and not clause.has("PRONOUN", "PRONOUNS")
        spoken_of = any(piece.text not in ("here", "there") for piece in clause.of("PRONOUN", "PRONOUNS"))
        called = clause.has(*NAMED) and not clause.names and spoken_of  # "that is an X-wing"
        return not (
            kind == "reason"
            and (opening in EXPLAINING or called or self._only_called() or self._links_on(clause) or self._says_more(clause))
        )

    def _in_own_house(self, clause: Clause) -> bool:
        """Is it ``..., and in box 6 it's r5c8``, of a house in which the cell filled before does not lie?"""
        filled = {effect.cell.value for effect in self.frame.effects if isinstance(effect, Placement) and effect.cell}
        cells = {*clause.values("cells")}
        around = [{*self.geometry.cells_of[house]} for house in clause.values("houses")]
        return bool(cells and around) and all(cells <= inside and not filled & inside for inside in around)

    def _leans_back(self, clause: Clause) -> bool:
        """``All you need for that is ...``, ``Just look at ...``, ``Look at ... to see it``"""
        norms = [word.norm for word in self.sentences[-1].words]
        back = norms[:1] == ["just"] or norms[-3:] in (["to", "see", "it"], ["to", "see", "that"], ["to", "see", "why"])
        said = any(word in piece.text.split() for piece in clause.of("LEAN") for word in ("it", "this", "that"))
        return said or (clause.has("LEAN") and back)

    def _of_single(self, clause: Clause) -> bool:
        """Was a digit placed for the reason of a single, or is a locked digit called so after a placement?"""
        frame = self.frame
        placed = bool(frame.effects) and all(isinstance(effect, Placement) for effect in frame.effects)
        single = any(told.has(*SINGLE_REASONS) for told in frame.reasons) and not any(map(of_pattern, frame.reasons))
        return placed and (single or clause.has("LOCKED"))

    def _shows_told(self, clause: Clause, number: int) -> bool:
        """Is it, right after an effect for which no reason was told, a pattern of its digits in a sentence without effects?

        ``The rest of row 3 loses 4. Box 2 has no 4 outside row 3.``
        """
        frame = self.frame
        lost = {said.value for effect in frame.effects if isinstance(effect, Removal | RestOf) for said in effect.digits}
        digits = {*clause.values("digits")}
        alone = not any(told.has(*REMOVALS) or told.has("REST") for told in self.sentences[-1].clauses)
        told = bool(frame.sentences) and number - frame.sentences[-1] == 1 and not self.opens and self.script.punctuated
        placed = any(isinstance(effect, Placement) for effect in frame.effects)
        waits = frame.complete and not frame.reasoned and told and not placed
        return waits and alone and of_pattern(clause) and bool(lost & digits)

    def _says_more(self, clause: Clause) -> bool:
        """Does it go on about the pattern that was told after its effects, and name nothing else?"""
        pattern = any(told.has("FISH", "XY_WING") for told in self.frame.reasons) or self._fish(*self.frame.reasons)
        role = pattern and clause.has("FINS", "COVER", "BASE", "PIVOT", "WINGS")
        return self._told_first() and not self.opens and (role or self._complements(clause))

    def _adds_role(self, clause: Clause) -> bool:
        """``... because there is a finned X-wing in ...; and the fins are ...``: a part of the pattern that was told last."""
        reasons = self.frame.reasons
        roles = {piece.type for piece in clause.of("FINS", "PIVOT", "WINGS", "COVER", "BASE")}
        named = any(told.has("FISH", "XY_WING") for told in reasons) and not clause.has("FISH", "XY_WING", *REMOVALS)
        return bool(roles) and named and not any(told.has(*roles) for told in reasons)

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
        called = any(clause.has(*NAMED, "LOCKED") for clause in frame.reasons)
        return self._told_first() and bare and called and not frame.hypotheses

    def _tells_own(self, sentence: Sentence) -> bool:
        """Does it give a reason and its own effect, ``Since ..., we may strike off 3 in r1c1``?"""
        told = self.frame.values()
        for clause in sentence.clauses[1:]:
            cells = {*clause.values("cells")}
            acts = clause.has("REMOVE", "TAKE", "GONE", "DENY", "PLACE", "FORCE", "BE") and "BECAUSE" not in clause.joints
            elsewhere = clause.has("REST", "PLACE") and clause.has("HOUSES", "SAME_HOUSE")
            if self.frame.complete and acts and (cells - told or elsewhere):
                return True
        return False

    def _carries_on(self, sentence: Sentence) -> bool:
        """Does it go on with a reason that was announced, told after its effect?"""
        first = [word.norm for word in sentence.words[:2]]
        return (
            self.frame.explained and bool(first) and (first[0] in CARRYING_ON or first == ["the", "same"] or weighs(sentence))
        )

    def _announced(self) -> None:
        """``Here is the reason.``: what was told before it is an effect."""
        self._others_told()
        frame = self.frame
        begin = frame.sentences[-1] if frame.sentences else 0
        while begin - 1 in frame.told_in and _adds(self.sentences[begin]):
            begin -= 1  # "r3c5 is not 1. And r7c4 is not 6. Why?"
        self._part_before(begin)
        frame = self.frame
        frame.explained = frame.explained or (frame.complete and not frame.reasoned)

    def _others_told(self) -> None:
        """``No other cell of row 3 can be 7. The reason is that ...``: that is an effect."""
        frame = self.frame
        if len(frame.reasons) != 1 or frame.placing or not house_without(frame.reasons[0]):
            return
        (clause,) = frame.reasons
        if all(told is clause or told in frame.effective for told, _ in frame.clauses):
            number = next(number for told, number in frame.clauses if told is clause)
            found = [*removals(clause, self.memory, set(), frame.values())]
            frame.effects, frame.told_in = [*found, *frame.effects], [number] * len(found) + frame.told_in
            frame.reasons.clear()
            frame.effective.append(clause)
            frame.effect_at = max(frame.told_in)

    def _part_before(self, first: int) -> None:
        """End a step that was told out before that sentence, where a reason is announced for the effects told from it on."""
        late = told_late(self.frame, first)
        if late is not None:
            self.flush()
            self.frame = late

    def _with_effects_before(self, frame: Frame) -> Frame:
        """A pattern told without effects, with those told just before it, at the end of a step that was told out before them.

        ``..., so r1c3 cannot be 5. r4c1 cannot be 7. It is a jellyfish: in rows 2, 4, 6 and 9 ...``
        """
        ended = self.ended
        last = ended.sentences[-1] if ended.sentences else -1
        pattern = bool(frame.hypotheses) or any(map(of_pattern, frame.reasons))
        if frame.complete or not pattern or frame.sentences[0] != last + 1 or not self.script.punctuated:
            return frame
        if not self.readings or self.readings[-1].sentences != tuple(ended.sentences):
            return frame
        if ended.complete and not ended.reasoned and ended.values() & frame.values() and mere_effects(ended):
            self.readings.pop()
            return shown_by(ended, frame)
        begin = last
        while begin - 1 in ended.told_in and _adds(self.sentences[begin]):
            begin -= 1
        concluding = self.sentences[begin].words[0].norm in GOING_ON | CARRYING_ON
        removing = all(isinstance(effect, Removal | RestOf) for effect in ended.effects)
        if concluding or not ended.reasoned or not removing:
            return frame
        if self.script.opens_at(self.sentences[frame.sentences[0]].words[0].start):
            return frame
        late = told_late(ended, begin)
        if late is None:
            return frame
        self.readings.pop()
        self.frame, self.ended = ended, Frame()
        self.flush()
        return shown_by(late, frame)

    def _other_case(self, clause: Clause) -> bool:
        """Is something else supposed of the cell of which something was supposed first?"""
        first = [cell for told in self.frame.hypotheses[:1] for cell in told.values("cells")]
        cells = clause.values("cells")
        return not self.frame.concluded and (cells[:1] == first[:1] or not cells or clause.has("PRONOUN"))

    @staticmethod
    def _goes_on(opening: str, kind: str) -> bool:
        """Do such words open one more effect: ``There's no 5 in r1c1``, ``Oh, and r1c1 loses 3``?"""
        return opening in ("there", "oh", "all") and kind == "removal"

    def _elaborates(self, clause: Clause) -> bool:
        """Does it say again, or why, that the digit just placed has no other place, or the cell no other digit?"""
        placed = {e.digit.value for e in self.frame.effects if isinstance(e, Placement) and e.cell and e.digit}
        cells = {e.cell.value for e in self.frame.effects if isinstance(e, Placement) and e.cell and e.digit}
        digits = {*clause.values("digits")}
        named = {*clause.values("cells")}
        if not placed or not clause.has("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL") or self.opens:
            return False
        adds = bool(self.sentences[-1].words) and self.sentences[-1].words[0].norm == "and"
        left = [piece.text for piece in clause.of("LAST_CELL")]
        if any("short" in text.split() or (adds and ONE_LEFT.search(text)) for text in left):
            return False  # "so r2c8 is 1. And column 8 is one short of full": one is still to come
        houses = clause.values("houses")
        around = all(cells <= set(self.geometry.cells_of[house]) for house in houses)
        if clause.has("LAST_CELL") and self.frame.reasoned and set(houses) - self.frame.values():
            return False  # "it is the last cell in column 9. One cell to go in row 6"
        if not digits and not named:
            return around or clause.has("PRONOUN")
        return digits <= placed and named <= cells and (around or not self.frame.reasons)

    def _repeats(self, clause: Clause) -> bool:
        """Is it the placement just told once more: ``so 5 it is``?"""
        told = {(e.cell.value, e.digit.value) for e in self.frame.effects if isinstance(e, Placement) and e.cell and e.digit}
        cells = {*clause.values("cells")}
        digits = {*clause.values("digits")}
        again = len(told) == len(self.frame.effects) == 1 and bool(digits) and not clause.has("HOUSES", "IF")
        return again and all(cells <= {cell} and digits == {digit} for cell, digit in told)

    def _explains(self, kind: str, opening: str) -> bool:
        return kind == "reason" and opening in EXPLAINING

    def _other_reason(self, clause: Clause, kind: str, asked: bool) -> bool:
        """Does another step begin, though the one before was told without an effect?"""
        frame = self.frame
        fish = {piece.text.split()[-1] for told in (*frame.reasons, clause) for piece in told.of("FISH")}
        if clause.has("FISH") and len(fish) > 1:
            return True  # a jellyfish is no swordfish
        if kind == "reason" and self._other_subset(clause):
            return True
        if not frame.reasoned or clause.has("EITHER", "PRONOUN", "PRONOUNS", "SAME_HOUSES"):
            return False
        lines = [told for told in frame.reasons if told.has("CONFINED", "ONLY_PLACE") and told.has("DIGITS")]
        if kind == "reason" and clause.first and clause.has("CONFINED") and len(clause.digits) == 1 and len(lines) == 1:
            return {said.value for said in clause.digits}.isdisjoint(said.value for said in lines[0].digits)
        digits = {*clause.values("digits")}
        if digits and digits <= frame.values() and any(map(self._choice, frame.reasons)) and clause.has("NEEDED"):
            return False  # "In box 1 the 7 is in r3c3 or r1c3. Where is the 7 in row 7?"
        looks = clause.has("NEEDED", "LEAN") and not self._puts(clause)
        if clause.first and looks and clause.names and not self._complements(clause):
            return not self._in_its_house(clause)
        if frame.hypotheses and clause.has("CHAIN_NAME") and self._complements(clause) and not clause.has("CELLS", "HOUSES"):
            return False  # "One end or the other is a 2. An XY-chain on 2."
        if frame.hypotheses:
            return kind in ("reason", "both") or (kind == "support" and asked)
        own = kind == "both" and clause.first and "SO" not in clause.joints and clause.has(*SINGLE_REASONS)
        if own and clause.has("DIGITS") and any(map(of_pattern, frame.reasons)):
            return True  # a single, after a pattern whose effects went unsaid
        if clause.has("SINGLE_NAME") and any(c.has("SINGLE_NAME") and c.has("CELLS", "DIGITS") for c in frame.reasons):
            return not (clause.has("CELLS", "DIGITS") and self._complements(clause))
        names = {piece.type for earlier in frame.reasons for piece in earlier.of(*NAMED)}
        others = {piece.type for piece in clause.of(*NAMED)}
        headed = clause.has("SINGLE_NAME") and any(map(of_pattern, frame.reasons))
        return headed or bool(names and others and names != others) or (kind == "support" and asked)

    def _in_its_house(self, clause: Clause) -> bool:
        """``Next is r9c7. Column 7 still needs 1 and 4``: is it said of a house of the cell that was only looked at?"""
        told = [earlier for earlier, _ in self.frame.clauses]
        cells = {cell for earlier in told for cell in earlier.values("cells")}
        houses = clause.values("houses")
        if len(cells) != 1 or len(houses) != 1 or not all(earlier.has("LEAN") for earlier in told):
            return False
        return cells <= set(self.geometry.cells_of[houses[0]]) and not any(earlier.has("DIGITS") for earlier in told)

    def _other_subset(self, clause: Clause) -> bool:
        """Is it another pair, triple or quad than was told, or, after one that was told in full, of another digit?"""
        told = [piece for reason in self.frame.reasons for piece in reason.of("SUBSET")]
        sizes = {patterns.SIZE_WORDS.get(piece.text.split()[-1]) for piece in told}
        own = {patterns.SIZE_WORDS.get(piece.text.split()[-1]) for piece in clause.of("SUBSET")}
        if own and sizes and own.isdisjoint(sizes) and None not in own | sizes:
            return True
        cells, digits = ({v for reason in self.frame.reasons for v in reason.values(kind)} for kind in ("cells", "digits"))
        full = len(cells) == len(digits) > 1 and (bool(told) or any(map(self._subset, self.frame.reasons)))
        lines = clause.first and clause.has("CONFINED", "FISH", "ONLY_PLACE") and len(clause.digits) == 1
        return full and lines and digits.isdisjoint(clause.values("digits")) and not clause.has("PRONOUN", "PRONOUNS")

    def _complements(self, clause: Clause) -> bool:
        """Does it name only what was named in this step already?"""
        return {v for piece in clause.pieces if piece.mention for v in piece.mention.bare} <= self.frame.values()

    @staticmethod
    def _pattern_cells(frame: Frame) -> set[Any]:
        return {value for clause in frame.reasons for value in clause.values("cells")}

    def _subject(self, frame: Frame, clause: Clause) -> dict[str, Any]:
        """The cell and the digit that were spoken of in this step before."""
        cells: list[Any] = []
        digits: list[Any] = []
        for earlier, _ in frame.clauses[:-1]:
            if earlier is clause:
                continue
            lost = any(LOST.search(piece.text) for piece in earlier.of("ALREADY"))  # "r1c1 has now lost its 3"
            leant_on = "BECAUSE" in earlier.joints and earlier.has("LEAN") and bool(cells)
            witness = (earlier.has("ALREADY") and not lost) or leant_on
            for mention in earlier.named("cells"):
                cells = list(mention.values) if not witness else cells
            if earlier.has("NEEDED") and earlier.has("ALREADY") and earlier.named("digits"):
                digits = list(earlier.named("digits")[0].values)  # "where can i put the 5 in row 7 everywhere else is blocked"
                continue
            for mention in earlier.named("digits"):
                why = "BECAUSE" in earlier.joints and bool(digits)
                digits = list(mention.values) if not earlier.has("ALREADY", "SEE") and not why else digits
        return {"cells": cells, "digits": digits}

    def flush(self) -> None:
        """End the step that is being told."""
        frame, self.frame = self.frame, Frame()
        if not frame.clauses:
            return
        cross(frame, ended=True)
        frame = self._with_effects_before(frame)
        self.ended = frame
        options = list(self._options(frame))
        if not options:
            self._leave(frame)
            return
        for number in frame.sentences:
            self.kinds[number] = "claim"
        # What leaves out a name, or takes one from the sentences before, is not the only thing that the words can mean.
        borrowed = claimed(options[0]) - frame.values() - frame.crossing
        told = used(options[0]) | crossing_cells(options[0], self.geometry) | of_cases(options[0], frame)
        frame.loose = frame.loose or bool(named_in(frame) - told or borrowed) or _guesses_facts(options[0], frame)
        first = frame.sentences[0]
        at = frame.effect_at if frame.effect_at >= 0 else first
        start, end = self._begins(first), max(self.words[number][1] for number in frame.sentences)
        spans = {"effect": self.script.span(self._begins(at), self.words[at][1]), "reason": self._reason_span(frame)}
        time = self.script.passage(start).time
        steps = tuple(tuple(placed_at(step, spans, time) for step in option) for option in dict.fromkeys(options))
        text = self.script.text[start:end].replace("\n", " ")
        self.readings.append(Reading(steps, spans["effect"], text, time, tuple(frame.sentences), not frame.loose))

    def _begins(self, number: int) -> int:
        """Where the sentence begins to tell something; a written one begins with its first word."""
        begin, end = self.words[number]
        told = begin if self.script.punctuated else told_from(self.sentences[number])
        return told if begin <= told < end else begin

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
        apart = any("ALSO" in clause.joints for clause in frame.effective)
        effects = tuple(_without_evidence(frame.effects, apart))
        if not effects:
            # A pattern without an effect may have been misunderstood; a single says what it says.
            frame.loose = not all(reason is not None and reason.name.value in SINGLES for reason in reasons)
            yield from patterns.without_effect(frame, reasons)
            return
        if not frame.hypotheses and any(clause.has("EITHER") for clause, _ in frame.clauses):
            # "Either way ...": the cases that it closes were not taken in, if cells are all that is left of them.
            frame.loose = frame.loose or any(reason is not None and reason.name.value == "facts" for reason in reasons[:1])
        for reason in reasons:
            yield (Step(of_its_line(_of_single(effects, reason), reason, frame), reason),)
        if all(isinstance(effect, Placement) for effect in effects) and frame.effect_at != frame.sentences[0]:
            # A pattern whose effect went unsaid, and then a placement for which no reason is given.
            for reason in reasons:
                if reason is not None and reason.name.value not in SINGLES and all(map(plain, effects)):
                    yield Step((Removal((), ()),), reason), Step(effects, None)
        if not reasons and (patterns.without_reason(frame) or all(map(plain, effects))):
            yield (Step(effects, None),)


def _adds(sentence: Sentence) -> bool:
    """Does it add to the effects before it: ``And r1c1 ...``, ``In the same way, r1c1 ...``?"""
    norms = [word.norm for word in sentence.words[:4]]
    return norms[:1] != [] and (norms[0] in CONTINUING or norms in SAME_WAY)


def _last_clause(sentences: Sequence[Sentence]) -> Clause | None:
    return sentences[-1].clauses[-1] if sentences and sentences[-1].clauses else None


def _listed_on(clause: Clause, words: Sequence[Word]) -> Clause:
    """The clause of speech with names as one list that were told one after the other: ``r1c1 r2c2 and r3c3``."""
    pieces: list[Piece] = []
    for piece in clause.pieces:
        last = pieces[-1].mention if pieces else None
        here = piece.mention
        follows = last is not None and here is not None and last.kind == here.kind in ("cells", "digits")
        if follows and last is not None and here is not None and not (last.choice or here.choice):
            between = {word.norm for word in words[last.end : here.start]}
            if between <= {"the"} and not set(last.bare) & set(here.bare) and last.plural == here.plural:
                both = replace(last, values=(*last.values, *here.values), end=here.end)
                pieces[-1] = replace(pieces[-1], mention=both, end=piece.end)
                continue
        pieces.append(piece)
    return Clause(pieces, clause.joints, clause.first) if len(pieces) < len(clause.pieces) else clause


def _without_evidence(effects: Sequence[Effect], apart: bool = False) -> Iterator[Effect]:
    """``The 7 is impossible in columns 3 and 4, and so it falls to r9c5``: where it is not is why it is there, and no effect.

    Nor is ``r8c3 cannot be 7, so it is 5``. ``Any cell that sees both loses 9: r1c8 drops it`` is one effect told in two parts,
    but where they are said to be two (``apart``): ``1 goes from some cells; also r1c1 loses a candidate``.
    """
    for at, effect in enumerate(effects):
        following = effects[at + 1] if at + 1 < len(effects) else None
        before = effects[at - 1] if at else None
        later = [other for other in effects[at:] if isinstance(other, Placement)]
        placed = {other.digit.value for other in later if other.digit}
        filled = {other.cell.value for other in later if other.cell}
        if isinstance(effect, RestOf) and len(effect.digits) == 1 and effect.digits[0].value in placed:
            continue
        if isinstance(effect, Removal) and len(effect.cells) == 1 and effect.cells[0].value in filled:
            continue
        in_parts = not apart and isinstance(following, Removal) and bool(following.cells) and not following.digits
        if in_parts and _lacks_cells(effect):
            continue
        alike = not apart and isinstance(effect, Removal) and bool(effect.cells) and not effect.digits
        if alike and isinstance(before, Removal) and _lacks_cells(before):
            assert isinstance(effect, Removal)
            effect = replace(effect, digits=before.digits)
        yield effect


def _of_single(effects: tuple[Effect, ...], reason: Reason | None) -> tuple[Effect, ...]:
    """``Then r2c6 can't be 2 any more, and only r5c6 still offers a 2``: a single shows what is put in, not what led to it."""
    at, digit = next(((at, e.digit) for at, e in enumerate(effects) if isinstance(e, Placement)), (0, None))
    if reason is None or reason.name.value not in SINGLES[:3] or digit is None:
        return effects
    led_to = [
        effect
        for effect in effects[:at]
        if isinstance(effect, Removal) and effect.cells and {said.value for said in effect.digits} <= {digit.value}
    ]
    return tuple(effect for effect in effects if effect not in led_to)


def _lacks_cells(effect: Effect) -> bool:
    """Are the digits told that go, and not from where?"""
    return isinstance(effect, Removal) and bool(effect.digits) and not effect.cells
