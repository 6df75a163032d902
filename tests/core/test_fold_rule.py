"""The same log gives the same memory, bit for bit, until the number of the rule says otherwise.

A book keeps what was remembered under that number, and goes on from it: whoever changes what a log gives and
leaves the number has families whose old answers count by one rule and whose new ones by another.
"""

from collections.abc import Iterator
from hashlib import sha256

from review.core import curve, memory
from review.core.amendments import amended
from review.core.answer_bodies import answer_body
from review.core.model import AIMS, HELP_STEPS, MARKS, Answer, CardMemory, Event, Habits, Mark, Traits
from tests.core.stock import DAY, event, row

PRINTS = {7: "361b4083d9fa86e3"}
"""Of what is remembered of the log below, by `curve.FOLD_RULE`. Where it comes out otherwise, raise that, and
write the new line here."""

ANSWERS = 2500
FACTS = tuple(
    f"{kind}:{a}{sign}{b}"
    for kind, sign in (("sum", "+"), ("product", "x"))
    for b in range(2, 10)
    for a in range(2, b + 1)
)
OTHERS = ("bond:8=_+3", "quotient:42/6", "mental-sum:2+2/none", "sum:nx0", "order:2", "rounding:10")
CARDS = (*FACTS, *OTHERS)
OFTEN: tuple[Mark, ...] = ("right", "right", "right", "right", "right", "right_slow", *MARKS)
DAYS_ON = (1, 1, 1, 2, 1, 1, 3, 1, 9, 1, 1, 30, 2)
TIMES = (0, 700, 1600, 2200, 3100, 4000, 5200, 8000, 14_000, 70_000)


def traits(key: str) -> Traits:
    return Traits(key, key in FACTS, 6.0, choices=2 if key == "order:2" else 0)


class Chance:
    """Whole numbers that are the same under every version of Python (the minimal standard of Park & Miller,
    1988, from memory)."""

    state = 20_261_129

    def below(self, most: int) -> int:
        self.state = self.state * 16_807 % 2_147_483_647
        return self.state // 7 % most

    def one_in(self, many: int) -> bool:
        return self.below(many) == 0


def log() -> Iterator[Event]:
    """Years of one child: aims, marks, help, times and roles of every sort, and what a parent says of it."""
    chance, day, met = Chance(), DAY, set[str]()
    for number in range(1, ANSWERS + 1):
        day += DAYS_ON[chance.below(len(DAYS_ON))] if chance.one_in(9) else 0
        key = CARDS[chance.below(len(CARDS))]
        age = 6 + 5 * number // ANSWERS
        yield row(number, day, dict(answer_body(answer(chance, key, age, key in met))), key)
        met.add(key)
        if number % 300 == 0:
            yield event(number + 10_000, day, "undo", {"device": 1, "seq": number - 40})
            yield event(number + 20_000, day, "correct", {"device": 1, "seq": number - 90})
            yield event(number + 30_000, day, "known", {"cards": [CARDS[number // 300]]})


def answer(chance: Chance, key: str, age: int, met: bool) -> Answer:
    mark = OFTEN[chance.below(len(OFTEN))]
    asked = key.partition(":")[2]
    if key in FACTS and chance.one_in(2):
        asked = asked[::-1]
    found = Answer(key, asked, "42", "42" if mark.startswith("right") else "24", mark, age=age)
    return found._replace(
        role=("copy" if chance.one_in(6) else "ask") if met else ("intro", "probe")[chance.below(2)],
        first_ms=(0, 200, 600)[chance.below(3)],
        end_ms=TIMES[chance.below(len(TIMES))] + chance.below(900),
        help=HELP_STEPS[chance.below(len(HELP_STEPS))] if chance.one_in(7) else "",
        taken="typed" if chance.below(9) else "aloud",
        aim=("fluency", "fluency", "fluency", *AIMS)[chance.below(6)],
        copy_ms=900 + chance.below(900),
        slow_ms=0 if chance.one_in(4) else 3000,
        recalled=("yes", "no")[chance.below(2)] if chance.one_in(8) else "",
        untimed=int(chance.one_in(15)),
        slipped="24" if chance.one_in(30) else "",
        sitting="extra" if chance.one_in(40) else "",
    )


def steps() -> Iterator[tuple[Habits, CardMemory]]:
    """What is remembered after each row, of the child and of the card it was of."""
    ways, cards = Habits(), dict[str, CardMemory]()
    for one in amended(log()):
        ways, cards[one.card] = memory.follow(ways, cards.get(one.card), one, traits)
        yield ways, cards[one.card]


def test_other_memory_of_the_same_log_has_another_number() -> None:
    whole = sha256()
    for step in steps():
        whole.update(repr(step).encode())
    assert whole.hexdigest()[:16] == PRINTS[curve.FOLD_RULE]


def test_the_log_of_the_print_has_seen_all_there_is() -> None:
    """One in which nothing grew, or nothing was set aside, would print little."""
    ways = Habits()
    never, least, most = set(CardMemory._fields), 99.0, 0.0
    for now, card in steps():
        ways = now
        never -= {name for name, value in card._asdict().items() if value}
        least, most = (of(limit, card.stability or limit) for of, limit in ((min, least), (max, most)))
    assert never == set()
    assert least < 0.2
    assert most > 60
    assert min(ways.fast[0], ways.slow[0], sum(ways.at_sight), sum(ways.soon), ways.copying[0]) >= 20
    assert ways.weights
