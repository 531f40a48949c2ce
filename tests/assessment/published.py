"""Published data for tests of the statistics, each with its source."""

from trainer.assessment.itemstats import Seen

# Law School Admission Test, section 6 (Bock & Lieberman 1970, Psychometrika 35:179-197): how many of 1000 people gave
# each pattern of five answers, 00000 to 11111 in binary order, item 1 leftmost.
LSAT6 = [3, 6, 2, 11, 1, 1, 3, 4, 1, 8, 0, 16, 0, 3, 2, 15]
LSAT6 += [10, 29, 14, 81, 3, 28, 15, 80, 16, 56, 21, 173, 11, 61, 28, 298]
PATTERNS = [[int(bit) for bit in f"{number:05b}"] for number in range(32)]
LSAT_ROWS = [pattern for pattern, n in zip(PATTERNS, LSAT6, strict=True) for _ in range(n)]

# Ten students, ten items (K. Wuensch, East Carolina University, StatHelp, KR20.txt).
_ROWS = ["1111110110", "1011011101", "1111011001", "0010001000", "0000010010"]
_ROWS += ["1110111111", "1101110111", "1111111101", "0101111101", "1101101110"]
STUDENTS = [[int(bit) for bit in row] for row in _ROWS]

# A survey of 30 departments, seven marks each (Chatterjee & Price 1977, Regression Analysis by Example; R's `attitude`).
ATTITUDE = [
    [int(mark) for mark in row.split()]
    for row in """
    43 51 30 39 61 92 45/63 64 51 54 63 73 47/71 70 68 69 76 86 48/61 63 45 47 54 84 35/81 78 56 66 71 83 47
    43 55 49 44 54 49 34/58 67 42 56 66 68 35/71 75 50 55 70 66 41/72 82 72 67 71 83 31/67 61 45 47 62 80 41
    64 53 53 58 58 67 34/67 60 47 39 59 74 41/69 62 57 42 55 63 25/68 83 83 45 59 77 35/77 77 54 72 79 77 46
    81 90 50 72 60 54 36/74 85 64 69 79 79 63/65 60 65 75 55 80 60/65 70 46 57 75 85 46/50 58 68 54 64 78 52
    50 40 33 34 43 64 33/64 61 52 62 66 80 41/53 66 52 50 63 80 37/40 37 42 58 50 57 49/63 54 42 48 66 75 33
    66 77 66 63 88 76 72/78 75 58 74 80 78 49/48 57 44 45 51 83 38/85 85 71 71 77 74 55/82 82 39 59 64 78 39
    """.strip().replace("\n", "/").split("/")
]  # fmt: skip


def scores(rows):
    found = {}
    for row in rows:
        found[sum(row)] = found.get(sum(row), 0) + 1
    return found


def rights(rows):
    return [sum(column) for column in zip(*rows, strict=True)]


def tally(rows, item):
    found = {}
    for row in rows:
        seen = Seen(bool(row[item]), sum(row), len(row))
        found[seen] = found.get(seen, 0) + 1
    return found
