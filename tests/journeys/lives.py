"""A server that can be killed and started again quickly: one process reads the program and the bank, then forks.

Each line on the standard input is a port; a child serves the doors there and its process id is written out. The
child is the server as it is: the same application, the same waitress, the same record on disk.
"""

import os
import signal
import sys
from pathlib import Path

from waitress import create_server

from trainer.bank import Bank, open_bank
from trainer.settings import Settings, read_settings, shipped
from trainer.web import create_app, desk, kiosk, office

READ = (kiosk, desk, office)  # once, before the first fork


def main(folder: str) -> None:
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # the dead need no burial
    settings = read_settings({}, data=folder, zone="America/Chicago")
    bank = open_bank(shipped("content"))
    for line in sys.stdin:
        child = os.fork()
        if child == 0:
            serve(settings, bank, int(line))
        print(child, flush=True)


def serve(settings: Settings, bank: Bank, port: int) -> None:
    sys.stdin.close()
    app = create_app(settings, bank=bank)
    try:
        create_server(app, host="127.0.0.1", port=port, threads=4).run()
    finally:
        os._exit(0)


if __name__ == "__main__":
    main(str(Path(sys.argv[1])))
