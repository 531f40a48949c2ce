"""From a blueprint to a result: build a paper, draw numbers, read answers, mark them, name the mistake, judge mastery.

Pure and seeded. Nothing here knows a clock, a database or a page: dates, seeds and a person's history are handed in.
"""
