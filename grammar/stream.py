"""JSON lines, one step a line, to a Path: the way in for programs that explain what they do.

``steps.schema.json`` says what a line may hold. Each becomes a statement of the path language, read by the same reader, so that
nothing after this knows of JSON; the places it gives are led back to the characters of the JSON text.
"""

from __future__ import annotations

import difflib
import json
import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import fields, is_dataclass, replace
from pathlib import Path as FilePath
from typing import Any, TypeVar, cast

from .forms import SLOT_WORDS, name_key
from .json_places import Member, Value, characters, read_object
from .line import LineReader
from .reader import Line, parse_grid, split_lines
from .statements import (
    Blank,
    Effect,
    Grid,
    HeaderEntry,
    Path,
    Problem,
    Say,
    Span,
    Statement,
    Told,
    Unread,
)
from .vocabulary import Geometry, geometry

MEMBERS = ("effects", "reason", "pattern", "parts", "facts", "number", "time", "say", "grid")
REASONS = ("reason", "pattern", "facts")
PARTS = {"of": "", "cells": ":"} | {word: word for word in SLOT_WORDS if word != ":"}
"""The parts of a pattern: the word of the path language that each is said with; ``of`` is what follows the name."""

T = TypeVar("T")


class Refused(Exception):
    """A value that no step has there."""

    def __init__(self, span: Span, found: str | None, expected: Sequence[str]) -> None:
        super().__init__(found)
        self.problem = Problem("unreadable-line", span, {"found": found, "expected": list(expected)})


def schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a line, as shipped with the package."""
    loaded: dict[str, Any] = json.loads(FilePath(__file__).with_name("steps.schema.json").read_text(encoding="utf-8"))
    return loaded


def read_stream(text: str, reader: LineReader, grid: Grid | None = None) -> Path:
    """Read a whole stream. ``grid``: the puzzle where it is given from outside; it wins over one in the stream.

    Never raises for what the text says: what is wrong with a step is its statement's, the rest the path's. Without a grid that
    can be read, steps are read for a 9x9 board.
    """
    lines = [
        (number, raw, read_object(raw, number) if raw.strip() else None) for number, raw in enumerate(split_lines(text), 1)
    ]
    problems: list[Problem] = []
    entry = _grid_of([read for _, _, read in lines if isinstance(read, Value)], problems)
    if grid is not None:
        problems, entry = [], HeaderEntry("grid", grid)
    board = entry.value.geometry if entry and isinstance(entry.value, Grid) else geometry(9)
    statements: list[Statement] = []
    for number, raw, read in lines:
        if read is None:
            statements.append(Blank(None, Span(number, 1, 1)))
        elif isinstance(read, Problem):
            statements.append(Unread(raw, read, span=Span(number, 1, max(2, len(raw) + 1))))
        else:
            statements += _StepReader(read, reader, board, problems).read()
    return Path((entry,) if entry else (), tuple(statements), tuple(problems))


def _grid_of(lines: Iterable[Value], problems: list[Problem]) -> HeaderEntry | None:
    """The puzzle of the first line that has one; another one is a problem, the same one again is not."""
    entry: HeaderEntry | None = None
    for line in lines:
        said = next((member.value for member in line.data if member.key.data == "grid"), None)
        if said is None:
            continue
        if not isinstance(said.data, str):
            problems.append(Problem("grid-malformed", said.span, {"found": said.raw}))
            continue
        sheet = _Sheet(said.span)
        sheet.put(said)
        read = parse_grid([Line(said.span.line, sheet.text, None)], Span(said.span.line, 1, 2), inline=True)
        if isinstance(read, Problem):
            problems.append(read._replace(span=sheet.back(read.span)))
        elif entry is None or entry.value is None:
            entry = HeaderEntry("grid", _moved(read, sheet.back), None, said.span)
        elif read != entry.value:
            problems.append(Problem("grid-malformed", said.span, {"twice": True}))
    return entry


class _Sheet:
    """A line of the path language put together from a JSON line's strings; it knows where each character is from."""

    def __init__(self, whole: Span) -> None:
        self.whole = whole
        self._letters: list[tuple[str, int, int]] = []

    @property
    def text(self) -> str:
        return "".join(letter for letter, _, _ in self._letters)

    def put(self, value: Value) -> None:
        """What a string says, or a whole number. Raises Refused for anything else."""
        if isinstance(value.data, str):
            # Whatever white space a string has, it is one line.
            self._letters += [(" " if letter.isspace() else letter, start, end) for letter, start, end in characters(value)]
        elif type(value.data) is int:
            self._letters += [(letter, column, column + 1) for column, letter in enumerate(value.raw, value.span.column)]
        else:
            raise Refused(value.span, value.raw, ["a string", "a whole number"])
        self.word("", value.span)

    def word(self, word: str, place: Span) -> None:
        """A word that the path language needs and JSON says by its shape. ``place``: what says it."""
        self._letters += [(letter, place.column, place.end) for letter in f" {word} "]

    def cut(self, length: int) -> None:
        """Take back all but the first characters."""
        del self._letters[length:]

    def __len__(self) -> int:
        return len(self._letters)

    def back(self, span: Span) -> Span:
        """Where a stretch of the text stands in the JSON line; a place past the end is the end of the object."""
        if span.line == 0:
            return span
        if span.column > len(self._letters):
            return Span(self.whole.line, self.whole.end - 1, self.whole.end)
        start, end = self._letters[span.column - 1][1], self._letters[min(span.end - 1, len(self._letters)) - 1][2]
        return Span(self.whole.line, start, max(start + 1, end))


def _moved(said: T, back: Callable[[Span], Span]) -> T:
    """The same with every span led back."""
    moved: Any = said
    if isinstance(said, Span):
        moved = back(said)
    elif isinstance(said, Problem):
        moved = said._replace(span=back(said.span))
    elif is_dataclass(said) and not isinstance(said, type):
        moved = replace(said, **{field.name: _moved(getattr(said, field.name), back) for field in fields(said)})
    elif type(said) is tuple:
        moved = tuple(_moved(part, back) for part in moved)
    return cast(T, moved)


class _StepReader:
    """One line's object to its statements: a step, its words, both or neither."""

    def __init__(self, line: Value, reader: LineReader, board: Geometry, problems: list[Problem]) -> None:
        self.line = line
        self.reader = reader
        self.board = board
        self.problems = problems
        self.sheet = _Sheet(line.span)

    def read(self) -> list[Statement]:
        """What the line says. Members that no step has are told, and nothing else is made of them."""
        number, time, say = None, None, None
        told: Told | None = None
        try:
            members = self.members(self.line, MEMBERS)
            number, time, say = self.number(members), self.time(members), self.say(members)
            if "effects" in members or any(name in members for name in (*REASONS, "parts")):
                told = self.step(members)
            elif "grid" not in members and say is None:
                raise Refused(Span(self.line.span.line, self.line.span.end - 1, self.line.span.end), "}", ["`effects`"])
        except Refused as refused:
            told = Unread(self.line.raw, refused.problem, self.effects_alone())
        statements: list[Statement] = []
        if told is not None:
            number, time = (told.number if number is None else number), (told.time if time is None else time)
            statements.append(replace(told, span=self.line.span, number=number, time=time))
        if say is not None:
            statements.append(Say(say, None, time if told is None else None, None, self.line.span))
        return statements

    def members(self, value: Value, known: Sequence[str]) -> dict[str, Member]:
        """An object's members by name. Raises Refused for what is none, and for one that has a member twice."""
        if not isinstance(value.data, list) or not all(isinstance(member, Member) for member in value.data):
            raise Refused(value.span, value.raw, ["`{`"])
        found: dict[str, Member] = {}
        for member in value.data:
            name = member.key.data
            if name in found:
                raise Refused(member.key.span, member.key.raw, ["each member once"])
            if name in known:
                found[name] = member
            else:
                near = next(iter(difflib.get_close_matches(name, known, n=1)), None)
                details = {"found": name, "nearest": near, "known": tuple(known)}
                self.problems.append(Problem("unknown-key", member.key.span, details))
        return found

    def number(self, members: dict[str, Member]) -> int | None:
        said = members.get("number")
        if said is None or said.value.data is None:
            return None
        if type(said.value.data) is not int or said.value.data < 0:
            raise Refused(said.value.span, said.value.raw, ["a whole number"])
        return said.value.data

    def time(self, members: dict[str, Member]) -> float | None:
        said = members.get("time")
        if said is None or said.value.data is None:
            return None
        if type(said.value.data) not in (int, float) or not 0 <= said.value.data < math.inf:
            raise Refused(said.value.span, said.value.raw, ["seconds, as a number"])
        return float(said.value.data)

    def say(self, members: dict[str, Member]) -> str | None:
        said = members.get("say")
        if said is None or said.value.data is None:
            return None
        if not isinstance(said.value.data, str):
            raise Refused(said.value.span, said.value.raw, ["a string"])
        return " ".join("".join(letter for letter, _, _ in characters(said.value)).split())

    def step(self, members: dict[str, Member]) -> Told:
        """The step in the path language's words, read by its reader."""
        if "effects" not in members:
            raise Refused(Span(self.line.span.line, self.line.span.end - 1, self.line.span.end), "}", ["`effects`"])
        self.effects(members["effects"].value)
        first = next((members[name] for name in members if name in REASONS), None)
        for name, member in members.items():
            if name in REASONS and member is not first:
                raise Refused(member.key.span, member.key.raw, ["one of `reason`, `pattern` and `facts`"])
        if "parts" in members and (first is None or first.key.data != "pattern"):
            raise Refused(members["parts"].key.span, members["parts"].key.raw, ["`pattern` beside it"])
        if first is not None:
            length = len(self.sheet)
            self.sheet.word("because", first.key.span)
            try:
                self.reason(first, members.get("parts"))
            except Refused:
                self.sheet.cut(length)
                raise
        read = self.reader.read(self.sheet.text, self.board, self.line.span.line)
        return _moved(read, self.sheet.back)

    def effects_alone(self) -> tuple[Effect, ...]:
        """The effects of a step whose reason cannot be read, for the steps after it."""
        read = self.reader.read(self.sheet.text, self.board, self.line.span.line)
        return _moved(getattr(read, "effects", ()), self.sheet.back)

    def effects(self, value: Value) -> None:
        for at, effect in enumerate(self.items(value)):
            if at:
                self.sheet.word(";", effect.span)
            if isinstance(effect.data, str):
                self.sheet.put(effect)
            else:
                self.effect(effect)

    def effect(self, value: Value) -> None:
        """``{"cell": "r4c8", "is": 1}``, or with ``not``; both may be lists."""
        if not isinstance(value.data, list):
            raise Refused(value.span, value.raw, ["a string", "`{`"])
        members = self.members(value, ("cell", "is", "not"))
        relations = [name for name in members if name != "cell"]
        if "cell" not in members or len(relations) != 1:
            raise Refused(value.span, value.raw, ["`cell`, and one of `is` and `not`"])
        relation = members[relations[0]]
        self.values(members["cell"].value)
        self.sheet.word(relation.key.data, relation.key.span)
        self.values(relation.value)

    def reason(self, said: Member, parts: Member | None) -> None:
        kind = said.key.data
        if kind == "facts":
            self.sheet.word("facts", said.key.span)
            self.values(said.value)
            return
        if not isinstance(said.value.data, str):
            raise Refused(said.value.span, said.value.raw, ["a string"])
        self.sheet.put(said.value)
        if parts is not None:
            self.parts(said.value.data, parts.value)

    def parts(self, name: str, value: Value) -> None:
        """The parts of a pattern, what follows its name directly before all others."""
        form = self.reader.forms.get(self.reader.names.get(name_key(name), ""))
        joint = "then" if form is not None and form.body == "links" else ","
        members = self.members(value, tuple(PARTS))
        for part in sorted(members, key=lambda part: part != "of"):
            self.sheet.word(PARTS[part], members[part].key.span)
            self.values(members[part].value, joint)

    def values(self, value: Value, joint: str = ",") -> None:
        for at, item in enumerate(self.items(value)):
            if at:
                self.sheet.word(joint, item.span)
            self.sheet.put(item)

    def items(self, value: Value) -> list[Value]:
        """The items of a list; one thing by itself is a list of one. Raises Refused for an empty one."""
        if not isinstance(value.data, list) or any(isinstance(item, Member) for item in value.data):
            return [value]
        if not value.data:
            raise Refused(value.span, value.raw, ["one item at least"])
        return value.data
