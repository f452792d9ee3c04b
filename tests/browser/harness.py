"""A real browser with the finished site in it: what it opens, it also watches."""

from __future__ import annotations

import gzip
import io
import re
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal
from urllib.parse import quote

if TYPE_CHECKING:  # the extra `browser` need not be installed for this module to be read
    from playwright.sync_api import Browser as Chromium
    from playwright.sync_api import ConsoleMessage, Page, Playwright, Request

BLOCKED = "Service Worker registration blocked by Playwright"
"""What the driver says of a window in which no service worker may start: its own doing, and no fault of the page."""
Until = Literal["load", "domcontentloaded"]
DATE = re.compile(r"\d{4}-\d\d-\d\d")
KEPT = "() => /^Kept/.test(document.querySelector('footer [data-offline=state]').textContent)"
"""Whether a page says, in the words of its label, that all is kept for use without signal: to wait for."""
LEFT = "net::ERR_ABORTED"  # what was still on its way when a page was left
# Asks at once for the images that would wait until they are scrolled to, and gives the addresses of those that cannot be shown.
ALL_IMAGES = """() => Promise.all([...document.images].map(image => {
  image.loading = "eager";
  return image.complete || new Promise(done => { image.onload = image.onerror = done; });
})).then(() => [...document.images].filter(image => !image.naturalWidth).map(image => image.src))"""


class Handler(SimpleHTTPRequestHandler):
    """Serves a folder as common servers do: text packed by gzip, and 404.html for what is not there."""

    protocol_version = "HTTP/1.1"  # one connection for many files
    extensions_map = {  # noqa: RUF012, so it is named there
        **SimpleHTTPRequestHandler.extensions_map,
        ".js": "text/javascript",
        ".webmanifest": "application/manifest+json",
        ".vtt": "text/vtt",
        ".ics": "text/calendar",
        ".woff2": "font/woff2",
    }

    def send_head(self) -> io.BytesIO | None:
        file = Path(self.translate_path(self.path))
        if file.is_dir():
            file /= "index.html"
        found = file.is_file()
        if not found:
            file = Path(self.directory) / "404.html"
        body, kind = file.read_bytes(), self.guess_type(str(file))
        packed = kind.startswith("text/") or kind.endswith(("json", "xml"))
        body = gzip.compress(body, 6, mtime=0) if packed else body
        self.send_response(200 if found else 404)
        self.send_header("Content-Type", kind)
        if packed:
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        return io.BytesIO(body)

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing: what a test wants to know of requests it asks the browser."""


class Server(ThreadingHTTPServer):
    """A server of this machine alone."""

    def handle_error(self, request: object, client_address: object) -> None:
        """Say nothing: a browser that leaves a page breaks off what was on its way."""


@contextmanager
def serve(folder: Path) -> Iterator[str]:
    """A folder on a free port of this machine: its address, with a stroke at the end. Gone when left."""
    server = Server(("127.0.0.1", 0), partial(Handler, directory=str(folder)))
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()


@contextmanager
def chromium(playwright: Playwright, program: str) -> Iterator[Chromium]:
    """The browser, which knows no host but this machine, whatever a page may ask for."""
    browser = playwright.chromium.launch(
        executable_path=program,
        args=["--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1", "--disable-background-networking", "--disable-component-update"],
    )
    try:
        yield browser
    finally:
        browser.close()


class Browser:
    """Opens pages of a site. What goes wrong on them stands in `complaints`, in words."""

    def __init__(self, chromium: Chromium, folder: Path, root: str) -> None:
        self.folder = folder
        self.root = root
        self.complaints: list[str] = []
        self._chromium = chromium

    def address(self, page: str, *, on: str | None = None, stored: bool = False) -> str:
        """Where a page of the site stands, on the server or, if `stored`, on the disk; `page` may carry a query and an anchor."""
        path, mark, anchor = page.partition("#")
        path, _, query = path.partition("?")
        queries = "&".join(part for part in (query, f"on={quote(on)}" if on else "") if part)
        start = f"{self.folder.resolve().as_uri()}/" if stored else self.root
        return start + path + (f"?{queries}" if queries else "") + mark + anchor

    def window(self, *, width: int = 1280, height: int = 800, dark: bool = False, scripts: bool = True, workers: bool = False) -> Page:
        """An empty window with a store of its own. width, height: CSS pixels. workers: service workers may start."""
        context = self._chromium.new_context(
            viewport={"width": width, "height": height},
            color_scheme="dark" if dark else "light",
            java_script_enabled=scripts,
            service_workers="allow" if workers else "block",
            reduced_motion="reduce",
        )
        context.set_default_timeout(60_000)
        return self._watched(context.new_page())

    def open(
        self, page: str, *, on: str | None = None, stored: bool = False, until: Until = "load", beside: Page | None = None, **settings: Any
    ) -> Page:
        """A page of the site in a window of its own, loaded but for images that wait until they are scrolled to.

        page: address in the site, such as `compare/a--b.html`. on: a date, as the address carries it. stored: opened as a file, without a server.
        until: what is waited for. beside: a page whose store it shares; without it nothing is remembered from any other page. settings: as for
        `window`, unless beside.
        """
        window = self._watched(beside.context.new_page()) if beside else self.window(**settings)
        window.goto(self.address(page, on=on, stored=stored), wait_until=until)
        return window

    def each(self, pages: dict[str, str], *, stored: bool = False, until: Until = "load", **settings: Any) -> Iterator[tuple[str, Page]]:
        """Pages of the site one after the other, in one window: their names, and the window once it shows them. Settings as for `window`."""
        window: Page | None = None
        for name, address in pages.items():
            if window is None:
                window = self.open(address, stored=stored, until=until, **settings)
            else:
                window.goto(self.address(address, stored=stored), wait_until=until)
            yield name, window

    def load_images(self, page: Page) -> None:
        """Have a page load the images too that wait until they are scrolled to. One that cannot be shown is complained of."""
        self.complaints += [f"{page.url} cannot show {lost}" for lost in page.evaluate(ALL_IMAGES)]

    def unfold(self, page: Page) -> None:
        """Open all that can be opened on a page."""
        page.evaluate("() => document.querySelectorAll('details').forEach(one => { one.open = true; })")

    def close(self) -> None:
        """Close every window."""
        for context in self._chromium.contexts:
            context.close()

    def _watched(self, page: Page) -> Page:
        """Note what goes wrong. The console tells of files that are not there; a host that is not this machine is not found (`chromium`)."""

        def said(message: ConsoleMessage) -> None:
            if message.type in {"error", "warning"} and BLOCKED not in message.text:
                self.complaints.append(f"{page.url} says on the console: {message.text} ({message.location['url']})")

        def failed(request: Request) -> None:
            if request.failure != LEFT:
                self.complaints.append(f"{page.url} cannot load {request.url}: {request.failure}")

        page.on("console", said)
        page.on("pageerror", lambda error: self.complaints.append(f"{page.url} breaks: {error}"))
        page.on("requestfailed", failed)
        return page


def kind_of(address: str) -> str:
    """What kind of page stands at an address: `compare/ID--ID.html`, `trails/ID-DATE-read.html`; a page at the top is a kind of its own."""
    folder, _, name = address.rpartition("/")
    if not folder:
        return address
    stem = name.removesuffix(".html")
    if dated := DATE.search(stem):
        return f"{folder}/ID-DATE{stem[dated.end() :]}.html"
    return f"{folder}/{'--'.join('ID' for _ in stem.split('--'))}.html"


def kinds_of(site: Path) -> dict[str, str]:
    """Of each kind of page in a finished site the one that holds most: its address by the kind."""
    found: dict[str, Path] = {}
    for file in sorted(site.rglob("*.html")):
        kind = kind_of(file.relative_to(site).as_posix())
        if kind not in found or file.stat().st_size > found[kind].stat().st_size:
            found[kind] = file
    return {kind: file.relative_to(site).as_posix() for kind, file in sorted(found.items())}
