"""The adapter to MkDocs: the only module that imports it. It loads and checks, then hands over the pages of `writing`."""

from __future__ import annotations

import json
from datetime import date, datetime
from importlib import resources
from pathlib import Path, PurePosixPath

from jinja2 import Environment
from markupsafe import Markup
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.localization import parse_locale
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from twayblade.knowledge.page import MARKDOWN
from twayblade.knowledge.problem import Severity
from twayblade.reading.workspace import PAGES, Loaded, load
from twayblade.reasoning.checks import check_content
from twayblade.writing.labels import TOLD, Labels, languages, read_labels
from twayblade.writing.offline import icons
from twayblade.writing.phrases import listed
from twayblade.writing.site_frame import Download, Frame, SiteFacts
from twayblade.writing.site_frame import Page as Worked
from twayblade.writing.site_pages import Entry, Site
from twayblade.writing.terminal import problem_text, summary_text

HOME = "index.md"
CAUTIONS = "cautions.md"
FOOT = (("site.cautions", CAUTIONS), ("site.about", "about.md"))
"""Pages of the author's that the foot of every page leads to, where they are written, by their labels."""


class NoOptions(Config):  # type: ignore[no-untyped-call] # MkDocs leaves the hook untyped
    """The plugin has no options: all it needs stands in the workspace."""


class TwaybladePlugin(BasePlugin[NoOptions]):  # type: ignore[no-untyped-call] # likewise
    """Makes the pages of a workspace part of a MkDocs site."""

    def __init__(self) -> None:
        self._site: Site | None = None
        self._pages: tuple[Worked, ...] = ()
        self._downloads: tuple[Download, ...] = ()
        self._bodies: dict[str, str] = {}
        self._evidence: dict[str, str] = {}
        self._is_served = False

    def on_startup(self, *, command: str, dirty: bool) -> None:
        """Kept so that one instance lives across the rebuilds of `serve`. What is being written must be seen, not what a device has kept."""
        self._is_served = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Load, check and work out all pages before anything is touched: an error here leaves the old site as it was."""
        folder = Path(config.config_file_path).parent
        loaded = load(folder)
        _refuse_errors(loaded)
        assert loaded.workspace
        if Path(config.docs_dir).resolve() != (folder / PAGES).resolve():
            raise PluginError(f"docs_dir is {config.docs_dir}; the author's pages are read, and checked, in {folder / PAGES}")
        if not (Path(config.docs_dir) / HOME).is_file():
            raise PluginError(f"{Path(config.docs_dir) / HOME} is missing: the first page of the site is the author's")
        label = _labels(config)
        written = [(label.plain(key), source) for key, source in FOOT if (Path(config.docs_dir) / source).is_file()]
        theme = resources.files("twayblade.site.theme")
        look = (theme / "look.css").read_text(encoding="utf-8")
        self._site = Site(Frame(loaded.workspace, CAUTIONS in dict(written).values(), look, label, _facts(config)))
        config.extra["menu"] = self._site.menu()
        config.extra["foot"] = (*(Entry(words, str(PurePosixPath(source).with_suffix(".html"))) for words, source in written), *self._site.foot())
        drawn = icons((theme / "leaf.svg").read_bytes())
        self._pages = tuple(self._site.pages())
        self._downloads = (*self._site.downloads(), *(Download(address, content) for address, content in drawn.items()))
        _refuse_doubles(Path(config.docs_dir), [*(page.address for page in self._pages), *(file.address for file in self._downloads)])
        config.watch += [str(folder / "content"), *(str(folder / id_) for id_ in loaded.workspace.trails)]
        return config

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """Give the theme the labels."""
        assert self._site
        env.globals["label"] = self._site.frame.label
        env.globals["facts"] = self._site.frame.facts
        return env

    def on_page_context(self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation) -> TemplateContext:
        """What a page says of itself to machines."""
        assert self._site
        about = (page.url, str(page.title))
        return {**context, "description": self._site.structured.description(*about), "structured": self._site.structured.data(*about)}  # type: ignore[typeddict-unknown-key]

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add a file for every page that is worked out, and for every download."""
        self._bodies = {}
        for page in self._pages:
            source = str(PurePosixPath(page.address).with_suffix(".md"))
            front = f"---\ntitle: {json.dumps(page.title, ensure_ascii=False)}\n---\n"
            files.append(File.generated(config, source, content=front, inclusion=InclusionLevel.NOT_IN_NAV))
            self._bodies[source] = page.html
        for download in self._downloads:
            files.append(File.generated(config, download.address, content=download.content))
        return files

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """An author's page with its marks taken out and its claims anchored."""
        source = page.file.src_uri
        if self._site is None or source not in self._site.workspace.pages:
            return markdown
        text, self._evidence[source] = self._site.author_page(source, markdown)
        return text

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """The body of a page that is worked out; or an author's words with their language, their evidence, and on the home page what follows."""
        assert self._site
        source = page.file.src_uri
        if source in self._bodies:
            return self._bodies[source]
        language = page.meta.get("lang", TOLD)
        if language != self._site.frame.label.language:
            html = str(Markup('<div lang="{}">{}</div>').format(language, Markup(html)))
        return html + self._evidence.pop(source, "") + (self._site.home() if source == HOME else "")

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Add what a device needs to keep the site: made last, because it is made of all finished files."""
        assert self._site
        folder = Path(config.site_dir)
        finished = {file.relative_to(folder).as_posix(): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}
        for made in self._site.not_keeping() if self._is_served else self._site.keeping(finished):
            (folder / made.address).parent.mkdir(parents=True, exist_ok=True)
            (folder / made.address).write_bytes(made.content)


def _facts(config: MkDocsConfig) -> SiteFacts:
    """What `mkdocs.yml` says of the site as a whole."""
    data_date = config.extra.get("data_date")
    if data_date is not None and (not isinstance(data_date, date) or isinstance(data_date, datetime)):
        raise PluginError(f"extra: data_date is {data_date}; expected the day as of which the data hold, as in 2026-06-07")
    address = config.site_url or ""
    return SiteFacts(config.site_name, config.site_description or "", address, data_date)


def _labels(config: MkDocsConfig) -> Labels:
    """The labels of the language that `theme: locale:` names."""
    language = config.theme.locale.language
    if language not in languages():
        raise PluginError(f"theme locale is {language}; there are labels in {listed(languages())}")
    # MkDocs would look for a catalogue of gettext in any other language and warn that there is none, which stops a strict build
    config.theme["locale"] = parse_locale("en")
    return read_labels(language)


def _refuse_doubles(docs: Path, addresses: list[str]) -> None:
    """Refuse what the author wrote to an address that is worked out: one of the two would vanish without a word."""
    for address in addresses:
        for name in (address, *(str(PurePosixPath(address).with_suffix(ending)) for ending in MARKDOWN)):
            if (docs / name).is_file():
                raise PluginError(f"{docs / name} has the address of a page that is worked out; give it another name")


def _refuse_errors(loaded: Loaded) -> None:
    problems = [*loaded.problems, *(loaded.place(finding) for finding in check_content(loaded.draft))]
    errors = [p for p in problems if p.severity is Severity.ERROR]
    if errors or loaded.workspace is None:
        raise PluginError("\n\n".join([*(problem_text(p) for p in errors), summary_text(errors)]))
