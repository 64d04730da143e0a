"""Where each figure of a formula came from: the givens, the defaults and the sum with its figures."""
