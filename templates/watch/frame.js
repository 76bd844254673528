// The window around the pages of a watched book: shows a page anew when the book has changed, and what was found in it.
"use strict";

const byId = (id) => document.getElementById(id);
const page = byId("page"), status = byId("status"), fold = byId("fold"), findings = byId("findings");
let number = -1;
let shown = false;
let folded = false;

page.src = location.pathname + location.search + location.hash;
page.addEventListener("load", () => {
  const inside = page.contentDocument;
  if (!inside || page.contentWindow.location.origin !== location.origin) return;
  const at = page.contentWindow.location;
  history.replaceState(null, "", at.pathname + at.search + at.hash);
  document.title = inside.title;
  for (const link of inside.links) if (link.origin !== location.origin) link.target = "_blank";
  markEdition();
});

const markEdition = () => {
  const links = [...document.querySelectorAll("#editions a")];
  const here = links.filter((a) => location.pathname.startsWith(a.pathname)).sort((a, b) => b.pathname.length - a.pathname.length)[0];
  for (const a of links) a === here ? a.setAttribute("aria-current", "true") : a.removeAttribute("aria-current");
};

const listEditions = (editions) => {
  byId("editions").replaceChildren(...editions.map(({ name, address }) => {
    const item = document.createElement("li"), link = document.createElement("a");
    link.href = address;
    link.textContent = name;
    link.addEventListener("click", (event) => {
      event.preventDefault();
      page.contentWindow.location.assign(link.href);
    });
    item.append(link);
    return item;
  }));
  markEdition();
};

const asItem = (one) => {
  const item = byId("finding").content.cloneNode(true), at = (name) => item.querySelector(name);
  at("li").className = one.severity;
  at(".place").textContent = one.place;
  at(".severity").textContent = at(".severity").dataset[one.severity];
  at(".rule").textContent = one.rule;
  at(".what").textContent = one.message;
  at(".hint").textContent = one.hint;
  at(".hint").hidden = !one.hint;
  if (one.line.trim()) {
    const points = [...one.line], rest = points.slice(one.column - 1).join("");
    const [word] = rest.match(/^.?[\p{L}\p{N}.%_-]*/u);
    at(".line").hidden = false;
    at(".before").textContent = points.slice(0, one.column - 1).join("");
    at(".from").textContent = word;
    at(".after").textContent = rest.slice(word.length);
  }
  return item;
};

const lay = () => {
  const some = byId("list").children.length > 0;
  fold.hidden = !some;
  findings.hidden = !some || folded;
  fold.textContent = findings.hidden ? fold.dataset.show : fold.dataset.hide;
  fold.setAttribute("aria-expanded", String(!findings.hidden));
};

fold.addEventListener("click", () => {
  folded = !findings.hidden;
  lay();
});

const told = (state) => {
  const again = number >= 0 && state.number !== number;
  number = state.number;
  const kind = state.failed ? "failed" : state.count ? "warned" : "clean";
  status.className = kind;
  status.textContent = status.dataset[kind].replace("#", state.failed ? state.errors : state.count);
  byId("earlier").hidden = !(state.stopped && state.shows);
  byId("list").replaceChildren(...state.findings.map(asItem));
  const more = state.count - state.findings.length;
  byId("more").hidden = more === 0;
  byId("more").textContent = byId("more").dataset.more.replace("#", more);
  folded = !state.failed;
  lay();
  listEditions(state.editions);
  if (again && (!state.stopped || !shown)) page.contentWindow.location.reload();
  shown = state.shows;
};

const events = new EventSource("/-/events");
events.addEventListener("message", (event) => told(JSON.parse(event.data)));
events.addEventListener("error", () => {
  status.className = "failed";
  status.textContent = status.dataset.lost;
});
events.addEventListener("open", () => { number = number < 0 ? number : 0; });
