"""Slips that no sum knows: the number is right, but in another unit than the one it was written in."""

from collections.abc import Mapping
from types import MappingProxyType

from trainer.safeguarding.slips import Slip
from trainer.wording import mark


def _mixed(code: str, title: str, tell: str) -> Slip:
    return Slip(code=code, title=title, tell=tell, symbol="answer", changes={})


# (unit it was written in, unit it is right in) -> the slip
MIXED: Mapping[tuple[str, str], Slip] = MappingProxyType(
    {
        ("mm", "cm"): _mixed(
            "cm-written-as-mm",
            mark("Writes the number of centimetres as millimetres"),
            mark("Your number is right in centimetres, but you wrote it as millimetres. One centimetre is 10 mm."),
        ),
        ("mm", "m"): _mixed(
            "m-written-as-mm",
            mark("Writes the number of metres as millimetres"),
            mark("Your number is right in metres, but you wrote it as millimetres. One metre is 1000 mm."),
        ),
        ("mm", "inch"): _mixed(
            "in-written-as-mm",
            mark("Writes the number of inches as millimetres"),
            mark("Your number is right in inches, but you wrote it as millimetres. One inch is 25.4 mm."),
        ),
        ("inch", "mm"): _mixed(
            "mm-written-as-in",
            mark("Writes the number of millimetres as inches"),
            mark("Your number is right in millimetres, but you wrote it as inches. One inch is 25.4 mm."),
        ),
        ("cm", "mm"): _mixed(
            "mm-written-as-cm",
            mark("Writes the number of millimetres as centimetres"),
            mark("Your number is right in millimetres, but you wrote it as centimetres. One centimetre is 10 mm."),
        ),
        ("ms", "s"): _mixed(
            "s-written-as-ms",
            mark("Writes the number of seconds as milliseconds"),
            mark("Your number is right in seconds, but you wrote it as milliseconds. That is 1000 times too short."),
        ),
        ("s", "ms"): _mixed(
            "ms-written-as-s",
            mark("Writes the number of milliseconds as seconds"),
            mark("Your number is right in milliseconds, but you wrote it as seconds. One second is 1000 ms."),
        ),
    }
)
BY_CODE: Mapping[str, Slip] = MappingProxyType({slip.code: slip for slip in MIXED.values()})
