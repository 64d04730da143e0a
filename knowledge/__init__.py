"""Trade facts and vocabulary: YAML in, checked typed records out. Imports nothing else of benchside."""

from knowledge.families import families
from knowledge.loader import BadKnowledge, Knowledge, UnknownRecord, load
from knowledge.record import Confidence, Family, Record

__all__ = ["BadKnowledge", "Confidence", "Family", "Knowledge", "Record", "UnknownRecord", "families", "load"]
