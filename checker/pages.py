"""The pages behind ``stepwarrant explain``: what a finding means, an example that fires it and one that does not."""

from __future__ import annotations

import re
import textwrap
from dataclasses import dataclass
from importlib.resources import files

from .findings import SEVERITY, Severity


@dataclass(frozen=True)
class Page:
    """One code's page. ``fires`` and ``silent`` are files of a ``kind``: path, narration, srt, vtt. ``text``: what is shown."""

    code: str
    severity: Severity
    title: str
    text: str
    kind: str
    fires: str
    silent: str


def _wrapped(text: str) -> str:
    """Paragraphs at 80 columns; examples as they stand, without their fences."""
    parts = []
    for at, piece in enumerate(re.split(r"```(?:(?:path|narration|srt|vtt)\n)?", text)):
        if at % 2:
            parts.append(piece.rstrip())
        else:
            parts += [textwrap.fill(" ".join(words.split()), 80) for words in piece.split("\n\n") if words.strip()]
    return "\n\n".join(parts)


def pages() -> dict[str, Page]:
    """Every page by code, in the registry's order. Raises KeyError if the book lacks one."""
    book = files("stepwarrant.checker").joinpath("codes.md").read_text(encoding="utf-8")
    found: dict[str, Page] = {}
    for part in re.split(r"^## ", book, flags=re.M)[1:]:
        code, body = part.split("\n", 1)
        (kind, fires), (_, silent) = re.findall(r"```(path|narration|srt|vtt)\n(.*?)```", body, re.S)
        text = body.strip()
        title = re.split(r"(?<=\.)\s", text, maxsplit=1)[0].replace("\n", " ")
        shown = f"{code} ({SEVERITY[code]})\n\n{_wrapped(text)}\n"
        found[code] = Page(code, SEVERITY[code], title, shown, kind, fires, silent)
    return {code: found[code] for code in SEVERITY}
