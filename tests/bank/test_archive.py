"""A bank that was put away can be made again, the same to the last letter."""

import hashlib

import pytest
from banks import shipped_bank

from trainer.bank import archive
from trainer.errors import BankError


def test_the_shipped_bank_comes_back_as_it_was():
    bank = shipped_bank()
    content = archive.to_bytes(bank)

    assert hashlib.sha256(content).hexdigest() == bank.fingerprint
    again = archive.from_bytes(content)
    assert again == bank
    assert archive.to_bytes(again) == content


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b'{"edition": 1}', b"\xff"])
def test_what_is_no_bank_is_refused_in_one_sentence(content):
    with pytest.raises(BankError, match="not a stored content bank") as refused:
        archive.from_bytes(content)
    assert "\n" not in str(refused.value)
