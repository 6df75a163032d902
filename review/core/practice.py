"""The whole loop in memory: no file, clock or terminal. For demos, pacing, benchmarks and other programs."""

from collections.abc import Mapping, Sequence
from random import Random
from typing import Literal, Self

from review.core import correction, ground, marking, memory, new_cards, plan, standing
from review.core.ground import Basis
from review.core.model import HELP_STEPS, Answer, Card, CardMemory, Habits, Role, Settings, TraitsOf
from review.core.traits import of_kinds
from review.core.warmup import Plan

LOOKS = 2
"""Later looks a day at a card that was missed or is new; after that it has had its turn (our judgement)."""

_DAY_MS = 86_400_000
_SAID: Mapping[bool | None, Literal["", "yes", "no"]] = {True: "yes", False: "no", None: ""}


class Practice:
    """One child practising. A day is any integer and never falls; the same seed gives the same run.

    `plan(day)` ranks and changes nothing; `answer(...)` is the only thing that does. `memory` counts its days
    from 1 on, for 0 means never there: where the first answer is of an earlier day, it counts that one as 1.
    """

    def __init__(
        self,
        cards: Sequence[Card],
        minutes: float,
        seed: int | str,
        settings: Settings,
        *,
        traits: TraitsOf | None = None,
    ) -> None:
        self._cards = {card.key: card for card in cards}
        self._all = tuple(cards)
        self._minutes, self._seed, self._settings = minutes, seed, settings
        self._traits = traits or of_kinds()
        self._memory: dict[str, CardMemory] = {}
        self._recent: tuple[bool, ...] = ()
        self._habits, self._morning = settings.habits, settings
        self._kept: ground.Kept = {}
        self._last: int | None = None
        self._count = self._ahead = self._kept_for = 0

    @classmethod
    def resume(
        cls,
        known: Mapping[str, CardMemory],
        cards: Sequence[Card],
        minutes: float,
        seed: int | str,
        settings: Settings,
        *,
        traits: TraitsOf | None = None,
    ) -> Self:
        """Going on from a child's own memory; the child's habits are in the settings."""
        practice = cls(cards, minutes, seed, settings, traits=traits)
        practice._memory = dict(known)
        practice._last = max((m.at[0] for m in known.values()), default=None)
        return practice

    @property
    def settings(self) -> Settings:
        return self._settings

    @property
    def habits(self) -> Habits:
        """How the child answers; in the settings of another practice, it goes on from them."""
        return self._habits

    @property
    def memory(self) -> Mapping[str, CardMemory]:
        return self._memory

    def plan(self, day: int) -> list[str]:
        """Card keys, best first, maybe more than fit; what was answered today is left out. ValueError for a
        day before the last answer."""
        self._not_before(day)
        basis = self._basis(day)._replace(kept=self._kept_looks(day))
        return [item.key for item in plan.ranked(basis)]

    def warmup(self, day: int) -> Plan:
        """The day's warm-up within the minutes, in showing order, as a child gets it."""
        self._not_before(day)
        found = plan.plan(self._basis(day), Random(f"{self._seed}|{day}"))
        return found._replace(day=day)

    def _basis(self, day: int) -> Basis:
        return Basis(
            self._all, self._memory, self._planning(day), day + self._ahead, self._minutes, self._recent,
            traits=self._traits,
        )  # fmt: skip

    def _planning(self, day: int) -> Settings:
        """The settings a day is planned with: the child's habits as they were that morning."""
        return self._morning if day == self._last else self._settings._replace(habits=self._habits)

    def _kept_looks(self, day: int) -> ground.Kept:
        """What was looked at for that day, while nothing was asked or answered of another."""
        if day != self._kept_for:
            self._kept_for, self._kept = day, {}
        return self._kept

    def recall(self, key: str, day: int) -> float | None:
        """The predicted chance on a day; None while the card was not measured."""
        known = self._memory.get(key)
        return known and correction.recall(self._habits, known, day + self._ahead)

    def answer(
        self,
        key: str,
        right: bool,
        seconds: float,
        help: str | int,
        day: int,
        copy_seconds: float = 0.0,
        recalled: bool | None = None,
    ) -> bool:
        """Takes one answer and says whether the card is to be shown again later today.

        `help`: the furthest help step used, by its name in `HELP_STEPS` or its place there (1, the problem
        written again, is no help yet); "" or 0: none. `copy_seconds`: what the child needs to copy such an
        answer; 0: by age. `recalled`: from memory or worked out, if known. ValueError for a day before the
        last answer, KeyError for a card there is not.
        """
        self._not_before(day)
        card = self._cards[key]
        self._begin(day)
        return self._take(card, right, seconds, _step_name(help), copy_seconds, recalled, day + self._ahead)

    def _begin(self, day: int) -> None:
        """The first answer of a day fixes what the day is planned with; the very first, how days count."""
        self._morning = self._planning(day)
        self._kept_looks(day)  # those of a day to come went by what was known before this answer
        if self._last is None:
            self._ahead = max(0, 1 - day)
        self._last, self._count = day, self._count + 1

    def _take(
        self, card: Card, right: bool, seconds: float, help: str, copy_seconds: float,
        recalled: bool | None, day: int,
    ) -> bool:  # fmt: skip
        key, old = card.key, self._memory.get(card.key)
        answer = self._answer(card, right, seconds, help, copy_seconds, recalled, day)
        first = old is None or old.seen_day != day
        at = (day, day * _DAY_MS + self._count, 0, self._count)
        self._habits, new = memory.answered(self._habits, old, answer, at, self._traits)
        self._memory[key] = new
        if first and new.intro_day != day:
            self._recent = (*self._recent, marking.is_right(answer))[-new_cards.RECENT :]
        return _again(new, answer, day)

    def _answer(
        self, card: Card, right: bool, seconds: float, help: str, copy_seconds: float,
        recalled: bool | None, day: int,
    ) -> Answer:  # fmt: skip
        """The answer as a book would log it."""
        settings, traits, known = self._settings, self._traits(card.key), self._memory.get(card.key)
        counts = marking.timed(card, traits, known, settings)
        copy = round(copy_seconds * 1000) or marking.copying_ms(settings.age, 2)
        end = round(seconds * 1000)
        limit = marking.slow_ms(settings.age) if counts and not _seen(known, day) else 0
        mark = marking.mark(
            "right" if right else "other", help=help, first_ms=0, end_ms=end, copy_ms=copy, slow_ms=limit,
            suspended=False, fact=traits.fact,
        )  # fmt: skip
        return Answer(
            card.key, "", "00", "", mark, _role(known, day), 0, end, help, aim=card.aim, age=settings.age,
            copy_ms=copy, slow_ms=limit, recalled=_SAID[recalled],
            rule=marking.RULE, untimed=int(settings.untimed),
        )  # fmt: skip

    def _not_before(self, day: int) -> None:
        if self._last is not None and day < self._last:
            raise ValueError(f"Day {day} comes before day {self._last}, on which there was an answer.")


def _seen(known: CardMemory | None, day: int) -> bool:
    return known is not None and known.seen_day == day


def _role(known: CardMemory | None, day: int) -> Role:
    """A card never met, or back after it was set aside, is introduced; any other is asked."""
    return "intro" if standing.is_new(known, day) else "ask"


def _again(known: CardMemory, answer: Answer, day: int) -> bool:
    """What was right at once never comes back that day; a miss, or a new card not known, gets two more
    looks."""
    if known.aside_day == day or known.seen_day_shows > LOOKS:
        return False
    return known.intro_day == day or not marking.unaided(answer)


def _step_name(help: str | int) -> str:
    """The help step by its name; a number counts the steps up to it."""
    if isinstance(help, str):
        return help
    return HELP_STEPS[min(int(help), len(HELP_STEPS)) - 1] if help > 0 else ""
