"""Privacy: a copy of one person's data, requests, legal hold, how long what is kept, and taking an identity out.

The ledger names nobody: it holds opaque keys. Whose key it is stands beside it, so an identity can be taken out while
every chain and every proof stays as it is.
"""
