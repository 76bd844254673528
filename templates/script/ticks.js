// Keeps the ticks of a work order in this browser, by recipe and formula. The page works without it.
"use strict";
(() => {
  const home = document.querySelector("[data-ticks]");
  const key = home.dataset.ticks;
  const boxes = [...home.querySelectorAll("input[type=checkbox]")];
  const told = home.querySelector(".told");
  const clear = home.querySelector(".clear");
  let cleared = null;
  let keeps = true;

  const read = () => {
    try {
      return new Set(JSON.parse(localStorage.getItem(key)) ?? []);
    } catch {
      return new Set();
    }
  };
  const write = (ids) => {
    try {
      if (ids.size) localStorage.setItem(key, JSON.stringify([...ids]));
      else localStorage.removeItem(key);
      keeps = true;
    } catch {
      keeps = false;
    }
  };
  const tell = () => {
    const done = boxes.filter((box) => box.checked).length;
    const said = told.dataset.told.replace("##", boxes.length).replace("#", done);
    told.textContent = keeps ? said : `${said} ${told.dataset.lost}`;
    clear.textContent = cleared ? clear.dataset.back : clear.dataset.clear;
  };
  const show = (ids) => {
    for (const box of boxes) box.checked = ids.has(box.id);
    tell();
  };

  // Only what was touched is changed, so that a second window on the same recipe loses nothing.
  for (const box of boxes) {
    box.addEventListener("change", () => {
      const ids = read();
      if (box.checked) ids.add(box.id);
      else ids.delete(box.id);
      cleared = null;
      write(ids);
      tell();
    });
  }
  clear.addEventListener("click", () => {
    const before = new Set(boxes.filter((box) => box.checked).map((box) => box.id));
    const after = cleared ?? new Set();
    cleared = cleared || !before.size ? null : before;
    write(after);
    show(after);
  });
  addEventListener("storage", (event) => {
    if (event.key === key || event.key === null) show(read());
  });
  // A browser that fills in what was ticked before does so by now; those ticks may be another formula's.
  addEventListener("pageshow", (event) => {
    if (keeps || !event.persisted) show(read());
  });

  write(read());
  show(read());
  home.querySelector(".kept").hidden = false;

  // Over the net, a worker keeps what this page is made of, so that it opens again where there is none.
  const worker = document.querySelector("script[data-worker]").dataset.worker;
  const parts = () => {
    const loaded = performance.getEntriesByType("resource").map((one) => one.name);
    const pictures = [...document.images].map((image) => image.src);
    const here = location.href.split("#")[0];
    return [...new Set([here, ...loaded, ...pictures])].filter((url) => url.startsWith(location.origin));
  };
  const keepPage = async () => {
    await navigator.serviceWorker.register(worker);
    const ready = await navigator.serviceWorker.ready;
    ready.active.postMessage({ page: location.pathname, parts: parts() });
  };
  if (location.protocol.startsWith("http") && "serviceWorker" in navigator) {
    addEventListener("load", () => keepPage().catch(() => {}));
  }

  // Wet gloves wake no screen: ask that it stay lit, where the browser can.
  const stayLit = () => {
    if (document.visibilityState === "visible") navigator.wakeLock?.request("screen").catch(() => {});
  };
  document.addEventListener("visibilitychange", stayLit);
  stayLit();
})();
