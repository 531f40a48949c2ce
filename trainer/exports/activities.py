"""The IRIs of xAPI statements: the site's own under its address, the ADL vocabulary's where it has the word."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote
from uuid import NAMESPACE_URL, uuid5

from trainer.bank import Bank
from trainer.exports import words
from trainer.records.chain import Entry, EntryKind
from trainer.records.instants import instant_text

ADL = "http://adlnet.gov/expapi"
# A word of the ADL vocabulary that means what the entry says; "suspended" there means a session, so it is not used.
VERBS: Mapping[EntryKind, str] = {
    EntryKind.ASSIGNED: f"{ADL}/verbs/registered",
    EntryKind.ATTENDED: f"{ADL}/verbs/attended",
    EntryKind.PRIOR_ACCEPTED: "https://w3id.org/xapi/adl/verbs/waived",
}


@dataclass(frozen=True, slots=True)
class Activities:
    """Makes IRIs, accounts and activities for one site; ``home`` is the address of its program, without a slash."""

    home: str
    bank: Bank

    def iri(self, *parts: str) -> str:
        """Return an IRI of the site's own."""
        return "/".join((self.home, "xapi", *(quote(part, safe="") for part in parts)))

    def account(self, key: str) -> dict[str, Any]:
        """Return an agent: an opaque key at this site."""
        return {"objectType": "Agent", "account": {"homePage": self.home, "name": key}}

    def verb(self, kind: EntryKind) -> dict[str, Any]:
        """Return the verb of a kind of entry: an open one where it fits, else the site's own."""
        display = {"en": words.ENTRIES[kind]}
        return {"id": VERBS.get(kind) or self.iri("verbs", kind.value), "display": display}

    def activity(self, *parts: str, kind: str, name: Mapping[str, str]) -> dict[str, Any]:
        """Return an activity with the names it has in each language."""
        type_ = f"{ADL}/activities/{kind}" if kind in ADL_KINDS else self.iri("activity-types", kind)
        named = {"name": dict(name)} if name else {}
        return {"objectType": "Activity", "id": self.iri(*parts), "definition": {"type": type_, **named}}

    def programme(self, programme: str) -> dict[str, Any]:
        """Return a programme."""
        found = self.bank.programmes.get(programme)
        name = dict(found.name.words) if found else {"en": programme}
        return self.activity("programmes", programme, kind="course", name=name)

    def practical(self, checklist: str, machine: str) -> dict[str, Any]:
        """Return a practical at one machine."""
        found = self.bank.checklists.get(checklist)
        name = {language: f"{text}, {machine}" for language, text in found.name.words.items()} if found else {}
        return self.activity("practicals", checklist, machine, kind="performance", name=name)

    def machine(self, machine: str | None) -> dict[str, Any]:
        """Return a machine, or all of them."""
        name = {"en": machine} if machine else {"en": "every machine", "es": "todas las máquinas"}
        return self.activity("machines", *((machine,) if machine else ()), kind="machine", name=name)

    def topic(self, topic: str, language: str) -> dict[str, Any]:
        """Return what was talked about; a talk has no id of its own, so its words make one."""
        known = str(uuid5(NAMESPACE_URL, topic))
        return self.activity("talks", known, kind="meeting", name={language or "und": topic})

    def extensions(self, **values: Any) -> dict[str, Any]:
        """Return extensions under the site's own keys; what is not known is left out."""
        return {
            self.iri("extensions", name.replace("_", "-")): value
            for name, value in values.items()
            if value is not None and value not in ("", [])
        }

    def entry_facts(self, entry: Entry) -> dict[str, Any]:
        """Return which entry of the ledger a statement comes from, and how it can be proved."""
        return self.extensions(
            entry=entry.reference,
            digest=entry.digest,
            recorded_at=instant_text(entry.recorded_at),
            recorded_by=entry.by,
        )


ADL_KINDS = frozenset({"course", "meeting", "performance", "assessment", "cmi.interaction"})
