"""What the codes of the record are called: standings, roles, machines, kinds of entry, events. English, marked."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from trainer.bank import Bank
from trainer.exports.voice import Voice
from trainer.records.chain import EntryKind
from trainer.records.people import PersonRow
from trainer.records.standing import StandingWord
from trainer.wording import mark

# From what lets a person run the machine to what nobody knows anything of.
STANDINGS: Mapping[StandingWord, str] = MappingProxyType(
    {
        StandingWord.AUTHORISED: mark("Authorised"),
        StandingWord.REFRESH_DUE: mark("Authorised, refresher due"),
        StandingWord.SUPERVISED: mark("Supervised only"),
        StandingWord.SUSPENDED: mark("Suspended"),
        StandingWord.LAPSED: mark("Lapsed"),
        StandingWord.PAUSED: mark("Paused: not used"),
        StandingWord.PRACTICAL_PENDING: mark("Practical pending"),
        StandingWord.THEORY_OPEN: mark("Theory open"),
        StandingWord.ATTENDED: mark("Attended only"),
        StandingWord.NO_EVIDENCE: mark("Nothing on record"),
    }
)
# How each is drawn: solid = authorised, hatched = beside a supervisor, struck = not now, broken = nothing known.
MARKS: Mapping[StandingWord, str] = MappingProxyType(
    {
        StandingWord.AUTHORISED: "solid",
        StandingWord.REFRESH_DUE: "solid",
        StandingWord.SUPERVISED: "hatched",
        StandingWord.SUSPENDED: "struck",
        StandingWord.LAPSED: "struck",
        StandingWord.PAUSED: "struck",
        StandingWord.PRACTICAL_PENDING: "struck",
        StandingWord.THEORY_OPEN: "struck",
        StandingWord.ATTENDED: "struck",
        StandingWord.NO_EVIDENCE: "broken",
    }
)
ROLES: Mapping[str, str] = MappingProxyType(
    {
        "operator": mark("operator"),
        "helper": mark("helper"),
        "setter": mark("setter"),
        "lead": mark("lead"),
        "maintenance": mark("maintenance"),
    }
)
MACHINES: Mapping[str, str] = MappingProxyType(
    {
        "press-brake-hydraulic": mark("press brake, hydraulic"),
        "press-brake-mechanical": mark("press brake, flywheel and clutch"),
        "press-brake-servo": mark("press brake, servo-electric"),
        "press-brake-upstroke": mark("press brake, up-stroking"),
        "folder": mark("folding machine"),
        "plate-rolls": mark("plate rolls"),
    }
)
ENTRIES: Mapping[EntryKind, str] = MappingProxyType(
    {
        EntryKind.ASSIGNED: mark("programme assigned"),
        EntryKind.ATTENDED: mark("attended"),
        EntryKind.SITTING_MARKED: mark("paper marked"),
        EntryKind.PRACTICAL_SIGNED: mark("practical signed"),
        EntryKind.PRIOR_ACCEPTED: mark("prior training accepted"),
        EntryKind.EXCUSED: mark("excused"),
        EntryKind.SUSPENDED: mark("suspended"),
        EntryKind.REINSTATED: mark("reinstated"),
        EntryKind.CORRECTED: mark("corrected"),
        EntryKind.MOVED: mark("moved"),
        EntryKind.EVENT: mark("event"),
        EntryKind.ENTITLED: mark("right given or ended"),
        EntryKind.RULED: mark("rule of the site set"),
    }
)
EVERY_PROGRAMME = mark("every programme")
DUTIES: Mapping[str, str] = MappingProxyType({"trainer": mark("trainer"), "officer": mark("records officer")})
EVENTS: Mapping[str, str] = MappingProxyType(
    {
        "left": mark("left the plant"),
        "returned": mark("came back"),
        "incident": mark("an incident"),
        "unsafe-act": mark("an unsafe act was seen"),
        "used": mark("worked at the machine"),
        "pre-start-check": mark("a pre-start check was seen"),
        "coached": mark("talked over with a coach"),
        "machine-changed": mark("the machine was changed"),
        "erased": mark("name and number were taken out"),
        "hold-set": mark("legal hold set"),
        "hold-lifted": mark("legal hold lifted"),
        "question-answered": mark("a question was answered"),
        "role-given": mark("a role was given"),
        "role-withdrawn": mark("a role was withdrawn"),
        "password-lent": mark("a password for one use was handed out"),
        "pin-reset": mark("a new PIN was handed out"),
        "sessions-ended": mark("signed out everywhere"),
        "kiosk-invited": mark("a code for a kiosk was made"),
        "kiosk-enrolled": mark("a kiosk was enrolled"),
        "kiosk-renamed": mark("a kiosk was renamed"),
        "kiosk-withdrawn": mark("a kiosk was withdrawn"),
    }
)


def named(bank: Bank, voice: Voice, people: Iterable[PersonRow] = ()) -> dict[str, str]:
    """Return what stands in a line for the ids of people, programmes, checklists, roles, kinds and events."""
    return {
        "*": voice.tell(EVERY_PROGRAMME),
        **{person.key: person.name for person in people},
        **{key: programme.name.in_(voice.language) for key, programme in bank.programmes.items()},
        **{key: checklist.name.in_(voice.language) for key, checklist in bank.checklists.items()},
        **{key: voice.tell(text) for texts in (ROLES, MACHINES, EVENTS, DUTIES) for key, text in texts.items()},
    }
