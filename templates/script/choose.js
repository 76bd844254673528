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
  const words = new Map();

  function fold(text) {
    return text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "");
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
    const more = words.get(one.card.dataset.slug) || "";
    return asked.every((word) => one.title.includes(word) || more.includes(" " + word));
  }

  function show() {
    const marks = wanted();
    const asked = search ? fold(search.value).split(/\s+/).filter(Boolean) : [];
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

  // The words of oils and notes are many: they are asked for when somebody first looks for one.
  function askForWords() {
    if (!search || !search.dataset.words || search.dataset.asked) return;
    search.dataset.asked = "yes";
    window.saponaryWords = (all) => {
      for (const [slug, text] of Object.entries(all)) words.set(slug, " " + text);
      show();
    };
    const script = document.createElement("script");
    script.src = search.dataset.words;
    document.head.append(script);
  }

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
  if (search) search.addEventListener("focus", askForWords);
  if (search && search.value) askForWords();
  show();
})();
