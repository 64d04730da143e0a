"""Text in, frozen requests out: scanner, phrases, frames. Knows no dough and imports nothing else of this project."""
