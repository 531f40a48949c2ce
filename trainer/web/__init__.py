"""The three doors: kiosk, desk and office, as one Flask application.

A view is four moves: read the form, ask a service, redirect (303) or show a page. It holds no query, no sum and no
date arithmetic.
"""

from datetime import timedelta

from flask import Flask
from flask_wtf.csrf import CSRFProtect
from jinja2 import StrictUndefined

from trainer.bank import Bank, open_bank
from trainer.clock import Clock
from trainer.records import Record, open_record
from trainer.settings import Settings
from trainer.web import access, errors, filters, headers, language, secrets, signin, verify
from trainer.web.rooms import Rooms, rooms

__all__ = ["Rooms", "create_app", "rooms"]

LARGEST_FORM = 2 * 1024 * 1024  # bytes


def create_app(
    settings: Settings,
    *,
    bank: Bank | None = None,
    record: Record | None = None,
    clock: Clock | None = None,
    demo: bool = False,
) -> Flask:
    """Build the application. Nothing is read or opened before this is called.

    ``demo`` enrols every browser that opens the first sheet as a kiosk. It is for an invented plant alone; no setting
    can switch it on.

    Raises :class:`~trainer.errors.BankError` when the content bank has an error: a faulty bank is refused whole.
    """
    from trainer.figures import scene_problems  # noqa: PLC0415  (drawing is heavy and only needed to open a bank)
    from trainer.web.desk import bp as desk  # noqa: PLC0415  (views need a ready package)
    from trainer.web.kiosk import bp as kiosk  # noqa: PLC0415
    from trainer.web.office import bp as office  # noqa: PLC0415

    clock = clock or Clock()
    app = Flask(__name__, template_folder="templates", static_folder="static")
    app.extensions["trainer"] = Rooms(
        settings=settings,
        bank=bank or open_bank(settings.content_folder, settings.extra_folder, check_drawing=scene_problems),
        record=record or open_record(settings, clock),
        clock=clock,
    )
    _configure(app, settings)
    app.config["ENROLS_ANYBODY"] = demo
    CSRFProtect(app)
    for part in (language, filters, headers, errors):
        part.init_app(app)
    for blueprint in (kiosk, desk, office, signin.bp, verify.bp):
        app.register_blueprint(blueprint)
    access.init_app(app)
    return app


def _configure(app: Flask, settings: Settings) -> None:
    app.jinja_env.undefined = StrictUndefined
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    app.config.update(
        SECRET_KEY=secrets.session_key(settings),
        MAX_CONTENT_LENGTH=LARGEST_FORM,
        PERMANENT_SESSION_LIFETIME=timedelta(hours=12),
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        SESSION_COOKIE_SECURE=settings.secure_cookies,
        SEND_FILE_MAX_AGE_DEFAULT=timedelta(hours=1),
        WTF_CSRF_TIME_LIMIT=None,  # a sheet may stay on a kiosk for hours; the token dies with the session
    )
