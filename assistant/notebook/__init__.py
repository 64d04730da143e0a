"""The notebook: everything said and decided, in sequence, on disk before it is acknowledged.

notebook = Notebook.open(home)
tail = notebook.tail()                                   # before each line
notebook.append(Event(...), after=tail.seq)              # Moved: read the tail and answer again
"""

from assistant.notebook.event import Entry, Event, Moved, NotKept, State, Tail, Target
from assistant.notebook.store import Notebook

__all__ = ["Entry", "Event", "Moved", "NotKept", "Notebook", "State", "Tail", "Target"]
