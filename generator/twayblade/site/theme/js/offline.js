/* Keeps the site on the device for use without signal, and says so: how much, of what day, and when it was fetched. The reader may refuse it,
   and a device that is set to save data keeps nothing unless it is asked to. From a stick (file://) nothing of this happens: all is there. */
(function () {
  "use strict";
  const kept = (window.twayblade || {}).offline;
  const root = new URL("..", document.currentScript.src).href;
  const MINE = `twayblade ${root}`, CHOICE = "twayblade-offline";
  if (!location.protocol.startsWith("http") || !("serviceWorker" in navigator && window.caches && window.DecompressionStream)) return;
  if (!kept) return void forget(); // a site in the making: what was kept of it earlier would hide what is new

  const link = document.createElement("link"); // put in here, because it cannot be fetched from a stick
  link.rel = "manifest";
  link.href = `${root}manifest.webmanifest`;
  document.head.append(link);

  function choice() {
    try { return localStorage.getItem(CHOICE); } catch (barred) { return null; }
  }

  function choose(what) {
    try { localStorage.setItem(CHOICE, what); } catch (barred) { /* then it holds for this page only */ }
  }

  async function forget() {
    for (const each of await navigator.serviceWorker.getRegistrations()) if (each.scope === root) await each.unregister();
    await caches.delete(MINE);
  }

  /* When what is kept was fetched; nothing if not all of it is there. */
  async function fetched() {
    const registration = await navigator.serviceWorker.getRegistration(root);
    const mark = registration && registration.active && (await caches.match(`${root}fetched`, { cacheName: MINE }));
    return mark ? new Date(await mark.text()) : undefined;
  }

  function filled(words, when) {
    return words.replace("{size}", kept.size).replace("{when}", when);
  }

  async function show(isFetching) {
    const time = await fetched(), language = document.documentElement.lang;
    const when = time && time.toLocaleDateString(language === "en" ? "en-GB" : language, { day: "numeric", month: "long", year: "numeric" });
    const words = kept.words[when ? "kept" : isFetching ? "fetching" : "not_kept"];
    document.querySelectorAll("[data-offline=state]").forEach((place) => {
      place.textContent = filled(words, when);
      place.hidden = false;
    });
    document.querySelectorAll("[data-offline=choose]").forEach((button) => {
      const has = when || isFetching;
      button.textContent = filled(kept.words[has ? "forget" : "keep"]);
      button.onclick = () => {
        choose(has ? "no" : "yes");
        return has ? forget().then(() => show()) : keep();
      };
      button.hidden = false;
    });
  }

  async function keep() {
    try {
      const registration = await navigator.serviceWorker.register(`${root}offline.js`, { scope: root });
      const watch = () => {
        const coming = registration.installing;
        if (coming) coming.addEventListener("statechange", () => ["activated", "redundant"].includes(coming.state) && show());
      };
      registration.addEventListener("updatefound", watch);
      watch();
      show(!!registration.installing);
    } catch (failed) {
      show(); // without signal, or at an address that is not secure: what was kept before is what there is
    }
  }

  const saves = navigator.connection && navigator.connection.saveData;
  const start = () => (choice() === "no" || (saves && choice() !== "yes") ? show() : keep());
  if (document.readyState === "complete") start();
  else window.addEventListener("load", start); // the page first
})();
