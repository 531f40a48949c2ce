"""The desk's blueprint; the modules of its views hang themselves on it."""

from flask import Blueprint

bp = Blueprint("desk", __name__, url_prefix="/desk")
