"""What answers show about questions and papers: which to look at again, and how steady a pass mark is."""

from math import ceil, floor

from flask import url_for

from trainer.assessment.itemstats import DOUBTS, ItemStatistics
from trainer.assessment.wrongoptions import OptionStatistics
from trainer.bank import Bank
from trainer.bank.model import Question
from trainer.errors import Missing
from trainer.records.items import Findings, ItemReport, PaperReport
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.itempages import ItemLine, ItemPage, ItemsPage, OptionLine, PaperLine
from trainer.web.desk.slips import slip_title
from trainer.web.language import current, localise, translate
from trainer.web.listing import Order, Wish, listed
from trainer.web.words import _, ngettext
from trainer.wording import say


def items_page(bank: Bank, found: Findings, wish: Wish) -> ItemsPage:
    """Build the list."""
    listing = listed([_line(bank, report) for report in found.items], wish, "desk.items", _orders(), _text)
    return ItemsPage(
        frame=desk_frame("desk.items", _("Questions")),
        lede=_lede(found),
        listing=listing,
        papers=tuple(_paper(bank, report) for report in found.papers),
    )


def _orders() -> dict[str, Order[ItemLine]]:
    return {
        "doubt": Order(label=_("What to do")),
        "item": Order(label=_("Question"), key=lambda line: line.id),
        "competency": Order(label=_("Competency"), key=lambda line: line.competency),
        "right": Order(label=_("Right"), key=lambda line: line.share),
    }


def _text(line: ItemLine) -> str:
    return " ".join((line.id, line.asked, line.competency, *line.told))


def item_page(bank: Bank, found: Findings, item: str) -> ItemPage:
    """Build the sheet of one item; :class:`Missing` where nobody was ever asked it."""
    report = next((one for one in found.items if one.item == item), None)
    if report is None:
        raise Missing(say("Nobody was asked {item} yet.", item=item))
    return ItemPage(
        frame=desk_frame("desk.items", report.item),
        id=report.item,
        asked=_asked(bank, report),
        told=_told(report),
        figures=_figures(report),
        options=_options(bank, report),
        mistakes=tuple((_mistake(bank, report.item, name), str(count)) for name, count in report.mistakes),
    )


def _lede(found: Findings) -> str:
    if not found.items:
        return _("Nobody has handed in a paper yet.")
    doubted = sum(bool(report.doubts) for report in found.items)
    few = sum(report.statistics.note is not None for report in found.items)
    told = [ngettext("%(num)s question is in doubt.", "%(num)s questions are in doubt.", doubted)]
    if few:
        told.append(
            ngettext("%(num)s has too few answers to judge by.", "%(num)s have too few answers to judge by.", few)
        )
    return " ".join(told)


def _line(bank: Bank, report: ItemReport) -> ItemLine:
    seen = report.statistics
    competency = bank.competencies.get(report.competency)
    return ItemLine(
        id=report.item,
        url=url_for("desk.item", item=report.item),
        asked=_asked(bank, report),
        competency=competency.name.in_(current()) if competency else "",
        right=_("%(right)s of %(answers)s", right=seen.right, answers=seen.answers),
        share=seen.right / seen.answers if seen.answers else 0.0,
        interval=_interval(seen),
        rest=_signed(seen.corrected),
        told=_told(report),
    )


def _asked(bank: Bank, report: ItemReport) -> str:
    if not report.in_bank:
        return ""
    drill = bank.drills.get(report.item)
    return drill.title.in_(current()) if drill else bank.questions[report.item].asked.in_(current())


def _interval(seen: ItemStatistics) -> str:
    if not seen.answers:
        return ""
    return _("%(low)s to %(high)s of 100", low=floor(seen.low * 100), high=ceil(seen.high * 100))


def _signed(value: float | None) -> str:
    return "" if value is None else localise(f"{value:+.2f}")


def _told(report: ItemReport) -> tuple[str, ...]:
    told = [translate(DOUBTS[doubt]) for doubt in report.statistics.doubts]
    of_options = [doubt for doubt in report.doubts if doubt not in report.statistics.doubts]
    if of_options:
        told.append(_("Look at its wrong options."))
    if report.drift and report.drift.told:
        told.append(translate(report.drift.told))
    if not report.in_bank:
        told.append(_("The bank has it no longer, or in another version."))
    if report.statistics.note:
        told.append(translate(report.statistics.note))
    return tuple(told)


def _figures(report: ItemReport) -> tuple[tuple[str, str], ...]:
    seen, hurry, drift = report.statistics, report.hurried, report.drift
    right = _("%(right)s of %(answers)s", right=seen.right, answers=seen.answers)
    rows = [
        (_("Version"), str(report.version)),
        (_("Right"), f"{right}; {interval}" if (interval := _interval(seen)) else right),
        (_("With the rest of the paper"), _with_error(seen)),
        (_("Best 27 of 100 less weakest 27"), _signed(seen.upper_lower)),
        (_("Left without an answer"), str(report.skipped)),
    ]
    if hurry.timed:
        rows.append(
            (
                _("Faster than it can be read"),
                _(
                    "%(fast)s of %(timed)s, %(right)s of them right",
                    fast=hurry.fast,
                    timed=hurry.timed,
                    right=hurry.right,
                ),
            )
        )
    if drift and drift.difference is not None:
        editions = _("Edition %(after)s less %(before)s", after=drift.after.edition, before=drift.before.edition)
        ends = _("%(low)s to %(high)s", low=_signed(drift.low), high=_signed(drift.high))
        rows.append((editions, f"{_signed(drift.difference)} ({ends})"))
    return tuple(row for row in rows if row[1])


def _with_error(seen: ItemStatistics) -> str:
    if seen.corrected is None or seen.error is None:
        return _signed(seen.corrected)
    return f"{_signed(seen.corrected)} ± {localise(f'{seen.error:.2f}')}"


def _options(bank: Bank, report: ItemReport) -> tuple[OptionLine, ...]:
    if report.options is None:
        return ()
    question = bank.questions[report.item]
    return tuple(_option(question, one) for one in report.options.options)


def _option(question: Question, one: OptionStatistics) -> OptionLine:
    option = question.option(one.option)
    return OptionLine(
        text=option.text.in_(current()) if option else one.option,
        right=one.right,
        chosen=str(one.chosen),
        upper=_of_hundred(one.upper),
        lower=_of_hundred(one.lower),
        told=tuple(translate(DOUBTS[doubt]) for doubt in one.doubts),
    )


def _of_hundred(share: float | None) -> str:
    return "" if share is None else _("%(share)s of 100", share=round(share * 100))


def _mistake(bank: Bank, item: str, name: str) -> str:
    known, asked = bank.misconceptions.get(name), bank.computed.get(item)
    if known:
        return known.name.in_(current())
    return (slip_title(asked.problem, name) if asked else "") or name


def _paper(bank: Bank, report: PaperReport) -> PaperLine:
    programme, seen = bank.programmes.get(report.programme), report.consistency
    return PaperLine(
        name=programme.name.in_(current()) if programme else report.programme,
        passed=_("%(right)s of %(answers)s", right=report.passed, answers=report.people),
        mark=_mark(report),
        alike=_alike(report),
        reliability=_reliability(report),
        note=translate(seen.note) if seen and seen.note else "",
    )


def _mark(report: PaperReport) -> str:
    if report.consistency is None:
        return ""
    mark = _("%(right)s of %(answers)s", right=report.consistency.needed, answers=report.consistency.items)
    return mark if report.error_at_mark is None else f"{mark} ± {localise(f'{report.error_at_mark:.1f}')}"


def _alike(report: PaperReport) -> str:
    seen = report.consistency
    if seen is None or seen.exact is None:
        return ""
    told = _("%(share)s of 100", share=floor(seen.exact.alike * 100))
    return told if seen.enough or seen.note else f"{told}. {_('Too unsteady to decide alone.')}"


def _reliability(report: PaperReport) -> str:
    seen = report.reliability
    if seen is None or seen.kr20 is None:
        return ""
    return _("%(value)s, %(people)s people", value=localise(f"{seen.kr20:.2f}"), people=seen.people)
