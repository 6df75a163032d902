"""What `review fit` says, in lines and as tables of JSON."""

from collections.abc import Sequence

from review.app.fits import Fit, Reset
from review.core import calibration, days, family, parameter_search
from review.core.calibration import Band, Promise
from review.core.text import clean, plural
from review.shell import word

HEADS = ("", "Promised", "Answers", "Right", "Likely between")
INSTALL = (
    "There are answers enough for a finer fit. It needs one more package; in the folder of review type: "
    '.venv/bin/pip install ".[fit]"'
)

BY_CARD = " Taken card by card its promises came nearer, which these sums do not show."


def summary(fit: Fit) -> list[str]:
    """What was found, in sentences."""
    said = family.reported(_said(fit), family.words_of(fit.child))
    return [*said, *([INSTALL] if fit.fuller else [])]


def _said(fit: Fit) -> list[str]:
    name, found = clean(fit.child.name), fit.found
    if found.how == "too few":
        tries, misses = parameter_search.THREE_NUMBERS
        return [
            f"Memory cannot be fitted to {name} yet; nothing was changed.",
            f"It takes {tries} first tries of cards met before, {misses} of them missed. "
            f"There are {found.tries:,} and {found.misses:,}.",
        ]
    if not fit.changed:
        return [f"Memory fits {name} as it is; nothing was changed."]
    return [
        f"From today the plan expects what {name}'s own answers show.",
        _both(found),
        f"To go back: review fit {word(fit.child.name)} --default",
    ]


def _both(found: parameter_search.Fitted) -> str:
    """The fit in one line, on days that it was not fitted to."""
    before, after, right = (
        _mean([one.promised for one in found.before]),
        _mean([one.promised for one in found.after]),
        _mean([one.right for one in found.before]),
    )
    places = 1 if f"{before:.0f}" == f"{after:.0f}" else 0
    was, would, came = (f"{share:.{places}f}" for share in (before, after, right))
    nearer = abs(float(would) - float(came)) < abs(float(was) - float(came))
    return (
        f"Of 100 first tries since {days.words(found.since)} it promised {was} right. "
        f"Fitted to the days before, it would have promised {would}. In fact {came} were right."
        f"{'' if nearer else BY_CARD}"
    )


def _mean(values: Sequence[float]) -> float:
    return 100 * sum(values) / max(1, len(values))


def parts(fit: Fit) -> list[tuple[str, Sequence[Promise]]]:
    """The tables: as it was, and, where something changed, by the fit, on days it was not fitted to."""
    before, after = fit.found.before, fit.found.after
    return [("Before", before), ("After", after)] if fit.changed else [("So far", before)]


def cells(fit: Fit) -> list[tuple[str, ...]]:
    words = family.words_of(fit.child)
    rows = (
        (name if n == 0 else "", span(band), f"{band.n:,}", percent(band.right), likely(band))
        for name, promises in parts(fit)
        for n, band in enumerate(calibration.bands(promises))
    )
    return [tuple(family.reported(row, words)) for row in rows]


def sentences(fit: Fit) -> list[str]:
    """The same without a table."""
    lines = (
        line
        for name, promises in parts(fit)
        for line in ("", f"{name}:", *(sentence(band) for band in calibration.bands(promises)))
        if promises
    )
    return family.reported(lines, family.words_of(fit.child))


def sentence(band: Band) -> str:
    came = f"{percent(band.right)} right (likely {likely(band)})"
    return f"  Promised {span(band)}: {plural(band.n, 'answer')}, {came}."


def span(band: Band) -> str:
    return f"{100 * band.low:.0f} to {percent(band.high)}"


def likely(band: Band) -> str:
    low, high = band.within
    return f"{100 * low:.0f} to {percent(high)}"


def percent(share: float) -> str:
    return f"{100 * share:.0f}%"


def reset(done: Reset) -> str:
    name = clean(done.child.name)
    if done.changed:
        return f"From today memory goes by the published figures again for {name}."
    return f"Memory goes by the published figures for {name} already; nothing was changed."


# --- as JSON ------------------------------------------------------------------------------------------

HOW = {"too few": "too few answers", "as it is": "as it is", "three": "three numbers", "all": "all numbers"}


def row(fit: Fit) -> dict[str, object]:
    found, verdict = fit.found, fit.found.verdict
    return {
        "child": fit.child.name,
        "changed": fit.changed,
        "how": HOW[found.how],
        "first_tries": found.tries,
        "missed": found.misses,
        "apart_since": days.date_of(found.since).isoformat() if found.since else None,
        "apart": verdict.tries if verdict else 0,
        "loss_before": verdict and round(verdict.before, 6),
        "loss_after": verdict and round(verdict.after, 6),
        "gain": verdict and round(verdict.gain, 6),
        "gain_error": verdict and round(verdict.error, 6),
        "before": [band_row(band) for band in calibration.bands(found.before)],
        "after": [band_row(band) for band in calibration.bands(found.after)],
    }


def band_row(band: Band) -> dict[str, object]:
    return {
        "from": band.low,
        "to": band.high,
        "answers": band.n,
        "promised": round(band.promised, 4),
        "right": round(band.right, 4),
        "likely_from": round(band.within[0], 4),
        "likely_to": round(band.within[1], 4),
    }


def reset_row(done: Reset) -> dict[str, object]:
    return {"child": done.child.name, "changed": done.changed, "how": "default"}
