// Keeps the ticks of a work order in this browser, by recipe and formula. The page works without it.
"use strict";
(() => {
  const home = document.querySelector("[data-ticks]");
  const key = home.dataset.ticks;
  const boxes = [...home.querySelectorAll("input[type=checkbox]")];
  const told = home.querySelector(".told");

  const read = () => {
    try {
      return new Set(JSON.parse(localStorage.getItem(key)) ?? []);
    } catch {
      return new Set();
    }
  };
  const write = (ids) => {
    try {
      if (ids.length) localStorage.setItem(key, JSON.stringify(ids));
      else localStorage.removeItem(key);
      return true;
    } catch {
      return false;
    }
  };
  const tell = (kept) => {
    const done = boxes.filter((box) => box.checked).length;
    told.textContent = `${done} of ${boxes.length} done` + (kept ? "." : "; this browser keeps no ticks.");
  };
  const keep = () => tell(write(boxes.filter((box) => box.checked).map((box) => box.id)));

  const before = read();
  for (const box of boxes) {
    box.checked = before.has(box.id);
    box.addEventListener("change", keep);
  }
  home.querySelector(".again").addEventListener("click", () => {
    for (const box of boxes) box.checked = false;
    keep();
  });
  home.querySelector(".kept").hidden = false;
  keep();

  // Wet gloves wake no screen: ask that it stay lit, where the browser can.
  const stayLit = () => {
    if (document.visibilityState === "visible") navigator.wakeLock?.request("screen").catch(() => {});
  };
  document.addEventListener("visibilitychange", stayLit);
  stayLit();
})();
