"""Machine-guarding training and competency: the sums, the bank, the papers, the record and the three doors."""

__version__ = "0.1.0"
