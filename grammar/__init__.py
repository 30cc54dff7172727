"""What can be said: cells, houses and digits, the statements of a walkthrough, and text to statements and back."""
