"""The classes of trade facts, one family to a module; a new module here is found by itself."""
