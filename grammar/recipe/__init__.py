"""Recipes as people paste them: an ingredient line, a whole page, a saved page's markup. Text in, frozen values out."""
