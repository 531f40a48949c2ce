"""Headers on every answer: no script or style but our own files, no framing, nothing kept by the browser."""

from flask import Flask, Response, request

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)
FIXED = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}


def init_app(app: Flask) -> None:
    """Set the headers on every answer of ``app``."""

    @app.after_request
    def guard(response: Response) -> Response:
        for name, value in FIXED.items():
            response.headers.setdefault(name, value)
        if request.endpoint != "static":  # a shared kiosk must show nothing of the last person on Back
            response.headers["Cache-Control"] = "no-store"
        if app.config["SESSION_COOKIE_SECURE"]:
            response.headers.setdefault("Strict-Transport-Security", "max-age=31536000")
        return response
