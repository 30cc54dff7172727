"""What follows: the rules of a board as clauses, its facts behind selectors, and a solver that answers from them."""
