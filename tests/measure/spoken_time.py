"""How near the seconds of scripts come to those of a voice that speaks them.

`python tests/measure/spoken_time.py --count N` has the speech synthesiser espeak-ng say N paragraphs of the demo's scripts at several
rates. At each rate the voice is calibrated by one text and by nothing else. The synthesiser reads, so nothing is added for
speaking freely.
"""

# ruff: noqa: E402
from __future__ import annotations

import argparse
import subprocess
import sys
import tempfile
import wave
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
if __name__ == "__main__":
    sys.path[:0] = [str(ROOT), str(ROOT / "generator")]

from twayblade.knowledge.trail import Pace
from twayblade.knowledge.workspace import Workspace
from twayblade.reading.workspace import load
from twayblade.reasoning.clocks import bounds_of_speech
from twayblade.writing.script import all_parts, write_script
from twayblade.writing.voice import voice_of

RATES = (110, 140, 175, 210)
"""Nominal words a minute of the synthesiser."""

SHORTEST = 120
"""Letters and spaces of the shortest paragraph: in a few words a synthesiser's own silences weigh too much."""

WALK = """
Good morning, and thank you for coming out so early. Today we follow the old park wall as far as the pond, and on the way we shall meet
five trees that many people walk past without a second glance. Let us begin with the oak beside the entrance. It is easily known in
winter, because its buds sit crowded together at the tips of the twigs; in summer you would look at the lobed leaves instead. The bark
is grey and deeply furrowed. Compare it with the beech behind you, whose trunk stays smooth even in old age, like the leg of an elephant.
Please do not climb over the roots, which are slippery after the rain. A little further on there is a birch with a split stem. Some
of its branches hang down like whips, usually ten or more on each side. Its scientific name, Betula pendula, tells you just that: pendula
means hanging. Now take a few steps back, look up into the crown and wait until the wind moves it. Can you see how thin the twigs are?
"""
"""The text that calibrates: a walk like those the scripts tell, of other plants. Who calibrates is asked for a text of the kind they will speak."""

FABLE = """
The north wind and the sun once fell to arguing which of them was the stronger. While they were at it a traveller came along the
road, wrapped in a thick grey cloak. They agreed, then, that whoever first made the man take off his cloak should be called the
winner; the wind was to begin. He blew with all his might, but the harder he blew, the closer the traveller drew the cloak about
him, and at last the wind gave up. Now the sun came out and shone, gently at first. The man loosened his collar. A little later,
when the day had grown hot, he took off the cloak, sat down by the side of the road and wiped his face. So the wind had to admit
it: the sun was the stronger of the two.
"""

TALE = """
Every evening, before the shops began to close, an elderly woman carried her basket down the hill to the river. She never hurried
along the way. At the corner by the station she always met the same postman, who wished her a pleasant evening. Nobody in the
village could remember when the habit had started, although many had asked about it. The bridge across the river was narrow and
built of yellow stone, and two people could hardly pass each other on it. In the middle stood a wooden bench that an unknown
carpenter had given to the village. There she sat down, opened the basket and took out a little paper parcel. Some people believed
it contained letters from a sailor. Others were certain that it was only bread for the animals under the bridge. One winter, when the
water was frozen from one bank to the other, a curious child followed her all the way. The child waited behind a tree until the old
woman had unfolded the paper. It held nothing at all except a pencil and a photograph of the river in summer. She was drawing the
opposite bank, exactly as it looked that evening, on the other side of the picture. Hundreds of similar drawings were discovered in
her kitchen after she had moved away. They show how the river altered its course, year after year, and nobody else had noticed.
"""

OTHERS = {"a fable": FABLE, "a tale": TALE}
"""Texts of another kind, to see how much it matters by what a voice is calibrated: short words and many commas, long words and few."""


@dataclass(frozen=True)
class Said:
    """A paragraph at a rate: seconds worked out (with the low and the high) and seconds spoken."""

    rate: int
    text: str
    low: float
    likely: float
    high: float
    spoken: float

    @property
    def error(self) -> float:
        """By how much what is worked out is too long, as a share of what was spoken."""
        return self.likely / self.spoken - 1


@cache
def seconds_spoken(text: str, rate: int) -> float:
    """Seconds that espeak-ng takes for a text."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "said.wav"
        subprocess.run(["espeak-ng", "-v", "en-gb", "-s", str(rate), "-w", str(file)], input=text.encode(), check=True)
        with wave.open(str(file)) as sound:
            return sound.getnframes() / sound.getframerate()


def paragraphs(workspace: Workspace, count: int) -> list[str]:
    """Different paragraphs of the scripts of every date, branches included, evenly chosen."""
    scripts = (write_script(workspace, trail, on) for trail in workspace.trails.values() for on in trail.trail.dates)
    texts = list(dict.fromkeys(part.text for script in scripts for part in all_parts(script.stops) if len(part.text) >= SHORTEST))
    step = max(1.0, len(texts) / count)
    return [texts[int(n * step)] for n in range(min(count, len(texts)))]


def measure(workspace: Workspace, texts: Iterable[str], rates: Iterable[int] = RATES, calibrated_by: str = WALK) -> list[Said]:
    """Every text at every rate."""
    texts = tuple(texts)
    plain = " ".join(calibrated_by.split())
    found = []
    for rate in rates:
        took = f"{seconds_spoken(plain, rate):.2f} s"
        pace = Pace.model_validate({"calibration": {"text": plain, "takes": took}, "free": "1 times"})
        voice = voice_of(workspace, pace)
        low, high = bounds_of_speech(pace)
        for text in texts:
            likely = voice.seconds(text)
            found.append(Said(rate, text, float(likely * low), float(likely), float(likely * high), seconds_spoken(text, rate)))
    return found


def mean_error(said: list[Said]) -> tuple[float, float]:
    """The mean absolute error and the lean (the mean error, above 0 where too much time is reckoned), in per cent."""
    return 100 * sum(abs(s.error) for s in said) / len(said), 100 * sum(s.error for s in said) / len(said)


def lines(said: list[Said]) -> list[str]:
    """The report: a line a rate, the worst, how many fall between low and high, and last the errors."""
    report = []
    for rate in sorted({s.rate for s in said}):
        absolute, lean = mean_error([s for s in said if s.rate == rate])
        report.append(f"at {rate} words a minute: error {absolute:.1f} %, lean {lean:+.1f} %")
    worst = max(said, key=lambda s: abs(s.error))
    report.append(f"worst: {worst.error:+.1%} at {worst.rate} words a minute: {worst.text[:80]} ...")
    within = sum(s.low <= s.spoken <= s.high for s in said)
    report.append(f"{within} of {len(said)} fall between low and high")
    absolute, lean = mean_error(said)
    return [*report, f"mean absolute error {absolute:.1f} %, lean {lean:+.1f} %"]


def main() -> None:
    """Measure the demo and print the report."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--count", type=int, default=60, help="how many paragraphs")
    workspace = load(ROOT).workspace
    assert workspace, "the demo has problems; see twayblade check"
    texts = paragraphs(workspace, parser.parse_args().count)
    for name, text in OTHERS.items():
        print(f"calibrated by {name} instead: {lines(measure(workspace, texts, calibrated_by=text))[-1]}")
    print("\n".join(lines(measure(workspace, texts))))


if __name__ == "__main__":
    main()
