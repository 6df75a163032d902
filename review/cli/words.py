"""`review words`."""

import click

from review.app import chosen_words
from review.cli.options import Call, with_call, with_clock
from review.core.model import CHOICES
from review.render import word_lines
from review.render.screen import echo, echo_json


def of(name: str) -> click.Choice[str]:
    return click.Choice(CHOICES[name], case_sensitive=False)


@click.command()
@click.option("--carry", type=of("carry"), help="Ten for one; carry means borrow in differences.")
@click.option("--maths", type=of("maths"), help="What the subject is called.")
@click.option("--decimals", type=of("decimals"), help="0.5 and 1,250, or 0,5 and 1 250.")
@click.option("--times", type=of("times"), help="6 × 7, or 6 · 7.")
@click.option("--divide", type=of("divide"), help="42 ÷ 6, or 42 : 6.")
@with_call(on=True, json=True)
def words(call: Call, **given: str | None) -> None:
    """Your family's own words and signs, once for every child.

    With nothing behind it, it tells what is chosen and what can be. They
    are shown in warm-ups, on sheets and in reports; what was answered
    stays as it is. Both 0.5 and 0,5 are read where you choose the comma.

    \b
    Examples:
      review words
      review words --carry regroup --maths math
      review words --decimals comma --times dot --divide colon
    """
    told = {name: choice for name, choice in given.items() if choice is not None}
    if told:
        found = with_clock(call.outside, lambda outside: chosen_words.choose(outside, told))
    else:
        found = chosen_words.chosen(call.outside)
    if call.as_json:
        echo_json(word_lines.row(found))
    else:
        echo(word_lines.changed(found) if told else [*word_lines.chosen(found), *word_lines.choices()])
