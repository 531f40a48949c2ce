"""What each sheet of the kiosk shows, as data. A template is given one of these and nothing else."""

from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from trainer.wording import Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """One field of the strip along the top; ``state`` is ``done``, ``here`` or empty."""

    label: str
    state: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """One field of the title block; one that ``yields`` gives way when there is little room."""

    label: str
    value: str
    yields: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Tongue:
    """A language: its code, its name in its own words, whether it is the one in use."""

    code: str
    name: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Help:
    """Which keys the head has. ``carrier`` is the id of the form that they send, so that nothing typed is lost."""

    back: str
    tongues: tuple[Tongue, ...]
    carrier: str = "aside"
    swap: bool = False
    wipe: bool = False
    pause: bool = False
    ask: bool = False
    hazard: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What surrounds a sheet. ``counts`` says whether the zones count the sheets of a sitting."""

    title: str
    tab: str
    zones: tuple[Zone, ...]
    counts: bool
    boxes: tuple[Box, ...]
    help: Help
    signed_in: bool
    swapped: bool
    contrast: bool
    idle_seconds: int
    notice: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StartPage:
    """The first sheet: language, badge or number, PIN."""

    frame: Frame
    number: str = ""
    pin: str = ""
    refusal: Sentence | str = ""
    now: str = "number"


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """A programme that is waiting: why, until when, how long it takes, and where an open sitting of it stands."""

    number: int
    programme: str
    name: str
    why: Sentence
    until: str
    long: str
    place: str
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MinePage:
    """My sheets: what is waiting for the person who signed in; ``held`` says for each machine how they stand."""

    frame: Frame
    rows: tuple[Waiting, ...]
    more: int
    held: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """Where the keys of a sheet of a sitting lead; ``stage`` tells the server what was on the glass."""

    sitting: str
    number: int
    stage: str
    before: str = ""
    last: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonPage:
    """A sheet to read."""

    frame: Frame
    turn: Turn
    drawing: Markup | None
    heading: str
    text: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One answer of the parts list: its letter or number on the sheet, its words, and whether it is pressed and on disk.

    ``formula`` stands below the words of a rule to choose.
    """

    letter: str
    value: str
    words: str
    saved: bool
    formula: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One thing to find the partner of: its number, its words, the letter that was put to it, whether it is next."""

    number: str
    words: str
    filled: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """One thing that is given: label, symbol, amount with its unit."""

    label: str
    symbol: str
    amount: str


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionPage:
    """A question, or a safeguard to pick.

    ``name`` is what a row is sent as: ``choice`` where one press answers, ``row`` where several do. ``saved`` says that
    the answer is whole and on disk, ``begun`` that something is pressed. ``firsts`` are the rows of a choice that wants
    a reason, ``slots`` what the rows are matched with.
    """

    frame: Frame
    turn: Turn
    drawing: Markup | None
    told: tuple[str, ...]
    asked: str
    rows: tuple[Row, ...]
    key: str
    saved: bool
    tight: bool
    told_left: bool
    name: str = "choice"
    kind: str = "pick-one"
    hint: str = ""
    begun: bool = False
    firsts: tuple[Row, ...] = ()
    slots: tuple[Slot, ...] = ()
    places: bool = False
    given: tuple[tuple[Given, ...], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadTable:
    """A published table to read from, in the place of a drawing."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillPage:
    """A number to work out. ``table`` is the published table that it is read from. ``readings`` holds what an unclear number can mean, to be asked back."""

    frame: Frame
    turn: Turn
    drawing: Markup | None
    told: str
    asked: str
    symbol: str
    given: tuple[tuple[Given, ...], ...]
    formulas: tuple[str, ...]
    number: str
    unit: str
    units: tuple[str, ...]
    decimal: str
    key: str
    saved: bool
    refusal: Sentence | str = ""
    readings: tuple[str, ...] = ()
    table: ReadTable | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingLine:
    """One step of the working; ``slip`` says what went wrong there, ``used`` what the person had instead."""

    number: int
    label: str
    formula: str
    numbers: str
    amount: str
    slip: tuple[Sentence, ...] = ()
    used: Sentence | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RacePage:
    """Feedback to a number: what would happen at the machine, the race, the working with the step that went wrong."""

    frame: Frame
    turn: Turn
    verdict: str
    headline: Sentence
    told: Sentence | None
    figure: Any | None
    drawing: Markup | None
    lines: tuple[WorkingLine, ...]
    tells: tuple[Sentence, ...]
    crowded: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """An answer beside the right one."""

    label: str
    letter: str
    words: str
    yours: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """One row of a list that is looked back on: its ring, its words, what belongs to it, and a word on it.

    ``state`` is ``good``, ``bad`` or empty; ``word`` says in words what the state means here.
    """

    ring: str
    words: str
    partner: str
    state: str
    word: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyPage:
    """Feedback to a question: the answer, what is right, and why."""

    frame: Frame
    turn: Turn
    verdict: str
    headline: Sentence
    told: tuple[str, ...]
    asked: str
    drawing: Markup | None
    compared: tuple[Compared, ...]
    why: tuple[str | Sentence, ...]
    looked: tuple[Looked, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """One line of the last sheet: a sheet that was answered, and how it came out."""

    number: int | None
    name: str
    word: str
    done: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class HandInPage:
    """The last sheet before a paper is handed in."""

    frame: Frame
    sitting: str
    answers: tuple[Answered, ...]
    count: int
    pin: str = ""
    refusal: Sentence | str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Approval:
    """One box of the approvals: what it is about, its word, what is said under it."""

    label: str
    word: str
    told: str
    done: bool = False
    next: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One competency and whether it has been shown."""

    name: str
    word: str
    done: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingPage:
    """Where one stands for a machine: the state in one sentence, the approvals, what is shown and open, what comes."""

    frame: Frame
    state: str
    under: str
    approvals: tuple[Approval, ...]
    caption: str
    shown: tuple[Shown, ...]
    ahead: tuple[str, ...]
    drawing: Markup | None
    again: tuple[int, str] | None
    others: tuple[tuple[str, str], ...]
    close: bool
    columns: tuple[tuple[Shown, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PausePage:
    """A paused sitting: nothing of it but where it goes on."""

    frame: Frame
    place: str
    refusal: Sentence | str = ""
    pin: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EnrolPage:
    """A device that is not enrolled: no PIN is taken, only the code that makes it a kiosk."""

    frame: Frame
    code: str = ""
    refusal: Sentence | str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoticePage:
    """A sheet of one subject and the keys that lead on: still there, a badge was read, a report was kept, wipe."""

    frame: Frame
    lead: str
    text: tuple[str, ...]
    keys: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardPage:
    """Report a hazard: at which machine and place, in which words, with or without a name."""

    frame: Frame
    form: Any
    drawing: Markup
    refusal: Sentence | str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TonguesPage:
    """The languages to choose from."""

    frame: Frame
