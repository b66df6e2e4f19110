"""A user's own limits: TOML as of the rules beside this file, which override those or add to them.

An override need only give `value` and `source`; title, unit, sense and tight stay as they are. Unit and sense
cannot be changed, since the checks count on them; a new row of a table keeps to those of its table.
"""

from geometry.decoding import toml_tables
from geometry.finding import Limit
from geometry.rules.rulebook import Rulebook, limit_of, rule_tables
from geometry.rules.tables import table_of

_KEPT = ("title", "unit", "sense", "tight")


def read_own_rules(data: bytes, name: str, rules: Rulebook) -> dict[str, Limit]:
    """Read a user's own limits.

    Args:
        data: the file's content.
        name: the file's name, for complaints.
        rules: the limits that they override or add to.

    Raises:
        ValueError: the text is not TOML, or a limit is wrong; names the file, the place and the value.
    """
    try:
        return {rule: _own(rule, table, rules) for rule, table in rule_tables(toml_tables(data))}
    except ValueError as problem:
        raise ValueError(f"{name}: {problem}") from None


def _own(rule: str, table: dict[str, object], rules: Rulebook) -> Limit:
    """Return one limit of the user's."""
    if "source" not in table:
        raise ValueError(f"{rule}.source: must say where the limit comes from, is missing")
    missing = [key for key in ("title", "unit", "sense") if key not in table]
    if rule in rules:
        table = {key: getattr(rules[rule], key) for key in _KEPT} | table
    elif missing:
        raise ValueError(f"{rule}: no rule is called so; a new one needs {' and '.join(missing)} too")
    limit = limit_of(rule, table)
    like = rules[rule] if rule in rules else _sibling(rule, rules)
    for key in ("unit", "sense") if like else ():
        if getattr(limit, key) != getattr(like, key):
            raise ValueError(f"{rule}.{key}: must stay {getattr(like, key)!r}, got {getattr(limit, key)!r}")
    return limit


def _sibling(rule: str, rules: Rulebook) -> Limit | None:
    """Return another row of the table that a rule is a row of, or None."""
    table = table_of(rule)
    return next((limit for limit in rules if table and table_of(limit.rule) == table), None)
