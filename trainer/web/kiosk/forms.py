"""The kiosk's forms, and how a badge that lands in the wrong box is told from an answer."""

import re

from flask_babel import lazy_gettext as _l
from flask_wtf import FlaskForm
from wtforms import HiddenField, PasswordField, RadioField, SelectField, StringField, TextAreaField
from wtforms.validators import DataRequired, InputRequired, Length, Optional

LONGEST_TYPED = 40
_READER_MARKS = re.compile(r"^[^0-9A-Za-z]+|[^0-9A-Za-z]+$")  # start and end marks, line ends, blanks
_BADGE = re.compile(r"[^0-9A-Za-z]*\d{8,}[^0-9A-Za-z]*")  # no length, time or force of a drill has eight digits


def clean_code(text: str | None) -> str:
    """Take off what a badge reader puts around a code; the code itself, zeros and all, stays as it is."""
    return _READER_MARKS.sub("", (text or "")[:LONGEST_TYPED])


def looks_like_badge(text: str | None) -> bool:
    """Say whether what came in an answer box is a badge that was read, not a number that was worked out."""
    return bool(_BADGE.fullmatch((text or "").strip()))


def pressed(typed: str, key: str) -> str:
    """Return what a box holds after a key of the keypad, for a glass without script."""
    if key == "clear":
        return ""
    if key == "erase":
        return typed[:-1]
    return (typed + key)[:LONGEST_TYPED] if len(key) == 1 and key in "0123456789.," else typed


class SignInForm(FlaskForm):  # type: ignore[misc]
    """Badge or number, and PIN."""

    number = StringField(
        _l("Scan it, or type your number"),
        [DataRequired(_l("Hold your badge to the reader, or type your number.")), Length(max=LONGEST_TYPED)],
        filters=[clean_code],
    )
    pin = PasswordField(_l("Your PIN"), [InputRequired(_l("Type your PIN.")), Length(max=16)])

    def fault(self) -> str:
        """Return the first thing that is wrong with the form, in words; empty when nothing is."""
        return next((str(fault) for field in (self.number, self.pin) for fault in field.errors), "")


class PinForm(FlaskForm):  # type: ignore[misc]
    """The PIN alone, of the person who is signed in."""

    pin = PasswordField(_l("Your PIN"), [InputRequired(_l("Type your PIN.")), Length(max=16)])


class EnrolForm(FlaskForm):  # type: ignore[misc]
    """The code that makes a device a kiosk."""

    code = StringField(_l("Code for this device"), [InputRequired(_l("Type the code.")), Length(max=LONGEST_TYPED)])


class HazardForm(FlaskForm):  # type: ignore[misc]
    """Report a hazard."""

    kind = RadioField(_l("What is it?"), default="hazard")
    machine = SelectField(_l("Where"), default="")
    place = RadioField(_l("Where at the machine, if you like"), default="", validators=[Optional()])
    words = TextAreaField(
        _l("What is wrong, or could be better?"),
        [DataRequired(_l("Say what is wrong, in a few words.")), Length(max=2_000)],
    )
    named = RadioField(_l("Your name"), default="no")
    key = HiddenField()


class AskForm(FlaskForm):  # type: ignore[misc]
    """Ask somebody."""

    wish = RadioField(_l("What do you want?"), default="explain")
    words = TextAreaField(_l("In your own words, if you like"), [Length(max=240)])
    key = HiddenField()
