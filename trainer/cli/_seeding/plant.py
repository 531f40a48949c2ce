"""Reads the plant's files into plain values and fills the crew up with Faker under the plant's own seed."""

import random
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml
from faker import Faker

FILL_STORIES = ("steady", "steady", "steady", "due-soon", "helper", "lapsed", "practical-pending", "attended")
LOCALES = ("en_US", "es_MX", "pl_PL", "de_DE", "pt_BR", "fr_FR")


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """One person of the plant, before it exists."""

    number: str
    name: str
    shift: str
    language: str
    story: str
    machines: tuple[str, ...]
    badge: str
    pin: str
    roles: tuple[str, ...] = ("learner",)
    login: str | None = None
    kind: str = "employee"
    agency: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Plant:
    """The plant as written down."""

    site: str
    zone: str
    seed: int
    machines: tuple[dict[str, Any], ...]
    people: tuple[Hand, ...]
    hazards: tuple[dict[str, Any], ...]
    questions: tuple[dict[str, Any], ...]
    stories: dict[str, list[dict[str, Any]]] = field(repr=False)


def read_plant(folder: Path) -> Plant:
    """Read a plant's folder. The same folder gives the same plant every time."""
    plant = _yaml(folder / "plant.yaml")
    rng = random.Random(plant["seed"])  # noqa: S311  (a made-up plant, not a secret)
    named = [_hand(entry, rng) for entry in _yaml(folder / "people.yaml")]
    return Plant(
        site=plant["site"],
        zone=plant["zone"],
        seed=plant["seed"],
        machines=tuple(plant["machines"]),
        people=(*named, *_fill(plant, len(named), rng)),
        hazards=tuple(plant.get("hazards", ())),
        questions=tuple(plant.get("questions", ())),
        stories=_yaml(folder / "stories.yaml"),
    )


def _yaml(path: Path) -> Any:
    return yaml.safe_load(path.read_text(encoding="utf-8"))


def _hand(entry: dict[str, Any], rng: random.Random) -> Hand:
    return Hand(
        number=entry["number"],
        name=entry["name"],
        shift=entry["shift"],
        language=entry["language"],
        story=entry["story"],
        machines=tuple(entry.get("machines", ())),
        badge=entry.get("badge") or _badge(rng),
        pin=entry.get("pin") or _pin(rng),
        roles=("learner", *entry.get("roles", ())),
        login=entry.get("login"),
        kind=entry.get("kind", "employee"),
        agency=entry.get("agency"),
    )


def _badge(rng: random.Random) -> str:
    return f"00{rng.randrange(10_000_000, 99_999_999)}"


def _pin(rng: random.Random) -> str:
    return f"{rng.choice('345678')}{''.join(rng.sample('0926', 3))}"  # none that the record finds too easy


def _fill(plant: dict[str, Any], named: int, rng: random.Random) -> list[Hand]:
    brakes = [machine["id"] for machine in plant["machines"] if machine["kind"] != "folder"]
    fakers = [Faker(locale) for locale in LOCALES]
    for number, faker in enumerate(fakers):
        faker.seed_instance(plant["seed"] + number)
    crew = []
    for count in range(plant["people"] - named):
        faker = fakers[count % len(fakers)]
        crew.append(
            Hand(
                number=f"{320 + 4 * count:05d}",
                name=f"{faker.first_name()} {faker.last_name()}",
                shift=plant["shifts"][count % len(plant["shifts"])]["name"],
                language="es" if count % len(fakers) == 1 else "en",
                story=FILL_STORIES[count % len(FILL_STORIES)],
                machines=tuple(sorted(rng.sample(brakes[:3], 1 + count % 2))),
                badge=_badge(rng),
                pin=_pin(rng),
            )
        )
    return crew
