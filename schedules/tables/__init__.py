"""Published tables as cited data files: one CSV and one TOML header for each, read when first asked for."""

from schedules.tables.edition import Adopted, Amendment, Code
from schedules.tables.loading import load, names
from schedules.tables.rules import Rule, has_rule, rule
from schedules.tables.table import Row, Table, weakest

__all__ = [
    "Adopted",
    "Amendment",
    "Code",
    "Row",
    "Rule",
    "Table",
    "has_rule",
    "load",
    "names",
    "rule",
    "weakest",
]
