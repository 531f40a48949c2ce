"""How far each chain goes. A head moves on by one with every entry, in the same transaction."""

from sqlalchemy import insert, select, text, update

from trainer.records.chain import START
from trainer.records.models import Head
from trainer.records.work import Reading, Writing

CHECKPOINTS = "checkpoints"  # the chain of the checkpoints
ENTRIES = "entries"  # how far the ledger as a whole goes
APPENDING = 0x6C656467  # advisory lock of PostgreSQL: what is chained is written one after another
OWN = (CHECKPOINTS, ENTRIES)  # every other chain is a person's key


def alone(w: Writing) -> None:
    """Let nobody else append until this transaction ends; SQLite's writers are alone by themselves."""
    if w.session.get_bind().dialect.name == "postgresql":
        w.session.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": APPENDING})


def head(r: Reading, chain: str) -> tuple[int, str]:
    """Return how long a chain is and the digest that it ends with."""
    found = r.session.execute(select(Head.seq, Head.digest).where(Head.chain == chain)).first()
    return (found.seq, found.digest) if found else (0, START)


def move(w: Writing, chain: str, seq: int, digest: str) -> None:
    """Move the head of a chain on to its new last link."""
    if seq == 1:
        w.session.execute(insert(Head).values(chain=chain, seq=seq, digest=digest))
    else:
        w.session.execute(update(Head).where(Head.chain == chain).values(seq=seq, digest=digest))


def people(r: Reading) -> list[tuple[str, int, str]]:
    """Return the head of every person's chain as (key, length, digest), in the order of the keys."""
    query = select(Head.chain, Head.seq, Head.digest).where(Head.chain.not_in(OWN)).order_by(Head.chain)
    return [(row.chain, row.seq, row.digest) for row in r.session.execute(query)]
