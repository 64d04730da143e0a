"""The talk: the bench as it stands, what a line is about, what is replied."""
