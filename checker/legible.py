"""Text from anywhere, made fit for a document that other programs read."""

from __future__ import annotations

from collections.abc import Iterator


def legible(text: str) -> str:
    """The text without what no document may hold or what would turn the text around it: controls, surrogates, overrides."""
    return "".join(_legible(text))


def _legible(text: str) -> Iterator[str]:
    for letter in text:
        code = ord(letter)
        control = code < 0x20 or 0x7F <= code < 0xA0
        turning = 0x202A <= code <= 0x202E or 0x2066 <= code <= 0x2069 or code in (0x200E, 0x200F)
        no_letter = 0xD800 <= code <= 0xDFFF or code & 0xFFFE == 0xFFFE or 0xFDD0 <= code <= 0xFDEF
        yield " " if letter == "\t" else "\N{REPLACEMENT CHARACTER}" if control or turning or no_letter else letter
