"""Papers that leave the house as PDF: one person's file, a certificate, pocket cards, the list at the machine.

They look like the shop's own drawing sheets: a frame, a title block at the foot, ink only, so that nothing is lost in
black and white. What is too long for its place is set smaller or on more lines, never cut.
"""
