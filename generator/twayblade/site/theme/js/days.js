/* Days of the year: whether one lies in runs of days, and in which order contrasts stand on it. Looking up, filtering, adding: what
   follows from what was worked out when the site was made. */
(function () {
  "use strict";
  const twayblade = (window.twayblade = window.twayblade || {});

  /* Whether a day of the circle (0 is 1 January, 365 is 31 December) lies in runs of first and last day, both included:
     [120, 200, 350, 10]. A run may cross new year. */
  function holds(runs, day) {
    for (let n = 0; n < runs.length; n += 2) {
      const first = runs[n], last = runs[n + 1];
      if (first <= last ? first <= day && day <= last : first <= day || day <= last) return true;
    }
    return false;
  }

  /* Where a contrast stands on a day, the best least: by its grade, then by on how many of its two taxa it is not expected. */
  function rank(grade, expected, day) {
    return 3 * grade + expected.filter((runs) => !holds(runs, day)).length;
  }

  /* Items by their rank; those of one rank stay in their order. */
  function ordered(items, rankOf) {
    return items
      .map((item, place) => ({ item, place, rank: rankOf(item) }))
      .sort((a, b) => a.rank - b.rank || a.place - b.place)
      .map((ranked) => ranked.item);
  }

  /* The first few of the items in order, no two of them the same observation: whoever sees the kind of a hair has seen the hairs. */
  function bestFew(items, lookOf, most) {
    const looks = new Set();
    return items.filter((item) => !looks.has(lookOf(item)) && looks.add(lookOf(item))).slice(0, most);
  }

  twayblade.days = { holds, rank, ordered, bestFew };
})();
