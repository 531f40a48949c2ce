"""What the standing sheet says: one sentence for the state, three boxes, what is shown and open, what happens next."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from trainer.records.chain import EntryKind
from trainer.records.ledger import Entry
from trainer.records.standing import Standing, StandingWord
from trainer.web import language
from trainer.web.filters import day
from trainer.web.kiosk.pages import Approval, Shown
from trainer.web.rooms import rooms
from trainer.web.words import _, _l

W = StandingWord
STATES: Mapping[StandingWord, object] = MappingProxyType(
    {
        W.AUTHORISED: _l("You may run %(machine)s."),
        W.REFRESH_DUE: _l("You may run %(machine)s."),
        W.SUPERVISED: _l("Run %(machine)s only beside an evaluator."),
        W.ATTENDED: _l("Do not run %(machine)s yet."),
        W.PRACTICAL_PENDING: _l("Do not run %(machine)s alone yet."),
        W.THEORY_OPEN: _l("Do not run %(machine)s yet."),
        W.LAPSED: _l("Do not run %(machine)s. It has lapsed."),
        W.SUSPENDED: _l("Do not run %(machine)s. You are suspended."),
        W.PAUSED: _l("Do not run %(machine)s. You have not used it for too long."),
        W.NO_EVIDENCE: _l("Do not run %(machine)s."),
    }
)
HELPING: Mapping[StandingWord, object] = MappingProxyType(
    {
        W.AUTHORISED: _l("You may help at %(machine)s."),
        W.REFRESH_DUE: _l("You may help at %(machine)s."),
        W.SUPERVISED: _l("Help at %(machine)s only beside an evaluator."),
        W.PRACTICAL_PENDING: _l("Do not help at %(machine)s alone yet."),
    }
)
NOT_HELPING = _l("Do not help at %(machine)s yet.")
THEORY = frozenset({EntryKind.SITTING_MARKED, EntryKind.PRIOR_ACCEPTED})


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the sheet is made from: the standing, the entries behind it, and the entry of the newest paper."""

    standing: Standing | None
    role: str
    entries: tuple[Entry, ...]
    marked: Entry | None

    @property
    def word(self) -> StandingWord:
        """Return the standing's word; nothing known is nothing shown."""
        return self.standing.word if self.standing else W.NO_EVIDENCE

    @property
    def machine(self) -> str:
        """Name the machine, or any, where none is named."""
        return self.standing.machine if self.standing else _("a machine")

    @property
    def theory(self) -> Entry | None:
        """Return the entry that counts as theory; None where there is none that counts."""
        found = [entry for entry in self.entries if entry.kind in THEORY and entry.body.get("passed", True)]
        return found[-1] if found else None

    @property
    def practical(self) -> Entry | None:
        """Return the newest practical, passed or not."""
        found = [entry for entry in self.entries if entry.kind is EntryKind.PRACTICAL_SIGNED]
        return found[-1] if found else None

    @property
    def failed(self) -> bool:
        """Say whether the paper that was just handed in was not passed."""
        return self.marked is not None and not self.marked.body["passed"]

    def counts(self) -> dict[str, tuple[int, int]]:
        """Return how many answers of the newest paper were right, and how many there were, by competency."""
        found: dict[str, tuple[int, int]] = {}
        for item in self.marked.body.get("items", ()) if self.marked else ():
            right, asked = found.get(item["competency"], (0, 0))
            found[item["competency"]] = (right + bool(item["right"]), asked + 1)
        return found


def told_state(word: StandingWord, role: str, machine: str) -> str:
    """Say in one sentence what somebody may do at a machine."""
    text = HELPING.get(word, NOT_HELPING) if role == "helper" else STATES[word]
    return str(text) % {"machine": machine}


def state(facts: Facts) -> str:
    """Say in one sentence what the person may do now."""
    return told_state(facts.word, facts.role, facts.machine)


def under(facts: Facts) -> str:
    """Say why, in two short sentences."""
    if facts.failed and facts.marked is not None:
        return _result_told(facts.marked)
    if facts.word is W.PRACTICAL_PENDING:
        return _("Your theory is passed. Your practical is still to come.")
    if facts.standing is None:
        return ""
    if facts.standing.may_run and facts.standing.holds_until:
        return _("It holds until %(day)s, if nothing changes.", day=day(facts.standing.holds_until))
    return " ".join(language.translate(one) for one in facts.standing.lacks[:2])


def _result_told(marked: Entry) -> str:
    score, needed = marked.body["score"], marked.body["needed"]
    counted = _(
        "%(right)s of %(count)s were right; %(needed)s are needed.",
        right=score["right"],
        count=score["out_of"],
        needed=needed,
    )
    return f"{counted} {_('One that must be right was not.')}" if marked.body["critical_missed"] else counted


def approvals(facts: Facts) -> tuple[Approval, ...]:
    """Return the three boxes: theory, practical, authorised."""
    return (_theory(facts), _practical(facts), _authorised(facts))


def _theory(facts: Facts) -> Approval:
    label, entry = _("Theory"), facts.theory
    if entry is None:
        word = _("not passed") if facts.failed else _("open")
        return Approval(label=label, word=word, told=_("The paper at the kiosk."), next=True)
    told = _("on %(day)s", day=day(entry.happened_on))
    if entry.body.get("edition"):
        told = _("on %(day)s, edition %(edition)s", day=day(entry.happened_on), edition=entry.body["edition"])
    if facts.word is W.LAPSED:
        return Approval(label=label, word=_("lapsed"), told=told, next=True)
    return Approval(label=label, word=_("passed"), told=told, done=True)


def _practical(facts: Facts) -> Approval:
    label, entry = _("Practical"), facts.practical
    pending = facts.word is W.PRACTICAL_PENDING
    if entry is not None and entry.body.get("result") == "passed" and not pending:
        return Approval(label=label, word=_("signed"), told=_("on %(day)s", day=day(entry.happened_on)), done=True)
    if entry is not None and entry.body.get("result") != "passed":
        return Approval(label=label, word=_("again"), told=_("An evaluator watches once more."), next=True)
    return Approval(label=label, word=_("pending"), told=_("An evaluator watches and signs."), next=pending)


def _authorised(facts: Facts) -> Approval:
    label = _("Authorised")
    if facts.standing is not None and facts.standing.may_run:
        until = facts.standing.holds_until
        return Approval(label=label, word=_("yes"), told=_("until %(day)s", day=day(until)) if until else "", done=True)
    if facts.word is W.SUSPENDED:
        return Approval(label=label, word=_("suspended"), told=_("Ask your trainer."), next=True)
    return Approval(label=label, word=_("not yet"), told=_("It needs theory and practical."))


def shown(facts: Facts) -> tuple[Shown, ...]:
    """List the competencies of the newest paper, then the practical."""
    bank, rows = rooms().bank, []
    counts = facts.counts() or dict.fromkeys(_to_show(facts), None)
    for name, count in counts.items():
        known = bank.competencies.get(name)
        done = count is not None and count[0] == count[1]
        word = _("open") if count is None else _("shown") if done else _("look again")
        rows.append(Shown(name=known.name.in_(language.current()) if known else name, word=word, done=done))
    signed = facts.practical is not None and facts.practical.body.get("result") == "passed"
    done = signed and facts.word is not W.PRACTICAL_PENDING
    name = _("At %(machine)s, watched and signed", machine=facts.machine)
    return (*rows, Shown(name=name, word=_("shown") if done else _("open"), done=done))


def _to_show(facts: Facts) -> list[str]:
    """Return the competencies that the first programme for a role is about."""
    bank = rooms().bank
    first = next((one for one in bank.programmes.values() if one.role.value == facts.role), None)
    if first is None:
        return []
    drills = [bank.drills[name].competency for name in first.blueprint.drills]
    return list(dict.fromkeys((*first.blueprint.must_pass, *drills)))


def ahead(facts: Facts) -> tuple[str, ...]:
    """Say what happens next, one step a line."""
    machine = facts.machine
    if facts.word in {W.AUTHORISED, W.REFRESH_DUE}:
        renew = _("Your refresher is due. It waits under My sheets.")
        return (
            _("Check the safeguards before each shift."),
            _("Is anything not as it should be? Stop, and tell your lead."),
            *((renew,) if facts.word is W.REFRESH_DUE else ()),
        )
    if facts.word is W.SUSPENDED:
        return (_("Talk to your trainer."), _("Until then, do not run %(machine)s.", machine=machine))
    if facts.word in {W.PRACTICAL_PENDING, W.SUPERVISED}:
        return (
            _("Tell your trainer that the theory is done."),
            _("Work at %(machine)s while an evaluator watches each step.", machine=machine),
            _("Until it is signed, work only beside a trainer."),
        )
    if facts.word is W.PAUSED:
        return (
            _("Take the way back; it waits under My sheets."),
            _("Then do the pre-start check at %(machine)s while your trainer watches.", machine=machine),
            _("Until then, do not run %(machine)s.", machine=machine),
        )
    if facts.failed:
        return (
            _("Look again at what was not right."),
            _("Tell your trainer. Then take it again."),
            _("Until then, do not run %(machine)s.", machine=machine),
        )
    return (_("Take the sheets that wait under My sheets."), _("Until then, do not run %(machine)s.", machine=machine))
