/* The page that tells any two or three taxa apart: what is chosen stands in the address, and what follows from it on the page. */
(function () {
  "use strict";
  const twayblade = window.twayblade, { tables, tell: data } = twayblade;
  const choice = document.getElementById("choice"), told = document.getElementById("told"), summary = document.getElementById("summary");
  const fields = ["a", "b", "c"].map((id) => document.getElementById(id));

  function made(template) {
    return document.getElementById(template).content.firstElementChild.cloneNode(true);
  }

  /* What is chosen, as places in the table, each once. */
  function chosen() {
    const places = fields.map((field) => data.taxa.findIndex((taxon) => taxon.id === field.value));
    return places.filter((place, n) => place >= 0 && places.indexOf(place) === n);
  }

  function read() {
    const asked = new URLSearchParams(location.search);
    fields.forEach((field) => { field.value = data.taxa.some((taxon) => taxon.id === asked.get(field.id)) ? asked.get(field.id) : ""; });
  }

  function keep() {
    const asked = new URLSearchParams(location.search);
    fields.forEach((field) => (field.value ? asked.set(field.id, field.value) : asked.delete(field.id)));
    history.replaceState(null, "", `?${asked}`);
  }

  function showRow(row, part, drawn) {
    const item = made("row"), isContrast = part !== "never";
    const when = isContrast && tables.when(row, part === "aided"), recalled = isContrast && tables.memory(row);
    item.dataset.claim = [row.trait].concat(row.taxa.map((taxon) => data.taxa[taxon].id)).join("/");
    item.querySelector("[data-text]").textContent = tables.sentence(row) + (recalled ? ` (${recalled})` : "");
    const shown = item.querySelector("[data-when]");
    if (when) shown.textContent = tables.fill(shown.textContent, { days: when });
    else shown.remove();
    row.taxa.forEach((taxon, n) => {
      const link = document.createElement("a"), { id, name } = data.taxa[taxon];
      link.href = twayblade.dated(tables.fill(data.address.value, { id, trait: row.trait }));
      link.textContent = name;
      item.querySelector("[data-sources]").append(n ? ", " : " ", link);
    });
    showDrawings(item.querySelector(".two"), drawn);
    return item;
  }

  function showDrawings(place, drawn) {
    if (!drawn.length) return place.remove();
    drawn.forEach((picture) => {
      const figure = document.createElement("figure"), image = document.createElement("img"), caption = document.createElement("figcaption");
      figure.className = "drawing";
      Object.assign(image, { src: picture.address, alt: picture.text, width: picture.width, height: picture.height });
      caption.textContent = picture.caption;
      figure.append(image, caption);
      place.append(figure);
    });
  }

  /* Drawings go with the best few only, each once: two contrasts may be seen in the same piece. */
  function drawingsOf(rows) {
    const kinds = new Set();
    return rows.map((row) => {
      const drawn = tables.drawings(row);
      if (!drawn.length || kinds.has(drawn[0].kind)) return [];
      kinds.add(drawn[0].kind);
      return drawn;
    });
  }

  function showPair(first, second) {
    const section = made("pair"), found = tables.tell(first, second, twayblade.day.number), page = tables.page(first, second);
    const [one, other] = [first, second].map((taxon) => data.taxa[taxon].name);
    section.querySelector("h2").textContent = tables.fill(section.dataset.title, { first: tables.capital(one), second: other });
    if (page) section.querySelector("[data-page] a").href = twayblade.dated(page);
    else section.querySelector("[data-page]").remove();
    for (const name of ["now", "more", "aided", "later", "never"]) {
      const part = section.querySelector(`[data-part=${name}]`), drawn = name === "now" ? drawingsOf(found.now) : [];
      if (found[name].length) part.lastElementChild.append(...found[name].map((row, n) => showRow(row, name, drawn[n] || [])));
      else part.remove();
    }
    if (found.now.length) section.querySelector("[data-part=nothing]").remove();
    return section;
  }

  function linkTo(heading, id) {
    const link = document.createElement("a");
    heading.id = id;
    link.href = `#${id}`;
    link.textContent = heading.textContent;
    return link;
  }

  function show() {
    const taxa = chosen();
    told.textContent = "";
    summary.textContent = "";
    document.getElementById("missing").hidden = taxa.length < 2;
    if (taxa.length < 2) return;
    const lines = tables.cautions(taxa);
    if (lines.length) {
      const care = made("harm");
      lines.forEach((line) => (care.querySelector("ul").appendChild(document.createElement("li")).textContent = line));
      told.append(care);
    }
    taxa.forEach((first, n) => taxa.slice(n + 1).forEach((second) => told.append(showPair(first, second))));
    twayblade.day.write(told);
    told.querySelectorAll("h2").forEach((heading, n) => summary.append(n ? " " : "", linkTo(heading, `told-${n + 1}`)));
  }

  read();
  choice.hidden = false;
  document.querySelectorAll("[data-plain]").forEach((plain) => { plain.hidden = true; });
  choice.addEventListener("change", () => { keep(); show(); });
  window.addEventListener("popstate", () => { read(); show(); });
  document.addEventListener("twayblade:day", show);
  show();
})();
