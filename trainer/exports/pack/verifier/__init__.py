"""What checks a pack, from Python's standard library alone; joined into one file, it travels inside each pack.

The modules know only each other and the standard library, and no two of them use one name at their top, so that
:mod:`trainer.exports.pack.joining` can put them one after another.
"""
