"""One bad sample for each finding: what to do to the small bank, and where the finding has to be.

A sample is a list of changes, ``(file, old, new)`` for a replacement or ``(file, text)`` for a new file (None deletes
it), and the places ``(file, line)`` at which its code has to be found, and no other error.
"""

from typing import NamedTuple

SCENARIO = "scenarios/open-gap/scenario.yaml"
EN = "scenarios/open-gap/en.yaml"
ES = "scenarios/open-gap/es.yaml"
DRAWINGS = "scenarios/open-gap/drawings.yaml"
DISTANCE = "drills/distance/drill.yaml"
KINDS = "scenarios/nine-kinds/scenario.yaml"
KINDS_EN = "scenarios/nine-kinds/en.yaml"
CHOICE = "drills/choice/drill.yaml"
PROGRAMMES = "programmes.yaml"
HARD = """      Unauthorised individuals inadvertently penetrating insufficiently protected perimeter apertures

      necessitate immediate operational discontinuation.

      Subsequent investigation procedures follow organisational documentation requirements.

      Supervisory personnel continually evaluate operational circumstances concerning dangerous machinery.
"""


class Sample(NamedTuple):
    changes: tuple[tuple[str, ...], ...]
    places: tuple[tuple[str, int], ...]


def sample(*changes: tuple, at: tuple[tuple[str, int], ...]) -> Sample:
    return Sample(changes, at)


Q2 = "  - id: q2\n    version: 2\n"
MANY = "\n".join(
    f"""  - id: m{n}
    version: 1
    kind: pick-one
    competency: gaps
    sources: [rule]
    options:
      - {{id: a, right: true}}
      - {{id: b, misconception: far-enough}}
      - {{id: c, misconception: quick-enough}}"""
    for n in range(12)
)


def many_told(right: str, wrong: str) -> str:
    colours = [
        "red",
        "blue",
        "green",
        "brown",
        "black",
        "white",
        "grey",
        "pink",
        "violet",
        "orange",
        "yellow",
        "golden",
    ]
    return "\n".join(
        f"""  m{n}:
    told: The {colour} cover number {n}{n} is {colour}.
    asked: Who {colour}{n}?
    options: {{a: {right} {colour}{n}., b: {wrong} {colour}{n}., c: {wrong} {colour}{n * 7}.}}
    why: So it is."""
        for n, colour in enumerate(colours)
    )


def many(right: str, wrong: str) -> tuple[tuple[str, str, str], ...]:
    told = many_told(right, wrong)
    return (
        (SCENARIO, "questions:\n", f"questions:\n{MANY}\n"),
        (EN, "questions:\n", f"questions:\n{told}\n"),
        (ES, "questions:\n", f"questions:\n{told}\n"),
    )


STOPPING = "stopping-time: {from: 100 ms, to: 200 ms, step: 10 ms}"
BLANKED = """  stopping-time: 100 ms
  control-response: 0 ms
  device-response: 0 ms
  monitor-allowance: 0 ms
  object-sensitivity: 30 mm
  beams-blanked: {from: '1', to: '2', step: '1'}
  beam-pitch: 20 mm"""

BAD: dict[str, Sample] = {
    "bad-facts": sample((CHOICE, "drive: hyd_down", "drive: by_hand"), at=((CHOICE, 11),)),
    "unknown-safeguard": sample((CHOICE, "signs_training", "prayer"), at=((CHOICE, 12),)),
    "unknown-temptation": sample((CHOICE, "foot_switch: quick-enough", "curtain: quick-enough"), at=((CHOICE, 13),)),
    "no-right-answer": sample((CHOICE, "signs_training, none", "signs_training"), at=((CHOICE, 12),)),
    "unknown-problem": sample((DISTANCE, "us-presence-sensing", "us-presence-feeling"), at=((DISTANCE, 6),)),
    "unknown-input": sample((DISTANCE, "inputs:", "inputs:\n  mood: 1 mm"), at=((DISTANCE, 10),)),
    "missing-input": sample(
        (DISTANCE, "us-presence-sensing", "iso-presence-sensing"), at=((DISTANCE, 9), (DISTANCE, 9))
    ),
    "unknown-slip": sample((DISTANCE, "slips: []", "slips:\n  - rounds-down\n  - rounds-up"), at=((DISTANCE, 13),)),
    "wrong-dimension": sample((DISTANCE, STOPPING, "stopping-time: 100 mm"), at=((DISTANCE, 10),)),
    "reversed-range": sample((DISTANCE, "from: 100 ms", "from: 300 ms"), at=((DISTANCE, 10),)),
    "uneven-step": sample((DISTANCE, "step: 10 ms", "step: 30 ms"), at=((DISTANCE, 10),)),
    "endless-range": sample((DISTANCE, "step: 10 ms", "step: 0.01 ms"), at=((DISTANCE, 10),)),
    "no-figure": sample(
        (DISTANCE, "us-presence-sensing", "ansi-presence-sensing"),
        (DISTANCE, f"  {STOPPING}", BLANKED),
        at=((DISTANCE, 9),),
    ),
    "missing-file": sample(("text/es.yaml", None), at=(("text/es.yaml", 0),)),
    "unreadable-file": sample(("sources.yaml", "rule: [1\n"), at=(("sources.yaml", 2),)),
    "duplicate-key": sample(
        ("sources.yaml", "hearsay:", "rule: {document: Rule 9, read: original}\nhearsay:"), at=(("sources.yaml", 2),)
    ),
    "duplicate-id": sample((SCENARIO, "id: q2", "id: q1"), at=((SCENARIO, 19),)),
    "unknown-key": sample((SCENARIO, "    critical: true\n", "    critcal: true\n"), at=((SCENARIO, 12),)),
    "missing-key": sample((SCENARIO, "    version: 2\n", ""), at=((SCENARIO, 19),)),
    "bad-value": sample((SCENARIO, "version: 2", "version: two"), at=((SCENARIO, 20),)),
    "missing-text": sample((ES, "    why: La tapa va en la máquina.\n", ""), at=((ES, 20),)),
    "orphan-text": sample((EN, "  q3:\n", "  q4: {told: Nobody asks.}\n  q3:\n"), at=((EN, 20),)),
    "stray-file": sample(("words/fr.yaml", "ram: coulisseau\n"), at=(("words/fr.yaml", 0),)),
    "unknown-source": sample((SCENARIO, "sources: [common-practice]", "sources: [rul]"), at=((SCENARIO, 23),)),
    "no-source": sample((SCENARIO, "sources: [common-practice]", "sources: []"), at=((SCENARIO, 19),)),
    "memory-source": sample((SCENARIO, "sources: [common-practice]", "sources: [hearsay]"), at=((SCENARIO, 23),)),
    "unknown-competency": sample((DISTANCE, "competency: distance", "competency: speed"), at=((DISTANCE, 4),)),
    "not-one-key": sample(
        (SCENARIO, "      - {id: a, right: true}", "      - {id: a, misconception: far-enough}"), at=((SCENARIO, 15),)
    ),
    "too-few-options": sample(
        (SCENARIO, "      - {id: c, right: true}\n", "      - {id: c, right: true}\n"),
        (SCENARIO, "{id: b, misconception: quick-enough}\n      - {id: c, right: true}", "{id: b, right: true}"),
        (EN, "{a: Stand far off., b: Work faster., c: Put it back.}", "{a: Stand far off., b: Put it back.}"),
        (ES, "{a: Alejarse más., b: Ir más rápido., c: Ponerla otra vez.}", "{a: Alejarse más., b: Ponerla otra vez.}"),
        at=((SCENARIO, 33),),
    ),
    "no-misconception": sample((SCENARIO, "- {id: b, misconception: quick-enough}", "- {id: b}"), at=((SCENARIO, 35),)),
    "right-misconception": sample(
        (SCENARIO, "- {id: c, right: true}", "- {id: c, right: true, misconception: far-enough}"), at=((SCENARIO, 36),)
    ),
    "unknown-misconception": sample(
        (SCENARIO, "- {id: b, misconception: quick-enough}", "- {id: b, misconception: brave}"), at=((SCENARIO, 35),)
    ),
    "unknown-drawing": sample((SCENARIO, "drawing: gap}", "drawing: gab}"), at=((SCENARIO, 6),)),
    "unknown-word": sample((DRAWINGS, "word: ram", "word: rram"), at=((DRAWINGS, 7),)),
    "unknown-part": sample((PROGRAMMES, "scenarios: [PB-S90]", "scenarios: [PB-S91]"), at=((PROGRAMMES, 5),)),
    "too-many-asked": sample((PROGRAMMES, "{PB-S90: 2}", "{PB-S90: 4}"), at=((PROGRAMMES, 7),)),
    "empty-paper": sample(
        (PROGRAMMES, "{PB-S90: 2}", "{}"),
        (PROGRAMMES, "drills: [PB-D90, PB-D91]", "drills: []"),
        (PROGRAMMES, "must_pass: [gaps]", "must_pass: []"),
        at=((PROGRAMMES, 6),),
    ),
    "wrong-checklist": sample(("checklists.yaml", "[press-brake-hydraulic]", "[folder]"), at=((PROGRAMMES, 13),)),
    "too-few-questions": sample(
        (
            SCENARIO,
            "competency: gaps\n    sources: [common-practice]",
            "competency: choice\n    sources: [common-practice]",
        ),
        at=((PROGRAMMES, 9),),
    ),
    "no-room": sample(
        *(
            (SCENARIO, f"competency: gaps\n    sources: [{a}]", f"competency: other\n    sources: [{a}]")
            for a in ("common-practice", "rule, hearsay")
        ),
        (SCENARIO, "questions:\n", f"questions:\n{MANY.replace('m0', 'm0')}\n"),
        (SCENARIO, "competency: gaps\n    critical", "competency: other\n    critical"),
        (
            "competencies.yaml",
            "gaps:",
            "other: {kind: knowledge, critical: true, level: 0.9, roles: [operator]}\ngaps:",
        ),
        ("text/en.yaml", "  gaps: {name: Gaps, c", "  other: {name: Other, can_do: Can.}\n  gaps: {name: Gaps, c"),
        ("text/es.yaml", "  gaps: {name: Huecos, c", "  other: {name: Otro, can_do: Sabe.}\n  gaps: {name: Huecos, c"),
        *many("Close it", "Leave it")[1:],
        (PROGRAMMES, "must_pass: [gaps]", "must_pass: [gaps, other]"),
        (PROGRAMMES, "{PB-S90: 2}", "{PB-S90: 1}"),
        at=((PROGRAMMES, 7),),
    ),
    "key-position": sample(*many("Close it", "Leave it"), at=(("bank.yaml", 1),)),
    "giveaway-pattern": sample(*many("Close them", "Leave"), at=(("bank.yaml", 1), ("bank.yaml", 1))),
    "giveaway-length": sample(
        (EN, "a: Close the gap now.", "a: Close the gap now and have it checked."), at=((EN, 13),)
    ),
    "near-duplicate": sample(
        (EN, "told: The cover lies on the floor beside the bed.", "told: Somebody left the door of the fence ajar."),
        (EN, "asked: How do you go on?", "asked: Which step is right?"),
        (
            EN,
            "{a: Stand far off., b: Work faster., c: Put it back.}",
            "{a: Keep well away., b: Hurry past., c: Shut that door.}",
        ),
        at=((EN, 20),),
    ),
    "too-long-for-sheet": sample(
        (EN, "asked: Which step is right?", f"asked: {'Which step is right? ' * 5}"), at=((EN, 17),)
    ),
    "sentence-too-long": sample(
        (EN, "told: The gap at the end is open.", f"told: {'The gap is here and ' * 4}it is wide open."), at=((EN, 11),)
    ),
    "hard-to-read": sample(
        (
            EN,
            "      A hand goes through the gap.\n",
            HARD,
        ),
        at=((EN, 3),),
    ),
    "wrong-key-count": sample(
        (
            KINDS,
            "{id: c, right: true}\n      - {id: d, misconception: quick-enough}\n  - id: order",
            "{id: c, misconception: far-enough}\n      - {id: d, misconception: quick-enough}\n  - id: order",
        ),
        at=((KINDS, 14),),
    ),
    "unknown-step": sample((KINDS, "{first: c, then: b,", "{first: b, then: c,"), at=((KINDS, 26),)),
    "no-place": sample(
        (
            KINDS,
            "{id: b, at: [300, 1700], misconception: far-enough}\n      - {id: c, at: [2700, 300], misconception",
            "{id: b, misconception: far-enough}\n      - {id: c, at: [2700, 300], misconception",
        ),
        at=((KINDS, 35),),
    ),
    "unknown-base": sample(
        (
            "drills/judged/drill.yaml",
            "id: PB-D92\nversion: 1\nkind: mounted\nbase: PB-D99\ncompetency: distance\nsources: [rule]\nslips: [a, b]\n",
        ),
        ("drills/judged/en.yaml", "title: Far enough?\ntold: The gap is open.\nasked: Is it far enough?\n"),
        ("drills/judged/es.yaml", "title: ¿Alcanza?\ntold: El hueco está abierto.\nasked: ¿Está lejos?\n"),
        at=(("drills/judged/drill.yaml", 4),),
    ),
    "no-theme": sample((KINDS, "theme: safeguard-state\n", ""), at=((KINDS, 1),)),
    "bad-figure": sample((KINDS_EN, "It would need {need}.", "It would need {needed}."), at=((KINDS, 79),)),
    "typed-figure": sample((KINDS_EN, "It would need {need}.", "It would need 395 mm."), at=((KINDS_EN, 48),)),
    "unwritten-text": sample((EN, "    why: A closed gap lets no hand in.", '    why: "TODO: why."'), at=((EN, 14),)),
    "too-many-rows": sample((KINDS, "    kind: match\n", "    kind: match\n    drawing: bench\n"), at=((KINDS, 51),)),
}
