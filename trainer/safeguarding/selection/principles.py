"""The rules that no table holds: what unknown does, how a combination is judged, and what follows when nothing is valid."""

from dataclasses import dataclass

from trainer.safeguarding.result import Citation
from trainer.safeguarding.selection import sources as s
from trainer.wording import mark, say


@dataclass(frozen=True, slots=True, kw_only=True)
class Principle:
    """A rule about rules: its name, what the trainee is told (message), where it is written."""

    id: str
    sentence: str
    sources: tuple[Citation, ...]


UNKNOWN_IS_NOT_YES = Principle(
    id="U-01",
    sentence=mark("What is not known is never taken as good. The machine stands until somebody has found it out."),
    sources=(s.PRACTICE,),
)
BEST_OF_THE_PARTS = Principle(
    id="AC-02",
    sentence=mark("Where both are fitted, the one that is live has to be good enough for this bend without the other."),
    sources=(s.DGUV_030_4, s.PRACTICE),
)
NOTHING_VALID = Principle(
    id="N-01",
    sentence=mark("Do not run this job on this machine as it stands."),
    sources=(s.LETTER_1981, s.PRACTICE),
)

AIDS_DO_NOT_ADD_UP = say("Aids do not add up: tongs, signs and a careful operator together are still no safeguard.")
WAYS_OUT = (
    say("Mend the safeguard that failed, or prove the one that was not checked."),
    say("Get the measurement that is missing."),
    say("Bring in a support, a magnet or a holder, so that no hand holds the part."),
    say("Use a larger blank and trim it later."),
    say("Choose other tools, another brake or another process."),
)
NOTHING_AGAINST = say("No rule speaks against it, and what it needs is known.")
ALSO_NEEDED = say("An end, the rear or the back-stop is open. Close it, whatever is chosen for the front.")
