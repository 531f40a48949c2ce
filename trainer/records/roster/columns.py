"""Which column is what, by its head. Only mapped columns are read; nothing else in a file is kept."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trainer.records.names import folded
from trainer.records.roster.cells import Line
from trainer.records.roster.findings import RosterColumns, found
from trainer.records.roster.questions import Stop
from trainer.wording import say

GIVEN = "column:"  # answers such as column:number=Clock no. name a column for a field
HEADS: Mapping[str, tuple[str, ...]] = {
    "number": (
        "number", "employee number", "employee no", "employee id", "employee", "emp no", "emp id", "id", "no",
        "person number", "personnel number", "personnel no", "staff number", "staff id", "clock number", "works number",
        "numero", "numero de empleado", "no de empleado", "numero de personal", "legajo",
    ),
    "name": ("name", "full name", "employee name", "person name", "display name", "nombre completo", "nombre y apellidos"),
    "given": ("given name", "given names", "first name", "forename", "forenames", "nombre de pila", "nombres"),
    "family": ("family name", "last name", "surname", "apellido", "apellidos"),
    "sort_name": ("sort name", "sort as", "nombre para ordenar"),
    "badge": ("badge", "badge number", "badge no", "card number", "gafete", "tarjeta", "credencial"),
    "shift": ("shift", "turno"),
    "crew": (
        "crew", "team", "gang", "department", "dept", "cuadrilla", "equipo", "departamento",
    ),
    "language": ("language", "lang", "preferred language", "idioma", "lengua"),
    "kind": ("kind", "person type", "employment type", "type", "tipo", "tipo de contrato"),
    "agency": ("agency", "employer", "contract firm", "agencia", "empresa"),
    "started": ("started", "start", "start date", "hire date", "hired", "first day", "fecha de alta", "fecha de ingreso"),
    "ended": (
        "ended", "end", "end date", "leaving date", "last day", "termination date", "fecha de baja", "ultimo dia",
    ),
    "born": ("born", "birth date", "date of birth", "dob", "birthday", "fecha de nacimiento"),
}  # fmt: skip
EITHER = "nombre"  # the whole name where it stands alone, the given name beside "apellidos"
FIELDS = frozenset(HEADS)


@dataclass(frozen=True, slots=True)
class Columns:
    """Which field stands where. ``heads`` are the words of the file; ``dropped`` are the heads that nobody reads."""

    places: Mapping[str, int]
    heads: Mapping[str, str]
    dropped: tuple[str, ...]

    @property
    def parted(self) -> bool:
        """Say whether given and family names stand apart."""
        return "family" in self.places


def map_columns(header: Line, answers: Mapping[str, str]) -> Columns:
    """Return which column is what; :class:`Stop` when that cannot be told from the heads or the answers."""
    places = _places(header.texts, answers)
    _refuse_twice(header, places)
    found_at = {field: spots[0] for field, spots in places.items()}
    _refuse_missing(header, found_at)
    used = set(found_at.values())
    return Columns(
        places=found_at,
        heads={field: header.texts[spot] for field, spot in found_at.items()},
        dropped=tuple(head for spot, head in enumerate(header.texts) if spot not in used and head),
    )


def known_heads(heads: Sequence[str], answers: Mapping[str, str]) -> int:
    """Return for how many fields a head has a column."""
    return len(_places(heads, answers))


def _places(heads: Sequence[str], answers: Mapping[str, str]) -> dict[str, list[int]]:
    plain = [_plain(head) for head in heads]
    chosen = {key.removeprefix(GIVEN): _plain(head) for key, head in answers.items() if key.startswith(GIVEN)}
    taken = set(chosen.values())
    places: dict[str, list[int]] = {}
    for spot, head in enumerate(plain):
        for field in (
            [name for name, wanted in chosen.items() if wanted == head]
            if head in taken
            else [name for name in (_field(head, plain),) if name and name not in chosen]
        ):
            places.setdefault(field, []).append(spot)
    return places


def _field(head: str, heads: Sequence[str]) -> str | None:
    if head == EITHER:
        return "given" if set(heads) & set(HEADS["family"]) else "name"
    return next((field for field, known in HEADS.items() if head in known), None)


def _plain(head: str) -> str:
    return " ".join(re.sub(r"[^\w]+|_", " ", folded(head)).split())


def _refuse_twice(header: Line, places: Mapping[str, Sequence[int]]) -> None:
    for field, spots in places.items():
        if len(spots) > 1:
            named = ", ".join(header.texts[spot] for spot in spots)
            told = say("{heads}: each of these columns could be the {field}.", heads=named, field=field)
            raise Stop(found(RosterColumns, told, line=header.number, key=f"{GIVEN}{field}"))


def _refuse_missing(header: Line, places: Mapping[str, int]) -> None:
    read = ", ".join(head for head in header.texts if head)[:200]
    if "number" not in places:
        told = say("No column is the number. The heads read: {heads}.", heads=read)
        raise Stop(found(RosterColumns, told, line=header.number, key=f"{GIVEN}number"))
    parts = {"given", "family"} & set(places)
    if "name" in places and parts:
        told = say(
            "There is a column for the whole name and one for a part of it; choose. The heads read: {heads}.",
            heads=read,
        )
        raise Stop(found(RosterColumns, told, line=header.number, key=f"{GIVEN}name"))
    if "name" not in places and len(parts) < 2:
        told = say("No column is the name. The heads read: {heads}.", heads=read)
        raise Stop(found(RosterColumns, told, line=header.number, key=f"{GIVEN}name"))
