"""The clocks of a walk in words: how long, of how much allowed, and what to cut first."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from twayblade.knowledge.trail import Pace, Slope
from twayblade.reasoning.clocks import Clock, Clocks, Cut, Span
from twayblade.reasoning.times import whole
from twayblade.writing.script import clock

_HILLS = {
    Slope.NAISMITH: "10 minutes for 100 m of ascent (Naismith)",
    Slope.LANGMUIR: "10 minutes for 100 m of ascent, with gentle descents quicker and steep ones slower (Langmuir)",
    Slope.TOBLER: "on each slope by Tobler's function",
}


def minutes(run: Clock | Span) -> str:
    """The likely, and from the low to the high: `20:10 (17:39 to 24:12)`."""
    low, likely, high = (seconds if isinstance(seconds, int) else whole(seconds) for seconds in (run.low, run.likely, run.high))
    return f"{clock(likely)} ({clock(low)} to {clock(high)})"


def allowance(run: Clock) -> str:
    """What a clock may show, and whether it does: nothing if no allowance is given."""
    if run.allows is None:
        return ""
    said = f"of {clock(run.allows)} allowed"
    if run.over:
        return f"{said}: {clock(run.over)} too long"
    return f"{said}: may run over" if run.may_pass else said


def _cut_words(cut: Cut, name: Callable[[str], str]) -> str:
    """What is cut: `name of hemlock at culvert (20 s)`."""
    what = f"the stop {cut.stop}" if cut.kind == "stop" else f"{cut.kind}{f' of {name(cut.taxon)}' if cut.taxon else ''} at {cut.stop}"
    return f"{what} ({cut.seconds} s)"


def cuts_words(cuts: Sequence[Cut], over: int, name: Callable[[str], str] = str) -> str:
    """What to cut first, and whether that is enough. name: what a taxon is called; its id, if nothing is given."""
    saved = sum(cut.seconds for cut in cuts)
    words = f"cut first: {', '.join(_cut_words(cut, name) for cut in cuts)}" if cuts else "no part may be cut alone"
    return words if saved >= over else f"{words}; that leaves {clock(over - saved)} too much: leave out a whole stop"


def pace_words(pace: Pace) -> str:
    """By what speech and walking are reckoned."""
    read = pace.calibration
    speech = (
        f"speech by a text that was read in {read.takes} s, {pace.free:.2f} times as long when free"
        if read
        else f"speech at {pace.speech} words a minute"
    )
    group = f", {pace.group} m/s slower for the group" if pace.group else ""
    return f"{speech}, walking at {pace.walking} km/h{group}, {_HILLS[pace.slope]}"


def clock_lines(run: Clocks) -> list[str]:
    """The three clocks, a line each, and a line more for what to cut where one runs over."""
    lines = []
    for name, one in run.named:
        lines.append(f"{name:<8} {minutes(one)} {allowance(one)}".rstrip())
        if one.over:
            lines.append(f"         {cuts_words(one.cuts, one.over)}")
    return lines
