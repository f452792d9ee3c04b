/* The day that pages speak of: `?on=2026-06-07` in the address, else today by the device. Other scripts find it as `twayblade.day` and hear
   of a change by the event `twayblade:day` of the document. */
(function () {
  "use strict";
  const twayblade = (window.twayblade = window.twayblade || {});
  const STARTS = [0, 31, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335]; // of the months, on a circle of 366 days
  const DATED = "[data-days], [data-date], [data-on-day]";
  const day = (twayblade.day = {});

  /* A date of the calendar; nothing for anything else, such as 2026-02-30. */
  function parse(text) {
    const parts = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text || "");
    const date = parts && new Date(+parts[1], parts[2] - 1, +parts[3]);
    return date && date.getMonth() === parts[2] - 1 ? date : undefined;
  }

  function iso(date) {
    const two = (number) => String(number).padStart(2, "0");
    return `${String(date.getFullYear()).padStart(4, "0")}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  }

  function asked() {
    return parse(new URLSearchParams(location.search).get("on"));
  }

  function read() {
    day.date = asked() || new Date();
    day.iso = iso(day.date);
    day.number = STARTS[day.date.getMonth()] + day.date.getDate() - 1;
  }

  /* An address of the site with the day that the reader asked for; as it is, where none was. Others of its questions stay. */
  twayblade.dated = function (address) {
    const [rest, anchor] = address.split("#"), [path, search] = rest.split("?");
    const asks = new URLSearchParams(search || "");
    if (asked()) asks.set("on", day.iso); else asks.delete("on");
    const query = asks.toString();
    return path + (query ? `?${query}` : "") + (anchor === undefined ? "" : `#${anchor}`);
  };

  /* The day in words, wherever a page has a place for it. */
  day.write = function (within) {
    const language = document.documentElement.lang;
    const words = day.date.toLocaleDateString(language === "en" ? "en-GB" : language, { day: "numeric", month: "long", year: "numeric" });
    within.querySelectorAll("[data-date]").forEach((place) => { place.textContent = words; });
  };

  /* Another day; today without one. The address changes with it, so that the page can be passed on as it is. */
  day.change = function (text) {
    const url = new URL(location.href);
    if (parse(text)) url.searchParams.set("on", text); else url.searchParams.delete("on");
    history.replaceState(history.state, "", url);
    show();
    document.dispatchEvent(new Event("twayblade:day"));
  };

  /* Links to pages of this site lead to the same day, unless they name one of their own. */
  function carry() {
    document.querySelectorAll("a[href]").forEach((link) => {
      const own = link.dataset.own === undefined ? link.getAttribute("href") : link.dataset.own;
      if (/^(\w+:|#)/.test(own) || !/\.html($|[?#])/.test(own) || /[?&]on=/.test(own)) return;
      link.dataset.own = own;
      link.setAttribute("href", twayblade.dated(own));
    });
  }

  function show() {
    read();
    const control = document.querySelector("[data-day]");
    if (control && document.querySelector(DATED)) {
      control.hidden = false;
      control.querySelector("input").value = day.iso;
      control.querySelector("[data-day-today]").hidden = !asked();
    }
    carry();
  }

  const control = document.querySelector("[data-day]");
  if (control) {
    const input = control.querySelector("input");
    input.addEventListener("change", () => { if (parse(input.value)) day.change(input.value); });
    control.querySelector("[data-day-today]").addEventListener("click", () => {
      day.change();
      input.focus(); // the button has gone
    });
  }
  show();
})();
