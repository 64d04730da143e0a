"""A baker's assistant for naturally leavened dough. Packaging reads the version below; there is no other."""

__version__ = "0.1.0"

from assistant.quick import install

install()
