import pytest
from assessment.made import shipped

from trainer.bank import Bank


@pytest.fixture(scope="session")
def bank() -> Bank:
    return shipped()
