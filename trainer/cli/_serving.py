"""Serves the doors with waitress, on every system alike."""

import socket
from collections.abc import Callable

from trainer.clock import Clock
from trainer.settings import Settings


def free_port(host: str, wanted: int) -> int:
    """Return ``wanted`` when nobody listens there, else a port that the system finds free."""
    for port in (wanted, 0):
        with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((host, port))
            except OSError:
                continue
            found: int = probe.getsockname()[1]
            return found
    raise OSError(f"no port can be opened on {host}")


def serve(
    settings: Settings, *, host: str, port: int, threads: int, ready: Callable[[str], None], demo: bool = False
) -> None:
    """Serve until the process is stopped; ``ready`` hears the address once requests are taken.

    ``demo`` takes every browser for a kiosk; only an invented plant is served so.
    """
    from waitress import create_server  # noqa: PLC0415  (heavy; only when something is served)

    from trainer.web import create_app  # noqa: PLC0415

    app = create_app(settings, clock=Clock(), demo=demo)
    server = create_server(app, host=host, port=port, threads=threads, ident="trainer")
    ready(f"http://{host}:{port}/")
    try:
        server.run()
    finally:
        server.close()
