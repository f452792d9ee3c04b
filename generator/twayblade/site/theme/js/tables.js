/* What tells two taxa apart on a day, looked up in data/tell.js; writing/tell_tables.py says what stands there. */
(function () {
  "use strict";
  const twayblade = window.twayblade, data = twayblade.tell;
  const { holds, rank, ordered, bestFew } = twayblade.days;

  const fill = (sentence, words) => sentence.replace(/\{(\w+)\}/g, (_, name) => words[name]);
  const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

  /* The rows of two taxa, by their places in data.taxa, seen from the first: what is said of it comes first. */
  function rowsOf(first, second) {
    const turned = first > second;
    const [contrasts, never] = turned ? data.pairs[second][first - second - 1] : data.pairs[first][second - first - 1];
    const said = (row) => (turned ? [row[3], row[2]] : [row[2], row[3]]).map((place) => data.words[place]);
    const row = (row) => {
      const [trait, name, subject, pronoun, look, stages] = data.places[row[0]];
      const expected = [first, second].map((taxon) => data.days[data.taxa[taxon].expected[stages]]);
      const [own, others] = said(row);
      return { place: row[0], grade: row[1], trait, name, subject, pronoun, look, expected, own, others, taxa: [first, second] };
    };
    return {
      contrasts: contrasts.map((numbers) => {
        const aided = numbers.length > 5 ? numbers[5] : numbers[4];
        return Object.assign(row(numbers), { usable: numbers[4], aided });
      }),
      never: never.map((numbers) => Object.assign(row(numbers), { why: data.why[numbers[4]] })),
    };
  }

  /* What tells two taxa apart on a day: the best few, what else does then, what does with a lens, a ruler or a practised eye (first
     what does so then), what does by eye at another time, and what never to rely on; each the best first. */
  function tell(first, second, day) {
    const rows = rowsOf(first, second);
    const byRank = (items) => ordered(items, (row) => rank(row.grade, row.expected, day));
    const then = (days) => holds(data.days[days], day);
    const usable = byRank(rows.contrasts.filter((row) => then(row.usable)));
    const others = rows.contrasts.filter((row) => !then(row.usable));
    const now = bestFew(usable, (row) => row.look, data.most.contrasts);
    return {
      now,
      more: usable.filter((row) => !now.includes(row)),
      aided: byRank(others.filter((row) => then(row.aided))).concat(others.filter((row) => !then(row.aided) && !byEye(row))),
      later: others.filter((row) => !then(row.aided) && byEye(row)),
      never: byRank(rows.never).slice(0, data.most.never),
    };
  }

  /* The sentence of a row. Names stand as they are in the table. */
  function sentence(row) {
    const [first, second] = row.taxa.map((taxon) => data.taxa[taxon].name);
    const words = Object.assign({ first, second }, row);
    if (!("why" in row)) return fill(data.say.contrast, words);
    return fill(row.own === row.others ? data.say.alike : data.say.useless, words);
  }

  /* Whether a row can ever be used by eye. */
  function byEye(row) {
    return data.days[row.usable].length > 0;
  }

  /* When both show it, in words; empty for what can always be seen. aided: with a lens, a ruler or a practised eye. */
  function when(row, aided) {
    return data.when[aided ? row.aided : row.usable];
  }

  /* A remark on what is known from memory only; empty if nothing is. */
  function memory(row) {
    const recalled = row.taxa.map((taxon) => data.taxa[taxon]).filter((taxon) => taxon.memory.includes(row.place));
    return recalled.length ? fill(data.say.memory, { names: recalled.map((taxon) => taxon.name).join(data.say.and) }) : "";
  }

  /* A drawing of each of two taxa, by one piece, that shows a row's trait; nothing if there are not both. */
  function drawings(row) {
    const [own, others] = row.taxa.map((taxon) => data.taxa[taxon].drawn.filter((drawn) => drawn[3].includes(row.place)));
    for (const one of own) {
      const other = others.find((drawn) => data.pieces[drawn[0]][0] === data.pieces[one[0]][0]);
      if (other) return [one, other].map((drawn, side) => picture(row, row.taxa[side], side ? row.others : row.own, drawn));
    }
    return [];
  }

  function picture(row, taxon, said, [piece, width, height]) {
    const [kind, file, title] = data.pieces[piece], { id, name } = data.taxa[taxon];
    return {
      kind, width, height, caption: capital(name), key: `${id}-${file}`,
      address: fill(data.address.drawing, { id, piece: file }),
      text: `${capital(name)}: ${title}. ${capital(row.subject)} ${said}.`,
    };
  }

  /* The cautions of some taxa, the deadliest first. */
  function cautions(taxa) {
    return data.care.filter(([taxon]) => taxa.includes(taxon)).map(([, line]) => line);
  }

  /* The page of two taxa; nothing if they have none. */
  function page(first, second) {
    const [one, other] = [Math.min(first, second), Math.max(first, second)];
    const has = data.pages.some(([a, b]) => a === one && b === other);
    return has ? fill(data.address.pair, { first: data.taxa[one].id, second: data.taxa[other].id }) : "";
  }

  twayblade.tables = { tell, sentence, when, memory, drawings, cautions, page, fill, capital };
})();
