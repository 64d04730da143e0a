"""Files written and read: cards, and recipes that come in."""
