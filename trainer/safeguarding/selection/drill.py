"""Is it a fair question? What is wrong with asking somebody to pick from these safeguards for this job."""

from collections.abc import Iterable, Iterator

from trainer.safeguarding.selection.safeguards import SAFEGUARDS
from trainer.safeguarding.selection.selection import Selection
from trainer.wording import Sentence, say

NOTHING_FITS = "none"  # offered beside the codes: do not run this job here
FEWEST = 3


def faults(selection: Selection, offered: Iterable[str]) -> tuple[Sentence, ...]:
    """Return why these codes must not be offered for this job; empty where the question is fair.

    Unfair is: an answer that does not exist or stands there twice, too few of them, no right one, nothing but right
    ones, or *none* as the key although a safeguard that was not offered would do.
    """
    return tuple(_faults(selection, list(offered)))


def _faults(selection: Selection, offered: list[str]) -> Iterator[Sentence]:
    strange = [code for code in offered if code not in SAFEGUARDS and code != NOTHING_FITS]
    if strange:
        yield say("There is no safeguard {codes}.", codes=", ".join(strange))
        return
    if len(set(offered)) < len(offered):
        yield say("The same safeguard is offered twice.")
    if len(offered) < FEWEST:
        yield say("Offer {count} answers or more.", count=FEWEST)
    usable = [code for code in offered if code != NOTHING_FITS and selection.verdicts[code].usable]
    if offered and len(usable) == len(offered):
        yield say("Everything that is offered is usable, so no answer is wrong.")
    if not usable:
        yield from _nothing_offered_fits(selection, offered)


def _nothing_offered_fits(selection: Selection, offered: list[str]) -> Iterator[Sentence]:
    if NOTHING_FITS not in offered:
        yield say("Nothing that is offered is usable, and “none” is not offered.")
    if selection.best:
        yield say("“None” would be the key, but {codes} would do and is not offered.", codes=", ".join(selection.best))
