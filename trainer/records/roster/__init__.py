"""Roster import: a file of people is compared with the record, every row's fate is shown, then all of it is taken or none.

``check`` plans and changes nothing; ``take`` plans again inside the transaction that writes. Nothing is guessed: what
a file leaves open is a :class:`~trainer.records.roster.questions.Question`, and an open one stops the import.
"""

from trainer.records.roster.apply import take
from trainer.records.roster.fates import Fate, Plan, Row
from trainer.records.roster.plan import check
from trainer.records.roster.questions import Choice, Question

__all__ = ["Choice", "Fate", "Plan", "Question", "Row", "check", "take"]
