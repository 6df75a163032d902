"""What a skill of a set can ask, and what it takes: lines for whoever writes a set, and JSON."""

from collections.abc import Mapping, Sequence

from review.core import kind_guide
from review.core.kind_guide import COMMON, Guide
from review.core.set_keys import WANTED, limits
from review.core.set_tables import SKILL_KEYS
from review.core.skills.kinds import Kind, Option
from review.core.text import in_words
from review.render import set_lines
from review.render.lines import capital

HEADS = ("kind", "what it asks")
SHOWN = 3  # sets named at most
BELOW = ["", "What one of them takes, with an example to copy: review set kinds fraction"]
STRATEGIES_KEY = SKILL_KEYS["strategies"]
NUMBERED = frozenset({"whole", "wholes", "range", "ranges", "letters"})


def cells(kinds: Mapping[str, Kind]) -> list[tuple[str, ...]]:
    return [(name, kind.about) for name, kind in kinds.items()]


def sentences(kinds: Mapping[str, Kind]) -> list[str]:
    return [f"{name}: {kind.about}" for name, kind in kinds.items()]


def shown(guide: Guide) -> list[str]:
    needed = {key: option for key, option in guide.keys.items() if option.default is None}
    others = {key: option for key, option in guide.keys.items() if option.default is not None}
    return [
        f"{guide.name}: {guide.about}",
        "",
        "In a set of your own:",
        "",
        *(f"  {line}" for line in kind_guide.written(guide.skill)),
        "",
        f"  It asks: {set_lines.example(guide.found, guide.skill)}",
        *_part("It needs:", needed),
        *_part("It may have:", others),
        *_part("Like a skill of any kind:", COMMON),
        *_ways(guide),
        "",
        f"Look at some: {in_words([f'review set show {name}' for name in guide.sets[:SHOWN]], 'or')}",
        'To begin a set: review set new our-sums.toml --title "Our sums"',
    ]


def _part(head: str, keys: Mapping[str, Option]) -> list[str]:
    return ["", head, *(f"  {key}: {meaning(option)}" for key, option in keys.items())] if keys else []


def _ways(guide: Guide) -> list[str]:
    if not guide.strategies:
        return []
    first = next(iter(guide.strategies))
    told = [f"    {name}: {way.parent}" for name, way in guide.strategies.items()]
    return [f'  strategies: {STRATEGIES_KEY.about}, like ["{first}"]. Some of:', *told]


def meaning(option: Option) -> str:
    """What a key says, what may stand there, an example, and what goes without it."""
    usual = option.default if option.default not in (None, (), "") else None
    left_out = f"; {kind_guide.literal(usual)} if left out" if usual is not None else ""
    return f"{option.about}. {_fitting(option)}, like {option.example}{left_out}."


def _fitting(option: Option) -> str:
    if option.choices:
        return f"{'One' if option.type == 'word' else 'Some'} of {', '.join(option.choices)}"
    what, (low, high) = capital(WANTED[option.type].removesuffix(",")), limits(option)
    return f"{what}, {low:,} to {high:,}" if option.type in NUMBERED else what


# --- JSON ---------------------------------------------------------------------------------------------


def rows(kinds: Mapping[str, Kind]) -> list[dict[str, object]]:
    return [row(name, kind.about, kind.options) for name, kind in kinds.items()]


def row(name: str, about: str, keys: Mapping[str, Option]) -> dict[str, object]:
    return {"kind": name, "about": about, "keys": [_key_row(key, option) for key, option in keys.items()]}


def guide_row(guide: Guide) -> dict[str, object]:
    """The same of one kind, with what any skill may have, and its example."""
    return {
        **row(guide.name, guide.about, guide.keys),
        "any_kind": [_key_row(key, option) for key, option in COMMON.items()],
        "strategies": {name: way.parent for name, way in guide.strategies.items()},
        "example": "\n".join(kind_guide.written(guide.skill)),
        "sets": [*guide.sets],
    }


def _key_row(key: str, option: Option) -> dict[str, object]:
    low, high = limits(option)
    span: Sequence[int] | None = [low, high] if option.type in NUMBERED else None
    return {
        "key": key,
        "about": option.about,
        "type": option.type,
        "needed": option.default is None,
        "default": option.default,
        "choices": [*option.choices],
        "range": span,
        "example": option.example,
    }
