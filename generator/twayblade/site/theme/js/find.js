/* Finds taxa by any of their names in data/names.js, in any language, small slips forgiven. */
(function () {
  "use strict";
  const twayblade = window.twayblade, data = twayblade.names;
  const MOST = 12;

  /* Letters without their marks, small; blanks, strokes and points part words. */
  function plain(text) {
    const bare = text.toLowerCase().replace(/œ/g, "oe").replace(/æ/g, "ae").replace(/ß/g, "ss").normalize("NFD").replace(/[\u0300-\u036f’']/g, "");
    return bare.replace(/[\s.,;:()/\u2010-\u2015-]+/g, " ").trim();
  }

  /* How many slips lead from what was typed to the beginning of a word or words: a letter too many, too few, wrong, or two exchanged. */
  function slips(typed, words) {
    let before = [], row = Array.from({ length: words.length + 1 }, (_, n) => n);
    for (let i = 1; i <= typed.length; i++) {
      const next = [i];
      for (let j = 1; j <= words.length; j++) {
        const same = typed[i - 1] === words[j - 1] ? 0 : 1;
        next[j] = Math.min(row[j] + 1, next[j - 1] + 1, row[j - 1] + same);
        if (i > 1 && j > 1 && typed[i - 1] === words[j - 2] && typed[i - 2] === words[j - 1]) next[j] = Math.min(next[j], before[j - 2] + 1);
      }
      before = row;
      row = next;
    }
    return Math.min(...row);
  }

  /* How far a name is from what was typed: 0 the name, 1 its beginning, 2 the beginning of a word in it, 3 any part of it, 4 and 5 one and two
     slips away; nothing if farther. A short word has no slips, or it would be any word. */
  function distance(typed, name) {
    if (name === typed) return 0;
    if (name.startsWith(typed)) return 1;
    if (` ${name}`.includes(` ${typed}`)) return 2;
    if (typed.length > 2 && name.replace(/ /g, "").includes(typed.replace(/ /g, ""))) return 3;
    const allowed = typed.length < 4 ? 0 : typed.length < 8 ? 1 : 2;
    const starts = [...name].reduce((found, letter, n) => (letter === " " ? found.concat(n + 1) : found), [0]);
    const least = allowed && Math.min(...starts.map((start) => slips(typed, name.slice(start, start + typed.length + allowed))));
    return allowed && least <= allowed ? 3 + Math.max(1, least) : undefined;
  }

  /* The taxa found, nearest first, each by its nearest name: [place of the taxon, the name, its language]. */
  function find(text) {
    const typed = plain(text), best = new Map();
    if (!typed) return [];
    data.names.forEach(([name, language, taxon]) => {
      const far = distance(typed, plain(name));
      if (far !== undefined && !(best.has(taxon) && best.get(taxon).far <= far)) best.set(taxon, { far, taxon, name, language });
    });
    return [...best.values()].sort((a, b) => a.far - b.far || a.taxon - b.taxon).slice(0, MOST).map((found) => [found.taxon, found.name, found.language]);
  }

  function shown([place, name, language], root) {
    const [address, common, latin, harm] = data.taxa[place], item = document.createElement("li"), link = document.createElement("a");
    link.href = root + twayblade.dated(address);
    link.textContent = common.charAt(0).toUpperCase() + common.slice(1);
    item.append(link, " ", marked("i", latin, "la", "latin"));
    if (harm) item.append(" ", marked("strong", harm, "en", "harm"));
    if (name !== common && name !== latin) item.append(" (", marked("span", name, language), ")");
    return item;
  }

  function marked(kind, words, language, look) {
    const element = document.createElement(kind);
    element.textContent = words;
    element.lang = language;
    if (look) element.className = look;
    return element;
  }

  function answer(place) {
    const field = place.querySelector("input"), list = place.querySelector("ul"), none = place.querySelector("[role=status]");
    const found = find(field.value);
    list.textContent = "";
    list.append(...found.map((each) => shown(each, place.dataset.root)));
    const say = !field.value.trim() ? "" : found.length ? "found" : "none";
    none.textContent = say && none.dataset[say].replace("{number}", found.length);
  }

  document.querySelectorAll("[data-find]").forEach((place) => {
    place.hidden = false;
    place.addEventListener("input", () => answer(place));
    place.addEventListener("keydown", (pressed) => {
      const first = place.querySelector("ul a");
      if (pressed.key === "Enter" && pressed.target.matches("input") && first) first.click();
    });
    answer(place); // a browser may fill the field in again when one comes back
  });

  twayblade.find = find;
})();
