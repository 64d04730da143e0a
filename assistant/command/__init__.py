"""A call of the program: its options, its lines, where its files live."""
