"""The page: one self-contained HTML document to look at audited walkthroughs with, step by step."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterator, Sequence
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from ..drawing import DARK, LIGHT, Sheet, style
from ..legible import legible
from ..report import Report
from .walk import Walk

if TYPE_CHECKING:
    from jinja2 import Environment


def render(reports: Sequence[Report]) -> str:
    """The page for these reports; with several, it begins with a list of them."""
    walks = [Walk(report, f"{at}-" if len(reports) != 1 else "") for at, report in enumerate(reports, 1)]
    sheets = {walk.sheet.prefix: walk.sheet for walk in walks if walk.sheet is not None}
    css, script = _css(), _source("page.js")
    return (
        _environment()
        .get_template("page.html.j2")
        .render(
            walks=walks,
            several=len(walks) != 1,
            title=walks[0].title if len(walks) == 1 else f"{len(walks)} walkthroughs",
            definitions="".join(map(_definitions, sheets.values())),
            key_prefix=next(iter(sheets), ""),
            css=css,
            script=script,
            style_hash=_hash(css),
            script_hash=_hash(script),
        )
    )


def _definitions(drawing: Sheet) -> str:
    return drawing.definitions(drawing.symbols.keys())


def _hash(text: str) -> str:
    """As a content security policy names a style sheet or a script that it lets in."""
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def _source(name: str) -> str:
    return files("stepwarrant.checker.html_report").joinpath(name).read_text(encoding="utf-8")


@cache
def _css() -> str:
    """The page's style sheet, with the colours of the drawing by day and by night, and by day on paper."""
    light, dark = (";".join(f"--{name}:{value}" for name, value in colours.items()) for colours in (LIGHT, DARK))
    drawn = style({name: f"var(--{name})" for name in LIGHT})
    return _source("page.css").replace("/* DAY */", light).replace("/* NIGHT */", dark).replace("/* DRAWING */", drawn)


@cache
def _environment() -> Environment:
    from jinja2 import DictLoader, Environment, StrictUndefined

    environment = Environment(
        loader=DictLoader({"page.html.j2": _source("page.html.j2")}),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.policies["json.dumps_kwargs"] = {"ensure_ascii": False, "separators": (",", ":")}
    environment.filters["ticks"] = _ticks
    return environment


def _ticks(sentence: str) -> Iterator[tuple[str, bool]]:
    """The parts of a sentence, and whether each stood between back ticks."""
    for at, part in enumerate(re.split(r"`([^`]*)`", legible(sentence))):
        if part:
            yield part, bool(at % 2)
