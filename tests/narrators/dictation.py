"""For development: what a recogniser wrote down while somebody solved aloud. SRT; no capitals, no stops, figures as they come."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, PLURALS
from .layout import Captioned, Laid, Piece, captions
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

Phrases = tuple[str, ...]

# In the phrases ``#4`` is a spoken number, ``~`` a place for a filler, and ``!`` at the head says that no "because" fits before.

NAKED_SINGLE: Phrases = (
    "{cell} can't be anything but {a}",
    "i'm looking at {cell} ~ and all i've got left in there is {a}",
    "if you run through the numbers for {cell} only {d} survives",
    "there's just the one candidate in {cell} ~ and it's {a}",
    "{d} goes into {cell} because everything else has been knocked out of that one",
    "put {a} in {cell} it's all it can be",
    "{cell} that's a naked single ~ it's {a}",
    "what about {cell} ~ well that's down to just {a}",
    "we can fill in {cell} now that's {a} every other candidate in there is gone",
    "every other number's been ruled out of {cell} which leaves only {a}",
    "{cell} has run out of options it has to be {a}",
    "that's {a} in {cell} nothing else works for this cell",
    "what can still go in {cell} not much just {a} so this cell is {a}",
)
HIDDEN_SINGLE: Phrases = (
    "in {house} where can the {d} go ~ only {cell}",
    "{house} hasn't got {a} yet and the only gap that'll take it is {cell}",
    "looking at {house} there's nowhere for {a} except {cell}",
    "{cell} gets the {d} cause every other cell in {house} is out",
    "the {d} for {house} drops into {cell}",
    "if {cell} isn't {a} then {house} never gets its {d} so it is {a}",
    "{house} still wants {a} and i can see a single place for it ~ {cell}",
    "i can put {a} in {cell} nothing else in {house} can be {d}",
    "there's a hidden single in {house} ~ the {d} it's in {cell}",
    "i'm hunting for the {d} in {house} it's blocked all over apart from {cell} so this cell is {a}",
    "the {d} in {house} can't go anywhere other than {cell}",
    "{house} has to have {a} somewhere and everywhere's shut bar {cell}",
    "{cell} is {a} it's the last place in {house} that'll have it",
)
ITS_SINGLE: Phrases = (
    "{cell} is the sole spot for {a} in its {kind}",
    "{cell} is {a} because nothing else in its {kind} can be",
    "{cell} has to be {a} otherwise its {kind} wouldn't have {a} at all",
    "i'm putting {a} at {cell} because the rest of its {kind} can't take it",
    "look at {cell} ~ it's the one cell in its {kind} where {a} still fits",
    "{cell} takes {a} no other cell in its {kind} can have it",
)
BARE_SINGLE: Phrases = (
    "{cell} is a hidden single it's {a}",
    "there's a hidden single at {cell} ~ that's {a}",
    "another hidden single here {a} in {cell}",
    "we get {a} in {cell} as a hidden single",
    "{a} goes in {cell} that's a hidden single",
    "i've spotted a hidden single {cell} is {a}",
)
LAST_CELL: Phrases = (
    "there's a single hole left in {house} ~ it's {cell} and it takes {a}",
    "{house} is nearly done all it's missing is {a} and that's {cell}",
    "that's eight out of nine in {house} so the last cell {cell} must be {a}",
    "fill up {house} with {a} in {cell}",
    "{cell} is {a} and that's {house} finished",
    "what's missing from {house} ~ {a} so {cell} is {a}",
    "count round {house} we've got everything except {a} so that goes in {cell}",
    "just {cell} to go in {house} and that'll be {a}",
    "{cell} is the only empty cell in {house} so it's whatever's missing ~ which is {a}",
    "i can close up {house} now with {a} at {cell}",
    "all of {house} is in apart from {cell} ~ so this cell is {a}",
)
ITS_LAST: Phrases = (
    "{cell} is the last empty one in its {kind} so that's {a}",
    "{cell} was the only blank in its {kind} and {d} is what's missing",
    "the rest of its {kind} is full so {cell} is {a}",
    "{a} in {cell} and that's its {kind} all filled in",
    "there's nothing else empty in its {kind} so {cell} has to be {a}",
    "{cell} is {a} that was the final gap in its {kind}",
)
LOCKED: Phrases = (
    "wherever the {d} ends up in {house} it's going to be in {line}",
    "{house} only has {many} in {line}",
    "the {d} for {house} is stuck in {line}",
    "!look at the {many} in {house} ~ they're all sitting in {line}",
    "if you go looking for {many} in {house} you only find them in {line}",
    "{house} has to get its {d} from {line}",
    "all the cells in {house} that can still be {a} are in {line} as well",
    "there's no {d} for {house} outside {line}",
)
POINTING: Phrases = (
    "the {many} in {house} point along {line}",
    "there's a pointing {d} in {house} along {line}",
    "{house} is pointing with its {many} along {line}",
    "we've got pointing {many} here {house} into {line}",
    "this is a pointing move the {many} in {house} are locked into {line}",
    "the {many} in {house} are all pointing the same way ~ along {line}",
)
CLAIMING: Phrases = (
    "{house} claims its {d} in {line}",
    "{house} lays claim to the {d} in {line}",
    "this is a claiming move {house} has to have its {d} inside {line}",
    "the {d} in {line} is claimed by {house}",
    "we've got claiming here ~ the {many} in {house} are all within {line}",
    "{house} is claiming the {many} it's got in {line}",
)
UNCROSSED: Phrases = (
    "the {many} in {house} all sit in the same {kind}",
    "{house} has its {many} in just a single {kind}",
    "whichever cell is the {d} in {house} it's always in the same {kind}",
    "the {many} in {house} share a {kind}",
    "if you look in {house} the {many} only turn up in one {kind}",
    "the places for {a} in {house} are all in one {kind}",
)
NAKED: Phrases = (
    "{cells}{place} can only be {either}",
    "between {cells}{place} we've only got {ds}",
    "{cells}{place} have to be {ds} whichever way round",
    "the {ds}{place} get used up by {cells}",
    "!look at {cells}{place} ~ there's nothing in {these} but {ds}",
    "!{cells}{place} what have they got ~ {ds} and that's it",
    "whatever order they're in {cells}{place} are going to use up {ds}",
)
NAKED_NAMED: Phrases = (
    "we've got ourselves a naked {size}{place} ~ it's {ds} in {cells}",
    "{cells}{place} make a naked {size} with {ds}",
    "that's a naked {size} there {cells}{place} on {ds}",
    "i can see a naked {size}{place} the {ds} in {cells}",
    "the {ds} in {cells}{place} are a naked {size}",
    "!what's this then {cells}{place} that's a naked {size} ~ {ds}",
)
HIDDEN: Phrases = (
    "{cells} are the only places{place} for {ds}",
    "the {ds}{place} haven't got anywhere to go but {cells}",
    "!where do the {ds} go{place} ~ just {cells}",
    "the {ds}{place} have to share {cells}",
    "if you look{place} the {ds} only show up in {cells}",
    "{cells} have to take the {ds}{place} because nothing else can",
    "nothing{place} can hold {ds} apart from {cells}",
)
HIDDEN_NAMED: Phrases = (
    "there's a hidden {size}{place} ~ the {ds} are in {cells}",
    "the {ds} make a hidden {size}{place} in {cells}",
    "{cells}{place} are hiding a {size} of {ds} that's a hidden {size}",
    "i've found a hidden {size}{place} it's {cells} with {ds}",
    "this one's a hidden {size} on {ds} and it lives in {cells}{place}",
    "the {ds}{place} have to tuck into {cells} which is a hidden {size}",
)
FISH: Phrases = (
    "the {many} in {base} only ever land in {cover}",
    "!take {base} and find the {many} ~ you only get them in {cover}",
    "{base} between them keep all their {many} in {cover}",
    "if i go through {base} every possible {d} is in {cover}",
    "however it goes {base} have to have their {many} in {cover}",
    "there isn't {a} in {base} that's not in {cover}",
)
FISH_NAMED: Phrases = (
    "the {many} make a {name} {base} and {cover}",
    "i've got a {name} on the {many} it's {base} ~ and they're all in {cover}",
    "{base} have their {many} in {cover} and that's your {name}",
    "there's a {name} here with {many} {base} by {cover}",
    "{base} and {cover} give us a {name} on {many}",
    "!this is the {name} i was hoping for the {many} in {base} all sitting in {cover}",
)
FISH_UNCOVERED: Phrases = (
    "there's a {name} of {many} in {base}",
    "{base} have got a {name} in them on the {many}",
    "the {many} in {base} line up as a {name}",
    "i reckon that's a {name} on {many} ~ using {base}",
    "if you follow the {many} across {base} it's a {name}",
    "!{base} look at the {many} there it's a {name}",
)
CORNERS: Phrases = (
    "there's a {name} on the {many} in the {lines} with its corners at {cells}",
    "the {many} make a {name} by {lines} ~ the corners are {cells}",
    "these are the corners of a {name} of {many} {cells} and it works off the {lines}",
    "!{cells} see those four cells they're a {name} for {many} in the {lines}",
    "we've got {many} at {cells} and nowhere else in those two {lines} so that's a {name}",
    "both of those {lines} have {many} just at {cells} which is a {name}",
)
FINNED: Phrases = (
    "there's a finned {plain} on the {many} {base} in {cover} ~ with {fins} as the {fin}",
    "{base} would be a {plain} of {many} in {cover} if it wasn't for {fins} so it's finned",
    "{base} keep their {many} in {cover} apart from {fins} which {is} the {fin} of a finned {plain}",
    "the {many} in {base} and {cover} are a finned {plain} and the {fin} {is} at {fins}",
    "!take {base} the {many} are in {cover} and then there's {fins} sticking out ~ that's a finned {plain}",
    "it's almost a {plain} on {many} with {base} and {cover} except there's {a_fin} at {fins} it's a finned {plain}",
)
WING: Phrases = (
    "say {pivot} is {one} then {first} is {both} ~ say it's {other} then {second} is {both} so one of the two is {a}",
    "if {pivot} turns out {one} that makes {first} {a} and if it's {other} instead you get {a} in {second}",
    "{first} and {second} can't both miss out on {both} because {pivot} is {one} or {other} and either of those forces {a}",
    "{pivot} is only {one} or {other} with {one} you get {a} in {first} and with {other} you get {a} in {second}",
    "one of {first} and {second} is {a} whether {pivot} is {one} or {other}",
    "when {pivot} is {one} {first} becomes {a} and when it's {other} ~ {second} does",
)
WING_NAMED: Phrases = (
    "there's an xy-wing {pivot} is the pivot ~ and the wings are {first} and {second}",
    "{pivot} with {first} on one side and {second} on the other that's an xy-wing and {pivot} is its pivot",
    "the wings at {first} and {second} hang off {pivot} it's an xy-wing",
    "i've got a little xy-wing here on {both} the pivot's in {pivot} and it reaches {first} and {second}",
    "{first} and {second} are the two wings of an xy-wing with {pivot} in the middle as the pivot",
    "!see {pivot} ~ that's the pivot of an xy-wing one wing's {first} the other one's {second}",
)
LINKED_BY: Phrases = ("then", "so", "and then", "so then", "and that means", "meaning")
PUT: Phrases = (
    "{cell} has to be {a}",
    "{cell} is {a}",
    "the {d} goes in {cell}",
    "we get {a} in {cell}",
    "i can write {a} in {cell}",
    "{cell} turns into {a}",
)
STRIKE: Phrases = (
    "{cells} can't be {either}",
    "{cells} {loses} the {ds}",
    "the {ds} {comes} out of {cells}",
    "i can cross the {ds} off in {cells}",
    "{cells} {isnt} {either}",
    "we can scrub the {ds} from {cells}",
    "the {ds} {has} gone from {cells}",
    "you can't have {either} in {cells}",
    "i'm rubbing the {ds} out of {cells}",
    "there's no way {cells} could be {either}",
)
CLEAR: Phrases = (
    "no other cell in {house} can be {either}",
    "the rest of {house} loses the {ds}",
    "the {ds} {comes} out of everything else in {house}",
    "we can wipe the {ds} from the other cells in {house}",
    "nothing else in {house} can have {either}",
    "i can cross out the {ds} everywhere else in {house}",
)
HINT: Phrases = (
    "the {ds} {comes} out of {where}",
    "we can't have {either} in {where}",
    "you can scrub the {ds} from {where}",
    "there's no more {manies} in {where}",
    "the {ds} {has} gone from {where}",
    "i can get rid of the {ds} in {where}",
    "{where} can't be {either}",
)
HINT_HIDDEN: Phrases = (
    "everything else in {these} has to go",
    "{these} can't be anything else",
    "we can clean all the other candidates out of {these}",
    "nothing else is allowed in there",
    "they lose whatever else they had",
    "all the other stuff comes out of {both}",
)
JOINTS: Phrases = ("so", "so", "which means", "and that means", "and so", "so then", "and because of that", "meaning")
FACTS: Phrases = (
    "!look at {what} ~ put that together and {so}",
    "if you go through everything that can happen with {what} then {so}",
    "whatever you do with {what} you get the same thing {so}",
    "{so} and that just follows from {what}",
    "think about {what} ~ every way you try it {so}",
    "{so} and the reason is {what}",
    "all i need is {what} and then {so}",
)
BARE: Phrases = (
    "this one i'm not going to explain but {so}",
    "take my word for it {so}",
    "{so} i won't go into why",
    "{so} ~ you can work out the why at home",
    "i've got it down in my notes that {so}",
    "{so}",
    "i'll just say that {so} and move on",
)
LEADS: Phrases = (*4 * ("",), "um", "uh", "okay so", "so", "right", "now", "let's see", "oh", "ah", "and", "well", "okay um")
STARTS: Phrases = (
    "what about no hang on",
    "i was going to say never mind",
    "where was i yeah",
    "is there a no okay",
    "if we hm wait",
)
FILLERS: Phrases = ("um", "uh", "you know", "i think", "er", "like", "yeah", "let me see")
STUTTERED = {"the", "in", "so", "and", "that", "it's", "is"}

OPENINGS: Phrases = (
    "testing testing okay it says it's recording um hello this is the lamp room and i'm going to do tonight's grid out loud",
    "right evening all it's blowing a gale out here so what better than a puzzle from the lamp room",
    "hello hello uh same chair same lamp new puzzle i haven't looked at it properly yet so bear with me",
    "so the keeper before me left this one pinned up by the stairs and i've promised to talk it through",
)
TALK: Phrases = (
    "that's two in a row",
    "i do love it when that happens",
    "hang on i've dropped my pencil",
    "was that a ship no just the wind",
    "sorry i've got a mouth full of biscuit",
    "you still with me",
    "um give me a moment",
    "that took way longer than it should have",
    "it's a lot of stairs up here you know a hundred and four i counted",
    "oh that's pretty",
    "i'm going to need more tea",
    "okay breathe",
    "let's have another look round",
    "the light's gone round again it does that every nine seconds",
    "my sister would've seen that ages ago",
    "this is where i got stuck the first time",
    "lovely",
    "are we getting anywhere i think we're getting somewhere",
    "i should really be polishing the lens",
    "there's a gull on the rail staring at me",
)
CLOSINGS: Phrases = (
    "and i'm going to leave it there um thanks for keeping me company good night",
    "yeah that'll do that's the kettle so bye for now",
    "okay how do i switch this thing off",
)

SOUNDS: dict[int, Phrases] = {
    1: ("won",),
    2: ("to", "too"),
    3: ("free", "tree"),
    4: ("for", "fore"),
    6: ("sicks",),
    8: ("ate",),
    9: ("nein",),
}
MISHEARD: dict[str, tuple[float, Phrases]] = {
    "x-wing": (1, ("x wing", "ex wing", "x-wing", "eggs wing")),
    "xy-wing": (1, ("x y wing", "ex y wing", "x why wing", "xy wing")),
    "xy-chain": (1, ("x y chain", "ex y chain", "x why chain", "xy chain")),
    "x-chain": (1, ("x chain", "ex chain", "x-chain")),
    "swordfish": (0.6, ("sword fish", "sawed fish")),
    "jellyfish": (0.6, ("jelly fish",)),
    "finned": (0.5, ("find", "fend", "fined")),
    "fin": (0.2, ("finn", "thin")),
    "quad": (0.3, ("quod", "squad")),
    "pair": (0.2, ("pear", "pare")),
    "cell": (0.15, ("sell",)),
    "cells": (0.15, ("sells",)),
    "row": (0.05, ("roe",)),
    "rows": (0.05, ("rose",)),
    "column": (0.02, ("colon",)),
    "there's": (0.04, ("theirs",)),
    "their": (0.2, ("there",)),
    "its": (0.2, ("it's",)),
    "it's": (0.1, ("its",)),
    "which": (0.05, ("witch",)),
    "hole": (0.3, ("whole",)),
    "here": (0.1, ("hear",)),
    "place": (0.02, ("plaice",)),
    "need": (0.1, ("knead",)),
}
"""How often the machine hears something else, and what."""

BOXES = (
    *("top left", "top middle", "top right"),
    *("middle left", "middle", "middle right"),
    *("bottom left", "bottom middle", "bottom right"),
)
LETTERS = {"r": "are", "c": "see"}
SPOKEN = re.compile(r"([rc]?)#(\d+)(s?)")


def written(text: str, figures: float, rng: Random) -> str:
    """The spoken text as the machine writes it. ``figures``: how often a number is one. Each word takes the same throws."""
    words = text.split()
    out = []
    for before, word, after in zip(["", *words], words, [*words[1:], ""], strict=False):
        throw, which, again = rng.random(), rng.random(), rng.random()
        spoken = SPOKEN.fullmatch(word)
        if spoken:
            in_run = "#" in before or before in ("rows", "columns")  # "columns one to five" would say something else
            out.append(_number(spoken[1], spoken[2], spoken[3], figures, throw, max(which, 0.5) if in_run else which))
        elif word == "~":
            out += [FILLERS[int(which * len(FILLERS))]] if throw < 0.2 else []
        elif word == "a" and after.startswith(("#8", "x-", "xy-")):
            out.append("an")
        else:
            share, options = MISHEARD.get(word, (0, ("",)))
            heard = options[int(which * len(options))] if throw < share else word
            out += [heard, heard] if word in STUTTERED and again < 0.012 else [heard]
    return " ".join(out)


def _number(letter: str, digits: str, plural: str, figures: float, throw: float, which: float) -> str:
    """A number, a run of them (``#126``) or half a cell's name (``r#4``)."""
    if throw < figures:
        return (
            f"{letter}{' ' if letter and which < 0.3 else ''}{(' ' if which < 0.5 and not plural else '').join(digits)}{plural}"
        )
    spelt = []
    for digit in map(int, digits):
        sounds = SOUNDS.get(digit, ())
        missed = throw > 0.95 and sounds
        sound = sounds[int(which * len(sounds))] if missed else NUMBERS[digit]
        spelt.append((f"{sound}s" if missed and digit in (1, 3, 8) else PLURALS[digit]) if plural else sound)
    if letter:
        spelt.insert(0, LETTERS[letter] if throw > 0.96 else letter)
    return " ".join(spelt)


def run(digits: Sequence[int], last: str = "and") -> str:
    """``#1 #2 and #6``."""
    words = [f"#{digit}" for digit in digits]
    return words[0] if len(words) == 1 else f"{' '.join(words[:-1])} {last} {words[-1]}"


def strung(words: Sequence[str]) -> str:
    """``this that and the other``, without a comma."""
    return words[0] if len(words) == 1 else f"{' '.join(words[:-1])} and {words[-1]}"


def in_one(cell: int, lines: Sequence[House]) -> bool:
    """Is the cell in one of the rows, or of the columns?"""
    return any(line.number == (cell // 9 if line.kind == "r" else cell % 9) + 1 for line in lines)


class Dictation(Narrator):
    """Solves aloud, not always in whole sentences; whatever the machine makes of it is what we get."""

    name = "dictation"
    leaves: ClassVar = {
        "single house": 0.08,
        "its": 0.2,
        "naked house": 0.45,
        "hidden house": 0.0,
        "cover": 0.12,
        "crossing": 0.12,
        "name": 0.4,
        "effects": 0.6,
        "back": 0.4,
        "corners": 0.3,
        "recap": 0.06,
    }

    def tell(self, matter: Matter) -> str:
        figures = (0.08, 0.35, 0.35, 0.85)[matter.manner % 4]
        lead, start = matter.pick(*LEADS), matter.pick(*STARTS)
        starts = matter.often(0.025)
        said = super().tell(matter)
        return written(f"{start if starts else lead} {said}", figures, Random(matter.rng.random()))

    # Naming.

    def cell(self, m: Matter, cell: int, rng: Random | None = None) -> str:
        row, column = cell // 9 + 1, cell % 9 + 1
        throw = (rng or m.rng).random()
        if throw < (0.05, 0.15, 0.4)[m.manner % 3]:
            return f"r#{row} c#{column}"
        return f"column #{column} row #{row}" if throw > 0.97 else f"row #{row} column #{column}"

    def cells(self, m: Matter, cells: Sequence[int]) -> str:
        """Line by line: row four columns two and three and row six column one. One throw, however many cells."""
        rng = Random(m.rng.random())
        rows = {row: [cell for cell in cells if cell // 9 == row] for row in sorted({cell // 9 for cell in cells})}
        columns = {column: [cell for cell in cells if cell % 9 == column] for column in sorted({cell % 9 for cell in cells})}
        down = len(columns) < len(rows)
        return strung([self.group(m, group, down, rng) for group in (columns if down else rows).values()])

    def group(self, m: Matter, cells: Sequence[int], down: bool, rng: Random) -> str:
        if len(cells) == 1:
            return self.cell(m, cells[0], rng)
        row, column = cells[0] // 9 + 1, cells[0] % 9 + 1
        numbers = run([cell // 9 + 1 if down else cell % 9 + 1 for cell in cells])
        if down:
            line = f"column #{column}"
            return rng.choice((f"rows {numbers} in {line}", f"rows {numbers} of {line}", f"{line} rows {numbers}"))
        several = " and ".join(f"column #{cell % 9 + 1}" for cell in cells)
        brief = several if len(cells) == 2 else f"columns {numbers}"
        return rng.choice((f"row #{row} columns {numbers}", f"row #{row} {brief}", f"columns {numbers} in row #{row}"))

    def house(self, m: Matter, house: House) -> str:
        by_place = m.often(0.6)
        if house.kind == "b" and by_place:
            return f"the {BOXES[house.number - 1]} box"
        return f"{KINDS[house.kind]} #{house.number}"

    def houses(self, houses: Sequence[House]) -> str:
        return f"{KINDS[houses[0].kind]}s {run([house.number for house in houses])}"

    def where(self, m: Matter) -> str:
        same = m.pick("that same", "the same", "this same")
        return f"{same} {KINDS[m.house.kind]}" if m.plan.back else self.house(m, m.house)

    def digits(self, m: Matter, digits: Sequence[int]) -> dict[str, str]:
        """The fields ``ds``, ``either`` and ``manies``, and the verbs that go with them."""
        several = len(digits) > 1
        bare = "#" + "".join(map(str, digits))
        return {
            "ds": m.pick(run(digits), run(digits), bare if several else run(digits)),
            "either": m.pick(run(digits, "or"), " or ".join(f"a #{digit}" for digit in digits)),
            "manies": " or ".join(f"#{digit}s" for digit in digits),
            "comes": "come" if several else "comes",
            "has": "have" if several else "has",
        }

    def single(self, m: Matter, phrases: Phrases, house: str = "") -> str:
        put = m.put
        assert put is not None
        kind = KINDS[m.houses[0].kind] if m.houses else ""
        fields = {"cell": self.cell(m, put.cell), "d": f"#{put.digit}", "a": f"a #{put.digit}", "kind": kind, "house": house}
        return m.pick(*phrases).format(**fields)

    # Steps.

    def naked_single(self, m: Matter) -> str:
        return self.single(m, NAKED_SINGLE)

    def hidden_single(self, m: Matter) -> str:
        if not m.says("house"):
            return self.single(m, BARE_SINGLE)
        return self.single(m, HIDDEN_SINGLE, self.where(m)) if m.says("its") else self.single(m, ITS_SINGLE)

    def last_cell(self, m: Matter) -> str:
        return self.single(m, LAST_CELL, self.where(m)) if m.says("its") else self.single(m, ITS_LAST)

    def locked(self, m: Matter) -> str:
        assert m.crossing is not None
        digit, line, kind = m.digits[0], self.house(m, m.crossing), KINDS[m.crossing.kind]
        fields = {
            "house": self.where(m),
            "line": line,
            "kind": kind,
            "d": f"#{digit}",
            "a": f"a #{digit}",
            "many": f"#{digit}s",
        }
        named = m.says("name") and m.often(0.6)
        phrases = (POINTING if m.name == "pointing" else CLAIMING) if named else LOCKED
        said = m.pick(*(phrases if m.says("crossing") else UNCROSSED)).format(**fields)
        that = line if m.says("crossing") else f"that {kind}"
        return self.so(m, said, m.pick(f"the rest of {that}", f"the other cells in {that}", f"what's left of that {kind}"))

    def several(self, m: Matter) -> dict[str, str]:
        """What naked and hidden patterns have in common."""
        count = NUMBERS[m.count]
        return {
            **self.digits(m, m.digits),
            "cells": self.cells_in_house(m),
            "place": f" in {self.where(m)}" if m.says("house") else "",
            "size": m.name.split()[1],
            "these": m.pick(f"these {count}", f"those {count} cells"),
            "both": "both of them" if m.count == 2 else f"all {count} of them",
        }

    def cells_in_house(self, m: Matter) -> str:
        """The pattern's cells; by their columns alone where their row is said right after, and the other way round."""
        whole, kind = self.cells(m, m.cells), m.house.kind
        if kind == "b" or not m.says("house") or not all(in_one(cell, [m.house]) for cell in m.cells):
            return whole
        return (
            f"columns {run([cell % 9 + 1 for cell in m.cells])}"
            if kind == "r"
            else f"rows {run([c // 9 + 1 for c in m.cells])}"
        )

    def naked(self, m: Matter) -> str:
        fields = self.several(m)
        pair: Phrases = ()
        if m.count == 2:
            first, second = m.digits
            pair = (f"one of {{cells}}{{place}} is the #{first} and the other one is the #{second}",) * 2
        said = m.pick(*(NAKED_NAMED if m.says("name") else NAKED + pair)).format(**fields)
        kinds = " and the ".join(KINDS[kind] for kind in m.plan.kinds)
        return self.so(m, said, m.pick(f"the rest of the {kinds}", f"anything that sees {fields['both']}"))

    def hidden(self, m: Matter) -> str:
        fields = self.several(m)
        said = m.pick(*(HIDDEN_NAMED if m.says("name") else HIDDEN)).format(**fields)
        if m.plan.natural:
            return self.joined(m, said, m.pick(*HINT_HIDDEN).format(**fields))
        return self.so(m, said, "")

    def fish(self, m: Matter) -> str:
        digit, cover, lines = m.digits[0], self.houses(m.cover), f"{KINDS[m.houses[0].kind]}s"
        crossed = [cell for cell in range(81) if in_one(cell, m.houses) and in_one(cell, m.cover)]
        fields = {
            "base": self.houses(m.houses),
            "cover": cover,
            "d": f"#{digit}",
            "a": f"a #{digit}",
            "many": f"#{digit}s",
            "name": m.name,
            "lines": lines,
            "cells": self.cells(m, crossed) if m.plan.corners else "",
        }
        named = FISH_NAMED if m.says("cover") else FISH_UNCOVERED
        phrases = CORNERS if m.plan.corners else named if m.says("name") else FISH
        said = m.pick(*phrases).format(**fields)
        those = f"those {KINDS[m.cover[0].kind]}s"
        plainly = m.says("cover") and not m.plan.corners
        return self.so(m, said, m.pick(f"the rest of {cover if plainly else those}", f"the other cells in {those}"))

    def finned(self, m: Matter) -> str:
        one = len(m.fins) == 1
        fields = {
            "base": self.houses(m.houses),
            "cover": self.houses(m.cover),
            "many": f"#{m.digits[0]}s",
            "plain": m.name.removeprefix("finned "),
            "fins": self.cells(m, m.fins),
            "fin": "fin" if one else "fins",
            "a_fin": "a fin" if one else "fins",
            "is": "is" if one else "are",
        }
        said = m.pick(*FINNED).format(**fields)
        those, all_fins = f"those {KINDS[m.cover[0].kind]}s", "the fin" if one else "all the fins"
        return self.so(
            m, said, m.pick(f"cells in {those} that see {all_fins}", f"anything in {those} that can see {all_fins} too")
        )

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        one, other, both = m.plan.shared
        first, second = (self.cell(m, cell) for cell in m.cells)
        fields = {"pivot": self.cell(m, m.pivot), "first": first, "second": second}
        fields |= {"one": f"#{one}", "other": f"#{other}", "both": f"#{both}", "a": f"a #{both}"}
        said = m.pick(*(WING_NAMED if m.says("name") else WING)).format(**fields)
        return self.so(m, said, m.pick("anything that sees both wings", "any cell that sees both of those"), both)

    def xy_chain(self, m: Matter) -> str:
        end, names = m.digits[0], [self.cell(m, cell) for cell in m.cells]
        turns = [*zip(names, m.digits, m.digits[1:], strict=False)]
        named = (
            m.pick("there's an xy-chain", "this is an xy-chain", "i've got an xy-chain going here") if m.says("name") else ""
        )
        glue = m.pick("then", "so", "and then", "which makes")
        onward = " ".join(f"{glue} {name} {'a' if glue == 'which makes' else 'is'} #{to}" for name, _, to in turns[1:])
        held = " then ".join(f"{name} is #{had} or #{to}" for name, had, to in turns)
        passed = " ".join(f"which leaves #{to} for {name}" for name, _, to in turns[1:])
        either = m.pick(f"so one end or the other one is a #{end}", f"either way there's a #{end} in {names[0]} or {names[-1]}")
        chain = m.pick(
            f"if {names[0]} isn't #{end} it's #{turns[0][2]} {onward} {either}",
            f"suppose there's no #{end} in {names[0]} it'd have to be #{turns[0][2]} {onward} {either}",
            f"either {names[0]} is #{end} or it's #{turns[0][2]} {passed}",
            f"start from {names[0]} and say it isn't #{end} ~ well then it's #{turns[0][2]} {passed} {either}",
            f"follow these cells along {held} {either}",
            f"{names[0]} if it's not a #{end} is #{turns[0][2]} {onward} so {names[0]} and {names[-1]} can't both miss the #{end}",
        )
        return self.so(m, f"!{named} {chain}", m.pick("anything that sees both ends", "any cell that sees both of them"), end)

    def x_chain(self, m: Matter) -> str:
        digit, names = m.digits[0], [self.cell(m, cell) for cell in m.cells]
        d, first, last = f"#{digit}", names[0], names[-1]
        path = " to ".join(names)
        if m.says("name"):
            said = m.pick(
                f"there's an x-chain on {d} and it runs {path}",
                f"follow the {d}s {path} that's an x-chain",
                f"i've got an x-chain of {d}s ~ starting at {first} going to {' to '.join(names[1:])}",
                f"the x-chain here is all {d}s it's {strung(names)}",
                f"{path} is an x-chain on the {d}",
                f"an x-chain of {d}s links {path} so {first} or {last} is a {d}",
            )
        else:
            said = (
                self.links_of(m, names, d) + " " + m.pick(f"so {first} or {last} is a {d}", f"so one of the two ends is a {d}")
            )
        return self.so(m, f"!{said}", m.pick("anything that sees both ends", "any cell that sees both of them"), digit)

    def links_of(self, m: Matter, names: Sequence[str], d: str) -> str:
        pairs = [*zip(names[::2], names[1::2], (KINDS[way] for way in m.plan.ways), strict=True)]
        (first, second, way), *others = pairs
        shape = m.rng.randrange(4)
        if shape == 0:
            rest = " ".join(f"so {a} isn't and then {b} is cause that's the last {d} in its {kind}" for a, b, kind in others)
            return f"if {first} isn't a {d} then {second} is it's the only other place in the {way} {rest}"
        if shape == 1:
            rest = " ".join(f"and that knocks it out of {a} and puts it in {b} for that {kind}" for a, b, kind in others)
            return f"say the {d} in this {way} isn't in {first} then it's in {second} {rest}"
        if shape == 2:
            rest = " and ".join(f"in the {kind} of {a} it's {a} or {b}" for a, b, kind in others)
            return f"the {d} in the {way} of {first} is {first} or {second} and {rest} and they see each other in between"
        rest = " ".join(f"so not {a} so it's {b} because the {kind} has only got those two" for a, b, kind in others)
        return f"there are only two {d}s in the {way} here {first} and {second} if it's not {first} it's {second} {rest}"

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), *others = m.links
        start = self.cell(m, first)
        said = " ".join(self.linked(m, others, first))
        last, holds, end = m.links[-1]
        against = last == first and end == digit and holds != supposed
        if against and m.plan.natural:
            what, hope = ("can't be", "was") if supposed else ("has to be", "wasn't")
            return m.pick(
                f"{start} {what} a #{digit} because if it {hope} {said}",
                f"suppose {start} {'is' if supposed else 'is not'} #{digit} {said} which is nonsense so {start} {what} #{digit}",
                f"{start} {what} #{digit} ~ here's why if it {hope} {said} and that's broken",
                f"if {start} {'is' if supposed else 'is not'} a #{digit} {said} that's a contradiction so {start} {what} a #{digit}",
                f"let's pretend {start} {'is' if supposed else 'is not'} #{digit} {said} oh that doesn't work so it {what} a #{digit}",
                f"can {start} {'be' if supposed else 'not be'} #{digit} well {said} so no it {what} a #{digit}",
            )
        opener = m.pick("if", "suppose", "let's say", "imagine", "what happens if", "say")
        said = f"!{opener} {start} {'is' if supposed else 'is not'} #{digit} {said}"
        said += m.pick(" and that can't happen", " which is impossible", " that's a contradiction") if against else ""
        return self.so(m, said, m.pick("anything that sees both ends", "any cell that sees both of them"), digit)

    def linked(self, m: Matter, links: Sequence[tuple[int, bool, int]], last: int) -> Iterator[str]:
        for told, (cell, holds, digit) in enumerate(links):
            name, same = self.cell(m, cell), m.pick("it", "this cell")
            verb = m.pick("is", "has to be", "becomes") if holds else m.pick("isn't", "can't be", "is not")
            glue = m.pick(*LINKED_BY)
            yield f"{glue if told else 'then'} {same if cell == last else name} {verb} {m.pick('', 'a ')}#{digit}"
            last = cell

    def facts(self, m: Matter) -> str:
        said = [
            self.cell(m, what) if isinstance(what, int) else f"the #{what[0]} in {self.house(m, what[1])}" for what in m.cited
        ]
        return m.pick(*FACTS).removeprefix("!").format(what=strung(said), so=self.effects(m))

    def bare(self, m: Matter) -> str:
        return m.pick(*BARE).format(so=self.effects(m))

    # Effects.

    def so(self, m: Matter, said: str, where: str, digit: int | None = None) -> str:
        """The pattern and its effects, or the other way round."""
        if not m.plan.natural:
            return self.joined(m, said, self.effects(m))
        fields = self.digits(m, [digit] if digit else m.digits or [m.links[0][2]])
        return self.joined(m, said, m.pick(*HINT).format(where=where, **fields))

    def joined(self, m: Matter, said: str, tail: str) -> str:
        joint, ahead, after = m.pick(*JOINTS), m.often(0.2), m.pick("because", "that's because", "and why well because")
        turned = ahead and not said.startswith("!") and len(m.effects) == 1 and not m.plan.natural
        return f"{tail} {after} {said}" if turned else f"{said.removeprefix('!')} ~ {joint} {tail}"

    def effects(self, m: Matter) -> str:
        strikes = [effect for effect in m.effects if isinstance(effect, Strike)]
        in_one_breath = m.often(0.4)
        if 1 < len(strikes) == len(m.effects) and in_one_breath:
            out = [f"the {self.digits(m, strike.digits)['ds']} out of {self.cells(m, strike.cells)}" for strike in strikes]
            return m.pick("we can take ", "i'm taking ", "i can knock ") + " and ".join([" ".join(out[:-1]), out[-1]])
        first, *others = (self.effect(m, effect) for effect in m.effects)
        return first + "".join(
            m.pick(" and also ", " and then ", " oh and ", " and on top of that ") + other for other in others
        )

    def effect(self, m: Matter, effect: Put | Strike | Clear) -> str:
        if isinstance(effect, Put):
            fields = {"cell": self.cell(m, effect.cell), "d": f"#{effect.digit}", "a": f"a #{effect.digit}"}
            return m.pick(*PUT).format(**fields)
        fields = self.digits(m, effect.digits)
        if isinstance(effect, Clear):
            return m.pick(*CLEAR).format(house=self.house(m, effect.house), **fields)
        many, own = len(effect.cells) > 1, m.often(0.6) and m.name.startswith("hidden")
        cells = self.cells(m, effect.cells)
        if own and many and {*effect.cells} == {*m.cells}:
            cells = f"those {NUMBERS[m.count]} cells"
        verbs = {"loses": "lose" if many else "loses", "isnt": "aren't" if many else "isn't"}
        return m.pick(*STRIKE).format(cells=cells, **verbs, **fields)

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(rng.choice(OPENINGS))

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.16:
            yield Piece(rng.choice(TALK))

    def recap(self, m: Matter) -> str:
        assert m.put is not None
        a = f"a #{m.put.digit}"
        said = m.pick(f"yeah {a} in {self.cell(m, m.put.cell)}", f"so i've got {a} there", f"{a} in there lovely")
        return written(said, 0.3, Random(m.rng.random()))

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(rng.choice(CLOSINGS))

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        cut = Captioned(False, rng.choice((32, 40, 44)), rng.choice((1, 2, 2)), 0, rng.uniform(2.2, 3.1))
        return "srt", captions(pieces, cut, rng)
