"""Where sentences begin in speech that was written down without full stops.

A sentence begins with a word that people begin with (``okay``, ``moving on``), or where a subject and its verb follow what is
a whole claim already: ``... is a four | row six column four is ...``. Every word is written as one letter by the part that it
plays, and the beginnings are patterns over these letters.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

KIND_LETTERS = {
    "ROW": "R", "ROWS": "r", "COL": "C", "COLS": "c", "BOX": "B", "BOXES": "b", "NUM": "N", "PLU": "P", "ORD": "O", "RC": "X",
    "PAIR": "X", "RX": "x", "CX": "x", "BX": "x", "CELLW": "L", "V": "V", "H": "V", "M": "V", "OF": "i", "ON": "i", "AND": "&",
    "COMMA": "&", "THE": "T", "LAST": "A", "SAME": "A", "WHERE": "q", "CROSS": "v",
}  # fmt: skip


def _letters(**words: str) -> Mapping[str, str]:
    return {word: letter for letter, listed in words.items() for word in listed.split()}


WORD_LETTERS = _letters(
    v="""is was has had can cannot could must may might will would should does did am goes gets takes loses needs
    wants comes fits
    sits lives lands holds becomes turns makes gives leaves contains sees belongs appears points claims forms shares
    uses works
    drops stays falls ends keeps lies lacks stands shows remains finds rules eliminates removes kills forces knocks
    says means
    tells requires solves completes finishes closes slots receives allows got lost gained wins offers hides looks
    runs leads starts begins""",
    w="""are were have do go get take lose need want come fit sit live land hold become turn make give leave contain
    see belong
    appear point claim form share use work drop stay fall end keep lie lack stand show remain hide line lock add look
    run""",
    p="i we you they it he she",
    d="this that these those",
    D="its their every each no any another our my your his her some",
    A="""other possible missing remaining single sole very whole entire empty open hidden naked final unique lone pointing
    finned only
    leftover spare blank free first second third""",
    j="just",
    n="""them nothing everything anything something nobody nowhere none rest number numbers digit digits candidate
    candidates place
    places spot spots gap gaps hole holes position positions pair pairs triple triples quad quads wing wings pivot
    fin fins chain
    swordfish jellyfish base cover corner corners value values line lines house houses option options thing things one ones
    room home neighbour neighbours contents""",
    a="still now also already then really never always all each not simply definitely ever actually obviously therefore both",
    e="else left more anymore too back again",
    t="there here",
    o="of",
    f="for with from by into to except bar along through outside between among without under over against than per like",
    q="what which how why who",
    k="because so when but while whereas although though since until unless as or whether whose cause either neither",
    s="if",
)
"""``v``: verbs after one thing; ``w``: after several; ``p``, ``d``: pronouns; ``D``, ``A``, ``n``: what a noun
phrase is made of;
``f``, ``i``, ``o``: prepositions; ``k``: conjunctions. Every other word is ``u``."""

NUMBERS = "N(?:&?N)*"
DIGITS = f"(?:{NUMBERS}|P(?:&?P)*)"
CELL = (
    f"(?:T?O(?:&?T?O)*L[io](?:[RCB]N|T?V+B)|(?:T?A*Li?)?(?:RN[io]?T?CN|RNc{NUMBERS}|r{NUMBERS}[io]?T?CN|r{NUMBERS}c{NUMBERS}|CN[io]?T?RN|CNr{NUMBERS}"
    f"|c{NUMBERS}[io]?T?RN|x[io]?[CR]N|[CR]Nx|X))"
)
HOUSE = f"(?:[RCB]N|[rcb]{NUMBERS}|x|[Td]?V+[BL]|[Td]?O[RCB])"
NOUN = "(?:[TDd]+A*(?:[LnRCB]n?|unn?|u)|[TDd]A*w(?=[io])|n)e?"
ONE = f"(?:{CELL}(?:&?{CELL})*|{HOUSE}|[TDd]?A*n?{DIGITS}e?|{NOUN})"
THINGS = f"j?{ONE}(?:&+{ONE})*"
SUBJECT = re.compile(f"(?:{THINGS}(?:[iof]+(?:{THINGS}|[te]))*e?)[ajA]*(?P<verb>[vw])")
"""What something is said of, and the verb."""
SAYS = re.compile(r"pa*[vwu]|d[ja]*[vw]|ta*[vw]")
"""``we can``, ``that is``, ``there are``."""
ASKS = re.compile(r"q(?:e?[vw]|[LnNp])")
ASKED = re.compile("q(?:[vw]|[Ln].*?[vw])(?:[^d]|dw)")
ASKED_OF = re.compile(f"[vw]T?(?:{NUMBERS}w|Pi[TRCBrcbx])")
"""``can four and six go``, ``are the ones in row three``."""
ANSWERS = frozenset("only just well nowhere".split())
FRONTED = re.compile(f"(?:i|f(?={HOUSE}))(?:{CELL}|{HOUSE}(?:&+{HOUSE})*|[TDd]A*[RCBLrcb])(?:o{HOUSE})?")
"""``in box nine``, before a subject."""
TOPIC = re.compile(f"{THINGS}[iof]?(?:{THINGS})?(?:s?pa*v|q[vw])")
"""``the four it is in ...``."""
WITH = re.compile(f"f{THINGS}[iof]?(?:{THINGS})?[pd]a*v")
"""``with a two in ... that is ...``."""
INSERTED = re.compile("s(?:p[va]+|a)T?Nv")
"""``if it is not a two`` between a cell and what it is then."""
SEVERAL_CELLS = re.compile(f"{CELL}&?{CELL}")
NEXT_CELL = re.compile(CELL)
BOX_NEXT = re.compile("BN(?!i)")
"""``right | box one``, and not ``the right box``."""
POSED = re.compile(f"&?T?N[io]{HOUSE}(?=u?(?:q[vw]|T?A+[Ln]|t|p[vw]|j))")
"""``and the four in box nine | where``: what is asked next, or told of."""
IS_DIGIT = re.compile("v[aj]*T?N$")
THE_LINE = re.compile("iT[RCB]$")
ONE_MORE = re.compile(f"{CELL}&T?N(?:&?N)*$")
"""A digit after a cell and ``and``, whose own cell is still to come."""
TOPIC_ONLY = re.compile(f"T?N[io]{HOUSE}")
TWO_CELLS = re.compile(f"{CELL}{CELL}")
NEXT_POSED = re.compile(f"&?T?N[io]{HOUSE}")
WHOLE_NAMES = tuple(map(re.compile, (CELL, HOUSE, f"[TDd]?A*{DIGITS}")))

GOOD_AT = (
    "a an the is are was be been being look looks looking looked feel feels very pretty so no too as really quite this that "
    "any some how"
)
"""After these, ``good`` belongs to what is told."""
MARKERS: tuple[tuple[tuple[str, ...], frozenset[str]], ...] = tuple(
    (tuple(opening.split()), frozenset(after.split()))
    for opening, after in (
        ("okay", ""),
        ("ok", ""),
        ("oh", ""),
        ("ah", ""),
        ("aha", ""),
        ("alright", ""),
        ("all right", ""),
        ("well", "as very pretty just might quite is fits works so"),
        ("good", GOOD_AT),
        ("great", GOOD_AT),
        ("lovely", GOOD_AT),
        ("nice", GOOD_AT),
        ("let us", "okay oh right alright now so and can ah well uh um next then"),
        ("let me", "okay oh right alright now so and can ah well uh um next then"),
        ("moving on", "and are now so then okay right"),
        ("hang on", ""),
        ("hold on", ""),
        ("sorry", "am so is are"),
        ("anyway", ""),
        ("anyhow", ""),
        ("hi", ""),
        ("hello", ""),
        ("thanks", ""),
        ("yeah", ""),
        ("next", "the up is a our my so this that your very"),
        ("guess what", "and"),
        ("and guess what", ""),
        ("finally", ""),
        ("this time", "and by"),
        ("first of all", ""),
        ("hence", ""),
        ("therefore", "and"),
        ("consequently", "and"),
        ("and consequently", ""),
        ("and therefore", ""),
        ("accordingly", "and"),
        ("and likewise", ""),
        ("and furthermore", ""),
        ("furthermore", "and"),
        ("so", "and okay ok oh right alright now then or do think is um uh ah well like"),
        ("and then", ""),
        ("and so", ""),
        ("and that", ""),
        ("and now", ""),
        ("and because", ""),
        ("and finally", ""),
        ("and on top", ""),
        ("which means", "and"),
        ("that means", "and so"),
        ("meaning", ""),
        ("because", "and just that is"),
        ("either way", "so"),
        ("suppose", "us let"),
        ("imagine", "us let i can to"),
        ("the reason", "and is for that"),
        ("as a result", "and"),
        ("in addition", "and"),
        ("keep in mind", "and to"),
        ("on top of that", "and"),
        ("from that", "and get gets got"),
        ("as far as", "and"),
    )
)
"""Words that open a sentence, and after which words they do not."""
BEFORE_IF = frozenset("happens and so what but see even only as tell know wonder wondering then because that means".split())
PAUSES = frozenset("um uh er erm uhm hmm eh".split())
LEADING = PAUSES | frozenset("okay ok oh ah right now well so and then next alright all good great lovely nice".split())
"""Words that stand before a beginning."""
ORDERS = frozenset(
    "put take look follow count check think remember try focus consider notice note scan fill place write cross remove "
    "eliminate strike delete pop stick pick start".split()
)
GOING = frozenset("looking going moving turning checking counting starting scanning working focusing".split())
BEFORE_GOING = frozenset(
    "am are is was were be been keep kept by i we you just at of when before like from start and that not".split()
)
NEARBY = 20
"""Words before one, among which something may be told in the same way."""
LONGEST = 300
"""Words after which a sentence ends wherever it is: nobody talks so long, and what is read is gone through time and again."""
WHATEVER = frozenset("whatever wherever whichever whenever whoever however".split())
SUPPOSING = frozenset("suppose supposing assume assuming imagine".split())
FOLLOWS = frozenset("so and then which that meaning therefore hence because either consequently thus accordingly".split())
"""With these begins what follows from a supposition."""
KNOWING = frozenset(
    "means mean tells tell us know knows see sees say says said think guess reckon notice shows show find found suppose "
    "meaning sure assume imagine me way hope knew figure bet prove proves implies unless where that".split()
)
"""After these, a clause is what is known."""
WITHOUT_OBJECT = frozenset("go goes fit fits work works do does be land lands got left".split())
GOES_ON = WITHOUT_OBJECT | {"down", "up", "look"}
RELATIVE_AFTER = frozenset("one all everything anything nothing something thing things only".split())
AND_STARTS = frozenset("looking every there here where what how why look another".split())
ELSEWHERE = frozenset("upstairs downstairs".split())
NEIGHBOURS = frozenset("neighbour neighbor partner twin mate".split())
CORNERS = frozenset("corner spot edge square slot gap end hole".split())
"""``in the very corner row one column one``: after these the cell's own name may follow."""
FINISHING = frozenset("finish complete close round end fill wrap".split())
"""After ``and to``: with what ends a house, another step begins."""
NEAR = re.compile(
    r"((just|right|directly|straight|immediately|over) )?(under|underneath|beneath|below|above|beside|next to|across from"
    r"|(to|on) the (left|right) of|left of|right of) (it|that|this|them|there)\b"
)
"""Another cell, by where it is from the last: ``and just under that | row eight column two``."""
FINDING = frozenset("found find got spotted spot noticed notice saw want wanted need needed looked".split())
"""After ``and I``, these tell of something else."""
NOUNS_TOO = frozenset(
    "ends points looks shows uses works runs leads forms claims shares lands drops falls needs wants look end".split()
)
RELATIVE_VERBS = frozenset("can could may might see sees have still both".split())
"""``cells that can ...``, and hardly ``that can ...`` of what was told."""
UNFINISHED = frozenset("TDAOoif&kspqj")
LOOKING_ON = (("let", "me", "see"), ("let", "us", "see"), ("let", "me", "think"), ("let", "us", "think"))
"""Said to oneself: what comes after is told anew."""
SEEN = frozenset("if what where how which who whether why that both all about".split())
"""After ``let us see``, these are what is to be seen."""
ADDING = (("also",), ("in", "addition"), ("on", "top", "of", "that"), ("besides",))
"""After ``and``, before another claim."""
CONCLUDED = frozenset(
    "rub rubbing wipe wiping remove removing eliminate eliminated cross crossing scrub scrubbing strike striking take taking "
    "contradiction either".split()
)
"""Where one of these was said after a supposition, what follows from it has been told."""
MODAL = frozenset("can cannot could must may might will would should did had got lost gained won".split())
"""Verbs after one thing and after several alike."""
PATTERN_NOUNS = frozenset(
    "pair pairs triple triples quad quads wing wings chain chains single singles fish swordfish jellyfish set reason".split()
)
POINTED = frozenset("this that next last other same each which".split())
NOT_SUPPOSED = frozenset("us can could to let would i we you they me not and must".split())
"""After these, ``say`` supposes nothing."""
REASONING = frozenset("because since so if as when while unless cause why".split())


def sentences(said: Sequence[str], kinds: Sequence[str]) -> Iterator[tuple[int, int, bool]]:
    """Where each sentence begins and ends, and whether it asks. ``kinds``: those of ``words.KINDS``, or ``W``."""
    speech = _Speech(said, _lettered(said, kinds))
    for at in range(1, len(said)):
        asked = speech.answers(at)
        if asked or speech.opens(at) or at - speech.begin >= LONGEST:
            yield speech.begin, at, asked
            speech.begin, speech.answering = at, asked
    if said:
        yield speech.begin, len(said), False


def _lettered(said: Sequence[str], kinds: Sequence[str]) -> str:
    """Every word as the letter of its part, by its neighbours where it has several."""
    letters = "".join(
        _letter(word, KIND_LETTERS.get(kind) or WORD_LETTERS.get(word, "u"), said[at - 1] if at else "", said[at + 1 : at + 2])
        for at, (word, kind) in enumerate(zip(said, kinds, strict=True))
    )
    letters = "".join(
        "n" if word in NOUNS_TOO and at and letters[at - 1] in "TDA" and said[at - 1] != "only" else letter
        for at, (word, letter) in enumerate(zip(said, letters, strict=True))
    )
    for pattern, letter in (("T(?=[vw])", "a"), ("(?<=[udp])i(?![TDdRrCcBbXxVNA])", "e")):
        letters = re.sub(pattern, letter, letters)
    return letters


def _letter(word: str, letter: str, before: str, after: Sequence[str]) -> str:
    if word == "of":
        return "o"
    if word == "line" and list(after) == ["up"]:
        return "w"
    return "e" if word == "down" and before == "that" else letter  # write that down


class _Speech:
    """Words without full stops. ``begin``: where the sentence that is being told began."""

    def __init__(self, said: Sequence[str], letters: str) -> None:
        self.said = said
        self.letters = letters
        self.begin = 0
        self.answering = False
        """Does the sentence that is being told answer a question?"""

    def word(self, at: int) -> str:
        return self.said[at] if 0 <= at < len(self.said) else ""

    def _said_before(self, at: int) -> int:
        """The place of the last word that is no sound of thinking."""
        at -= 1
        while at > 0 and self.word(at) in PAUSES:
            at -= 1
        return at

    def letter(self, at: int) -> str:
        return self.letters[at] if 0 <= at < len(self.letters) else " "

    def _names_next_digit(self, at: int) -> bool:
        """``so it's row one column four, um, sixes in that box ...``: digits in the plural, right after a cell."""
        last = self._said_before(at)
        told = {"so", "its", "there", "here"}.intersection(self.said[self.begin : at])
        told = told or set("vw").intersection(self.letters[self.begin : at])
        return self.letter(at) == "P" and bool(told) and self.letters[max(0, last - 3) : last + 1] in ("RNCN", "CNRN")

    def opens(self, at: int) -> bool:
        """Does a sentence begin with that word?"""
        if self._names_next_digit(at) or (at > self.begin + 3 and tuple(self.said[at : at + 3]) == ("and", "you", "know")):
            return True
        if self._inside_name(at) or LEADING.issuperset(self.said[self.begin : at]):
            return False
        if self._marked(at) or self._seen(at):
            return True
        if self.word(at) in FOLLOWS and self._supposing(at):
            return False
        if self._whole(at):
            return self._pauses(at) or self._begins(at) or self._joins(at) or self._posed(at)
        if self.word(at) in PAUSES and self.letter(at - 1) not in UNFINISHED and at > self.begin + 2:
            return self._fronted(at + 1, paused=True) or (self._topic_only(at) and self._about(at + 1, topic=False))
        asks = ASKS.match(self.letters, at) is not None
        return self._talked(at) and (asks or self._alone_only(at) or self._about(at) or self._fronted(at, paused=True))

    def answers(self, at: int) -> bool:
        """Is the sentence so far a question, and that word the first of the answer: ``where can the three go | only ...``?"""
        if self.word(at) not in ANSWERS or not re.search("[vw]", self.letters[self.begin : at]):
            return False
        begin = self.begin
        while self.word(begin) in LEADING:
            begin += 1
        place = FRONTED.match(self.letters, begin)
        begin = place.end() if place is not None else begin
        return ASKED.match(self.letters, begin) is not None and self.word(begin + 1) != "about" and at > begin + 2

    # Words that people begin with

    def _marked(self, at: int) -> bool:
        word, before = self.word(at), self.word(at - 1)
        if (word in FOLLOWS or (word == "well" and self.word(at + 1) in FOLLOWS)) and self._supposing(at):
            return False
        if word == "if":
            if INSERTED.match(self.letters, at):
                return False
            said = self.letters[self.begin : at]
            return before not in BEFORE_IF and (self._whole(at) or not re.search("[NPXx]", said))
        if word == "now" and before in ("be", "it", "that"):
            return self._whole(at) and (self._says(at + 1) or self._about(at + 1) or self._fronted(at + 1))
        subject = self.letter(at - 1) in "NXxLn" and not re.search("[vw]", self.letters[self.begin : at])
        if word == "now" and subject and self.letter(at + 1) in "vw":
            return False  # "column six now has its seven"
        if word == "now":
            return before not in ("is", "are", "can", "so", "and", "right", "us", "because") and (
                self.letter(at + 1) not in "fks&" or self.word(at + 1) in ("if", "for")
            )
        if word == "say" and self.letter(at + 1) in "TRCxXO":
            return before not in NOT_SUPPOSED and self._whole(at)
        if word == "right":
            return (
                self.letter(at - 1) not in "VTif"
                and before != "is"
                and (self.letter(at + 1) not in "BLn" or BOX_NEXT.match(self.letters, at + 1) is not None)
                and self.word(at + 1) != "of"
            )
        if word == "so" and (self.word(at + 1) in ("much", "many", "far", "long") or self._in_order_that(at)):
            return False
        if word in ("oh", "ah") and self.word(at + 1) == "and":
            return False
        if word == "and" and before in ("oh", "ah"):
            return True
        following = tuple(self.said[at : at + 4])
        if word == "so" and before in ("now", "right", "well") and at - 1 > self.begin:
            return True
        if word == "so" and before == "think":
            return self._says(at + 1) or self._about(at + 1)  # "i think so" says nothing more
        return any(following[: len(opening)] == opening and before not in after for opening, after in MARKERS)

    def _in_order_that(self, at: int) -> bool:
        """Is it ``so that row 4 has one``, and not ``so | that is a four``, ``so | that eight tells``?"""
        pointed = self.letter(at + 2) in "vN" and self.word(at + 2) not in RELATIVE_VERBS
        return self.word(at + 1) == "that" and not pointed

    def _seen(self, at: int) -> bool:
        """Does the word stand right after ``let us see``?"""
        on = self.said[max(0, at - 3) : at]
        return tuple(on) in LOOKING_ON and self.word(at) not in (SEEN if on[-1] == "see" else ("about", "of"))

    def _pauses(self, at: int) -> bool:
        """A sound of thinking, and then a beginning."""
        if self.word(at) not in PAUSES:
            return False
        after = at
        while self.word(after) in PAUSES:
            after += 1
        return self._alone_only(after) or self._begins(after, paused=True) or self._marked(after)

    def _alone_only(self, at: int) -> bool:
        """``only one missing in``, ``just from``."""
        return self.word(at) in ("only", "just") and self.letter(at + 1) in "NTfv"

    # What was said before

    def _whole(self, at: int) -> bool:
        """Is a whole claim told before that word?"""
        at = self._said_before(at) + 1
        before, word = self.letter(at - 1), self.word(at - 1)
        if (
            (before in UNFINISHED and word not in ("it", "you"))
            or (before in "vw" and word not in WITHOUT_OBJECT)
            or (before == "d" and word != "these" and self.letter(at) not in "iofkpt&")
        ):
            return False
        if word == "be" and self.word(at - 2) not in ("can", "could"):
            return False
        told = self.letters[self.begin : at - (before in "vw")]
        if self.answering and re.search("[RrCcBb]N|[XxL]", told):
            return True
        if self._looked_at(at):
            return True
        if self._supposing(at) or self._comes_first():
            return len(re.findall("[vw][vwaf]*", told)) > 1
        if re.search("[vwp]", told) or self.word(self.begin) == "let" or ORDERS.intersection(self.said[self.begin : at]):
            return True
        return bool(re.search("(?<![RrCcBbN&])N|P", told)) and bool(re.search("X|RN.?.?CN|CN.?.?RN", told))

    def _topic_only(self, at: int) -> bool:
        """``okay seven in row one``: is a digit of a house all that was named?"""
        begin = self.begin
        while self.word(begin) in LEADING:
            begin += 1
        return TOPIC_ONLY.fullmatch(self.letters, begin, at) is not None

    def _looked_at(self, at: int) -> bool:
        """``what about row seven column two``: is that all that is said so far?"""
        begin = self.begin
        while self.word(begin) in LEADING:
            begin += 1
        if self.word(begin) not in ("what", "how") or self.word(begin + 1) != "about":
            return False
        return any(name.fullmatch(self.letters, begin + 2, at) for name in WHOLE_NAMES)

    def _supposing(self, at: int) -> bool:
        """Is something supposed? What follows from it belongs to the same sentence."""
        said = self.said[self.begin : at]
        if CONCLUDED.intersection(said):
            return False
        return any(
            word in SUPPOSING
            or (word == "say" and (LEADING | {"on", "us"}).issuperset(said[max(0, place - 1) : place]))
            or (word == "if" and self.word(self.begin + place + 1) not in ("you", "we", "i", "anyone"))
            for place, word in enumerate(said)
        )

    def _talked(self, at: int) -> bool:
        """Was nothing named yet, and nothing begun that the word may go on with?"""
        said, letters = self.said[self.begin : at], self.letters[self.begin : at]
        if len(said) < 2 or re.search("[NPXxRrCcBbL]", letters):
            return False
        if letters[-1] in UNFINISHED | {"v", "w", "d"} and said[-2:] != ["a", "second"]:
            return False
        return not (PATTERN_NOUNS | REASONING | SUPPOSING).intersection(said) and said[-1] not in KNOWING | ORDERS | GOING | {
            "be"
        }

    def _comes_first(self) -> bool:
        """Does the sentence begin with a clause that leads up to another: ``whatever happens``, ``if you look in row 4``?"""
        said = self.said[self.begin : self.begin + 3]
        return bool(WHATEVER.intersection(said)) or "if" in said or tuple(said) == ("as", "far", "as")

    def _inside_name(self, at: int) -> bool:
        before, letter = self.letters[max(0, at - 3) : at], self.letter(at)
        if THE_LINE.search(before) and self.letter(at) == "N" and self.letter(at + 1) == "v":
            return False  # three and five are in the column | nine is in the box
        if before[-1:] in "RrCcBbV" and letter in "NVBL":
            return True
        lies = re.search("[io][TDdAVn]*[A-Za-z]?$", self.letters[max(self.begin, at - 6) : max(at - 1, 0)])
        if self.word(at - 1) in CORNERS and letter in "RC" and lies:
            name = NEXT_CELL.match(self.letters, at)
            if name is not None and self.letter(name.end()) not in "vw":
                return True
        if letter in "RC" and re.search("[RC]N$", before) and self._told_alike(at):
            return False
        if re.search("[Rr]N$", before) and letter in "Ccx":
            return True
        if before[-1:] == "x" and letter in "CR" and self.letter(at + 1) == "N" and self.word(at - 1)[0] != self.word(at)[0]:
            return True  # r4 column 2
        lines = re.search("([rc])N(?:&?N)+$", self.letters[max(0, at - 8) : at]) if letter in "io" else None
        if lines is not None and self.letter(at + 1) in "RC":
            return self.letter(at + 1) != lines[1].upper()  # rows 1 and 3 in column 8
        if re.search("[Cc]N$", before) and letter in "Rr":
            return not re.match("RN[^&]?CN", self.letters[at : at + 6]) and not re.search(
                "RN[^&]?CN$", self.letters[max(0, at - 5) : at]
            )
        if self.word(at) in PATTERN_NOUNS and self.word(at - 1) in ("x", "y", "xy", "z"):
            return True
        if self.word(at) == "one" and self.word(at - 1) in POINTED and self.letter(at + 1) in "vw":
            return True  # this next one is
        if self.word(at - 1) == "one" and letter in "Ln":
            return not self.word(at).startswith(("no", "every", "any", "some"))
        return before[-1:] in "NP" and letter in "NP"

    def _told_alike(self, at: int) -> bool:
        """``column seven is shut because of the 9 in row one | column nine is shut``: is it told as of a line before it?"""
        line, *verb = self.said[at], *self.said[at + 2 : at + 4]
        for place in range(max(0, at - NEARBY), at - 3):
            in_cell = self.letters[max(0, place - 2) : place] in ("RN", "CN")
            of_line = self.said[place] == line and self.letter(place + 1) == "N" and not in_cell
            if of_line and self.letter(at + 2) == "v" and list(self.said[place + 2 : place + 4]) == verb:
                return True
        return False

    # A subject and its verb

    def _begins(self, at: int, paused: bool = False) -> bool:
        before = self.word(at - 1)
        if self.word(at - 2) in ("how", "why", "what", "where") and before in ("do", "does", "did", "can", "could"):
            return False  # how do i know
        if before == "else" and self.word(at - 2) == "or":
            return False  # either it is a 3 or else it is a 4
        if before in ("then", "therefore", "hence", "meaning") or (before in KNOWING and not paused) or self._added(at):
            return False
        if tuple(self.said[at : at + 3]) == ("of", "all", "the") or self._turned_round(at):
            return True
        return self._says(at) or self._about(at) or self._fronted(at, paused) or self._orders(at) or self._turns(at)

    def _turned_round(self, at: int) -> bool:
        """Does a question begin with its verb: ``can four and six go``, ``are the ones in row three``?"""
        return self.word(at) in ("can", "could", "are", "do") and ASKED_OF.match(self.letters, at) is not None

    def _added(self, at: int) -> bool:
        """Does the word stand right after ``and also``?"""
        return any(tuple(self.said[max(0, at - len(words) - 1) : at]) == ("and", *words) for words in ADDING)

    def _says(self, at: int) -> bool:
        """``we can``, ``there is``, ``that has``, ``where does``."""
        before, word, letter = self.word(at - 1), self.word(at), self.letter(at)
        if ASKS.match(self.letters, at):
            return word != "which" or self.letter(at + 1) in "LN"
        if word in ("what", "how") and self.word(at + 1) == "about":
            return True
        if SAYS.match(self.letters, at) is None:
            return False
        if letter == "p":
            return (
                not self._relative(at)
                and (before not in RELATIVE_AFTER or (before == "one" and self.word(at - 2) in ("get", "gets", "got")))
                and before not in ("way", "everywhere", "time", "place", "do", "does", "did")
                and not self._everywhere(at)
                and (word != "it" or before not in ("take", "have", "hold", "accept", "see", "do", "get", "put"))
            )
        if word == "that":
            if self.word(at + 1) in RELATIVE_VERBS or {"anything", "nothing"}.intersection(
                self.said[max(self.begin, at - 12) : at]
            ):
                return False
            if self.letter(at - 1) in "Ln" and "only" in self.said[max(self.begin, at - 5) : at]:
                return False  # "goes in the only other free square that is row one column four"
            return before not in RELATIVE_AFTER and (self.letter(at - 1) not in "Ln" or self.word(at + 1) == "is")
        return word != "here" or self.letter(at + 1) in "vw"

    def _everywhere(self, at: int) -> bool:
        """``everywhere else in box nine we``: was it told where, for what is told next?"""
        near = self.said[max(self.begin, at - 8) : at]
        return "everywhere" in near and not re.search("[vwp]", self.letters[at - near[::-1].index("everywhere") : at])

    def _relative(self, at: int) -> bool:
        """``the x wing we need``, ``the one gap it has``, ``whatever order they``: does the pronoun go on with the noun?"""
        nouns = self.said[max(0, at - 4) : at]
        if WHATEVER.intersection(nouns[-2:]):
            return True
        return self.letter(at - 1) in "Ln" and bool({"the", "one", "every", "each"}.intersection(nouns))

    def _about(self, at: int, topic: bool = True) -> bool:
        """``row six column four is``, ``the rest of column seven loses``."""
        match = SUBJECT.match(self.letters, at + (self.word(at) in ("all", "both")))
        if self._ends(WHOLE_NAMES[0], at) and SEVERAL_CELLS.match(self.letters, at):
            return False  # a list of cells, begun before
        if match is not None and self._turned_round(match.start("verb")):
            return False  # rub out seven in row 8 column 6 | are the ones in row 3 ...
        if match is not None:
            named = self.letters[at : match.start("verb")]
            several = bool(re.search("[rcbP&]", named)) or any(
                word in ("both", "all", "those", "these") or (word.endswith("s") and len(word) > 3)
                for word in self.said[at : match.start("verb")]
            )
            left_open = self.word(at - 1) in ("anything", "nothing", "everything") and self.word(match.start("verb")) in MODAL
            if left_open:
                return False  # is there anything r5c7 can be
            if match["verb"] == "v" or several:
                return True
        if topic and self._relative(at + 1):
            return False
        pattern = WITH if self.word(at) == "with" else TOPIC
        return topic and self.letter(at - 1) in "NPXLne" and pattern.match(self.letters, at) is not None

    def _placed(self, at: int) -> bool:
        """Is it told where, in the claim before that word? That there is no 3 is not told without the place."""
        claims = re.finditer("[pt][ja]*[vw]", self.letters[self.begin : at])
        begun = [self.begin + claim.start() for claim in claims if self.said[self.begin + claim.start()] != "it"]
        return re.search("[RrCcBbXxL]", self.letters[begun[-1] if begun else self.begin : at]) is not None

    def _fronted(self, at: int, paused: bool = False) -> bool:
        """``in box nine the four has``, ``in box nine where can``."""
        match = FRONTED.match(self.letters, at)
        if match is None or self.word(at) in ("to", "into", "except", "than") or self.word(at + 1) == "a":
            return False
        before = self.word(at - 1)
        noun = self.letter(at - 1) in "Ln" and self.word(at - 2) not in ("this", "that")
        if noun or before in GOES_ON or before in GOING or self.said[at - 2 : at] == ["for", "it"]:
            return False
        if re.search("&TN$", self.letters[self.begin : at]) and re.fullmatch(f"i{HOUSE}", match.group()):
            return False  # the 1 in column nine and the one | in column five
        if before in ("else", "elsewhere") or (not paused and not self._placed(at)):
            return False  # no place was named yet: this is it
        after = match.end()
        had = re.search("[vw][aj]*T?N$", self.letters[max(self.begin, at - 6) : at])
        if had and re.match("i[RCB]Ne?[RCB]N", self.letters[at : after + 4]):
            return False  # "box one has a seven in row three | box two got one"
        if re.match(CELL, self.letters[after:]):
            return False  # more likely the end of the claim before
        if re.fullmatch(CELL, match.group()[1:]) and ONE_MORE.search(self.letters[max(self.begin, at - 14) : at]):
            return False  # ... the one in row 6 column 9 and the eight in row 6 column 4
        people = (
            self.letter(after) == "p"
            and self.word(after) != "it"
            and self.word(after + 1) not in KNOWING
            and re.fullmatch(CELL, match.group()[1:]) is None
        )
        return ((people or self.letter(after) in "tq") and self._says(after)) or self._about(after, topic=False)

    def _orders(self, at: int) -> bool:
        """``take the fives``."""
        last = self._said_before(at)
        return (
            self.word(at) in ORDERS
            and (self.letter(last) in "NPXLnetRCBq" or self.letter(last - 1) in "TD")
            and self.letter(at + 1) in "TDdNPRrCcBbXxLVOAifnp"
        )

    def _turns(self, at: int) -> bool:
        """``looking at row 7``, ``another hidden single``, ``whatever ...``, ``all we need``."""
        word, before = self.word(at), self.word(at - 1)
        if word == "then":
            return not self._lists_on(at)
        if word in GOING:
            through = word != "going" or self.word(at + 1) in ("through", "over", "back", "along", "across", "by")
            return through and before not in BEFORE_GOING and self.letter(at + 1) in "if"
        if word == "another":
            return self.letter(at - 1) not in "vw" and self.letter(at + 1) in "AnN"
        if word == "all":
            return self.letter(at + 1) == "p" and before not in BEFORE_GOING
        return word in WHATEVER and before not in BEFORE_GOING

    def _posed(self, at: int) -> bool:
        """``row eight column seven | and the four in box nine well ...``: is a digit of a house named, and then begun anew?"""
        posed = POSED.match(self.letters, at)
        if posed is None:
            posed = NEXT_POSED.match(self.letters, at)
            if posed is None or not self._marked(posed.end()):
                return False
        return self._ends(WHOLE_NAMES[0], at) or IS_DIGIT.search(self.letters[max(self.begin, at - 4) : at]) is not None

    def _lists_on(self, at: int) -> bool:
        """``row 6 column 8 then row 2 column 8 then``: is the next cell told after the last, and nothing of it?"""
        following = NEXT_CELL.match(self.letters, at + 1)
        if following is None or not self._ends(WHOLE_NAMES[0], at):
            return False
        return re.match("[ja]*[vs]", self.letters[following.end() : following.end() + 5]) is None

    def _joins(self, at: int) -> bool:
        """``and`` before a sentence, and not between two names."""
        if self.word(at) != "and":
            return False
        if self.word(at + 1) in AND_STARTS | WHATEVER:
            return True
        if self.word(at + 1) in ("its", "the") and self.word(at + 2) in NEIGHBOURS:
            return True
        if self.word(at + 1) == "to" and self.word(at + 2) in FINISHING:
            return True
        if NEAR.match(" ".join(self.said[at + 1 : at + 7])):
            return True
        after = at + 1
        while self.word(after) in PAUSES:
            after += 1
        if self.word(after) == "it" and self.letter(after + 1) in "vaw":
            return True
        if self._fronted(at + 1) or self.word(at + 1) in ELSEWHERE:
            return True
        if self.word(at + 1) in ("over", "up", "down", "back", "across") and self._fronted(at + 2):
            return True
        for words in ADDING:
            after = at + 1 + len(words)
            if tuple(self.said[at + 1 : after]) == words:
                return self._says(after) or self._about(after) or self._fronted(after)
        if self.word(at + 1) in ORDERS or (self.word(at + 1) == "if" and not self._supposing(at)):
            return True
        if self._lines_on(at) or (self._ends(WHOLE_NAMES[0], at) and TWO_CELLS.match(self.letters, at + 1)):
            return False  # ... and r4c3 | r5c3 is
        if self.word(at + 1) in ("i", "we") and self.word(at + 2) in FINDING:
            return True
        if self._alone(at + 1) or (self._object(at) and self._about(at + 1, topic=False) and not self._of_last(at + 1)):
            return True
        if (self.letter(at - 1) in "NP" and self.letter(at + 1) in "NP") or not self._about(at + 1):
            return False
        return not any(self._ends(name, at) and name.match(self.letters, at + 1) for name in WHOLE_NAMES)

    def _lines_on(self, at: int) -> bool:
        """``column one and column four with rows five and seven``: does a list of lines go on?"""
        letter = self.letter(at + 1)
        if letter not in "RC" or self.letter(at - 2) != letter or self.letter(at - 1) != "N" or self.letter(at + 2) != "N":
            return False
        return self.letter(at + 3) not in "vwCRioq" and (
            self.letter(at + 3) in "f&" or self.word(at + 3) in ("against", "covered")
        )

    def _alone(self, at: int) -> bool:
        """``row 3 column 4 is``: is one cell all that the verb belongs to, though more were named before it?"""
        cell = NEXT_CELL.match(self.letters, at)
        if cell is None or re.search("[rcL&]", cell.group()) or self.letter(cell.end()) != "v":
            return False
        return self.word(cell.end()) not in MODAL

    def _of_last(self, at: int) -> bool:
        """``row 1 column 2 and row 3 column 4 is``: does the verb belong to the last of these only?"""
        match = SUBJECT.match(self.letters, at)
        if match is None or match["verb"] == "w" or self.word(match.start("verb")) in MODAL:
            return False
        return "&" in self.letters[at : match.start("verb")]

    def _object(self, at: int) -> bool:
        """Does a name end there that a verb before it governs? No more names of the same list are told something of then."""
        begins = [
            begin
            for name in WHOLE_NAMES
            for begin in range(max(self.begin, at - 8), at)
            if self.letter(begin - 1) not in "RrCcBb" and name.fullmatch(self.letters, begin, at)
        ]
        listed = self.letter(at + 1) == "N" and re.search("[rcb]N(?:&?N)*$", self.letters[max(0, at - 8) : at])
        if listed or not begins or self.word(min(begins) - 1) in KNOWING or self.letter(min(begins) - 1) in "k&":
            return False
        return re.search("[vw][^k&]*$", self.letters[self.begin : min(begins)]) is not None

    def _ends(self, name: re.Pattern[str], at: int) -> bool:
        """Does such a name end before that word?"""
        begins = (begin for begin in range(max(self.begin, at - 8), at) if self.letter(begin - 1) not in "RrCcBb")
        return any(name.fullmatch(self.letters, begin, at) for begin in begins)
