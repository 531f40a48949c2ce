"""A bank as bytes that outlive the folder it was read from: canonical JSON (RFC 8785), from which it can be made again."""

import hashlib
import json

from pydantic import ValidationError

from trainer.bank.bank import Bank, content
from trainer.errors import BankError
from trainer.wording import say


def to_bytes(bank: Bank) -> bytes:
    """Return the content of a bank: exactly the bytes that its fingerprint is the digest of."""
    return content(bank)


def from_bytes(data: bytes) -> Bank:
    """Make the bank again; :class:`BankError` where the bytes are none, or none that this program can read."""
    try:
        bank = Bank.model_validate(json.loads(data))
    except (ValueError, ValidationError) as error:
        raise BankError(
            say("This is not a stored content bank: {reason}.", reason=str(error).splitlines()[0])
        ) from error
    return bank.model_copy(update={"fingerprint": hashlib.sha256(data).hexdigest()})
