/* The page that helps with an unknown plant. The address carries the answers, so that back works and a link can be shown to others:
   `#saw=stem-hairs@lower-stem:bristly~petal-colour:unsure`, with `open=LOOK` while one is looked at again and `stop` where no more is asked. */
(function () {
  "use strict";
  const home = window.twayblade || {};
  const page = document.getElementById("naming");
  if (!page || !home.namingTables || !home.naming) return;
  const { UNSURE, NONE_OF_THESE, reckoning } = home.naming;
  const tables = home.namingTables;
  const words = tables.words;
  const root = page.dataset.root;
  let rules = reckoning(tables, home.day.number);
  const lookAt = new Map(tables.looks.map((look, place) => [look.id, place]));
  const WITHOUT = { [UNSURE]: "unsure", [NONE_OF_THESE]: "none" };

  /* -- the address -------------------------------------------------------------------------------------------------------------------- */
  function read() {
    const found = new URLSearchParams(location.hash.slice(1));
    const given = [];
    for (const part of (found.get("saw") || "").split("~")) {
      const [id, said] = part.split(":");
      const look = lookAt.get(id);
      if (look === undefined || given.some(([place]) => place === look)) continue;
      const answer = said === "unsure" ? UNSURE : said === "none" ? NONE_OF_THESE : tables.looks[look].answers.findIndex(([own]) => own === said);
      if (answer >= 0 || said === "unsure" || said === "none") given.push([look, answer]);
    }
    const open = lookAt.get(found.get("open"));
    return { given, open: given.some(([place]) => place === open) ? open : undefined, stop: found.has("stop") };
  }

  function address({ given, open, stop }) {
    const saw = given.map(([look, answer]) => `${tables.looks[look].id}:${WITHOUT[answer] || tables.looks[look].answers[answer][0]}`);
    const parts = [`saw=${saw.join("~")}`];
    if (open !== undefined) parts.push(`open=${tables.looks[open].id}`);
    if (stop) parts.push("stop=yes");
    return `#${parts.join("&")}`;
  }

  function answered(state, look, answer) {
    const known = state.given.some(([place]) => place === look);
    const given = known ? state.given.map((pair) => (pair[0] === look ? [look, answer] : pair)) : [...state.given, [look, answer]];
    return address({ given, stop: known && state.stop });
  }

  /* -- words -------------------------------------------------------------------------------------------------------------------------- */
  const filled = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
  const nameOf = (taxon) => tables.taxa[taxon][1];

  function listed(items, joint) {
    const last = items[items.length - 1];
    return items.length < 2 ? last || "" : `${items.slice(0, -1).join(", ")} ${joint} ${last}`;
  }

  /* Names as words; of many the first few and how many more. */
  function few(taxa, joint) {
    const shown = taxa.length > 5 ? [...taxa.slice(0, 4).map(nameOf), filled(words.more, { count: taxa.length - 4 })] : taxa.map(nameOf);
    return listed(shown, joint);
  }

  function saying([look, answer]) {
    const { what, answers } = tables.looks[look];
    if (answer === UNSURE) return filled(words.could_not, { what });
    return answer === NONE_OF_THESE ? filled(words.saw_none, { what }) : answers[answer][2];
  }

  /* -- elements ----------------------------------------------------------------------------------------------------------------------- */
  function make(tag, attributes, ...children) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes || {})) if (value !== null) made.setAttribute(name, value);
    made.append(...children.filter((child) => child !== null && child !== ""));
    return made;
  }

  const told = (tag, attributes, ...children) => make(tag, { lang: page.dataset.told || null, ...attributes }, ...children);
  const link = (to, ...children) => make("a", { href: to }, ...children);
  const dated = (to) => home.dated(root + to);
  const drawing = ([src, width, height, text], alt) => make("img", { src: root + src, width, height, alt: alt === undefined ? text : alt });

  function button(text, to, picture, label) {
    const made = make("button", { type: "button", "aria-label": label || null }, picture || "", make("span", {}, text));
    made.addEventListener("click", () => {
      location.hash = to;
    });
    return made;
  }

  function nameLink(taxon, written = (name) => name) {
    const [, name, , to, harm] = tables.taxa[taxon];
    const shown = told("span", {}, link(dated(to), written(name)));
    if (harm) shown.append("\u00a0", make("span", { role: "img", "aria-label": words.harm_on_record }, "▲"));
    return shown;
  }

  function nameLinks(taxa, joint) {
    const made = make("span");
    taxa.forEach((taxon, n) => made.append(n === 0 ? "" : n === taxa.length - 1 ? ` ${joint} ` : ", ", nameLink(taxon)));
    return made;
  }

  /* A label with elements in the place of its braces. */
  function around(text, elements) {
    return text.split(/(\{\w+\})/).map((part) => elements[part.slice(1, -1)] || part);
  }

  /* -- what was seen so far ----------------------------------------------------------------------------------------------------------- */
  function soFar(state) {
    if (!state.given.length) return null;
    const flow = told("p", { class: "saw" });
    for (const pair of state.given) {
      const change = link(address({ ...state, open: pair[0] }), saying(pair));
      change.title = words.change;
      flow.append(change, " ");
    }
    return make("section", { "aria-labelledby": "saw" }, make("h2", { id: "saw" }, words.saw), flow, make("p", { class: "again" }, link("#saw=", words.again)));
  }

  /* -- a question --------------------------------------------------------------------------------------------------------------------- */
  function question(state, look) {
    const { ask, help, answers } = tables.looks[look];
    const others = { ...state, given: state.given.filter(([place]) => place !== look) };
    const now = rules.standing(others.given);
    const shown = rules.toShow(look, now);
    const drawn = shown.every((n) => answers[n][3]);
    const list = make("ul", { class: drawn ? "answers drawn" : "answers" });
    for (const n of shown) {
      const [, text, sentence, picture] = answers[n];
      list.append(told("li", {}, button(text, answered(state, look, n), drawn ? drawing(picture, "") : null, sentence)));
    }
    const beside = make(
      "ul",
      { class: "answers beside" },
      make("li", {}, button(words.cannot, answered(state, look, UNSURE))),
      make("li", {}, button(words.none, answered(state, look, NONE_OF_THESE)))
    );
    const heading = told("h2", { id: "asked", tabindex: "-1" }, ask);
    return make(
      "section",
      { "aria-labelledby": "asked", class: "asked" },
      heading,
      told("p", { class: "help" }, help),
      make("div", { role: "group", "aria-labelledby": "asked" }, list, beside),
      why(look, shown, now),
      leading(state, now)
    );
  }

  /* Which plants still possible each answer would fit. */
  function why(look, shown, now) {
    const { own, answers } = tables.looks[look];
    const judged = now.possible.filter((taxon) => rules.shows(tables.looks[look], taxon));
    const sentences = shown.map((n) => [answers[n][1], judged.filter((taxon) => own[n][taxon] !== "0")]);
    const silent = now.possible.filter((taxon) => !judged.includes(taxon));
    const made = make("details", {}, make("summary", {}, words.why), make("p"));
    for (const [answer, taxa] of sentences) if (taxa.length) made.lastChild.append(filled(words.answer_fits, { answer, names: few(taxa, words.and) }), " ");
    if (silent.length) made.lastChild.append(filled(words.unjudged, { names: few(silent, words.and) }));
    return made;
  }

  function leading(state, now) {
    const names = rules.names(now);
    if (!state.given.length || names.length !== 1) return null;
    const made = make("p", { class: "enough" }, ...around(words.so_far, { name: told("strong", {}, nameOf(names[0])) }));
    made.append(" ", link(address({ given: state.given, stop: true }), words.enough));
    return made;
  }

  /* -- the end ------------------------------------------------------------------------------------------------------------------------ */
  function end(state) {
    const now = rules.standing(state.given);
    const names = rules.names(now);
    const left = rules.harmfulLeft(now);
    const known = names.filter((taxon) => now.known.includes(taxon));
    const made = make("section", { "aria-labelledby": "end", class: "end" });
    made.append(heading(now, known.length ? known : names));
    if (left.length) made.append(make("p", { class: "short-care" }, ...around(words.still, { names: nameLinks(left, words.or) }))); // before what fills a screen
    const goesOn = rules.nextLook(state.given) !== null;
    if (names.length > 1 && !goesOn) made.append(make("p", {}, words.not_parted));
    const unknown = names.filter((taxon) => known.length && !known.includes(taxon));
    if (unknown.length) made.append(make("p", {}, ...around(words.hardly_known, { names: nameLinks(unknown, words.and) })));
    if (now.least > 0 && names.length) made.append(make("p", {}, words.not_all_fits));
    if (names.length < 4) made.append(...between(state, names));
    for (const taxon of names.length < 4 ? names : []) made.append(...named(state, now, taxon));
    const care = names.filter((taxon) => tables.taxa[taxon][4]);
    for (const taxon of names.length < 4 ? [] : care) made.append(told("p", { class: "short-care" }, tables.taxa[taxon][5]));
    if (left.length) made.append(...harmful(state, now, names, left));
    const others = now.possible.filter((taxon) => !names.includes(taxon) && !left.includes(taxon));
    if (others.length) made.append(make("p", {}, ...around(words.others, { names: nameLinks(others, words.or) })));
    if (state.given.some(([, answer]) => answer === NONE_OF_THESE)) made.append(make("p", {}, words.none_seen));
    made.append(make("p", {}, words.marked));
    made.append(make("p", { class: "none" }, words.beyond, " ", link("#leaves-out", words.leaves_out)));
    if (goesOn) made.append(make("p", {}, link(address({ given: state.given }), words.go_on)));
    return made;
  }

  function heading(now, names) {
    const made = make("h2", { id: "end", tabindex: "-1" });
    made.append(...(names.length ? around(now.least ? words.nearest : words.fits, { names: nameLinks(names, words.or) }) : [words.nothing_fits]));
    return made;
  }

  /* Of a few names that fit alike: how one is told from another. */
  function between(state, names) {
    const made = [];
    names.forEach((first, n) => names.slice(n + 1).forEach((second) => made.push(parted(state, first, second), make("p", {}, pairLink(first, second)))));
    return made.filter(Boolean);
  }

  /* What tells two apart that may be seen that day, if the tables hold it. */
  function parted(state, first, second) {
    const place = rules.parting(first, second, state.given);
    if (place === undefined) return null;
    const [sentence, , , claim] = tables.partings[pairOf(first, second)][place];
    return told("p", { "data-claim": claim }, sentence);
  }

  /* Of one name: its care, its drawings, and what would contradict it. */
  function named(state, now, taxon) {
    const [, name, latin, , harm, care, drawings] = tables.taxa[taxon];
    const made = [make("h3", {}, told("span", {}, capital(name)), " ", make("i", { lang: "la", class: "latin" }, latin))];
    if (care) made.push(told("p", { class: harm ? "short-care" : null }, care));
    const figures = make("div", { class: "drawings" });
    for (const picture of drawings) figures.append(make("figure", { class: "drawing" }, drawing(picture)));
    if (drawings.length) made.push(figures);
    const list = told("ul");
    const asked = rules.seenIn(state.given);
    for (const place of rules.doubts(taxon, state.given, now)) {
      const [before, after, seen, , , , claim] = tables.doubts[taxon][place];
      list.append(make("li", { "data-claim": claim }, before + (asked.has(seen) ? tables.again : "") + after));
    }
    if (list.children.length) made.push(make("h4", {}, words.contradict), list);
    return made;
  }

  /* The harmful ones that one wrong answer may have hidden: which answers speak against each, and how it is told from the name. */
  function harmful(state, now, names, left) {
    const list = make("ul", { class: "still" });
    for (const taxon of left) {
      const item = make("li", {}, make("p", {}, make("strong", {}, nameLink(taxon, capital)), told("span", {}, `: ${tables.taxa[taxon][4]}.`)));
      const apart = names.length ? parted(state, names[0], taxon) : null;
      if (apart) item.append(apart);
      const against = state.given.filter(([look, n]) => n >= 0 && rules.shows(tables.looks[look], taxon) && tables.looks[look].against[n][taxon] !== "0");
      if (against.length) {
        const again = make("span");
        against.forEach((pair) => again.append(" ", told("span", {}, link(address({ ...state, open: pair[0] }), saying(pair)))));
        item.append(make("p", {}, words.look_again, again));
      }
      if (names.length) item.append(make("p", {}, pairLink(names[0], taxon)));
      list.append(item);
    }
    return [make("h3", {}, words.harmful), list];
  }

  const pairOf = (a, b) => `${Math.min(a, b)}-${Math.max(a, b)}`;

  /* To the page of two taxa; where they have none of their own, to the page that tells any apart. */
  function pairLink(first, second) {
    const [a, b] = [first, second].map((taxon) => tables.taxa[taxon][0]);
    const own = tables.pages[pairOf(first, second)];
    const to = own ? dated(own) : home.dated(`${page.dataset.tell}?a=${a}&b=${b}`);
    return link(to, ...around(words.tell_apart, { first: told("span", {}, capital(nameOf(first))), second: told("span", {}, nameOf(second)) }));
  }

  /* -- the page ----------------------------------------------------------------------------------------------------------------------- */
  let before = [];

  function show(isFirst) {
    const state = read();
    const look = state.open === undefined && !state.stop ? rules.nextLook(state.given) : state.open;
    const ends = look === undefined || look === null;
    page.replaceChildren(...[ends ? end(state) : question(state, look), soFar(state)].filter(Boolean));
    if (!isFirst) {
      announce(state.given);
      const heading = page.querySelector(ends ? "#end" : "#asked");
      heading.focus();
      heading.scrollIntoView(); // the focus alone may leave it at the foot of a small screen, its answers below
    }
    before = state.given;
  }

  /* Says aloud what was noted; the heading that takes the focus says what comes next. */
  function announce(given) {
    const fresh = given.find(([look, answer]) => !before.some((known) => known[0] === look && known[1] === answer));
    document.getElementById("noted").textContent = fresh ? filled(words.noted, { sentence: saying(fresh) }) : "";
  }

  document.getElementById("without").hidden = true;
  window.addEventListener("hashchange", () => {
    if (location.hash === "" || location.hash.startsWith("#saw=")) show(false); // other anchors lead about the page
  });
  document.addEventListener("twayblade:day", () => {
    rules = reckoning(tables, home.day.number);
    show(true);
  });
  show(true);
})();
