/* Names an unknown plant by looking up tables and adding whole numbers; it knows nothing of plants. It does what `reasoning/naming.py` and
   `reasoning/naming_ends.py` do, and a test holds it to them. What the tables hold is told in `writing/naming_tables.py`. */
(function () {
  "use strict";
  const home = (window.twayblade = window.twayblade || {});
  const UNSURE = -1;
  const NONE_OF_THESE = -2;

  const digit = (text, place) => parseInt(text[place], 36);

  /* The rules over some tables on a day. An answer given is a pair of the place of a look and that of its answer, UNSURE or NONE_OF_THESE. */
  function reckoning(tables, day) {
    const on = tables.days.map((runs) => home.days.holds(runs, day));
    const places = tables.taxa.map((_, place) => place);
    const pairAt = (a, b) => (a * (2 * places.length - a - 1)) / 2 + b - a - 1;
    const shows = (look, place) => on[look.shown[place]];
    const seenIn = (given) => new Set(given.map(([look]) => tables.looks[look].seen));

    function standing(given) {
      const told = given.filter(([, answer]) => answer >= 0);
      const [against, seldom, judged] = [0, 1, 2].map(() => places.map(() => 0));
      for (const [place, answer] of told) {
        const look = tables.looks[place];
        for (const n of places.filter((taxon) => shows(look, taxon))) {
          against[n] += digit(look.against[answer], n);
          seldom[n] += look.own[answer][n] === "2" ? 1 : 0;
          judged[n] += 1;
        }
      }
      const here = places.filter((n) => tables.always[n] === "1" || on[tables.present[n]]);
      const known = here.filter((n) => 2 * judged[n] >= told.length);
      const measured = (known.length ? known : here).map((n) => against[n]);
      const least = measured.length ? Math.min(...measured) : 0;
      const leading = here.filter((n) => against[n] <= least);
      const possible = here.filter((n) => against[n] <= least + tables.margin);
      return { against, seldom, least, known, leading, possible };
    }

    function nextLook(given) {
      const now = standing(given);
      const done = new Set(given.map(([look]) => look));
      const seen = seenIn(given.filter(([, answer]) => answer !== UNSURE));
      const leads = new Set(now.leading);
      const apart = [];
      now.possible.forEach((a, n) => {
        for (const b of now.possible.slice(n + 1)) if (leads.has(a) || leads.has(b)) apart.push([a, b]);
      });
      let best = 0;
      let found = null;
      tables.looks.forEach((look, place) => {
        if (done.has(place) || seen.has(look.seen) || now.possible.some((n) => look.lacking[n] === "1")) return;
        let worth = 0;
        let score = 0;
        for (const [a, b] of apart) {
          if (shows(look, a) && shows(look, b)) worth += digit(look.worth, pairAt(a, b));
          score -= look.effort + (on[look.sure[a]] && on[look.sure[b]] ? 0 : tables.unsure);
        }
        if (worth && (found === null || worth + score > best)) [best, found] = [worth + score, place];
      });
      return found;
    }

    /* The answers to a look that some plant still possible may give. */
    function toShow(place, now) {
      const look = tables.looks[place];
      return look.answers.map((_, n) => n).filter((n) => now.possible.some((taxon) => look.own[n][taxon] !== "0"));
    }

    function names(now) {
      if (now.least > tables.margin) return [];
      const known = new Set(now.known);
      return now.leading.slice().sort((a, b) => !known.has(a) - !known.has(b) || now.seldom[a] - now.seldom[b] || a - b);
    }

    function doubts(name, given, now) {
      const others = now.possible.filter((n) => !names(now).includes(n));
      const asked = seenIn(given);
      const [nothing, again, plant] = tables.weights;
      const ranked = tables.doubts[name].map(([, , seen, worths, days, rank], place) => {
        const worth = others.reduce((sum, n) => sum + digit(worths, n), 0);
        return { place, seen, days, score: (worth ? 0 : nothing) + (asked.has(seen) ? again : 0) + rank - plant * worth };
      });
      const chosen = new Map();
      for (const doubt of ranked.filter(({ days }) => on[days]).sort((a, b) => a.score - b.score || a.place - b.place)) {
        if (!chosen.has(doubt.seen)) chosen.set(doubt.seen, doubt.place);
      }
      return [...chosen.values()].slice(0, tables.most);
    }

    function parting(first, second, given) {
      const found = tables.partings[`${Math.min(first, second)}-${Math.max(first, second)}`] || [];
      const asked = seenIn(given);
      const seen = found.map((_, place) => place).filter((place) => on[found[place][2]]);
      return seen.sort((a, b) => asked.has(found[a][1]) - asked.has(found[b][1]) || a - b)[0];
    }

    function harmfulLeft(now) {
      const named = names(now);
      return tables.deadliest.filter((n) => now.possible.includes(n) && !named.includes(n));
    }

    return { standing, nextLook, toShow, names, doubts, parting, harmfulLeft, shows, seenIn };
  }

  home.naming = { UNSURE, NONE_OF_THESE, reckoning };
})();
