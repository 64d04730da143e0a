"""A bake on the clock: every step with its hours, found by moving what may be moved and keeping what must be kept."""
