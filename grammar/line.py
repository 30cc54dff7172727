"""One statement line to a frozen statement: lark finds the structure, the Assembler gives it meaning on a geometry."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from functools import cache
from pathlib import Path as FilePath
from typing import Any

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedInput, UnexpectedToken

from .forms import SLOT_WORDS, Form, name_key, name_pattern
from .statements import (
    Effect,
    Link,
    Marking,
    Placement,
    Problem,
    Reason,
    Removal,
    RestOf,
    Said,
    Slot,
    SlotValue,
    Span,
    Step,
    Unread,
    Unsaid,
)
from .vocabulary import Cell, CellFact, Fact, Geometry, House, PlaceFact, geometry

LONGEST_LINE = 4000
"""Characters. A longer line is not a line of a walkthrough; reading it would only cost memory."""

EXPECTED = {
    "NUMBER": "a step number such as `2.`",
    "TIME": "a time such as `[0:42]`",
    "CELL": "a cell such as `r4c7`",
    "HOUSE": "a house such as `b3`",
    "DIGITS": "a digit",
    "EQUALS": "`=`",
    "NOT": "`not`",
    "THEN": "`then`",
    "MARK": "`mark candidates`",
    "REST_OF": "`rest of`",
    "DOTS": "`...`",
    "ASK": "`?`",
    "_BECAUSE": "`because`",
    "_SEMICOLON": "`;`",
    "SLOT": "a part such as `in b3` or `at r4c7`",
    "NAME_SLOTS": "the name of a pattern",
    "$END": "the end of the line",
}
"""What a reader of a message is told for each terminal; terminals not listed here need no mention."""


class Refusal(Exception):
    """A line that lark takes and the board or the pattern's form does not."""

    def __init__(self, code: str, span: Span, **details: Any) -> None:
        super().__init__(code)
        self.problem = Problem(code, span, details)


class LineReader:
    """Reads statement lines. ``forms``: how each known pattern is said, by canonical name."""

    def __init__(self, forms: Iterable[Form]) -> None:
        self.forms = {form.name: form for form in forms}
        self.names = {name_key(name): form.name for form in self.forms.values() for name in (form.name, *form.aliases)}
        self.any_name = "|".join(map(name_pattern, sorted(self._all_names(), key=len, reverse=True)))
        self._lark = _lark(tuple(self.forms.values()))

    def _all_names(self) -> list[str]:
        return [name for form in self.forms.values() for name in (form.name, *form.aliases)]

    def read(self, text: str, geometry: Geometry, line: int, comment: str | None = None) -> Step | Marking | Unread:
        """One line, without its comment and line end. Never raises for what the line says."""
        if len(text) > LONGEST_LINE:
            problem = Problem("unreadable-line", Span(line, 1, 2), {"length": len(text), "limit": LONGEST_LINE})
            return Unread(text[:LONGEST_LINE], problem, comment=comment, span=Span(line, 1, LONGEST_LINE + 1))
        assembler = _Assembler(self, geometry, line)
        text = re.sub(r"(?<!\.)\.\s*$", "", text)  # a sentence may end as sentences do
        span = _extent(text, line)
        try:
            return assembler.statement(self._lark.parse(text, start="statement"), span, comment)
        except UnexpectedInput as error:
            problem = self._explain(error, text, line)
        except Refusal as refusal:
            problem = refusal.problem
        return self._salvage(text, assembler, problem, span, comment)

    def prefix(self, text: str, line: int) -> tuple[int | None, float | None] | None:
        """The number and the time before a statement; None where anything else stands there."""
        if not text.strip():
            return None, None
        assembler = _Assembler(self, geometry(9), line)
        with suppress(UnexpectedInput, Refusal):
            number, time, effects = assembler.head(self._lark.parse(text + " ...", start="head"))
            if len(effects) == 1:
                return number, time
        return None

    def _salvage(self, text: str, assembler: _Assembler, problem: Problem, span: Span, comment: str | None) -> Unread:
        """Read each half by itself, so that the replay knows as much of the line as there is to know."""
        because = re.search(r"\bbecause\b", text, re.I)
        # Where there is no `because`, perhaps the word that could not be read was meant as one.
        end, start = because.span() if because else (problem.span.column - 1, problem.span.end - 1)
        told, why = text[:end], " " * start + text[start:]
        number: int | None = None
        time: float | None = None
        effects: tuple[Effect, ...] = ()
        reason: Reason | None = None
        with suppress(UnexpectedInput, Refusal):
            number, time, effects = assembler.head(self._lark.parse(told, start="head"))
        with suppress(UnexpectedInput, Refusal):
            reason = assembler.reason(self._lark.parse(why, start="reason"))
        return Unread(text, problem, effects, reason, number, time, comment, span)

    def _explain(self, error: UnexpectedInput, text: str, line: int) -> Problem:
        """The problem of a line that the grammar does not take, at the token where it stops making sense."""
        assert isinstance(error, UnexpectedToken)
        token = error.token
        accepts = set(error.accepts or ())
        expected = sorted(EXPECTED[name] for name in accepts if name in EXPECTED)
        if token.type == "$END":
            end = len(text.rstrip()) + 1
            return Problem("unreadable-line", Span(line, end, end + 1), {"found": None, "expected": expected})
        column = token.column or 1
        span = Span(line, column, column + len(token))
        if token.type == "WORD":
            near = self._near(text[column - 1 :], accepts)
            if near is not None:
                offset, length, suggestion, instead = near
                at = Span(line, column + offset, column + offset + length)
                found = text[at.column - 1 : at.end - 1]
                return Problem("unknown-word", at, {"found": found, "nearest": suggestion, "instead": instead})
            return Problem("unknown-word", span, {"found": str(token), "expected": expected})
        return Problem("unreadable-line", span, {"found": str(token), "expected": expected})

    def _near(self, rest: str, accepts: set[str]) -> tuple[int, int, str, str] | None:
        """The nearest spelling that would be accepted here: offset and length of the guilty words, the whole phrase that was
        meant, and its words in their place."""
        phrases: list[str] = []
        if accepts & {"NAME_SLOTS", "NAME_LINKS", "NAME_FACTS"}:
            phrases += self._all_names()
        words = {"_BECAUSE": "because", "NOT": "not", "THEN": "then", "MARK": "mark candidates", "REST_OF": "rest of"}
        phrases += [word for terminal, word in words.items() if terminal in accepts]
        if "SLOT" in accepts:
            phrases += [word for word in SLOT_WORDS if word.isalpha()]
        found = list(re.finditer(r"[^\W\d_][\w'-]*", rest))
        best: tuple[float, int, int, str, str] | None = None
        for phrase in phrases:
            parts = phrase.split()
            said = " ".join(match.group().lower() for match in found[: len(parts)])
            swapped = sorted(said) == sorted(phrase)
            score = 0.9 if swapped else difflib.SequenceMatcher(None, said, phrase).ratio()
            if score >= 0.75 and (best is None or score > best[0]):
                wrong = [at for at, (match, part) in enumerate(zip(found, parts)) if match.group().lower() != part]
                if wrong:
                    first, last = wrong[0], wrong[-1]
                    instead = " ".join(parts[first : last + 1])
                    best = (score, found[first].start(), found[last].end() - found[first].start(), phrase, instead)
        return None if best is None else best[1:]


@cache
def _lark(forms: tuple[Form, ...]) -> Lark:
    grammar = FilePath(__file__).with_name("path.lark").read_text(encoding="utf-8")
    for body in ("slots", "links", "facts"):
        names = [name for form in forms if form.body == body for name in (form.name, *form.aliases)]
        names.sort(key=len, reverse=True)
        pattern = "|".join(map(name_pattern, names)) or "(?!)"
        grammar += f"\nNAME_{body.upper()}.6: /({pattern})/i"
    grammar += f"\nSLOT.3: /({'|'.join(SLOT_WORDS.values())})/i\n"
    starts = ["statement", "head", "reason", "stray"]
    return Lark(grammar, parser="lalr", lexer="basic", start=starts, maybe_placeholders=False)


class _Assembler:
    """Gives a parse tree its meaning on one board, for one line. Raises Refusal where the board has no such thing."""

    def __init__(self, reader: LineReader, geometry: Geometry, line: int) -> None:
        self.reader = reader
        self.geometry = geometry
        self.line = line

    def span(self, token: Token, offset: int = 0, length: int | None = None) -> Span:
        column = (token.column or 1) + offset
        return Span(self.line, column, column + (len(token) if length is None else length))

    def statement(self, tree: Tree[Token], span: Span, comment: str | None) -> Step | Marking:
        first, *rest = tree.children
        assert isinstance(first, Tree)
        if first.data == "head_mark":
            number, time, _ = self.head(first)
            return Marking((), (), number, time, comment, span)
        number, time, effects = self.head(first)
        reason = self.reason(rest[0]) if rest and isinstance(rest[0], Tree) else None
        return Step(effects, reason, number, time, comment, span)

    def head(self, tree: Tree[Token]) -> tuple[int | None, float | None, tuple[Effect, ...]]:
        number: int | None = None
        time: float | None = None
        effects: list[Effect] = []
        for child in tree.children:
            if isinstance(child, Token):
                if child.type == "NUMBER":
                    number = int(child[:-1])
                elif child.type == "TIME":
                    time = self.time(child)
            else:
                effects += self.effect(child)
        return number, time, tuple(effects)

    def time(self, token: Token) -> float:
        match = re.fullmatch(r"[\[(]\s*(?:(\d+):)?(\d+):([0-5]\d(?:\.\d{1,3})?)\s*[\])]", token)
        if match is None or (match[1] and int(match[2]) > 59):
            expected = ["a time such as `[0:42]`, its seconds up to 59"]
            raise Refusal("unreadable-line", self.span(token), found=str(token), expected=expected)
        # Whole thousandths first: the same time is the same number, however it was written.
        return (int(match[1] or 0) * 3_600_000 + int(match[2]) * 60_000 + round(float(match[3]) * 1000)) / 1000

    def effect(self, tree: Tree[Token]) -> list[Effect]:
        if tree.data == "unsaid":
            return [Unsaid(self.span(_tokens(tree)[0]))]
        tokens = _tokens(tree)
        span = Span(self.line, tokens[0].column or 1, tokens[-1].end_column or 1)
        digits = self.digits(tree.children[-1])
        if tree.data == "rest_of":
            house = tokens[1]
            return [RestOf(None if house.type == "ASK" else self.houses(house)[0], digits, span)]
        cells = self.cells(tree.children[0])
        if tree.data == "removal":
            return [Removal(cells, digits, span)]
        if len(digits) > 1:
            raise Refusal("unreadable-line", digits[1].span, found=str(digits[1].value), expected=["one digit"])
        digit = digits[0] if digits else None
        return [Placement(cell, digit, span) for cell in cells] or [Placement(None, digit, span)]

    def cells(self, tree: Any) -> tuple[Said[Cell], ...]:
        return tuple(cell for token in _tokens(tree) if token.type != "ASK" for cell in self.cell_word(token))

    def digits(self, tree: Any) -> tuple[Said[int], ...]:
        return tuple(digit for token in _tokens(tree) if token.type != "ASK" for digit in self.digit_word(token))

    def cell_word(self, token: Token) -> list[Said[Cell]]:
        """``r4c28`` is r4c2 and r4c8; on boards with two-figure numbers every number stands for itself."""
        rows, columns = token[1:].lower().split("c")
        whole = self.span(token)
        return [
            Said(Cell(row, column), whole)
            for row in self.numbers(token, rows, "r", "no-such-cell")
            for column in self.numbers(token, columns, "c", "no-such-cell")
        ]

    def numbers(self, token: Token, figures: str, kind: str, code: str) -> list[int]:
        size = self.geometry.size
        numbers = [int(figures)] if size > 9 or len(figures) == 1 else [int(figure) for figure in figures]
        for number in numbers:
            if not 1 <= number <= size:
                wrong = int(figures) if "0" in figures else number
                raise Refusal(code, self.span(token), found=str(token), kind=kind, number=wrong, size=size)
        return numbers

    def digit_word(self, token: Token) -> list[Said[int]]:
        size = self.geometry.size
        figures = [str(token)] if size > 9 or (len(token) > 1 and "0" in token) else list(token)
        said = []
        for offset, figure in enumerate(figures):
            span = self.span(token, offset, len(figure))
            if not 1 <= int(figure) <= size:
                raise Refusal("no-such-digit", span, found=figure, size=size)
            said.append(Said(int(figure), span))
        return said

    def houses(self, token: Token) -> list[Said[House]]:
        kind = token[0].lower()
        said = []
        for match in re.finditer(r"\d+", token):
            for number in self.numbers(token, match.group(), kind, "no-such-house"):
                several = len(re.findall(r"\d+", token)) > 1
                span = self.span(token, match.start(), len(match.group())) if several else self.span(token)
                said.append(Said(House(kind, number), span))
        return said

    def reason(self, tree: Tree[Token]) -> Reason:
        first, *rest = tree.children
        assert isinstance(first, Token)
        name = Said(self.reader.names[name_key(first)], self.span(first))
        form = self.reader.forms[name.value]
        last = _tokens(tree)[-1]
        span = Span(self.line, first.column or 1, last.end_column or 1)
        if form.body == "slots":
            return Reason(name, self.slots(form, rest), span)
        read = self.link if form.body == "links" else self.fact
        values = [said for child in rest if isinstance(child, Tree) for said in read(child)]
        slots = (Slot("", tuple(values), span),) if values else ()
        return Reason(name, slots, span)

    def slots(self, form: Form, parts: Sequence[Any]) -> tuple[Slot, ...]:
        kinds = {slot.word: slot.kind for slot in form.slots}
        found: dict[str, Slot] = {}
        for part in parts:
            tokens = _tokens(part)
            word = "" if part.data == "values" else _slot_word(tokens[0])
            if word not in kinds and all(token.type == "ASK" for token in tokens):
                continue  # `x-wing ?`: all its parts are left open
            if word not in kinds:
                expected = [f"`{slot}`" for slot in kinds if slot and slot not in found]
                raise Refusal(
                    "unreadable-line", self.span(tokens[0]), found=str(tokens[0]), pattern=form.name, expected=expected
                )
            if word in found:
                raise Refusal("unreadable-line", self.span(tokens[0]), found=str(tokens[0]), twice=word)
            values = self.values(kinds[word], tokens[1:] if word else tokens)
            if any(said.value is not None for said in values):
                span = Span(self.line, tokens[0].column or 1, tokens[-1].end_column or 1)
                found[word] = Slot(word, values, span)
        return tuple(found[slot.word] for slot in form.slots if slot.word in found)

    def values(self, kind: str, tokens: Sequence[Token]) -> tuple[Said[SlotValue], ...]:
        readers: dict[str, Callable[[Token], Sequence[Said[SlotValue]]]] = {
            "CELL": self.cell_word,
            "HOUSE": self.houses,
            "DIGITS": self.digit_word,
            "ASK": lambda token: [Said(None, self.span(token))],
        }
        wanted = {"digit": {"DIGITS"}, "cell": {"CELL"}, "house": {"HOUSE"}, "turns": {"DIGITS", "CELL"}}[kind]
        said: list[Said[SlotValue]] = []
        for token in tokens:
            if token.type not in wanted and token.type != "ASK":
                expected = sorted(EXPECTED[name] for name in wanted)
                raise Refusal("unreadable-line", self.span(token), found=str(token), expected=expected)
            said += readers[token.type](token)
        return tuple(said)

    def link(self, tree: Tree[Token]) -> list[Said[SlotValue]]:
        cell, relation, digit = _tokens(tree)
        cells, digits = self.cell_word(cell), self.digit_word(digit)
        for more, token in ((cells, cell), (digits, digit)):
            if len(more) > 1:
                raise Refusal("unreadable-line", self.span(token), found=str(token), expected=["one cell and one digit a link"])
        span = Span(self.line, cell.column or 1, digit.end_column or 1)
        return [Said(Link(cells[0].value, digits[0].value, relation.type == "EQUALS"), span)]

    def fact(self, tree: Tree[Token]) -> list[Said[SlotValue]]:
        tokens = _tokens(tree)
        if tree.data == "house_in_facts":
            raise Refusal("unreadable-line", self.span(tokens[0]), found=str(tokens[0]), expected=["`4 in b6`"])
        span = Span(self.line, tokens[0].column or 1, tokens[-1].end_column or 1)
        facts: list[Fact]
        if tree.data == "cell_fact":
            facts = [CellFact(said.value) for said in self.cell_word(tokens[0])]
        else:
            if _slot_word(tokens[1]) != "in":
                raise Refusal("unreadable-line", self.span(tokens[1]), found=str(tokens[1]), expected=["`in`"])
            facts = [
                PlaceFact(digit.value, house.value) for digit in self.digit_word(tokens[0]) for house in self.houses(tokens[2])
            ]
        return [Said(fact, span) for fact in facts]


def _tokens(tree: Any) -> list[Token]:
    if isinstance(tree, Token):
        return [tree]
    return [token for child in tree.children for token in _tokens(child)]


def _slot_word(token: Token) -> str:
    return next(word for word, pattern in SLOT_WORDS.items() if re.fullmatch(pattern, token, re.I))


def _extent(text: str, line: int) -> Span:
    """From the first to the last character that is not white space."""
    start = len(text) - len(text.lstrip())
    return Span(line, start + 1, max(start + 1, len(text.rstrip())) + 1)
