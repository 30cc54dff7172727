"""For development: callers of a puzzle hotline, each with a way of naming cells, as a recogniser took them down. No stops."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from random import Random
from typing import ClassVar

from ..maker.board import House
from ..maker.walk import Walk
from .english import KINDS, NUMBERS, ORDINALS, PLURALS, listed
from .layout import Captioned, Laid, Piece, captions
from .matter import Clear, Matter, Put, Strike
from .telling import Narrator

Phrases = tuple[str, ...]

# In the phrases ``#4`` is a spoken number, ``#4s`` its plural, ``#4th`` its ordinal, ``~`` a place where a caller may dither,
# and ``!`` at the head says that the phrase is no plain clause, so that no "because" goes before it.

NAKED_SINGLE: Phrases = (
    "what have i still got for {cell} ~ hang on it's just {a} isn't it yeah so the {d} goes there",
    "{cell} i've crossed off everything bar the {d} so that one's {a}",
    "{cell} has lost all its options but one ~ and the one it kept is the {d}",
    "can i do {cell} yet ~ i can actually it's {a} that's all that's left in it",
    "that cell there ~ {cell} it's only got {a} in it so that's what it is",
    "i get {a} in {cell} by a naked single",
    "i'd put {a} in {cell} there's no other number that still goes",
    "naked single at {cell} and it's the {d}",
    "{cell} is down to one number and the number is {d}",
    "you can stop thinking about {cell} only the {d} is left for it so {d} it is",
    "is there anything {cell} can be that isn't {a} ~ no there is not so in goes the {d}",
    "we've got a cell with one candidate ~ it's {cell} and the candidate's {a} so i'm filling that in",
    "{d} is the answer to {cell} it couldn't be anything else",
    "{cell} ~ is it this is it that no everything's been taken except {a} so this one's {a}",
    "okay this one ~ this one's {cell} by the way and it only has {a} left so in it goes",
)
HIDDEN_SINGLE: Phrases = (
    "where does the {d} go in {house} ~ well it can't go in any of the others so it's got to be {cell}",
    "{house} needs {a} ~ not here not here not there either so that leaves {cell} for it",
    "i was checking {house} for {ns} ~ and {cell} is the one place left so that's where it goes",
    "{cell} is the only home for the {d} in {house}",
    "{cell} is {a} because where else would {house} put it",
    "there's a hidden single for you ~ it's the {d} in {house} and it goes in {cell}",
    "every other cell in {house} says no to {a} so {cell} has to say yes",
    "put {a} in {cell} ~ why well because {house} has no other room for it",
    "{house} ~ who can take the {d} nobody but {cell} so that's {a}",
    "in {house} we're still missing the {d} and it'll only go in {cell}",
    "if {house} is going to have {a} at all then it's {cell} ~ so that's that one done",
    "i want the {d} in {house} and there's just the one spot ~ {cell} there it is",
    "{cell} gets the {d} since nothing else in {house} can have it",
    "you see {cell} ~ that's where {house} has to put its {d} all the others are no good for it",
    "it's the {d} i'm after now in {house} ~ this one can't that one can't oh {cell} can so that's where it is",
)
ITS_SINGLE: Phrases = (
    "{cell} is the only one in its {kind} that'll take {a}",
    "nobody else in its {kind} can be {a} so {cell} is",
    "look at {cell} and its {kind} ~ the {d} can't go anywhere else in that {kind} so this is it",
    "the {d} has to go in {cell} ~ the whole rest of its {kind} turns it down",
    "{cell} ~ yeah that's {a} or its {kind} doesn't get one",
    "{cell} is {a} it's a hidden single in its {kind}",
)
BARE_SINGLE: Phrases = (
    "{cell} is a hidden single and it's {a}",
    "there's {a} in {cell} ~ hidden single",
    "oh a hidden single ~ {cell} and that's the {d}",
    "hidden single at {cell} put {a} in there",
    "i found {a} for {cell} ~ that one was a hidden single",
)
LAST_CELL: Phrases = (
    "{house} has got all but one in it ~ the number that's not there is {d} and it goes in {cell}",
    "count up {house} with me ~ everything's there bar the {d} and everything's full bar {cell} so there you go",
    "just the one space in {house} and that's {cell} ~ what's missing well it's {a} so in it goes",
    "{cell} finishes off {house} it's {a}",
    "look {house} has a single empty cell ~ that's {cell} and we haven't had {a} in there yet so that's it",
    "what are we short of in {house} ~ {a} and the empty one is {cell} so that's done",
    "i can finish {house} ~ the last cell in it is {cell} and that's {a}",
    "{a} in {cell} and {house} is complete",
    "{house} is nearly full up ~ only {cell} is open and that one has to be {a}",
    "that leaves {house} with one gap which is {cell} so we put the {d} in it",
)
ITS_LAST: Phrases = (
    "{cell} is the last open one in its {kind} ~ so it's {a}",
    "everything else in its {kind} is filled in so {cell} is {a}",
    "{cell} gets {a} and now its {kind} is full",
    "the only hole in its {kind} was {cell} ~ we needed {a} so there it is",
    "{a} for {cell} because that's the one number its {kind} hasn't got",
    "i'm closing off {cell} with {a} ~ last cell in its {kind}",
)
LOCKED: Phrases = (
    "!where's the {d} in {house} ~ well it's somewhere along {line} i don't know where but it's along there",
    "in {house} all the {ns} that are left lie in {line}",
    "{house} needs {a} and it can only come from the cells it shares with {line}",
    "!i don't know which cell gets the {d} in {house} ~ but i do know it's one in {line}",
    "!take {house} ~ try to put {a} anywhere off {line} and you can't",
    "the {ns} in {house} are all squeezed into {line}",
    "{line} has to supply the {d} for {house}",
    "the {d} in {house} must be in {line} one way or the other",
    "!see the {ns} in {house} ~ every single one of them is in {line} as well",
)
POINTING: Phrases = (
    "the {ns} in {house} point along {line}",
    "!we've got a pointing thing going on in {house} ~ the {ns} point along {line}",
    "{house} has its {ns} pointing along {line}",
    "!pointing {ns} in {house} ~ they're lined up on {line}",
    "the {ns} left in {house} are pointing down {line}",
    "there's pointing in {house} with the {ns} and it goes along {line}",
)
CLAIMING: Phrases = (
    "{house} claims its {d} in {line}",
    "!it's a claiming thing ~ {house} can only have its {d} in {line}",
    "{house} is claiming the {d} that {line} has",
    "!that's claiming all the {ns} of {house} are inside {line}",
    "the {ns} in {line} are claimed by {house}",
    "{house} has a claim on the {d} in {line} because all of its {ns} are in there",
)
UNCROSSED: Phrases = (
    "the {ns} in {house} are all in one and the same {kind}",
    "!where's the {d} in {house} ~ i can't tell but the places it could go are all in the same {kind}",
    "all the {ns} {house} has left share a single {kind}",
    "{house} only has {ns} in one {kind}",
    "!look at the {ns} in {house} ~ they're all in a line well they're all in one {kind}",
    "whichever of these is the {d} for {house} they're all in one {kind}",
)
NAKED: Phrases = (
    "!what can {cells}{place} be ~ only {either} {all} of them",
    "{cells}{place} have nothing but {nums} in them",
    "!{cells}{place} ~ those have to hold the {ds} between them i don't know which is which",
    "{count} cells here {cells}{place} have to split the {ds} among themselves",
    "the {ds} belong to {cells}{place} in some order",
    "!okay {cells}{place} ~ there are {count} cells and {count} numbers {nums}",
    "{cells}{place} have got to be {nums} one way round or another",
    "there are just {count} candidates {nums} for {cells}{place}",
)
NAKED_TWO: Phrases = (
    "!{cells}{place} ~ one of them's {a1} and the other one's {a2}",
    "!if {first}{place} is {a1} then {second} is {a2} and if it's {a2} then that other one's the {d1}",
    "!either it's {a1} in {first}{place} and {a2} in {second} ~ or it's the other way about",
)
NAKED_NAMED: Phrases = (
    "there's a naked {size}{place} on {nums} and it's {cells}",
    "{cells}{place} are a naked {size} of {nums}",
    "!naked {size}{place} ~ {cells} and the numbers are {nums}",
    "!i see {cells}{place} and i see {nums} in them ~ that makes a naked {size}",
    "{nums} are a naked {size}{place} sitting in {cells}",
    "!you know what {cells}{place} are ~ they're a naked {size} with {nums}",
)
HIDDEN: Phrases = (
    "!where can the {ds} go{place} ~ not in a lot of cells just {cells}",
    "the {ds} need {count} cells{place} and there are only {cells}",
    "nothing{place} has got {either} in it apart from {cells}",
    "!take the {ds}{place} ~ you only find them in {cells}",
    "{cells} are where the {ds} live{place} {both}",
    "the {ds}{place} can't be anywhere apart from {cells}",
    "!{count} numbers {count} cells ~ the {ds}{place} fit in {cells} and nowhere else",
)
HIDDEN_NAMED: Phrases = (
    "{cells} are a hidden {size} of {nums}{place}",
    "there's a hidden {size}{place} on {nums} and it's in {cells}",
    "!hidden {size}{place} ~ the numbers are {nums} and they're in {cells}",
    "!the {ds}{place} only fit in {cells} ~ so that's a hidden {size}",
    "the {ds} form a hidden {size}{place} they're all in {cells}",
    "!this took me ages but {cells}{place} that's your hidden {size} with {nums}",
)
FISH: Phrases = (
    "!where do the {ns} go in {base} ~ in {cover} and that's all",
    "the {ns} in {base} are all in {cover}",
    "!look at {base} ~ the {ns} in there never leave {cover}",
    "{base} each need {a} and they can only get it from {cover}",
    "!go through {base} for {ns} ~ every time you're in {cover}",
    "{cover} hold every {d} that {base} can have",
)
FISH_NAMED: Phrases = (
    "there's a {name} of {ns} in {base} and it covers {cover}",
    "{base} and {cover} are a {name} for the {ns}",
    "!{name} on {ns} ~ {base} against {cover}",
    "the {ns} in {base} are limited to {cover} and that makes it a {name}",
    "!it's a {name} i'm pretty sure ~ the {ns} in {base} are all in {cover}",
    "!if you mark all the {ns} in {base} you'll find they sit in {cover} ~ so hello {name}",
)
FISH_UNCOVERED: Phrases = (
    "{base} have a {name} on the {ns}",
    "!{name} ~ it's the {ns} in {base}",
    "there's a {name} with the {ns} of {base}",
    "!i looked at the {ns} in {base} and what do you know it's a {name}",
    "{base} make a {name} if you only look at the {ns}",
    "the {ns} in {base} are a {name}",
)
CORNERS: Phrases = (
    "{cells} are the four corners of a {name} on {ns} and it's the {lines} that make it",
    "!i've got {ns} in {cells} ~ and no others in those {lines} it's a {name}",
    "there's a {name} of {ns} using the {lines} the corners are {cells}",
    "!{name} on the {ns} ~ corners at {cells} going by the {lines}",
    "the {ns} in {cells} are a {name} since there aren't any more in those two {lines}",
)
FINNED: Phrases = (
    "there's a finned {plain} of {ns} it's {base} with {cover} and the {fin} {is} {fins}",
    "!i thought i had a {plain} on {ns} in {base} and {cover} ~ but there's {fins} so it's a finned one",
    "{base} have their {ns} in {cover} and in {fins} which makes {fins_it} the {fin} of a finned {plain}",
    "!finned {plain} on the {ns} ~ {base} covered by {cover} {fin} at {fins}",
    "!if it weren't for {fins} the {ns} in {base} would all be in {cover} ~ so it's a finned {plain} with that as the {fin}",
    "the {ns} in {base} and {cover} are a finned {plain} and {fins} {is} the {fin}",
)
WING: Phrases = (
    "!two cases ~ {pivot} is {one} and then {first} is {both} or else it's {other} and {second} is {both}",
    "!what's {pivot} ~ it could be {one} and then {first} turns into {a} or it could be {other} and then it's {second} that's {a}",
    "{pivot} has to be {one} or {other} and {one} there makes {first} {a} and {other} makes {second} {a}",
    "!either {first} or {second} is {a} ~ just try {one} in {pivot} and that does the first and try {other} and that does the second",
    "!put {one} in {pivot} and you get {a} in {first} ~ put {other} in there instead and you get it in {second}",
    "!{first} or {second} one of them's {a} because {pivot} is either {one} or {other} and it can't stop both",
)
WING_NAMED: Phrases = (
    "{pivot} is the pivot of an xy-wing and {first} and {second} are its wings",
    "!xy-wing ~ pivot {pivot} and the wings are {first} and {second}",
    "there's an xy-wing on {both} that pivots on {pivot} the wings being {first} and {second}",
    "!start with the pivot that's {pivot} ~ one wing here {first} another wing over there {second} it's an xy-wing",
    "{first} and {second} are wings of an xy-wing that has {pivot} for a pivot",
    "!i see an xy-wing i think ~ {pivot} in the pivot role and {first} and {second} on the wings so one of those is {a}",
)
PUT: Phrases = (
    "{cell} is {a}",
    "{cell} has got to be {a}",
    "it's {a} in {cell}",
    "i can fill in {a} at {cell}",
    "the {d} goes to {cell}",
    "{cell} comes out as {a}",
)
STRIKE: Phrases = (
    "{cells} can't be {either}",
    "{cells} {isnt} {any}",
    "the {ds} {goes} from {cells}",
    "i'm taking the {ds} out of {cells}",
    "you can get rid of the {ds} in {cells}",
    "there are no {many} in {cells}",
    "there can't be any {many} in {cells}",
    "{cells} {loses} the {ds}",
    "we lose the {ds} from {cells}",
    "{cells} {isnt} going to be {any}",
    "we can say goodbye to the {ds} in {cells}",
)
STRIKE_IT: Phrases = (
    "it can't go in {cells}",
    "that takes it out of {cells}",
    "it's not in {cells}",
    "you can cross it off in {cells}",
    "you won't find it in {cells}",
    "it comes off {cells}",
)
STRIKE_ALL: Phrases = (
    "{each} both lose the {ds}",
    "{each} can't be {either} neither of them",
    "the {ds} {goes} from {first} and from {second} as well",
    "{first} can't be {either} and nor can {second}",
    "neither {first} nor {second} can be {either}",
)
CLEAR: Phrases = (
    "nothing else in {house} is {either}",
    "there aren't any {many} in the rest of {house}",
    "the rest of {house} can't be {either}",
    "the {ds} {goes} from all the other cells in {house}",
    "everything else in {house} loses the {ds}",
    "i can take the {ds} out of the rest of {house}",
)
HINT: Phrases = (
    "{where} can't be {either}",
    "i can take the {ds} out of {where}",
    "the {ds} {goes} from {where}",
    "there are no {many} in {where}",
    "you can cross the {ds} off in {where}",
    "we lose the {ds} from {where}",
)
HINT_HIDDEN: Phrases = (
    "anything else in those {count} cells can go",
    "i can cross everything else out of {both}",
    "those cells don't have room for anything else",
    "{both} lose all their other numbers",
    "no other number can be in there",
    "whatever else was in {both} is gone",
)
FRAMES: Phrases = (
    "{said} ~ so {tail}",
    "{said} so {tail}",
    "{said} which means {tail}",
    "{said} ~ okay so what do we get from that well {tail}",
    "{said} and that tells me {tail}",
    "{said} ~ and because of that {tail}",
    "{said} and therefore {tail}",
    "{said} right and so {tail}",
    "{said} and if that's true then {tail}",
    "{said} ~ you see that yeah and so {tail}",
    "{said} isn't that neat so {tail}",
    "{said} ~ bear with me that means {tail}",
    "{said} now the good part ~ {tail}",
)
EITHER_WAY: Phrases = (
    "{said} ~ so either way {tail}",
    "{said} so whichever it turns out to be {tail}",
    "{said} and in both cases {tail}",
    "{said} ~ it doesn't matter which one because {tail}",
)
ASKED: Phrases = (
    "can {cell} be {a} ~ nope because {said}",
    "could {cell} still be {a} ~ well no it can't because {said}",
    "why isn't {cell} {a} you ask ~ because {said}",
)
TURNED: Phrases = (
    "{tail} because {said}",
    "{tail} and how do i know that ~ well {said}",
    "i say {tail} and here's why ~ {said}",
    "{tail} since {said}",
    "{tail} ~ and the reason is {said}",
)
FACTS: Phrases = (
    "just look at {what} ~ and it follows that {so}",
    "i went through {what} ~ every way i tried it {so}",
    "{so} and you get that from {what}",
    "{so} how do i know ~ well have a look at {what}",
    "if you take just {what} then {so}",
    "okay {what} ~ no matter how you play it {so}",
    "you only need {what} to see that {so}",
)
BARE: Phrases = (
    "{so} don't ask me why",
    "{so}",
    "trust me on this ~ {so}",
    "i've got it written here that {so} and i can't remember how i got it",
    "i'll tell you for nothing {so}",
    "{so} and i'll let you find out why",
)
LEADS: tuple[Phrases, ...] = (
    (*3 * ("",), "um", "okay", "okay so", "um so"),
    (*3 * ("",), "right", "right so", "now", "now then"),
    (*4 * ("",), "so", "and", "you know", "yeah so"),
    (*3 * ("",), "well", "i mean", "oh", "let me think", "hmm"),
)
STARTS: Phrases = (
    "hang on no i was looking at the wrong bit",
    "so the uh no wait",
    "i thought well never mind what i thought",
    "now where was i",
)
FILLERS: tuple[Phrases, ...] = (
    ("um", "uh", "okay"),
    ("right", "now", "let's see"),
    ("you know", "like", "yeah"),
    ("i mean", "well", "hmm"),
)
OPENINGS: Phrases = (
    "hello you're through to the lamp room hotline who's this hi yeah it's me again i've got the puzzle here in front of me so shall i just go through it",
    "and we've got a caller on the line go ahead caller oh hello um long time listener so i did this one on the night watch and i thought i'd tell you how",
    "lamp room hotline good evening evening so i was at the breakfast table with this one and here's how it went",
    "thanks for holding you're live um okay hi everybody so we start with the grid as it was printed",
)
TALK: Phrases = (
    "are you with me so far yeah good",
    "sorry that was the dog",
    "hold on let me turn the page round",
    "i nearly missed that one",
    "my husband's shaking his head at me",
    "i had to rub out half the page here but never mind",
    "ooh that's a nice one isn't it",
    "let me have a sip of water",
    "can you hear me okay it's a bad line",
    "i hope i'm not going too fast",
    "this is the bit i wanted to ring about",
    "and i thought to myself come on you can do this",
    "no no take your time",
    "mm hmm go on caller",
    "that was the foghorn sorry about that",
    "i do these in pen you know i'm that sort of person",
    "so where does that get us",
    "okay what's next",
    "let's go somewhere else on the grid",
    "it's getting easier now",
    "we had rain all night here did you have rain",
    "i'll be honest i stared at this for an hour",
)
CLOSINGS: Phrases = (
    "and that's the lot thanks for having me on okay thank you caller bye bye bye now",
    "so that's how i did it was that all right it was lovely thanks for ringing in",
    "and that's the end of the puzzle and the end of my tea so good night everyone",
    "there we are all done i'll ring again next week bye",
)

SOUNDS: dict[int, Phrases] = {1: ("won",), 2: ("to", "too"), 4: ("for",), 8: ("ate",), 9: ("mine",)}
MISHEARD: dict[str, tuple[float, Phrases]] = {
    "x-wing": (1, ("x wing", "x-wing", "ex wing", "axe wing")),
    "xy-wing": (1, ("xy wing", "x y wing", "x y wing", "xy-wing")),
    "xy-chain": (1, ("xy chain", "x y chain", "x y change", "xy-chain")),
    "x-chain": (1, ("x chain", "ex chain", "x change", "x-chain")),
    "swordfish": (0.4, ("sword fish", "sword fish", "sort fish")),
    "jellyfish": (0.4, ("jelly fish",)),
    "finned": (0.3, ("find", "thinned", "fin")),
    "naked": (0.06, ("make it", "nakid")),
    "hidden": (0.05, ("hid in", "hiding")),
    "claiming": (0.1, ("climbing", "claim in")),
    "pivot": (0.1, ("pivots", "pivet")),
    "pair": (0.2, ("pear",)),
    "triple": (0.05, ("tripple",)),
    "quad": (0.2, ("quod", "court")),
    "cell": (0.12, ("sell",)),
    "cells": (0.12, ("sells",)),
    "row": (0.04, ("roe", "roll")),
    "rows": (0.15, ("rose", "roes")),
    "columns": (0.02, ("column's",)),
    "box": (0.02, ("bucks",)),
    "fourth": (0.15, ("forth",)),
    "whole": (0.3, ("hole",)),
    "there's": (0.05, ("theirs",)),
    "their": (0.2, ("there", "they're")),
    "its": (0.25, ("it's",)),
    "they're": (0.1, ("there", "their")),
    "see": (0.02, ("sea",)),
    "no": (0.02, ("know",)),
    "so": (0.01, ("sew",)),
}
"""How often the recogniser writes something else, and what."""

BOXES: tuple[Phrases, ...] = (
    (
        *("top left", "top middle", "top right"),
        *("middle left", "middle", "middle right"),
        *("bottom left", "bottom middle", "bottom right"),
    ),
    (
        *("upper left", "upper center", "upper right"),
        *("center left", "center", "center right"),
        *("lower left", "lower center", "lower right"),
    ),
)
SPOKEN = re.compile(r"([rc]?)#(\d+)(s|th|)")
ORDINAL_ENDS = {1: "st", 2: "nd", 3: "rd"}


def written(text: str, figures: float, fillers: Phrases, rng: Random) -> str:
    """The spoken text as it is taken down. ``figures``: how often a number is one. Each word takes the same throws."""
    words = text.split()
    out: list[str] = []
    for word, after in zip(words, [*words[1:], ""], strict=True):
        throw, which = rng.random(), rng.random()
        halves = [(match[1], match[2], match[3]) for match in SPOKEN.finditer(word)]
        if halves:
            numbers = [_number(letter, digits, end, throw < figures, throw, which) for letter, digits, end in halves]
            out.append((" " if throw >= figures or which < 0.3 else "").join(numbers))
        elif word == "~":
            out += [fillers[int(which * len(fillers))]] if throw < 0.25 else []
        elif word == "a" and after.startswith(("#8", "x-", "xy-")):
            out.append("an")
        else:
            share, options = MISHEARD.get(word, (0, ("",)))
            out.append(options[int(which * len(options))] if throw < share else word)
    return " ".join(" ".join(out).split())


def _number(letter: str, digits: str, end: str, figure: bool, throw: float, which: float) -> str:
    """A number, a run of them (``#126``), an ordinal, or half a cell's name (``r#4``)."""
    if figure:
        tail = ORDINAL_ENDS.get(int(digits), "th") if end == "th" else end
        return f"{letter}{' ' if letter and which < 0.12 else ''}{(' ' if which < 0.5 else '').join(digits)}{tail}"
    spelt = []
    for digit in map(int, digits):
        sounds = SOUNDS.get(digit, ())
        if end == "th":
            spelt.append("forth" if digit == 4 and throw > 0.9 else ORDINALS[digit])
        elif end == "s":
            spelt.append(PLURALS[digit])
        else:
            spelt.append(sounds[int(which * len(sounds))] if sounds and throw > 0.95 else NUMBERS[digit])
    heard = {"r": "are", "c": "see"}.get(letter, "") if throw > 0.93 else letter
    return " ".join([heard, *spelt] if letter else spelt)


def strung(words: Sequence[str], last: str = "and") -> str:
    """A list without its commas."""
    return listed(words, last).replace(",", "")


def marks(numbers: Sequence[int], end: str = "", last: str = "and") -> str:
    """``#1 #2 and #6``, each with the same ending."""
    return strung([f"#{number}{end}" for number in numbers], last)


class Hotline(Narrator):
    """A caller talks a puzzle through on the telephone; every narration is another caller with another way of naming cells."""

    name = "hotline"
    leaves: ClassVar = {
        "single house": 0.08,
        "its": 0.2,
        "naked house": 0.4,
        "hidden house": 0.0,
        "cover": 0.12,
        "crossing": 0.12,
        "name": 0.4,
        "effects": 0.55,
        "back": 0.4,
        "corners": 0.3,
        "recap": 0.05,
    }

    def tell(self, matter: Matter) -> str:
        kind = matter.manner // 6 % 10
        figures, temper = (0.0, 0.15, 0.5, 0.9, 1.0)[kind % 5], kind % 4
        lead, start, starts = matter.pick(*LEADS[temper]), matter.pick(*STARTS), matter.often(0.02)
        said = super().tell(matter)
        return written(f"{start if starts else lead} {said}", figures, FILLERS[temper], Random(matter.rng.random()))

    # Naming.

    def cell(self, m: Matter, cell: int, rng: Random | None = None) -> str:
        rng = rng or m.rng
        row, column = cell // 9 + 1, cell % 9 + 1
        throw, off = rng.random(), rng.randrange(1, 9)
        way = m.manner % 6
        if way == 0:
            if throw < 0.006:
                return f"row #{(row + off - 1) % 9 + 1} no sorry row #{row} column #{column}"
            if throw < 0.012:
                return f"row #{row} column #{(column + off - 1) % 9 + 1} i mean column #{column}"
            return f"row #{row} column #{column}"
        if way == 1:
            if throw < 0.01:
                return f"column #{(column + off - 1) % 9 + 1} no column #{column} row #{row}"
            return f"column #{column} row #{row}"
        if way == 2:
            if throw < 0.01:
                return f"the #{(row + off - 1) % 9 + 1}th no the #{row}th row #{column}th column"
            return f"the #{row}th row #{column}th column"
        if way == 3:
            return f"r#{row}c#{column}"
        if way == 4:
            return (
                f"the cell in row #{row} and column #{column}"
                if throw < 0.7
                else f"the cell at row #{row} and column #{column}"
            )
        return f"the #{column}th cell in row #{row}" if throw < 0.6 else f"the #{column}th cell of row #{row}"

    def cells(self, m: Matter, cells: Sequence[int]) -> str:
        """Those of one line together, or one by one. One throw of the telling's, however many cells there are."""
        rng = Random(m.rng.random())
        way, apart = m.manner % 6, rng.random() < (0.8 if m.manner % 6 in (3, 4) else 0.3)
        brief = rng.random() < 0.5  # for all of them: a change in mid-list can be heard two ways
        if apart and len(cells) < 5:
            return strung([self.cell(m, cell, rng) for cell in cells])
        by_row: dict[int, list[int]] = {}
        by_column: dict[int, list[int]] = {}
        for cell in cells:
            by_row.setdefault(cell // 9 + 1, []).append(cell % 9 + 1)
            by_column.setdefault(cell % 9 + 1, []).append(cell // 9 + 1)
        if way != 5 and len(by_column) < len(by_row):
            return strung([self.group(m, "column", line, held, brief, rng) for line, held in by_column.items()])
        return strung([self.group(m, "row", line, held, brief, rng) for line, held in by_row.items()])

    def group(self, m: Matter, kind: str, line: int, held: Sequence[int], brief: bool, rng: Random) -> str:
        """Cells of one row or column."""
        way, other = m.manner % 6, "column" if kind == "row" else "row"
        if len(held) == 1:
            row, column = (line, held[0]) if kind == "row" else (held[0], line)
            return self.cell(m, (row - 1) * 9 + column - 1, rng)
        if way == 2:
            return f"the #{line}th {kind} {marks(held, 'th')} {other}s"
        if way == 3:
            if kind == "row":
                return f"r#{line} {strung([f'c#{number}' for number in held])}"
            return f"{strung([f'r#{number}' for number in held])} in c#{line}"
        if way == 4:
            return f"the cells in {kind} #{line} and {other}s {marks(held)}"
        if way == 5:
            return f"the {marks(held, 'th')} cells {'in' if brief else 'of'} row #{line}"
        if (way == 1) == (kind == "row") or brief:
            return f"{other}s {marks(held)} in {kind} #{line}"
        return f"{kind} #{line} {other}s {marks(held)}"

    def house(self, m: Matter, house: House) -> str:
        style = m.manner // 6 % 3
        if house.kind == "b" and style:
            return f"the {BOXES[style - 1][house.number - 1]} box"
        if m.manner % 6 == 2:
            return f"the #{house.number}th {KINDS[house.kind]}"
        return f"{KINDS[house.kind]} #{house.number}"

    def houses(self, m: Matter, houses: Sequence[House]) -> str:
        kind, numbers, apart = KINDS[houses[0].kind], [house.number for house in houses], m.often(0.3)
        if m.manner % 6 == 2:
            return f"the {marks(numbers, 'th')} {kind}s"
        if apart and len(numbers) == 2:
            return strung([f"{kind} #{number}" for number in numbers])
        return f"{kind}s {marks(numbers)}"

    def where(self, m: Matter) -> str:
        same, kind = m.pick("that same", "the same", "this same"), KINDS[m.house.kind]
        house = self.house(m, m.house)
        return f"{same} {kind}" if m.plan.back else house

    def fields(self, m: Matter, digits: Sequence[int]) -> dict[str, str]:
        """The digits in the forms that phrases want, and verbs that go with them."""
        several = len(digits) > 1
        run = "#" + "".join(map(str, digits))
        the_each = strung([f"the #{digit}" if at else f"#{digit}" for at, digit in enumerate(digits)])
        return {
            "ds": m.pick(marks(digits), the_each, run if several else marks(digits)),
            "nums": m.pick(marks(digits), run if several else marks(digits)),
            "either": m.pick(marks(digits, last="or"), strung([f"a #{digit}" for digit in digits], "or")),
            "many": marks(digits, "s", "or"),
            "goes": "go" if several else "goes",
        }

    def digit(self, digit: int) -> dict[str, str]:
        return {"d": f"#{digit}", "a": f"a #{digit}", "ns": f"#{digit}s"}

    # Steps.

    def single(self, m: Matter, phrases: Phrases, house: str = "") -> str:
        put = m.put
        assert put is not None
        kind = KINDS[m.houses[0].kind] if m.houses else ""
        return m.pick(*phrases).format(cell=self.cell(m, put.cell), kind=kind, house=house, **self.digit(put.digit))

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
        line, kind, named = self.house(m, m.crossing), KINDS[m.crossing.kind], m.says("name") and m.often(0.6)
        phrases = (POINTING if m.name == "pointing" else CLAIMING) if named else LOCKED
        said = m.pick(*(phrases if m.says("crossing") else UNCROSSED))
        said = said.format(house=self.where(m), line=line, kind=kind, **self.digit(m.digits[0]))
        that = line if m.says("crossing") else f"that {kind}"
        return self.so(m, said, (f"the rest of {that}", f"the rest of that {kind}", f"all the other cells in {that}"))

    def several(self, m: Matter) -> dict[str, str]:
        """What naked and hidden patterns have in common."""
        size = m.name.split()[1]
        count, two = NUMBERS[len(m.cells)], len(m.cells) == 2
        return {
            **self.fields(m, m.digits),
            "cells": self.cells_in_house(m),
            "place": f" in {self.where(m)}" if m.says("house") else "",
            "size": size,
            "count": count,
            "all": "both" if two else f"all {count}",
            "both": "both of them" if two else f"all {count} of them",
        }

    def cells_in_house(self, m: Matter) -> str:
        """The pattern's cells; by half their names where the other half is the row or column that is said anyway."""
        whole, brief, (kind, number), way = self.cells(m, m.cells), m.often(0.9), m.house, m.manner % 6
        lines = [(cell // 9 + 1, cell % 9 + 1) for cell in m.cells]
        own, other = (0, 1) if kind == "r" else (1, 0)
        if kind == "b" or not brief or not m.says("house") or way == 3 or any(line[own] != number for line in lines):
            return whole
        numbers = [line[other] for line in lines]
        if way == 5 and kind == "r":
            return f"the {marks(numbers, 'th')} cells"
        across = "columns" if kind == "r" else "rows"
        return f"the {marks(numbers, 'th')} {across}" if way == 2 else f"{across} {marks(numbers)}"

    def naked(self, m: Matter) -> str:
        fields = self.several(m)
        first, second = self.cell(m, m.cells[0]), self.cell(m, m.cells[1])
        one, other = m.digits[0], m.digits[1]
        fields |= {"a1": f"a #{one}", "a2": f"a #{other}", "d1": f"#{one}", "first": first, "second": second}
        unnamed = NAKED + NAKED_TWO if len(m.cells) == len(m.digits) == 2 else NAKED
        said = m.pick(*(NAKED_NAMED if m.says("name") else unnamed)).format(**fields)
        kinds = " and the ".join(KINDS[kind] for kind in m.plan.kinds)
        others = (f"the rest of that {kinds}", f"all the other cells in that {kinds}", f"anything that sees {fields['both']}")
        return self.so(m, said, others if kinds else others[2:])

    def hidden(self, m: Matter) -> str:
        fields = self.several(m)
        said = m.pick(*(HIDDEN_NAMED if m.says("name") else HIDDEN)).format(**fields)
        if m.plan.natural:
            return self.framed(m, said, m.pick(*HINT_HIDDEN).format(**fields))
        return self.so(m, said, ())

    def fish(self, m: Matter) -> str:
        cover, lines = self.houses(m, m.cover), f"{KINDS[m.houses[0].kind]}s"
        corners = self.cells(m, self.crossings(m)) if m.plan.corners else ""
        named = FISH_NAMED if m.says("cover") else FISH_UNCOVERED
        phrases = CORNERS if m.plan.corners else named if m.says("name") else FISH
        base = self.houses(m, m.houses)
        said = m.pick(*phrases).format(
            base=base, cover=cover, name=m.name, lines=lines, cells=corners, **self.digit(m.digits[0])
        )
        those = f"those {KINDS[m.cover[0].kind]}s"
        told = m.says("cover") and not m.plan.corners
        return self.so(
            m, said, (f"the rest of {cover if told else those}", f"the rest of {those}", f"the other cells in {those}")
        )

    def crossings(self, m: Matter) -> list[int]:
        """Where the lines of a fish cross."""
        rows, columns = (m.houses, m.cover) if m.houses[0].kind == "r" else (m.cover, m.houses)
        return [(row.number - 1) * 9 + column.number - 1 for row in rows for column in columns]

    def finned(self, m: Matter) -> str:
        one = len(m.fins) == 1
        base, cover = self.houses(m, m.houses), self.houses(m, m.cover)
        said = m.pick(*FINNED).format(
            base=base,
            cover=cover,
            plain=m.name.removeprefix("finned "),
            fins=self.cells(m, m.fins),
            fins_it="that" if one else "those",
            fin="fin" if one else "fins",
            **{"is": "is" if one else "are"},
            **self.digit(m.digits[0]),
        )
        if not one:
            said = said.replace("with that as the fins", "with those as the fins")
        those, sees = f"those {KINDS[m.cover[0].kind]}s", "the fin" if one else "all the fins"
        return self.so(
            m, said, (f"anything else in {those} that sees {sees}", f"the other cells in {those} that can see {sees} as well")
        )

    def wing(self, m: Matter) -> str:
        assert m.pivot is not None
        one, other, both = m.plan.shared
        first, second = (self.cell(m, cell) for cell in m.cells)
        said = m.pick(*(WING_NAMED if m.says("name") else WING)).format(
            pivot=self.cell(m, m.pivot),
            first=first,
            second=second,
            one=f"a #{one}",
            other=f"a #{other}",
            both=f"a #{both}" if not m.says("name") else f"#{both}",
            a=f"a #{both}",
        )
        return self.so(m, said, ("anything that sees both of those", "any cell that sees both wings"), both)

    def xy_chain(self, m: Matter) -> str:
        end, names = f"a #{m.digits[0]}", [self.cell(m, cell) for cell in m.cells]
        first, last = names[0], names[-1]
        onto = [f"a #{digit}" for digit in m.digits[1:]]
        lead = m.pick("there's an xy-chain here", "xy-chain", "this is one of those xy-chain things", "i've got an xy-chain")
        glue = m.pick("so", "then", "and then", "so that makes")
        is_ = "" if glue.endswith("makes") else "is "
        steps = " ".join(f"{glue} {name} {is_}{to}" for name, to in zip(names[1:], onto[1:], strict=True))
        cause = " ".join(f"and because of that {name} is {to}" for name, to in zip(names[1:], onto[1:], strict=True))
        talk = " ".join(
            f"okay and then what's {name} ~ that's got to be {to}" for name, to in zip(names[1:], onto[1:], strict=True)
        )
        pairs = " then ".join(
            f"{name} which is #{had} or #{to}" for name, had, to in zip(names, m.digits, m.digits[1:], strict=False)
        )
        either = m.pick(
            f"so {end} is in {first} or in {last}", f"so one of the two ends is {end}", f"so {first} or {last} is {end}"
        )
        said = m.pick(
            f"if {first} isn't {end} it's {onto[0]} {steps} {either}",
            f"what if {first} is not {end} ~ well it has to be {onto[0]} {steps} {either}",
            f"say it's not {end} in {first} then that's {onto[0]} {cause} {either}",
            f"two cases ~ either {first} is {end} and that's fine by me or else it's {onto[0]} {steps} and that's fine too",
            f"i go from {pairs} ~ and they hang together {either}",
            f"i took {end} out of {first} ~ that makes it {onto[0]} {talk} {either}",
        )
        head = lead if m.says("name") else ""
        return self.so(m, f"!{head} ~ {said}", ("anything that sees both ends", "any cell that sees both ends"), m.digits[0])

    def x_chain(self, m: Matter) -> str:
        names, digit = [self.cell(m, cell) for cell in m.cells], m.digits[0]
        first, last, a = names[0], names[-1], f"a #{digit}"
        path = " to ".join(names)
        either = m.pick(f"so {first} or {last} is {a}", f"so one end or the other is {a}", "so it's in one end or the other")
        named = m.pick(
            f"there's an x-chain on the #{digit}s from {path}",
            f"x-chain with #{digit}s ~ go {path}",
            f"an x-chain on #{digit} ~ start at {first} then go to {' and then '.join(names[1:])} {either}",
            f"if you join up the #{digit}s {path} it's an x-chain {either}",
            f"{path} ~ that's an x-chain for the #{digit}",
            f"i've got the #{digit}s in a sort of x-chain it goes {' then '.join(names)} {either}",
        )
        plain = self.in_pairs(m, names, digit)
        said = named if m.says("name") else f"{plain} {either}"
        return self.so(m, f"!{said}", ("anything that sees both ends", "any cell that sees both of those ends"), digit)

    def in_pairs(self, m: Matter, names: Sequence[str], digit: int) -> str:
        """An x-chain told house by house."""
        ways, a, ns = [KINDS[way] for way in m.plan.ways], f"a #{digit}", f"#{digit}s"
        (first, second, way), *others = zip(names[::2], names[1::2], ways, strict=True)
        shape = m.rng.randrange(5)
        if shape == 0:
            rest = " ".join(f"then {one} isn't so {other} is because of that {kind}" for one, other, kind in others)
            return f"suppose {first} isn't {a} then {second} has to be {a} for their {way} {rest}"
        if shape == 1:
            rest = " ".join(
                f"and that rules out {one} so the {a[2:]} in its {kind} goes to {other}" for one, other, kind in others
            )
            return f"where's the #{digit} in the {way} of {first} ~ if it isn't there it's {second} {rest}"
        if shape == 2:
            rest = " ".join(f"and so are {one} and {other} for the {kind} they're in" for one, other, kind in others)
            return f"{first} and {second} are the only two {ns} in their {way} {rest} and one of these sees one of those"
        if shape == 3:
            rest = " ".join(
                f"that means not {one} so that means {other} it's all that's left in that {kind}" for one, other, kind in others
            )
            return f"no {a[2:]} in {first} means it's in {second} those two are all their {way} has {rest}"
        rest = " ".join(f"okay and {one} can't be one now which leaves {other} in that {kind}" for one, other, kind in others)
        return f"let's take the #{digit} out of {first} ~ then its {way} needs it in {second} {rest}"

    def chain(self, m: Matter) -> str:
        (first, supposed, digit), *others = m.links
        start, a = self.cell(m, first), f"a #{digit}"
        last, holds, end = m.links[-1]
        path = self.path(m, others, first)
        sup, is_ = ("isn't", "is not") if not supposed else ("is", "is")
        if last == first and end == digit and holds != supposed:
            can = "can't be" if supposed else "has to be"
            if m.plan.natural:
                was = "was" if supposed else "wasn't"
                return m.pick(
                    f"what happens if {start} {sup} {a} ~ {path} but hang on that's not what we said so it {can} {a}",
                    f"{start} {can} {a} because if it {was} {path} and that makes no sense",
                    f"suppose {start} {is_} {a} {path} ~ which is a contradiction so {start} {can} {a}",
                    f"let's try it {start} {sup} {a} {path} no that doesn't work so that cell {can} {a}",
                    f"i say {start} {can} {a} and you say why ~ well if it {was} {path} and there's the clash",
                    f"if {start} {sup} {a} {path} and we're back where we came from only the other way so {start} {can} {a}",
                )
            opener = m.pick("say", "if", "suppose", "what if")
            return self.so(m, f"!{opener} {start} {sup} {a} {path} ~ and that's a contradiction", ())
        opener = m.pick("if", "suppose", "let's say", "say for a moment", "what if", "take it that")
        said = f"!{opener} {start} {m.pick(sup, is_)} {a} {path}"
        either = f" so either it's {start} or it's that last one" if holds and not supposed and end == digit else ""
        said += either if m.often(0.3) else ""
        return self.so(m, said, ("anything that sees both ends", "any cell that can see both ends"), digit)

    def path(self, m: Matter, links: Sequence[tuple[int, bool, int]], before: int) -> str:
        """The links that follow from the supposition."""
        glue = m.pick("then", "so", "mixed", "mixed")
        out = []
        for at, (cell, holds, digit) in enumerate(links):
            name, it = self.cell(m, cell), m.pick("it", "that one", "that same cell")
            said = m.pick("is", "has to be", "must be") if holds else m.pick("isn't", "can't be", "is not")
            mixed = m.pick("then", "so", "which means", "and then", "and so")
            joint = "then" if not at else mixed if glue == "mixed" else glue
            out.append(f"{joint} {it if cell == before else name} {said} a #{digit}")
            before = cell
        return " ".join(out)

    def facts(self, m: Matter) -> str:
        where = m.pick("where the {d} goes in {house}", "the {d} in {house}", "the places for {d} in {house}")
        said = [
            self.cell(m, what) if isinstance(what, int) else where.format(d=f"#{what[0]}", house=self.house(m, what[1]))
            for what in m.cited
        ]
        return m.pick(*FACTS).format(what=strung(said), so=self.effects(m))

    def bare(self, m: Matter) -> str:
        return m.pick(*BARE).format(so=self.effects(m))

    # Effects.

    def so(self, m: Matter, said: str, wheres: Sequence[str], digit: int | None = None) -> str:
        """The pattern and its effects, whichever comes first."""
        ahead = m.often(0.22) and not said.startswith("!") and len(m.effects) < 3 and not m.plan.natural
        if m.plan.natural:
            fields = self.fields(m, [digit] if digit else m.digits or [m.links[0][2]])
            return self.framed(m, said, m.pick(*HINT).format(where=m.pick(*wheres), **fields))
        asked, one_by_one = m.often(0.35), m.often(0.6)
        question = m.pick(*ASKED)
        effect = m.effects[0]
        if (
            ahead
            and asked
            and len(m.effects) == 1
            and isinstance(effect, Strike)
            and len(effect.cells) == len(effect.digits) == 1
        ):
            cell, a = self.cell(m, effect.cells[0]), f"a #{effect.digits[0]}"
            return question.format(cell=cell, a=a, said=said)
        in_turn = self.in_turn(m) if one_by_one and not ahead else ""
        return self.framed(m, said, in_turn or self.effects(m, it=not ahead), ahead)

    def in_turn(self, m: Matter) -> str:
        """What the two cells of a hidden pair lose, the first and the second; nothing where anything else is told."""
        told = [effect for effect in m.effects if isinstance(effect, Strike) and len(effect.cells) == 1]
        if not m.name.startswith("hidden") or len(m.cells) != 2 or len(told) < len(m.effects):
            return ""
        if any(effect.cells[0] not in m.cells for effect in told):
            return ""
        which = {
            m.cells[0]: m.pick("the first one", "the first of those"),
            m.cells[1]: m.pick("the second one", "the second of those"),
        }
        out = [
            f"{which[effect.cells[0]]} {m.pick('can not be', 'is not')} {self.fields(m, effect.digits)['either']}"
            for effect in told
        ]
        return " and ".join(out).replace("can not", "can't").replace("is not", "isn't")

    def framed(self, m: Matter, said: str, tail: str, ahead: bool = False) -> str:
        two_ways = m.name in ("xy-wing", "xy-chain") and not m.says("name")
        frames = FRAMES if m.name != "chain" else tuple(frame for frame in FRAMES if "if that's true" not in frame)
        later, first = m.pick(*frames, *(2 * EITHER_WAY if two_ways else ())), m.pick(*TURNED)
        return (first if ahead else later).format(said=said.removeprefix("!").strip(), tail=tail)

    def effects(self, m: Matter, it: bool = False) -> str:
        joints, one_breath = m.pick("and", "and also", "mixed", "mixed"), m.often(0.4)
        listing = m.pick("i'm getting rid of", "we can take out", "i can lose", "that gets rid of")
        out = []
        for at, effect in enumerate(m.effects):
            mixed = m.pick("and", "and also", "oh and", "and then", "and on top of that")
            joint = "" if not at else mixed if joints == "mixed" else joints
            told = self.effect(m, effect, it and not at)
            if joint == "and" and not told.startswith(("i ", "i'm ", "we ", "you ", "there ")):
                joint = "and then"  # a bare "and" before a cell would sound like one cell more
            out.append(f"{joint} {told}")
        strikes = [effect for effect in m.effects if isinstance(effect, Strike)]
        if one_breath and 1 < len(strikes) == len(m.effects):
            lists = [f"the {self.fields(m, strike.digits)['ds']} in {self.cells(m, strike.cells)}" for strike in strikes]
            return f"{listing} {' and '.join(lists)}"
        return " ".join(out).strip()

    def effect(self, m: Matter, effect: Put | Strike | Clear, it: bool) -> str:
        own, alone = m.often(0.5), m.often(0.4)
        if isinstance(effect, Put):
            return m.pick(*PUT).format(cell=self.cell(m, effect.cell), **self.digit(effect.digit))
        fields = self.fields(m, effect.digits)
        if isinstance(effect, Clear):
            return m.pick(*CLEAR).format(house=self.house(m, effect.house), **fields)
        cells, several = self.cells(m, effect.cells), len(effect.cells) > 1
        if own and several and it and m.name.startswith("hidden") and {*effect.cells} == {*m.cells}:
            cells = m.pick(f"those {NUMBERS[len(m.cells)]}", "those cells", "those same cells")
            alone = False
        fields |= {"loses": "lose" if several else "loses", "isnt": "aren't" if several else "isn't"}
        fields["any"] = fields["many"] if several else fields["either"]
        lone_digit = len(m.digits) == 1 and m.name != "facts" and effect.digits == (*m.digits,)
        if alone and it and lone_digit:
            return m.pick(*STRIKE_IT).format(cells=cells)
        if alone and len(effect.cells) == 2:
            first, second = (self.cell(m, cell) for cell in effect.cells)
            return m.pick(*STRIKE_ALL).format(first=first, second=second, each=f"{first} and {second}", **fields)
        return m.pick(*STRIKE).format(cells=cells, **fields)

    # Around the steps.

    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        yield Piece(rng.choice(OPENINGS))

    def between(self, rng: Random) -> Iterator[Piece]:
        if rng.random() < 0.16:
            yield Piece(rng.choice(TALK))

    def recap(self, m: Matter) -> str:
        """The cell is not named again: a recap does not know whose manner it is told in."""
        assert m.put is not None
        a = f"a #{m.put.digit}"
        said = m.pick(f"yep that's {a} in there", f"so {a} in that one", f"there {a} got it", f"so that cell's {a} now")
        return written(said, 0.3, FILLERS[0], Random(m.rng.random()))

    def closing(self, rng: Random) -> Iterator[Piece]:
        yield Piece(rng.choice(CLOSINGS))

    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        vtt = rng.random() < 0.5
        cut = Captioned(vtt, rng.choice((30, 36, 42)), rng.choice((1, 2)), 0, rng.uniform(2.3, 3.2))
        return "vtt" if vtt else "srt", captions(pieces, cut, rng)
