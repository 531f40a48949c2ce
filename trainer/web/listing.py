"""Long lists: searched, put in order and turned in pages, all of it in the address, so that it works without script."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from trainer.records.names import folded
from trainer.web.sheet import Column, Pages, address, turn

Row = TypeVar("Row")
DOWN = "-"  # before the name of an order: from its end


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What a reader asked of a list: words to look for, an order (``-`` before it turns it round), a page."""

    find: str = ""
    sort: str = ""
    page: str = "1"


@dataclass(frozen=True, slots=True, kw_only=True)
class Order(Generic[Row]):
    """An order by the head of a column; without ``key`` the rows stay as they come."""

    label: str
    key: Callable[[Row], Any] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing(Generic[Row]):
    """One page of a list: its rows, the heads by which it is put in order, where it lies in the whole.

    ``found`` holds what was found on every page, ``by`` the order in use.
    """

    rows: Sequence[Row]
    found: Sequence[Row]
    columns: tuple[Column, ...]
    by: str
    sort: str
    find: str
    pages: Pages


def listed(
    rows: Sequence[Row],
    wish: Wish,
    endpoint: str,
    orders: Mapping[str, Order[Row]],
    text: Callable[[Row], str],
    *,
    called: str = "page",
    **choices: str,
) -> Listing[Row]:
    """Return one page of ``rows``. The first of ``orders`` holds where none is asked for; ``text`` is what is searched.

    ``choices`` are the other blanks of the sheet; they stay in every address. ``called`` names the page in an address.
    """
    found = searched(rows, wish.find, text)
    name = wish.sort.removeprefix(DOWN)
    by = name if name in orders else next(iter(orders))
    down = name == by and wish.sort.startswith(DOWN)
    ordered = _ordered(found, orders[by].key, down=down)
    kept = {"find": wish.find, "sort": (DOWN if down else "") + by if by != next(iter(orders)) or down else ""}
    shown, pages = turn(ordered, wish.page, endpoint, whole=len(rows), called=called, **choices, **kept)
    return Listing(
        rows=shown,
        found=ordered,
        columns=tuple(
            Column(
                label=order.label,
                url=address(endpoint, **choices, find=wish.find, sort=_next(key, by, down=down)),
                here=key == by,
                down=down and key == by,
            )
            for key, order in orders.items()
        ),
        by=by,
        sort=kept["sort"],
        find=wish.find,
        pages=pages,
    )


def searched(rows: Sequence[Row], find: str, text: Callable[[Row], str]) -> list[Row]:
    """Return the rows whose text holds every word of ``find``, case and accents aside."""
    words = folded(find).split()
    if not words:
        return list(rows)
    return [row for row in rows if all(word in folded(text(row)) for word in words)]


def _ordered(rows: list[Row], key: Callable[[Row], Any] | None, *, down: bool) -> list[Row]:
    if key is None:
        return rows[::-1] if down else rows
    return sorted(rows, key=key, reverse=down)


def _next(key: str, by: str, *, down: bool) -> str:
    """Return what a press on a head asks for: its order, or the same one turned round."""
    return DOWN + key if key == by and not down else key
