"""Text for the terminal: problems with their source line, comparisons, scripts, keys."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.problem import Problem, Severity
from twayblade.knowledge.trait import EYE, HANDLING, Means
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.seeing import Bar, days_to_look, handling_forbidden, runs
from twayblade.reasoning.telling import Telling, Told, best_few, tempting
from twayblade.writing.cautions import NO_GUIDE, cautions, cautions_around, mistaken_for
from twayblade.writing.clock_words import clock_lines, cuts_words, pace_words
from twayblade.writing.key_ends import end_caution, how_words, names_words, none_fits, settling, signs_words
from twayblade.writing.key_layout import Layout, Placed, placed
from twayblade.writing.key_words import CARE, LACKING, WrittenKey, WrittenLead, coverage_words, left_out_words, words_of
from twayblade.writing.phrases import contrast_sentence, date_words, days_words, listed, rests_on_memory, sentence, useless_sentence
from twayblade.writing.picture_words import STAY, TAKES, match_words, picture_sentence, pictures_at
from twayblade.writing.script import CASE_WORDS, Part, Script, clock, script_heading

WIDTH = 88


def problem_text(problem: Problem) -> str:
    """A problem with its source line, a caret, hints, and where to read more."""
    place = problem.place
    lines = [f"{place.file}:{place.line}:{place.column} {problem.severity.value} {problem.rule}: {problem.message}"]
    if place.text.strip():
        shown = place.text.replace("\t", " ")
        lines += [f"    {shown}", f"    {' ' * (place.column - 1)}^"]
    lines += [f"    help: {hint}" for hint in problem.hints]
    lines.append(f"    more: twayblade explain {problem.rule}")
    return "\n".join(lines)


def summary_text(problems: Sequence[Problem]) -> str:
    """The last line: how many problems of each kind."""
    errors = sum(p.severity is Severity.ERROR for p in problems)
    warnings = len(problems) - errors
    return f"{errors} {'error' if errors == 1 else 'errors'}, {warnings} {'warning' if warnings == 1 else 'warnings'}"


def wrapped(text: str, indent: str = "  ", first: str | None = None) -> str:
    """A paragraph wrapped to the width of the terminal text."""
    return textwrap.fill(text, WIDTH, initial_indent=indent if first is None else first, subsequent_indent=indent)


def compare_text(workspace: Workspace, telling: Telling) -> str:
    """What separates the taxa now, what at another time or by other means, and what never to rely on."""
    occasion = telling.occasion
    taxa = [workspace.taxa[id_] for id_ in occasion.taxa]
    when = f"on {date_words(occasion.on)}" if occasion.on else "at any time of the year"
    blocks = [f"How to tell {listed(t.common_name for t in taxa)} apart {when}, by {means_words(occasion.means)}"]
    if HANDLING & occasion.means and handling_forbidden(workspace, occasion):
        refused = listed(sorted(HANDLING & occasion.means))
        blocks.append(wrapped(f"Not asked here: {refused}. A harmful plant, or one never assessed, may stand among these.", ""))
    blocks += _pairs_text(workspace, telling)
    if care := cautions_around(workspace, occasion.taxa):
        blocks.append("\n".join(["Take care", *(wrapped(line, "    ", "  - ") for line in care)]))
    blocks.append(NO_GUIDE)
    return "\n\n".join(blocks)


def means_words(means: frozenset[Means]) -> str:
    """Means in words; the two kinds of looking are simply the eye."""
    plain = {"eye" if m in EYE else m.value for m in means}
    return listed(sorted(plain))


def _pairs_text(workspace: Workspace, telling: Telling) -> list[str]:
    ids = telling.occasion.taxa
    blocks = []
    for place, first in enumerate(ids):
        for second in ids[place + 1 :]:
            told = telling.of_pair(first, second)
            best = best_few(workspace, told)
            names = listed(workspace.taxa[id_].common_name for id_ in (first, second))
            sections = (
                ("Look at", list(best)),
                ("And also at", [t for t in told if t.is_usable and t not in best]),
                ("At another time, or by other means", [t for t in told if t.verdict.is_good and t.bars and Bar.UNSAFE not in t.bars]),
                ("Do not rely on", list(tempting(workspace, told))),
            )
            lines = [f"{names}:"] if len(ids) > 2 else []
            for heading, found in sections:
                if found:
                    lines += [heading, *(_told_text(workspace, t, telling.occasion) for t in found)]
            if not any(t.is_usable for t in told):
                lines.insert(len(ids) > 2, "Nothing that may be looked at now separates these two.")
            blocks.append("\n".join(lines))
    return blocks


def _told_text(workspace: Workspace, told: Told, occasion: Occasion) -> str:
    d = told.difference
    if not told.verdict.is_good:
        return wrapped(useless_sentence(workspace, d, occasion.region), "    ", "  - ")
    remarks = sorted(bar.replace("-", " ") for bar in told.bars)
    trait = workspace.traits[d.trait]
    if trait.is_seasonal and (Bar.NOT_THEN in told.bars or occasion.on is None):
        days = days_to_look(workspace, (workspace.taxa[d.first], workspace.taxa[d.second]), trait, occasion)
        remarks.append(f"both show it {days_words(runs(days))}" if days else "no time is on record when both show it")
    remarks += filter(None, [rests_on_memory(workspace, d)])
    text = contrast_sentence(workspace, d, region=occasion.region) + (f" [{'; '.join(remarks)}]" if remarks else "")
    return wrapped(text, "    ", "  - ")


def script_text(script: Script, with_branches: bool = False) -> str:
    """The script as plain text with times; with what people may ask and the other ways each stop may turn out, if wanted."""
    lines = [script_heading(script)]
    if script.seconds_over:
        lines.append(f"warning: the walk takes {clock(script.seconds_over)} longer than the {clock(script.allows)} it allows")
        lines.append(wrapped(cuts_words(script.cuts, script.seconds_over), "         "))
    if script.trail.route is None and len(script.stops) > 1:
        lines.append("note: no route is given, so walking is not counted")
    lines += [wrapped(line.lstrip(), " " * 9, line[: len(line) - len(line.lstrip())]) for line in clock_lines(script.clocks)]
    lines.append(wrapped(f"Reckoned with {pace_words(script.trail.trail.pace)}; {script.clocks.set_ups} set-ups of the camera.", "         ", ""))
    elapsed = 0
    for number, stop in enumerate(script.stops, 1):
        elapsed += stop.walk_seconds
        way = f"walk {stop.metres} m, {clock(stop.walk_seconds)}; " if script.trail.route else ""
        lines += ["", f"Stop {number}  {stop.stop.title}   [{clock(elapsed)}]   {way}here {clock(stop.seconds)}"]
        lines += _parts_text(stop.parts)
        if with_branches:
            lines += [wrapped(f"asked  {q.question} {q.answer}", "      ", "  ") for q in stop.questions]
            for branch in stop.branches:
                search = f", {clock(branch.search_seconds)} of search in it" if branch.search_seconds else ""
                set_ups = f"; {len(branch.pictures)} set-ups of the camera" if branch.pictures else ""
                lines += ["", f"  {CASE_WORDS[branch.case]} ({clock(branch.seconds)}{search}{set_ups})", *_parts_text(branch.parts)]
        elapsed += stop.seconds
    return "\n".join(lines)


def _parts_text(parts: tuple[Part, ...]) -> list[str]:
    whose = {True: ", the author's words", False: ""}
    return [wrapped(f"{part.kind} ({part.seconds} s{whose[part.by_author]})  {part.text}", "      ", "  ") for part in parts]


def pictures_text(workspace: Workspace, script: Script) -> str:
    """The pictures to take, stop by stop, with boxes for the takes."""
    title = f"Pictures to take: {script.trail.trail.title}, {date_words(script.on)}"
    lines = [title, "", wrapped(f"{STAY} [ ] is a take; write the time beside it.", "")]
    for number, stop in enumerate(script.stops, 1):
        lines += ["", f"Stop {number}  {stop.stop.title}"]
        for picture in pictures_at(script, stop.stop.id):
            label = "must " if picture.must else "nice "
            lines.append(wrapped(f"{'[ ] ' * TAKES} {picture_sentence(workspace, picture)}", "      ", f"  {label}"))
            lines += [wrapped(text, "        ", "      ") for text in (match_words(workspace, script, picture),) if text]
            lines += [wrapped(line.text, "        ", "      say: ") for line in picture.lines]
    taxa = tuple(dict.fromkeys(picture.taxon for picture in script.pictures))
    lines += ["", "Take care", *(wrapped(line, "    ", "  - ") for line in cautions(workspace, taxa))]
    return "\n".join(lines)


def key_text(workspace: Workspace, written: WrittenKey, layout: Layout = Layout.BRACKETED) -> str:
    """The key as plain text, the care in its first lines, with back-references."""
    trail = written.planned.trail
    lines = [f"Pocket key: {trail.title}, {date_words(written.on)}", wrapped(CARE, ""), *([wrapped(trail.invented, "")] if trail.invented else [])]
    lines += [wrapped(coverage_words(written), ""), wrapped(how_words(written), ""), wrapped(LACKING, ""), ""]
    if not written.couplets:
        end = WrittenLead("", "", None, written.covers)
        lines.append(wrapped(f"Nothing that may be looked at tells these apart: {names_words(workspace, written.covers)}.", ""))
        lines += [wrapped(said) for said in (*_end_lines(workspace, written, end), none_fits(workspace, written, (end,)))]
    for block in placed(written, layout):
        lines += _block_lines(workspace, written, layout, block)
    sections = {
        "Harmful plants in this key": cautions(workspace, written.covers),
        "Before you trust a name": mistaken_for(workspace, written.covers),
        "What to look at": tuple(f"{name}: {definition}" for _, name, definition in words_of(workspace, written)),
        "How long and how sure it is": written.report,
        "What it leaves out": (left_out_words(workspace, written),) if written.leaves_out else (),
        "How long and how sure": written.report,
    }
    for heading, found in sections.items():
        if found:
            lines += ["", heading, *(wrapped(line, "    ", "  - ") for line in found)]
    return "\n".join(lines)


def _block_lines(workspace: Workspace, written: WrittenKey, layout: Layout, block: Placed) -> list[str]:
    couplet, left = block.couplet, "  " * block.depth
    hang = left + " " * 12
    lines = [wrapped(couplet.note, hang)] if block.opens and couplet.note else []
    for place, (lead, to) in enumerate(zip(block.leads, block.goes_on, strict=True)):
        opens = block.opens and place == 0
        back = f" ({', '.join(map(str, couplet.back))})" if opens and couplet.back else ""
        label = f"{couplet.number}{back}" if opens or layout is Layout.INDENTED else ""
        goes = f" ... {to}" if to is not None else ""
        name = f" ... {names_words(workspace, lead.taxa)}" if lead.to is None else ""
        lines.append(wrapped(f"{signs_words(lead)}{goes}{name}", hang, f"{left}{label:<10}- "))
        if lead.to is None:
            lines += [wrapped(said, f"{hang}  ") for said in _end_lines(workspace, written, lead)]
    none = none_fits(workspace, written, block.leads)
    return [*lines, wrapped(none, hang)] if none else lines


def _end_lines(workspace: Workspace, written: WrittenKey, lead: WrittenLead) -> list[str]:
    caution = end_caution(workspace, lead.taxa)
    first = " ".join([*([sentence(caution)] if caution else []), *lead.against])
    return [said for said in (first, *settling(written, lead)) if said]
