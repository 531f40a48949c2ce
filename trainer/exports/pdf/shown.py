"""What certificates and cards say in words: what was shown, what is not shown by it, and where it can be checked."""

from collections.abc import Sequence

from trainer.bank import Bank
from trainer.exports import words
from trainer.exports.pdf.proven import Proof
from trainer.exports.voice import Voice
from trainer.records.chain import EntryKind, reference
from trainer.records.renewals import anchor
from trainer.wording import Sentence, mark, say

NOT_SHOWN = (
    mark(
        "That this machine, its safeguards or the next job are safe. The risk assessment and the daily check say that."
    ),
    mark("That the holder may run any other machine, or work in any other role."),
    mark("That it still holds: it can be suspended on any day. The check code says how it stands today."),
    mark("It is no licence and no trade certificate, and it counts at this plant only."),
)
ASK = mark("Scan it or type the code: it shows name, kind of machine, role and today’s state, nothing else.")
ASK_PLANT = mark("Ask the plant with the check code how it stands today.")


def where(home: str, code: str) -> str:
    """Return the address at which a code can be checked; nothing where the site's program has no address."""
    return f"{home.rstrip('/')}/verify/{code}" if home else ""


def role_of(voice: Voice, proof: Proof) -> str:
    """Return the role in words."""
    return voice.tell(words.ROLES.get(proof.standing.role, proof.standing.role))


def kind_of(voice: Voice, proof: Proof) -> str:
    """Return the kind of machine in words."""
    return voice.tell(words.MACHINES.get(proof.machine.kind, proof.machine.kind))


def programme_of(voice: Voice, bank: Bank, proof: Proof) -> str:
    """Return the name of the passed programme."""
    found = bank.programmes.get(proof.theory.body["programme"])
    return found.name.in_(voice.language) if found else str(proof.theory.body["programme"])


def entries_of(numbers: Sequence[int]) -> str:
    """Return entries as people refer to them."""
    return ", ".join(map(reference, numbers))


def shown(voice: Voice, bank: Bank, proof: Proof, today: str) -> list[str]:
    """Return what a certificate shows, a sentence each."""
    told = (_theory(voice, bank, proof), _practice(proof), _state(today))
    return [voice.tell(sentence) for sentence in told]


def _theory(voice: Voice, bank: Bank, proof: Proof) -> Sentence:
    body = proof.theory.body
    told = {
        "programme": programme_of(voice, bank, proof),
        "day": anchor(proof.theory).isoformat(),
        "entries": entries_of(proof.theory.numbers),
    }
    if proof.theory.kind is EntryKind.PRIOR_ACCEPTED:
        return say("Training from elsewhere, of {day}, was accepted as “{programme}” ({entries}).", **told)
    return say(
        "“{programme}” was passed on {day}: {right} of {out_of} right, every critical answer among them ({entries}).",
        right=body["score"]["right"],
        out_of=body["score"]["out_of"],
        **told,
    )


def _practice(proof: Proof) -> Sentence:
    return say(
        "The work was watched at {machine} on {day}, step by step, and signed by {judge}, who had the right to judge it "
        "({entries}, {right}).",
        machine=proof.machine.id,
        day=proof.practical.on.isoformat(),
        judge=proof.judge.name,
        entries=entries_of(proof.practical.numbers),
        right=reference(proof.practical.body["entitlement"]),
    )


def _state(today: str) -> Sentence:
    return say("On {day} nothing had lapsed and nothing was suspended.", day=today)
