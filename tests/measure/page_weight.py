"""What a page of the site costs who opens it: `python tests/measure/page_weight.py`, with `--site FOLDER` for a site that is made already.

The last line says, of the site of the demonstration and in Chromium:

- the pair page that sends most, with every file it loads, the drawings further down included and nothing remembered from before: the bytes
  that come over the wire as the browser counts them, heads of answers too, when the server packs text by gzip at level 6. 1 kB is 1000 bytes.
- the time its scripts take until it stands, reading and compiling included, on this machine: what the page spends in scripts as Chromium's
  `Performance.getMetrics` has it (ScriptDuration and V8CompileDuration), in the processor's own time; the median of some visits, each with an
  empty store. The line before shows the same on a processor held back to a quarter, much as a cheap phone is.
- what is kept for use without a network after the first visit: the length of every file in the browser's caches as it lies there, so
  packs packed.

The goals for the demonstration are 60 kB, 100 ms and 2048 kB: the project's own, no source.
"""

from __future__ import annotations

import argparse
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from typing import Any

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "generator")]

from playwright.sync_api import CDPSession, sync_playwright  # noqa: E402
from tests.browser.harness import KEPT, Browser, chromium, kind_of, serve  # noqa: E402

from twayblade.cli import main as command  # noqa: E402

VISITS = 15
HELD_BACK = 4
# Every file that the pages of this address have put by.
SIZES = """async () => {
  const sizes = {};
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) { sizes[request.url] = (await (await cache.match(request)).blob()).size; }
  }
  return sizes;
}"""


def bytes_sent(browser: Browser, address: str) -> dict[str, int]:
    """The bytes that came for a page and for every file it loads, by address."""
    asked: dict[str, str] = {}
    sent: dict[str, int] = {}

    def finished(event: dict[str, Any]) -> None:
        if asked[event["requestId"]].startswith("http"):  # what stands in the page itself is sent with it
            sent[asked[event["requestId"]]] = int(event["encodedDataLength"])

    page = browser.window()
    watched = page.context.new_cdp_session(page)
    watched.on("Network.requestWillBeSent", lambda event: asked.update({event["requestId"]: event["request"]["url"]}))
    watched.on("Network.loadingFinished", finished)
    watched.send("Network.enable")
    page.goto(browser.address(address))
    browser.load_images(page)
    page.context.close()
    return sent


def seconds_in_scripts(watched: CDPSession) -> float:
    """What a page has spent in scripts so far."""
    metrics = {metric["name"]: metric["value"] for metric in watched.send("Performance.getMetrics")["metrics"]}
    return float(metrics["ScriptDuration"] + metrics["V8CompileDuration"])


def script_time(browser: Browser, address: str, held_back: int = 1) -> float:
    """Milliseconds that the scripts of a page take until it is loaded: the median of some visits."""
    times = []
    for _ in range(VISITS):
        page = browser.window()
        watched = page.context.new_cdp_session(page)
        watched.send("Emulation.setCPUThrottlingRate", {"rate": held_back})
        watched.send("Performance.enable", {"timeDomain": "threadTicks"})
        before = seconds_in_scripts(watched)
        page.goto(browser.address(address), wait_until="load")
        times.append(1000 * (seconds_in_scripts(watched) - before))
        page.context.close()
    return median(times)


def kept_offline(browser: Browser, address: str) -> dict[str, int]:
    """The length of every file that is kept after a first visit to a page, by address."""
    page = browser.open(address, workers=True)
    page.wait_for_function(KEPT)
    sizes: dict[str, int] = page.evaluate(SIZES)
    page.context.close()
    return sizes


@contextmanager
def site_in(folder: str | None) -> Iterator[Path]:
    """The site that was named, else that of the demonstration, made for the while."""
    if folder:
        yield Path(folder)
        return
    with tempfile.TemporaryDirectory() as made:
        command(["-C", str(ROOT), "build", "--to", f"{made}/site"], standalone_mode=False)
        yield Path(made) / "site"


def main() -> None:
    """Measure and print the report."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--site", help="a site that is made already")
    program = shutil.which("chromium")
    assert program, "chromium is not installed"
    with site_in(parser.parse_args().site) as site, serve(site) as root, sync_playwright() as playwright, chromium(playwright, program) as started:
        browser = Browser(started, site, root)
        pages = sorted(file.relative_to(site).as_posix() for file in site.rglob("*.html"))
        weights = {address: bytes_sent(browser, address) for address in pages if kind_of(address) == "compare/ID--ID.html"}
        largest = max(weights, key=lambda address: sum(weights[address].values()))
        for address, size in sorted(weights[largest].items(), key=lambda item: -item[1]):
            print(f"{size / 1000:7.1f} kB  {address.removeprefix(root)}")
        print(f"the largest of {len(weights)} pair pages is {largest}, in {len(weights[largest])} files")
        kept = kept_offline(browser, "index.html")
        print(f"{len(kept)} files are kept for use without a network")
        print(f"scripts on a processor held back to a quarter: {script_time(browser, largest, HELD_BACK):.1f} ms")
        weight, script, offline = sum(weights[largest].values()) / 1000, script_time(browser, largest), sum(kept.values()) / 1000
        assert browser.complaints == [], browser.complaints
        print(f"largest pair page {weight:.0f} kB, script {script:.0f} ms, offline {offline:.0f} kB")


if __name__ == "__main__":
    main()
