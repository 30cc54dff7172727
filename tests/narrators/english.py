"""English that all narrators share: number words, ordinals and lists. How they use them is their own affair."""

from __future__ import annotations

from collections.abc import Iterable

NUMBERS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
PLURALS = ("zeros", "ones", "twos", "threes", "fours", "fives", "sixes", "sevens", "eights", "nines")
ORDINALS = ("zeroth", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")
KINDS = {"r": "row", "c": "column", "b": "box"}


def listed(words: Iterable[str], last: str = "and", comma: bool = False) -> str:
    """``a, b and c``; with ``comma``, ``a, b, and c``."""
    words = [*words]
    if len(words) < 2:
        return "".join(words)
    before = ", ".join(words[:-1])
    return f"{before}{',' if comma and len(words) > 2 else ''} {last} {words[-1]}"


def opened(text: str) -> str:
    """With a capital at its head, unless a cell's name stands there."""
    if len(text) > 1 and text[0] in "rc" and text[1].isdigit():
        return text
    return text[:1].upper() + text[1:]


def an(word: str) -> str:
    """With the article that the word wants."""
    return f"{'an' if word[:1].lower() in 'aeio8' or word.startswith(('x-', 'X-', 'xy', 'XY')) else 'a'} {word}"
