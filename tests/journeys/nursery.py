"""A process that has everything loaded and forks one real server for each line it is told.

It makes a restart as short as the server's own work, so that a server can be killed many times in one test.
"""

import os
import signal
import sys

from trainer.bank import open_bank
from trainer.clock import Clock
from trainer.settings import read_settings, shipped
from trainer.web import create_app


def main() -> None:
    """Read ``port`` lines; answer with the process number of a server that listens there."""
    from waitress import create_server

    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    settings = read_settings(os.environ)
    bank = open_bank(shipped("content"))
    print("ready", flush=True)
    for line in sys.stdin:
        child = os.fork()
        if child == 0:
            server = create_server(
                create_app(settings, bank=bank, clock=Clock()), host="127.0.0.1", port=int(line), threads=4
            )
            print(os.getpid(), flush=True)
            server.run()
            os._exit(0)


main()
