"""Effective object sensitivity: what a curtain still detects when beams are blanked."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from trainer.errors import UsageError
from trainer.safeguarding import sources
from trainer.safeguarding.inputs import Given, Inputs, Numbers
from trainer.safeguarding.problem import Problem, answer
from trainer.safeguarding.result import Sense
from trainer.safeguarding.slips import UNIT_SLIPS, Slip, becomes, pick
from trainer.safeguarding.working import Working
from trainer.wording import mark, say

POSTED = say("Show the effective object sensitivity on a lasting sign at the curtain.")
FILLED = say("Fill the blanked window with the work, a support or a fixed guard, or count it as reduced sensitivity.")
WHO = say("Only an authorised person may set blanking.")


ObjectSensitivity = Annotated[
    Any, Given("O_s", mark("Object sensitivity of the curtain, no beam blanked"), "length", above=0)
]
BeamsBlanked = Annotated[Any, Given("n", mark("Beams blanked or floating, next to each other"), "count", most=100)]
BeamPitch = Annotated[Any, Given("p", mark("Beam pitch, from beam to beam"), "length", above=0)]


def needs_pitch(inputs: Any) -> None:
    """Refuse blanked beams without a pitch."""
    if inputs.beams_blanked and inputs.beam_pitch is None:
        raise UsageError(say("beam-pitch is missing. With beams blanked give it, such as beam-pitch=10 mm."))


def effective(w: Working, nominal: Any, beams_blanked: int, beam_pitch: Any, symbols: tuple[str, str]) -> Any:
    """Take the sensitivity that counts: ``O_eff = O_s + n × p``, in mm. ``symbols`` names nominal and effective."""
    plain, result = symbols
    international = plain == "d"  # each rule has its own word for it
    word = (
        mark("Detection capability, no beam blanked") if international else mark("Object sensitivity, no beam blanked")
    )
    nominal = w.given(plain, nominal, "length", word)
    if not beams_blanked:
        w.term("effective-sensitivity", nominal)
        w.seen[result] = nominal
        return nominal
    count = w.given("n", beams_blanked, "count", mark("Beams blanked, next to each other"))
    spacing = w.given("p", beam_pitch, "length", mark("Beam pitch"))
    word = mark("Effective detection capability") if international else mark("Effective object sensitivity")
    value = w.step(result, word, f"{plain} + n × p", nominal + count * spacing)
    w.term("effective-sensitivity", value)
    w.warn(POSTED, FILLED, WHO)
    w.cite(sources.BLANKING)
    return value


def blanking_slips(nominal: str, result: str) -> tuple[Slip, ...]:
    """Return the slips people make with blanked beams."""
    return (
        Slip(
            code="nominal-sensitivity",
            title=mark("Uses the object sensitivity as if no beam were blanked"),
            tell=mark("You used the curtain's own object sensitivity. With beams blanked it sees only larger objects."),
            symbol=result,
            changes={"n": becomes(0)},
        ),
        Slip(
            code="beams-times-sensitivity",
            title=mark("Multiplies the object sensitivity by the number of beams blanked"),
            tell=mark("You multiplied the sensitivity by the beams blanked. Each blanked beam adds one beam pitch."),
            symbol=result,
            changes={result: lambda value, seen: seen[nominal] * seen["n"] if seen["n"] > 1 else value},
        ),
        Slip(
            code="beams-as-millimetres",
            title=mark("Adds the number of beams as millimetres"),
            tell=mark("You added the number of beams itself. Each blanked beam adds one beam pitch."),
            symbol=result,
            changes={result: pick(lambda seen: seen[nominal] + Fraction(seen["n"]))},
        ),
        Slip(
            code="one-beam-too-few",
            title=mark("Counts one blanked beam too few"),
            tell=mark("You counted one blanked beam too few. Each of them adds one beam pitch."),
            symbol=result,
            changes={"n": lambda value, _seen: value - 1 if value > 1 else value},
        ),
        Slip(
            code="one-beam-too-many",
            title=mark("Counts one beam more than is blanked"),
            tell=mark("You counted one beam too many. Only the blanked beams add a pitch."),
            symbol=result,
            changes={"n": lambda value, _seen: value + 1},
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class EffectiveObjectSensitivity(Inputs):
    """Inputs of the effective object sensitivity."""

    object_sensitivity: ObjectSensitivity
    beams_blanked: BeamsBlanked
    beam_pitch: BeamPitch


def _sum(w: Working, g: Numbers) -> Any:
    if not g.beams_blanked:
        w.warn(say("No beam is blanked, so the curtain's own object sensitivity counts."))
    return effective(w, g.object_sensitivity, g.beams_blanked, g.beam_pitch, ("O_s", "O_eff"))


PROBLEMS = (
    Problem(
        name="effective-object-sensitivity",
        title=mark("Effective object sensitivity of a light curtain with beams blanked"),
        inputs=EffectiveObjectSensitivity,
        sum=_sum,
        answer=answer("O_eff", Sense.AT_LEAST, "fine-length"),
        slips=(
            *blanking_slips("O_s", "O_eff"),
            Slip(
                code="pitch-instead-of-sum",
                title=mark("Takes the blanked window alone"),
                tell=mark("You took the blanked window alone. Add it to the curtain's own object sensitivity."),
                symbol="O_eff",
                changes={"O_eff": pick(lambda seen: seen["n"] * seen["p"])},
            ),
            *UNIT_SLIPS,
        ),
    ),
)
