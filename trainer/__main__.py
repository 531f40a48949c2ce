"""Lets ``python -m trainer`` do what the ``trainer`` command does."""

from trainer.cli import main

main()
