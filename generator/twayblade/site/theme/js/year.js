/* Draws the line of the chosen day into charts of the year. */
(function () {
  "use strict";
  const DAYS = 366, day = (window.twayblade || {}).day;
  if (!day) return;

  function draw() {
    document.querySelectorAll("svg .today").forEach((line) => {
      const along = (day.number - line.dataset.first + DAYS) % DAYS, at = `${((along + 0.5) / DAYS) * 100}%`;
      line.setAttribute("x1", at);
      line.setAttribute("x2", at);
      line.removeAttribute("visibility");
    });
    document.querySelectorAll(".today-key").forEach((key) => {
      key.hidden = false;
      day.write(key);
    });
  }

  document.addEventListener("twayblade:day", draw);
  draw();
})();
