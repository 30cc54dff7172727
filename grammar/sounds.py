"""Words as speech recognition hears them: homophones of numbers, and mangled names of houses and patterns.

A word is taken by its sound only where it makes no sense as it is written: the surer the place (between ``row`` and ``column``
nothing but a number can stand), the farther the sound may be from what was meant.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product


def _table(text: str) -> dict[str, str]:
    """``one: won wan; two: to`` turned round: what each word that is heard stands for."""
    lines = (line.partition(":") for line in text.replace("\n", " ").split(";"))
    return {word: meant.strip() for meant, _, words in lines for word in words.split()}


NUMBER_SOUNDS = _table("""
    one: won wan wun; two: to too tu; three: tree free thee; four: fore for; five: fife hive fi find;
    six: sicks sex sics sick; seven: seven's heaven; eight: ate ait eat hate; nine: nein nigh mine line knight night
""")
FAR_NUMBER_SOUNDS = NUMBER_SOUNDS | _table("""
    one: want once wand wont; two: do dew; three: through threw street fee; four: door floor pour or ford full;
    five: fine file dive fight live; six: seeks sixth its; seven: sven savin; eight: hate aid eights ape;
    nine: night knight nice nines
""")
"""Where only a number can stand, these are numbers too."""
PLURAL_SOUNDS = _table("""
    ones: wons wands once wans; twos: toos tos; threes: trees frees freeze; fours: force forze fores fors; fives: fives' hives;
    sixes: sickses sexes; sevens: heavens; eights: ates aids eats; nines: nines' nein's neins mines
""")
ALWAYS = frozenset("sicks sics fore nein fife ait wun tu ates forze wons toos tos sickses fores fors wans neins".split())
"""These are no words, or none that fit anywhere when people talk of digits."""
SMALL_WORDS = frozenset(("to", "too", "for", "free"))
"""These mostly are what they seem; as numbers they must stand where they cannot be anything else."""
OTHER_WORDS = frozenset("thee hive fi find sex sick heaven nigh mine line eat seven's hate night knight".split())
"""These are numbers after ``row`` and in a list of numbers only, or after an article where a number can stand."""

ROW_SOUNDS = _table("row: roe rho rowe roh ro; rows: roes")
COLUMN_SOUNDS = _table("column: colum collum collumn columm coloumn; columns: colums collums collumns columms coloumns")
HOUSE_SOUNDS = ROW_SOUNDS | COLUMN_SOUNDS | _table("box: bocks; boxes: bockses")
"""No words, or none that turn up here otherwise."""
NUMBERED_SOUNDS = _table("""
    row in: rowing; rows: rose; column: calm call'em colon colin collin callum gollum kolum columned;
    columns: columbus colons collins calms; box: bucks bach fox bok books; cell: sale cellar
""")
"""Houses where a number follows."""
FAR_ROW_SOUNDS = frozenset("road rode roll role raw wrote rogue rome bro rowed grow throw rob rho row's rove".split())
"""Rows where a number and a column follow."""
FAR_COLUMN_SOUNDS = frozenset(
    "call called calling comma common coleman cologne golem solemn volume color colour kellum".split()
)
CALLED = (("call", "him"), ("call", "them"), ("call", "em"), ("call", "in"), ("call", "on"), ("color", "m"), ("call", "um"))
"""Columns where a row was named before and a number follows."""
LETTERS = {"r": "row", "c": "column", "b": "box"}
ROW_LETTERS = frozenset("r are our ar arr hour ah".split())
COLUMN_LETTERS = frozenset("c see sea si cee ce seas she sees key".split())

WORD_SOUNDS = _table("""
    cell: sell sel cel; cells: sells sels cels; which: witch; place: plaice; need: knead; needs: kneads;
    pair: pear pare; pairs: pears pares; quad: quod squad kwad quadd quat; quads: quods squads; chain: chane; fin: finn thin;
    pivot: pivet privet pivotal divot; finned: thinned finnish fend; naked: nakid naket nekkid maked;
    claiming: klaiming climbing; triplet: triplets; swordfish: swordfishes sworfish
""")
"""Words of a solver's speech for which recognition writes others that have no place in it."""


def _names(*parts: str) -> list[tuple[str, ...]]:
    """Every way of putting the parts together; ``_`` in a part is a gap between two words."""
    chosen = product(*(part.split() for part in parts))
    return [tuple(" ".join(words).replace("_", " ").split()) for words in chosen]


_X = "x ex eggs egg ecks ax axe acts"
_Y = "y why wye"
_XY = "xy sexy exy"
_WING = "wing wings ring rings win wins wink swing wang winning"
_CHAIN = "chain chains change chane jane shane chained"
_PAIR = "pair pairs pear pare par pears bear payer pay_her"
_TRIPLE = "triple triples tripple cripple trouble tribal treble ripple trip_all"
_QUAD = "quad quads quod squad quart squat kwad quat squid quads"
_SINGLE = "single singles single's signal signals shingle"
_NAKED = (
    "naked nakid naket nake_it make_it nagged knackered nicked nekkid neck_it maked baked snaked nay_kid make_a_kid naked_a"
)
_HIDDEN = "hidden hid_in hit_in hid_and hitting hidin hid_an hit_and hit_an hid_on hitten heathen"


PLAIN = frozenset("x y xy wing wings chain chains swordfish jellyfish".split())
"""Names of these words are read as they stand."""


def _name_sounds() -> Iterator[tuple[tuple[str, ...], str]]:
    for ways, meant in (
        (_names(_X, _WING), "x wing"),
        (_names(_X, _Y, _WING) + _names(_XY, _WING), "xy wing"),
        (_names(_Y, _WING), "y wing"),
        (_names(_X, _CHAIN), "x chain"),
        (_names(_X, _Y, _CHAIN) + _names(_XY, _CHAIN), "xy chain"),
        (_names(_Y, _CHAIN), "y chain"),
        (
            _names("sword sore sort soared sward sawed saw sworn swore sorted sod sort_of sword_of salt", "fish dish fishes"),
            "swordfish",
        ),
        (_names("jelly jolly telly jellied chili gelly", "fish dish fishes"), "jellyfish"),
        (_names("expiring xwing exwing"), "x wing"),
        (_names("exchange"), "x chain"),
        (_names("candid", "ate eight"), "candidate"),
        (_names("candid", "ates eights"), "candidates"),
    ):
        yield from ((way, meant) for way in ways if not PLAIN.issuperset(way))
    for adjectives, adjective in ((_NAKED, "naked"), (_HIDDEN, "hidden")):
        for sizes, size in ((_PAIR, "pair"), (_TRIPLE, "triple"), (_QUAD, "quad"), (_SINGLE, "single")):
            for way in _names(adjectives, sizes):
                several = way[-1] == f"{size}s"
                meant = f"{adjective} {size}{'s' if several else ''}"
                if way != tuple(meant.split()):
                    yield way, meant


NAME_SOUNDS = dict(_name_sounds())
LONGEST_NAME = max(map(len, NAME_SOUNDS))
FISH = frozenset(("x wing", "swordfish", "jellyfish"))
FINNED = frozenset("find finds found fined fend finn fin fins thin thinned finish finished finnish fiend pinned fanned".split())
"""``finned`` before the name of a fish; some of them in other places too."""
UNFINNED_AFTER = frozenset("to we i you can could cannot us they will".split())
"""After these, ``find`` is the verb."""

FILLERS = frozenset(("um", "uh", "er", "erm", "uhm", "hmm", "ah", "eh"))
SINGULAR = frozenset(("row", "column", "box"))
PLURAL = frozenset(("rows", "columns", "boxes"))
LINES = SINGULAR | PLURAL
PLURALS = frozenset("ones twos threes fours fives sixes sevens eights nines".split())
NUMBERS = tuple("one two three four five six seven eight nine".split())
WHICH_HOUSE = frozenset(
    "this that these those same its their our his the a an whole entire each every any another other single one which what "
    "both two three top bottom left right middle center centre upper lower first second third fourth fifth sixth seventh "
    "eighth ninth last own".split()
)
"""Before ``row``: it is said already which row, and no number need follow."""
PLACES = frozenset("left right middle center centre".split())
BEFORE_DIGIT = frozenset(
    "a an no its the be is are was only not another remove take cross strike eliminate cannot than any every that put place "
    "out off gets get takes taking crossing putting writing write loses lose losing has have removing removes removed "
    "becomes become gives give makes just equals needs wants missing hold holds contain contains scrub rub rubbing striking "
    "delete kill drop wipe clear knock leaves leaving but except lost lacks with on of been say gave pointing hidden naked "
    "possible remaining where place".split()
)
"""What may stand right before a digit."""
ARTICLES = frozenset("a an the no another its any every".split())
TAKES_TO = frozenset(
    "that all both not place put has have needs wants only get gets gives give got say leaves becomes on with of but just "
    "where possible remaining is was been".split()
)
"""Before ``to``, these make it the preposition or the infinitive, unless ``in``, ``out`` or ``from`` follows."""
FREE_THINGS = frozenset(
    "cell cells square squares space spaces spot spots place places one ones hole holes gap gaps line row column box hand "
    "choice kick for from of to".split()
)
BEFORE_SENTENCE = FILLERS | frozenset("so now okay right see then between".split())
UNFINISHED = frozenset("have has had going want wants need needs what up down due next back got used able".split())
"""After these, ``to is`` is the end of one sentence and the beginning of the next."""
CLOSING = frozenset(
    "in out from so because cause since and or then is are was can cannot has must will would could may might which there "
    "therefore okay um uh off oh alright meaning hence as when while either also goes comes gets at it we i they that's "
    "either now right only just anywhere everywhere somewhere nowhere".split()
)
"""What may stand after a digit, and not after a preposition."""
AFTER_DIGIT = (
    CLOSING
    | frozenset("of that away here row column box roe for the let look nothing go come naked hidden pair triple quad".split())
    | {""}
)
PLURAL_BEFORE = frozenset(
    "the all our of on with its their no any more these those has have only your many pointing and".split()
)
PLURAL_AFTER = frozenset(
    "in are go all make form point at from here only for have there along line can and that come cannot lie sit must out line "
    "on so which is it's they then".split()
) | {""}
OBJECTS = frozenset("my the a an our his her some over up it them me".split())
SUBJECTS = frozenset("i we he she they you who".split())
SEEN = frozenset("it this that the yourself yourselves ourselves what which if us".split())
"""After ``see to`` and ``see for``, these make it the verb."""
THEIR_AFTER = frozenset("all both keep keeps have of put with".split())
"""Before ``there fives``, these make it ``their``."""
OWNING = frozenset("get gets got has have need needs keep keeps lose loses take takes hold holds of".split())
"""Before ``it's five``, these make it ``its``."""
OWNED = frozenset("corners pivot wings".split())
RANGES = frozenset("to through thru till".split())
STUTTERED = frozenset("the a in of on and row rows column columns box boxes r c is it so that".split())
"""Said twice in a row, these mean no more than once."""


@dataclass(frozen=True)
class _Spot:
    """A word as written with what stands around it. ``taken``: the words before it, as they were taken."""

    said: Sequence[str]
    at: int
    taken: Sequence[str]

    @property
    def word(self) -> str:
        return self.said[self.at]

    def next(self, steps: int = 1) -> str:
        at = self.at + steps
        return self.said[at] if at < len(self.said) else ""

    def last(self, steps: int = 1) -> str:
        return self.taken[-steps] if steps <= len(self.taken) else ""

    @property
    def follows_row(self) -> bool:
        """Was a row's number said just before?"""
        return _shortened(self.last(), "r") or (is_number(self.last()) and self.last(2) in ("row", "rows"))

    @property
    def follows_column(self) -> bool:
        return _shortened(self.last(), "c") or (is_number(self.last()) and self.last(2) in ("column", "columns"))

    @property
    def list_head(self) -> str:
        """The word before the numbers that lead up to this one; itself no number."""
        at = len(self.taken) - 1
        while at >= 0 and (is_number(self.taken[at]) or self.taken[at] in ("and", "or", ",")):
            at -= 1
        return self.taken[at] if at >= 0 else ""


def is_number(word: str) -> bool:
    """Is it written as one, in letters or in figures?"""
    return word in NUMBERS or word.isdecimal()


def names_house(word: str) -> bool:
    """Is it ``row``, ``columns`` and so on, or does it sound so?"""
    return word in LINES or word in HOUSE_SOUNDS or word in NUMBERED_SOUNDS


def owned(said: Sequence[str], before: str = "") -> bool:
    """Was ``its`` meant by the ``it's`` between that word and these?"""
    if before in OWNING and said and _numbered(said[0]):
        return True
    return bool(said) and (said[0] in OWNED or (names_house(said[0]) and not (len(said) > 1 and _numbered(said[1]))))


def _numbered(word: str) -> bool:
    return is_number(word) or word in NUMBER_SOUNDS


def _shortened(word: str, letter: str) -> bool:
    """``r6`` of the letter r."""
    return word[:1] == letter and word[1:].isdecimal()


def _opens_row(word: str) -> bool:
    return word in ROW_LETTERS or word == "row" or word in HOUSE_SOUNDS or _shortened(word, "r")


def _opens_column(word: str) -> bool:
    sound = HOUSE_SOUNDS.get(word) or NUMBERED_SOUNDS.get(word) or word
    return sound == "column" or word in COLUMN_LETTERS or word in FAR_COLUMN_SOUNDS or _shortened(word, "c")


def heard_as(said: Sequence[str], at: int, taken: Sequence[str]) -> tuple[str, int] | None:
    """What the words from there on were meant as, and how many they are; None where they stand as they are.

    ``said``: all words as written. ``taken``: those before, as they were taken.
    """
    if said[at] not in HEARD_FIRST:
        return None
    spot = _Spot(said, at, taken)
    return _name(spot) or _house(spot) or _range(spot) or _number(spot) or _listed(spot) or _word(spot)


def _name(spot: _Spot) -> tuple[str, int] | None:
    name = _name_at(spot.said, spot.at)
    if name is not None:
        return name
    if spot.word in FINNED:
        following, _ = _name_at(spot.said, spot.at + 1) or (spot.next(), 1)
        fish = following in FISH or (following == "x" and spot.next(2) == "wing")
        if fish and spot.last() not in UNFINNED_AFTER:
            return "finned", 1
        if spot.word in ("find", "fined", "fend") and spot.last() in ("is", "are") and spot.next() not in ("the", "a"):
            return "finned", 1
        if spot.word == "fend" and spot.last() in ("the", "a", "as"):
            return "fin", 1
    return None


def _name_at(said: Sequence[str], at: int) -> tuple[str, int] | None:
    for length in range(min(LONGEST_NAME, len(said) - at), 0, -1):
        name = NAME_SOUNDS.get(tuple(said[at : at + length]))
        if name is not None:
            return name, length
    return None


COUNTED_BY_ORDER = frozenset("cell cells sell sells cel row rows roe column columns box".split())
"""``forth`` before these is an ordinal."""


def _house(spot: _Spot) -> tuple[str, int] | None:
    word, numbered = spot.word, _numbered(spot.next())
    if word in HOUSE_SOUNDS:
        return HOUSE_SOUNDS[word], 1
    if word in NUMBERED_SOUNDS and (numbered or (spot.next() in FAR_NUMBER_SOUNDS and spot.follows_row)):
        return NUMBERED_SOUNDS[word], 1
    if NUMBERED_SOUNDS.get(word) == "box" and spot.last() in PLACES:
        return "box", 1
    if word == "colon" and spot.last() in WHICH_HOUSE:
        return "column", 1
    if word == "there" and spot.next() in (*SINGULAR, *PLURAL, "corners") and not _numbered(spot.next(2)):
        return "their", 1
    if word == "there" and spot.next() in PLURALS and spot.last() in THEIR_AFTER:
        return "their", 1
    if (word, spot.next()) in CALLED and spot.follows_row and _numbered(spot.next(2)):
        return "column", 2
    if word == "forth" and (spot.next() in COUNTED_BY_ORDER or (spot.next() in ("and", "or") and spot.last() == "the")):
        return "fourth", 1
    if word in ("roll", "roe", "rose") and spot.last() in ("that", "this", "those", "these") and spot.last(2) in ("of", "in"):
        return ("rows" if word == "rose" else "row"), 1
    counted = spot.last() in ("of", "in") and spot.last(2) in COUNTED_BY_ORDER
    if counted and numbered and (word in FAR_ROW_SOUNDS or word in ROW_LETTERS or word == "roe"):
        return "row", 1  # the seventh cell of roll four
    numbered = numbered or (spot.next() in FAR_NUMBER_SOUNDS and (spot.follows_row or _opens_column(spot.next(2))))
    if not numbered:
        return None
    if word == "b":
        return ("box", 1) if is_number(spot.next()) else None
    if word in ("r", "c"):
        return LETTERS[word], 1
    column = _opens_column(spot.next(2)) and (_shortened(spot.next(2), "c") or _numbered(spot.next(3)))
    if column and (word in ROW_LETTERS or word in FAR_ROW_SOUNDS):
        return "row", 1
    verb = word in ("see", "sees") and spot.next() in SMALL_WORDS and spot.next(2) in SEEN
    if spot.follows_row and (word in COLUMN_LETTERS or word in FAR_COLUMN_SOUNDS) and not verb:
        return "column", 1
    return None


def _number(spot: _Spot) -> tuple[str, int] | None:
    word = spot.word
    plural = PLURAL_SOUNDS.get(word)
    if plural is not None and (word in ALWAYS or (spot.last() in PLURAL_BEFORE and spot.next() in PLURAL_AFTER)):
        return plural, 1
    near, far = NUMBER_SOUNDS.get(word), FAR_NUMBER_SOUNDS.get(word)
    if far is None:
        return None
    if _only_a_number(spot):
        return far, 1
    if near is None:
        return None
    if word in ALWAYS or (spot.last() in LINES and not _said_which(spot)) or _in_list(spot) or _counting(spot):
        return near, 1
    if spot.last(2) == "row" and is_number(spot.last()) and word not in SMALL_WORDS | OTHER_WORDS:
        return near, 1  # who says "row eight one" of a cell
    return (near, 1) if _digit_alone(spot) else None


def _range(spot: _Spot) -> tuple[str, int] | None:
    """``rows 4 to 6``: what stands between. ``columns one to six and eight`` is a list with a two in it."""
    if spot.word not in RANGES or spot.last(2) not in PLURAL or not is_number(spot.next()):
        return None
    first, last = _value(spot.last()), _value(spot.next())
    listed = spot.word == "to" and first == 1 and (_numbered(spot.next(2)) or spot.next(2) in ("and", "or"))
    if not first < last <= len(NUMBERS) or (listed and last > 2):
        return None
    return " ".join([*NUMBERS[first : last - 1], "and"]), 1


def _value(number: str) -> int:
    return int(number) if number.isdecimal() else NUMBERS.index(number) + 1


def _only_a_number(spot: _Spot) -> bool:
    """``row … column``, ``row 4 column …``: can nothing else stand there?"""
    if spot.last() == "row":
        column = spot.next()
        return _opens_column(column) and (
            _shortened(column, "c") or spot.next(2) in FAR_NUMBER_SOUNDS or is_number(spot.next(2))
        )
    if spot.last() == "column":
        before = _Spot(spot.said, spot.at - 1, spot.taken[:-1])
        return before.follows_row or (_opens_row(spot.next()) and _numbered(spot.next(2)) and spot.next() != "are")
    return False


def _said_which(spot: _Spot) -> bool:
    """Is it said before ``row`` which one, so that ``to`` or ``for`` is what it seems?"""
    which = spot.last(2)
    if spot.last() in PLURAL and is_number(spot.next()):
        return False  # their rows to 3 and 9
    if is_number(which) and spot.last(3) in LINES:
        return False  # row one columns for and five
    return which in WHICH_HOUSE and not (which in ("the", "a") and spot.last() in SINGULAR and spot.word not in SMALL_WORDS)


def _in_list(spot: _Spot) -> bool:
    """Does the word stand among numbers, as in ``columns two for and five``?"""
    word, before, after = spot.word, spot.last(), spot.next()
    if before in ("and", "or"):
        if not is_number(spot.last(2)):
            return False
        if spot.list_head in PLURAL:
            return not (word in SMALL_WORDS and after in ("the", "a", "be", "see"))
        return is_number(after) or (after in AFTER_DIGIT and not (word in SMALL_WORDS and after in ("the", "that", "it", "we")))
    if not is_number(before):
        return False
    goes_on = _numbered(after) or (after in ("and", "or") and _numbered(spot.next(2)))
    if spot.list_head in PLURAL:
        return goes_on and (word != "to" or after in ("and", "or") or (before in ("one", "1") and _goes_on_after(spot)))
    if spot.last(2) in SINGULAR:
        return False
    if word == "to":
        return after in ("and", "or") and _numbered(spot.next(2))
    if word in OTHER_WORDS and word not in ("line", "find") and after in CLOSING:
        return True
    if word in OTHER_WORDS or word == "for":
        return goes_on and (after in ("and", "or") or _numbered(spot.next(2)) or spot.next(2) in ("and", "or"))
    return goes_on or after in ("in", "out", "from")


def _goes_on_after(spot: _Spot) -> bool:
    """Is the next number not the last one?"""
    return _numbered(spot.next(2)) or spot.next(2) in ("and", "or")


def _counting(spot: _Spot) -> bool:
    """``those to cells``, ``all for of them``, ``the to 3s``."""
    if spot.word not in SMALL_WORDS:
        return False
    if spot.last() in ("those", "these", "all", "both", "the", "only") and spot.next() in ("cells", "sells", "squares", "of"):
        return spot.word != "free" or spot.next() == "of"
    listed = (_numbered(spot.next()) and _goes_on_after(spot)) or (spot.next() in ("and", "or") and _numbered(spot.next(2)))
    if spot.last() in (BEFORE_DIGIT | BEFORE_SENTENCE) - {"that"} and listed and spot.word != "for":
        return True  # with to five and nine
    if spot.word == "too" and spot.last() in BEFORE_SENTENCE and spot.next() == "goes":
        return True
    return spot.last() in ("all", "are", "be", "of", "a", "the", "no", "only") and is_number(spot.next())


def _digit_alone(spot: _Spot) -> bool:
    """A digit by itself, by the words on both sides: ``a tree``, ``crossing out to in row 1``."""
    word, before, after = spot.word, spot.last(), spot.next()
    if word == "to" and before == "no" and spot.last(2) in ("say", "says", "said", "saying"):
        return False  # every other cell says no to a 4
    if word in OTHER_WORDS:
        return word not in ("line", "find") and before in ARTICLES and after in CLOSING | FILLERS | {"for", ""}
    if word not in SMALL_WORDS:
        return before in ARTICLES or not (before in SUBJECTS or after in OBJECTS)
    if before in ARTICLES:
        if word in ("to", "for") or (word, before) == ("too", "a"):
            return True
        if word == "free":
            return after not in FREE_THINGS
        return after in AFTER_DIGIT
    if word == "to" and after in ("is", "cannot", "can", "must") and before not in UNFINISHED:
        return True
    if before not in BEFORE_DIGIT or after not in CLOSING | {""}:
        return False
    if word in ("to", "too") and before in TAKES_TO:
        closed = after in ("in", "out", "from", "is", "can", "cannot", "must") or (
            before in ("is", "was", "becomes") and after not in ("has", "it", "we", "i")
        )
        return closed and not (before in ("that", "all", "both", "not", "where") and word == "too")
    if word == "for":
        return after not in ("it", "we", "i", "they", "now", "") or (after == "" and before in ("is", "be", "becomes"))
    if word == "free":
        of_line = before == "is" and spot.last(2) in ("column", "row", "box", "line", "gap", "hole", "spot")
        return after not in ("of", "from", "to") and before not in ("are", "left") and not of_line
    return True


def _listed(spot: _Spot) -> tuple[str, int] | None:
    """The words between numbers: ``columns three an seven``, ``rows 2 in 5``, ``3 ore a 5``, ``rows 1 and 3 off column 8``."""
    word = spot.word
    if not is_number(spot.last()):
        return None
    plural = spot.list_head in PLURAL
    whole = spot.last(2) in SINGULAR and word == "an" and not plural  # the cell in row seven an eight
    if word in ("an", "n", "end") and _numbered(spot.next()) and not whole:
        return "and", 1
    if word == "in" and plural and is_number(spot.next()) and spot.last(2) in PLURAL and spot.next(2) not in ("is", "can"):
        return "and", 1
    if word in ("ore", "oar") and (_numbered(spot.next()) or spot.next() in ("a", "an")):
        return "or", 1
    if word == "off" and plural and spot.next() in SINGULAR:
        return "of", 1
    return None


BEFORE_CAUSE = frozenset("to root no can could will would not and".split())
"""After these, ``cause`` is no ``because``."""


def _word(spot: _Spot) -> tuple[str, int] | None:
    word = spot.word
    if word in ("cause", "cos", "coz", "cuz") and spot.last() not in WHICH_HOUSE and spot.last() not in BEFORE_CAUSE:
        return "because", 1
    if word in WORD_SOUNDS:
        return WORD_SOUNDS[word], 1
    if word == "whole" and spot.last() in ("single", "one", "last", "only", "final", "sole"):
        return "hole", 1
    if word == "hear" and spot.last() not in ("i", "you", "we", "to", "can", "us"):
        return "here", 1
    if word == "theirs" and spot.next() in ("a", "an", "the", "no", "only", "just", "one", "nowhere", "another"):
        return "there is", 1
    return None


def _first_words() -> frozenset[str]:
    tables: tuple[Mapping[str, str], ...] = (
        *(FAR_NUMBER_SOUNDS, PLURAL_SOUNDS, HOUSE_SOUNDS, NUMBERED_SOUNDS, LETTERS, WORD_SOUNDS),
    )
    single = {word for table in tables for word in table} | {name[0] for name in NAME_SOUNDS}
    others = "forth roll roe rose there an n end in ore oar off whole hear theirs color cause cos coz cuz".split()
    return frozenset(single) | FINNED | FAR_ROW_SOUNDS | FAR_COLUMN_SOUNDS | ROW_LETTERS | COLUMN_LETTERS | {*others}


HEARD_FIRST = _first_words()
"""Every word that any of this begins with."""
