"""The page around a preview: its head, what was found wrong with the item, its style; nothing is fetched from elsewhere."""

from collections.abc import Iterable, Iterator
from html import escape

from trainer.bank import Bank
from trainer.bank.model import Drill, Lesson, Scenario
from trainer.exports.preview.draws import drill_lines
from trainer.exports.preview.sheets import lesson_lines, question_lines, scenario_lines
from trainer.findings import Finding
from trainer.safeguarding.cautions import CAUTION

STYLE = (
    "body{font:16px/1.5 system-ui,sans-serif;color:#16212b;background:#fff;margin:1.5rem}"
    "main{max-width:90rem;margin:auto;border:2px solid #16212b;padding:1rem 2rem}"
    "table{border-collapse:collapse;margin:.8rem 0}caption{text-align:left;font-weight:700;padding:.2rem 0}"
    "th,td{border:1px solid #555;padding:.3rem .6rem;text-align:left;vertical-align:top}td p{margin:.2rem 0}"
    ".wide{overflow-x:auto}.beside{display:grid;grid-template-columns:repeat(auto-fit,minmax(22rem,1fr));gap:1rem}"
    "figure{margin:.8rem 0}figure svg{width:100%;height:auto}figcaption{color:#34424e}"
    "dl{display:grid;grid-template-columns:max-content 1fr;gap:.1rem 1rem}dt{font-weight:600}dd{margin:0}"
    "pre{overflow-x:auto;border:1px solid #555;padding:.6rem}section{border-top:2px solid #16212b;margin-top:1.5rem}"
    ".bad{color:#9b1b1e;font-weight:700}:focus-visible{outline:3px solid #6b1fa0}"
)


def preview(bank: Bank, item_id: str, *, pens: str, findings: Iterable[Finding] = ()) -> bytes:
    """Return a page about a scenario, question, lesson or drill of a bank, which may still hold errors.

    ``pens`` is the style sheet of the drawings, ``findings`` what was found wrong with the item. Raises
    :class:`~trainer.errors.Missing` where the bank has no such item.
    """
    return "\n".join(_page(bank, item_id, pens, list(findings))).encode("utf-8")


def _page(bank: Bank, item_id: str, pens: str, findings: list[Finding]) -> Iterator[str]:
    body = list(_item(bank, item_id))  # first, so that nothing comes of an item that is not there
    yield f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{escape(item_id)}</title>'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<style>{STYLE}\n{pens}</style></head><body><main>\n<h1>{escape(item_id)}</h1>"
    yield f"<p>Edition {bank.edition_shown}, fingerprint {bank.fingerprint[:12]}.</p>"
    yield from _found(findings)
    yield from body
    yield f"<p>{escape(str(CAUTION))}</p></main></body></html>\n"


def _found(findings: list[Finding]) -> Iterator[str]:
    if findings:
        yield f'<h2>What “trainer bank check” finds here: {len(findings)}</h2><ul class="bad">'
        yield from (f"<li>{escape(str(finding))}</li>" for finding in findings)
        yield "</ul>"


def _item(bank: Bank, item_id: str) -> Iterator[str]:
    scenario = bank.scenarios.get(item_id)
    item = scenario or bank.item(item_id)
    if isinstance(item, Scenario):
        yield from scenario_lines(bank, item)
    elif isinstance(item, Drill):
        yield from drill_lines(bank, item)
    elif isinstance(item, Lesson):
        yield from lesson_lines(bank, item)
    else:
        yield from question_lines(bank, item)
