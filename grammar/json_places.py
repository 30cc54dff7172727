"""A line of JSON with the place of every value, which the standard library does not give."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path as FilePath
from typing import Any, NamedTuple

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedToken

from .statements import Problem, Span

LONGEST = 16_000
"""Characters. A step takes a few hundred."""

DEEPEST = 8
"""How far down an object is taken apart; what lies deeper is kept as None."""

SIGNS = {"LBRACE": "{", "RBRACE": "}", "LSQB": "[", "RSQB": "]", "COLON": ":", "COMMA": ","}
EXPECTED = {"STRING": "a string"} | {name: f"`{sign}`" for name, sign in SIGNS.items()}
"""What a reader of a message is told for each terminal; the others need no mention."""


class Value(NamedTuple):
    """A JSON value, where it stands, and how it is written.

    ``data``: a string, a number, True, False, None, a list of Value or of Member.
    """

    data: Any
    span: Span
    raw: str


class Member(NamedTuple):
    """A member of an object."""

    key: Value
    value: Value


def read_object(text: str, line: int) -> Value | Problem:
    """The object that the line is; ``data`` is its members in order. A problem where it is not one JSON object."""
    if len(text) > LONGEST:
        return Problem("unreadable-line", Span(line, 1, 2), {"length": len(text), "limit": LONGEST})
    try:
        return _value(_lark().parse(text, start="object"), line, text)
    except UnexpectedToken as error:
        token = error.token
        accepts = {*(error.accepts or ())}
        expected = [said for name, said in EXPECTED.items() if name in accepts] or ["the end of the line"]
        if "NUMBER" in accepts:
            expected = ["a value"] + [said for said in expected if said == "`]`"]
        if token.type == "$END":
            end = len(text.rstrip()) + 1
            return Problem("unreadable-line", Span(line, end, end + 1), {"found": None, "expected": expected})
        column = token.column or 1
        return Problem("unreadable-line", Span(line, column, column + len(token)), {"found": str(token), "expected": expected})


def characters(value: Value) -> list[tuple[str, int, int]]:
    """A string, character by character, each with its columns: the first, and one past the last."""
    found = []
    # Halves of a pair of surrogates are one character; a half by itself is none, and no text could hold it.
    for match in re.finditer(r"\\u[dD][89abAB][0-9a-fA-F]{2}\\u[dD][c-fC-F][0-9a-fA-F]{2}|\\u....|\\.|.", value.raw[1:-1]):
        letter = json.loads(f'"{match[0]}"')
        start = value.span.column + 1 + match.start()
        found.append(("\N{REPLACEMENT CHARACTER}" if "\ud800" <= letter <= "\udfff" else letter, start, start + len(match[0])))
    return found


@cache
def _lark() -> Lark:
    grammar = FilePath(__file__).with_name("json.lark").read_text(encoding="utf-8")
    return Lark(grammar, parser="lalr", lexer="basic", start=["object", "stray"], propagate_positions=True)


def _value(item: Tree[Token] | Token, line: int, text: str, depth: int = 0) -> Value:
    if isinstance(item, Token):
        return Value(_scalar(item), Span(line, item.column or 1, item.end_column or 1), str(item))
    span = Span(line, item.meta.column, item.meta.end_column)
    data: list[Any] | None = None
    if depth < DEEPEST:
        inner = [_value(child, line, text, depth + 1) for part in item.children for child in _parts(part)]
        data = [Member(key, value) for key, value in zip(inner[::2], inner[1::2])] if item.data == "object" else inner
    return Value(data, span, text[span.column - 1 : span.end - 1])


def _parts(part: Tree[Token] | Token) -> list[Any]:
    return part.children if isinstance(part, Tree) and part.data == "member" else [part]


def _scalar(token: Token) -> Any:
    if token.type == "NUMBER":
        return int(token) if re.fullmatch(r"-?\d{1,15}", token) else float(token)
    return json.loads(token)
