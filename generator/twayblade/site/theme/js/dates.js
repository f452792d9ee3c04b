/* Puts a page in the order of a day. Without scripts a page shows all it has, with months in words; what is hidden here stands elsewhere
   on it or is not of the day.

   data-undated, data-on-day   what is shown without a day, and with one
   data-pick                   of what it holds with data-days, only that of the day is shown
   data-dated                  holds sections; each takes items of the day from those before it, in this order
   data-takes                  on a section: what it takes, the name of the attribute of days (`days`, `perhaps`), or `rest`
   data-most                   on a section: it takes the best so many, no two of them the same observation
   data-none                   in a section: said if it takes nothing; without it the section goes

   Days stand as `120-200 350-10`: runs of first and last day of the circle. Items with data-grade and data-expected come the best first. */
(function () {
  "use strict";
  const twayblade = window.twayblade, { holds, rank, ordered, bestFew } = twayblade.days;

  function runsOf(text) {
    return text ? text.split(/[ -]/).map(Number) : [];
  }

  function isOf(element, days, day) {
    return days in element.dataset && holds(runsOf(element.dataset[days]), day);
  }

  function rankOf(item, day) {
    return rank(Number(item.dataset.grade), item.dataset.expected.split("/").map(runsOf), day);
  }

  /* What a section takes of the items that are left. */
  function taken(section, items, day) {
    const { takes, most } = section.dataset;
    const found = takes === "rest" ? items : items.filter((item) => isOf(item, takes, day));
    const ranked = found.every((item) => item.dataset.grade) ? ordered(found, (item) => rankOf(item, day)) : found;
    return most ? bestFew(ranked, (item) => item.dataset.look, Number(most)) : ranked;
  }

  function distribute(place, items, day) {
    let left = items;
    place.querySelectorAll("[data-takes]").forEach((section) => {
      const found = taken(section, left, day), none = section.querySelector("[data-none]");
      section.querySelector("ol, ul").append(...found);
      section.querySelector("ol, ul").hidden = !found.length;
      section.hidden = !found.length && !none;
      if (none) none.hidden = found.length > 0;
      left = left.filter((item) => !found.includes(item));
    });
  }

  function pick(element, isOfDay) {
    element.hidden = !isOfDay;
    if (element.matches("details")) element.open = isOfDay;
  }

  const places = [...document.querySelectorAll("[data-dated]")].map((place) => ({
    place, items: [...place.querySelectorAll("[data-takes] > * > li")], // in the order of the page, before any is moved
  }));

  function show() {
    const day = twayblade.day.number;
    document.querySelectorAll("[data-undated]").forEach((element) => { element.hidden = true; });
    document.querySelectorAll("[data-on-day]").forEach((element) => { element.hidden = false; });
    document.querySelectorAll("[data-pick] > [data-days]").forEach((element) => pick(element, isOf(element, "days", day)));
    places.forEach(({ place, items }) => distribute(place, items, day));
    twayblade.day.write(document);
  }

  document.addEventListener("twayblade:day", show);
  show();
})();
