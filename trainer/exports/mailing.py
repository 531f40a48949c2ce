"""Handing letters over to a mail server. The password is never part of what is said about a failure.

TLS checks the server's certificate and name. A failure before the server has taken the letter is known to be one; once
the letter's text was on its way and no answer came, nobody knows, and that is said too.
"""

import smtplib
import ssl
from dataclasses import dataclass, field
from datetime import datetime
from email.message import EmailMessage
from email.policy import SMTP as WIRE
from email.utils import format_datetime

from trainer.errors import TrainerError
from trainer.settings import MailServer
from trainer.wording import say

PATIENCE = 30  # seconds


class NotSent(TrainerError):
    """A letter was not handed over. ``unsure`` when it may have been all the same."""

    def __init__(self, reason: str, *, unsure: bool = False) -> None:
        super().__init__(say("The mail server did not take it: {reason}", reason=reason))
        self.unsure = unsure


@dataclass(frozen=True, slots=True, kw_only=True)
class Mail:
    """One message. ``id`` makes a second copy known as one."""

    id: str
    sender: str
    to: str
    subject: str
    text: str
    at: datetime

    def as_message(self) -> EmailMessage:
        """Return it as RFC 5322 has it; a line break in a header is refused there."""
        made = EmailMessage(policy=WIRE)
        made["From"], made["To"], made["Subject"] = self.sender, self.to, self.subject
        made["Date"] = format_datetime(self.at)
        made["Message-ID"] = f"<{self.id}@{self.sender.rpartition('@')[2]}>"
        made["Auto-Submitted"] = "auto-generated"  # RFC 3834, so that no absence notice answers
        made.set_content(self.text, charset="utf-8", cte="quoted-printable")
        return made


@dataclass(slots=True)
class Post:
    """A connection to the mail server; made anew when it was lost."""

    server: MailServer
    _open: smtplib.SMTP | None = field(default=None, repr=False)

    def connect(self) -> None:
        """Connect, with TLS and password as the setting says; :class:`NotSent` when that fails."""
        if self._open is not None:
            return
        try:
            self._open = self._connected()
        except (OSError, smtplib.SMTPException, UnicodeError) as error:
            raise NotSent(self._told(error)) from None

    def send(self, mail: Mail) -> None:
        """Hand one message over; :class:`NotSent` when it was refused, or nobody knows."""
        self.connect()
        smtp = self._open
        assert smtp is not None  # noqa: S101  (just connected)
        try:
            smtp.ehlo_or_helo_if_needed()
            self._must(smtp.mail(mail.sender))
            self._must(smtp.rcpt(mail.to))
        except (OSError, smtplib.SMTPException) as error:
            self.close()
            raise NotSent(self._told(error)) from None
        try:
            self._must(smtp.data(mail.as_message().as_bytes()))
        except smtplib.SMTPResponseException as error:  # an answer, and it is no
            self.close()
            raise NotSent(self._told(error)) from None
        except (OSError, smtplib.SMTPException) as error:
            self.close()
            raise NotSent(self._told(error), unsure=True) from None

    def close(self) -> None:
        """Say goodbye; whatever the server does then does not matter."""
        smtp, self._open = self._open, None
        if smtp is not None:
            try:
                smtp.quit()
            except (OSError, smtplib.SMTPException):
                smtp.close()

    def _connected(self) -> smtplib.SMTP:
        server, tls = self.server, ssl.create_default_context()
        smtp: smtplib.SMTP
        if server.security == "tls":
            smtp = smtplib.SMTP_SSL(server.host, server.port, timeout=PATIENCE, context=tls)
        else:
            smtp = smtplib.SMTP(server.host, server.port, timeout=PATIENCE)
        try:
            if server.security == "starttls":
                smtp.starttls(context=tls)
            if server.user:
                smtp.login(server.user, server.password)
        except BaseException:
            smtp.close()
            raise
        return smtp

    def _must(self, answer: tuple[int, bytes]) -> None:
        code, words = answer
        if not 200 <= code < 300:
            raise smtplib.SMTPResponseException(code, words)

    def _told(self, error: Exception) -> str:
        """Say what went wrong in one line, without the password whatever the server repeats."""
        text = str(error) or type(error).__name__
        if isinstance(error, smtplib.SMTPResponseException):
            said = error.smtp_error
            words = said.decode("utf-8", "replace") if isinstance(said, bytes) else str(said)
            text = f"{error.smtp_code} {words}"
        plain = " ".join(text.split())
        return plain.replace(self.server.password, "…") if self.server.password else plain
