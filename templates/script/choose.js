// Chooses from a list of recipes. Without it the list stands whole, and the choices are not shown.
(() => {
  "use strict";
  const box = document.querySelector(".choose");
  if (!box) return;
  const cards = [...document.querySelectorAll(".card[data-marks]")].map((card) => ({
    card,
    marks: new Set(card.dataset.marks.split(" ")),
    title: fold(card.querySelector("h2, h3").textContent + " " + (card.querySelector(".text") || card).textContent),
  }));
  const none = document.querySelector(".none");
  const found = document.querySelector(".found");
  const fields = [...box.querySelectorAll("input, select")];
  const clear = box.querySelector(".clear");
  const search = box.querySelector("input[type=search]");
  const addresses = search && search.dataset.words ? search.dataset.words.split(" ") : [];
  const parts = new Map();
  const places = new Map();

  function fold(text) {
    const small = text.toLowerCase().replace(/\u00df/g, "ss").replace(/\u03c2/g, "\u03c3");
    return small.normalize("NFD").replace(/[\u0300-\u036f]/g, "");
  }

  function wanted() {
    const all = [];
    for (const field of fields) {
      if (!field.dataset.choice || field.value === "") continue;
      if (field.type === "radio" || field.type === "checkbox" ? field.checked : true) all.push(field.value);
    }
    return all;
  }

  function said(one, asked) {
    return asked.every((word) => one.title.includes(word) || placesOf(word).has(one.card.dataset.place));
  }

  function show() {
    const marks = wanted();
    const asked = search ? fold(search.value).split(/[^\p{L}\p{N}]+/u).filter(Boolean) : [];
    let count = 0;
    for (const one of cards) {
      const there = marks.every((mark) => one.marks.has(mark)) && said(one, asked);
      one.card.hidden = !there;
      if (there) count += 1;
    }
    if (none) none.hidden = count > 0;
    const any = marks.length > 0 || asked.length > 0;
    if (found) found.textContent = any ? found.dataset.told.replace("#", count).replace("#", cards.length) : "";
    if (clear) clear.hidden = !any;
  }

  // The words of oils and notes are many. They lie in several scripts, each of which is asked for when a word is
  // typed that would stand in it. Until it is there, titles and summaries alone are searched.
  function placesOf(word) {
    const [first, second] = word;
    if (!second || !addresses.length) return new Set();
    const part = (31 * first.codePointAt(0) + second.codePointAt(0)) % addresses.length;
    if (!parts.has(part)) {
      parts.set(part, {});
      const script = document.createElement("script");
      script.src = addresses[part];
      document.head.append(script);
    }
    if (!places.has(word)) {
      const found = new Set();
      for (const [known, gaps] of Object.entries(parts.get(part))) if (known.startsWith(word)) spread(gaps, found);
      places.set(word, found);
    }
    return places.get(word);
  }

  // "1+2 3" is 0, 1, 2 and 5: how far on from the one before, and how many more follow at once.
  function spread(gaps, found) {
    let at = -1;
    for (const gap of gaps.split(" ")) {
      const [on, more = 0] = gap.split("+").map(Number);
      at += on;
      for (let n = 0; n <= more; n += 1) found.add(String(at + n));
      at += more;
    }
  }

  window.saponaryWords = (part, words) => {
    parts.set(part, words);
    places.clear();
    show();
  };

  function clearAll() {
    for (const field of fields) {
      if (field.type === "radio" || field.type === "checkbox") field.checked = field.defaultChecked;
      else field.value = "";
    }
    show();
  }

  box.addEventListener("input", show);
  if (clear) clear.addEventListener("click", clearAll);
  window.addEventListener("pageshow", show);
  show();
})();
