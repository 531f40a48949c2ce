"""The sums: quantities in, a worked result out.

Pure: no clock, no chance, no files but the published tables beside them. Every figure carries its unit, its working
and its source, and errs on the safe side.
"""
