"""What every result says, whatever its figure."""

from trainer.wording import say

CAUTION = say(
    "This is a training aid. The machine's manual, the current text of the standard, local codes and a competent "
    "person's risk assessment decide."
)
MEASURED = say("The stopping time must be measured on the actual machine, in its worst condition.")
UNVERIFIED = say("This uses something known from memory that was not read in a source. Check it before any use.")
