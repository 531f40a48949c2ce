"""Acts on one person's record at desk and office: filled in, looked at with what they would change, then entered.

Each act is one or two entries of the ledger. What it would come to is found by doing it in a transaction that is
dropped, so that what was looked at is what is entered.
"""
