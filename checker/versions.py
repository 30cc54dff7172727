"""``--version``: this program, and what it stands on."""

from __future__ import annotations

import platform
from importlib.metadata import version

import click

FOUNDATIONS = ("python-sat", "lark", "click", "jinja2")


def show(ctx: click.Context, _: click.Parameter, wanted: bool) -> None:
    """Print the versions and end the program, where that is what was asked for."""
    if not wanted or ctx.resilient_parsing:
        return
    click.echo(f"stepwarrant {version('stepwarrant')}")
    click.echo(f"python {platform.python_version()}")
    for name in FOUNDATIONS:
        click.echo(f"{name} {version(name)}")
    ctx.exit()
