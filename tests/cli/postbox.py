"""A real mail server on this machine that keeps what it gets."""

import asyncio
import email.policy
import threading
import warnings
from contextlib import contextmanager
from email import message_from_bytes

from aiosmtpd.smtp import SMTP


class Box:
    """What the mail server got; ``refuse`` are answers that it gives instead of taking a letter."""

    def __init__(self):
        self.got, self.refuse = [], []

    async def handle_DATA(self, _server, _session, envelope):
        if self.refuse:
            return self.refuse.pop(0)
        self.got.append((envelope.rcpt_tos[0], message_from_bytes(envelope.content, policy=email.policy.default)))
        return "250 taken"

    @property
    def readers(self):
        return sorted(to for to, _ in self.got)


class Silent(Box):
    """Takes a letter and is gone before it says so."""

    async def handle_DATA(self, server, session, envelope):
        await super().handle_DATA(server, session, envelope)
        server.transport.close()
        return "250 taken"


@contextmanager
def served(box, *, whole=None, **given):
    """Serve at a free port and give its number; ``whole`` is a TLS context from the first octet on."""
    loop = asyncio.new_event_loop()

    def made():
        with warnings.catch_warnings():  # it does not see that TLS is there from the first octet on
            warnings.simplefilter("ignore")
            return SMTP(box, loop=loop, hostname="localhost", **given)

    thread = threading.Thread(target=loop.run_forever)  # the caller's may have a running loop, the browser's
    thread.start()
    opening = loop.create_server(made, "localhost", 0, family=2, ssl=whole)
    server = asyncio.run_coroutine_threadsafe(opening, loop).result(10)
    try:
        yield server.sockets[0].getsockname()[1]
    finally:
        loop.call_soon_threadsafe(server.close)
        asyncio.run_coroutine_threadsafe(_ended(), loop).result(10)
        loop.call_soon_threadsafe(loop.stop)
        thread.join()
        loop.close()


async def _ended():
    """Let every session end."""
    rest = asyncio.all_tasks() - {asyncio.current_task()}
    for task in rest:
        task.cancel()
    await asyncio.gather(*rest, return_exceptions=True)
    await asyncio.sleep(0.05)
