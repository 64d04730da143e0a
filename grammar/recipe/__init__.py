"""Recipes as people paste them: one ingredient line, a whole page, a saved page's markup. Text in, frozen values out."""
