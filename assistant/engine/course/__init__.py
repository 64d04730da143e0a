"""One course of time for a dough: what lies behind as told, what lies ahead forecast from the last that was told."""
