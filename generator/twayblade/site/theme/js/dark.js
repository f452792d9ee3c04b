/* Light or dark as the reader chose it on this device; without a choice, as the system has it. Not deferred: a page must not flash up in
   the other one first. */
(function () {
  "use strict";
  const root = document.documentElement, KEPT = "twayblade-dark";

  function chosen() {
    try { return localStorage.getItem(KEPT); } catch (barred) { return null; } // a browser may bar pages from keeping anything
  }

  function isDark() {
    const choice = chosen();
    return choice ? choice === "yes" : matchMedia("(prefers-color-scheme: dark)").matches;
  }

  function show() {
    const choice = chosen();
    root.classList.toggle("dark", choice === "yes");
    root.classList.toggle("light", choice === "no");
    document.querySelectorAll("[data-dark]").forEach((place) => {
      place.hidden = false;
      place.querySelector("button").setAttribute("aria-pressed", String(isDark()));
    });
  }

  function turn() {
    try { localStorage.setItem(KEPT, isDark() ? "no" : "yes"); } catch (barred) { return; }
    show();
  }

  show();
  document.addEventListener("DOMContentLoaded", () => {
    show();
    document.querySelectorAll("[data-dark] button").forEach((button) => button.addEventListener("click", turn));
  });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", show);
  addEventListener("storage", show); // another page of the site, open beside this one
})();
