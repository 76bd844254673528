"""Cold process: lye and oils are stirred to trace and poured; saponification ends in the mould."""

from __future__ import annotations

from saponary.schema.methods.method import EVERY_LAYING, Days, Method
from saponary.schema.methods.refusals import NO_DILUTION, NO_SOAP

_NO_COOK = "nothing is cooked in cold process"

METHOD = Method(
    name="cold",
    makes="bar",
    stages=("before", "lye", "oils", "trace", "split", "pour", "cover"),
    vessel="mould",
    top="flat",
    lays=EVERY_LAYING,
    days=Days("cure", least=None, usual=None, reads_weighings=True),
    refuses={
        "soap": NO_SOAP,
        "oils.after-cook": _NO_COOK,
        "temperatures.cook": _NO_COOK,
        "dilute": NO_DILUTION,
        "container": "a bar is poured into a mould",
        "rest": "a bar is cured, by the days of book.yaml",
        "batches.pot": _NO_COOK,
    },
)
