"""``stepwarrant tell``: a path in words."""

from __future__ import annotations

import sys

import click

from .deliver import complain, deliver
from .inputs import read_input


@click.command()
@click.argument("file", type=click.Path())
@click.option("--format", "form", type=click.Choice(["prose", "srt", "vtt"]), default="prose", show_default=True)
@click.option("--rate", type=click.IntRange(30, 600), metavar="N", help="Words a minute, for captions; 150 unless said.")
@click.option("--output", metavar="FILE", type=click.Path(), help="Write the words there instead of to standard output.")
def tell(file: str, form: str, rate: int | None, output: str | None) -> None:
    """Tell the path in FILE (`-` for standard input) in words: as prose, or as captions at the pace of speech.

    The words can be audited like the path. What `say:` lines hold stands in quotation marks, so that it is read as talk; a line
    that cannot be read as a statement is told as it stands. Exit status: 0, 1 if there was such a line, 2 if the input
    could not be used.
    """
    from ..grammar.statements import Unread
    from .report import Unusable, read_only
    from .telling import RATE
    from .telling import tell as told

    try:
        path = read_only(read_input(file))
    except Unusable as error:
        complain(str(error))
        sys.exit(2)
    deliver(told(path, form, RATE if rate is None else rate), output)
    unread = [statement.span.line for statement in path.statements if isinstance(statement, Unread)]
    if unread:
        lines = f"line {unread[0]}" if len(unread) == 1 else f"{len(unread)} lines, the first of them line {unread[0]},"
        complain(f"{file}: {lines} could not be read and stands as it was; `stepwarrant audit` says why")
        sys.exit(1)
