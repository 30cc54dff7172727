"""Sentences beside the exact statements they come to; talk and sentences nobody can take in beside nothing."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stepwarrant.checker import audit
from stepwarrant.grammar.narration import read_narration
from stepwarrant.grammar.prose import read_prose
from stepwarrant.grammar.reading import Narration, Sentences
from stepwarrant.grammar.vocabulary import geometry
from stepwarrant.grammar.words import Script
from stepwarrant.grammar.writer import write_statement

SINGLES = {
    # Where else the digit is, and by what it is kept out, leads up to where it goes
    "Box 5 needs a 6, and rows 4 and 5 both have one, as does column 4; nothing is left but r6c5.": (
        "r6c5 = 6 because hidden single in b5"
    ),
    "Row 7 wants a 7. The 7 cannot be in r7c3 or in r7c9, so it drops into r7c6.": "r7c6 = 7 because hidden single in r7",
    "Column 9 wants an 8: row 4 is out because of r4c8, row 6 because of the 8 we just wrote, and r5c9 is therefore 8.": (
        "r5c9 = 8 because hidden single in c9"
    ),
    "Box 6 wants a 2. Row 4, column 8 and column 9 each have one, so it can only be at r5c7.": (
        "r5c7 = 2 because hidden single in b6"
    ),
    "Column 4, with r5c4 no longer available, has its 5 at r8c4.": "r8c4 = 5 because hidden single in c4",
    "Row 8 has one empty cell left. The missing number is 6.": "? = 6 because last cell in r8",
    # A column of the box spoken of, houses that have one apiece, what is one of a triple
    "Where does box 6 keep its 4? Column 7 has one and column 9 has one. With r5c8 just filled, the only open square in the "
    "middle column of the box is r4c8, so write a 4 there.": "r4c8 = 4 because last cell in c8",
    "Column 3 hasn't a 3 yet. Rows 1, 6, 7 and 8 contain a 3 apiece, so of the column's five gaps only r9c3 can take it.": (
        "r9c3 = 3 because hidden single in c3"
    ),
    "The 4 of box 1 is just as easy. Row 1 ends in a 4, column 1 has a 4, and you are left with r3c2.": (
        "r3c2 = 4 because hidden single in b1"
    ),
    "Box 1 needs a 2, and columns 2 and 3 both contain one, while r3c1 is one of our three. Hence r1c1 is a 2.": (
        "r1c1 = 2 because hidden single in b1"
    ),
    # Houses that have the digit, or no room for it, bear witness: they are neither what it is alone in nor an effect.
    "Box 2 has three vacancies, and because row 3 already owns a 6, the 6 of that box must sit in row 2, column 5.": (
        "r2c5 = 6 because hidden single in b2"
    ),
    "3 in column 2: row 4 has one and box 7 has one, so r6c2 = 3.": "r6c2 = 3 because hidden single in c2",
    "Rows 7 and 8 both have a 6, and so does column 3, so that in box 7 the 6 has only row 9, column 1.": (
        "r9c1 = 6 because hidden single in b7"
    ),
    "Where can the 4 go in row 3? Not r3c1 or r3c2, because box 1 has one. Not r3c5 because of column 5. So it must be r3c9.": (
        "r3c9 = 4 because hidden single in r3"
    ),
    "What digit is r5c5? It cannot be 1, 2 or 3 because of the row. So it must be 4.": "r5c5 = 4 because hidden single in r5",
    "So where does the 7 of box 4 go? Column 1 is out, column 2 already has a 7, and that leaves only r5c3.": (
        "r5c3 = 7 because hidden single in b4"
    ),
    "6 in box 4 has to be r4c3 because row 6 and column 2 have it.": "r4c3 = 6 because hidden single in b4",
    # What is taken over from the clause or the sentence before
    "Suppose r5c9 were not a 4. Then column 9 would have no place for the 4 at all, and every column must have one.": (
        "r5c9 = 4 because hidden single in c9"
    ),
    "If r8c7 were not an 8, its box would have to go without one.": "r8c7 = 8 because hidden single in b9",
    "Row 8 has a 9, so box 7 must have its own in row 9, column 2.": "r9c2 = 9 because hidden single in b7",
    "Row 8 has a 9 already, which leaves r8c1 for it.": "r8c1 = 9 because hidden single",
    "Column 2, row 9 is the 8 that box 7 was missing.": "r9c2 = 8 because hidden single in b7",
    # Corners and centres of boxes
    "The only place for a 4 in box 1 is the top-left corner of box 1.": "r1c1 = 4 because hidden single in b1",
    "Nothing but an 8 is left for the centre of the middle-right box.": "r5c8 = 8 because naked single",
    # Said in few words
    "All candidates of the cell r9c9 but 2 are excluded.": "r9c9 = 2 because naked single",
    "2 at r3c5: last chance in row 3.": "r3c5 = 2 because hidden single in r3",
    "r6c9: 9 \N{EN DASH} final entry in box 6.": "r6c9 = 9 because last cell in b6",
    "9 at column 9 row 6 \N{EN DASH} the rest is crossed out there.": "r6c9 = 9 because naked single",
    # Boxes by bands and stacks; cells by the way to them
    "The bottom box of the left stack keeps its nine in row 8 of column 1, there being no other place.": (
        "r8c1 = 9 because hidden single in b7"
    ),
    "In the box in the middle of the top band the only place left for a 3 is the middle right cell.": (
        "r2c6 = 3 because hidden single in b2"
    ),
    "Column 9, and down to row 6, where only a 9 is possible.": "r6c9 = 9 because naked single",
    # Of all cells one; the others refuse
    "Where can the ninth column put its 6? Only in its seventh cell.": "r7c9 = 6 because hidden single in c9",
    "Only column 6, row 9 of all the cells in box 8 can hold a 9.": "r9c6 = 9 because hidden single in b8",
    "The other columns are closed to the 5 of row 5, so it goes in column 1.": "r5c1 = 5 because hidden single in r5",
    "Every other cell of the middle left box is closed to nine, so the nine goes in the third cell in the fifth row.": (
        "r5c3 = 9 because hidden single in b4"
    ),
    "Column nine is the only column that has room for the two of row eight. That's row eight of column nine.": (
        "r8c9 = 2 because hidden single in c9"
    ),
    "Box 4, the 2: row 4 has one, row 6 has one, and column 1's got one, so it's row 5 column 2.": (
        "r5c2 = 2 because hidden single in b4"
    ),
    "One more 8. Box 5 wants it at r4c4 only.": "r4c4 = 8 because hidden single in b5",
    # What a cell cannot be, and then what it is
    "r9c5 can't be 1 or 8 because that row has both; so 4.": "r9c5 = 4 because hidden single in r9",
    "r1c9 is forbidden its 6 several times over and is 9.": "r1c9 = 9 because naked single",
    "r5c6 loses its 6 and becomes 5.": "r5c6 = 5 because naked single",
    "Then the 3 drops to the bottom, r9c3.": "r9c3 = 3 because naked single",
    # What a cell was, and what it lost, and to which
    "r9c7 was 3 or 8 and has to be 8.": "r9c7 = 8 because naked single",
    "r9c8 loses the 8 to r9c6, so it's 6.": "r9c8 = 6 because naked single",
    "r8c3 can't be 7 because of r8c6, so it is 5.": "r8c3 = 5 because naked single",
    "Row 1, column 1 has now lost both its 3 and its 7, and the only candidate it has left is 2, so it is a 2.": (
        "r1c1 = 2 because naked single"
    ),
    "Finally, column 2 has one empty cell left, the one in row 5 and column 2, and we write a 4 there.": (
        "r5c2 = 4 because last cell in c2"
    ),
    "Every cell of column 5 but one says no to a 4. The one that doesn't is r6c5, so that's where it goes.": (
        "r6c5 = 4 because hidden single in c5"
    ),
    "Row seven must have an eight somewhere, and all its cells but one have lost that "
    "candidate. The one is row seven column six,"
    " which is therefore an eight.": "r7c6 = 8 because hidden single in r7",
    "Where can the 9 go in column 9? Not in row 1, not in r5c9, so it goes in row 6.": "r6c9 = 9 because hidden single in c9",
    "Where does row 6 put its 9? In column 2; every other cell refuses it.": "r6c2 = 9 because hidden single in r6",
    "Put a 2 in the top-right cell of box 8, as nothing else is left there.": "r7c6 = 2 because naked single",
    "r5c2 cannot be 1, 2, 3, 4, 5, 6, 7 or 9. So it is an 8.": "r5c2 = 8 because naked single",
    "The fourth cell of row 1, a 3. Nothing else survives there.": "r1c4 = 3 because naked single",
    "Look at the candidates of r5c2 and the places for a 1 in row 1. From them it follows that r5c1 can only be a 1.": (
        "r5c1 = 1 because facts r5c2, r5c1, 1 in r1"
    ),
    "In box 1 the only place for a 7 is row 2, column 3.": "r2c3 = 7 because hidden single in b1",
    "Row 7: 5 only at r7c6.": "r7c6 = 5 because hidden single in r7",
    "r5c9 holds the only 4 left in its column.": "r5c9 = 4 because hidden single in c9",
    "r7c3 is 8, since row 7 has no other home for it.": "r7c3 = 8 because hidden single in r7",
    "Where does 7 go in box 3? It has to be r1c8.": "r1c8 = 7 because hidden single in b3",
    "Okay, where does the 1 go in box 7? It can't go anywhere except row 9, column 2.": "r9c2 = 1 because hidden single in b7",
    "Box 2 is still missing a 6. It fits nowhere else than in the cell in row 3 and column 6.": (
        "r3c6 = 6 because hidden single in b2"
    ),
    "The only cell of the middle-right box that can be a seven is the cell in the fourth row and seventh column.": (
        "r4c7 = 7 because hidden single in b6"
    ),
    "Nothing else can go in r4c4, so it must be 6.": "r4c4 = 6 because naked single",
    "That leaves r5c7 with 1 alone. In it goes.": "r5c7 = 1 because naked single",
    "The pencil marks in row 8 column 5 are down to one. That's a 4.": "r8c5 = 4 because naked single",
    "There is just one option left in row 2, column 7, and it's a 2.": "r2c7 = 2 because naked single",
    "r4c4 is the last gap in row 4, and the missing digit is 6.": "r4c4 = 6 because last cell in r4",
    "Box 5 is nearly done, only the 2 is missing, and that goes in row 5, column 6.": "r5c6 = 2 because last cell in b5",
    "In row 4 the 7 can only go in column 2.": "r4c2 = 7 because hidden single in r4",
    "Where does the 7 go in row 4? Only column 2 will have it.": "r4c2 = 7 because hidden single in r4",
    "Row 4 needs a 7, and only column 2 can take it.": "r4c2 = 7 because hidden single in r4",
    "In the fourth row the six finds a place in the ninth column and nowhere else.": "r4c9 = 6 because hidden single in r4",
    "9 belongs where column 1 crosses row 8, nowhere else in box 7 being open to it.": "r8c1 = 9 because hidden single in b7",
    "Every cell in the 7th row refuses the 8 except one: its 3rd cell.": "r7c3 = 8 because hidden single in r7",
    "The ninth column has one cell left for a 6. It's the one in the seventh row.": "r7c9 = 6 because last cell in c9",
    "We can fill in column nine row six! It can't be anything except 9.": "r6c9 = 9 because naked single",
    "Why's column five row one a 7? Because there's nowhere else for it in its row.": "r1c5 = 7 because hidden single in r1",
    "Could c7r2 be anything other than a 2? Nope! In it goes.": "r2c7 = 2 because naked single",
    "Every digit but 5 is excluded at c8r9, so 5 it is.": "r9c8 = 5 because naked single",
    "Eight of nine stand in box 9; 1 closes it at c9r8.": "r8c9 = 1 because last cell in b9",
    "Eight down in row eight, one to go: a 5 in column two row eight.": "r8c2 = 5 because last cell in r8",
    "As far as its column goes, r1c2 is the only cell for 5.": "r1c2 = 5 because hidden single in c2",
    "The fourth box wants a three, and r4c2 alone will take it.": "r4c2 = 3 because hidden single in b4",
    "Of all the cells of the first row, the seventh cell is the only one that may yet be a nine, and so it is.": (
        "r1c7 = 9 because hidden single in r1"
    ),
    "The one in the fifth column is no longer in doubt: it belongs to the fifth cell of the ninth row.": (
        "r9c5 = 1 because hidden single in c5"
    ),
    "r4c8 is the only one of its row that can be a five.": "r4c8 = 5 because hidden single in r4",
    "Row 8 wants its 7, and it hasn't got a choice: column 2.": "r8c2 = 7 because hidden single in r8",
    "Try a 4 anywhere else in column 9 and you will be refused; it goes in r5c9.": "r5c9 = 4 because hidden single in c9",
    "c7r4 sees 1, 2, 3, 4, 5, 6, 7 and 8. So what's left? A 9!": "r4c7 = 9 because naked single",
    "What can r5c7 hold? Nothing except a six.": "r5c7 = 6 because naked single",
    "There is a solitary digit left for r2c7, namely the two.": "r2c7 = 2 because naked single",
    "Let's make r7c7 an 8: nothing else fits there.": "r7c7 = 8 because naked single",
    "One may now put a nine in r3c7, for it will take nothing else.": "r3c7 = 9 because naked single",
    "I can make r2c7 a 2 with a clear conscience: it has no other candidate.": "r2c7 = 2 because naked single",
    "What does box 2 still want? A nine. Where? In column 4's row-3 cell, the last cell open.": (
        "r3c4 = 9 because last cell in b2"
    ),
    "I can make column 8's row-2 cell a two with a clear conscience.": "r2c8 = 2 because naked single",
    "To r1c4 goes the 5, for the other cells of row 1 will have none.": "r1c4 = 5 because hidden single in r1",
    "What is r7c1? It can be nothing except two.": "r7c1 = 2 because naked single",
    "In its row, r1c5 is alone in admitting 7. Enter it.": "r1c5 = 7 because hidden single in r1",
    "All but one of the candidates of r7c3 are gone. The survivor is 9, which I ink in.": "r7c3 = 9 because naked single",
    "Eight of the nine digits have been turned away at r2c3. That leaves 2.": "r2c3 = 2 because naked single",
    "If r3c6 were not 9, box 2 would have no 9 at all.": "r3c6 = 9 because hidden single in b2",
    "Its 8 has been shut out everywhere in box 9 but at r8c7.": "r8c7 = 8 because hidden single in b9",
    "Row 5, column 9 has just lost its 8 to its neighbour, so it's a 9.": "r5c9 = 9 because naked single",
    "It still wants a 7, and with r8c5 out of the running that has to be r9c5.": "r9c5 = 7 because naked single",
    "Entry 7. r3c2 has only a 5 to its name.": "r3c2 = 5 because naked single",
    "Next, 7 at r6c3.": "r6c3 = 7 because naked single",
    "In the fourth column from the right, the 5 fits only in the third cell from the bottom.": (
        "r7c6 = 5 because hidden single in c6"
    ),
    "Row the fourth, column the eighth: a 5, there being no other cell for it in that row.": (
        "r4c8 = 5 because hidden single in r4"
    ),
    "The cell in row 5 and in column 4 is a 5, because nothing else is left there.": "r5c4 = 5 because naked single",
    "Ask where row 7 may have its 5, and only one answer is left: r7c6.": "r7c6 = 5 because hidden single in r7",
    "The 6 of column 9 is pinned to r7c9.": "r7c9 = 6 because hidden single in c9",
    "Box 9 still owes us a 3, and can pay it in r8c8 alone.": "r8c8 = 3 because hidden single in b9",
    "The row of r2c3 has its 1 there or not at all.": "r2c3 = 1 because hidden single in r2",
    "If box 7 is to have a 6 at all, it must be in r8c2.": "r8c2 = 6 because hidden single in b7",
    "Search row 1 for a 7. It fits in its fifth cell and nowhere else.": "r1c5 = 7 because hidden single in r1",
    "Eight digits are barred from r1c4, and the ninth, the 8, is its answer.": "r1c4 = 8 because naked single",
    "Count what is left to r6c9. There is one digit, which is the 9.": "r6c9 = 9 because naked single",
    "r4c3 offers us no choice. It is a 7.": "r4c3 = 7 because naked single",
    "r2c7 has been stripped of everything but its 2.": "r2c7 = 2 because naked single",
    "The 8 is the one digit that row 4 has not used, and r4c2 the one cell it has not filled.": (
        "r4c2 = 8 because last cell in r4"
    ),
    "We come to the end of box 5: a 2 in r5c6.": "r5c6 = 2 because last cell in b5",
}
PATTERNS = {
    # A list of cells ends where another verb wants its subject, and where "because of" has been told
    "That means 3 comes off r9c5, and r1c2, r2c6, and r8c5 can't be 7.": "r9c5 not 3; r1c2 r2c6 r8c5 not 7",
    "There's no 1 in column 1, row 4, and column 2, row 4, and column 3, rows 4 and 9 can't be 4.": (
        "r4c1 not 1; r4c2 r4c3 r9c3 not 4"
    ),
    "The 3 comes off r9c5, r1c2, and r4c4.": "r9c5 r1c2 r4c4 not 3",
    "Because of r1c6, r1c5, and r3c4, r2c4 and r2c6 cannot be a 9.": "r2c4 r2c6 not 9 because facts r1c6, r1c5, r3c4",
    "On account of the sixth cell of the first row and the third row's fourth cell, the second row's fourth cell is no 9.": (
        "r2c4 not 9 because facts r1c6, r3c4"
    ),
    "Because r1c6 and r1c5 cannot be 9, r2c4 is 9.": "r2c4 = 9 because naked single",
    "As there is a naked quad of 1, 2, 4 and 8 in r7c7, r7c9, r8c7 and r9c9, r1c9 and r3c9 are not 8.": (
        "r1c9 r3c9 not 8 because naked quad 1 2 4 8 at r7c7 r7c9 r8c7 r9c9"
    ),
    # Who says so supposes nothing
    "Let me just say that in column 6 the three sits in row 5.": "r5c6 = 3 because hidden single in c6",
    "I shall only say that r5c6 is 3.": "r5c6 = 3 because naked single",
    "Let's just say that r5c6 is 3. Then r5c7 is 4, and r5c6 is not 3.": "r5c6 not 3 because chain r5c6 is 3 then r5c7 is 4",
    "A jellyfish on 7 in rows 1 and 5 and 7 and 8, so r4c8 is not 7.": "r4c8 not 7 because jellyfish on 7 in r1 r5 r7 r8",
    # Told of no verb, a digit goes from its cell
    "So what goes? 6 from r4c8.": "r4c8 not 6",
    "r9c8 loses the 2 and I'm getting rid of 5 in r1c8.": "r9c8 not 2; r1c8 not 5",
    # A digit given away is not given
    "r6c9 has to give its 1 away.": "r6c9 not 1",
    "r9c8 throws its 3 out.": "r9c8 not 3",
    "r9c8 throws out its 3.": "r9c8 not 3",
    # As on a chart
    "4, 5 and 6 across, 7 down can't be 2.": "r7c4 r7c5 r7c6 not 2",
    "The 6 goes from 7 to 9 across, 8 down.": "r8c7 r8c8 r8c9 not 6",
    "8 across, 1 and 3 down, plus 9 across 4 down can't be 5.": "r1c8 r3c8 r4c9 not 5",
    # The last of a list of ordinals, and the two wings
    "The seventh row's first, second and last cells are a naked triple of 1, 2 and 3, so r7c5 is no 1.": (
        "r7c5 not 1 because naked triple 1 2 3 at r7c1 r7c2 r7c9"
    ),
    "We have an XY-wing. The pivot, r8c9, holds a 1 and a 6, and its two wings are r9c9 and r7c9. So r8c8 loses the 1.": (
        "r8c8 not 1 because xy-wing pivot r8c9 wings r9c9 r7c9"
    ),
    "Only r5c1, r5c6, r5c8 and r5c9 take 2, 3, 7 and 8 along that row, so 2s go from everywhere else in the sixth column.": (
        "rest of c6 not 2 because naked quad 2 3 7 8 at r5c1 r5c6 r5c8 r5c9 in r5"
    ),
    # What goes, and from where more; cells by their line, by their number in a list, and told after what they lose
    "r4c1, r4c5 and r4c9 are a naked triple of 1, 2 and 3. Rub the 2 out in r4c2, and in r4c8 as well.": (
        "r4c2 not 2; r4c8 not 2 because naked triple 1 2 3 at r4c1 r4c5 r4c9"
    ),
    "r1c5 and r1c8 are a pair of 3 and 4 in row 1, so columns 2 to 4 of that row lose the 3.": (
        "r1c2 r1c3 r1c4 not 3 because naked pair 3 4 at r1c5 r1c8 in r1"
    ),
    "Suppose r3c2 is not 8. Then it is 2. Along row 3: column 5 becomes 4, and then column 7 becomes 8. "
    "Any cell that sees both ends can't be 8. That's r1c2 and r1c3.": (
        "r1c2 r1c3 not 8 because chain r3c2 not 8 then r3c2 is 2 then r3c5 is 4 then r3c7 is 8"
    ),
    "Four cells: r2c9 (58), r2c6 (78), r1c4 (47) and r5c4 (45). If the first is not 5 it is 8, the second is then 7, "
    "the third 4 and the fourth 5. So r5c9, which sees both ends, is therefore not 5.": (
        "r5c9 not 5 because chain r2c9 not 5 then r2c9 is 8 then r2c6 is 7 then r1c4 is 4 then r5c4 is 5"
    ),
    "In row 4, a 3 in r4c5 would force r8c1, which is just 2 or 3, into being a 2.": (
        "? not ? because chain r4c5 is 3 then r8c1 is 2"
    ),
    # Lists of lines, fins beside fish, cases and chains in few words
    "All the 6s of box 8 lie along row 9, in columns 4, 5 and 6, so column 2, row 9 may not have a 6.": (
        "r9c2 not 6 because pointing 6 in b8 along r9"
    ),
    "Either r3c3 is 1, or columns 3 and 4 and rows 2 and 6 make up an X-wing on 1. So r6c7 can't be 1.": (
        "r6c7 not 1 because finned x-wing on 1 in c3 c4 cover r2 r6 fins r3c3"
    ),
    "We have an X-wing of 5s, with columns 3 and 7 as its base and rows 1 and 3 as its cover, so r1c1 can't be 5.": (
        "r1c1 not 5 because x-wing on 5 in c3 c7 cover r1 r3"
    ),
    "r8c9: 1 gives 2 at r9c9, 6 gives 2 at r7c9; 2 goes from r9c8; r8c8 loses 2.": (
        "r9c8 not 2; r8c8 not 2 because xy-wing pivot r8c9 wings r9c9 r7c9"
    ),
    "r5c5 not 3 \N{EN DASH} then 3 at r5c6, then none at r6c6, then 3 at r6c2. 3 at one end. 3 out at r3c2.": (
        "r3c2 not 3 because chain r5c5 not 3 then r5c6 is 3 then r6c6 not 3 then r6c2 is 3"
    ),
    "Without 2 at r1c5: r1c5 = 7; r8c5 = 4; r3c6 = 2. 2 at one end \N{EN DASH} r3c5 \N{NOT EQUAL TO} 2.": (
        "r3c5 not 2 because chain r1c5 not 2 then r1c5 is 7 then r8c5 is 4 then r3c6 is 2"
    ),
    "It is assumed that r2c7 is not 2. It follows that it is 1. From this, r3c7 is 5. Accordingly, 2 is deleted from r3c7.": (
        "r3c7 not 2 because chain r2c7 not 2 then r2c7 is 1 then r3c7 is 5"
    ),
    "The 3 goes from r9c5, and r1c2, r2c6 and r8c5 lose 7.": "r9c5 not 3; r1c2 r2c6 r8c5 not 7",
    "Stay with row 2, and consider its 4. Columns 7 and 9 each have one. The 4 lies, then, at column 4 or at column 5, both "
    "inside box 2, and the rest of that box must go without: row 1 loses it in columns 4, 5 and 6, row 3 in columns 5 and 6.": (
        "r1c4 r1c5 r1c6 r3c5 r3c6 not ? because claiming 4 in r2 within b2"
    ),
    "Begin with the thought that r5c6 is 3. From there r5c5 is 2, r1c5 is 7, r2c6 is 3, and in the end r5c6 is not 3, "
    "which contradicts its beginning. So cross 3 out of r5c6.": (
        "r5c6 not 3 because chain r5c6 is 3 then r5c5 is 2 then r1c5 is 7 then r2c6 is 3 then r5c6 not 3"
    ),
    "The chain goes: no nine in r2c1, then a nine in r2c8, then a nine in r1c6, then a nine in r3c8. So r2c1 is nine or r3c8 "
    "is nine. That means that there can be no nine in r2c8.": (
        "r2c8 not 9 because chain r2c1 not 9 then r2c8 is 9 then r1c6 is 9 then r3c8 is 9"
    ),
    "Start at r1c3. If it's not 7, it's 6. Then r2c3 is 5 and r3c3 is 7. Either way, r1c3 or r3c3 is 7, by this XY-chain, "
    "and so r3c2 loses 7.": "r3c2 not 7 because chain r1c3 not 7 then r1c3 is 6 then r2c3 is 5 then r3c3 is 7",
    "Follow the 3s from r5c5 to r5c6, on to r6c6 and then r6c2. The first or the last of them is 3. "
    "3 can be struck from r3c2.": (
        "r3c2 not 3 because x-chain on 3: r5c5 r5c6 r6c6 r6c2"
    ),
    "Finned X-wing of 1s: columns 3 and 4 against rows 2 and 6, fin at r3c3, and that's why in column 4 there's no 8 "
    "in row 6.": (
        "r6c4 not 8 because finned x-wing on 1 in c3 c4 cover r2 r6 fins r3c3"
    ),
    "Take the cells open to the 2 of box five. It follows that in column eight there's no 2 in row five.": (
        "r5c8 not 2 because facts 2 in b5"
    ),
    "Quick one. In column 7 the 7s fit in the same two cells as the 9s, r1c7 and r6c7, so that's a hidden pair. "
    "r6c7's 2 is toast.": "r6c7 not 2 because hidden pair 7 9 at r1c7 r6c7 in c7",
    "Now three in a bed: r1c5, r5c5 and r9c5 make a naked triple of 6, 8 and 9 in column 5. So r3c5 can't be 6.": (
        "r3c5 not 6 because naked triple 6 8 9 at r1c5 r5c5 r9c5 in c5"
    ),
    "r1c2 is 6 or 7, exactly like r1c8. That's a naked pair, 6 and 7, in row 1, and r1c5 can be neither 6 nor 7.": (
        "r1c5 not 6 7 because naked pair 6 7 at r1c2 r1c8 in r1"
    ),
    "With r3c3 as pivot (2 and 5) and pincers r3c8 (2, 9) and r1c1 (5, 9), any cell seeing both pincers cannot be 9: "
    "r1c8 drops it.": (
        "r1c8 not 9 because xy-wing pivot r3c3 wings r3c8 r1c1"
    ),
    "Row 3 is next. The cells in its columns 2 and 9 hold the same two candidates, 1 and 3, and form a naked pair; "
    "hence r3c1 loses its 1.": (
        "r3c1 not 1 because naked pair 1 3 at r3c2 r3c9 in r3"
    ),
    "In row 9 the 6 is either r9c7 or r9c8, both box 9, so no 6 in r7c7 and none in r7c8.": (
        "r7c7 r7c8 not 6 because claiming 6 in r9 within b9"
    ),
    "In column 5, the digits 4 and 8 can go only in row 2 and row 9, so r2c5 and r9c5 are a hidden pair of 4 and 8. "
    "They must be kept free for these two, and so we take the 3 and the 7 out of r9c5.": (
        "r9c5 not 3 7 because hidden pair 4 8 at r2c5 r9c5 in c5"
    ),
    "r2c3, r2c6 and r2c8 are a naked triple on 2, 3 and 5 in row 2, so r2c4 loses 2 and it loses 5 and 4 as well.": (
        "r2c4 not 2; r2c4 not 5 4 because naked triple 2 3 5 at r2c3 r2c6 r2c8 in r2"
    ),
    "Rows 2, 5 and 8 have their 4s only in columns 1, 4, 7, apart from r5c3. r5c3 is therefore a fin, and r4c1 loses 4.": (
        "r4c1 not 4 because finned swordfish on 4 in r2 r5 r8 cover c1 c4 c7 fins r5c3"
    ),
    "Either r8c8 is an 8 or it isn't. Say it isn't. Then r8c4 is an 8. Then r5c6 is an 8. So "
    "r8c8 or r5c6 is an 8. 8 goes from r5c8.": (
        "r5c8 not 8 because chain r8c8 not 8 then r8c4 is 8 then r5c6 is 8"
    ),
    "r1c3 is not 2, and neither is r2c9, r1c7 and r3c8 lose their 3s. Why? r2c3, r2c7 and r2c9 "
    "are a naked triple of 2, 3 and 9.": (
        "r1c3 not 2; r2c9 not 2; r1c7 r3c8 not 3 because naked triple 2 3 9 at r2c3 r2c7 r2c9"
    ),
    "We can't have a 3 in r5c8 or r6c3, r4c1 and r5c4 can't be a 6, as r5c1, r5c3 and r5c4 are a naked triple of 3, 6 and 7.": (
        "r5c8 r6c3 not 3; r4c1 r5c4 not 6 because naked triple 3 6 7 at r5c1 r5c3 r5c4"
    ),
    "There are no 5s, 7s or 8s outside r2c9, r6c9 and r7c9, so r2c9 is not a 3.": (
        "r2c9 not 3 because hidden triple 5 7 8 at r2c9 r6c9 r7c9"
    ),
    "No other cell of column 6 can be 9. The reason is that there's a hidden pair of 1 and 9 in row 9, in columns 4 and 6.": (
        "rest of c6 not 9 because hidden pair 1 9 at r9c4 r9c6"
    ),
    "Either r2c6 is a 5 or it is an 8. In the first case r5c6 is an 8, in the second it's a 5. Cross out the 8 in r4c6.": (
        "r4c6 not 8 because naked pair 5 8 at r2c6 r5c6"
    ),
    "Either r5c7 is a 1 or it is a 4. In the first case r9c7 is an 8; in the second r5c1 is. So r9c1 is not an 8.": (
        "r9c1 not 8 because xy-wing pivot r5c7 wings r9c7 r5c1"
    ),
    "r7c5 is either a 5 or a 9. If it's a 9, then r7c6 is a 3, then r7c4 is a 5. Either way "
    "r7c5 or r7c4 is a 5. r7c9 is not a 5.": (
        "r7c9 not 5 because chain r7c5 not 5 then r7c5 is 9 then r7c6 is 3 then r7c4 is 5"
    ),
    "There's a finned X-wing of 2s in rows 2 and 8 and column 2 and column 4, with fins at r8c1 and r8c3. r3c2 is not a 2.": (
        "r3c2 not 2 because finned x-wing on 2 in r2 r8 cover c2 c4 fins r8c1 r8c3"
    ),
    "The seventh cell of row 1 has only 4, and r1c8 has only 6. That's two cells for two "
    "digits, 4 and 6. So r1c2 is not a 6.": (
        "r1c2 not 6 because naked pair 4 6 at r1c7 r1c8"
    ),
    "Here's what we know: the 3 of row 4 is in r4c4. It follows that r5c5 can't be a "
    "3.": "r5c5 not 3 because facts r4c4, 3 in r4",
    "I say that r3c2 is not a 1. Suppose r3c4 is not a 1. Then r1c4 has to be a 1. In other words, r3c4 or r1c4 is a 1.": (
        "r3c2 not 1 because chain r3c4 not 1 then r1c4 is 1"
    ),
    "The middle-left and middle-right cells of box 6 are a naked pair of 2 and 3. Take the 2 out of box 6's top-left cell.": (
        "r4c7 not 2 because naked pair 2 3 at r5c7 r5c9"
    ),
    "In box 3, the 7s are confined to row 2. So no other 7 in row 2.": "rest of r2 not 7 because pointing 7 in b3 along r2",
    "All 9s of column 7 are in box 6. 9 goes from the rest of that box.": "rest of b6 not 9 because claiming 9 in c7 within b6",
    "The naked pair 3 and 8 in r1c1 and r1c4 removes 3 from r1c7.": "r1c7 not 3 because naked pair 3 8 at r1c1 r1c4",
    "See r1c8, r2c7 and r3c8? These three cells are 1, 2 and 6, and so we lose 6 from row 1 column 4.": (
        "r1c4 not 6 because naked triple 1 2 6 at r1c8 r2c7 r3c8"
    ),
    "Hidden triple 237 at r5c8, r5c9 and r6c7 in box 6; no other cell of column 7 can be 2; r6c7 loses 8.": (
        "rest of c7 not 2; r6c7 not 8 because hidden triple 2 3 7 at r5c8 r5c9 r6c7 in b6"
    ),
    "Row 3, column 8 is 9; no reason is given.": "r3c8 = 9",
    "The naked pair 3 and 8 is at r1c1 and r1c4, so take whatever follows.": "... because naked pair 3 8 at r1c1 r1c4",
    "There is an X-wing on 5 in rows 2 and 7, covered by columns 3 and 8, so r4c3 is 2; also r1c1 is 3.": (
        "r4c3 = 2; r1c1 = 3 because x-wing on 5 in r2 r7 cover c3 c8"
    ),
    "All the facts we need are the candidates of r4c3, so r4c3 is 2.": "r4c3 = 2 because facts r4c3",
    "A chain: if r1c1 is 5, then r1c4 is 3. By this chain, r2c2 is 7.": "r2c2 = 7 because chain r1c1 is 5 then r1c4 is 3",
    "There's an x-wing on 5 in rows 2 and 7, columns 3 and 8. Strike the 5 from r4c3.": (
        "r4c3 not 5 because x-wing on 5 in r2 r7 cover c3 c8"
    ),
    "In rows 2 and 7, 5 can only go in columns 3 and 8; r4c3 isn't 5.": "r4c3 not 5 because x-wing on 5 in r2 r7 cover c3 c8",
    "The 4s in columns 3, 4, 8 and 9 would be a jellyfish in rows 2, 4, 7 and 9, if it weren't for r5c3. That extra cell is a "
    "fin. I can cross 4 off in row 4 column 2.": (
        "r4c2 not 4 because finned jellyfish on 4 in c3 c4 c8 c9 cover r2 r4 r7 r9 fins r5c3"
    ),
    "With the pivot at r1c1 and wings r1c5 and r4c1, 7 goes from any cell that sees both ends.": (
        "? not 7 because xy-wing pivot r1c1 wings r1c5 r4c1"
    ),
    "If r1c1 is 3, r1c5 is 7, and if r1c1 is 5, r4c1 is 7, so either way r4c5 can't be 7.": (
        "r4c5 not 7 because xy-wing pivot r1c1 wings r1c5 r4c1"
    ),
    "XY-chain on 6 from r2c7 to r9c9: 6-r2c7-2-r2c8-6-r9c8-9-r9c9-6. 6 goes from r2c3.": (
        "r2c3 not 6 because xy-chain 6 r2c7 2 r2c8 6 r9c8 9 r9c9 6"
    ),
    "r4c7 or r4c8 is 4 in their box; so is r4c2 or r6c3 in their box. So one of r4c7 and r6c3 is 4. The 4s can be struck from "
    "cells that see both ends.": "? not 4 because x-chain on 4: r4c7 r4c8 r4c2 r6c3",
    "If r2c3 is not 4, then r2c8 is 4, which makes r5c8 7. So r5c3 cannot be 7 either way.": (
        "r5c3 not 7 because chain r2c3 not 4 then r2c8 is 4 then r5c8 is 7"
    ),
    "Start from r7c7: the rest of row 7 loses 5, and also no 5 at r2c7 and r4c7.": (
        "rest of r7 not 5; r2c7 r4c7 not 5 because facts r7c7"
    ),
    "Two cells of column 3, at rows 5 and 8, share the digits 1 and 7 and no others. No other cell of column 3 can then be 1 "
    "or 7.": "rest of c3 not 1 7 because naked pair 1 7 at r5c3 r8c3",
    "As a naked quad, 3, 4, 6 and 8, occupies c1r7, c2r7, c3r7 and c9r7, c4r7 may not hold 3, 4, 6 or 8.": (
        "r7c4 not 3 4 6 8 because naked quad 3 4 6 8 at r7c1 r7c2 r7c3 r7c9"
    ),
    "A naked pair of 3 and 7 at c69r1 costs the other cells of column 6 the 3; c8r1 the 3 and 7; c9r5 the 7.": (
        "rest of c6 not 3; r1c8 not 3 7; r5c9 not 7 because naked pair 3 7 at r1c6 r1c9"
    ),
    "There's a naked pair, three and eight in c4r6 and c4r7. That tells us three is gone from c4r3, and c4r7 and c6r4 lose "
    "eight.": "r3c4 not 3; r7c4 r4c6 not 8 because naked pair 3 8 at r6c4 r7c4",
    "Cross the 3 out of the 5th cell in the 8th column and cross the 9 out of 3rd row, 8th column. Why? In the 8th column, 2, "
    "3 and 7 are a hidden triple in the cells in the 2nd, 3rd and 5th rows.": (
        "r5c8 not 3; r3c8 not 9 because hidden triple 2 3 7 at r2c8 r3c8 r5c8 in c8"
    ),
    "An X-chain on three takes us from c5r5 to c2r6, by way of c6r5 and c6r6. c2r3 loses three.": (
        "r3c2 not 3 because x-chain on 3: r5c5 r5c6 r6c6 r6c2"
    ),
    "X-chain of 2s. Start at the 6th row's 8th cell, then the same column's 2nd cell, then the 2nd cell in the 7th column, "
    "then the 7th column's 6th cell. 2 won't fit in the 9th cell of the 6th row.": (
        "r6c9 not 2 because x-chain on 2: r6c8 r2c8 r2c7 r6c7"
    ),
    "There's an XY-chain from the first row's fifth cell. Not 2 there means seven, so the eighth row's fifth cell is four, so "
    "the eighth row's fourth cell is two. You know what that does: sixth column, third row can't be a 2.": (
        "r3c6 not 2 because xy-chain 2 r1c5 7 r8c5 4 r8c4 2"
    ),
    "We need just this: the seventh cell in the seventh column. Then cross out the 5 everywhere else in the seventh row.": (
        "rest of r7 not 5 because facts r7c7"
    ),
    "The rest of the 6th box loses the 6, and the 6 comes out of the 4th column's 6th cell. You'll see it from 9th column, 6th "
    "row.": "rest of b6 not 6; r6c4 not 6 because facts r6c9",
    "Neither r1c5 nor r1c6 can be 3.": "r1c5 r1c6 not 3",
    "Start from the 2 of column 2: no 2 at r8c1 and r8c2 cannot be 5 or 7.": "r8c1 not 2; r8c2 not 5 7 because facts 2 in c2",
    "In row 3, 2 and 6 fit only in r3c4 and r3c8, so that leaves just 2 and 6 in those two cells.": (
        "r3c4 r3c8 not ? because hidden pair 2 6 at r3c4 r3c8 in r3"
    ),
    "In box 5, 1, 5 and 9 have only r4c4, r4c5 and r5c6 to go to. Everything but 1, 5 and 9 goes from all three.": (
        "r4c4 r4c5 r5c6 not ? because hidden triple 1 5 9 at r4c4 r4c5 r5c6 in b5"
    ),
    "The hidden pair 2-6 in r3c4 and r3c8 means everything except 2 and 6 can be erased from those cells.": (
        "r3c4 r3c8 not ? because hidden pair 2 6 at r3c4 r3c8"
    ),
    "Hidden triple 2, 5, 8 in r1c1, r1c4 and r1c9. Only 2, 5 and 8 may stay in these cells.": (
        "r1c1 r1c4 r1c9 not ? because hidden triple 2 5 8 at r1c1 r1c4 r1c9"
    ),
    "The 2s and 6s of row 3 have nowhere to go but r3c4 and r3c8, which therefore keep only 2 and 6.": (
        "r3c4 r3c8 not ? because hidden pair 2 6 at r3c4 r3c8 in r3"
    ),
    "Hidden pair: 2 and 6 live only in r3c4 and r3c8 in row 3. Both cells are down to 2 and 6.": (
        "r3c4 r3c8 not ? because hidden pair 2 6 at r3c4 r3c8 in r3"
    ),
    "Because r7c2 and r7c5 conceal a hidden pair of 6 and 7, those two cells lose all their other candidates.": (
        "r7c2 r7c5 not ? because hidden pair 6 7 at r7c2 r7c5"
    ),
    "c8r5 keeps only 1, 6 and 8. To see why, work through the 2 of box 5.": "r5c8 not ? because facts 2 in b5",
    "Suppose c7r2 is not 2. Then it is 1, c3r3 is 1 and c7r3 is 5. So 1, 5 and 9 alone survive in c7r3.": (
        "r3c7 not ? because chain r2c7 not 2 then r2c7 is 1 then r3c3 is 1 then r3c7 is 5"
    ),
    "The naked pair 3 and 5 in r1c1 and r1c4: strike 3 from r1c7, 5 from r1c8, and both from r1c9.": (
        "r1c7 not 3; r1c8 not 5; r1c9 not ? because naked pair 3 5 at r1c1 r1c4"
    ),
    "2 comes out of the rest of column 7 and 8 out of r6c7. The ground for it is that 2, 3 and 7 make a hidden triple of "
    "r5c8, r5c9 and r6c7.": ("rest of c7 not 2; r6c7 not 8 because hidden triple 2 3 7 at r5c8 r5c9 r6c7"),
    "With 3 and 5 locked into r1c1 and r1c4, r1c7 can't be 3, r1c8 can't be 5 and r1c9 can be neither.": (
        "r1c7 not 3; r1c8 not 5; r1c9 not ? because hidden pair 3 5 at r1c1 r1c4"
    ),
    "r1c1 and r1c4 hold a naked pair of 3 and 5, so there's no way r1c7 could be 5.": (
        "r1c7 not 5 because naked pair 3 5 at r1c1 r1c4"
    ),
    "Since 5 in box 1 is limited to r2c1 and r2c3, it can't be in r2c7.": "r2c7 not ? because pointing 5 in b1 along r2",
    "Observe that the nine of the seventh column cannot escape the sixth box. Consequently no other cell of that box can "
    "be a nine.": ("rest of b6 not 9 because claiming 9 in c7 within b6"),
    "There isn't an eight in the bottom-right box that's not also in row eight, so r8c2 isn't 8.": (
        "r8c2 not 8 because pointing 8 in b9 along r8"
    ),
    "In row 3 the 4s are only in r3c1 and r3c7, in row 8 only in r8c2 and r8c7. So r2c1 isn't 4.": (
        "r2c1 not 4 because x-chain on 4: r3c1 r3c7 r8c7 r8c2"
    ),
    "In row 2 the 5s are only in r2c3 and r2c8, in row 7 only in r7c3 and r7c8. So r4c3 isn't 5.": (
        "r4c3 not 5 because x-wing on 5 in r2 r7 cover c3 c8"
    ),
    "r1c1 is 3 or 5, r1c5 is 3 or 7 and r4c1 is 5 or 7. So r4c5 can't be 7.": (
        "r4c5 not 7 because xy-wing pivot r1c1 wings r1c5 r4c1"
    ),
    "Whether r1c1 is 3 or 5, one of r1c5 and r4c1 will be 7, so r4c5 is not 7.": (
        "r4c5 not 7 because xy-wing pivot r1c1 wings r1c5 r4c1"
    ),
    "A 1 in r8c9 gives a 2 to r9c9, and a 6 gives it to r7c9, and so r9c8 must do without the 2.": (
        "r9c8 not 2 because xy-wing pivot r8c9 wings r9c9 r7c9"
    ),
    "XY-wing! Stand on c6r1, that's your pivot, and look at c6r5 and c6r9, those are your wings. So c6r6 loses its 8.": (
        "r6c6 not 8 because xy-wing pivot r1c6 wings r5c6 r9c6"
    ),
    "Either the fin, c8r6, is a 2, or columns 1, 3, 6 and 8 have a jellyfish of 2s in rows 2, 4, 5 and 7, which means "
    "c7r4 loses 2.": ("r4c7 not 2 because finned jellyfish on 2 in c1 c3 c6 c8 cover r2 r4 r5 r7 fins r6c8"),
    "Remove the 2 from r3c6, for the cells r1c5 (2 and 7), r8c5 (7 and 4), r8c4 (4 and 3) and r5c6 (3 and 2) are linked "
    "in an XY-chain.": ("r3c6 not 2 because xy-chain 2 r1c5 7 r8c5 4 r8c4 3 r5c6 2"),
    "An xy-chain runs from r2c7 via r2c8 and r9c8 to r9c9, with 6 at both ends. r2c9 can't be 6.": (
        "r2c9 not 6 because xy-chain r2c7 r2c8 r9c8 r9c9"
    ),
    "r2c3 not 4 -> r2c8 = 4 -> r5c8 = 7 -> r5c3 not 7.": ("r5c3 not 7 because chain r2c3 not 4 then r2c8 is 4 then r5c8 is 7"),
    "Were c5r3 to be 5, c4r2 would be 2, c5r3 would be 1 and it would not be 5, which is a contradiction. So c5r3 is not 5.": (
        "r3c5 not 5 because chain r3c5 is 5 then r2c4 is 2 then r3c5 is 1 then r3c5 not 5"
    ),
    "Let's say r5c6 is 3. Then r5c5 is 2. So r1c5 is 7. So r5c6 can't be 3, which is absurd. So the cell we began with "
    "isn't a 3.": ("r5c6 not 3 because chain r5c6 is 3 then r5c5 is 2 then r1c5 is 7 then r5c6 not 3"),
    "Suppose r2c3 isn't 4. Then r2c8 is 4 and r5c8 is 7. So r5c3, which sees r5c8, loses 7 either way.": (
        "r5c3 not 7 because chain r2c3 not 4 then r2c8 is 4 then r5c8 is 7"
    ),
    "From the 7 of column 1 and c7r7 alone it follows that c7r3 may not hold 1.": "r3c7 not 1 because facts r7c7, 7 in c1",
    "The candidates of r7c7 show that the other cells of the seventh row lose their fives.": (
        "rest of r7 not 5 because facts r7c7"
    ),
    "All we need here is the candidates of r7c7. From this we see that no other cell of the seventh row can be 5.": (
        "rest of r7 not 5 because facts r7c7"
    ),
    "The 3s in box 2 and row 5 are enough to rule out 3 at r5c4.": "r5c4 not 3 because facts 3 in b2, 3 in r5",
    "It's enough to look at r1c1 and r1c4 to see that r1c7 isn't 5.": "r1c7 not 5 because facts r1c1, r1c4",
    "All this follows because there is an X-wing on 5 in rows 2 and 7 and columns 3 and 8: r4c3 isn't 5.": (
        "r4c3 not 5 because x-wing on 5 in r2 r7 cover c3 c8"
    ),
    "We have a naked pair of 4 and 9 at r7c8 and r9c9. If one of them is 4, then the other one is 9. There's no 9 in r9c1.": (
        "r9c1 not 9 because naked pair 4 9 at r7c8 r9c9"
    ),
    "Look at the fives in columns 3 and 7. All of them are in rows 1 and 3. So there can be no 5 anywhere else in those "
    "rows.": ("? not 5 because x-wing on 5 in c3 c7 cover r1 r3"),
    "Because of the hidden quad of 1, 3, 5 and 8 at r7c1, r7c2, r7c4 and r7c5, r7c1 isn't 9.": (
        "r7c1 not 9 because hidden quad 1 3 5 8 at r7c1 r7c2 r7c4 r7c5"
    ),
    "The cells r5c1, r5c6, r5c8 and r5c9 are needed for 2, 3, 7 and 8, which can go nowhere else there; r5c6 is not 9.": (
        "r5c6 not 9 because hidden quad 2 3 7 8 at r5c1 r5c6 r5c8 r5c9"
    ),
    "Were r1c5 anything but 2, it would be 7, so r5c5 would be 2. So r6c5 isn't 2.": (
        "r6c5 not 2 because chain r1c5 not 2 then r1c5 is 7 then r5c5 is 2"
    ),
    "c6r3 gives up 2. The argument runs: if c5r1 is not 2, it is 7; that makes c6r5 2.": (
        "r3c6 not 2 because chain r1c5 not 2 then r1c5 is 7 then r5c6 is 2"
    ),
    "Try putting a 3 in row 4. You can only do it in the centre box, which means no other cell in that box can be 3.": (
        "rest of b5 not 3 because claiming 3 in r4 within b5"
    ),
    "A finned X-wing on 8: rows 4 and 8 in columns 2 and 5, and the fin is r4c6. There can't be another 8 in the centre box.": (
        "rest of b5 not 8 because finned x-wing on 8 in r4 r8 cover c2 c5 fins r4c6"
    ),
    "The 5s of column 5 all lie in one row; so r8c4 cannot be 5.": "r8c4 not 5 because claiming 5 in c5",
    "Cross out the 2 in r3c7. After all, if r2c7 isn't 2, it's 1, so r3c3 is, so r3c7 is five.": (
        "r3c7 not 2 because chain r2c7 not 2 then r2c7 is 1 then r3c3 is 1 then r3c7 is 5"
    ),
    "If row 2, column 6 is 2, then row 4, column 6 is not 2. It follows that row 5, column 6 is 2. "
    "From this we see that there can be no 2 in row 2, column 6.": (
        "r2c6 not 2 because chain r2c6 is 2 then r4c6 not 2 then r5c6 is 2"
    ),
    "Rows 4, 5, 6 and 7 between them take up the 8s of columns 2, 4, 5 and 9, and so 6 must leave r5c2; 8 must leave r5c9.": (
        "r5c2 not 6; r5c9 not 8 because jellyfish on 8 in r4 r5 r6 r7 cover c2 c4 c5 c9"
    ),
    "There is a jellyfish of 1s in columns 1, 3, 5 and 6, thereby disposing of 1 in r2c1; and 8 in r3c1.": (
        "r2c1 not 1; r3c1 not 8 because jellyfish on 1 in c1 c3 c5 c6"
    ),
    "The naked pair of 3 and 5 at r1c1 and r1c2 rids r1c7 of 3; and r1c9 of 5.": (
        "r1c7 not 3; r1c9 not 5 because naked pair 3 5 at r1c1 r1c2"
    ),
    "r1c1 and r1c2 form a naked pair of 3 and 5. r1c7 must let go of 3.": "r1c7 not 3 because naked pair 3 5 at r1c1 r1c2",
    "Scratch 3 from r1c7. My reason is that r1c1 and r1c2 form a naked pair of 3 and 5.": (
        "r1c7 not 3 because naked pair 3 5 at r1c1 r1c2"
    ),
    "The column-3, column-6 and column-7 cells of row 8 are a naked triple of 2, 4 and 9, and r8c1 loses 4.": (
        "r8c1 not 4 because naked triple 2 4 9 at r8c3 r8c6 r8c7"
    ),
    "Owing to a hidden triple of 2, 3 and 7 consisting of column 8 at rows 2, 3 and 5, column 8's row-5 cell cannot be 4.": (
        "r5c8 not 4 because hidden triple 2 3 7 at r2c8 r3c8 r5c8"
    ),
    "Because columns 3 and 4 form an X-wing on 8 in rows 1 and 3, column 3 of row 7 is 2.": (
        "r7c3 = 2 because x-wing on 8 in c3 c4 cover r1 r3"
    ),
    "Either r2c7 is 2, or it is not. If r2c7 is not 2, then it is 1; r3c3 is 1; and so r3c7 is 5. One of two things is true, "
    "then: r2c7 is 2 or r3c7 is 5. For that reason r3c7 is left with 1, 5 and 9.": (
        "r3c7 not ? because chain r2c7 not 2 then r2c7 is 1 then r3c3 is 1 then r3c7 is 5"
    ),
    "Let us say that r4c3 is not 9. This forces the next link: it is 2. Then r7c1 is 2. From there, r2c1 is 9. For that reason "
    "9 is out of the question in the cells that see both ends of the chain.": (
        "? not 9 because chain r4c3 not 9 then r4c3 is 2 then r7c1 is 2 then r2c1 is 9"
    ),
    "Suppose for a moment that r5c6 were a 4. Then r7c6 would have to be a 5, since 4 and 5 are all it has, and that makes "
    "r9c6 a 4. Now there would be two 4s in column 6, so r5c6 isn't a 4 after all.": (
        "r5c6 not 4 because chain r5c6 is 4 then r7c6 is 5 then r9c6 is 4"
    ),
    "There is no room for 2 in r3c6, as I shall show. Let us say that r1c5 is not 2. From there, it is 7. Then r5c6 is 2. So "
    "either r1c5 or r5c6 is 2.": "r3c6 not 2 because chain r1c5 not 2 then r1c5 is 7 then r5c6 is 2",
    "3 is ruled out of r3c2, as I shall show. If r5c5 is not 3, then r5c6 is 3. With 3 in r5c6, r6c6 is not 3. Without 3 in "
    "r6c6, r6c2 is 3.": "r3c2 not 3 because chain r5c5 not 3 then r5c6 is 3 then r6c6 not 3 then r6c2 is 3",
    "If r6c3 is not 3, then r5c3 is: in box 4, r5c3 is the only other place. That r5c3 is 3 keeps it from r3c3. If r3c3 is not "
    "3, then r3c2 is. In the end r6c3 or r3c2 has to be 3. For that reason r4c2 is not 3.": (
        "r4c2 not 3 because chain r6c3 not 3 then r5c3 is 3 then r3c3 not 3 then r3c2 is 3"
    ),
    "There is no room for 4 in r4c2. The proof is short. Here is an X-chain on 4. In box 6 the 4 can only be in r4c7 or in "
    "r4c8. In box 4 the 4 can only be in r4c2 or in r6c3. r4c8 and r4c2 cannot both be 4.": (
        "r4c2 not 4 because x-chain on 4: r4c7 r4c8 r4c2 r6c3"
    ),
    "Clear 6 from r1c9; and 6 from r1c8. The proof is short. Go along rows 2, 4 and 6. Each of them has 6 in columns 4, 7 and "
    "8 and nowhere else.": "r1c9 not 6; r1c8 not 6 because swordfish on 6 in r2 r4 r6 cover c4 c7 c8",
    "r7c8 is down to 4, 6 and 8. You will ask why. The 3 of column 9 cannot be outside box 9.": (
        "r7c8 not ? because claiming 3 in c9 within b9"
    ),
    "r9c4 is left with 3 alone, as I shall show. Go along rows 3 and 9. Each of them has 3 in columns 3 and 4 and nowhere "
    "else. That is an X-wing.": "r9c4 = 3 because x-wing on 3 in r3 r9 cover c3 c4",
    "r7c3 is 9; after all, r7c3 (9 or 2), r4c3 (2 or 9), r6c2 (9 or 1) and r4c2 (1 or 9) make an XY-chain.": (
        "r7c3 = 9 because xy-chain 9 r7c3 2 r4c3 9 r6c2 1 r4c2 9"
    ),
    "You can cancel 9 in r5c6, as I shall show. Here is a hidden pair. The digits are 2 and 3, and the only cells for them are "
    "r5c1 and r5c6.": "r5c6 not 9 because hidden pair 2 3 at r5c1 r5c6",
    "She lives in rows 1, 2, 6 and 7, her columns are 1, 2, 6 and 7, and she has two fins, r1c3 and r2c3. Both r3c1 and r3c2 "
    "see the pair of them, so neither is a 1.": (
        "r3c1 r3c2 not 1 because finned jellyfish in r1 r2 r6 r7 cover c1 c2 c6 c7 fins r1c3 r2c3"
    ),
    "The first and third cells of column 8 and the second of column 7 are a naked triple of 1, 2 and 6. r1c4 loses 6.": (
        "r1c4 not 6 because naked triple 1 2 6 at r1c8 r3c8 r2c7"
    ),
    "r1c1 loses its 5. The proof is short. Look at r2c1 and r2c4. These two cells hold 5 and 7.": (
        "r1c1 not 5 because naked pair 5 7 at r2c1 r2c4"
    ),
    "No other cell of box 1 may be a 9. Here is the reason. If r4c3 is not 9, it is 2. Then r7c1 is 2. Consequently r2c1 is "
    "9.": ("rest of b1 not 9 because chain r4c3 not 9 then r4c3 is 2 then r7c1 is 2 then r2c1 is 9"),
    "Suppose r2c6 is not 1. Then it is 2, which takes the 2 from r4c6. That makes r5c6 a 2. Therefore r2c6 is a 1, or else "
    "r5c6 is a 2. So r2c5 is not 2.": ("r2c5 not 2 because chain r2c6 not 1 then r2c6 is 2 then r4c6 not 2 then r5c6 is 2"),
    "As 3 and 5 are confined to r1c1 and r1c2, r1c1 is denied the 4.": "r1c1 not 4 because hidden pair 3 5 at r1c1 r1c2",
    "r8c9 is either a 1, which forces a 2 into r9c9, or a 6, which forces a 2 into r7c9. So r8c8 is not 2.": (
        "r8c8 not 2 because xy-wing pivot r8c9 wings r9c9 r7c9"
    ),
    "r8c5 holds 2 or 1. In the first case r8c4 is a 3, in the second r8c6 is a 3. So r9c5 is not 3.": (
        "r9c5 not 3 because xy-wing pivot r8c5 wings r8c4 r8c6"
    ),
    "The XY-wing has r9c1 for its pivot and r7c2 and r9c7 for its wings, and so r9c3 is not 9.": (
        "r9c3 not 9 because xy-wing pivot r9c1 wings r7c2 r9c7"
    ),
    "Outside columns 1 and 7 there is no 9 in rows 2 and 5, so r6c7 is not 9.": (
        "r6c7 not 9 because x-wing on 9 in c1 c7 cover r2 r5"
    ),
    "Suppose that no fin is a 2, the only fin being r6c8. Then columns 1 and 3 have their 2s in rows 2 and 4, as an X-wing. "
    "So r4c7 is not 2.": ("r4c7 not 2 because finned x-wing on 2 in c1 c3 cover r2 r4 fins r6c8"),
    "By the candidates of r5c7 alone we see that r5c9 is not 9.": "r5c9 not 9 because facts r5c7",
    "The places for 2 in box 5 allow us to strike the 2 from r5c8.": "r5c8 not 2 because facts 2 in b5",
    "The 9 of box 7 is claimed by row 9, and the rest of box 7 has no further use for its 9.": (
        "rest of b7 not 9 because claiming 9 in r9 within b7"
    ),
    "r4c1 or r2c1 is a 1, for their column has no other cell for it. r2c1 and r2c8 see each other and are not both a 1. The "
    "box of r2c8 and r3c8 has its 1 in one of these two. So r4c8 is not 1.": (
        "r4c8 not 1 because x-chain on 1: r4c1 r2c1 r2c8 r3c8"
    ),
}
SPEECH = {
    "so the middle left box needs a five and where can that go only row six column 1": "r6c1 = 5 because hidden single in b4",
    "so what goes 6 from row 4 column eight": "r4c8 not 6",
    "can four and six go anywhere else in column two but row 2 column two and row five column 2 no so that's a hidden pair so "
    "what happens well there's no room for anything else in those two cells": (
        "r2c2 r5c2 not ? because hidden pair 4 6 at r2c2 r5c2 in c2"
    ),
    "no six in row four column one none in row five column one": "r4c1 r5c1 not 6",
    "in row nine the third column is free and so row three column three is a seven": "r3c3 = 7 because naked single",
    "same box threes row four has a three so row five column two is three": "r5c2 = 3 because hidden single in b4",
    "row 5 has a hidden pair 3 7 in columns 1 and 6 that means the rest of column 6 loses the 3": (
        "rest of c6 not 3 because hidden pair 3 7 at r5c1 r5c6 in r5"
    ),
    "columns one and six are the only places in row five for two and three and so nothing else can go in both cells": (
        "r5c1 r5c6 not ? because hidden pair 2 3 at r5c1 r5c6 in r5"
    ),
    "and the four in column two can't be in row five so it's in row eight column two": (
        "r8c2 = 4 because hidden single in c2"
    ),
    "row 4 where does the six go it's in column two or in column three and both of those are in box four so the six can't be "
    "anywhere else in box four": "rest of b4 not 6 because claiming 6 in r4 within b4",
    "in row 6 column one is four or nine and column eight is four or nine as well so that's a naked pair so row six column "
    "five can't be four and can't be nine": "r6c5 not 4; r6c5 not 9 because naked pair 4 9 at r6c1 r6c8",
    "row two column 7 four and nine are in the row six is in the box so it's got to be a three": (
        "r2c7 = 3 because hidden single in r2"
    ),
    "box six wants a two still and um it can only be in row five column nine": "r5c9 = 2 because hidden single in b6",
    "what can you put in row 8 column eight hang on it's just a seven isn't it": "r8c8 = 7 because naked single",
    "column 9 needs a five not here not here not there either so that leaves row two column nine for it": (
        "r2c9 = 5 because hidden single in c9"
    ),
    "you see row 1 column 4 that's where box two has to put its six": "r1c4 = 6 because hidden single in b2",
    "the first cell of row three yeah that's a 4 or its column doesn't get one": "r3c1 = 4 because hidden single in c1",
    "is there anything row 5 column 7 can be that isn't a six": "r5c7 = 6 because naked single",
    "every other cell in box eight says no to the two so row 9 column four has to say yes": (
        "r9c4 = 2 because hidden single in b8"
    ),
    "i thought i had an x wing on sevens in columns 1 and 5 and rows 2 and 8 but there's row nine column 5 so it's a finned "
    "one and so row 8 column 4 can't be a seven": "r8c4 not 7 because finned x-wing on 7 in c1 c5 cover r2 r8 fins r9c5",
    "why isn't row 6 column 3 a two well because there's a hidden pair in row six on 4 and 5 and it's in columns three and 8": (
        "r6c3 not 2 because hidden pair 4 5 at r6c3 r6c8 in r6"
    ),
    "we can say goodbye to the nine in the forth and sixth sells of row two how do i know well there's a naked pair of 8 and 9 "
    "in row two column one and row two column 2": "r2c4 r2c6 not 9 because naked pair 8 9 at r2c1 r2c2",
    "i've got fours in row 1 column 2 row 1 column 8 row 6 column 2 and row six column eight and no others in those rows so "
    "that's an x wing and the four goes from the rest of those columns": "? not 4 because x-wing on 4 in r1 r6 cover c2 c8",
    "so row 3 column 9 comes out as an eight because it's a naked single": "r3c9 = 8 because naked single",
    "in box nine where can the three go only row 8 column 8": "r8c8 = 3 because hidden single in b9",
    "the middle box has eight of its nine numbers now so the missing 8 drops into row six column 4": (
        "r6c4 = 8 because last cell in b5"
    ),
    "column four still wants a one and i can see a single place for it row six column four": (
        "r6c4 = 1 because hidden single in c4"
    ),
    "there's a naked pair 4 9 in row 2 columns 1 and 4 meaning there's no way row 2 column 7 could be nine": (
        "r2c7 not 9 because naked pair 4 9 at r2c1 r2c4"
    ),
    "think through row 1 column 6 and row 3 column 4 and you find that the 9 comes out of row 2 column 4": (
        "r2c4 not 9 because facts r1c6, r3c4"
    ),
    "whatever you do with row 7 column 7 you get the same thing no other cell in row seven can be a five": (
        "rest of r7 not 5 because facts r7c7"
    ),
    "there's an xy chain row two column seven if it's not a 6 is two and then row 2 column 8 is six and then row 9 column 8 is "
    "nine and then row 9 column 9 is six so row two column seven and row nine column 9 can't both miss the six meaning row two "
    "column 3 loses the six": "r2c3 not 6 because xy-chain 6 r2c7 2 r2c8 6 r9c8 9 r9c9 6",
    "row four has to have a five somewhere and everywhere's shut bar r4 column 8": "r4c8 = 5 because hidden single in r4",
    "i can fill in row 1 column 1 since the one candidate in there is 4": "r1c1 = 4 because naked single",
}
"""As speech recognition writes it, without full stops."""
TALK = (
    "This is the Lamp Room puzzle, number 1, if you want to print it.",
    "Good evening, and welcome back to the lamp room.",
    "That was quick.",
    "Two loaves, a box of candles and oil for the lamp.",
    "Bonsoir, et bienvenue dans la salle de la lampe.",
    "Where does the 7 go in box 3?",
    "Four cups of tea later, here we are.",
    "One of them gets the 3, the other one the 5.",
    "A 4 and a 6 in the last two rows, and the kettle is on -> tea.",
    "We keep only two lamps lit, and everything but the kettle is packed.",
    "That leaves nothing but tea in the pot.",
    "And that's the 1 done.",
    "With the 7s out of the way, a cup of tea.",
)


def read(text: str) -> Narration:
    return read_narration(read_prose(text), geometry(9))


@pytest.mark.parametrize(("text", "statement"), [*SINGLES.items(), *PATTERNS.items(), *SPEECH.items()])
def test_most_literal_reading(text: str, statement: str) -> None:
    narration = read(text)
    assert [[write_statement(step)[0] for step in reading.alternatives[0]] for reading in narration.readings] == [[statement]]


def test_a_box_is_told_by_the_way_to_it_and_its_missing_is_it_is() -> None:
    told = {
        "The 3 of the top-left box is in r1c1. The box below it needs a 3, and column 2 has one; only r5c3 remains.": [
            "r1c1 = 3 because hidden single in b1",
            "r5c3 = 3 because hidden single in b4",
        ],
        # No box lies to the left of box 1: nothing is made up.
        "The 3 of the top-left box is in r1c1. The box to the left of it needs a 3, and only r5c3 remains.": [
            "r1c1 = 3 because hidden single in b1",
            "r5c3 = 3 because hidden single",
        ],
        "where can the one of column five go row one has a one and box five has a one already so its in row two column five": [
            "r2c5 = 1 because hidden single in c5",
        ],
    }
    for text, steps in told.items():
        assert [write_statement(reading.alternatives[0][0])[0] for reading in read(text).readings] == steps


@pytest.mark.parametrize("text", TALK)
def test_talk_comes_to_nothing(text: str) -> None:
    narration = read(text)
    assert narration.readings == ()
    assert set(narration.kinds) == {"talk"}


def test_what_the_board_does_not_have_is_unread() -> None:
    narration = read("The 7 goes in row 12, column 3.")
    assert [reading.alternatives for reading in narration.readings] == [()]
    assert narration.kinds == ("unread",)


@pytest.mark.parametrize("text", ["Box 9 gets its own 8 at r8c5.", "Where's the 8 in box 9? It can only be at r8c5."])
def test_a_digit_put_in_a_house_that_does_not_hold_its_cell_is_no_lesser_claim(text: str) -> None:
    (reading,) = read(text).readings
    told = [" ".join(write_statement(step)) for option in reading.alternatives for step in option]
    assert told in (
        ["r8c5 = 8 because hidden single in b9", "r8c5 = 8 because last cell in b9"],
        ["r8c5 = 8 because hidden single in b9"],
    )


def test_the_board_decides_between_readings() -> None:
    (reading,) = read("A pair, 3 and 8, at r1c1 and r1c4: strike 3 from r1c7.").readings
    names = [step.reason.name.value for (step,) in reading.alternatives if step.reason]
    assert names == ["naked pair", "hidden pair"]


SMALL = ".23.......4..3.1"


def test_a_slip_is_flagged_at_its_sentence_and_a_recap_is_talk() -> None:
    text = "In box 1 the only place for a 3 is r2c1. So r2c1 is 3. Row 1, column 4 can only be a 2."
    report = audit(text, grid=SMALL, kind="narration")
    assert [(f.code, f.line, f.column) for f in report.findings if f.severity != "note"] == [("effect-refuted", 1, 86)]
    assert report.sentences is not None
    assert (report.sentences.total, report.sentences.claims, report.sentences.talk, report.sentences.unread) == (3, 2, 1, 0)


def test_whole_sentences_in_quotation_marks_are_talk() -> None:
    """Somebody else's words; but where everything is quoted, that is how the narration is written."""
    opened, closed = "\N{LEFT DOUBLE QUOTATION MARK}", "\N{RIGHT DOUBLE QUOTATION MARK}"
    first, last = "In box 1 the only place for a 3 is r2c1.", f"Row 1, column 4 can {opened}only{closed} be 4."
    report = audit(f"{first} {opened}Row 1, column 4 is 2. Or is it?{closed} {last}", grid=SMALL, kind="narration")
    assert [step.technique for step in report.steps] == ["hidden single", "naked single"]
    assert report.sentences == Sentences(4, 2, 2, 0)
    assert len(read(f"{opened}{first}{closed} {opened}Row 1, column 4 can only be 4.{closed}").readings) == 2
    assert len(read(f"{opened}{first}\n\n{last}{closed}").readings) == 2


def test_speech_is_taken_by_sound_and_says_so() -> None:
    text = "in box won the only place for a tree is row too column won okay so row one column for can only be a for"
    report = audit(text, grid=SMALL, kind="narration")
    assert [step.verdict for step in report.steps] == ["warranted", "warranted"]
    heard = [f.problem.details["found"] for f in report.findings if f.code == "taken-by-sound"]
    assert heard == ["won", "tree", "too", "won", "for", "for"]


def test_another_grid_is_said_once() -> None:
    text = "r1c1 is 4. r1c4 is 1. r2c1 is 2. r2c2 is 3. r2c3 is 4. r2c4 is 1."
    assert [finding.code for finding in audit(text, grid=SMALL, kind="narration").findings] == ["other-grid"]


def test_times_and_marks_of_prose() -> None:
    transcript = read_prose("# Heading\n\n[2:40] The **7** goes\nin `r1c1`.\n\n- 0:03:01 Next\n<!-- no words -->\n")
    shown = [(p.text, p.line, p.column, p.time) for p in transcript.passages]
    assert shown == [
        ("Heading", 1, 3, None), ("The   7   goes", 3, 8, 160.0), ("in  r1c1 .", 4, 1, 160.0), ("Next", 6, 11, 181.0),
    ]  # fmt: skip


WORDS = st.sampled_from(
    "row column box cell the a of in and or not only place for 3 7 r1c1 r4c7 seven fourth pair naked x-wing if then so because "
    "it is can't be goes remove from rest either way one two both . , ; : ? - ( ) 4,7 pivot wings fin chain r0c0 99".split()
)


CLAUSES = st.sampled_from(
    [*SINGLES, *PATTERNS, *TALK, "If it is 3, then", "if r1c1 is", "that is 5", "So r4c4", "both of them", "the other one is 7"]
)


@settings(max_examples=200, deadline=None)
@given(st.one_of(st.lists(CLAUSES, max_size=6).map(" ".join), st.lists(WORDS, max_size=40).map(" ".join), st.text(max_size=80)))
def test_never_raises_and_accounts_for_every_sentence(text: str) -> None:
    narration = read(text)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    assert set(narration.kinds) <= {"claim", "talk", "unread"}
    for reading in narration.readings:
        assert all(0 <= number < len(narration.kinds) for number in reading.sentences)
        assert all(narration.kinds[number] != "talk" for number in reading.sentences)
        assert 1 <= reading.span.line <= len(lines)
        assert 1 <= reading.span.column < reading.span.end <= len(lines[reading.span.line - 1]) + 2
        for option in reading.alternatives:
            for step in option:
                assert step.span.line >= 1
                assert step.reason is None or step.reason.name.span.line >= 1


def test_the_last_of_a_list_is_the_subject_of_a_verb_in_the_singular() -> None:
    readings = read("As r3c4 is down to the 8, the 2 belongs to r1c4.").readings
    assert [write_statement(reading.alternatives[0][0])[0] for reading in readings] == [
        "r3c4 = 8 because naked single",
        "r1c4 = 2 because naked single",
    ]


def test_after_much_talk_another_step_begins() -> None:
    text = "Naked pair 3 and 5 at r1c1 and r1c2: 3 goes from r1c7. Good. A boat is in, and I must see to it. Take 3 from r5c6."
    statements = [write_statement(reading.alternatives[0][0])[0] for reading in read(text).readings]
    assert statements == ["r1c7 not 3 because naked pair 3 5 at r1c1 r1c2", "r5c6 not 3"]


def test_cells_beside_others() -> None:
    text = (
        "r4c2 can only be 2, and the one right under it only a 7. The cell to the left of row 6, column 4 can only be 8. "
        "The cell above it, r5c3, can only be 4. r1c1 can only be 5. The one above it can only be 3."
    )
    statements = [write_statement(step)[0] for reading in read(text).readings for step in reading.alternatives[0]]
    told = [("r4c2", 2), ("r5c2", 7), ("r6c3", 8), ("r5c3", 4), ("r1c1", 5)]
    assert statements == [*(f"{cell} = {digit} because naked single" for cell, digit in told), "? = 3 because naked single"]


def test_pronouns_stand_for_the_cells_named_last() -> None:
    narration = read("r1c1 and r1c4 are the only places for 3 and 8 in row 1. We can take the 5 out of those two cells.")
    (reading,) = narration.readings
    assert write_statement(reading.alternatives[0][0])[0] == "r1c1 r1c4 not 5 because hidden pair 3 8 at r1c1 r1c4 in r1"


def test_what_is_left_in_a_naked_pair_is_no_effect() -> None:
    (reading,) = read("r1c1 and r1c4 are a naked pair: both keep only 3 and 5. So r1c7 can't be 3.").readings
    assert write_statement(reading.alternatives[0][0])[0] == "r1c7 not 3 because naked pair 3 5 at r1c1 r1c4"


def test_a_remark_that_a_cell_keeps_several_digits_claims_no_step() -> None:
    assert all(not reading.alternatives for reading in read("r5c8 keeps only 1, 6 and 8.").readings)


def test_a_placement_with_an_article_is_no_supposition() -> None:
    (reading,) = read("A 5 in r1c1 is the only option there.").readings
    assert write_statement(reading.alternatives[0][0])[0] == "r1c1 = 5 because naked single"


def test_which_row_the_places_share_is_left_to_the_board() -> None:
    (reading,) = read("The twos that remain in box 5 share a row, so r4c9 is not 2.").readings
    along = [str(step.reason.slots[-1].values[0].value) for (step,) in reading.alternatives if step.reason]
    assert along == ["r4", "r5", "r6"]
    assert not reading.forced


def test_a_sentence_that_tells_a_step_in_full_begins_one() -> None:
    text = (
        "The naked pair 3 and 5 in r1c1 and r1c4 costs r1c7 the 3. "
        "Because r2c2 and r2c5 are a naked pair of 1 and 7, r2c9 isn't 7. Also, r2c8 isn't 1."
    )
    assert [write_statement(reading.alternatives[0][0])[0] for reading in read(text).readings] == [
        "r1c7 not 3 because naked pair 3 5 at r1c1 r1c4",
        "r2c9 not 7; r2c8 not 1 because naked pair 1 7 at r2c2 r2c5",
    ]


def test_only_a_place_whose_name_is_explained_claims_nothing() -> None:
    explained = 'So "column 7, row 4" means go across to the seventh column and then down to the fourth row.'
    assert read(explained).kinds == ("talk",)
    assert [told.sentences for told in read('A "naked pair" means that r1c4 loses 3.').readings] == [(0,)]


BY_WITNESS_OR_QUESTION = {
    "The 8 in r3c1 keeps it out of r7c1, so the 8 of row 7 goes in r7c3.": "r7c3 = 8 because hidden single in r7",
    "The 4 in r9c7 stops r7c9, r8c9 and r9c9 from being 4, and that leaves just r5c9 for the 4.": (
        "r5c9 = 4 because hidden single"
    ),
    "Columns 1, 2, 3 and 9 at row 7 are a naked quad of 3, 4, 6 and 8. So r7c4 loses 3.": (
        "r7c4 not 3 because naked quad 3 4 6 8 at r7c1 r7c2 r7c3 r7c9"
    ),
    "Run your finger down column 3 until you get to row 4. That cell can only be a 7.": "r4c3 = 7 because naked single",
    "Which digit is missing from row 9? It is 8, and the open cell is column 5 row 9.": "r9c5 = 8 because last cell in r9",
    "Where's the 6 in box 6? Not in row 4, because there's a 6 in it. Can it be in row 5? No, that has a 6. So it's in r6c9.": (
        "r6c9 = 6 because hidden single in b6"
    ),
    "Where's the 8 in row 7? In column 3.": "r7c3 = 8 because hidden single in r7",
    "Let us look at row 2. Where does its 1 go? Column 6 sees the 1 in r1c6. So column 3 takes the 1.": (
        "r2c3 = 1 because hidden single in r2"
    ),
    "No 9 fits anywhere in box 4 except c3, row 5. So 9 there.": "r5c3 = 9 because hidden single in b4",
    "4 at r4c6. Nothing else in box 5 takes it.": "r4c6 = 4 because hidden single in b5",
    "Box 9 has one cell left, r8c9, so it takes the missing 1.": "r8c9 = 1 because last cell in b9",
    "Why do I say that r1c7 loses 3? A naked pair of 3 and 5 in r1c1 and r1c4.": (
        "r1c7 not 3 because naked pair 3 5 at r1c1 r1c4"
    ),
    "The 2 in box 5 might go here or there, but always in row 5. So r5c7 can't be 2.": (
        "r5c7 not 2 because pointing 2 in b5 along r5"
    ),
    "r5c6 is either 3 or not. Take the case where it is 3. So r5c5 is 2. In turn, r5c6 is not 3. It clashes. r5c6 is not 3.": (
        "r5c6 not 3 because chain r5c6 is 3 then r5c5 is 2 then r5c6 not 3"
    ),
    "Assume that r4c3 isn't a 9. What then? It must be a 2. And so? r7c1 is 2. So r4c1 can't be 2.": (
        "r4c1 not 2 because chain r4c3 not 9 then r4c3 is 2 then r7c1 is 2"
    ),
    "r3c2 can forget about being 3, because r3c5 and r3c7 are a naked pair of 3 and 5.": (
        "r3c2 not 3 because naked pair 3 5 at r3c5 r3c7"
    ),
    "The rest of row 3 loses four. Box 2 has no four outside row 3.": "rest of r3 not 4 because pointing 4 in b2 along r3",
    "The rest of row 9 loses 9. Strike 9 from r1c9. There's a naked pair of 4 and 9 in box 9, at r7c8 and r9c9.": (
        "rest of r9 not 9; r1c9 not 9 because naked pair 4 9 at r7c8 r9c9 in b9"
    ),
    "Why can we say that r7c1 is left with 2 and 9? Because columns 4 and 6 carry an X-wing of 3s in rows 1 and 7.": (
        "r7c1 not ? because x-wing on 3 in c4 c6 cover r1 r7"
    ),
    "r3c4 isn't going to be three, and out goes 8 from r4c6, and why? Because of a naked pair of 3 and 8 in r6c4 and r7c4.": (
        "r3c4 not 3; r4c6 not 8 because naked pair 3 8 at r6c4 r7c4"
    ),
    "Have a look at column 4. We want the 4. Row 3 is out, because the 4 at r3c7 sees it. Row 2 is all that's left.": (
        "r2c4 = 4 because hidden single in c4"
    ),
    "Stay with column 1. Row 2 is out, because the 8 at r2c9 sees it. What is left is row 5. So that one is an 8.": (
        "r5c1 = 8 because hidden single in c1"
    ),
    "Row 7 is the last of column 4 to be filled in. That one is a three.": "r7c4 = 3 because last cell in c4",
}


@pytest.mark.parametrize(("text", "statement"), BY_WITNESS_OR_QUESTION.items())
def test_a_reason_by_witnesses_questions_and_cases(text: str, statement: str) -> None:
    (reading,) = read(text).readings
    assert write_statement(reading.alternatives[0][0])[0] == statement


def test_another_effect_with_its_own_proof_begins_a_step() -> None:
    text = (
        "A naked pair of 3 and 5 in r1c1 and r1c4 costs r1c7 the 3. "
        "r9c5 can't be 3, because 2 and 4 in column 5 are confined to r1c5 and r8c5."
    )
    assert [reading.sentences for reading in read(text).readings] == [(0,), (1,)]


def test_either_of_two_cells_by_half_a_sentence_places_nothing() -> None:
    text = "Either r5c5 is 3, or r5c6 is. In the second case r6c6 is not 3 and r6c2 is. We have an X-chain on 3."
    statements = [write_statement(reading.alternatives[0][0])[0] for reading in read(text).readings]
    assert "r5c5, r5c6" in statements[0]  # both are what the step rests on
    assert not any("=" in statement for statement in statements)


CHAIN = "If r4c3 isn't 9, it is 2. Then r7c1 is 2. Then r2c1 is 9. So r3c2 is not 9."
CHAINED = "r3c2 not 9 because chain r4c3 not 9 then r4c3 is 2 then r7c1 is 2 then r2c1 is 9"
BORDERS = {
    # a chain ends where what comes next can neither be a link nor what it shows
    f"{CHAIN} r3c4 loses 8, because 1, 4 and 6 in row 3 fit only in columns 4, 5 and 7.": [
        CHAINED,
        "r3c4 not 8 because hidden triple 1 4 6 at r3c4 r3c5 r3c7 in r3",
    ],
    f"{CHAIN} Now r3c8 cannot be 4. The 4s of box 2 are all in row 3.": [
        CHAINED,
        "r3c8 not 4 because pointing 4 in b2 along r3",
    ],
    f"{CHAIN} If r4c4 isn't 6, then r4c6 is 6. Then r5c6 is 9. So r5c3 is not 9.": [
        CHAINED,
        "r5c3 not 9 because chain r4c4 not 6 then r4c6 is 6 then r5c6 is 9",
    ],
    "Suppose r4c3 is 1. Then r5c1 is 2. So r4c3 is not 1. None of r2c3 and r3c3 can be 1. Box 4 has its 1s in column 3.": [
        "r4c3 not 1 because chain r4c3 is 1 then r5c1 is 2",
        "r2c3 r3c3 not 1 because pointing 1 in b4 along c3",
    ],
    # a sentence that tells a whole step is no part of the one before
    "In row 5, 1, 3 and 6 are a hidden triple in columns 1, 6 and 8, so r5c6 loses 9. "
    "Nothing else in row 8 can be 1, so r8c9 is.": [
        "r5c6 not 9 because hidden triple 1 3 6 at r5c1 r5c6 r5c8 in r5",
        "r8c9 = 1 because hidden single in r8",
    ],
    "Every other cell of column 4 is closed to 3, so it goes in row 4. Because the 1 of box 6 has no other place, r6c8 is 1.": [
        "r4c4 = 3 because hidden single in c4",
        "r6c8 = 1 because hidden single in b6",
    ],
    "r6c9 can only be 9. Column 4 is full apart from row 7, so that has to be 8.": [
        "r6c9 = 9 because naked single",
        "r7c4 = 8 because last cell in c4",
    ],
    "r6c9 is 8. It is the last cell in column 9. One cell to go in row 6. Column 6 is 8.": [
        "r6c9 = 8 because last cell in c9",
        "r6c6 = 8 because last cell in r6",
    ],
    "In row 5, 1, 3 and 6 are a naked triple in columns 1, 6 and 8, so r5c9 loses 1. "
    "No other cell in row 8 can be 1. So r8c9 is.": [
        "r5c9 not 1 because naked triple 1 3 6 at r5c1 r5c6 r5c8 in r5",
        "r8c9 = 1 because hidden single in r8",
    ],
    # a pattern after a single is another step, and a name with an article belongs to what it follows
    "r5c8 is 8. Only one candidate there. It is a swordfish. "
    "In columns 4, 8 and 9 the 9s only go in rows 1, 3 and 9. r1c6 loses 9.": [
        "r5c8 = 8 because naked single",
        "r1c6 not 9 because swordfish on 9 in c4 c8 c9 cover r1 r3 r9",
    ],
    "r4c2 is 8. That fills its row. Can you see the naked pair? 1 and 3, in r3c6 and r4c6. r8c6 can't be 3.": [
        "r4c2 = 8 because last cell in r4",
        "r8c6 not 3 because naked pair 1 3 at r3c6 r4c6",
    ],
    "r2c2 is 7. A naked single. r3c3 is 3. That is the only spot for 3 in box 1.": [
        "r2c2 = 7 because naked single",
        "r3c3 = 3 because hidden single in b1",
    ],
    "r7c2 must be 7. I leave the reason to you. In column 9, only r2c9 and r6c9 can be 5 or 8. r6c9 loses 9.": [
        "r7c2 = 7 because naked single",
        "r6c9 not 9 because hidden pair 5 8 at r2c9 r6c9 in c9",
    ],
    # effects for which the reason comes next
    "The 6s of box 5 are all in row 4, so r4c1 can't be 6. r3c5 is not 1. "
    "And r7c4 is not 6. Why? r1c5 and r7c5 are a naked pair, 1 and 6.": [
        "r4c1 not 6 because pointing 6 in b5 along r4",
        "r3c5 not 1; r7c4 not 6 because naked pair 1 6 at r1c5 r7c5",
    ],
    "The 6s of box 5 are all in row 4. So r4c1 can't be 6. In the same way, r4c2 can't be 6. "
    "r5c5 and r5c7 are a naked pair, 1 and 2.": [
        "r4c1 not 6; r4c2 not 6 because pointing 6 in b5 along r4",
        "? not ? because naked pair 1 2 at r5c5 r5c7",
    ],
    "In column 7 the 2s are all in box 3, so r1c8 can't be 2. "
    "r4c1 can't be 7. There is a naked pair of 5 and 7 in r4c2 and r4c8.": [
        "r1c8 not 2 because claiming 2 in c7 within b3",
        "r4c1 not 7 because naked pair 5 7 at r4c2 r4c8",
    ],
    "r8c5 has to be 9. Look at r1c5, r8c5 and r9c5. "
    "Only 1, 8 and 9 in there, so that is a naked triple. r8c3 is 1. Row 8 has nowhere else for it.": [
        "r8c5 = 9 because naked triple 1 8 9 at r1c5 r8c5 r9c5",
        "r8c3 = 1 because hidden single in r8",
    ],
    "r5c8 is not 2. Just look at every place for a 2 in box 5. r2c2 can only be 4.": [
        "r5c8 not 2 because facts 2 in b5",
        "r2c2 = 4 because naked single",
    ],
}


@pytest.mark.parametrize(("text", "statements"), BORDERS.items())
def test_where_one_step_ends_and_another_begins(text: str, statements: list[str]) -> None:
    told = [write_statement(reading.alternatives[0][0])[0] for reading in read(text).readings]
    assert told == statements


TOLD_IN_TURNS = {
    "Is the 7 in r3c3? If not, it is in r1c3. Then it is not in r7c3. So it is in r7c2. Either way, r7c9 can't be 7.": (
        "r7c9 not 7 because chain r3c3 not 7 then r1c3 is 7 then r7c3 not 7 then r7c2 is 7"
    ),
    "Say r2c1 isn't 9. Then r2c8 is 9. So r3c8 is not 9. One or the other, then. r2c1 is 9, or r2c8 is 9. So r2c5 loses 9.": (
        "r2c5 not 9 because chain r2c1 not 9 then r2c8 is 9 then r3c8 not 9"
    ),
    "Suppose r1c5 isn't 2. Then it is 7. That makes r8c5 a 4. And so r5c6 is 2. One end or the other is 2. An XY-chain on 2. "
    "The 2 comes out of r3c6.": "r3c6 not 2 because xy-chain 2 r1c5 7 r8c5 4 r5c6 2",
    "Say there is no 6 in r6c4. That puts a 6 in r4c4. So r4c7 is 8. So that is the 9 gone from r6c4.": (
        "r6c4 not 9 because chain r6c4 not 6 then r4c4 is 6 then r4c7 is 8"
    ),
    "In box 1, the 7 is in r3c3 or r1c3. Where is the 7 in row 7? "
    "It is column 3 or 2. So either r3c3, or r7c2 is 7. r9c3 loses 7.": (
        "r9c3 not 7 because x-chain on 7: r3c3 r1c3 r7c3 r7c2"
    ),
    "In box 1 the 7 is in r3c3 or r1c3; row 7 has r7c3 and r7c2 for its 7: an X-chain. Either way, r9c3 loses 7.": (
        "r9c3 not 7 because x-chain on 7: r3c3 r1c3 r7c3 r7c2"
    ),
    "The 4 of column 2 can be in row 9. The 4 of column 4 is in row 2. And the 4 of column 9 is in row 4 or 9. "
    "That is a swordfish. r4c8 loses 4.": "r4c8 not 4 because swordfish on 4 in c2 c4 c9 cover r9 r2 r4",
    "Since r7c8 and r9c9 can both hold only 4 or 9, the rest of row 9 cannot have 9; r1c9 loses 9.": (
        "rest of r9 not 9; r1c9 not 9 because naked pair 4 9 at r7c8 r9c9"
    ),
    "Row 2 has its 6 in column 7 or 8. Row 4 has its 6 in column 7, 8 or 9. "
    "And row 9 has its 6 in column 8 or 9. r1c8 loses 6.": (
        "r1c8 not 6 because swordfish on 6 in r2 r4 r9 cover c7 c8 c9"
    ),
    "In column 4 the 3 can go in row 3 or 7, in column 6 in row 1 or 7, and in column 8 in row 1, 3 or 7. "
    "Those three columns have only rows 1, 3 and 7 between them. So r7c1 can't be 3.": (
        "r7c1 not 3 because swordfish on 3 in c4 c6 c8 cover r3 r7 r1"
    ),
    "Where can the 9 go? In column 4, row 1, 3 or 9. In column 8, row 1 or 3. "
    "In column 9, row 3 or 9. It is a swordfish. r1c6 loses 9.": (
        "r1c6 not 9 because swordfish on 9 in r1 r3 r9 cover c4 c8 c9"
    ),
    "The 2s of columns 2 and 7 make an X-wing in rows 3 and 8, and that is why in column 7 the 2 sits in row 3.": (
        "r3c7 = 2 because x-wing on 2 in c2 c7 cover r3 r8"
    ),
    "There is an XY-wing. The pivot is r8c9. And the wings? r9c9 and r7c9. So r8c8 can't be 1.": (
        "r8c8 not 1 because xy-wing pivot r8c9 wings r9c9 r7c9"
    ),
    "r4c2 can't be 4. If r5c3 is not 4, columns 3 and 8 have an X-wing of 4s in rows 4 and 7. So r5c3 is the fin.": (
        "r4c2 not 4 because finned x-wing on 4 in c3 c8 cover r4 r7 fins r5c3"
    ),
    "Suppose r5c3 is not 4. Then columns 3 and 8 have an X-wing of 4s in rows 4 and 7. So r4c2 can't be 4.": (
        "r4c2 not 4 because finned x-wing on 4 in c3 c8 cover r4 r7 fins r5c3"
    ),
    "r4c2 is not 4. Why? Columns 3 and 8 have the 4s in rows 4 and 7. "
    "Well, nearly. There is one more, in r5c3. So it is a finned X-wing.": (
        "r4c2 not 4 because finned x-wing on 4 in c3 c8 cover r4 r7 fins r5c3"
    ),
    "Nothing else in row 9 can be 9. r1c9 can't be 9. Why? What is left in r7c8 and r9c9? Only 4 and 9. A naked pair!": (
        "rest of r9 not 9; r1c9 not 9 because naked pair 4 9 at r7c8 r9c9"
    ),
    "Row 6 must have a 5 somewhere, and the only cell that will take one is r6c5.": "r6c5 = 5 because hidden single in r6",
    "Which column has the 5 of row 7? Column 6, and no other column can.": "r7c6 = 5 because hidden single in r7",
    "Row 8. Who can take the 1? Not column 2, not column 4, so it can only go in column 3.": (
        "r8c3 = 1 because hidden single in r8"
    ),
    "Let us try row 9. Columns 2 and 5 have a 3 already. Box 9 has one, too. So the 3 has to be in column 1.": (
        "r9c1 = 3 because hidden single in r9"
    ),
    "Where does the 5 go in box 5? Everywhere else is blocked. So that leaves r5c5.": "r5c5 = 5 because hidden single in b5",
    "Box 2. There is only one place left for the 6. r3c6.": "r3c6 = 6 because hidden single in b2",
    "Box 9 has one gap left. It is r8c9, and it needs a 1.": "r8c9 = 1 because last cell in b9",
    "Row 4 has one gap left, column 7. It needs an 8.": "r4c7 = 8 because last cell in r4",
    "What goes in r1c8? One candidate. The 6.": "r1c8 = 6 because naked single",
    "A 4 goes in r1c1. All the other digits are ruled out there.": "r1c1 = 4 because naked single",
    "Where can the 4 of row 5 go if not in column 3?": "r5c3 = 4 because hidden single in r5",
    "In row 8 every column but 3 has a 4.": "r8c3 = 4 because hidden single in r8",
    "Every cell in box 3 except r2c9 is closed to 7, so 7 goes there.": "r2c9 = 7 because hidden single in b3",
    "Every cell in column 4 except row 8 is closed to 6, so 6 goes there.": "r8c4 = 6 because hidden single in c4",
    "Without a 4 in r6c4, box 5 would have none.": "r6c4 = 4 because hidden single in b5",
    "Row 8 wants a 4, and column 3 is all it has.": "r8c3 = 4 because hidden single in r8",
    "What else but a 4 could be in r5c3?": "r5c3 = 4 because naked single",
    "In row 5, 2 and 3 are a hidden pair in columns 1 and 6, and that gets rid of these: "
    "the 8 from r5c1, the 7 and the 9 from r5c6.": (
        "r5c1 not 8; r5c6 not 7 9 because hidden pair 2 3 at r5c1 r5c6 in r5"
    ),
    "With an X-wing of 6s in rows 2 and 4, columns 4 and 7, here's what goes: "
    "the 6 from the rest of column 4, and the 6 from r1c7.": (
        "rest of c4 not 6; r1c7 not 6 because x-wing on 6 in r2 r4 cover c4 c7"
    ),
    "The reason why r3c4 can't be 3, and r4c6 can't be 8 is that r6c4 and r4c4 form a naked pair of 3 and 8.": (
        "r3c4 not 3; r4c6 not 8 because naked pair 3 8 at r6c4 r4c4"
    ),
    "Row 6 has to place its 6 inside box 4, and so r4c1 and r4c2 forgo theirs.": (
        "r4c1 r4c2 not ? because claiming 6 in r6 within b4"
    ),
    "Box 1 keeps its 7 in column 3, so the 7 at r8c3 falls.": "r8c3 not 7 because pointing 7 in b1 along c3",
    "A finned X-wing on 9 in rows 3 and 6, columns 3 and 4, the odd cell being r7c4. r8c4 loses 9.": (
        "r8c4 not 9 because finned x-wing on 9 in r3 r6 cover c3 c4 fins r7c4"
    ),
    "r4c7 is 4, for in box 6 r4c7 and the one at row 5, column 7 have only 3 and 4 to offer.": (
        "r4c7 = 4 because naked pair 3 4 at r4c7 r5c7 in b6"
    ),
    "Where does the 1 live? Rows 5 and 6 already have theirs, and the 1 up at r1c6 guards column 6, which leaves r4c5.": (
        "r4c5 = 1 because hidden single"
    ),
    "Then a 1 for the middle right box. Columns 7 and 8 are no use. Column 9, row 6.": "r6c9 = 1 because hidden single in b6",
    "Where does box 6 keep its 7? Somewhere in row 4, in column 7 or column 8. So r4c2 loses its 7.": (
        "r4c2 not 7 because pointing 7 in b6 along r4"
    ),
    "A pair: r7c1 is 2 or 9, and r7c8 is 2 or 9. So for the rest of that row, column 2 isn't a 9, and column 3 isn't "
    "a 2 or a 9.": (
        "r7c2 not 9; r7c3 not 2 9 because naked pair 2 9 at r7c1 r7c8 in r7"
    ),
    "In box 5, the 4 has got to be in row 6, because row 4 has one. So columns 1 and 2 in that row, they lose their 4s.": (
        "r6c1 r6c2 not 4 because pointing 4 in b5 along r6"
    ),
    "Box 8 still needs a 4, and since column 6, row 9 is the only cell there that can take it, that's settled.": (
        "r9c6 = 4 because hidden single in b8"
    ),
    "Since box 9 is full except for column 9, row 8, the missing 1 goes in there.": "r8c9 = 1 because last cell in b9",
    "As every other cell in its box is barred to the 6, column 9, row 6 has to be 6.": "r6c9 = 6 because hidden single in b6",
    "3 in column 2: row 4 has one and box 7 has one, so r6c2 is the place.": "r6c2 = 3 because hidden single in c2",
    "In column 2 they live at rows 4 and 7. In column 8 they live at rows 4 and 9. Nearly an X-wing of 3s on rows 4 "
    "and 9, spoiled by a fin: r7c2. If the fin is not the 3, the 3 of column 2 is in row 4. Either way, columns 1 and 3 "
    "lose the 3 in row 9.": (
        "r9c1 r9c3 not 3 because finned x-wing on 3 in c2 c8 cover r4 r9 fins r7c2"
    ),
    "If r2c7 isn't a 2, then it has to be a 1, which means r3c3 is a 1, and therefore r3c7 has to be a 5, so that "
    "either r2c7 is a 2 or r3c7 is a 5. That's why there's no 2 in r3c7.": (
        "r3c7 not 2 because chain r2c7 not 2 then r2c7 is 1 then r3c3 is 1 then r3c7 is 5"
    ),
    "Say r8c3 isn't 8. Then r7c3 is. The 8 of column 7 goes all the way up to r1c7. So r8c6 is not 8.": (
        "r8c6 not 8 because chain r8c3 not 8 then r7c3 is 8 then r1c7 is 8"
    ),
    "And what about r1c3? Suppose it's not the 6. Then r2c3 is, which puts a 6 in r6c5; the 3 of row 1 belongs in r1c3. "
    "So that cell is a 6 or it is a 3, and it can never be the 2 we had there.": (
        "r1c3 not 2 because chain r1c3 not 6 then r2c3 is 6 then r6c5 is 6 then r1c3 is 3"
    ),
    "Begin at r4c6 and suppose it is not 6. It must be 5, so r4c7 is 6. The cell that looks at both of them is r4c2, and "
    "it can't keep its 6.": "r4c2 not 6 because chain r4c6 not 6 then r4c6 is 5 then r4c7 is 6",
    # A heading names the pattern of the sentence after it.
    "A swordfish! It's on 2s, in rows 5 and 6, and it takes in columns 2 and 5. "
    "So the 2 goes from the rest of columns 2 and 5.": (
        "rest of c2 not 2; rest of c5 not 2 because swordfish on 2 in r5 r6 cover c2 c5"
    ),
    # Witnesses, and the cell that is spoken of beside them
    "Count along box 4 and you will miss only the 3; it belongs in column 2, row 6, the one still empty.": (
        "r6c2 = 3 because naked single"
    ),
    "Every empty cell of the middle-left box except column 3, row 5 is closed to the 9, so that is where it goes.": (
        "r5c3 = 9 because hidden single in b4"
    ),
    "r8c1 is down to 5 or 7. Column 1 has its 5 in r2c1, so this is the 7.": "r8c1 = 7 because naked single",
    "Next is r9c7. Column 7 still needs 1 and 4, but there's a 4 in the box at r8c8. So this one's 1.": (
        "r9c7 = 1 because hidden single in c7"
    ),
    "For the 8 in the bottom left box, r7c8 blocks both gaps in row 7 and r1c3 blocks r9c3. It's in r9c2.": (
        "r9c2 = 8 because naked single"
    ),
}

WHY_LINKED = (
    "",
    "The row has no other place.",
    "There's nowhere else in row 5.",
    "No other cell of row 5 can hold a 3.",
    "Its only other candidate is 3.",
    "There's no other home for it in row 5.",
    "Where else could row 5 put its 3?",
    "Row 5 only has those two 3s.",
    "Both lie in box 5.",
)


@pytest.mark.parametrize("why", WHY_LINKED)
def test_why_a_link_holds_is_told_within_the_chain(why: str) -> None:
    text = f"Suppose r5c5 isn't a 3. So r5c6 is a 3. {why} Then r6c6 isn't. Then r6c2 has to be a 3. So r3c2 loses its 3."
    (reading,) = read(text).readings
    assert write_statement(reading.alternatives[0][0])[0] == (
        "r3c2 not 3 because chain r5c5 not 3 then r5c6 is 3 then r6c6 not 3 then r6c2 is 3"
    )


@pytest.mark.parametrize(("text", "statement"), TOLD_IN_TURNS.items())
def test_a_step_told_bit_by_bit(text: str, statement: str) -> None:
    (reading,) = read(text).readings
    assert write_statement(reading.alternatives[0][0])[0] == statement


def test_a_digit_and_two_lines_may_be_a_place_and_are_never_held_against_the_narrator() -> None:
    (reading,) = read("The 4 of row 8 is in column 3.").readings
    assert write_statement(reading.alternatives[0][0])[0] == "r8c3 = 4 because hidden single in r8"
    assert not reading.forced


@pytest.mark.parametrize(
    ("text", "statements"),
    [
        (
            "The last box falls: 1 in r8c9, since no other cell in it wants one, then 7 in r8c7, and 5 in r8c8.",
            ["r8c9 = 1 because hidden single", "r8c7 = 7; r8c8 = 5 because naked single"],
        ),
        (
            "The 2 goes in r9c9, and then in box 6 it's r5c8.",
            ["r9c9 = 2 because naked single", "r5c8 = 2 because hidden single in b6"],
        ),
        (
            "The 1 drops down to r6c8, and over on the left, in box 4, the 1 has to be in r5c2.",
            ["r6c8 = 1 because naked single", "r5c2 = 1 because hidden single in b4"],
        ),
        (
            "That's r9c5 and the 5. And directly above that, in row 8, goes the 6.",
            ["r9c5 = 5 because naked single", "r8c5 = 6 because hidden single in r8"],
        ),
        (
            "3 and 7 are in r5c8 and r5c9, a hidden pair. No other digit can stay in those two cells. In columns 3 and 7, "
            "there's no 5 outside rows 1 and 3. That's an X-wing. So the 5 is gone from the rest of rows 1 and 3.",
            [
                "r5c8 r5c9 not ? because hidden pair 3 7 at r5c8 r5c9",
                "rest of r1 not 5; rest of r3 not 5 because x-wing on 5 in c3 c7 cover r1 r3",
            ],
        ),
    ],
)
def test_steps_told_in_one_breath(text: str, statements: list[str]) -> None:
    assert [write_statement(reading.alternatives[0][0])[0] for reading in read(text).readings] == statements


@pytest.mark.parametrize(
    "habit, text, names_one",
    [("The 8 is in r1c1. " * 12, "r2c4 can't be one.", False), ("The eight is in r1c1. " * 12, "r2c4 can't be a one.", True)],
)
def test_who_writes_figures_means_no_digit_by_a_word(habit: str, text: str, names_one: bool) -> None:
    last = read(habit + text).readings[-1].alternatives[0][0]
    assert (write_statement(last)[0] == "r2c4 not 1") is names_one


@pytest.mark.parametrize(("habit", "cell"), [("row nine one is full and ", True), ("row nine column one is full and ", False)])
def test_a_cell_is_clipped_by_habit_alone(habit: str, cell: bool) -> None:
    """``row two seven can only be a five``: r2c7, or the seven of row two."""
    speech = f"{habit * 8} so row two seven can only be a five and in row four seven can only go in column five"
    words = " ".join(word.norm for sentence in Script(read_prose(speech)).sentences() for word in sentence)
    assert ("row two column seven" in words, "row four column seven" in words) == (cell, False)


def test_effects_that_are_said_to_be_two_are_not_one_told_in_parts() -> None:
    (reading,) = read("1 can go from some cells; also r1c1 can lose a candidate; no reason is given.").readings
    assert write_statement(reading.alternatives[0][0])[0] == "? not 1; r1c1 not ?"


@pytest.mark.parametrize(
    ("speech", "statement"),
    [
        ("right scanning in box nine for the eight i only see row eight column seven", "r8c7 = 8 because hidden single in b9"),
        (
            "where can i put the eight in row seven everywhere else is blocked so it has to be row seven column three",
            "r7c3 = 8 because naked single",
        ),
        (
            "box four where does nine go in there well row six cant have it because of the nine in row six column six and row "
            "four column three cant because theres a nine further down column three so it can only be row five column two",
            "r5c2 = 9 because hidden single in b4",
        ),
    ],
)
def test_a_single_told_without_full_stops(speech: str, statement: str) -> None:
    (reading,) = read(speech).readings
    assert write_statement(reading.alternatives[0][0])[0] == statement
