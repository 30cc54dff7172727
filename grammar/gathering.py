"""What a stretch of sentences may tell, by what it names and in which order, whatever words stand between.

Narrators have more ways to say a thing than a grammar of phrases has rules. Where the phrases give nothing that holds, the
names themselves are put together in every way that a pattern can be told by, with none left over; the board decides. Nothing is
ever held against a narrator from here: what is found this way either holds, or was not read.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from .assembling import Assembler, Sight, Stretch
from .clauses import Clause, Piece, Sentence, told_from
from .frame import placed_at
from .memory import KIND_WORDS
from .reading import Reading
from .statements import Effect, Placement, Removal, Span, Step
from .telling import Teller
from .vocabulary import Candidate, Geometry, House
from .words import Script

MIDWAY = {"FROM", "GONE", "BE", "PRONOUN", "PRONOUNS"}
"""Pieces of speech that no step begins with."""
UNFINISHED = {"FROM", "REMOVE", "TAKE", "ONLY", "IF", "NO", "FORCE", "PLACE"}
"""Pieces of speech that no step ends with."""
PARTING = {",", ";", ":", "(", ")", "and", "so", "but", "which", "while", "then", "with", "-"}
"""Words at which a sentence may go on with another step."""
TAKING = {"GONE", "REMOVE", "TAKE"}
"""Pieces that say that something goes."""
PUTTING = {"BE", "FORCE", "PLACE"}
"""Pieces that say that a digit is put in a cell."""
NOT_PUT = {"IF", "EITHER", "CHAIN_NAME", "SEE_BOTH", "PIVOT", "WINGS", "FISH", "SUBSET", "FINS", "XY_WING"}
"""Pieces beside which a digit in a cell may be supposed, or what the cell may be."""
WIDEST = 26
"""Pieces of speech that one step is looked for in."""


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
                self.clause_of |= dict.fromkeys(map(id, clause.pieces), len(self.clause_of))
                self.pieces += clause.pieces
            self.sentence_of += [number] * (len(self.pieces) - len(self.sentence_of))
        self.begins.append(len(self.pieces))

    @property
    def places(self) -> list[tuple[int, int]]:
        """The line and the column at which each sentence begins."""
        spans = (self.script.span(start, end) for start, end in self.words)
        return [(span.line, span.column) for span in spans]

    @property
    def whole(self) -> bool:
        """Are its sentences those that were written? Speech without full stops is parted by guess."""
        return self.script.punctuated

    def names(self, number: int) -> bool:
        """Does the sentence name a cell, a digit or a house, and not ask for it?"""
        sentence = self.sentences[number]
        return sentence.names and not sentence.asked

    def speaks(self, number: int) -> bool:
        """Does the sentence name a cell, a digit or a house?"""
        return self.sentences[number].names

    def strays(self, number: int) -> bool:
        """Does the sentence name what the board does not have?"""
        return bool(self.sentences[number].astray)

    def supposes(self, numbers: Iterable[int]) -> bool:
        """Is something supposed in the sentences?"""
        return any(self.says(number, "IF") for number in numbers)

    def says(self, number: int, *types: str) -> bool:
        """Is a piece of one of the types in the sentence?"""
        return any(clause.has(*types) for clause in self.sentences[number].clauses)

    def says_of(self, number: int, house: House, *types: str) -> bool:
        """Is a piece of one of the types in a clause of the sentence that names the house, or "the box" where it is one?"""
        told = [clause for clause in self.sentences[number].clauses if clause.has(*types)]
        kind = next(word for word, kind in KIND_WORDS.items() if kind == house.kind)
        same = any(kind in piece.text for clause in told for piece in clause.of("SAME_HOUSE"))
        return same or any(house in clause.values("houses") for clause in told)

    def puts(self, number: int, digit: int, types: Sequence[str]) -> bool:
        """Is a piece of one of the types, and this digit alone, in a clause of the sentence: ``... and must be 3``?"""
        placing = [clause for clause in self.sentences[number].clauses if clause.has(*types)]
        return any({*clause.values("digits")} == {digit} for clause in placing)

    def fills(self, begin: int, end: int) -> bool:
        """Do these pieces put something in a cell, whatever it is: ``so it drops into r7c6``?"""
        types = [piece.type for piece in self.pieces[begin:end] if piece.type != "FROM"]
        return any(one in ("PLACE", "FORCE") and other == "CELLS" for one, other in pairwise(types))

    def concludes(self, number: int) -> bool:
        """Does the sentence begin with ``so``, or a word like it?"""
        clauses = self.sentences[number].clauses
        return bool(clauses) and clauses[0].first and "SO" in clauses[0].joints

    def opens(self, number: int) -> bool:
        """Does a paragraph begin with the sentence?"""
        return self.script.opens_at(self.words[number][0])

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
        return {value for clause in told for kind in kinds for value in clause.values(kind)}

    def houses(self, numbers: Iterable[int]) -> set[House]:
        """The houses that the sentences name."""
        clauses = (clause for number in numbers for clause in self.sentences[number].clauses)
        return {house for clause in clauses for house in clause.values("houses")}

    def reading(self, numbers: tuple[int, ...]) -> Reading:
        """The sentences, as a reading that nothing was made of yet."""
        start, end = self.words[numbers[0]][0], self.words[numbers[-1]][1]
        text = self.script.text[start:end].replace("\n", " ")
        time = self.script.passage(start).time
        return Reading((), self.script.span(start, end), text, time, numbers, extent=(start, end))

    def _told_from(self, number: int) -> int:
        start, end = self.words[number]
        told = start if self.whole else told_from(self.sentences[number])
        return told if start <= told < end else start

    def _by_clause(self, begin: int, end: int) -> dict[int, list[Piece]]:
        """These pieces by the numbers of their clauses."""
        clauses: dict[int, list[Piece]] = {}
        for piece in self.pieces[begin:end]:
            clauses.setdefault(self.clause_of[id(piece)], []).append(piece)
        return clauses

    def taken_plainly(self, begin: int, end: int) -> list[set[Candidate]]:
        """The candidates that go, clause by clause of these pieces, where that is all that the clause says.

        ``... , so r1c1 cannot be 4`` has to end them; in the middle of a chain it may be what is supposed.
        """
        plain: list[set[Candidate]] = []
        for number, pieces in self._by_clause(begin, end).items():
            told = {piece.type: piece.mention for piece in pieces if piece.mention}
            verbs = {piece.type for piece in pieces} - {"CELLS", "DIGITS"}
            last = number == self.clause_of[id(self.pieces[end - 1])]
            cells, digits = told.get("CELLS"), told.get("DIGITS")
            if len(pieces) != 3 or len(verbs) != 1 or not verbs <= (TAKING | {"DENY"} if last else TAKING):
                continue
            if cells and digits and not (cells.choice or digits.choice):
                plain.append({Candidate(cell, digit) for cell in cells.bare for digit in digits.bare})
        return plain

    def put_plainly(self, begin: int, end: int) -> set[Candidate]:
        """The digits that clauses of these pieces put in a cell, each clause one; none beside suppositions or patterns."""
        if any(piece.type in NOT_PUT for piece in self.pieces[begin:end]):
            return set()
        put: set[Candidate] = set()
        for pieces in self._by_clause(begin, end).values():
            named = [(piece.mention.kind, piece.mention.bare) for piece in pieces if piece.mention]
            verbs = {piece.type for piece in pieces}
            if verbs & PUTTING and not verbs & (TAKING | {"DENY", "KEEPS", "NO"}) and len(named) < 4:
                cells = [value for kind, values in named if kind == "cells" for value in values]
                digits = [value for kind, values in named if kind == "digits" for value in values]
                put |= {Candidate(cells[0], digits[0])} if len(cells) == len(digits) == 1 else set()
        return put

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

    def chunks(self, number: int) -> list[int]:
        """Places in ``pieces`` where something else may begin within the sentence, its beginning and end among them."""
        low, high = self.begins[number], self.begins[number + 1]
        words = self.sentences[number].words
        places, reached = [low], 0
        for at in range(low + 1, high):
            reached = max(reached, self.pieces[at - 1].end)
            if PARTING.intersection(word.norm for word in words[reached : self.pieces[at].start]):
                places.append(at)
        return [*places, high]

    def part(self, number: int, begin: int, end: int) -> list[Reading]:
        """The readings of some of the pieces of a sentence by themselves."""
        sentence = self.sentences[number]
        inside = self.pieces[begin:end]
        low = min(piece.start for piece in inside)
        words = sentence.words[low : max(piece.end for piece in inside)]
        own = {id(piece) for piece in inside}
        clauses: list[Clause] = []
        for clause in sentence.clauses:
            pieces = [piece for piece in clause.pieces if id(piece) in own]
            moved = [replace(piece, start=piece.start - low, end=piece.end - low) for piece in pieces]
            if moved:
                joints = clause.joints if len(pieces) == len(clause.pieces) else set()
                clauses.append(Clause(moved, joints, not clauses))
        teller = Teller(self.script, self.geometry)
        teller.tell(Sentence(words, clauses, [], sentence.asked))
        teller.finish()
        return [replace(reading, sentences=(number,)) for reading in teller.readings]

    def windows(self, first: int, last: int) -> Iterator[tuple[int, int]]:
        """Stretches of pieces within the sentences from ``first`` to ``last`` that may be one step, the longest first.

        For speech without full stops, which may begin and end anywhere; written sentences are whole.
        """
        low, high = self.begins[first], self.begins[last + 1]
        for begin in range(low, high):
            if self.pieces[begin].type in MIDWAY:
                continue
            for end in range(min(high, begin + WIDEST), begin + 1, -1):
                if self.pieces[end - 1].type not in UNFINISHED:
                    yield begin, end

    def steps(self, begin: int, end: int, sight: Sight) -> Iterator[Step]:
        """Every step that the pieces may tell on the board that is in sight, the likelier ones first."""
        stretch = Stretch(self.pieces[begin:end])
        last, first = self.sentence_of[end - 1], self.sentence_of[begin]
        span = self.script.span(self._told_from(last), self.words[last][1])
        if first == last and (begin, end) != (self.begins[first], self.begins[first + 1]):
            words = self.sentences[first].words[self.pieces[begin].start : self.pieces[end - 1].end]
            span = self.script.span(words[0].start, words[-1].end) if words else span
        time = self.script.passage(self.words[first][0]).time
        text = self.script.text[self.words[first][0] : self.words[last][1]]
        for effects, reason in Assembler(self.geometry, sight, not self.whole).steps(stretch, text):
            told = span if self.whole else _named_at(self.pieces[begin:end], effects) or span
            yield placed_at(Step(effects, reason), {"effect": told, "reason": told}, time)


def _named_at(pieces: Sequence[Piece], effects: Sequence[Effect]) -> Span | None:
    """Where the first cell that something is done to is named last: where guessed sentences begin says nothing of a step."""
    effect = effects[0]
    cells = effect.cells if isinstance(effect, Removal) else (effect.cell,) if isinstance(effect, Placement) else ()
    first = next((said.value for said in cells if said is not None), None)
    named = [said.span for piece in pieces if piece.mention for said in piece.mention.values if said.value == first]
    return named[-1] if first is not None and named else None
