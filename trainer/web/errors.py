"""One place turns errors into pages: a sentence that says what is wrong and what would be right."""

import logging

from flask import Flask, render_template, request
from flask_babel import lazy_gettext as _l
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException

from trainer.errors import TrainerError
from trainer.web.language import translate

log = logging.getLogger(__name__)

TITLES = {
    400: (_l("That did not work"), _l("The page sent something that cannot be read. Go back and try again.")),
    403: (_l("Not for you"), _l("Your sign-in does not open this sheet. Sign in with one that does.")),
    404: (_l("No such sheet"), _l("There is nothing at this address. Start again from the first sheet.")),
    405: (_l("Not this way"), _l("This address takes no such request. Start again from the first sheet.")),
    413: (_l("Too much at once"), _l("What was sent is larger than 2 MB. Send less.")),
    500: (_l("The program failed"), _l("Nothing you saved is lost. Tell the person who looks after this program.")),
}


def page(status: int, sentence: str = "") -> tuple[str, int]:
    """Show an error as a sheet."""
    title, text = TITLES.get(status, TITLES[400])
    at_kiosk = not request.path.startswith(("/desk", "/office", "/sign-in", "/verify"))
    return (
        render_template("errors/error.html", status=status, title=title, text=sentence or text, at_kiosk=at_kiosk),
        status,
    )


def init_app(app: Flask) -> None:
    """Register the handlers."""

    @app.errorhandler(TrainerError)
    def refused(error: TrainerError) -> tuple[str, int]:
        return page(error.status, translate(error.sentence))

    @app.errorhandler(CSRFError)
    def stale(_error: CSRFError) -> tuple[str, int]:
        return page(
            400, str(_l("This page was open too long. Nothing was changed. Go back, load it again and repeat."))
        )

    @app.errorhandler(HTTPException)
    def http(error: HTTPException) -> tuple[str, int]:
        return page(error.code or 500)

    @app.errorhandler(Exception)
    def failed(error: Exception) -> tuple[str, int]:
        log.error("the program failed on %s", request.path, exc_info=error)
        return page(500)
